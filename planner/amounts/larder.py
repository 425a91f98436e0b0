"""What is there of a crop, and what is eaten of it, from day to day.

All that is harvested are lots: so many grams, there from a day on and good until another.  Of those that are there the
one is eaten first that is good for the shortest time.  What a household wants of a week is wanted in whole grams from day to
day; what it does not get is not made up for later.

Between two days on which a lot comes or goes nothing but eating happens, so those stretches are worked out at once.
"""

from __future__ import annotations

import datetime as dt
import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

_DAY = dt.timedelta(days=1)


class Lot(NamedTuple):
    """Part of a harvest.

    Attributes
    ----------
    planting : str
        Id of the planting.
    grams : int
    first, last : date
        First and last day on which it is good to eat.
    place : str
        Where it keeps: ``plot`` while it waits in the ground, ``fresh`` where it is picked to be eaten, ``jars``, ``dried``,
        ``freezer``, id of a place of the garden, or ``store`` for one as the crop wants it.
    """

    planting: str
    grams: int
    first: dt.date
    last: dt.date
    place: str = "fresh"


@dataclass(frozen=True)
class LotCourse:
    """What became of a lot.

    Attributes
    ----------
    lot : Lot
    eaten : int
        [g]
    gone : date or None
        The day on which the last of it was eaten; None where some was left.
    spoilt : int
        What is left of it after its last day. [g]
    levels : tuple of (date, int)
        What was left of it on the first day of each stretch in which it was there, before eating. [g]
    """

    lot: Lot
    eaten: int
    gone: dt.date | None
    spoilt: int
    levels: tuple[tuple[dt.date, int], ...] = ()


class Stretch(NamedTuple):
    """Days from ``first`` until the day before ``end``, in which no lot came or went. [g]"""

    first: dt.date
    end: dt.date
    wanted: int
    eaten: int
    there: int  # on the first day, before anything of it is eaten


@dataclass(frozen=True)
class Course:
    """What became of all lots.

    Attributes
    ----------
    lots : tuple of LotCourse
        In the order in which they were given.
    stretches : tuple of Stretch
        Without gaps.
    """

    lots: tuple[LotCourse, ...]
    stretches: tuple[Stretch, ...]


def wanted_by(weekly: int, first: dt.date, day: dt.date) -> int:
    """Grams wanted from a first day until the day before another. [g]

    Parameters
    ----------
    weekly : int
        [g]
    first, day : date
    """
    return weekly * (day - first).days // 7


def course_of(
    lots: Sequence[Lot], weekly: int, first: dt.date, last: dt.date, marks: Iterable[dt.date] = ()
) -> Course:
    """Work out what is eaten of some lots from a first to a last day.

    Parameters
    ----------
    lots : sequence of Lot
    weekly : int
        Wanted in a week. [g]
    first, last : date
        What was good before the first day only has spoilt.
    marks : iterable of date
        Days on which a stretch begins whatever happens: months, weeks.
    """
    end = last + _DAY
    days = {first, end, *(day for day in marks if first < day < end)}
    for lot in lots:
        days |= {day for day in (lot.first, lot.last + _DAY) if first < day < end}
    order = sorted(range(len(lots)), key=lambda number: (lots[number].last, lots[number].first, number))
    left = [lot.grams for lot in lots]
    gone: dict[int, dt.date] = {}
    levels: list[list[tuple[dt.date, int]]] = [[] for _ in lots]
    stretches = []
    marked = sorted(days)
    for begin, until in itertools.pairwise(marked):
        there = [n for n in order if left[n] and lots[n].first <= begin <= lots[n].last]
        so_far = wanted_by(weekly, first, begin)
        wanted = wanted_by(weekly, first, until) - so_far
        whole, eaten = sum(left[n] for n in there), 0
        for number in there:
            levels[number].append((begin, left[number]))
        for number in there:
            part = min(left[number], wanted - eaten)
            if part <= 0:
                break
            left[number] -= part
            eaten += part
            if not left[number]:
                gone[number] = _day_of(so_far + eaten, weekly, first)
        stretches.append(Stretch(begin, until, wanted, eaten, whole))
    found = tuple(
        LotCourse(lot, lot.grams - left[n], gone.get(n), left[n] if lot.last <= last else 0, tuple(levels[n]))
        for n, lot in enumerate(lots)
    )
    return Course(found, tuple(stretches))


def _day_of(grams: int, weekly: int, first: dt.date) -> dt.date:
    """The day on which so many grams have been wanted since a first day."""
    return first + _DAY * (-(-7 * grams // weekly) - 1)
