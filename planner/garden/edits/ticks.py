"""Tasks ticked off with their real date."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from planner.garden.edits.common import EditError, checked, fresh_id, put, without_records
from planner.garden.edits.materials import put_dressing
from planner.garden.garden import Garden
from planner.garden.planting import COVER_WORK, Planting, Work
from planner.garden.records import Done, RecordBase, WorkRecord, work_done
from planner.words import say

#: For each kind of work, the kinds it cannot precede on the same planting.
_AFTER: dict[str, tuple[str, ...]] = {
    "prick out": ("sow",),
    "pot on": ("sow", "prick out"),
    "harden off": ("sow",),
    "set out": ("sow", "prick out", "chit"),
    "thin": ("sow",),
    "earth up again": ("earth up",),
    "pick": ("sow", "set out"),
    "lift and cure": ("sow", "set out"),
    "clear": ("sow", "set out", "pick", "lift and cure"),
}


#: Work that comes back every year on what stays for years; its support goes up once, with the start.
YEARLY: tuple[Work, ...] = (
    "film down",
    "cover on",
    "vent",
    "mulch",
    "earth up",
    "earth up again",
    "tie in",
    "pinch out",
    "stop",
    "feed",
    "cover off",
    "film up",
    "pick",
    "lift and cure",
    "cut back",
    "prune",
    "divide",
    "renew",
)
#: Work that may be done again and again on one planting: each day of it is a record of its own.
REPEATED: tuple[Work, ...] = ("tie in", "pinch out", "feed", "pick", "cut back", "prune")
#: Records of yearly work farther apart than this belong to two years. [days]
APART = 183


def of_another_year(day: dt.date, kind: str, date: dt.date) -> bool:
    """Whether a record of work on some day is of another year than a date: of work that comes back every year.

    Parameters
    ----------
    day : date
        Of the record.
    kind : str
        Of the work.
    date : date
    """
    return kind in YEARLY and abs((day - date).days) > APART


def tick(
    garden: Garden,
    key: str,
    kind: str,
    date: dt.date,
    cover: str | None = None,
    again: bool = False,
) -> Garden:
    """Tick a task off with the day it was really done; a second tick corrects the first.

    Work that comes back every year has a record for each year, and work that is done again one for each day.  All later dates of the planting that are not pinned
    are computed from the record.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting, or of the dressing that was spread.
    kind : str
        Kind of work.
    date : date
    cover : str, optional
        Of work on covers: the kind of cover it was done on; on all covers of the planting if not given.
    again : bool
        Whether it is work that is done again and again: a tick of another day corrects none.

    Raises
    ------
    EditError
        If there is no such planting, dressing or kind of work, or the day is before work that must precede it.
    """
    if _is_dressing(garden, key):
        _needs_spreading(garden, key, kind)
        return put_dressing(garden, key, done=date)[0]
    old = garden.plantings_by_id.get(key)
    if old is None:
        raise EditError(say("there is no planting '{key}'", key=key))
    fields = {"id": "-", "kind": "done", "planting": key, "task": kind, "day": date, "cover": cover}
    new = checked(lambda: WorkRecord.model_validate(fields), old.crop)
    assert new.task is not None
    if kind == "spread" or (cover is not None and kind not in COVER_WORK):
        raise EditError(
            say("'{kind}' is no work on {value}", kind=kind, value=cover or "a planting"), old.crop
        )
    ticks = [
        one
        for one in garden.records
        if isinstance(one, WorkRecord)
        and (one.planting, one.task, one.cover) == (key, kind, cover)
        and not of_another_year(one.day, kind, date)
    ]
    if again:
        ticks = [one for one in ticks if one.day == date]
    if [one.day for one in ticks] == [date]:
        return garden
    _refuse_wrong_order(garden, old, Done(key, new.task, date, new.cover))
    if not ticks:
        return put(garden, records=(*garden.records, new.with_(id=fresh_id(garden, "r"))))
    first, *others = ticks  # who wrote it down, its words and photographs stay
    records = (one for one in garden.records if one not in others)
    return put(garden, records=tuple(one.with_(day=date) if one is first else one for one in records))


def _refuse_wrong_order(garden: Garden, planting: Planting, new: Done) -> None:
    """Refuse work on a day before work that must precede it."""
    for other in garden.done(planting):
        if other.kind in YEARLY and of_another_year(other.date, new.kind, new.date):
            continue
        early, late = (other, new) if other.kind in _AFTER.get(new.kind, ()) else (new, other)
        if early.kind in _AFTER.get(late.kind, ()) and late.date < early.date:
            raise EditError(
                say(
                    "'{kind}' on {date} is before '{kind_2}' on {date_2}",
                    kind=late.kind,
                    date=late.date,
                    kind_2=early.kind,
                    date_2=early.date,
                ),
                f"{planting.crop} in {garden.beds_by_id[planting.bed].name}",
                say("Correct one of the two days"),
            )


def refuse_wrong_order(garden: Garden, new: Iterable[RecordBase]) -> None:
    """Refuse records that tell of work on a day before work that must precede it.

    Parameters
    ----------
    garden : Garden
        Without the new records.
    new : iterable of RecordBase

    Raises
    ------
    EditError
        If there is no such planting, or the day is before work that must precede it.
    """
    for record in new:
        if record.planting is not None and record.tells_dates:
            planting = garden.plantings_by_id[record.planting]
            for done in work_done((record,)):
                _refuse_wrong_order(garden, planting, done)


def _is_dressing(garden: Garden, key: str) -> bool:
    return any(one.id == key for one in garden.dressings)


def _needs_spreading(garden: Garden, key: str, kind: str) -> None:
    if kind != "spread":
        one = next(one for one in garden.dressings if one.id == key)
        raise EditError(
            say("'{kind}' is no work on a dressing", kind=kind),
            garden.beds_by_id[one.bed].name,
            say("Its work is 'spread'"),
        )


def untick(
    garden: Garden,
    key: str,
    kind: str,
    date: dt.date | None = None,
    cover: str | None = None,
    again: bool = False,
) -> Garden:
    """Remove the record of a task; the same garden if there is none.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting, or of the dressing that was spread.
    kind : str
        Kind of work.
    date : date, optional
        Of work that comes back every year, a day of the year to remove; all years by default.
    cover : str, optional
        Of work on covers: the kind of cover; a record that names no cover goes as well.  All by default.
    again : bool
        Whether only the record of that very day goes: of work that is done again.
    """
    if _is_dressing(garden, key):
        _needs_spreading(garden, key, kind)
        return put_dressing(garden, key, done=None)[0]
    gone = {
        one.id
        for one in garden.records
        if isinstance(one, WorkRecord)
        and (one.planting, one.task) == (key, kind)
        and (cover is None or one.cover in (None, cover))
        and (date is None or (one.day == date if again else not of_another_year(one.day, kind, date)))
    }
    return without_records(garden, gone)
