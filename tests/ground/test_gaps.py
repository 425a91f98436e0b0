"""Distances to neighbours, held against the distances of shapely."""

from __future__ import annotations

import math
import random

import pytest
import shapely

from planner.ground.gaps import FARTHEST, gaps_around


def test_a_bed_among_others_has_a_gap_on_each_side_in_the_middle_of_what_they_share() -> None:
    bed = shapely.box(0, 0, 4, 1)
    others = [
        shapely.box(4.5, 0.5, 6, 3),
        shapely.box(-3, -1, -0.3, 4),
        shapely.box(1, 1.6, 2, 2),
        shapely.box(1, 3, 2, 4),  # behind that one
        shapely.box(-1, -12, 5, -FARTHEST - 0.1),  # too far below
    ]
    gaps = {gap.start: gap.end for gap in gaps_around(bed, others)}
    assert gaps == {(4.0, 0.75): (4.5, 0.75), (0.0, 0.5): (-0.3, 0.5), (1.5, 1.0): (1.5, 1.6)}


def test_gaps_are_the_shortest_ways() -> None:
    draw = random.Random(5)
    for _ in range(100):
        shapes = [
            shapely.affinity.rotate(shapely.box(x, y, x + 2, y + 1), draw.uniform(0, 180))
            for x, y in ((draw.uniform(-5, 5), draw.uniform(-5, 5)) for _ in range(8))
        ]
        shape, *others = shapes
        for gap in gaps_around(shape, others):
            long = math.dist(*gap)
            assert any(shapely.distance(shape, other) == pytest.approx(long) for other in others)
            assert shapely.distance(shape, shapely.Point(gap.start)) < 1e-6
    assert gaps_around(shapely.box(0, 0, 1, 1), [shapely.box(0.5, 0, 2, 1)]) == []
