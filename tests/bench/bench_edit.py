"""One edit in a garden of 40 beds and 20,000 plants: new plan and all amounts, against working out all."""

from __future__ import annotations

import random
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from planner.amounts import amounts, totals
from planner.crops import load_catalogue
from planner.garden import Bed, Circle, Garden, Planting, Rectangle, Stretch, Structure
from planner.garden import edits as e
from planner.plan import Plan

sys.path.insert(0, str(Path(__file__).parent.parent))

from bench.figures import Measured, ms, percentile

CROPS = ["carrot", "beet", "onion", "lettuce", "spinach", "radish", "leek", "cabbage", "pea", "garlic"]
EDITS = 200


def big_garden(beds: int = 40) -> Garden:
    """Beds of 14 m x 1.5 m with four stretches each, a few trees, about 500 plants a bed."""
    catalogue = load_catalogue()
    keys = [key for key in CROPS if key in catalogue.crops]
    chance = random.Random(1)
    ground = tuple(
        Bed(
            id=f"b{i}",
            name=f"Bed {i}",
            outline=Rectangle(length=14, width=1.5, center=(i % 4 * 15, i // 4 * 2.1), turn=i % 3),
        )
        for i in range(1, beds + 1)
    )
    plantings = tuple(
        Planting(
            id=f"p{4 * i + j}",
            bed=bed.id,
            crop=chance.choice(keys),
            plot=Stretch(start=3.5 * j, end=3.5 * j + 3.5),
            year=2026,
        )
        for i, bed in enumerate(ground)
        for j in range(4)
    )
    trees = tuple(
        Structure(
            id=f"s{i}",
            kind="tree",
            height=4,
            outline=Circle(radius=0.2, center=(15 * i, 4.2 * i)),
            clearance=0.3,
        )
        for i in range(4)
    )
    return Garden(beds=ground, plantings=plantings, structures=trees)


def random_edits(garden: Garden, count: int) -> Iterator[Garden]:
    """A garden edited again and again."""
    chance = random.Random(2)
    for step in range(count):
        bed, planting = chance.choice(garden.beds), chance.choice(garden.plantings)
        kind = step % 6
        if kind == 0:
            garden = e.move_things(garden, [bed.id], chance.uniform(-0.3, 0.3), 0.1)
        elif kind == 1:
            garden = e.change_planting(garden, planting.id, crop=chance.choice(CROPS[:6]))
        elif kind == 2:
            rows = {"kind": "rows", "in_row_spacing": chance.choice([0.05, 0.1, 0.2])}
            garden = e.change_planting(garden, planting.id, arrangement=rows)
        elif kind == 3:
            garden = e.resize_bed(garden, bed.id, bed.outline.with_(length=14 + chance.random()))
        elif kind == 4:
            garden = e.move_things(garden, ["s1"], 0.05, 0.05)
        else:
            garden, _ = e.duplicate(e.remove(garden, [planting.id]), [garden.plantings[0].id], 0, 0)
        yield garden


def measure() -> list[Measured]:
    """The 95th percentile over many edits; document edit, plan, amounts and totals together."""
    return [*_measured(40, 0.016), *_measured(200, 0.03), *_measured(1_000, 0.03)]


def _measured(beds: int, wanted: float) -> list[Measured]:
    garden = big_garden(beds)
    plan = Plan(garden, 2026)
    parts = amounts(plan)
    plants = sum(part.plants for part in parts)
    edited, gardens = [], random_edits(garden, EDITS)
    while True:
        start = time.perf_counter()
        after = next(gardens, None)
        if after is None:
            break
        plan = plan.after(after)
        totals(amounts(plan))
        edited.append(time.perf_counter() - start)
        garden = after
    whole = []
    for _ in range(3 if beds > 100 else 20):
        start = time.perf_counter()
        totals(amounts(Plan(garden, 2026)))
        whole.append(time.perf_counter() - start)
    ours, all_anew = percentile(edited, 0.95), percentile(whole, 0.5)
    return [
        Measured(
            f"one edit, {len(garden.beds)} beds, {plants:,} plants, 95 %",
            ms(ours),
            f"{ms(all_anew)} all anew",
            f"{all_anew / ours:.1f}",
            ms(wanted),
            ours <= wanted,
        ),
        Measured(
            "the same, median",
            ms(percentile(edited, 0.5)),
            "",
            "",
            ms(wanted),
            percentile(edited, 0.5) <= wanted,
        ),
    ]


if __name__ == "__main__":
    from bench.figures import table

    print(table(measure()))
