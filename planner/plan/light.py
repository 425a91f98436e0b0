"""What casts shadows on a day of a plan, and the light of its plantings."""

from __future__ import annotations

import datetime as dt
import operator
from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from typing import Any, NamedTuple, Protocol, TypeVar

import numpy as np
import shapely

from planner.crops import Catalogue
from planner.crops.structure_light import structure_light
from planner.garden import Bed, Garden, Outline, Planting, Site, Structure
from planner.garden.planting_figures import PlantingFigures
from planner.ground import shapes
from planner.ground.built_support import BuiltSupport
from planner.ground.place import Placed
from planner.light import Caster, Days, Place, Receiver, SunHours, foliage_opacity, hours_over, on_day, survey
from planner.light.beams import STEP, beams
from planner.light.casters import (
    SOLID,
    Footprint,
    bed_casters,
    in_month,
    planting_footprints,
    prisms_over,
    structure_casters,
    support_casters,
)
from planner.light.raster import CELL, Raster
from planner.light.survey import Cells, DayLight, GroundOnDay, GroundOverDays, cells_of, light_on_days
from planner.plan.cache import BatchFact, Fact, Subject, batch_fact, fact
from planner.plan.day_casters import CasterTable, DayCasters
from planner.season.growth import Size, size_on
from planner.season.planting_dates import Dates
from planner.season.spans import Span

#: Plants lower than this cast no shadow. [m]
LOWEST_CASTER = 0.15
#: Up to this number single plants cast one by one, more cast as their whole plot.
MOST_DISCS = 200
#: Least loss of direct sun that is told before a planting is put down. [h]
LEAST_LOSS = 0.25
#: Shadows longer than so many times the height of what casts them are not looked at before a drop.
SHADOW_REACH = 6
#: Materials of arches that are the leaves of what climbs them.
GROWN_OVER = ("leafy_frame", "woody_climber")

I = TypeVar("I", bound=tuple[Any, ...])  # noqa: E741  # inputs
T = TypeVar("T")


class PlanForLight(Protocol):
    """What the light of a plan depends on; :class:`planner.plan.plan.Plan` has all of it."""

    garden: Garden
    year: int
    catalogue: Catalogue

    @property
    def beds(self) -> tuple[Bed, ...]: ...
    @property
    def plantings(self) -> tuple[Planting, ...]: ...
    @property
    def place(self) -> Place: ...
    def cached(self, kind: Fact[I, T], subject: Subject, inputs: I) -> T: ...
    def cached_many(self, kind: BatchFact[I, T], asked: Iterable[tuple[Subject, I]]) -> list[T]: ...
    def casters(self, day: dt.date) -> tuple[Caster, ...]: ...
    def casters_by_thing(self, day: dt.date) -> DayCasters: ...
    def bed_of(self, planting: Planting) -> Bed: ...
    def garden_in_bed(self, bed: str) -> tuple[Planting, ...]: ...
    def figures_of(self, planting: Planting) -> PlantingFigures: ...
    def dates(self, planting: Planting) -> Dates: ...
    def span_of(self, planting: Planting) -> Span: ...
    def size(self, planting: Planting, day: dt.date) -> Size: ...
    def placed(self, planting: Planting) -> Placed: ...
    def plot_on_plan(self, planting: Planting) -> shapely.Geometry: ...
    def arch_of(self, planting: Planting, placed: Placed | None = None) -> Structure | None: ...
    def built_support(self, planting: Planting, placed: Placed | None = None) -> BuiltSupport | None: ...


class PlaceInputs(NamedTuple):
    """Of a garden."""

    site: Site


@fact("place", equal=operator.eq)
def place_of_garden(inputs: PlaceInputs) -> Place:
    """Where the garden lies, for the sun."""
    return Place.of(inputs.site)


class StructureCasterInputs(NamedTuple):
    """A structure in a month.

    Attributes
    ----------
    structure : Structure
    month : date
        First day of the month.
    usual : float
        Opacity of its material in that month, for a structure without one of its own. [0 to 1]
    """

    structure: Structure
    month: dt.date
    usual: float


@fact("structure casters")
def casters_of_structure(inputs: StructureCasterInputs) -> tuple[Caster, ...]:
    """The prisms of a structure in a month: its opacity is given by month."""
    return structure_casters(inputs.structure, inputs.month, inputs.structure.stem, inputs.usual)


class BedCasterInputs(NamedTuple):
    """A bed with its body."""

    bed: Bed


@fact("bed casters")
def casters_of_bed(inputs: BedCasterInputs) -> tuple[Caster, ...]:
    """The body of a raised bed or container."""
    return bed_casters(inputs.bed)


class PlantingCasterInputs(NamedTuple):
    """A planting on a day.

    Attributes
    ----------
    key, name : str
        As the casters are called.
    figures : PlantingFigures
    dates : Dates
    span : Span
    placed : Placed
    footprints : tuple of Footprint
        Of its plot on the plan: those of all days are the same.
    support : BuiltSupport or None
    shares_ground : bool
    outline : Outline
        Of its bed: sets its place on the plan.
    soil : float
        Height of its bed's soil above the ground. [m]
    day : date
    """

    key: str
    name: str
    figures: PlantingFigures
    dates: Dates
    span: Span
    placed: Placed
    footprints: tuple[Footprint, ...]
    support: BuiltSupport | None
    shares_ground: bool
    outline: Outline
    soil: float
    day: dt.date


@fact("planting casters")
def casters_of_planting(inputs: PlantingCasterInputs) -> tuple[Caster, ...]:
    """The prisms of a planting, at its height on a day."""
    size = size_on(inputs.figures, inputs.dates, inputs.span, inputs.day)
    placed, ground = inputs.placed, inputs.placed.plot
    if size.height < LOWEST_CASTER or ground.is_empty:
        return ()
    key, name, outline, soil = inputs.key, inputs.name, inputs.outline, inputs.soil
    if inputs.support is not None and placed.plants:
        return support_casters(key, name, outline, soil, inputs.support, size.height, size.share)
    grounds = inputs.footprints
    if inputs.shares_ground and 0 < placed.plants <= MOST_DISCS:
        points = shapely.points(placed.layout.points)
        # plants by themselves, not the whole bed
        ground = shapely.union_all(shapely.buffer(points, max(size.spread / 2, 0.05), quad_segs=2))
        grounds = planting_footprints(outline, ground)
    opacity = foliage_opacity(placed.plants, size.spread, float(ground.area))
    return prisms_over(key, name, grounds, soil, soil + size.height, opacity)


class FootprintInputs(NamedTuple):
    """A plot in the coordinates of a bed that lies within an outline."""

    outline: Outline
    plot: shapely.Geometry


@fact("caster footprints")
def footprints_of_planting(inputs: FootprintInputs) -> tuple[Footprint, ...]:
    """Footprints of a planting's plot on the plan."""
    return planting_footprints(inputs.outline, inputs.plot)


class CellInputs(NamedTuple):
    """Ground on the plan, and the side of the cells by which it is measured. [m]"""

    shape: shapely.Geometry
    cell: float


@fact("light cells")
def light_cells(inputs: CellInputs) -> Cells:
    """The cells by which a piece of ground is measured."""
    return cells_of(inputs.shape, inputs.cell)


@batch_fact("light on a day")
def light_on_day(inputs: Sequence[GroundOnDay]) -> list[DayLight]:
    """Mean hours of direct sun of pieces of ground, each on its day."""
    return light_on_days(inputs)


def planting_caster_inputs(
    plan: PlanForLight, planting: Planting, placed: Placed, day: dt.date
) -> PlantingCasterInputs:
    """What the shadow of a planting on a day depends on.

    Parameters
    ----------
    plan : PlanForLight
    planting : Planting
        May be one that is not in the garden yet.
    placed : Placed
    day : date
    """
    bed, figures = plan.bed_of(planting), plan.figures_of(planting)
    return PlantingCasterInputs(
        key=planting.id,
        name=figures.crop.name if figures.crop is not None else planting.crop,
        figures=figures,
        dates=plan.dates(planting),
        span=plan.span_of(planting),
        placed=placed,
        footprints=plan.cached(
            footprints_of_planting, planting.id, FootprintInputs(bed.outline, placed.plot)
        ),
        support=plan.built_support(planting, placed) if placed.plants else None,
        shares_ground=planting.shares_ground,
        outline=bed.outline,
        soil=bed.height,
        day=day,
    )


def usual_opacity(plan: PlanForLight, structure: Structure, day: dt.date) -> float:
    """Opacity by the material of a structure that has none of its own, in the month of a day. [0 to 1]

    Parameters
    ----------
    plan : PlanForLight
        Its catalogue knows the materials; its garden lies north or south.
    structure : Structure
    day : date
    """
    if structure.opacity:
        return SOLID  # not used
    light = structure_light(plan.catalogue)[structure.kind]
    return in_month(light.held_back(structure.material, plan.garden.site.southern), day)


def casters_on(plan: PlanForLight, day: dt.date) -> DayCasters:
    """All that casts a shadow on a day: structures, raised beds, plantings at their height."""
    garden = plan.garden
    things: tuple[Structure | Bed | Planting, ...] = (*garden.structures, *garden.beds, *garden.plantings)
    found = ((thing.id, casters_of(plan, thing, day)) for thing in things)
    table = CasterTable({key: there for key, there in found if there})
    return DayCasters(partial(_things, garden), table, {})


def _things(garden: Garden) -> Iterator[str]:
    """Ids of all that may cast a shadow, in the order of the garden."""
    for part in (garden.structures, garden.beds, garden.plantings):
        for thing in part:
            yield thing.id


def casters_after(plan: PlanForLight, before: DayCasters, changed: Iterable[str], day: dt.date) -> DayCasters:
    """All that casts a shadow on a day, after an edit.

    Parameters
    ----------
    plan : PlanForLight
        Of the edited garden.
    before : DayCasters
        Of the garden before.
    changed : iterable of str
        Ids of the structures, beds and plantings whose casters may be others than before.
    day : date
    """
    garden = plan.garden
    new: dict[str, tuple[Caster, ...]] = {}
    for key in changed:
        thing = (
            garden.structures_by_id.get(key) or garden.beds_by_id.get(key) or garden.plantings_by_id.get(key)
        )
        new[key] = casters_of(plan, thing, day) if thing is not None else ()
    return before.after(partial(_things, garden), new)


def casters_of(plan: PlanForLight, thing: Structure | Bed | Planting, day: dt.date) -> tuple[Caster, ...]:
    """What casts the shadow of a structure, bed or planting on a day; nothing where it is not there."""
    if isinstance(thing, Planting):
        if not plan.span_of(thing).holds(day) or _is_cover_of_arch(plan, thing):
            return ()
        inputs = planting_caster_inputs(plan, thing, plan.placed(thing), day)
        return plan.cached(casters_of_planting, (thing.id, day), inputs)
    if not thing.in_use(plan.year):
        return ()
    if isinstance(thing, Bed):
        return plan.cached(casters_of_bed, thing.id, BedCasterInputs(thing))
    month = day.replace(day=1)
    of_month = StructureCasterInputs(thing, month, usual_opacity(plan, thing, month))
    return plan.cached(casters_of_structure, (thing.id, month.month), of_month)


def _is_cover_of_arch(plan: PlanForLight, planting: Planting) -> bool:
    """Whether the leaves of a planting are already counted as the material of the arch that it climbs."""
    arch = plan.arch_of(planting)
    return arch is not None and arch.material in GROWN_OVER


def would_shade(
    plan: PlanForLight, planting: Planting, placed: Placed, day: dt.date
) -> tuple[tuple[Planting, float], ...]:
    """Plantings that would lose direct sun to one that is not in the garden yet, the most first.

    Parameters
    ----------
    plan : PlanForLight
    planting : Planting
        Not in the garden.
    placed : Placed
        Where it would grow.
    day : date

    Returns
    -------
    tuple of (Planting, float)
        Hours on the day, from :data:`LEAST_LOSS` up. [h]

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """
    place = plan.place
    extra = casters_of_planting(planting_caster_inputs(plan, planting, placed, day))
    if not extra:
        return ()
    reach = SHADOW_REACH * max(caster.top for caster in extra)
    ground = shapely.union_all([caster.shape for caster in extra]).buffer(reach, quad_segs=4)
    near = {
        p.id: p
        for p in plan.plantings
        if plan.span_of(p).holds(day) and ground.intersects(shapes.plan_polygon(plan.bed_of(p).outline))
    }
    receivers = [receiver_of(plan, p) for p in near.values()]
    there = plan.casters(day)
    before = hours_over(receivers, place, on_day(day), lambda _day: there, step=20)
    after = hours_over(receivers, place, on_day(day), lambda _day: (*there, *extra), step=20)
    lost = ((near[key], light.mean - after[key].mean) for key, light in before.items() if key in after)
    return tuple(sorted((pair for pair in lost if pair[1] >= LEAST_LOSS), key=lambda pair: -pair[1]))


def receiver_of(plan: PlanForLight, thing: Bed | Planting, apart_from: Iterable[str] = ()) -> Receiver:
    """A bed's soil, or a planting at its own height, as what light falls on.

    Parameters
    ----------
    plan : PlanForLight
    thing : Bed or Planting
    apart_from : iterable of str
        Ids of plantings whose shade does not count, besides what grows on the thing itself and the arch that it climbs.
    """
    if isinstance(thing, Bed):
        # What grows in it takes the light, it does not lose it.
        own = frozenset(p.id for p in plan.garden_in_bed(thing.id))
        return Receiver(thing.id, shapes.plan_polygon(thing.outline), thing.height, own.union(apart_from))
    soil = plan.bed_of(thing).height
    plot = plan.plot_on_plan(thing)
    arch = plan.arch_of(thing)
    own = frozenset((thing.id, *apart_from, *((arch.id,) if arch is not None else ())))
    return Receiver(thing.id, plot, lambda day: soil + plan.size(thing, day).height, own)


def sun_hours(
    plan: PlanForLight,
    wanted: Iterable[tuple[Receiver, Days]],
    step: float = STEP,
    cell: float = CELL,
    keep: bool = True,
) -> dict[str, SunHours]:
    """Mean hours of direct sun of pieces of ground, each over days of its own; measured only where shade changed.

    Parameters
    ----------
    plan : PlanForLight
    wanted : iterable of (Receiver, days)
        Receivers with an empty shape, or without days, are left out of the result.
    step : float
        [min]
    cell : float
        Side of the cells by which they are measured, at most. [m]
    keep : bool
        Whether the light of each day is kept in the cache, with all that shades.

    Returns
    -------
    dict of str to SunHours
        By the receivers' keys.

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """

    def light_of(items: Sequence[tuple[str, GroundOnDay]]) -> Sequence[DayLight]:
        if not keep:
            return light_on_days([ground for _, ground in items])
        named = [((key, ground.day, step, cell), ground) for key, ground in items]
        return plan.cached_many(light_on_day, named)

    place = plan.place
    grounds = [
        GroundOverDays(
            receiver,
            plan.cached(light_cells, (receiver.key, cell), CellInputs(receiver.shape, cell)),
            days,
        )
        for receiver, days in wanted
        if days and not receiver.shape.is_empty
    ]

    def casters_near(day: dt.date, rasters: Sequence[Raster]) -> Sequence[Caster]:
        sides = np.array([one.bounds for one in rasters])
        area = (*sides[:, :2].min(axis=0).tolist(), *sides[:, 2:].max(axis=0).tolist())
        lowest = min(one.height for one in rasters)
        return plan.casters_by_thing(day).near(area, lowest, beams(place, day, step))

    return survey(grounds, place, casters_near, step, light_of)
