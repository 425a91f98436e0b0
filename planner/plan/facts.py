"""The facts of a plan: for each kind its inputs, and the work that derives it from them alone."""

from __future__ import annotations

import datetime as dt
import operator
from typing import TYPE_CHECKING, NamedTuple

import shapely

from planner.crops import Catalogue, Crop
from planner.garden import Bed, Climate, Outline, Planting, RecordBase, Site, Structure, Support, Variety
from planner.garden.learned import LearnedFigures
from planner.garden.planting_figures import PlantingFigures
from planner.ground.arches import arch_beside
from planner.ground.built_support import BuiltSupport
from planner.ground.obstacles import bed_obstacles, footprints
from planner.ground.place import Placed, place_planting
from planner.ground.shapes import shape_to_plan, to_plan
from planner.ground.shelter import SHELTERING, shelter_of
from planner.ground.supports import built_support
from planner.plan.cache import fact
from planner.season.frosts import Frosts, frosts
from planner.season.planting_dates import Dates
from planner.season.spans import Span, planting_span
from planner.season.start_windows import StartWindow, is_good_start, outer_window, start_windows
from planner.season.work_out_dates import DateInputs, work_out

if TYPE_CHECKING:
    from planner.season.lived.lived_years import Lived
    from planner.season.lived.odds import Odds
    from planner.season.lived.recorded_weather import RecordedWeather


class WorldInputs(NamedTuple):
    """All of a garden that the times of a planting depend on, besides the planting itself and its bed."""

    site: Site
    climate: Climate
    varieties: tuple[Variety, ...]
    records: tuple[RecordBase, ...]
    catalogue: Catalogue
    year: int
    sheltering: tuple[Structure, ...]
    learned: tuple[tuple[tuple[str, ...], LearnedFigures], ...] = ()


class World:
    """One object for as long as all of its inputs are the same objects."""

    def __init__(self, inputs: WorldInputs) -> None:
        self.inputs = inputs


@fact("world")
def world_of_garden(inputs: WorldInputs) -> World:
    """What all plantings of a garden share."""
    return World(inputs)


class PlantingInWorld(NamedTuple):
    """Everything that the facts of one planting depend on."""

    world: World
    planting: Planting
    bed: Bed


class PlantingFacts:
    """Figures and times of one planting in one world, each worked out when it is first asked for.

    Everything in it follows from ``world``, ``planting`` and ``bed``: it holds as long as these are the
    same objects.  The fields that may be None are filled by :class:`planner.plan.plan.Plan`, with values
    from the cache.
    """

    __slots__ = ("bed", "dates", "figures", "lived", "planting", "span", "world")

    def __init__(self, inputs: PlantingInWorld) -> None:
        self.world, self.planting, self.bed = inputs.world.inputs, inputs.planting, inputs.bed
        self.figures: PlantingFigures | None = None
        self.dates: Dates | None = None
        self.span: Span | None = None
        #: With the recorded weather that it was lived through.
        self.lived: tuple[RecordedWeather, Lived | None, Odds | None] | None = None


@fact("planting facts")
def facts_of_planting(inputs: PlantingInWorld) -> PlantingFacts:
    """The facts of one planting, none of them worked out yet."""
    return PlantingFacts(inputs)


class ShelteringInputs(NamedTuple):
    """Of a growing year."""

    structures: tuple[Structure, ...]
    year: int


@fact("sheltering structures", equal=operator.eq)
def sheltering_structures(inputs: ShelteringInputs) -> tuple[Structure, ...]:
    """Structures that may shelter beds, without their names and notes."""
    return tuple(
        one.with_(name="", notes="")
        for one in inputs.structures
        if one.kind in SHELTERING and one.in_use(inputs.year)
    )


class ShelterInputs(NamedTuple):
    """Of a bed.

    Attributes
    ----------
    bed : Bed
    sheltering : tuple of Structure
    site : Site
        Says where the sun stands.
    """

    bed: Bed
    sheltering: tuple[Structure, ...]
    site: Site


@fact("shelter", equal=operator.eq)
def shelter_of_bed(inputs: ShelterInputs) -> tuple[str, ...]:
    """Kinds of shelter of a bed."""
    return shelter_of(inputs.bed, inputs.sheltering, inputs.site.bearing_up, inputs.site.southern)


class FrostInputs(NamedTuple):
    """Of a growing year."""

    site: Site
    climate: Climate
    year: int


@fact("frosts", equal=operator.eq)
def frosts_of_year(inputs: FrostInputs) -> Frosts:
    """Frost dates of a growing year, at the risk the gardener chose."""
    return frosts(inputs.site, inputs.climate, inputs.year)


@fact("figures")
def figures_of_planting(inputs: PlantingFigures) -> PlantingFigures:
    """Figures of a planting: their parts are all there is to them."""
    return inputs


@fact("dates", equal=operator.eq)
def dates_of_planting(inputs: DateInputs) -> Dates:
    """Dates of a planting, each with its reason."""
    return work_out(inputs)


class SpanInputs(NamedTuple):
    """Of a planting."""

    site: Site
    planting: Planting
    dates: Dates


@fact("span", equal=operator.eq)
def span_of_planting(inputs: SpanInputs) -> Span:
    """First and last day a planting takes its plot."""
    return planting_span(inputs.site, inputs.planting, inputs.dates)


class BedAtOrigin(NamedTuple):
    """A bed whose place on the plan does not matter."""

    bed: Bed


@fact("bed at origin", equal=operator.eq)
def bed_at_origin(inputs: BedAtOrigin) -> Bed:
    """A bed at the plan's origin, unturned: the same while it is only moved and turned."""
    bed = inputs.bed
    return bed.with_(outline=bed.outline.with_(center=(0.0, 0.0), turn=0.0))


class FootprintInputs(NamedTuple):
    """Of all structures in a growing year.

    Attributes
    ----------
    structures : tuple of Structure
    year : int
    climbing : bool
        Whether for plants that climb arches.
    """

    structures: tuple[Structure, ...]
    year: int
    climbing: bool


@fact("footprints")
def footprints_of_structures(inputs: FootprintInputs) -> tuple[shapely.Geometry, ...]:
    """Ground that structures take, with their clearance, on the plan."""
    return tuple(footprints(inputs.structures, inputs.year, climbing=inputs.climbing))


class ClimbedArchInputs(NamedTuple):
    """A planting that may climb an arch.

    Attributes
    ----------
    outline : Outline
        Of its bed: sets its place on the plan.
    placed : Placed
    structures : tuple of Structure
    year : int
        Arches that are not in use in this growing year are left out.
    """

    outline: Outline
    placed: Placed
    structures: tuple[Structure, ...]
    year: int


@fact("climbed arch")
def arch_of_planting(inputs: ClimbedArchInputs) -> Structure | None:
    """The arch beside a planting's plants, if any."""
    arches = [one for one in inputs.structures if one.kind == "arch" and one.in_use(inputs.year)]
    points = inputs.placed.layout.points
    if not arches or not len(points):
        return None
    return arch_beside(to_plan(inputs.outline, points), arches)


class ObstacleInputs(NamedTuple):
    """Of a bed."""

    bed: Bed
    footprints: tuple[shapely.Geometry, ...]


def _same_shape(old: shapely.Geometry, new: shapely.Geometry) -> bool:
    return bool(old.equals_exact(new))


@fact("obstacles", equal=_same_shape)
def obstacles_of_bed(inputs: ObstacleInputs) -> shapely.Geometry:
    """Ground of a bed on which nothing can grow, in the bed's coordinates."""
    return bed_obstacles(inputs.bed, inputs.footprints)


class PlacementInputs(NamedTuple):
    """Of a planting.

    Attributes
    ----------
    bed : Bed
        At the origin, see :func:`bed_at_origin`.
    planting : Planting
    figures : PlantingFigures
    obstacles : shapely.Geometry
        In the bed's coordinates.
    """

    bed: Bed
    planting: Planting
    figures: PlantingFigures
    obstacles: shapely.Geometry


@fact("placed")
def placed_planting(inputs: PlacementInputs) -> Placed:
    """Plot, rows and stations of a planting."""
    return place_planting(*inputs)


class SupportInputs(NamedTuple):
    """Of a planting with a support."""

    support: Support
    placed: Placed
    level: bool = False


@fact("built support")
def support_of_planting(inputs: SupportInputs) -> BuiltSupport:
    """The support of a planting worked out, in its bed's coordinates."""
    return built_support(inputs.support, inputs.placed.layout, inputs.placed.plot, level=inputs.level)


class PlotOnPlanInputs(NamedTuple):
    """A plot in the coordinates of a bed that lies within an outline."""

    outline: Outline
    plot: shapely.Geometry


@fact("plot on plan")
def plot_on_plan(inputs: PlotOnPlanInputs) -> shapely.Geometry:
    """A planting's plot on the plan; not prepared, since several threads read it."""
    return shape_to_plan(inputs.outline, inputs.plot)


class UsualInputs(NamedTuple):
    """Everything that the dates of a crop depend on that is planted nowhere yet."""

    crop: Crop
    start: str
    year: int
    climate: Climate
    frosts: Frosts
    southern: bool
    latitude: float | None
    learned: LearnedFigures | None = None

    def dates(self) -> DateInputs:
        """The same for a planting in the open, begun at its earliest."""
        fields = {"id": "usual", "bed": "usual", "crop": self.crop.key, "year": self.year}
        return DateInputs(
            planting=Planting.model_validate({**fields, "start": self.start or None}),
            figures=PlantingFigures(self.crop, None, self.learned),
            climate=self.climate,
            frosts=self.frosts,
            harvest_frosts=self.frosts,
            southern=self.southern,
            latitude=self.latitude,
        )


class BegunOn(NamedTuple):
    """A crop that is planted nowhere yet, of which the plot is taken on a day."""

    usual: UsualInputs
    day: dt.date


@fact("dates begun on", equal=operator.eq)
def dates_begun_on(inputs: BegunOn) -> tuple[Dates, bool]:
    """Dates of a crop begun on a day, and whether it is harvested well then."""
    usual = inputs.usual.dates()
    planting = usual.planting.with_(first=inputs.day, timing=None)
    return work_out(usual._replace(planting=planting)), is_good_start(usual, inputs.day)


@fact("outer start window")
def outer_start_window(inputs: UsualInputs) -> StartWindow | None:
    """First and last day between which a crop may be begun in the open."""
    return outer_window(inputs.dates())


@fact("start windows")
def usual_start_windows(inputs: UsualInputs) -> tuple[StartWindow, ...]:
    """Days on which a crop may be begun in the open so that it is harvested well."""
    return start_windows(inputs.dates())
