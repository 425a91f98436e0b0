"""Moves from bench to bench on days on which nothing else is done with what is raised."""

from __future__ import annotations

import datetime as dt
import itertools
from typing import NamedTuple

from planner.amounts.bench import BenchYear, OnBench
from planner.plan import Plan


class BenchMove(NamedTuple):
    """A planting that is carried to another bench: its id, the day, and how it stands there."""

    planting: str
    day: dt.date
    to: OnBench


def bench_moves(plan: Plan, benches: BenchYear) -> tuple[BenchMove, ...]:
    """Moves of a growing year, in the order of their days.

    A planting that is pricked out, potted on or hardened off on that day is carried with that work, which is no move.

    Parameters
    ----------
    plan : Plan
    benches : BenchYear
    """
    stays: dict[str, list[OnBench]] = {}
    for one in benches.placed:
        stays.setdefault(one.standing.planting, []).append(one)
    found = []
    for key, there in stays.items():
        dates = plan.dates(plan.garden.plantings_by_id[key])
        at_work = {
            one.day for one in (dates.sow, dates.prick_out, dates.pot_on, dates.harden_off) if one is not None
        }
        there.sort(key=lambda one: one.standing.first)
        for before, after in itertools.pairwise(there):
            day = after.standing.first
            if after.bench != before.bench and day not in at_work and plan.span.holds(day):
                found.append(BenchMove(key, day, after))
    return tuple(sorted(found, key=lambda move: (move.day, move.planting)))
