"""Edits of how plantings end."""

from __future__ import annotations

import datetime as dt

from planner.garden.edits.common import EditError, checked, fresh_id, put
from planner.garden.edits.records import add_records
from planner.garden.garden import Garden
from planner.garden.planting import PinnedDates, Planting
from planner.words import say


def sow_anew(garden: Garden, key: str, day: dt.date) -> tuple[Garden, str]:
    """Record that a planting failed, and sow or plant it anew on the same plot.

    The new planting is like the old one and names it; days that were given by hand are those of the old one.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting that failed.
    day : date
        On which the old one ends and the new one begins.

    Returns
    -------
    garden, id of the new planting

    Raises
    ------
    EditError
        If there is no such planting, it has ended already, or the day is before it began.
    """
    old = garden.plantings_by_id.get(key)
    if old is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    where = f"{old.crop} in {garden.beds_by_id[old.bed].name}"
    ended = garden.outcome(old)
    if ended is not None:
        raise EditError(
            say("it ended on {day} already", day=ended.day),
            where,
            say("Take that record back, or plant it as a new one"),
        )
    garden, _ = add_records(garden, [{"kind": "ended", "day": day, "planting": key, "why": "resown"}])
    return _like_it(garden, old, day, where)


def plant_again(garden: Garden, key: str, day: dt.date) -> tuple[Garden, str]:
    """Sow or plant once more, on the same plot, what was lost.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of a planting that ended.
    day : date
        On which the new one begins.

    Returns
    -------
    garden, id of the new planting

    Raises
    ------
    EditError
        If there is no such planting, or the day is not after its end.
    """
    old = garden.plantings_by_id.get(key)
    if old is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    where = f"{old.crop} in {garden.beds_by_id[old.bed].name}"
    ended = garden.outcome(old)
    if ended is None or day <= ended.day:
        raise EditError(
            say("it has not ended before {day}", day=day), where, say("Sow it anew, or give a later day")
        )
    return _like_it(garden, old, day, where)


def _like_it(garden: Garden, old: Planting, day: dt.date, where: str) -> tuple[Garden, str]:
    """A planting that replaces another one on its plot, and begins on a day."""
    new = fresh_id(garden, "p")
    changes = {
        "id": new,
        "replaces": old.id,
        "repeats": None,
        "first": day,
        "last": None,
        "pinned_dates": PinnedDates(),
        "covers": tuple(cover.with_(first=None, last=None) for cover in old.covers),
    }
    planting = checked(lambda: old.with_(**changes), where)
    return put(garden, plantings=(*garden.plantings, planting)), new
