"""Plantings of one growing year repeated in the next, on ground where they may stand."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from planner.amounts.begun import begun_in_year
from planner.checks import purity
from planner.checks.frame.context import CheckContext
from planner.checks.frame.planting_view import PlantingView, planting_view
from planner.checks.run import run_checks
from planner.checks.unfit_ground import accepted_checks, unfit_planting
from planner.garden import Garden, Planting
from planner.garden.edits.common import EditError, fresh_id, put
from planner.garden.plots import Stretch
from planner.plan import Plan
from planner.proposal.at_arches import at_arches
from planner.proposal.free_ground import FreeGround, FreePlace
from planner.proposal.year_later import years_later
from planner.season.practice import tender
from planner.words import day_words, say

#: With such a share of its plants a planting counts as repeated whole (practice).
NEARLY_ALL = 0.9
#: Other ground that holds more than so many times the plants of before is not taken whole, but as far as it is needed.
MORE_THAN_BEFORE = 1.1
#: Lengths of stretches are found to so much. [m]
LENGTH_STEP = 0.05
#: Ground with less than that share is taken only by what finds no other, when all else has its place (practice).
LEAST_REPEATED = 0.5
#: Most places at which a planting is tried.
_MOST_TRIED = 8


@dataclass(frozen=True)
class Repeated:
    """A planting that was to be repeated.

    Attributes
    ----------
    old : Planting
    new : Planting or None
        None where no ground is left on which it may stand.
    why : str
        What was against its old ground, a sentence without a full stop; empty where it stands there again.
    plants, of : int
        Plants that have room there, and those that the old one had; both 0 where it is not repeated.
    already : bool
        It was repeated before: nothing is changed.
    accepted : str
        What is against its ground and was accepted for the old planting, a sentence without a full stop; empty where nothing is.
    best : str
        Where it is not repeated: the place that is best for it, and what is against that; a sentence without a full stop.
    """

    old: Planting
    new: Planting | None
    why: str = ""
    plants: int = 0
    of: int = 0
    already: bool = False
    accepted: str = ""
    best: str = ""

    @property
    def fewer(self) -> bool:
        """Whether clearly fewer plants have room."""
        return self.new is not None and self.plants < NEARLY_ALL * self.of

    @property
    def moved(self) -> bool:
        """Whether it stands on other ground than before."""
        return self.new is not None and (self.new.bed, self.new.plot) != (self.old.bed, self.old.plot)


def repeatable(plan: Plan) -> tuple[Planting, ...]:
    """Plantings that may be repeated: what was begun in the growing year, does not stay for years and was not sown anew.

    Parameters
    ----------
    plan : Plan
    """
    anew = {one.replaces for one in plan.garden.plantings}
    return tuple(
        one for one in begun_in_year(plan) if not plan.dates(one).stays_for_years and one.id not in anew
    )


def repeat_one_by_one(before: Plan, after: Plan, keys: Iterable[str]) -> Iterator[tuple[Plan, Repeated]]:
    """Repeat plantings in another growing year, mostly the one after theirs; each where it stood, else on the nearest ground that is fit for it.

    Days that were given by hand are those of as many years later.  Ground is unfit where rotation, other plantings, perennials, its
    depth or its light are against it.  A finding that was accepted for a planting is accepted for it on the same ground again.
    What climbs an arch stands at an arch again.  A planting that was repeated before is not put a second time.

    Parameters
    ----------
    before, after : Plan
        Of the growing year they are of, and of the one in which they are repeated.
    keys : iterable of str
        Ids of the plantings.

    Yields
    ------
    plan, what became of one
        The plan is that of the growing year after, with all that were repeated so far.

    Raises
    ------
    EditError
        Where there is no such planting.
    """
    wanted = []
    for key in dict.fromkeys(keys):
        old = before.garden.plantings_by_id.get(key)
        if old is None:
            raise EditError(say("there is no planting '{key}' to repeat", key=key))
        wanted.append(old)
    if before.year == after.year:
        raise EditError(
            say("the plantings of {year} stand in it already", year=before.year),
            fix=say("Choose another year"),
        )
    there = _repeated_before(before, after, wanted)
    for old in wanted:
        if old.id in there:
            yield after, Repeated(old, there[old.id], already=True)
    yield from _Repeating(before, after, [old for old in wanted if old.id not in there]).steps()


def _repeated_before(before: Plan, after: Plan, wanted: Iterable[Planting]) -> dict[str, Planting]:
    """Plantings that some were repeated as already in the year after, by the ids of those.

    That is written in the planting.  In gardens of before it was, it is one that differs in nothing but its place.
    """
    of_year = [one for one in after.garden.plantings if one.year == after.year]
    found = {one.repeats: one for one in of_year if one.repeats is not None}
    free = [one for one in of_year if one.repeats is None]
    there = {}
    for old in wanted:
        if old.id in found:
            there[old.id] = found[old.id]
            continue
        alike = next(
            (
                one
                for one in free
                if one.crop == old.crop
                and one
                == _next_of(before, after.year, old, one.id).with_(bed=one.bed, plot=one.plot, repeats=None)
            ),
            None,
        )
        if alike is not None:
            there[old.id] = alike
            free.remove(alike)
    return there


def _next_of(before: Plan, year: int, old: Planting, key: str) -> Planting:
    """A planting as it is repeated on its ground in another growing year."""
    first = before.span_of(old).first if old.first is not None else None
    return years_later(old, key, first, year - before.year)


class _Wanted:
    """A planting that waits for its ground.

    Attributes
    ----------
    old, new : Planting
        The new one on the old ground.
    view : PlantingView
        On the days of the growing year after.
    area, of
        Its ground and its plants in the year before. [m2]
    shelter : tuple of str
    places : dict of str to FreePlace
        The best free stretch of each bed.
    """

    def __init__(self, before: Plan, after: Plan, old: Planting, key: str) -> None:
        self.old, self.new = old, _next_of(before, after.year, old, key)
        self.same = put(after.garden, plantings=(*after.garden.plantings, self.new))
        self.view: PlantingView = planting_view(after.what_if(self.same), self.new)
        placed = before.placed(old)
        self.area, self.of = float(placed.plot.area), placed.plants
        self.shelter = before.shelter_of(before.bed_of(old))
        self.choosiness = _choosiness(before, old)
        self.places: dict[str, FreePlace] = {}

    @property
    def rank(self) -> tuple[object, ...]:
        """What finds ground first: what climbs an arch, what grows under glass, then what has the fewest places, the largest first."""
        arch, glass, size = self.choosiness
        roomy = sum(place.share >= LEAST_REPEATED for place in self.places.values())
        return arch, glass, not roomy, roomy, size, self.old.id


class _Repeating:
    """Plantings that are repeated one by one; those with the fewest places first."""

    def __init__(self, before: Plan, after: Plan, olds: Iterable[Planting]) -> None:
        self.before, self.after = before, after
        self.ground = FreeGround(after)
        self._crossing: frozenset[str] | None = None
        key = fresh_id(after.garden, "p")
        first = int(key[1:])
        self.waiting = [
            _Wanted(before, after, old, f"{key[:1]}{first + number}") for number, old in enumerate(olds)
        ]
        for one in self.waiting:
            one.places = self.ground.in_beds(one.view, one.area, one.shelter)

    def steps(self) -> Iterator[tuple[Plan, Repeated]]:
        """Each planting as it finds its ground; those that find too little at first come last."""
        later = []
        while first := [one for one in self.waiting if one not in later]:
            one = min(first, key=lambda waits: waits.rank)
            found = self._repeat(one, LEAST_REPEATED)
            if found.new is None:
                later.append(one)
                continue
            self.waiting.remove(one)
            yield self.after, found
        for one in later:
            self.waiting.remove(one)
            one.places = self.ground.in_beds(one.view, one.area, one.shelter, any_width=True)
            yield self.after, self._repeat(one, 0.0)

    def _repeat(self, one: _Wanted, least: float) -> Repeated:
        new = one.new
        why, accepted = self._against_old_ground(one)
        if not why or accepted:
            self._take(self._with(new), new)
            plants = self.after.placed(new).plants
            return Repeated(one.old, new, plants=plants, of=one.of, accepted=why)
        against = self._judge(one)
        best: tuple[Planting, int] | None = None
        for moved in self._places(one, least):
            moved, plants = self._no_more(moved, one.of)
            garden = self._with(moved)
            if not plants or plants < least * one.of or (best is not None and plants <= best[1]):
                continue
            if not against(garden, moved.id):
                best = moved, plants
                if plants >= NEARLY_ALL * one.of:
                    break
        if best is None:
            return Repeated(one.old, None, why, best=self._best_place(one))
        self._take(self._with(best[0]), best[0])
        return Repeated(one.old, best[0], why, best[1], one.of)

    def _no_more(self, moved: Planting, most: int) -> tuple[Planting, int]:
        """A planting on the shortest part of its stretch that holds as many plants as before, and how many it holds."""

        def held(planting: Planting) -> int:
            return self.after.what_if(self._with(planting)).placed(planting).plants

        plants, plot = held(moved), moved.plot
        if plants <= most * MORE_THAN_BEFORE:
            return moved, plants
        if plot.kind == "whole":
            plot = Stretch(start=0.0, end=self.ground.length_of(moved.bed))
        if not isinstance(plot, Stretch):
            return moved, plants
        enough, low, high = moved, plot.start, plot.end
        while high - low > LENGTH_STEP:
            middle = (low + high) / 2
            shorter = moved.with_(plot=plot.with_(end=middle))
            count = held(shorter) if middle - plot.start >= LENGTH_STEP else 0
            if count >= most:
                enough, plants, high = shorter, count, middle
            else:
                low = middle
        return enough, plants

    def _with(self, planting: Planting) -> Garden:
        return put(self.after.garden, plantings=(*self.after.garden.plantings, planting))

    def _take(self, garden: Garden, new: Planting) -> None:
        """Put a planting into the plan; its bed has less free ground for the others."""
        self.after = self.after.after(garden)
        self.ground.follow(self.after, new.bed)
        for one in self.waiting:
            one.places.pop(new.bed, None)
            one.places |= self.ground.in_beds(one.view, one.area, one.shelter, (new.bed,))

    def _judge(self, one: _Wanted, leaving_out: frozenset[str] = frozenset()) -> Callable[[Garden, str], str]:
        """What says of the planting why it should not grow where it is; seed that crossed before may cross again."""
        if one.old.id in self._crossing_before():
            leaving_out |= {purity.CHECK}
        return unfit_planting(self.after, leaving_out, strict=True)

    def _crossing_before(self) -> frozenset[str]:
        if self._crossing is None:
            found = run_checks(CheckContext(self.before), {purity.CHECK: purity.check})
            self._crossing = frozenset(key for one in found for key in one.plantings)
        return self._crossing

    def _against_old_ground(self, one: _Wanted) -> tuple[str, bool]:
        """What is against its old ground, and whether that was accepted there."""
        if not self.after.garden.beds_by_id[one.new.bed].in_use(self.after.year):
            return say("its bed is not in use any more"), False
        garden = self._with(one.new)
        why = self._judge(one)(garden, one.new.id)
        accepted = accepted_checks(self.before, one.old) if why else frozenset()
        return why, bool(accepted and not self._judge(one, accepted)(garden, one.new.id))

    def _places(self, one: _Wanted, least: float, *, rotation: bool = True) -> Iterator[Planting]:
        """The planting on other ground: at the arches that stand if it climbs one, else on free ground.

        Ground that is large enough comes first, the nearest before the rest; then the largest.
        """
        new = one.new
        if self.before.arch_of(one.old) is not None:
            tried = self.after.what_if(self._with(new))
            for bed, plot in at_arches(tried, new):
                moved = new.with_(bed=bed.id, plot=plot)
                sheltered = tried.shelter_of(bed) == one.shelter
                if sheltered and tried.what_if(self._with(moved)).arch_of(moved) is not None:
                    yield moved
            return
        places = (
            one.places
            if rotation
            else self.ground.in_beds(one.view, one.area, one.shelter, rotation=False, any_width=True)
        )
        fit = [place for place in places.values() if place.share >= least]
        for place in sorted(fit, key=lambda at: (-min(at.share, NEARLY_ALL), at.far, at.bed.id))[
            :_MOST_TRIED
        ]:
            yield place.put(new, one.view)

    def _best_place(self, one: _Wanted) -> str:
        """The place that is best for what is not repeated, and what is against it."""
        against = self._judge(one)
        for moved in self._places(one, 0.0, rotation=False):
            why = against(self._with(moved), moved.id)
            if why:
                bed = self.after.garden.beds_by_id[moved.bed].name
                return say("the best place left is {bed}: {why}", bed=bed, why=why)
        if self.before.arch_of(one.old) is not None:
            return say("at no arch that stands is ground free for it")
        first, last = one.view.span.first, one.view.span.last
        return say(
            "no bed of its kind is free from {first} to {last}",
            first=day_words(first),
            last=day_words(last),
        )


def _choosiness(plan: Plan, planting: Planting) -> tuple[bool, bool, float]:
    """What finds ground before the rest: what climbs an arch, then what grows under glass and frost kills, then the largest."""
    arch = plan.arch_of(planting) is not None
    crop = plan.figures_of(planting).crop
    needs_glass = bool(plan.shelter_of(plan.bed_of(planting))) and tender(crop)
    return not arch, not needs_glass, -plan.placed(planting).area
