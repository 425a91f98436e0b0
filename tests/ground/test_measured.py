"""Sides and corners of polygons by their measures, held against shapely and against themselves."""

from __future__ import annotations

import math
import random

import pytest
import shapely

from planner.ground.measured import inner_angles, side_lengths, with_inner_angle, with_side_length


def ring(draw: random.Random, *, clockwise: bool) -> list[tuple[float, float]]:
    """Corners about a centre, in order."""
    count = draw.randrange(3, 9)
    turns = sorted(draw.uniform(0, 360 / count * 0.8) + 360 / count * k for k in range(count))
    points = [
        (r * math.cos(math.radians(turn)), r * math.sin(math.radians(turn)))
        for turn, r in ((turn, draw.uniform(1.0, 3.0)) for turn in turns)
    ]
    return points[::-1] if clockwise else points


@pytest.mark.parametrize("clockwise", [False, True])
def test_a_side_gets_its_length_and_no_angle_changes(clockwise: bool) -> None:
    draw, held = random.Random(7), 0
    for _ in range(200):
        points = ring(draw, clockwise=clockwise)
        angles, side = inner_angles(points), draw.randrange(len(points))
        assert sum(angles) == pytest.approx((len(points) - 2) * 180)
        length = side_lengths(points)[side] * draw.uniform(0.9, 1.2)
        new = with_side_length(points, side, length)
        b, c = (side + 1) % len(points), (side + 2) % len(points)
        moved = (new[b][0] - points[b][0] + points[c][0], new[b][1] - points[b][1] + points[c][1])
        if not shapely.Polygon(new).is_valid or new[c] == pytest.approx(moved, abs=2e-6):
            continue  # the document refuses what crosses itself; here no other way was left
        held += 1
        assert side_lengths(new)[side] == pytest.approx(length, abs=1e-5)
        assert inner_angles(new) == pytest.approx(angles, abs=2e-3)
    assert held > 120


@pytest.mark.parametrize("clockwise", [False, True])
def test_a_corner_gets_its_angle_and_its_side_stays_as_long(clockwise: bool) -> None:
    draw = random.Random(8)
    for _ in range(100):
        points = ring(draw, clockwise=clockwise)
        corner = draw.randrange(len(points))
        wanted = inner_angles(points)[corner] + draw.uniform(-5, 5)
        new = with_inner_angle(points, corner, wanted)
        assert side_lengths(new)[corner] == pytest.approx(side_lengths(points)[corner], abs=1e-5)
        moved = (corner + 1) % len(points)
        assert [p for i, p in enumerate(new) if i != moved] == [p for i, p in enumerate(points) if i != moved]
        # Against shapely: a triangle on the corner has the area that the angle gives it.
        a, b, c = new[corner - 1], new[corner], new[moved]
        area = shapely.Polygon([a, b, c]).area
        sine = abs(math.sin(math.radians(wanted)))
        assert area == pytest.approx(math.dist(a, b) * math.dist(b, c) * sine / 2, abs=1e-4)


def test_sides_without_a_crossing_move_as_they_are() -> None:
    level = ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (2.0, 3.0), (0.0, 3.0))  # two sides on one line
    assert with_side_length(level, 0, 2.5)[1:3] == ((2.5, 0.0), (2.5, 1.0))
