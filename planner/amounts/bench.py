"""The benches over a growing year: which planting stands on which bench when, and how many trays there are on each.

Trays of one kind are filled up with plantings that stand on the same bench; each takes the same ground, whatever is in it.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple, get_args

import numpy as np
import numpy.typing as npt

from planner.amounts.packing import most_trays
from planner.amounts.raising import Raised, Standing, raised
from planner.crops.containers import number_of, shipped_containers, tray_area
from planner.garden.raising import Bench, BenchKind
from planner.lazy import lazy_property
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.spans import Span
from planner.season.tasks import monday

Counts = npt.NDArray[np.int64]
_DAY = dt.timedelta(days=1)
#: A bench of each kind that holds whatever is wanted.
_WANTED = tuple(
    Bench(id=kind.replace(" ", "-"), name=kind, kind=kind, length=1000.0, width=1.0)
    for kind in get_args(BenchKind)
)

#: On what else plants stand where there is no bench of the kind that they want (practice).  Plants are hardened off in the
#: open where there is no cold frame.
INSTEAD: dict[BenchKind, tuple[BenchKind, ...]] = {
    "heated": ("heated", "cool", "cold frame"),
    "cool": ("cool", "heated", "cold frame"),
    "cold frame": ("cold frame",),
}


def capacity(bench: Bench) -> int:
    """Trays that stand on a bench; one too narrow for a whole tray takes strips of cells that are cut from it, by area.

    Parameters
    ----------
    bench : Bench
    """
    tray = shipped_containers().tray
    whole = most_trays(bench.length, bench.width, number_of(tray.length), number_of(tray.width))
    return whole or int(bench.area / tray_area() + 1e-9)


@dataclass(frozen=True)
class OnBench:
    """A planting on a bench.

    Attributes
    ----------
    bench : str
        Id of the bench; empty in the open.
    standing : Standing
    """

    bench: str
    standing: Standing


@dataclass(frozen=True)
class BenchDays:
    """One bench, day by day.

    Attributes
    ----------
    bench : Bench
    capacity : int
        Trays that it holds.
    first : date
        First day of the growing year.
    trays : tuple of int
        Trays on it on each day of the growing year.
    """

    bench: Bench
    capacity: int
    first: dt.date
    trays: tuple[int, ...]

    def on(self, day: dt.date) -> int:
        """Trays on a day of the growing year."""
        return self.trays[(day - self.first).days]

    def too_full(self) -> tuple[Span, ...]:
        """Spans of days on which there are more trays than it holds."""
        found: list[Span] = []
        for number, trays in enumerate(self.trays):
            day = self.first + number * _DAY
            if trays <= self.capacity:
                continue
            if found and found[-1].last == day - _DAY:
                found[-1] = Span(found[-1].first, day)
            else:
                found.append(Span(day, day))
        return tuple(found)


@dataclass(frozen=True)
class BenchWeek:
    """A bench on its fullest day of a week.

    Attributes
    ----------
    monday : date
    bench : Bench
    day : date
        The first of its fullest days.
    trays, capacity : int
    taken, free : float
        Ground under its trays, and what is left of the bench; nothing is free where trays hang over. [m2]
    plantings : tuple of str
        Ids of those that stand on it on any day of the week.
    """

    monday: dt.date
    bench: Bench
    day: dt.date
    trays: int
    capacity: int
    taken: float
    free: float
    plantings: tuple[str, ...]

    @property
    def free_trays(self) -> int:
        """Trays for which there is room; below 0 those that are too many."""
        return self.capacity - self.trays


@dataclass(frozen=True)
class BenchYear:
    """The benches of a growing year.

    Attributes
    ----------
    benches : tuple of BenchDays
        In the garden's order.
    placed : tuple of OnBench
        In the order of their first days; those of plants that stand in the open have no bench.
    """

    benches: tuple[BenchDays, ...]
    placed: tuple[OnBench, ...]

    @lazy_property
    def by_bench(self) -> dict[str, tuple[Standing, ...]]:
        """What stands on each bench in the year, by its id, in the order of their first days."""
        found: dict[str, list[Standing]] = {}
        for one in self.placed:
            found.setdefault(one.bench, []).append(one.standing)
        return {bench: tuple(there) for bench, there in found.items()}

    def standing_on(self, bench: str, span: Span) -> tuple[Standing, ...]:
        """What stands on a bench on any day of a span."""
        first, last = span.first, span.last
        return tuple(one for one in self.by_bench.get(bench, ()) if one.first <= last and one.last >= first)

    def trays_on(self, bench: str, day: dt.date) -> dict[str, float]:
        """Trays of each planting on a bench on a day, by its id, in the order in which they came.

        Plantings in the same kind of tray share its trays by their numbers, so that all together are the trays of that day.

        Parameters
        ----------
        bench : str
            Id.
        day : date
        """
        standing = self.standing_on(bench, Span(day, day))
        numbers: dict[tuple[str, int, float], int] = {}
        for one in standing:
            key = one.container.key
            numbers[key] = numbers.get(key, 0) + one.number
        found: dict[str, float] = {}
        for one in standing:
            number = numbers[one.container.key]
            trays = one.number / number * one.container.trays(number)
            found[one.planting] = found.get(one.planting, 0.0) + trays
        return found

    def weeks(self) -> tuple[BenchWeek, ...]:
        """Each week of the year in which anything stands on a bench, bench by bench within a week."""
        found = []
        for there in self.benches:
            for begins in range(-there.first.weekday(), len(there.trays), 7):
                week = there.trays[max(begins, 0) : begins + 7]
                if any(week):
                    found.append(self._week(there, max(begins, 0), week))
        place = {there.bench.id: number for number, there in enumerate(self.benches)}
        return tuple(sorted(found, key=lambda week: (week.monday, place[week.bench.id])))

    def _week(self, there: BenchDays, begins: int, trays: Sequence[int]) -> BenchWeek:
        fullest = max(trays)
        first = there.first + begins * _DAY
        taken = fullest * tray_area()
        standing = self.standing_on(there.bench.id, Span(first, first + (len(trays) - 1) * _DAY))
        return BenchWeek(
            monday=monday(first),
            bench=there.bench,
            day=first + trays.index(fullest) * _DAY,
            trays=fullest,
            capacity=there.capacity,
            taken=taken,
            free=max(0.0, there.bench.area - taken),
            plantings=tuple(dict.fromkeys(one.planting for one in standing)),
        )


class BenchInputs(NamedTuple):
    """The benches of a garden, and all that is raised in a growing year."""

    benches: tuple[Bench, ...]
    raised: tuple[Raised, ...]
    first: dt.date
    last: dt.date


def on_bench_in_year(plan: Plan) -> tuple[Raised, ...]:
    """What stands on a bench on any day of the growing year, in the document's order."""
    found = []
    for planting in plan.garden.plantings:
        span = plan.bench(planting)
        bed = plan.bed_of(planting)
        if (
            span is not None
            and span.meets(plan.span)
            and (bed.in_use(plan.year) or bed.in_use(planting.year))
        ):
            one = raised(plan, planting)
            if one is not None:
                found.append(one)
    return tuple(found)


def bench_year(plan: Plan, parts: Iterable[Raised] | None = None) -> BenchYear:
    """Work out which planting stands on which bench when.

    In the order in which they come, each goes onto the first bench of its kind that has room for it on all its days; where
    none has, onto the one that it overfills least.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Raised, optional
        All that is on a bench in the growing year by default.
    """
    of_year = on_bench_in_year(plan) if parts is None else tuple(parts)
    inputs = BenchInputs(plan.garden.benches, of_year, plan.span.first, plan.span.last)
    return plan.cached(benches_of_year, plan.year, inputs)


def benches_wanted(plan: Plan, parts: Iterable[Raised] | None = None) -> BenchYear:
    """What a bench of each kind would hold that is as long as it takes: for a garden that has none yet.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Raised, optional
        All that is on a bench in the growing year by default.
    """
    of_year = on_bench_in_year(plan) if parts is None else tuple(parts)
    inputs = BenchInputs(_WANTED, of_year, plan.span.first, plan.span.last)
    return plan.cached(benches_of_year, f"wanted {plan.year}", inputs)


@fact("benches")
def benches_of_year(inputs: BenchInputs) -> BenchYear:
    """The benches of a growing year."""
    days = (inputs.last - inputs.first).days + 1
    loads = [_Load(bench, inputs.first, days) for bench in inputs.benches]
    wanted = (
        one
        for part in inputs.raised
        for one in part.standings
        if one.first <= inputs.last and one.last >= inputs.first
    )
    placed = []
    for one in sorted(wanted, key=lambda one: (one.first, one.planting)):
        load = _place_for(one, loads)
        if load is not None:
            load.add(one)
        placed.append(OnBench(load.bench.id if load is not None else "", one))
    return BenchYear(tuple(load.finished() for load in loads), tuple(placed))


def _place_for(one: Standing, loads: Sequence[_Load]) -> _Load | None:
    """The bench for a planting; None where it stands in the open."""
    for kind in INSTEAD[one.kind]:
        least: tuple[int, _Load] | None = None
        for load in loads:
            if load.bench.kind == kind:
                excess = load.excess_with(one)
                if not excess:
                    return load
                if least is None or excess < least[0]:
                    least = excess, load
        if least is not None:
            return least[1]
    return None


class _Load:
    """A bench that is being filled."""

    def __init__(self, bench: Bench, first: dt.date, days: int) -> None:
        self.bench, self.first, self.days = bench, first, days
        self.capacity = capacity(bench)
        self._trays: Counts = np.zeros(days, dtype=np.int64)
        self._numbers: dict[tuple[str, int, float], Counts] = {}

    def _slice(self, one: Standing) -> slice:
        return slice(max(0, (one.first - self.first).days), min(self.days, (one.last - self.first).days + 1))

    def _with(self, one: Standing) -> tuple[slice, Counts, Counts]:
        """Days of a planting, and on them the places of its container and all trays, with it."""
        at, each = self._slice(one), one.container.per_tray
        numbers = self._numbers.get(one.container.key)
        before = numbers[at] if numbers is not None else np.zeros_like(self._trays[at])
        after = before + one.number
        return at, after, self._trays[at] - -(-before // each) + -(-after // each)

    def excess_with(self, one: Standing) -> int:
        """Trays too many on the fullest day of a planting, with it; 0 where there is room."""
        return max(0, int(self._with(one)[2].max()) - self.capacity)

    def add(self, one: Standing) -> None:
        """Set a planting on the bench."""
        at, numbers, trays = self._with(one)
        self._numbers.setdefault(one.container.key, np.zeros_like(self._trays))[at] = numbers
        self._trays[at] = trays

    def finished(self) -> BenchDays:
        """The bench day by day."""
        return BenchDays(self.bench, self.capacity, self.first, tuple(self._trays.tolist()))
