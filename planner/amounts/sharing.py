"""What lies at one time must be there at one time: pieces that fall free serve again.

Jobs are taken in the order of their first days, of one day the largest first.  Each takes what is in the shed and fits, the smallest first, then what was
wanted for an earlier job and is free again; only then is one more wanted.  Of pieces of one size that makes the least
number: as many as are in use on the fullest day, less those in the shed.
"""

from __future__ import annotations

import datetime as dt
import heapq
import operator
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

#: Sizes that lack so little fit. [m]
_TOLERANCE = 1e-6

Origin = Literal["shed", "lying", "new"]


class Job(NamedTuple):
    """Pieces in use for a span of days.

    Attributes
    ----------
    key : str
        What it is for.
    first, last : date
        Both included.
    size : tuple of float
        Least size of each piece in each direction. [m]
    number : int
    sort : hashable
        What they are, beside their size: weight of fleece, mesh of a net.
    """

    key: str
    first: dt.date
    last: dt.date
    size: tuple[float, ...]
    number: int = 1
    sort: Hashable = None


class Stored(NamedTuple):
    """Pieces in the shed: id, size of each [m], number, and what they are beside their size.

    Those that came in the year are in no use since before it.
    """

    key: str
    size: tuple[float, ...]
    number: int
    sort: Hashable = None
    came_in_year: bool = False


class Use(NamedTuple):
    """Pieces of a pile that a job takes."""

    job: Job
    number: int


@dataclass
class Pile:
    """Pieces of one size.

    Attributes
    ----------
    key : str
        Id in the shed; else empty.
    origin : {"shed", "lying", "new"}
        ``lying``: in use since before the year, and not in the shed's list.
    size : tuple of float
        [m]
    number : int
    sort : hashable
    uses : list of Use
        In the order of their first days.
    cut, cut_of_order : int
        So many of the new ones are cut from what is in the shed, and from what is ordered for it.
    """

    key: str
    origin: Origin
    size: tuple[float, ...]
    number: int
    sort: Hashable = None
    uses: list[Use] = field(default_factory=list)
    cut: int = 0
    cut_of_order: int = 0
    _busy: list[tuple[dt.date, int]] = field(default_factory=list)
    _taken: int = 0

    def free_on(self, day: dt.date) -> int:
        """How many are in no use from a day on; days are asked for in their order."""
        while self._busy and self._busy[0][0] < day:
            self._taken -= heapq.heappop(self._busy)[1]
        return self.number - self._taken

    def take(self, job: Job, number: int) -> None:
        """Take some for a job."""
        heapq.heappush(self._busy, (job.last, number))
        self._taken += number
        self.uses.append(Use(job, number))

    def holds(self, size: tuple[float, ...]) -> bool:
        """Whether its pieces are large enough."""
        return all(there >= wanted - _TOLERANCE for there, wanted in zip(self.size, size, strict=True))


def share(
    jobs: Iterable[Job],
    stored: Sequence[Stored] = (),
    lying_before: dt.date | None = None,
    *,
    grows: bool = False,
    whole_below: float | None = None,
    cut_all: bool = False,
    suits: Callable[[Hashable, Hashable], bool] = operator.eq,
    roll: Callable[[float], float] = float,
) -> tuple[Pile, ...]:
    """Share pieces over time.

    Parameters
    ----------
    jobs : iterable of Job
        With sizes of as many directions as those stored.
    stored : sequence of Stored
        In the shed.
    lying_before : date, optional
        What is in use since before this day and finds nothing in the shed is there and not wanted.
    grows : bool
        A sheet wanted for one job may be made longer for a later one, if it is cut from the same roll.
    whole_below : float, optional
        Pieces in the shed that are so many times as long as is wanted, or longer, are left to be cut.
    cut_all : bool
        All pieces in the shed are left to be cut, but for those that are in use since before ``lying_before``.
    suits : callable
        Whether pieces of one sort, in the shed, serve a job of another.
    roll : callable
        Width of the roll that a sheet of a width is cut from. [m]

    Returns
    -------
    tuple of Pile
        Those of the shed that are used, then the others in the order in which they are wanted first.
    """
    shed = [
        Pile(one.key, "shed", one.size, one.number, one.sort)
        for one in sorted(stored, key=lambda one: (one.size, one.key))
    ]
    came = {one.key for one in stored if one.came_in_year}
    others: list[Pile] = []
    alike: dict[tuple[Hashable, ...], Pile] = {}
    for job in sorted(jobs, key=_in_order):
        wanted = job.number
        lies = lying_before is not None and job.first < lying_before
        for pile in shed if lies or not cut_all else ():
            if lies and pile.key in came:
                continue
            if wanted and pile.free_on(job.first) and suits(pile.sort, job.sort):
                wanted -= _take_free(pile, job, wanted) if _serves(pile, job, whole_below) else 0
        for pile in others:
            if wanted and pile.free_on(job.first) and pile.sort == job.sort and pile.holds(job.size):
                wanted -= _take_free(pile, job, wanted)
        if wanted and grows and (longer := _growing(others, job, roll)) is not None:
            longer.size = tuple(map(max, longer.size, job.size))
            wanted -= _take_free(longer, job, wanted)
        if wanted:
            origin: Origin = "lying" if lies else "new"
            same = None if grows else alike.get((origin, job.size, job.sort))
            pile = same or Pile("", origin, job.size, 0, job.sort)
            pile.number += wanted
            pile.take(job, wanted)
            if same is None:
                others.append(pile)
                alike[origin, job.size, job.sort] = pile
    return (*(pile for pile in shed if pile.uses), *others)


def _in_order(job: Job) -> tuple[object, ...]:
    """By first days; of one day the largest pieces first, so that smaller ones leave them what is large."""
    return job.first, tuple(-side for side in job.size), job.last, job.key


def _serves(pile: Pile, job: Job, whole_below: float | None) -> bool:
    if not pile.holds(job.size):
        return False
    return whole_below is None or not job.size or pile.size[0] < whole_below * job.size[0]


def _take_free(pile: Pile, job: Job, wanted: int) -> int:
    number = min(wanted, pile.free_on(job.first)) if wanted else 0
    if number > 0:
        pile.take(job, number)
    return max(0, number)


def _growing(others: Sequence[Pile], job: Job, roll: Callable[[float], float]) -> Pile | None:
    """The longest sheet from the same roll that is wanted and free; None where there is none."""
    free = [
        pile
        for pile in others
        if pile.origin == "new"
        and pile.number == 1
        and pile.sort == job.sort
        and abs(roll(pile.size[-1]) - roll(job.size[-1])) <= _TOLERANCE
        and pile.free_on(job.first)
    ]
    return max(free, key=lambda pile: pile.size, default=None)


def first_uses(pile: Pile) -> list[Use]:
    """For which jobs the pieces of a pile are wanted first; of jobs that find all theirs free, none.

    The numbers add up to :func:`most_in_use`.
    """
    found: list[Use] = []
    busy: list[tuple[dt.date, int]] = []
    there = taken = 0
    for use in pile.uses:
        while busy and busy[0][0] < use.job.first:
            taken -= heapq.heappop(busy)[1]
        more = max(0, use.number - (there - taken))
        there, taken = there + more, taken + use.number
        heapq.heappush(busy, (use.job.last, use.number))
        found.append(Use(use.job, more))
    return found


def most_in_use(pile: Pile) -> int:
    """The greatest number of a pile's pieces in use on one day."""
    return most_at_once(use.job._replace(number=use.number) for use in pile.uses)


def most_at_once(jobs: Iterable[Job]) -> int:
    """The greatest number of pieces in use on one day."""
    changes: dict[dt.date, int] = {}
    for job in jobs:
        changes[job.first] = changes.get(job.first, 0) + job.number
        after = job.last + dt.timedelta(days=1)
        changes[after] = changes.get(after, 0) - job.number
    most = now = 0
    for day in sorted(changes):
        now += changes[day]
        most = max(most, now)
    return most
