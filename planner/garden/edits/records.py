"""Edits of records: tasks ticked off with their real date."""

from __future__ import annotations

import datetime as dt

from planner.garden.edits.common import EditError, checked, put
from planner.garden.edits.materials import put_dressing
from planner.garden.garden import Done, Garden
from planner.garden.planting import COVER_WORK, Work

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
#: Records of yearly work farther apart than this belong to two years. [days]
APART = 183


def _of_another_year(done: Done, kind: str, date: dt.date) -> bool:
    return kind in YEARLY and abs((done.date - date).days) > APART


def tick(garden: Garden, key: str, kind: str, date: dt.date, cover: str | None = None) -> Garden:
    """Tick a task off with the day it was really done; a second tick corrects the first.

    Work that comes back every year has a record for each year.  All later dates of the planting that are not pinned
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
        raise EditError(f"there is no planting '{key}'")
    fields = {"planting": key, "kind": kind, "date": date, "cover": cover}
    done = checked(lambda: Done.model_validate(fields), old.crop)
    if kind == "spread" or (cover is not None and kind not in COVER_WORK):
        raise EditError(f"'{kind}' is no work on {cover or 'a planting'}", old.crop)
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
        if (d.planting, d.kind, d.cover) != (key, kind, cover) or _of_another_year(d, kind, date)
    )
    return put(garden, records=(*rest, done))


def _is_dressing(garden: Garden, key: str) -> bool:
    return any(one.id == key for one in garden.dressings)


def _needs_spreading(garden: Garden, key: str, kind: str) -> None:
    if kind != "spread":
        one = next(one for one in garden.dressings if one.id == key)
        raise EditError(
            f"'{kind}' is no work on a dressing", garden.beds_by_id[one.bed].name, "Its work is 'spread'"
        )


def untick(
    garden: Garden, key: str, kind: str, date: dt.date | None = None, cover: str | None = None
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
    """
    if _is_dressing(garden, key):
        _needs_spreading(garden, key, kind)
        return put_dressing(garden, key, done=None)[0]
    rest = tuple(
        d
        for d in garden.records
        if (d.planting, d.kind) != (key, kind)
        or (cover is not None and d.cover not in (None, cover))
        or (date is not None and _of_another_year(d, kind, date))
    )
    return garden if len(rest) == len(garden.records) else put(garden, records=rest)
