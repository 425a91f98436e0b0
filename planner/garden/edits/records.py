"""Edits of records: tasks ticked off with their real date."""

from __future__ import annotations

import datetime as dt

from planner.garden.edits.common import EditError, checked, put
from planner.garden.garden import Done, Garden
from planner.garden.planting import Work

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
#: Records of yearly work farther apart than this belong to two years. [days]
APART = 183


def _of_another_year(done: Done, kind: str, date: dt.date) -> bool:
    return kind in YEARLY and abs((done.date - date).days) > APART


def tick(garden: Garden, planting: str, kind: str, date: dt.date) -> Garden:
    """Tick a task off with the day it was really done; a second tick corrects the first.

    Work that comes back every year has a record for each year.  All later dates of the planting that are not pinned
    are computed from the record.

    Parameters
    ----------
    garden : Garden
    planting : str
        Id of the planting.
    kind : str
        Kind of work.
    date : date

    Raises
    ------
    EditError
        If there is no such planting or kind of work, or the day is before work that must precede it.
    """
    old = garden.plantings_by_id.get(planting)
    if old is None:
        raise EditError(f"there is no planting '{planting}'")
    done = checked(lambda: Done.model_validate({"planting": planting, "kind": kind, "date": date}), old.crop)
    where = f"{old.crop} in {garden.beds_by_id[old.bed].name}"
    for other in garden.done(old):
        if other == done:
            return garden
        if kind in YEARLY and other.kind in YEARLY and abs((other.date - date).days) > APART:
            continue
        early, late = (other, done) if other.kind in _AFTER.get(kind, ()) else (done, other)
        if early.kind in _AFTER.get(late.kind, ()) and late.date < early.date:
            raise EditError(
                f"'{late.kind}' on {late.date} is before '{early.kind}' on {early.date}",
                where,
                "Correct one of the two days",
            )
    rest = tuple(
        d
        for d in garden.records
        if (d.planting, d.kind) != (planting, kind) or _of_another_year(d, kind, date)
    )
    return put(garden, records=(*rest, done))


def untick(garden: Garden, planting: str, kind: str, date: dt.date | None = None) -> Garden:
    """Remove the record of a task; the same garden if there is none.

    Parameters
    ----------
    garden : Garden
    planting : str
        Id of the planting.
    kind : str
        Kind of work.
    date : date, optional
        Of work that comes back every year, a day of the year to remove; all years by default.
    """
    rest = tuple(
        d
        for d in garden.records
        if (d.planting, d.kind) != (planting, kind) or (date is not None and _of_another_year(d, kind, date))
    )
    return garden if len(rest) == len(garden.records) else put(garden, records=rest)
