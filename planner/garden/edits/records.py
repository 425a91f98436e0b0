"""Edits of records: work ticked off with its real date."""

from __future__ import annotations

import datetime as dt

from planner.garden.edits.common import EditError, checked, put
from planner.garden.garden import Done, Garden
from planner.garden.planting import Work

#: Work that cannot come before other work on the same planting.
_AFTER: dict[str, tuple[str, ...]] = {
    "prick out": ("sow",),
    "harden off": ("sow",),
    "set out": ("sow", "prick out"),
    "thin": ("sow",),
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
    "cover off",
    "pick",
    "lift and cure",
)
#: Records of yearly work so far apart are of two years. [days]
APART = 183


def _of_another_year(done: Done, kind: str, date: dt.date) -> bool:
    return kind in YEARLY and abs((done.date - date).days) > APART


def tick(garden: Garden, planting: str, kind: str, date: dt.date) -> Garden:
    """Tick a piece of work off with the day it was really done; a second tick corrects the first.

    Work that comes back every year is ticked off anew each year.  Every later date of the planting that is not pinned follows from it.

    Raises
    ------
    EditError
        Where there is no such planting or work, or the day comes before work it must follow.
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
    """Take a tick back; the same garden where there is none.

    Of work that comes back every year the one near ``date``; all of them where it is left out.
    """
    rest = tuple(
        d
        for d in garden.records
        if (d.planting, d.kind) != (planting, kind) or (date is not None and _of_another_year(d, kind, date))
    )
    return garden if len(rest) == len(garden.records) else put(garden, records=rest)
