"""Plantings of one growing year repeated in the next, on ground where they may stand."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from planner.amounts.begun import begun_in_year
from planner.checks.frame.fixes import in_other_beds
from planner.checks.frame.planting_view import planting_view
from planner.checks.unfit_ground import unfit_planting
from planner.garden import Garden, Planting
from planner.garden.edits.common import EditError, fresh_id, put
from planner.garden.planting import PinnedDates
from planner.plan import Plan
from planner.words import say


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
    """

    old: Planting
    new: Planting | None
    why: str = ""

    @property
    def moved(self) -> bool:
        """Whether it stands on other ground than before."""
        return self.new is not None and (self.new.bed, self.new.plot) != (self.old.bed, self.old.plot)


def repeatable(plan: Plan) -> tuple[Planting, ...]:
    """Plantings that may be repeated: what was begun in the growing year and does not stay for years.

    Parameters
    ----------
    plan : Plan
    """
    return tuple(one for one in begun_in_year(plan) if not plan.dates(one).stays_for_years)


def repeat_one_by_one(before: Plan, after: Plan, keys: Iterable[str]) -> Iterator[tuple[Plan, Repeated]]:
    """Repeat plantings in the growing year after theirs; each where it stood, else on the nearest ground that is fit for it.

    Days that were given by hand are those of a year later.  Ground is unfit where rotation, other plantings, perennials, its
    depth or its light are against it.

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
    for key in dict.fromkeys(keys):
        old = before.garden.plantings_by_id.get(key)
        if old is None:
            raise EditError(f"there is no planting '{key}' to repeat")
        after, one = _repeat(before, after, old)
        yield after, one


def _repeat(before: Plan, after: Plan, old: Planting) -> tuple[Plan, Repeated]:
    key = fresh_id(after.garden, "p")
    new = a_year_later(old, before.span_of(old).first if old.first is not None else None).with_(id=key)
    same = put(after.garden, plantings=(*after.garden.plantings, new))
    against = unfit_planting(after)
    in_use = after.garden.beds_by_id[new.bed].in_use(after.year)
    why = against(same, key) if in_use else say("its bed is not in use any more")
    if not why:
        return after.after(same), Repeated(old, new)
    tried = after.what_if(same)
    for _, fix in in_other_beds(tried, planting_view(tried, new)):
        moved: Garden | None = fix.apply(same) if fix is not None else None
        if moved is not None and not against(moved, key):
            return after.after(moved), Repeated(old, moved.plantings_by_id[key], why)
    return after, Repeated(old, None, why)


def a_year_later(planting: Planting, first: dt.date | None = None) -> Planting:
    """A planting like another, with the days that were given by hand a year later; it replaces none and stands in no series.

    Parameters
    ----------
    planting : Planting
    first : date, optional
        Its first day, where that was given by hand.
    """
    pins = planting.pinned_dates
    moved = {
        name: next_year(day) for name in type(pins).model_fields if (day := getattr(pins, name)) is not None
    }
    return planting.with_(
        year=planting.year + 1,
        first=next_year(first) if first is not None else None,
        last=next_year(planting.last) if planting.last is not None else None,
        pinned_dates=PinnedDates(**moved),
        covers=tuple(
            cover.with_(
                first=next_year(cover.first) if cover.first is not None else None,
                last=next_year(cover.last) if cover.last is not None else None,
            )
            for cover in planting.covers
        ),
        series=None,
        replaces=None,
        came_from=None,
        notes="",
    )


def next_year(day: dt.date) -> dt.date:
    """The same day a year later; the last day of February after a leap day."""
    try:
        return day.replace(year=day.year + 1)
    except ValueError:
        return day.replace(year=day.year + 1, day=28)
