"""A planting with everything that the rules need of it."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.crops import Crop
from planner.crops.figures import Figure
from planner.garden import Bed, Planting
from planner.garden.planting import SupportKind
from planner.garden.planting_figures import PlantingFigures
from planner.garden.site import UnitSystem
from planner.ground.bed_spacing import bed_spacings
from planner.ground.place import Placed
from planner.ground.shapes import to_plan
from planner.lazy import lazy_property
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.growth import Size, size_on
from planner.season.planting_dates import Dates
from planner.season.practice import frost_cuts_shoots, tender, very_hardy
from planner.season.practice import stays_for_years as crop_stays_for_years
from planner.season.spans import Span
from planner.words import day_words, say

#: Place of a finding that has none.
NOWHERE = shapely.Polygon()

#: Least spread of a crop that runs beyond its row (practice). [m]
WIDE = 0.8
#: Most plants whose ground is one disc each; more fill their plot.
FEW = 60


class PlantGrowth(NamedTuple):
    """What the size and the need of one plant of a planting depend on, wherever it grows.

    Attributes
    ----------
    figures : PlantingFigures
    dates : Dates
    span : Span
    family : str
        Botanical family; the planting's id if the catalogue does not have the crop.
    own_spacing : float or None
        Least distance between two plants of the planting. [m]
    most_need : float
        Width of ground needed by a full-grown plant beside another planting. [m]
    """

    figures: PlantingFigures
    dates: Dates
    span: Span
    family: str
    own_spacing: float | None
    most_need: float

    def size(self, day: dt.date) -> Size:
        """Height and spread on a day."""
        return size_on(self.figures, self.dates, self.span, day)


@dataclass(frozen=True, eq=False)
class PlantingView:
    """A planting in a growing year, with all that the checks read of it.

    It is cached as long as everything in it stays the same: facts may take it as an input.

    Attributes
    ----------
    planting, bed, figures, placed, dates, span
        As in the plan.
    units : {"metric", "feet_inches"}
        In which numbers are shown.
    year : int
        The growing year that is checked.
    plot : shapely.Geometry
        On the plan. [m]
    shelter : tuple of str
        Kinds of shelter of its bed: a roof, or a warm wall; empty in the open.
    """

    planting: Planting
    bed: Bed
    figures: PlantingFigures
    placed: Placed
    dates: Dates
    span: Span
    units: UnitSystem
    year: int
    plot: shapely.Geometry
    shelter: tuple[str, ...]

    @property
    def id(self) -> str:
        """Id of the planting."""
        return self.planting.id

    @property
    def crop(self) -> Crop | None:
        """The crop, if the catalogue has it."""
        return self.figures.crop

    @lazy_property
    def ground(self) -> shapely.Geometry:
        """Ground occupied on the plan. [m]

        Its plot; for single plants and interplanted crops the union of one disc per plant.
        """
        single = self.planting.arrangement.kind == "places" or self.planting.shares_ground
        if not single or not 0 < len(self.points) <= FEW:
            return self.plot
        discs = shapely.buffer(shapely.points(self.points), self.most_need / 2, quad_segs=4)
        return shapely.intersection(shapely.union_all(discs), self.plot)

    @lazy_property
    def points(self) -> NDArray[np.float64]:
        """Its stations on the plan, shape (n, 2). [m]"""
        points = to_plan(self.bed.outline, self.placed.layout.points)
        points.flags.writeable = False
        return points

    @property
    def crop_name(self) -> str:
        """Name of the crop, with the variety if there is one."""
        name = self.crop.name if self.crop is not None else self.planting.crop
        variety = self.planting.variety
        return say("{crop} '{variety}'", crop=name, variety=variety) if variety else name

    @property
    def name(self) -> str:
        """Name of the crop and of its bed."""
        return say("{crop} in {bed}", crop=self.crop_name, bed=self.bed.name)

    @property
    def starts_here(self) -> bool:
        """Whether it belongs to the growing year that is checked, not to one before."""
        return self.planting.year == self.year

    @lazy_property
    def stays_for_years(self) -> bool:
        """Whether it is perennial."""
        return crop_stays_for_years(self.crop)

    @lazy_property
    def tender(self) -> bool:
        """Whether frost kills it."""
        return tender(self.crop)

    @property
    def tender_shoots(self) -> bool:
        """Whether frost cuts its shoots although its roots are hardy."""
        return frost_cuts_shoots(self.crop, self.dates.start)

    @lazy_property
    def very_hardy(self) -> bool:
        """Whether it survives hard frost."""
        return very_hardy(self.crop)

    @property
    def sheltered(self) -> bool:
        """Whether it grows under glass."""
        return self.dates.sheltered

    @property
    def manure(self) -> bool:
        """Whether it is green manure."""
        return self.planting.purpose == "green manure"

    @property
    def wanted_support(self) -> SupportKind | None:
        """The kind of support its crop wants, if any."""
        entry = self.crop.support if self.crop is not None else None
        if entry is None or not entry.applies or entry.value in (None, "none"):
            return None
        return entry.value  # type: ignore[return-value]  # the catalogue checks the word

    @lazy_property
    def for_beds(self) -> bool:
        """Whether it is planted by the spacing for beds."""
        arrangement = self.planting.arrangement
        if arrangement.kind not in ("rows", "staggered") or arrangement.spacing_for != "beds":
            return False
        return bed_spacings(self.figures) is not None

    @lazy_property
    def own_spacing(self) -> float | None:
        """Least distance between two of its own plants, by its arrangement or its crop. [m]"""
        layout = self.placed.layout
        spacings = [d for d in (layout.in_row_spacing, layout.row_spacing) if d is not None]
        if spacings:
            return min(spacings)
        if self.planting.arrangement.kind == "scatter":
            return math.sqrt(self.placed.area / layout.count) if layout.count else None
        return self.number("in_row_spacing")

    @lazy_property
    def most_need(self) -> float:
        """Width of ground needed by one full-grown plant beside a plant of another planting. [m]

        A crop that spreads wide runs out of its row: it needs as much to all sides as on a square lattice of its ground.
        """
        spread = self.number("spread") or self.number("in_row_spacing") or 0.3
        own, layout = self.own_spacing, self.placed.layout
        rows = layout.row_spacing if layout.row_count > 1 or self.for_beds else self.number("row_spacing")
        in_row = layout.in_row_spacing or self.number("in_row_spacing")
        if spread >= WIDE and rows is not None and in_row is not None:
            own = max(own or 0.0, math.sqrt(in_row * rows))
        return spread if own is None else min(own, spread)

    @lazy_property
    def growth(self) -> PlantGrowth:
        """What the size and the need of one of its plants depend on."""
        family = self.crop.family if self.crop is not None else self.id
        return PlantGrowth(self.figures, self.dates, self.span, family, self.own_spacing, self.most_need)

    def size(self, day: dt.date) -> Size:
        """Height and spread of its plants on a day."""
        return size_on(self.figures, self.dates, self.span, day)

    def number(self, field: str) -> float | None:
        """A figure in SI units of its variety, else of its crop; None if it is unknown or does not apply."""
        return self.figures.number(field)

    def figure(self, field: str) -> Figure | None:
        """A figure of its crop with range and source; None if the variety or this garden's own years have another."""
        if self.figures.learned_source(field):
            return None
        if self.figures.variety is not None and self.figures.variety.number(field) is not None:
            return None
        found = getattr(self.crop, field, None) if self.crop is not None else None
        return found if isinstance(found, Figure) and found.applies else None

    def source(self, field: str) -> str:
        """Key of the source of a figure, or this garden with its years; ``practice`` if there is none."""
        learned = self.figures.learned_source(field)
        if learned:
            return learned
        found = getattr(self.crop, field, None) if self.crop is not None else None
        return (found.source or "practice") if found is not None else "practice"

    def day(self, day: dt.date) -> str:
        """A day in a sentence: 20 Apr, with the year if that is not the one checked."""
        return day_words(day, self.year)


class ViewInputs(NamedTuple):
    """The fields of a :class:`PlantingView`."""

    planting: Planting
    bed: Bed
    figures: PlantingFigures
    placed: Placed
    dates: Dates
    span: Span
    units: UnitSystem
    year: int
    plot: shapely.Geometry
    shelter: tuple[str, ...]


@fact("planting view")
def view_of_planting(inputs: ViewInputs) -> PlantingView:
    """The view of a planting."""
    return PlantingView(*inputs)


def planting_view(plan: Plan, planting: Planting) -> PlantingView:
    """The view of a planting, from the cache of the plan.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden, in any growing year.
    """
    inputs = ViewInputs(
        planting=planting,
        bed=plan.bed_of(planting),
        figures=plan.figures_of(planting),
        placed=plan.placed(planting),
        dates=plan.dates(planting),
        span=plan.span_of(planting),
        units=plan.garden.site.units,
        year=plan.year,
        plot=plan.plot_on_plan(planting),
        shelter=plan.shelter_of(plan.bed_of(planting)),
    )
    return plan.cached(view_of_planting, planting.id, inputs)


def planting_views(plan: Plan, plantings: Iterable[Planting]) -> tuple[PlantingView, ...]:
    """The views of some plantings, by id."""
    return tuple(sorted((planting_view(plan, p) for p in plantings), key=lambda one: one.id))


def shared(one: Span, other: Span) -> Span | None:
    """Days that two spans have in common; None if there are none.

    Parameters
    ----------
    one, other : Span
    """
    first, last = max(one.first, other.first), min(one.last, other.last)
    return Span(first, last) if first <= last else None
