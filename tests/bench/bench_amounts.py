"""What a year takes and gives in a garden of 40 beds: all of it, and again after an edit, against working out all.

The garden is the sample ``hollow_lane`` with copies of its beds and plantings beside it, and its benches, shed, household and
stores.
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

from bench.figures import Measured, ms, percentile

from planner.amounts.bench import bench_year
from planner.amounts.closing import closings
from planner.amounts.covers import covers
from planner.amounts.raising import raisings
from planner.amounts.spread import spread_totals, spreads
from planner.amounts.supply_year import crop_years
from planner.amounts.supports import supports
from planner.garden import Garden, edits
from planner.plan import Plan
from planner.storage import load

BEDS, EDITS, YEAR = 40, 30, 2026
SAMPLE = Path(__file__).parents[2] / "sample_gardens" / "hollow_lane.bedwright"


def forty_beds() -> Garden:
    """The sample garden with as many copies of its beds as make forty."""
    garden = load(SAMPLE)
    beds = [bed.id for bed in garden.beds]
    number = 1
    while len(garden.beds) < BEDS:
        chosen = beds[: BEDS - len(garden.beds)]
        garden, _ = edits.duplicate(garden, chosen, 60.0 * number, 0.0)
        number += 1
    return garden


def _raising(plan: Plan) -> object:
    parts = raisings(plan)
    return parts, bench_year(plan)


def _spread(plan: Plan) -> object:
    return spread_totals(plan, spreads(plan))


def _closings(plan: Plan) -> object:
    return [list(closings(plan, year)) for year in crop_years(plan)]


PARTS: dict[str, Callable[[Plan], object]] = {
    "raising and benches": _raising,
    "covers and their cut list": covers,
    "supports and their cut list": supports,
    "what is spread": _spread,
    "harvest and stores": crop_years,
    "what closes the gaps": _closings,
}


def all_parts(plan: Plan) -> None:
    """Work out all but what closes the gaps, which is asked for a crop at a time."""
    for work in PARTS.values():
        if work is not _closings:
            work(plan)


def measure() -> list[Measured]:
    """Each part of a plan that knows its stations and dates already; then all of them after an edit."""
    garden = forty_beds()
    lines = []
    whole = 0.0
    for name, work in PARTS.items():
        seconds = min(_first_time(garden, work) for _ in range(3))
        whole += seconds if work is not _closings else 0.0
        lines.append(Measured(f"{BEDS} beds: {name}", ms(seconds), "", "", "", True))
    lines.append(
        Measured(f"{BEDS} beds: all but what closes the gaps", ms(whole), "", "", "100 ms", whole <= 0.1)
    )
    plan, took = Plan(garden, YEAR), []
    all_parts(plan)
    for number in range(EDITS):
        planting = garden.plantings[number * 7 % len(garden.plantings)]
        rows = {"kind": "rows", "in_row_spacing": 0.1 + 0.01 * (number % 5)}
        garden = edits.change_planting(garden, planting.id, arrangement=rows)
        plan = plan.after(garden)
        begin = time.perf_counter()
        all_parts(plan)
        took.append(time.perf_counter() - begin)
    late = percentile(took, 0.95)
    lines.append(
        Measured(
            f"{BEDS} beds: all of it after an edit",
            ms(late),
            ms(whole),
            f"{whole / late:.1f}",
            "16 ms",
            late <= 0.016,
        )
    )
    return lines


def _first_time(garden: Garden, work: Callable[[Plan], object]) -> float:
    plan = Plan(garden, YEAR)
    for planting in plan.plantings:
        plan.dates(planting)
        plan.placed(planting)
    begin = time.perf_counter()
    work(plan)
    return time.perf_counter() - begin
