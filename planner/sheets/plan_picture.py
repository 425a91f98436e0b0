"""What is drawn of a plan on a day: beds, plots with their plants, structures, shadows, in plan coordinates."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.amounts.covers import laid_covers
from planner.garden import Bed, Planting, Structure
from planner.ground.obstacles import footprint
from planner.ground.ribs import Line, marks, ribs
from planner.ground.shapes import plan_polygon, shape_to_plan, to_plan, turned
from planner.light import beam_at
from planner.light.shadow import drawn_shadows
from planner.plan import Plan
from planner.sheets.drawn_things import STAND_ALONE
from planner.sheets.family_inks import Ink, family_ink
from planner.words import capital, key_words

#: Structures in the order in which they are drawn: these below the beds, these above them; the rest between.
_BELOW, _ABOVE = ("tunnel", "glasshouse", "lawn"), ("tree", "arch")
#: Room around the beds where only some are drawn. [m]
AROUND_BEDS = 0.6


@dataclass(frozen=True)
class PicturedPlot:
    """A planting's plot.

    Attributes
    ----------
    planting : str
        Its id.
    names : tuple of str
        What it may be called, the fullest first.
    ground : shapely.Geometry
        On the plan. [m]
    turn : float
        Direction of its bed's long axis. [degrees anticlockwise from plan-right]
    ink : Ink
    growth_form : str
    stations : numpy.ndarray
        Places of its plants (n, 2). [m]
    radius : float
        Of a plant on the day, no more than its room. [m]
    """

    planting: str
    names: tuple[str, ...]
    ground: shapely.Geometry
    turn: float
    ink: Ink
    growth_form: str
    stations: NDArray[np.float64]
    radius: float


@dataclass(frozen=True)
class PicturedBed:
    """A bed; its plots are empty where it is only shown as a neighbour."""

    name: str
    ground: shapely.Polygon
    plots: tuple[PicturedPlot, ...]
    chosen: bool


@dataclass(frozen=True)
class PicturedStructure:
    """A structure: its kind, its ground and the lines that tell its kind, on the plan. [m]"""

    name: str
    kind: str
    ground: shapely.Polygon
    feet: shapely.Geometry
    ribs: tuple[Line, ...]
    marks: tuple[Line, ...] = ()

    @property
    def layer(self) -> int:
        """-1 below the beds, 1 above them, else 0."""
        return -1 if self.kind in _BELOW else 1 if self.kind in _ABOVE else 0


@dataclass(frozen=True)
class PicturedCover:
    """A cover that lies on the day: its kind, the ground under it, and its hoops, on the plan. [m]"""

    kind: str
    ground: shapely.Polygon
    hoops: tuple[Line, ...]


@dataclass(frozen=True)
class PicturedSupport:
    """A support that stands on the day: its kind, what it stands on, and the lines along which it stands, on the plan. [m]"""

    kind: str
    feet: shapely.Geometry
    lines: tuple[shapely.LineString, ...]


@dataclass(frozen=True)
class PlanPicture:
    """All that is drawn, and the box about it.

    Attributes
    ----------
    beds, structures : tuple
    outline : shapely.Polygon or None
        Of the garden. [m]
    shadows : tuple of (float, shapely.Geometry)
        Opacity and ground. [0 to 1, m]
    bounds : tuple of float
        Left, low, right and high of what is drawn. [m]
    covers, supports : tuple
        Those that are there on the day.
    """

    beds: tuple[PicturedBed, ...]
    structures: tuple[PicturedStructure, ...]
    outline: shapely.Polygon | None
    shadows: tuple[tuple[float, shapely.Geometry], ...]
    bounds: tuple[float, float, float, float]
    covers: tuple[PicturedCover, ...] = ()
    supports: tuple[PicturedSupport, ...] = ()

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to draw."""
        return not self.beds and not self.structures and self.outline is None


def plan_picture(
    plan: Plan, day: dt.date, moment: dt.datetime | None = None, beds: Sequence[Bed] | None = None
) -> PlanPicture:
    """Collect what is drawn of a plan.

    Parameters
    ----------
    plan : Plan
    day : date
        Plantings that have their plot on it are drawn, their plants as large as they are on it.
    moment : datetime, optional
        For its shadows, by the place's clocks.
    beds : sequence of Bed, optional
        Only these with what grows in them, and the ground about them; all by default.

    Raises
    ------
    BedwrightError
        For a moment where the garden has no place.
    """
    chosen = {bed.id for bed in plan.beds} if beds is None else {bed.id for bed in beds}
    pictured = tuple(_bed(plan, bed, day, chosen=bed.id in chosen) for bed in plan.beds)
    structures = tuple(_structure(one) for one in plan.garden.structures if one.in_use(plan.year))
    site = plan.garden.site
    outline = plan_polygon(site.outline) if site.outline is not None else None
    shadows = (
        () if moment is None else drawn_shadows(plan.casters(moment.date()), beam_at(plan.place, moment))
    )
    if beds is None:
        grounds = [*(bed.ground for bed in pictured), *(one.ground for one in structures)]
        grounds += [outline] if outline is not None else []
        extent = shapely.total_bounds(grounds) if grounds else np.zeros(4)
    else:
        extent = shapely.total_bounds([one.ground for one in pictured if one.chosen])
        extent = extent + AROUND_BEDS * np.array([-1, -1, 1, 1])
    left, low, right, high = (float(value) for value in extent)
    return PlanPicture(
        pictured,
        structures,
        outline,
        tuple(shadows),
        (left, low, right, high),
        tuple(_covers(plan, chosen, day)),
        tuple(_supports(plan, chosen, day)),
    )


def _covers(plan: Plan, chosen: Collection[str], day: dt.date) -> Iterator[PicturedCover]:
    """The covers on a day over what grows in some beds; a long one over several of them is one."""
    if not any(planting.covers for planting in plan.garden.plantings):
        return
    for cover in laid_covers(plan):
        parts = [part.ground for part in cover.parts if part.bed.id in chosen]
        if not parts or not cover.first <= day <= cover.last or cover.held == "stands":
            continue
        turn = parts[0].direction
        left, right = min(part.start for part in parts), max(part.end for part in parts)
        low, high = min(part.low for part in parts), max(part.high for part in parts)
        hoops = []
        for x in np.linspace(left, right, cover.size.hoops).tolist() if cover.size.hoops else ():
            ends = shapely.get_coordinates(turned(shapely.LineString([(x, low), (x, high)]), turn))
            hoops.append((tuple(ends[0].tolist()), tuple(ends[1].tolist())))
        yield PicturedCover(cover.kind, turned(shapely.box(left, low, right, high), turn), tuple(hoops))


def _supports(plan: Plan, chosen: Collection[str], day: dt.date) -> Iterator[PicturedSupport]:
    """The supports that stand on a day; arches are structures."""
    for planting in plan.plantings:
        if planting.support is None or planting.bed not in chosen or not plan.span_of(planting).holds(day):
            continue
        up, built = plan.dates(planting).support_up, plan.built_support(planting)
        if built is None or (up is not None and day < up.day):
            continue
        outline = plan.bed_of(planting).outline
        along = () if built.kind in STAND_ALONE else built.lines
        lines = tuple(shape_to_plan(outline, line) for line in along)
        yield PicturedSupport(built.kind, shape_to_plan(outline, built.ground), lines)


def _bed(plan: Plan, bed: Bed, day: dt.date, *, chosen: bool) -> PicturedBed:
    growing = [p for p in plan.in_bed(bed) if plan.span_of(p).holds(day)] if chosen else []
    plots = tuple(_plot(plan, bed, planting, day) for planting in growing)
    return PicturedBed(bed.name, plan_polygon(bed.outline), plots, chosen)


def _plot(plan: Plan, bed: Bed, planting: Planting, day: dt.date) -> PicturedPlot:
    from planner.ground.shapes import bed_axis

    crop, placed = plan.figures_of(planting).crop, plan.placed(planting)
    layout = placed.layout
    name = capital(crop.name if crop else planting.crop)
    full = " ".join(part for part in (name, planting.variety) if part)
    spacings = [spacing for spacing in (layout.in_row_spacing, layout.row_spacing) if spacing]
    room = min(spacings, default=(placed.area / max(layout.count, 1)) ** 0.5)
    return PicturedPlot(
        planting=planting.id,
        names=tuple(dict.fromkeys((full, name))),
        ground=plan.plot_on_plan(planting),
        turn=bed.outline.turn + bed_axis(bed.outline),
        ink=family_ink(crop.family if crop else ""),
        growth_form=crop.growth_form if crop else "bush",
        stations=to_plan(bed.outline, layout.points),
        radius=min(plan.size(planting, day).spread, room) / 2,
    )


def _structure(structure: Structure) -> PicturedStructure:
    return PicturedStructure(
        name=structure.name or key_words(structure.kind),
        kind=structure.kind,
        ground=plan_polygon(structure.outline),
        feet=footprint(structure) if structure.kind == "arch" else shapely.Polygon(),
        ribs=ribs(structure),
        marks=marks(structure),
    )
