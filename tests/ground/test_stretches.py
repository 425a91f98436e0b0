"""Stretches of a bed's length that are free over its whole width."""

from __future__ import annotations

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.garden import Circle, Stretch
from planner.ground.stretches import bed_length, free_stretches
from planner.plan import Plan

SHELF = catalogue_of(crop("lettuce"))


def test_free_stretches_are_free_over_the_whole_width():
    one = planting(crop="lettuce", plot=Stretch(start=1, end=2))
    other = planting(
        "p2",
        crop="lettuce",
        plot={"kind": "region", "points": [(1.2, -0.6), (1.6, -0.6), (1.6, 0), (1.2, 0)]},
    )
    plan = Plan(garden(bed("b1", rectangle(4.0, 1.2, turn=30)), one, other), 2026, SHELF)
    found = free_stretches(plan.garden.beds[0], plan.free(plan.garden.beds[0]))
    assert [(round(a, 3), round(b, 3)) for a, b in found] == [(0.0, 1.0), (2.0, 3.2), (3.6, 4.0)]
    tree = bed("b2", Circle(radius=1.0))
    assert free_stretches(tree, Plan(garden(tree), 2026, SHELF).free(tree)) == [
        (0.0, pytest.approx(2.0, abs=1e-4))
    ]


@pytest.mark.parametrize("turn", [0, 30, 90])
def test_the_length_of_a_bed_is_that_along_its_axis(turn):
    assert bed_length(bed("b1", rectangle(4.0, 1.2, turn=turn))) == pytest.approx(4.0)
    assert bed_length(bed("b2", Circle(radius=1.0))) == pytest.approx(2.0, abs=1e-3)
