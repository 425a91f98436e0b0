"""Plan: one garden worked out for one growing year.

Nothing that can be derived is stored in the document; it is derived here and cached
(:mod:`planner.plan.cache`).  A plan of an edited garden (:meth:`Plan.after`) shares the cache of the plan
before, so an edit works out what it touched and nothing more.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, Self, TypeVar

import shapely

from planner.crops import Catalogue, Crop, load_catalogue
from planner.garden import Bed, Garden, Planting, Structure
from planner.garden.learned import LearnedFigures
from planner.garden.own_catalogue import own_catalogue
from planner.garden.planting_figures import PlantingFigures, figures_of
from planner.ground import shapes
from planner.ground.arches import climbs_arches
from planner.ground.free import free_ground
from planner.ground.place import Placed, place_planting
from planner.ground.supports import nets_lie_level
from planner.lazy import lazy_property
from planner.plan import facts
from planner.plan.cache import BatchFact, Fact, FactCache, Subject, unchanged
from planner.plan.differing import beds_at, differing
from planner.plan.learned import EMPTY, Book, learn
from planner.plan.own_years import GroupKey, Learned
from planner.plan.survival import WHOLE, Survival, SurvivalInputs, survival_of_planting, telling_losses
from planner.season.frosts import Frosts
from planner.season.growth import Size, size_on
from planner.season.lived.assumed import AS_RECORDED, Assumed
from planner.season.planting_dates import Dates
from planner.season.practice import stays_for_years
from planner.season.spans import Span, bench_span, year_span
from planner.season.start_windows import StartWindow
from planner.season.work_out_dates import DateInputs, work_out

if TYPE_CHECKING:
    from planner.ground.built_support import BuiltSupport
    from planner.light import Caster, Place, Receiver
    from planner.plan.day_casters import DayCasters
    from planner.season.lived.lived_years import Lived
    from planner.season.lived.odds import Odds
    from planner.season.lived.recorded_weather import RecordedWeather

I = TypeVar("I", bound=tuple[Any, ...])  # noqa: E741  # inputs
T = TypeVar("T")


class Plan:
    """The derived facts of a garden in one growing year.

    A plan may be read by several threads at once.

    Parameters
    ----------
    garden : Garden
    year : int
        The growing year, named after the calendar year it begins in.
    catalogue : Catalogue, optional
        The shipped one by default; the plan's has the names of the garden's English.
    cache : FactCache, optional
        An empty one by default.
    assumed : Assumed, optional
        What the view assumes of the recorded years; nothing by default.
    """

    def __init__(
        self,
        garden: Garden,
        year: int,
        catalogue: Catalogue | None = None,
        cache: FactCache | None = None,
        assumed: Assumed = AS_RECORDED,
    ) -> None:
        self.garden = garden
        self.year = year
        self.assumed = assumed
        catalogue = catalogue if catalogue is not None else load_catalogue()
        self.catalogue = own_catalogue(catalogue, garden)
        self.cache = cache if cache is not None else FactCache()
        self._seen: dict[str, facts.PlantingFacts] = {}
        self._placed: dict[str, tuple[Planting, Placed]] = {}
        self._plots: dict[str, tuple[facts.PlotOnPlanInputs, shapely.Geometry]] = {}
        self._frosts: dict[int, Frosts] = {}
        self._grounds: dict[tuple[str, bool], tuple[Bed, Bed, shapely.Geometry]] = {}
        self._grouped_by_bed: dict[str, tuple[Planting, ...]] | None = None
        self._grouped_before: tuple[tuple[Planting, ...], dict[str, tuple[Planting, ...]] | None] | None = (
            None
        )
        self._by_bed: dict[str, tuple[Planting, ...]] = {}
        self._casters: dict[dt.date, DayCasters] = {}
        self._book_before = EMPTY

    def after(self, garden: Garden, year: int | None = None) -> Self:
        """The plan of an edited garden, which shares this one's cache.

        Parameters
        ----------
        garden : Garden
        year : int, optional
            This plan's by default.
        """
        self.cache.next_edit()
        new = type(self)(
            garden, self.year if year is None else year, self.catalogue, self.cache, self.assumed
        )
        new._take_over(self)
        return new

    def what_if(self, garden: Garden) -> Self:
        """The plan of a garden that is only tried out: it reads this one's cache and leaves nothing in it."""
        new = type(self)(garden, self.year, self.catalogue, FactCache(below=self.cache), self.assumed)
        new._take_over(self)
        return new

    def assuming(self, assumed: Assumed) -> Self:
        """The same plan with another assumption about its recorded years; it shares this one's cache.

        Parameters
        ----------
        assumed : Assumed
        """
        new = type(self)(self.garden, self.year, self.catalogue, self.cache, assumed)
        new._take_over(self)
        return new

    @property
    def as_planned(self) -> Self:
        """This plan before anything was recorded; itself without records."""
        return self._without_records if self.garden.records else self

    @lazy_property
    def _without_records(self) -> Self:
        return self.what_if(self.garden.with_(records=()))

    def _take_over(self, before: Plan) -> None:
        """Take over what was looked up in the plan before of plantings and beds that are the same.

        Looking it up in the cache again costs some microseconds for each planting of the garden.
        """
        old, new = before.garden, self.garden
        self._grouped_before = old.plantings, before._grouped_by_bed
        self._book_before = before.__dict__.get("_book", before._book_before)
        world = (old.site, old.climate, old.varieties, old.telling_records, before.catalogue, before.year)
        if not unchanged(
            world, (new.site, new.climate, new.varieties, new.telling_records, self.catalogue, self.year)
        ):
            return
        if before.learned.used is not self.learned.used and not unchanged(
            before.learned.used, self.learned.used
        ):
            return
        gone = set(differing(old.beds, new.beds))
        moved = differing(old.structures, new.structures).values()
        self._seen, self._placed, self._grounds = (
            dict(before._seen),
            dict(before._placed),
            dict(before._grounds),
        )
        beds = gone | self._sheltered_otherwise(before)
        for key in [key for key, of in self._seen.items() if of.planting.bed in beds] if beds else ():
            del self._seen[key]
        if not unchanged(old.structures, new.structures):
            gone |= beds_at(new.beds, [one for pair in moved for one in pair if one is not None])
        if gone:
            for key in [key for key, (planting, _) in self._placed.items() if planting.bed in gone]:
                del self._placed[key]
            for bed in gone:
                for climbing in (False, True):
                    self._grounds.pop((bed, climbing), None)

    def _sheltered_otherwise(self, before: Plan) -> set[str]:
        """Ids of beds that other roofs and walls shelter than in the plan before."""
        if before._sheltering == self._sheltering:  # this one is asked last and stays the newest
            return set()
        return {
            bed.id
            for bed in self.garden.beds
            if (old := before.garden.beds_by_id.get(bed.id)) is not None
            and before.shelter_of(old) != self.shelter_of(bed)
        }

    def cached(self, kind: Fact[I, T], subject: Subject, inputs: I) -> T:
        """The fact that follows from some inputs, from the cache where they are unchanged.

        Rooms above the plan declare facts of their own (:func:`planner.plan.cache.fact`).

        Parameters
        ----------
        kind : Fact
        subject : hashable
            What the fact is about: an id, or a tuple of ids, days and words.
        inputs : tuple
            Everything it depends on.
        """
        return self.cache.get(kind, subject, inputs)

    def cached_many(self, kind: BatchFact[I, T], asked: Iterable[tuple[Subject, I]]) -> list[T]:
        """The facts of several subjects; those whose inputs changed are worked out in one go.

        Parameters
        ----------
        kind : BatchFact
        asked : iterable of (subject, inputs)
        """
        return self.cache.get_many(kind, asked)

    # -- the growing year -------------------------------------------------------------------

    @lazy_property
    def span(self) -> Span:
        """First and last day of the growing year."""
        return year_span(self.garden.site, self.year)

    @lazy_property
    def plantings(self) -> tuple[Planting, ...]:
        """Plantings on their plot on any day of the growing year, in the document's order."""
        seen, year = self._seen, self.span
        found = []
        for planting in self.garden.plantings:
            of = seen.get(planting.id)  # as in span_of, which thousands of calls of would take a frame's time
            known = of is not None and of.planting is planting and of.span
            if (known or self.span_of(planting)).meets(year):
                found.append(planting)
        return tuple(found)

    @lazy_property
    def beds(self) -> tuple[Bed, ...]:
        """Beds in use in the growing year, in the document's order."""
        return tuple(bed for bed in self.garden.beds if bed.in_use(self.year))

    def in_bed(self, bed: Bed) -> tuple[Planting, ...]:
        """This year's plantings of a bed."""
        found = self._by_bed.get(bed.id)
        if found is None:
            there = self.garden_in_bed(bed.id)
            found = self._by_bed[bed.id] = tuple(p for p in there if self.span_of(p).meets(self.span))
        return found

    @property
    def _all_by_bed(self) -> dict[str, tuple[Planting, ...]]:
        found = self._grouped_by_bed
        if found is None:
            before, self._grouped_before = self._grouped_before, None
            found = self._grouped_by_bed = _grouped_after(before, self.garden.plantings)
        return found

    def garden_in_bed(self, bed: str) -> tuple[Planting, ...]:
        """Plantings of a bed in all years."""
        return self._all_by_bed.get(bed, ())

    def frosts(self, year: int | None = None) -> Frosts:
        """Frost dates of a growing year (this one by default), at the risk the gardener chose."""
        wanted = self.year if year is None else year
        found = self._frosts.get(wanted)
        if found is None:
            inputs = facts.FrostInputs(self.garden.site, self.garden.climate, wanted)
            found = self._frosts[wanted] = self.cache.get(facts.frosts_of_year, wanted, inputs)
        return found

    # -- a planting -------------------------------------------------------------------------

    @lazy_property
    def _world(self) -> facts.World:
        garden = self.garden
        inputs = facts.WorldInputs(
            site=garden.site,
            climate=garden.climate,
            varieties=garden.varieties,
            records=garden.telling_records,
            learned=self.learned.used,
            sheltering=self._sheltering,
            catalogue=self.catalogue,
            year=self.year,
        )
        return self.cache.get(facts.world_of_garden, "", inputs)

    def _facts_of(self, planting: Planting) -> facts.PlantingFacts:
        """What is worked out of a planting so far, in this plan or in one in which all it depends on was the same."""
        seen = self._seen.get(planting.id)
        if seen is not None and seen.planting is planting:
            return seen
        inputs = facts.PlantingInWorld(self._world, planting, self.garden.beds_by_id[planting.bed])
        found = self._seen[planting.id] = self.cache.get(facts.facts_of_planting, planting.id, inputs)
        return found

    @lazy_property
    def _book(self) -> Book:
        before, self._book_before = self._book_before, EMPTY
        return learn(self, before)

    @property
    def learned(self) -> Learned:
        """What this garden's own years tell of its crops, and what of it its plantings use."""
        return self._book.learned

    def learned_by(self, planting: Planting) -> LearnedFigures | None:
        """What a planting uses of this garden's own years; None where that is nothing."""
        if not self._book.by_key:
            return None
        return self._book.of(planting, figures_of(self.garden, self.catalogue, planting))

    def figures_of(self, planting: Planting) -> PlantingFigures:
        """Figures of a planting: what this garden learned before its variety's own, and those before its crop's."""
        of = self._facts_of(planting)
        if of.figures is None:
            inputs = figures_of(self.garden, self.catalogue, planting)
            inputs = inputs._replace(learned=self._book.of(planting, inputs))
            of.figures = self.cache.get(facts.figures_of_planting, planting.id, inputs)
        return of.figures

    def bed_of(self, planting: Planting) -> Bed:
        """The bed of a planting."""
        return self.garden.beds_by_id[planting.bed]

    def span_of(self, planting: Planting) -> Span:
        """First and last day a planting takes its plot."""
        of = self._facts_of(planting)
        if of.span is None:
            inputs = facts.SpanInputs(of.world.site, planting, self.dates(planting))
            of.span = self.cache.get(facts.span_of_planting, planting.id, inputs)
        return of.span

    def dates(self, planting: Planting) -> Dates:
        """Dates of a planting, each with its reason; the harvest of this growing year."""
        of = self._facts_of(planting)
        if of.dates is None:
            of.dates = self.cache.get(facts.dates_of_planting, planting.id, self._date_inputs(of))
        return of.dates

    def lived(self, planting: Planting) -> Lived | None:
        """A planting lived through the recorded years of the garden (:func:`planner.plan.lived.lived_in`)."""
        return self._lived_of(planting)[0]

    def odds(self, planting: Planting) -> Odds | None:
        """The odds of a planting over the recorded years; None where none are kept, or nothing of it is known."""
        return self._lived_of(planting)[1]

    @lazy_property
    def recorded(self) -> RecordedWeather | None:
        """The recorded weather of the garden, as the view assumes it; None where it keeps none."""
        from planner.plan import lived

        return lived.weather_in(self)

    def _lived_of(self, planting: Planting) -> tuple[Lived | None, Odds | None]:
        weather = self.recorded
        if weather is None:
            return None, None
        of = self._facts_of(planting)
        known = (
            of.lived
        )  # looking both up in the cache for all that an edit reaches would take a frame's time
        if known is None or known[0] is not weather:
            from planner.plan import lived

            there = lived.lived_in(self, planting)
            known = of.lived = weather, there, lived.odds_in(self, planting, there)
        return known[1], known[2]

    def date_inputs(self, planting: Planting) -> DateInputs:
        """Everything that the dates of a planting depend on."""
        return self._date_inputs(self._facts_of(planting))

    def _date_inputs(self, of: facts.PlantingFacts) -> DateInputs:
        planting, world = of.planting, of.world
        figures = self.figures_of(planting)
        perennial = stays_for_years(figures.crop)
        return DateInputs(
            planting=planting,
            figures=figures,
            climate=world.climate,
            frosts=self.frosts(planting.year),
            harvest_frosts=self.frosts(world.year if perennial else planting.year),
            year=(self.span.first, self.span.last) if perennial else None,
            southern=world.site.southern,
            done=self.garden.done(planting),
            observed=self.garden.observed(planting),
            outcome=self.garden.outcome(planting),
            shelter=self.shelter_of(of.bed),
            kept_above=of.bed.kept_above,
            latitude=world.site.latitude,
        )

    def shelter_of(self, bed: Bed) -> tuple[str, ...]:
        """Kinds of shelter of a bed: the roof over it, or a warm wall behind it; empty in the open."""
        return self.shelter_in(bed, self.year)

    def shelter_in(self, bed: Bed, year: int) -> tuple[str, ...]:
        """Kinds of shelter of a bed in any growing year."""
        sheltering = self._sheltering if year == self.year else self._sheltering_in(year)
        inputs = facts.ShelterInputs(bed, sheltering, self.garden.site)
        return self.cache.get(facts.shelter_of_bed, f"{bed.id} {year}", inputs)

    @lazy_property
    def _sheltering(self) -> tuple[Structure, ...]:
        return self._sheltering_in(self.year)

    def _sheltering_in(self, year: int) -> tuple[Structure, ...]:
        inputs = facts.ShelteringInputs(self.garden.structures, year)
        return self.cache.get(facts.sheltering_structures, year, inputs)

    def usual_dates(self, crop: Crop, start: str = "") -> Dates:
        """Dates of a crop in the open of this garden, begun at its earliest, whether planted or not.

        Parameters
        ----------
        crop : Crop
        start : str, optional
            The crop's usual way to start by default.
        """
        return work_out(self._usual_inputs(crop, start).dates())

    def start_windows(self, crop: Crop, start: str = "") -> tuple[StartWindow, ...]:
        """Days on which a crop may be begun in the open of this garden so that it is harvested well.

        Parameters
        ----------
        crop : Crop
        start : str, optional
            The crop's usual way to start by default.
        """
        return self.cached(facts.usual_start_windows, (crop.key, start), self._usual_inputs(crop, start))

    def dates_begun_on(self, crop: Crop, start: str, day: dt.date) -> tuple[Dates, bool]:
        """Dates of a crop in the open of this garden, of which the plot is taken on a day; and whether it is harvested well.

        Parameters
        ----------
        crop : Crop
        start : str
            The crop's usual way to start where empty.
        day : date
        """
        inputs = facts.BegunOn(self._usual_inputs(crop, start), day)
        return self.cached(facts.dates_begun_on, (crop.key, start, day), inputs)

    def outer_window(self, crop: Crop, start: str) -> StartWindow | None:
        """First and last day between which a crop may be begun in the open of this garden, on the good ones of them."""
        return self.cached(facts.outer_start_window, (crop.key, start), self._usual_inputs(crop, start))

    def _usual_inputs(self, crop: Crop, start: str) -> facts.UsualInputs:
        site = self.garden.site
        learned = self.own_figures(crop, start).learned
        return facts.UsualInputs(
            crop, start, self.year, self.garden.climate, self.frosts(), site.southern, site.latitude, learned
        )

    def own_figures(self, crop: Crop, start: str = "") -> PlantingFigures:
        """Figures of a crop, whether planted or not: what this garden learned of all its varieties before what is published.

        Parameters
        ----------
        crop : Crop
        start : str, optional
            The crop's usual way to start by default.
        """
        key = GroupKey(crop.key, "", "", start or crop.usual_start)
        return PlantingFigures(crop, None, self._book.by_key.get(key))

    def bench(self, planting: Planting) -> Span | None:
        """Days a planting's young plants are on the bench; None where none are raised."""
        return bench_span(self.dates(planting))

    def size(self, planting: Planting, day: dt.date) -> Size:
        """Height and spread of a planting's plants on a day; nothing before and after its span."""
        return size_on(self.figures_of(planting), self.dates(planting), self.span_of(planting), day)

    def placed(self, planting: Planting) -> Placed:
        """Plot, rows and stations of a planting."""
        seen = self._placed.get(planting.id)
        if seen is not None and seen[0] is planting:
            return seen[1]
        figures = self.figures_of(planting).published  # nothing that is learned moves a plant
        at_origin, obstacles = self._ground(self.bed_of(planting), climbs_arches(planting, figures))
        inputs = facts.PlacementInputs(at_origin, planting, figures, obstacles)
        found = self.cache.get(facts.placed_planting, planting.id, inputs)
        self._placed[planting.id] = planting, found
        return found

    def placed_as_published(self, planting: Planting, figures: PlantingFigures) -> Placed:
        """Plot, rows and stations that a planting has in its own growing year, by figures of which none are learned."""
        bed, climbing = self.bed_of(planting), climbs_arches(planting, figures)
        if planting.year == self.year or self._built_for_good:  # then it is what is asked for elsewhere
            at_origin, obstacles = self._ground(bed, climbing)
            inputs = facts.PlacementInputs(at_origin, planting, figures, obstacles)
            return self.cache.get(facts.placed_planting, planting.id, inputs)
        year = planting.year
        at_origin = self.cache.get(facts.bed_at_origin, bed.id, facts.BedAtOrigin(bed))
        prints = facts.FootprintInputs(self.garden.structures, year, climbing)
        ground = self.cache.get(facts.footprints_of_structures, ("then", year, climbing), prints)
        obstacles = self.cache.get(
            facts.obstacles_of_bed, (bed.id, climbing, year), facts.ObstacleInputs(bed, ground)
        )
        inputs = facts.PlacementInputs(at_origin, planting, figures, obstacles)
        return self.cache.get(facts.placed_planting, (planting.id, "then"), inputs)

    @lazy_property
    def _built_for_good(self) -> bool:
        """Whether all structures were there in any growing year."""
        return all(one.first_year is None and one.last_year is None for one in self.garden.structures)

    def survival(self, planting: Planting) -> Survival:
        """What is left of a planting by its records; of what stays for years at the end of this growing year."""
        records = telling_losses(self.garden.records_of(planting.id))
        if not records:
            return WHOLE
        figures = self.figures_of(planting).published
        if stays_for_years(figures.crop):
            records = tuple(one for one in records if one.day <= self.span.last)
        inputs = SurvivalInputs(planting, figures, self.placed(planting), records)
        return self.cache.get(survival_of_planting, planting.id, inputs)

    def plot_on_plan(self, planting: Planting) -> shapely.Geometry:
        """The plot of a planting in the coordinates of the plan."""
        outline, plot = self.bed_of(planting).outline, self.placed(planting).plot
        seen = self._plots.get(planting.id)
        if seen is not None and seen[0].outline is outline and seen[0].plot is plot:
            return seen[1]
        inputs = facts.PlotOnPlanInputs(outline, plot)
        found = self.cache.get(facts.plot_on_plan, planting.id, inputs)
        self._plots[planting.id] = inputs, found
        return found

    def built_support(self, planting: Planting, placed: Placed | None = None) -> BuiltSupport | None:
        """The support of a planting worked out, in its bed's coordinates; None without one of its own.

        Parameters
        ----------
        planting : Planting
        placed : Placed, optional
            Where it is by default.
        """
        if planting.support is None or self.arch_of(planting, placed) is not None:
            return None
        level = nets_lie_level(self.figures_of(planting).crop)
        inputs = facts.SupportInputs(planting.support, placed or self.placed(planting), level)
        return self.cache.get(facts.support_of_planting, planting.id, inputs)

    def may_climb_arch(self, planting: Planting) -> bool:
        """Whether a planting may climb an arch beside it, and grow along its feet."""
        return climbs_arches(planting, self.figures_of(planting))

    def arch_of(self, planting: Planting, placed: Placed | None = None) -> Structure | None:
        """The arch, drawn as a structure, that a planting climbs; None if there is none, or it does not climb.

        Parameters
        ----------
        planting : Planting
        placed : Placed, optional
            Where it is by default.
        """
        if not self.may_climb_arch(planting):
            return None
        outline, there = self.bed_of(planting).outline, placed or self.placed(planting)
        inputs = facts.ClimbedArchInputs(outline, there, self.garden.structures, self.year)
        return self.cache.get(facts.arch_of_planting, planting.id, inputs)

    def trial(self, planting: Planting) -> Placed:
        """Plot, rows and stations that a planting would have, were it in the garden."""
        bed, climbing = self.bed_of(planting), self.may_climb_arch(planting)
        return place_planting(bed, planting, self.figures_of(planting), self.obstacles(bed, climbing))

    # -- a bed ------------------------------------------------------------------------------

    def obstacles(self, bed: Bed, climbing: bool = False) -> shapely.Geometry:
        """Ground of a bed on which nothing can grow, in the bed's coordinates.

        Parameters
        ----------
        bed : Bed
        climbing : bool
            Whether for plants that climb arches: they grow along the feet of one.
        """
        return self._ground(bed, climbing)[1]

    def _ground(self, bed: Bed, climbing: bool) -> tuple[Bed, shapely.Geometry]:
        """A bed at the origin, and its obstacles."""
        seen = self._grounds.get((bed.id, climbing))
        if seen is not None and seen[0] is bed:
            return seen[1:]
        at_origin = self.cache.get(facts.bed_at_origin, bed.id, facts.BedAtOrigin(bed))
        inputs = facts.ObstacleInputs(bed, self._climbers_footprints if climbing else self._footprints)
        obstacles = self.cache.get(facts.obstacles_of_bed, (bed.id, climbing), inputs)
        self._grounds[bed.id, climbing] = bed, at_origin, obstacles
        return at_origin, obstacles

    @lazy_property
    def _footprints(self) -> tuple[shapely.Geometry, ...]:
        inputs = facts.FootprintInputs(self.garden.structures, self.year, climbing=False)
        return self.cache.get(facts.footprints_of_structures, "", inputs)

    @lazy_property
    def _climbers_footprints(self) -> tuple[shapely.Geometry, ...]:
        inputs = facts.FootprintInputs(self.garden.structures, self.year, climbing=True)
        return self.cache.get(facts.footprints_of_structures, "climbing", inputs)

    def area(self, bed: Bed) -> float:
        """Area of a bed. [m2]"""
        return shapes.outline_area(bed.outline)

    def structures_over(self, bed: Bed) -> tuple[Structure, ...]:
        """Tunnels and glasshouses in which most of a bed lies."""
        ground = shapes.plan_polygon(bed.outline)
        return tuple(
            structure
            for structure in self.garden.structures
            if structure.kind in ("tunnel", "glasshouse")
            and structure.in_use(self.year)
            and shapes.plan_polygon(structure.outline).intersection(ground).area > ground.area / 2
        )

    def free(
        self,
        bed: Bed,
        first: dt.date | None = None,
        last: dt.date | None = None,
        leaving_out: Iterable[str] = (),
        *,
        climbing: bool = False,
    ) -> shapely.Geometry:
        """Ground of a bed that no planting of this growing year takes on any day of a span, in the bed's coordinates.

        Parameters
        ----------
        bed : Bed
        first, last : date, optional
            The whole growing year by default.
        leaving_out : iterable of str
            Ids of plantings that do not count (those being moved).
        climbing : bool
            Whether for plants that climb arches.
        """
        span = Span(first or self.span.first, last or self.span.last)
        return self._free_among(self.in_bed(bed), bed, span, leaving_out, climbing)

    def free_in(
        self, bed: Bed, span: Span, leaving_out: Iterable[str] = (), *, climbing: bool = False
    ) -> shapely.Geometry:
        """Ground of a bed that no planting of any growing year takes on any day of a span.

        Parameters
        ----------
        bed : Bed
        span : Span
        leaving_out : iterable of str
            Ids of plantings that do not count.
        climbing : bool
            Whether for plants that climb arches, to which the ground at the feet of one is free.
        """
        return self._free_among(self.garden_in_bed(bed.id), bed, span, leaving_out, climbing)

    def _free_among(
        self,
        plantings: Iterable[Planting],
        bed: Bed,
        span: Span,
        leaving_out: Iterable[str],
        climbing: bool = False,
    ) -> shapely.Geometry:
        out = set(leaving_out)
        taken = [
            self.placed(p).plot
            for p in plantings
            if p.id not in out and not p.shares_ground and self.span_of(p).meets(span)
        ]
        return free_ground(bed, taken, self.obstacles(bed, climbing))

    def free_from(
        self, bed: Bed, leaving_out: Iterable[str] = (), *, climbing: bool = False
    ) -> list[tuple[dt.date | None, shapely.Geometry]]:
        """Free ground of a bed for the whole growing year, then from each day on which some falls free.

        Parameters
        ----------
        bed : Bed
        leaving_out : iterable of str
            Ids of plantings that do not count.
        climbing : bool
            Whether for plants that climb arches.

        Returns
        -------
        list of (date or None, shapely.Geometry)
            None means the whole year. Ground that is free a whole year is left out of the later
            entries only where nothing more falls free.
        """
        out = tuple(leaving_out)
        found: list[tuple[dt.date | None, shapely.Geometry]] = [
            (None, self.free(bed, leaving_out=out, climbing=climbing))
        ]
        ends = {self.span_of(p).last for p in self.in_bed(bed) if p.id not in out}
        for end in sorted(ends):
            if end >= self.span.last:  # also a planting that stays until it is taken out
                break
            first = end + dt.timedelta(days=1)
            if self.span.first < first:
                ground = self.free(bed, first, leaving_out=out, climbing=climbing)
                if ground.area > found[-1][1].area + 1e-6:
                    found.append((first, ground))
        return found

    # -- light (what it takes is imported where it is used: most questions need none of it) ----

    @lazy_property
    def place(self) -> Place:
        """Where the garden lies, for the sun.

        Raises
        ------
        planner.light.PlaceError
            While its latitude is not known; the line says how to give it.
        """
        from planner.plan import light

        return self.cache.get(light.place_of_garden, "", light.PlaceInputs(self.garden.site))

    def casters(self, day: dt.date) -> tuple[Caster, ...]:
        """All that casts a shadow on a day: structures, raised beds, plantings at their height."""
        return self.casters_by_thing(day).all

    def casters_by_thing(self, day: dt.date) -> DayCasters:
        """All that casts a shadow on a day, by what it belongs to."""
        found = self._casters.get(day)
        if found is None:
            from planner.plan import light

            found = self._casters[day] = light.casters_on(self, day)
        return found

    def take_casters(self, before: Plan, changed: Iterable[str]) -> None:
        """Take the casters of the days that were worked out before an edit, but for those of what it changed.

        Parameters
        ----------
        before : Plan
            Of the garden before, in the same world (:func:`planner.plan.changes.same_world`).
        changed : iterable of str
            Ids of all structures, beds and plantings whose casters may be others than before.
        """
        from planner.plan import light

        keys = tuple(changed)
        for day, there in tuple(before._casters.items()):
            if day not in self._casters:
                self._casters[day] = light.casters_after(self, there, keys, day)

    def would_shade(
        self, planting: Planting, placed: Placed, day: dt.date
    ) -> tuple[tuple[Planting, float], ...]:
        """Plantings that would lose direct sun to one not in the garden (:func:`planner.plan.light.would_shade`)."""
        from planner.plan import light

        return light.would_shade(self, planting, placed, day)

    def ground_of(self, thing: Bed | Planting) -> Receiver:
        """A bed's soil, or a planting at its own height, as what light falls on."""
        from planner.plan import light

        return light.receiver_of(self, thing)


def _grouped(plantings: Iterable[Planting]) -> dict[str, tuple[Planting, ...]]:
    """Plantings by the id of their bed."""
    found: dict[str, list[Planting]] = {}
    for planting in plantings:
        found.setdefault(planting.bed, []).append(planting)
    return {bed: tuple(there) for bed, there in found.items()}


def _grouped_after(
    before: tuple[tuple[Planting, ...], dict[str, tuple[Planting, ...]] | None] | None,
    plantings: tuple[Planting, ...],
) -> dict[str, tuple[Planting, ...]]:
    """Plantings by the id of their bed, from those before an edit where some were only replaced."""
    old, groups = before if before is not None else ((), None)
    if groups is None or len(old) != len(plantings):
        return _grouped(plantings)
    pairs = [(one, other) for one, other in zip(old, plantings, strict=True) if one is not other]
    if not pairs:
        return groups
    beds = {planting.bed for pair in pairs for planting in pair}
    kept = {bed: there for bed, there in groups.items() if bed not in beds}
    return {**kept, **_grouped(p for p in plantings if p.bed in beds)}
