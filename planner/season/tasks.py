"""Dated work and how much of it there is."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import get_args

from planner.garden.planting import COVER_WORK, Work
from planner.season.frosts import shift
from planner.season.raising import Fill

#: Position of each kind of work among others of the same day.
WORK_ORDER: dict[str, int] = {kind: place for place, kind in enumerate(get_args(Work))}


@dataclass(frozen=True)
class Extent:
    """How much there is to do.

    Attributes
    ----------
    stations : int
    seeds : int or None
        To sow; None where unknown.
    grams : float or None
        [g]
    sown : str
        How it is sown, in words, as ``2 seeds to a station``; may be empty.
    fills : tuple of Fill
        Containers that are filled for raised plants.
    nursery_area : float
        Of a nursery bed that is sown; 0 without one. [m2]
    left : tuple of (date, int)
        Plants that are left from a day on, after what was lost or counted; empty where nothing is known.
    """

    stations: int = 0
    seeds: int | None = None
    grams: float | None = None
    sown: str = ""
    fills: tuple[Fill, ...] = ()
    nursery_area: float = 0.0
    left: tuple[tuple[dt.date, int], ...] = ()

    def fill(self, work: str) -> Fill | None:
        """What is filled for a kind of work: ``sow``, ``prick out`` or ``pot on``."""
        return next((one for one in self.fills if one.work == work), None)


@dataclass(frozen=True)
class Task:
    """A dated piece of work.

    Attributes
    ----------
    date, until : date
        First and last day for it; the same where it is one day's work.
    kind : str
        One of :data:`planner.garden.planting.Work`.
    planting, bed : str
        Ids; ``bed_name`` is the bed's name.  Work on a whole bed has no planting.
    crop, variety : str
        As shown; the variety may be empty.
    text : str
        The work in a sentence, with what it amounts to.
    work, amount : str
        The same in two parts, for lists by bed: the work without its bed, and how much of it there is; the amount may be empty.
    stations : int
    seeds : int or None
    grams : float or None
        [g]
    material : str
        What is needed, as ``fleece``; may be empty.
    why : str
        Why on that day.
    source : str
    origin : str
        ``worked out``, ``by hand`` or ``done``.
    done : date or None
        The day it was really done.
    done_before : bool
        No day is written down for it, but later work on its planting is, before which it must have been done.
    dressing : str
        Id of the dressing that is spread; empty of all other work.
    fill : Fill or None
        Containers that are filled for it.
    season : str
        Year of work that comes back every year on a planting that stays for years; else empty.
    every : int
        Days after which it is due again once it was done; 0 where it is done once.  [days]
    occurrence : str
        Of work that is done again: the day on which it was done this time; empty where it is open.
    """

    date: dt.date
    until: dt.date
    kind: Work
    planting: str
    bed: str
    bed_name: str
    crop: str
    variety: str
    text: str
    work: str = ""
    amount: str = ""
    stations: int = 0
    seeds: int | None = None
    grams: float | None = None
    material: str = ""
    why: str = ""
    source: str = ""
    origin: str = "worked out"
    done: dt.date | None = None
    fill: Fill | None = None
    season: str = ""
    dressing: str = ""
    done_before: bool = False
    every: int = 0
    occurrence: str = ""

    @property
    def is_open(self) -> bool:
        """Whether it is still to be done, as far as is known."""
        return self.done is None and not self.done_before

    @property
    def subject(self) -> str:
        """Id under which it is ticked off: of its dressing, else of its planting."""
        return self.dressing or self.planting

    @property
    def cover(self) -> str | None:
        """Kind of the cover that it is work on; None of all other work."""
        return self.material if self.kind in COVER_WORK else None

    @property
    def key(self) -> str:
        """The same for the same work, however its date moves; work of every year has its year in it, and each time of work that is
        done again the day on which it was done."""
        return f"{self.base_key}/{self.occurrence}" if self.occurrence else self.base_key

    @property
    def base_key(self) -> str:
        """The key of all times at which work that is done again is done."""
        parts = [self.subject, self.kind.replace(" ", "-"), self.material, self.season]
        return "/".join(part for part in parts if part)


def by_week(tasks: Iterable[Task]) -> tuple[tuple[dt.date, tuple[Task, ...]], ...]:
    """Tasks by the Monday of the week in which they begin, in order; weeks without any left out."""
    found: dict[dt.date, list[Task]] = {}
    for task in sorted(tasks, key=lambda one: (one.date, WORK_ORDER[one.kind], one.bed_name)):
        found.setdefault(monday(task.date), []).append(task)
    return tuple((week, tuple(of_week)) for week, of_week in sorted(found.items()))


@lru_cache(maxsize=4096)  # asked twenty thousand times for the harvest of a year of 40 beds
def monday(day: dt.date) -> dt.date:
    """The Monday of a day's week."""
    return shift(day, -day.weekday())
