"""Plantings of one growing year repeated in the next, on ground where they may stand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from planner.amounts.begun import begun_in_year
from planner.checks.frame.fixes import in_other_beds
from planner.checks.frame.planting_view import planting_view
from planner.checks.unfit_ground import accepted_checks, unfit_planting
from planner.garden import Garden, Planting
from planner.garden.edits import change_planting
from planner.garden.edits.common import EditError, fresh_id, put
from planner.garden.planting import PinnedDates
from planner.plan import Plan
from planner.proposal.at_arches import at_arches
from planner.season.practice import tender
from planner.words import say

#: With such a share of its plants a planting counts as repeated whole (practice).
NEARLY_ALL = 0.9
#: With less than that share it is not repeated (practice).
LEAST_REPEATED = 0.5


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
    """

    old: Planting
    new: Planting | None
    why: str = ""
    plants: int = 0
    of: int = 0
    already: bool = False
    accepted: str = ""

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
            raise EditError(f"there is no planting '{key}' to repeat")
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
    new = [old for old in wanted if old.id not in there]
    for old in sorted(new, key=lambda one: _choosiness(before, one)):
        after, one = _repeat(before, after, old)
        yield after, one


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


def _repeat(before: Plan, after: Plan, old: Planting) -> tuple[Plan, Repeated]:
    key = fresh_id(after.garden, "p")
    new = _next_of(before, after.year, old, key)
    same = put(after.garden, plantings=(*after.garden.plantings, new))
    of = before.placed(old).plants
    if after.garden.beds_by_id[new.bed].in_use(after.year):
        accepted = accepted_checks(before, old)
        against = unfit_planting(after)
        why = against(same, key)
        if why and accepted and not unfit_planting(after, leaving_out=accepted)(same, key):
            there = after.after(same)
            return there, Repeated(old, new, plants=there.placed(new).plants, of=of, accepted=why)
    else:
        against, why = unfit_planting(after), say("its bed is not in use any more")
    if not why:
        there = after.after(same)
        return there, Repeated(old, new, plants=there.placed(new).plants, of=of)
    tried = after.what_if(same)
    best: tuple[Garden, int] | None = None
    shelter = before.shelter_of(before.bed_of(old))
    for moved in _elsewhere(before, tried, same, old, key):
        there = after.what_if(moved)
        placed = moved.plantings_by_id[key]
        if there.shelter_of(there.bed_of(placed)) != shelter:  # neither out of the glass nor into it
            continue
        plants = there.placed(placed).plants
        if plants < LEAST_REPEATED * of:
            continue
        if (best is None or plants > best[1]) and not against(moved, key):
            best = moved, plants
            if plants >= NEARLY_ALL * of:
                break
    if best is None:
        return after, Repeated(old, None, why)
    return after.after(best[0]), Repeated(old, best[0].plantings_by_id[key], why, best[1], of)


def _elsewhere(before: Plan, tried: Plan, same: Garden, old: Planting, key: str) -> Iterator[Garden]:
    """Gardens with a planting on other ground: at the arches that stand if it climbs one, else on free ground, the nearest first."""
    new = same.plantings_by_id[key]
    if before.arch_of(old) is not None:
        for bed, plot in at_arches(tried, new):
            moved = change_planting(same, key, bed=bed.id, plot=plot)
            if tried.what_if(moved).arch_of(moved.plantings_by_id[key]) is not None:
                yield moved
        return
    for _, fix in in_other_beds(tried, planting_view(tried, new)):
        if fix is not None:
            yield fix.apply(same)


def _choosiness(plan: Plan, planting: Planting) -> tuple[bool, bool, float]:
    """What finds ground before the rest: what climbs an arch, then what grows under glass and frost kills, then the largest."""
    arch = plan.arch_of(planting) is not None
    crop = plan.figures_of(planting).crop
    needs_glass = bool(plan.shelter_of(plan.bed_of(planting))) and tender(crop)
    return not arch, not needs_glass, -plan.placed(planting).area


def a_year_later(planting: Planting, key: str, first: dt.date | None = None) -> Planting:
    """A planting that repeats another in the next growing year (see :func:`years_later`)."""
    return years_later(planting, key, first, 1)


def years_later(planting: Planting, key: str, first: dt.date | None, years: int) -> Planting:
    """A planting that repeats another, with the days that were given by hand some years later; it stands in no series.

    Parameters
    ----------
    planting : Planting
    key : str
        Id of the new one.
    first : date or None
        Its first day, where that was given by hand.
    years : int
        Negative for earlier years.
    """
    pins = planting.pinned_dates

    def later(day: dt.date | None) -> dt.date | None:
        return day_years_later(day, years) if day is not None else None

    return planting.with_(
        id=key,
        year=planting.year + years,
        first=later(first),
        last=later(planting.last),
        pinned_dates=PinnedDates(**{name: later(getattr(pins, name)) for name in type(pins).model_fields}),
        covers=tuple(
            cover.with_(first=later(cover.first), last=later(cover.last)) for cover in planting.covers
        ),
        series=None,
        replaces=None,
        repeats=planting.id,
        came_from=None,
        notes="",
    )


def day_years_later(day: dt.date, years: int) -> dt.date:
    """The same day some years later; the last day of February after a leap day."""
    try:
        return day.replace(year=day.year + years)
    except ValueError:
        return day.replace(year=day.year + years, day=28)
