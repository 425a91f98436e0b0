"""One edit in a garden of 18 beds and three years: new plan and all findings, light by itself, against all anew."""

from __future__ import annotations

import gc
import random
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from planner import resources
from planner.checks import CHECKS, LIGHT, Run, check_all, check_light, listed
from planner.checks.odds_alone import TOPIC
from planner.garden import Garden
from planner.garden import edits as e
from planner.plan import Plan
from planner.season.weather_years import years_of
from planner.storage import load

sys.path.insert(0, str(Path(__file__).parent.parent))

from bench.bench_edit import big_garden
from bench.figures import Measured, ms, percentile
from invented_weather import invented

EDITS = 240
#: Edits that a run follows in a large garden, and findings of it that are mended.
FOLLOWED, MENDED = 60, 24
CROPS = ("carrot", "beetroot", "onion", "lettuce", "spinach", "radish", "cabbage")


def random_edits(garden: Garden, year: int, count: int) -> Iterator[Garden]:
    """A garden edited again and again, mostly in its plantings, as people do."""
    chance = random.Random(3)
    for step in range(count):
        mine = [p for p in garden.plantings if p.year == year]
        planting, bed = chance.choice(mine), chance.choice(garden.beds)
        kind = step % 6
        if kind == 0:
            garden = e.move_things(garden, [bed.id], chance.uniform(-0.03, 0.03), 0.01)
        elif kind == 1:
            garden = e.change_planting(garden, planting.id, crop=chance.choice(CROPS), variety="")
        elif kind == 2:
            rows = {"kind": "rows", "in_row_spacing": chance.choice([0.05, 0.1, 0.2])}
            garden = e.change_planting(garden, planting.id, arrangement=rows)
        elif kind == 3:
            garden = e.change_planting(garden, planting.id, shares_ground=not planting.shares_ground)
        elif kind == 4:
            other = chance.choice(mine)
            garden = e.move_planting(garden, planting.id, other.bed, other.plot)
        else:
            rest = [p for p in mine if p is not planting]
            garden, _ = e.duplicate(e.remove(garden, [planting.id]), [chance.choice(rest).id], 0, 0)
        yield garden


def measure() -> list[Measured]:
    """The 95th percentile over many edits of plan and findings together, then of the light beside them."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    year = garden.years()[-1]
    edited, anew = _timed(garden, year, lambda plan: check_all(plan, light=False))
    lit, lit_anew = _timed(garden, year, check_light)
    ours, ours_lit = percentile(edited, 0.95), percentile(lit, 0.95)
    work = f"one edit, {len(garden.beds)} beds, {len(garden.plantings)} plantings"
    return [
        Measured(
            f"{work}: all findings but light, 95 %",
            ms(ours),
            f"{ms(anew)} all anew",
            f"{anew / ours:.1f}",
            "16 ms",
            ours <= 0.016,
        ),
        Measured(
            "the same, median", ms(percentile(edited, 0.5)), "", "", "16 ms", percentile(edited, 0.5) <= 0.016
        ),
        Measured(
            f"{work}: findings of light, 95 %",
            ms(ours_lit),
            f"{ms(lit_anew)} all anew",
            f"{lit_anew / ours_lit:.1f}",
            "300 ms",
            ours_lit <= 0.3,
        ),
        Measured("the same, median", ms(percentile(lit, 0.5)), "", "", "300 ms", percentile(lit, 0.5) <= 0.3),
        *_with_years(),
        *_large(200),
        *_light_of_large(200, 1.5),
        *_large(1_000),
        *_light_of_large(1_000, 6.0),
    ]


def _with_years() -> list[Measured]:
    """Findings after an edit that speak in the odds of thirty recorded years, beside those without; processor time."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    year, rows = garden.years()[-1], []
    times: dict[str, list[float]] = {}
    mended: list[float] = []
    for name, kept in (("without", ()), ("with", years_of(invented("hollow_lane")))):
        one = e.change_weather(garden, years=kept)
        plan = Plan(one, year)
        run = Run.over(plan, False, CHECKS)
        for finding in listed(run) if kept else ():
            if finding.topic == TOPIC:
                start = time.process_time()
                _ = finding.fixes
                mended.append(time.process_time() - start)
        _set_aside()
        times[name] = []
        for after in random_edits(one, year, EDITS):
            start = time.process_time()
            plan = plan.after(after)
            run = run.after(plan) or Run.over(plan, False, CHECKS)
            listed(run)
            times[name].append(time.process_time() - start)
    work = (
        f"one edit, {len(garden.beds)} beds, {len(garden.plantings)} plantings, findings in odds of 30 years"
    )
    for words, share in ((f"{work}, 95 %", 0.95), ("the same, median", 0.5)):
        ours, without = percentile(times["with"], share), percentile(times["without"], share)
        rows.append(
            Measured(
                words,
                ms(ours),
                f"{ms(without)} without years",
                f"{without / ours:.1f}",
                "16 ms",
                ours <= 0.016,
            )
        )
    slowest = percentile(mended, 0.95)
    rows.append(Measured("mends of a finding in odds, 95 %", ms(slowest), "", "", "100 ms", slowest <= 0.1))
    return rows


def _large(beds: int) -> list[Measured]:
    """The same by a run that follows the edits, and mends of one finding, in a garden of many beds: processor time."""
    garden = big_garden(beds)
    plan = Plan(garden, 2026)
    run = Run.over(plan, False, CHECKS)
    _set_aside()
    chance, edited, mended = random.Random(5), [], []
    for step in range(FOLLOWED):
        planting, bed = chance.choice(garden.plantings), chance.choice(garden.beds)
        if step % 2:
            garden = e.move_things(garden, [bed.id], chance.uniform(-0.03, 0.03), 0.01)
        else:
            garden = e.change_planting(garden, planting.id, crop=chance.choice(CROPS), variety="")
        start = time.process_time()
        plan = plan.after(garden)
        run = run.after(plan) or Run.over(plan, False, CHECKS)
        listed(run)
        edited.append(time.process_time() - start)
    start = time.process_time()
    Run.over(plan, False, CHECKS)
    whole = time.process_time() - start
    found = listed(run)
    for finding in chance.sample(found, MENDED):
        start = time.process_time()
        _ = finding.fixes
        mended.append(time.process_time() - start)
    work = f"{beds} beds, {len(garden.plantings):,} plantings"
    rows = (
        (f"{work}: findings but light after an edit, median", edited, 0.5, 0.05),
        ("the same, 95 %", edited, 0.95, 0.05),
        (f"{work}: mends of one finding, median", mended, 0.5, 0.02),
    )
    return [
        Measured(
            name, ms(ours), f"{ms(whole)} checked whole", f"{whole / ours:.1f}", ms(wanted), ours <= wanted
        )
        for name, times, part, wanted in rows
        for ours in (percentile(times, part),)
    ]


def _set_aside() -> None:
    """Let the garbage collector not look through a garden again, as in the window (``desk/model/garbage.py``)."""
    gc.collect()
    gc.freeze()


def _light_of_large(beds: int, first_wanted: float) -> list[Measured]:
    """The light of all plantings, and of what an edit reaches, in a garden of many beds: processor time."""
    garden = big_garden(beds)
    garden = garden.with_(site=garden.site.with_(latitude=52.0, longitude=0.0))
    plan = Plan(garden, 2026)
    for planting in plan.plantings:  # the window has placed them by then
        plan.placed(planting)
    start = time.process_time()
    run = Run.over(plan, False, LIGHT)
    first = time.process_time() - start
    _set_aside()
    chance = random.Random(7)
    kinds: dict[str, list[float]] = {"edits of beds and plantings": [], "a tree moved": [], "a new name": []}
    for step in range(FOLLOWED):
        planting, bed = chance.choice(garden.plantings), chance.choice(garden.beds)
        kind = "edits of beds and plantings"
        if step % 10 == 0:
            kind, garden = "a tree moved", e.move_things(garden, ["s1"], 0.05, 0.02)
        elif step % 10 == 1:
            kind, garden = "a new name", e.change_bed(garden, bed.id, name=f"Another {step}")
        elif step % 2:
            garden = e.move_things(garden, [bed.id], chance.uniform(-0.03, 0.03), 0.01)
        else:
            garden = e.change_planting(garden, planting.id, crop=chance.choice(CROPS), variety="")
        plan = plan.after(garden)
        start = time.process_time()
        run = run.after(plan) or Run.over(plan, False, LIGHT)
        kinds[kind].append(time.process_time() - start)
    work = f"{beds} beds, {len(garden.plantings):,} plantings: light"
    wanted = ms(first_wanted)
    lines = [Measured(f"{work}, first", ms(first), "", "", wanted, first <= first_wanted)]
    for kind, times in kinds.items():
        ours = percentile(times, 0.95)
        lines.append(
            Measured(
                f"{work} after {kind}, 95 %",
                ms(ours),
                f"{ms(first)} anew",
                f"{first / ours:.0f}",
                "300 ms",
                ours <= 0.3,
            )
        )
    return lines


def _timed(garden: Garden, year: int, check: Callable[[Plan], object]) -> tuple[list[float], float]:
    """Seconds of each edit, and the median of checking the last garden anew."""
    plan = Plan(garden, year)
    check(plan)
    edited: list[float] = []
    for after in random_edits(garden, year, EDITS):
        start = time.perf_counter()
        plan = plan.after(after)
        check(plan)
        edited.append(time.perf_counter() - start)
    whole = []
    for _ in range(5):
        start = time.perf_counter()
        check(Plan(plan.garden, year))
        whole.append(time.perf_counter() - start)
    return edited, percentile(whole, 0.5)


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
