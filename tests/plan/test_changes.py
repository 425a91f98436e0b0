"""Beds that an edit does not concern are planted as before it."""

from __future__ import annotations

import random

import pytest
from bench.bench_edit import big_garden

from planner.garden import Circle, Garden, Rectangle, Structure
from planner.plan import Plan
from planner.plan.changes import changed_beds

KINDS = ("tree", "arch", "shed", "wall", "tunnel", "path")


def planted(plan: Plan, bed: str) -> list[tuple[object, ...]]:
    """Everything of the plants of a bed that a structure may change."""
    return [
        (
            p.id,
            plan.placed(p).layout.points.tolist(),
            plan.placed(p).plot.wkb,
            plan.arch_of(p),
            plan.span_of(p),
        )
        for p in plan.garden_in_bed(bed)
    ]


def some_structure(chance: random.Random) -> Structure:
    center = (chance.uniform(-8, 68), chance.uniform(-3, 16))
    kind = chance.choice(KINDS)
    round_one = kind == "tree" or (kind != "arch" and chance.random() < 0.2)
    outline = (
        Circle(radius=chance.uniform(0.2, 2), center=center)
        if round_one
        else Rectangle(
            length=chance.uniform(0.3, 6),
            width=chance.uniform(0.3, 2),
            center=center,
            turn=chance.uniform(0, 90),
        )
    )
    return Structure(
        id="s9", kind=kind, height=2.2, outline=outline, clearance=chance.choice([0.0, 0.4, 1.5])
    )


def climbers(garden: Garden) -> Garden:
    """Beans among the plantings, which climb arches beside them."""
    return garden.with_(
        plantings=tuple(
            p.with_(crop="runner_bean") if n % 3 == 0 else p for n, p in enumerate(garden.plantings)
        )
    )


@pytest.mark.parametrize("seed", range(12))
def test_a_structure_concerns_the_beds_of_which_it_changes_the_plants(seed: int) -> None:
    chance = random.Random(seed)
    garden = climbers(big_garden(24))
    before = garden.with_(structures=(*garden.structures, some_structure(chance)))
    if seed % 3 == 0:
        before = garden
    after = garden.with_(structures=(*garden.structures, some_structure(chance)))
    old, new = Plan(before, 2026), Plan(after, 2026)
    concerned = changed_beds(old, new)
    assert concerned is not None
    assert len(concerned) < 24
    others = [bed.id for bed in garden.beds if bed.id not in concerned]
    assert [key for key in others if planted(old, key) != planted(new, key)] == []
