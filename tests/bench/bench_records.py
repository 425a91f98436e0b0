"""What records teach: 500 recorded plantings read for the first time and after a new record, and the sample's own years and trials.

The 500 plantings are ten crops in 50 beds over five years, each with four records.
"""

from __future__ import annotations

import datetime as dt
import time
from pathlib import Path

from bench.figures import Measured, best, ms, percentile
from making import bed, planting, rectangle
from own_years import COOL

from planner.amounts.trials import trial_results
from planner.garden import Garden, Site
from planner.garden.edits import add_records
from planner.plan import Plan
from planner.storage import load

SAMPLE = Path(__file__).parents[2] / "sample_gardens" / "hollow_lane.bedwright"
#: Crops and how they start; ten of them fill two stretches of each bed in five years.
_CROPS = {
    "dwarf_bean": "sown", "carrot": "sown", "lettuce": "raised", "beetroot": "sown", "pea": "sown",
    "kohlrabi": "sown", "cabbage": "raised", "tomato": "raised", "onion": "sets", "courgette": "raised",
}  # fmt: skip
BEDS, YEARS, EDITS = 50, range(2021, 2026), 30
#: Aims. [s]
FIRST, NEW = 0.1, 0.016


def recorded_garden() -> Garden:
    """A garden of 500 plantings with records."""
    beds, plantings, records = [], [], []
    names = list(_CROPS)
    for number in range(BEDS):
        beds.append(bed(f"b{number}", rectangle(8.0, 1.2, center=(0.0, 2.0 * number))))
        for year in YEARS:
            for half in range(2):
                crop, key = names[(number + half + year) % len(names)], f"p{len(plantings)}"
                plot = {"kind": "stretch", "start": 4.0 * half, "end": 4.0 * half + 4.0}
                made = planting(key, f"b{number}", crop=crop, year=year, start=_CROPS[crop], plot=plot)
                plantings.append(made)
                records += [
                    {"kind": "came up", "planting": key, "day": dt.date(year, 5, 20), "share": 0.7},
                    {"kind": "first picking", "planting": key, "day": dt.date(year, 8, 10)},
                    picked(key, dt.date(year, 8, 20)),
                    {"kind": "ended", "planting": key, "day": dt.date(year, 10, 1), "why": "harvested"},
                ]
    garden = Garden(site=Site(latitude=56.0), climate=COOL, beds=tuple(beds), plantings=tuple(plantings))
    return add_records(garden, records)[0]


def picked(key: str, day: dt.date) -> dict[str, object]:
    """Fields of a picking."""
    return {"kind": "picked", "planting": key, "day": day, "amount": {"value": 3000, "unit": "g"}}


def measure() -> list[Measured]:
    """Lines of the table."""
    garden = recorded_garden()
    plan = Plan(garden, 2026)
    begin = time.perf_counter()
    learned = plan.learned
    first = time.perf_counter() - begin
    assert learned.own
    last_year = [one.id for one in garden.plantings if one.year == YEARS[-1]]
    found = []
    for number in range(EDITS):
        edited, _ = add_records(plan.garden, [picked(last_year[number], dt.date(YEARS[-1], 8, 25))])
        begin = time.perf_counter()
        plan = plan.after(edited)
        assert plan.learned.own
        found.append(time.perf_counter() - begin)
    new = percentile(found, 95)
    sample = load(SAMPLE)
    own = best(lambda: Plan(sample, 2026).learned, 3)
    trials = best(lambda: trial_results(Plan(sample, 2026)), 3)
    return [
        Measured("500 recorded plantings: first reading", ms(first), "", "", ms(FIRST), first <= FIRST),
        Measured("500 recorded plantings: a new record, p95", ms(new), "", "", ms(NEW), new <= NEW),
        Measured("hollow_lane: its own years", ms(own), "", "", ms(FIRST), own <= FIRST),
        Measured("hollow_lane: its trials", ms(trials), "", "", ms(FIRST), trials <= FIRST),
    ]
