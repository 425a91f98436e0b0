"""Trays and pots in use: how many at one time at most, which is what there has to be, and which plantings share a tray.

Plantings in trays of one kind share them while they stand on one bench, however many of their cells each takes: whole
trays are counted bench by bench and day by day.  A tray is filled again once it is free, so that what is to be had are
those of the fullest day.  All lists that name trays count them here.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from planner.amounts.bench import BenchYear, OnBench, bench_year, benches_wanted
from planner.amounts.raising import Raised, raisings
from planner.crops.containers import Container
from planner.plan import Plan


class InUse(NamedTuple):
    """Trays or pots in use on a day."""

    day: dt.date
    number: int


def places_of_tray(container: Container) -> int:
    """Plants to a tray of a container."""
    return container.per_tray


def in_use_on(
    placed: Iterable[OnBench], day: dt.date, places: Callable[[Container], int] = places_of_tray
) -> int:
    """How many trays are in use on a day; plantings on one bench share them.

    Parameters
    ----------
    placed : iterable of OnBench
        Those in trays of one kind.
    day : date
    places : callable, optional
        Plants to a tray, of a container; 1 counts single pots.
    """
    numbers: dict[tuple[str, int], int] = {}
    for one in placed:
        standing = one.standing
        if standing.first <= day <= standing.last:
            at = (one.bench, places(standing.container))
            numbers[at] = numbers.get(at, 0) + standing.number
    return sum(-(-number // each) for (_, each), number in numbers.items())


def counts_in_use(
    placed: Iterable[OnBench], first: dt.date, places: Callable[[Container], int] = places_of_tray
) -> list[InUse]:
    """How many are in use on each day on which more come, from the growing year's first day on."""
    placed = list(placed)
    days = sorted({max(first, one.standing.first) for one in placed})
    return [InUse(day, in_use_on(placed, day, places)) for day in days]


def benches_of(plan: Plan) -> BenchYear:
    """The garden's benches, or those wanted where none are entered."""
    return bench_year(plan) if plan.garden.benches else benches_wanted(plan)


def sharing_trays(benches: BenchYear, planting: str, day: dt.date) -> tuple[str, ...]:
    """Ids of the plantings that stand in trays of the same kind on the same bench on a day, without itself.

    Parameters
    ----------
    benches : BenchYear
    planting : str
        Id.
    day : date

    Returns
    -------
    tuple of str
        In the order in which they came; empty where its plants fill whole trays, or stand in pots or blocks.
    """
    there = [one for one in benches.placed if one.standing.first <= day <= one.standing.last]
    for one in there:
        container, number = one.standing.container, one.standing.number
        if one.standing.planting != planting:
            continue
        if container.kind not in ("cells", "seed tray") or not number % container.per_tray:
            return ()
        return tuple(
            other.standing.planting
            for other in there
            if other.bench == one.bench
            and other.standing.container.key == container.key
            and other.standing.planting != planting
            and other.standing.number % container.per_tray
        )
    return ()


@dataclass(frozen=True)
class ContainerTotal:
    """All that is filled of one container in a year.

    Attributes
    ----------
    container : Container
    number : int
        Cells, pots, blocks or seedlings.
    trays : int
        The most in use at one time; where no day is known, those of all at once.
    day : date or None
        The first day on which so many are in use.
    litres : float
        [l]
    """

    container: Container
    number: int
    trays: int
    day: dt.date | None
    litres: float


def container_totals(plan: Plan, parts: Sequence[Raised] | None = None) -> tuple[ContainerTotal, ...]:
    """Add up what is filled, by container, with the trays in use at one time at most.

    Parameters
    ----------
    plan : Plan
    parts : sequence of Raised, optional
        What is begun in the growing year by default.

    Returns
    -------
    tuple of ContainerTotal
        By kind and size; empty without any.
    """
    numbers: dict[tuple[str, int, float], int] = {}
    containers: dict[tuple[str, int, float], Container] = {}
    for part in raisings(plan) if parts is None else parts:
        for fill in part.fills:
            key = fill.container.key
            containers.setdefault(key, fill.container)
            numbers[key] = numbers.get(key, 0) + fill.number
    placed = benches_of(plan).placed
    found = []
    for key in sorted(containers):
        container, number = containers[key], numbers[key]
        counts = counts_in_use((one for one in placed if one.standing.container.key == key), plan.span.first)
        most = max(counts, key=lambda one: one.number, default=None)
        found.append(
            ContainerTotal(
                container,
                number,
                most.number if most is not None else container.trays(number),
                most.day if most is not None else None,
                number * container.volume,
            )
        )
    return tuple(found)


def mix_in_blocks(parts: Iterable[Raised]) -> float:
    """Mix that is pressed into blocks. [l]"""
    return math.fsum(fill.litres for part in parts for fill in part.fills if fill.container.kind == "blocks")
