"""Plan: one garden worked out for one growing year.

Nothing that can be derived is stored in the document; it is derived here, each fact once.  A plan
made from an earlier one (:meth:`Plan.after`) keeps every fact whose inputs are the very same
values, so an edit re-computes what it touched and nothing more.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property, partial
from typing import TYPE_CHECKING, Any, Self, TypeVar

import shapely

from planner.crops import Catalogue, Crop, load_catalogue
from planner.garden import Bed, Done, Garden, Planting
from planner.garden.planting_figures import PlantingFigures, figures_of
from planner.ground import shapes
from planner.ground.free import free_ground
from planner.ground.obstacles import bed_obstacles, footprints
from planner.ground.place import Placed, place_planting
from planner.season.frosts import Frosts, frosts
from planner.season.growth import Size, size_on
from planner.season.planting_dates import Dates
from planner.season.practice import stays_for_years
from planner.season.spans import Span, bench_span, planting_span, year_span
from planner.season.work_out_dates import DateInputs, work_out

if TYPE_CHECKING:
    from planner.ground.supports import BuiltSupport
    from planner.light import Caster, Place, Receiver

T = TypeVar("T")

#: Plants lower than this are not reckoned with as casting shadows. [m]
LOWEST_CASTER = 0.15
#: Single plants cast one by one up to this number, then as their whole plot.
MOST_DISCS = 200


@dataclass(frozen=True)
class _Kept:
    inputs: tuple[Any, ...]
    value: Any


def _same(old: Any, new: Any) -> bool:
    """Whether two inputs are the very same values (tuples: of the very same values)."""
    if old is new:
        return True
    if isinstance(old, tuple):
        if not isinstance(new, tuple) or len(old) != len(new):
            return False
        for one, other in zip(
            old, new, strict=True
        ):  # a thousand times an edit: no call where it is the same
            if one is not other and not _same(one, other):
                return False
        return True
    return isinstance(old, (int, str)) and bool(old == new)


class Plan:
    """The derived facts of a garden in one growing year.

    Parameters
    ----------
    garden : Garden
    year : int
        The growing year, named after the calendar year it begins in.
    catalogue : Catalogue, optional
        The shipped one by default.
    """

    def __init__(
        self,
        garden: Garden,
        year: int,
        catalogue: Catalogue | None = None,
        _before: Plan | None = None,
    ) -> None:
        self.garden = garden
        self.year = year
        self.catalogue = catalogue if catalogue is not None else load_catalogue()
        self._kept: dict[tuple[str, str], _Kept] = {}
        self._placed: dict[str, tuple[Planting, Placed]] = {}
        self._dates: dict[str, tuple[Planting, Dates]] = {}
        self._spans: dict[str, tuple[Planting, Span]] = {}
        self._old = _before._facts_of(garden) if _before is not None else {}

    def after(self, garden: Garden, year: int | None = None) -> Self:
        """The plan of an edited garden, keeping the facts that the edit did not touch."""
        made = type(self)(garden, self.year if year is None else year, self.catalogue, self)
        if made.year == self.year:
            made._take_over(self)
        return made

    def _take_over(self, before: Plan) -> None:
        """Take over what is known of plantings that are the very same, in the very same place and world.

        :meth:`once` would find all of it again, by comparing every input of every planting.
        """
        old, new = before.garden, self.garden
        parts = ("site", "climate", "varieties", "records")
        if not all(_same(getattr(old, part), getattr(new, part)) for part in parts):
            return
        beds = old.beds_by_id
        moved = frozenset(bed.id for bed in new.beds if beds.get(bed.id) is not bed)
        there = new.plantings_by_id

        def stay(kept: dict[str, tuple[Planting, T]]) -> dict[str, tuple[Planting, T]]:
            return {
                key: figures_of
                for key, figures_of in kept.items()
                if there.get(key) is figures_of[0] and figures_of[0].bed not in moved
            }

        self._dates, self._spans = stay(before._dates), stay(before._spans)
        if _same(old.structures, new.structures):
            self._placed = stay(before._placed)

    def _facts_of(self, garden: Garden) -> dict[tuple[str, str], _Kept]:
        """All facts kept so far, asked for in this plan or not, of what is in a garden."""
        beds, plantings = garden.beds_by_id, garden.plantings_by_id
        return {
            slot: kept
            for slot, kept in {**self._old, **self._kept}.items()
            if not slot[1] or slot[1] in plantings or slot[1] in beds
        }

    def once(self, kind: str, key: str, inputs: tuple[Any, ...], work: Callable[[], T]) -> T:
        """The kept value for these very inputs, else the worked-out one.

        Rooms above the plan keep facts of their own here too, under a kind of their own.
        """
        slot = (kind, key)
        value: T
        kept = self._kept.get(slot)
        if kept is not None and _same(kept.inputs, inputs):
            value = kept.value
            return value
        kept = self._old.get(slot)
        if kept is not None and _same(kept.inputs, inputs):
            self._kept[slot] = kept
            value = kept.value
            return value
        value = work()
        self._kept[slot] = _Kept(inputs, value)
        return value

    def _as_before(self, kind: str, key: str, shape: shapely.Geometry) -> shapely.Geometry:
        """The very shape the plan before had, where this one is no other: what hangs on it is kept."""
        kept = self._old.get((kind, key))
        return kept.value if kept is not None and kept.value.equals_exact(shape) else shape

    # -- the growing year -------------------------------------------------------------------

    @cached_property
    def span(self) -> Span:
        """First and last day of the growing year."""
        return year_span(self.garden.site, self.year)

    @cached_property
    def plantings(self) -> tuple[Planting, ...]:
        """Plantings that stand on any day of the growing year, in the document's order."""
        return tuple(p for p in self.garden.plantings if self.span_of(p).meets(self.span))

    @cached_property
    def beds(self) -> tuple[Bed, ...]:
        """Beds in use in the growing year, in the document's order."""
        return tuple(bed for bed in self.garden.beds if bed.in_use(self.year))

    @cached_property
    def _by_bed(self) -> dict[str, tuple[Planting, ...]]:
        found: dict[str, list[Planting]] = {}
        for planting in self.plantings:
            found.setdefault(planting.bed, []).append(planting)
        return {bed: tuple(plantings) for bed, plantings in found.items()}

    def in_bed(self, bed: Bed) -> tuple[Planting, ...]:
        """This year's plantings of a bed."""
        return self._by_bed.get(bed.id, ())

    @cached_property
    def _all_by_bed(self) -> dict[str, tuple[Planting, ...]]:
        found: dict[str, list[Planting]] = {}
        for planting in self.garden.plantings:
            found.setdefault(planting.bed, []).append(planting)
        return {bed: tuple(plantings) for bed, plantings in found.items()}

    def garden_in_bed(self, bed: str) -> tuple[Planting, ...]:
        """Plantings of a bed in all years."""
        return self._all_by_bed.get(bed, ())

    # -- a planting -------------------------------------------------------------------------

    def figures_of(self, planting: Planting) -> PlantingFigures:
        """What is known of a planting."""
        return figures_of(self.garden, self.catalogue, planting)

    def bed_of(self, planting: Planting) -> Bed:
        """The bed a planting stands in."""
        return self.garden.beds_by_id[planting.bed]

    def span_of(self, planting: Planting) -> Span:
        """First and last day a planting takes its plot."""
        asked = self._spans.get(planting.id)
        if asked is not None and asked[0] is planting:
            return asked[1]
        dates = self.dates(planting)
        span = self.once(
            "span",
            planting.id,
            (planting, dates, self.garden.site.year_begins),
            lambda: planting_span(self.garden.site, planting, dates),
        )
        self._spans[planting.id] = (planting, span)
        return span

    def dates(self, planting: Planting) -> Dates:
        """Dates of a planting, each with its reason; the harvest of this growing year."""
        asked = self._dates.get(planting.id)
        if asked is not None and asked[0] is planting:
            return asked[1]
        site, figures = self.garden.site, self.figures_of(planting)
        done, bed = self.garden.done(planting), self.bed_of(planting)
        stands = stays_for_years(figures.crop)
        inputs = (
            planting,
            self.garden.climate,
            figures.crop,
            figures.variety,
            done,
            bed.kind,
            site.year_begins,
            site.southern,
            self.year if stands else planting.year,
        )
        dates = self.once("dates", planting.id, inputs, lambda: self._worked_out(planting, figures, done))
        self._dates[planting.id] = (planting, dates)
        return dates

    def _worked_out(self, planting: Planting, figures: PlantingFigures, done: tuple[Done, ...]) -> Dates:
        stands = stays_for_years(figures.crop)
        return work_out(
            DateInputs(
                planting=planting,
                figures=figures,
                climate=self.garden.climate,
                frosts=self.frosts(planting.year),
                harvest_frosts=self.frosts(self.year if stands else planting.year),
                year=(self.span.first, self.span.last) if stands else None,
                southern=self.garden.site.southern,
                done=done,
                sheltered=self.bed_of(planting).kind == "under glass",
            )
        )

    def usual_dates(self, crop: Crop, start: str = "") -> Dates:
        """Dates of a crop in the open of this garden, begun at its earliest, whether planted or not."""
        fields = {"id": "usual", "bed": "usual", "crop": crop.key, "year": self.year, "start": start or None}
        frosts = self.frosts()
        return work_out(
            DateInputs(
                planting=Planting.model_validate(fields),
                figures=PlantingFigures(crop, None),
                climate=self.garden.climate,
                frosts=frosts,
                harvest_frosts=frosts,
                southern=self.garden.site.southern,
            )
        )

    def frosts(self, year: int | None = None) -> Frosts:
        """Frost dates of a growing year (this one by default), at the risk the gardener chose."""
        wanted = self.year if year is None else year
        if wanted not in self._frosts:
            self._frosts[wanted] = frosts(self.garden.site, self.garden.climate, wanted)
        return self._frosts[wanted]

    @cached_property
    def _frosts(self) -> dict[int, Frosts]:
        return {}

    def bench(self, planting: Planting) -> Span | None:
        """Days a planting's young plants stand on the bench; None where none are raised."""
        return bench_span(self.dates(planting))

    def size(self, planting: Planting, day: dt.date) -> Size:
        """Height and spread of a planting's plants on a day; nothing before and after its span."""
        return size_on(self.figures_of(planting), self.dates(planting), self.span_of(planting), day)

    def placed(self, planting: Planting) -> Placed:
        """Plot, rows and stations of a planting."""
        asked = self._placed.get(planting.id)
        if asked is not None and asked[0] is planting:
            return asked[1]
        bed, figures = self.bed_of(planting), self.figures_of(planting)
        obstacles, unmoved = self.obstacles(bed), self._unmoved(bed)
        placed = self.once(
            "placed",
            planting.id,
            (planting, unmoved, figures.crop, figures.variety, obstacles),
            lambda: place_planting(unmoved, planting, figures, obstacles),
        )
        self._placed[planting.id] = (planting, placed)
        return placed

    def _unmoved(self, bed: Bed) -> Bed:
        """A bed at the plan's origin, unturned: the very same while it is only moved and turned."""

        def work() -> Bed:
            unmoved = bed.with_(outline=bed.outline.with_(center=(0.0, 0.0), turn=0.0))
            kept = self._old.get(("unmoved", bed.id))
            return kept.value if kept is not None and kept.value == unmoved else unmoved

        return self.once("unmoved", bed.id, (bed,), work)

    def built_support(self, planting: Planting) -> BuiltSupport | None:
        """The support of a planting worked out, in its bed's coordinates; None without one."""
        return self._built_support(planting, self.placed(planting))

    def _built_support(self, planting: Planting, placed: Placed) -> BuiltSupport | None:
        if planting.support is None:
            return None
        from planner.ground.supports import built_support

        support = planting.support
        return self.once(
            "stand",
            planting.id,
            (planting, placed),
            lambda: built_support(support, placed.layout, placed.plot),
        )

    def trial(self, planting: Planting) -> Placed:
        """Plot, rows and stations that a planting would have, were it in the garden."""
        bed = self.bed_of(planting)
        return place_planting(bed, planting, self.figures_of(planting), self.obstacles(bed))

    # -- a bed ------------------------------------------------------------------------------

    def obstacles(self, bed: Bed) -> shapely.Geometry:
        """Ground of a bed on which nothing can stand, in the bed's coordinates."""
        return self.once(
            "obstacles",
            bed.id,
            (bed, self._footprints),
            lambda: self._as_before("obstacles", bed.id, bed_obstacles(bed, self._footprints)),
        )

    @cached_property
    def _footprints(self) -> tuple[shapely.Geometry, ...]:
        structures = self.garden.structures
        return self.once("footprints", "", (structures, self.year), lambda: footprints(structures, self.year))

    def area(self, bed: Bed) -> float:
        """Area of a bed. [m2]"""
        return shapes.outline_area(bed.outline)

    def free(
        self,
        bed: Bed,
        first: dt.date | None = None,
        last: dt.date | None = None,
        leaving_out: Iterable[str] = (),
    ) -> shapely.Geometry:
        """Ground of a bed that nothing takes on any day of a span, in the bed's coordinates.

        Parameters
        ----------
        bed : Bed
        first, last : date, optional
            The whole growing year by default.
        leaving_out : iterable of str
            Ids of plantings that do not count (those being moved).
        """
        span = Span(first or self.span.first, last or self.span.last)
        out = set(leaving_out)
        taken = [
            self.placed(p).plot
            for p in self.in_bed(bed)
            if p.id not in out and not p.shares_ground and self.span_of(p).meets(span)
        ]
        return free_ground(bed, taken, self.obstacles(bed))

    def free_in(self, bed: Bed, span: Span, leaving_out: Iterable[str] = ()) -> shapely.Geometry:
        """Ground of a bed that nothing of any growing year takes on any day of a span."""
        out = set(leaving_out)
        taken = [
            self.placed(p).plot
            for p in self.garden_in_bed(bed.id)
            if p.id not in out and not p.shares_ground and self.span_of(p).meets(span)
        ]
        return free_ground(bed, taken, self.obstacles(bed))

    def free_from(
        self, bed: Bed, leaving_out: Iterable[str] = ()
    ) -> list[tuple[dt.date | None, shapely.Geometry]]:
        """Free ground of a bed for the whole growing year, then from each day on which some falls free.

        Returns
        -------
        list of (date or None, shapely.Geometry)
            None stands for the whole year. Ground that is free a whole year is left out of the later
            entries only where nothing more falls free.
        """
        out = tuple(leaving_out)
        found: list[tuple[dt.date | None, shapely.Geometry]] = [(None, self.free(bed, leaving_out=out))]
        ends = {self.span_of(p).last for p in self.in_bed(bed) if p.id not in out}
        for end in sorted(ends):
            if end >= self.span.last:  # also a planting that stands until it is taken out
                break
            first = end + dt.timedelta(days=1)
            if self.span.first < first:
                ground = self.free(bed, first, leaving_out=out)
                if ground.area > found[-1][1].area + 1e-6:
                    found.append((first, ground))
        return found

    # -- light ------------------------------------------------------------------------------

    @cached_property
    def place(self) -> Place:
        """Where the garden lies, for the sun.

        Raises
        ------
        planner.light.PlaceError
            While its latitude is not known; the line says how to give it.
        """
        from planner.light import Place

        site = self.garden.site
        return self.once("place", "", (site,), lambda: Place.of(site))

    def casters(self, day: dt.date) -> tuple[Caster, ...]:
        """All that casts a shadow on a day: structures, raised beds, plantings at their height."""
        if day not in self._casters:
            self._casters[day] = self._casters_on(day)
        return self._casters[day]

    @cached_property
    def _casters(self) -> dict[dt.date, tuple[Caster, ...]]:
        return {}

    def _casters_on(self, day: dt.date) -> tuple[Caster, ...]:
        from planner.light.casters import bed_casters, structure_casters

        found: list[Caster] = []
        for structure in self.garden.structures:
            if structure.in_use(self.year):
                # One by month: their opacity is given by month.
                kept = self._kept_by_day(f"casters {structure.id}", "", (structure,))
                month = day.replace(day=1)
                if month not in kept:
                    kept[month] = structure_casters(structure, day, structure.stem)
                found += kept[month]
        for bed in self.beds:
            found += self.once("body", bed.id, (bed,), partial(bed_casters, bed))
        for planting in self.garden.plantings:
            span = self.span_of(planting)
            if span.holds(day):
                placed, dates, figures = (
                    self.placed(planting),
                    self.dates(planting),
                    self.figures_of(planting),
                )
                inputs = (planting, placed, dates, span, figures.crop, figures.variety)
                kept = self._kept_by_day("casters", planting.id, inputs)
                if day not in kept:
                    kept[day] = self._planting_casters(planting, placed, day)
                found += kept[day]
        return tuple(found)

    def _kept_by_day(self, kind: str, key: str, inputs: tuple[Any, ...]) -> dict[dt.date, tuple[Caster, ...]]:
        """What was worked out for single days: kept as long as its inputs are the very same values."""
        return self.once(kind, key, inputs, dict)

    def _planting_casters(self, planting: Planting, placed: Placed, day: dt.date) -> tuple[Caster, ...]:
        from planner.light import foliage_opacity, planting_casters
        from planner.light.casters import support_casters

        size = self.size(planting, day)
        if size.height < LOWEST_CASTER or placed.plot.is_empty:
            return ()
        crop = self.figures_of(planting).crop
        name = crop.name if crop is not None else planting.crop
        bed, ground = self.bed_of(planting), placed.plot
        built_support = self._built_support(planting, placed) if placed.plants else None
        if built_support is not None:
            return support_casters(planting.id, name, bed, built_support, size.height, size.share)
        if planting.shares_ground and 0 < placed.plants <= MOST_DISCS:
            points = shapely.points(placed.layout.points)
            # plants by themselves, not the whole bed
            ground = shapely.union_all(shapely.buffer(points, max(size.spread / 2, 0.05), quad_segs=2))
        opacity = foliage_opacity(placed.plants, size.spread, float(ground.area))
        return planting_casters(planting.id, name, bed, ground, size.height, opacity)

    def would_shade(
        self, planting: Planting, placed: Placed, day: dt.date
    ) -> tuple[tuple[Planting, float], ...]:
        """Plantings that would lose direct sun to one that is not in the garden yet, the most first.

        Returns
        -------
        tuple of (Planting, float)
            Hours on the day, from a quarter of an hour up. [h]

        Raises
        ------
        planner.light.PlaceError
            While the garden's latitude is not known.
        """
        from planner.light import hours_over, on_day

        place, extra = self.place, self._planting_casters(planting, placed, day)
        if not extra:
            return ()
        reach = 6 * max(caster.top for caster in extra)
        ground = shapely.union_all([caster.shape for caster in extra]).buffer(reach, quad_segs=4)
        near = {
            p.id: p
            for p in self.plantings
            if self.span_of(p).holds(day) and ground.intersects(shapes.plan_polygon(self.bed_of(p).outline))
        }
        receivers = [self.ground_of(p) for p in near.values()]
        there = self.casters(day)
        before = hours_over(receivers, place, on_day(day), lambda _day: there, step=20)
        after = hours_over(receivers, place, on_day(day), lambda _day: (*there, *extra), step=20)
        lost = ((near[key], light.mean - after[key].mean) for key, light in before.items() if key in after)
        return tuple(sorted((pair for pair in lost if pair[1] >= 0.25), key=lambda pair: -pair[1]))

    def ground_of(self, thing: Bed | Planting) -> Receiver:
        """A bed's soil, or a planting at its own height, as what light falls on."""
        from planner.light import Receiver

        if isinstance(thing, Bed):
            own = frozenset(
                p.id for p in self.garden_in_bed(thing.id)
            )  # what stands in it takes the light, not loses it
            return Receiver(thing.id, shapes.plan_polygon(thing.outline), thing.height, own)
        bed = self.bed_of(thing)
        plot = shapes.shape_to_plan(bed.outline, self.placed(thing).plot)
        return Receiver(
            thing.id, plot, lambda day: bed.height + self.size(thing, day).height, frozenset((thing.id,))
        )
