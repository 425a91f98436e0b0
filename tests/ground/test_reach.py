"""Ground out of reach."""

from __future__ import annotations

import math

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from making import bed, rectangle, ring_bed
from shapes_zoo import RINGS, concave_polygons

from planner.garden import Circle
from planner.ground.reach import accessible_sides, out_of_reach, reach_on_plan
from planner.ground.shapes import bed_polygon


def test_a_bed_twice_the_reach_wide_is_all_in_reach():
    assert out_of_reach(bed(outline=rectangle(6, 1.2)), 0.6).is_empty
    assert not out_of_reach(bed(outline=rectangle(6, 1.25)), 0.6).is_empty


def test_the_middle_of_a_wide_bed_is_out_of_reach():
    far = out_of_reach(bed(outline=rectangle(4, 2)), 0.6)
    assert far.symmetric_difference(shapely.box(-1.4, -0.4, 1.4, 0.4)).area < 1e-3


@pytest.mark.parametrize(
    ("sides", "expected"),
    [
        (("left",), (-2, -0.6, 2, 0.0)),
        (("right",), (-2, 0.0, 2, 0.6)),
        (("start",), (-1.4, -0.6, 2, 0.6)),
        (("end",), (-2, -0.6, 1.4, 0.6)),
        (("start", "end"), (-1.4, -0.6, 1.4, 0.6)),
        ((), (-2, -0.6, 2, 0.6)),
    ],
)
def test_only_accessible_sides_count(sides, expected):
    far = out_of_reach(bed(outline=rectangle(4, 1.2), access=sides), 0.6)
    assert far.symmetric_difference(shapely.box(*expected)).area < 1e-3


def test_sides_are_named_along_the_long_axis():
    tall = bed(outline=rectangle(1.2, 4), access=("start",))  # its long axis is its own y
    far = out_of_reach(tall, 0.6)
    assert far.symmetric_difference(shapely.box(-0.6, -1.4, 0.6, 2)).area < 1e-3
    left = out_of_reach(bed(outline=rectangle(1.2, 4), access=("left",)), 0.6)  # looking along +y
    assert left.symmetric_difference(shapely.box(0, -2, 0.6, 2)).area < 1e-3


def test_a_side_along_a_wall_does_not_count():
    ground = bed(outline=rectangle(4, 1.2, center=(10, 5)))
    wall = shapely.box(7, 5.6, 13, 5.9)
    far = reach_on_plan(ground, 0.6, wall)
    assert far.symmetric_difference(shapely.box(8.6, 5.0, 11.4, 5.6)).area < 0.12  # the ends still count
    assert far.bounds[3] == pytest.approx(5.6)


@pytest.mark.parametrize(("gap", "counts"), [(0.12, False), (0.13, True)])
def test_a_side_counts_from_an_eighth_of_a_metre_to_the_wall(gap, counts):
    ground = bed(outline=rectangle(4, 1.2))
    wall = shapely.box(-3, 0.6 + gap, 3, 1)
    assert out_of_reach(ground, 0.6, wall).is_empty is counts


def test_accessible_sides_are_on_the_plan():
    ground = bed(outline=rectangle(4, 1.2, center=(10, 5), turn=90), access=("start", "left"))
    sides = accessible_sides(ground)
    expected = shapely.MultiLineString([[(9.4, 3), (10.6, 3)], [(9.4, 3), (9.4, 7)]])
    assert sides.hausdorff_distance(expected) < 1e-9
    assert accessible_sides(bed(access=())).is_empty
    assert accessible_sides(bed(outline=Circle(radius=1))).length == pytest.approx(2 * math.pi, rel=1e-4)


def test_a_round_bed():
    assert out_of_reach(bed(outline=Circle(radius=0.6)), 0.6).is_empty
    far = out_of_reach(bed(outline=Circle(radius=1.5)), 0.6)
    assert far.area == pytest.approx(math.pi * 0.9**2, rel=1e-3)


@given(concave_polygons(), st.floats(0.1, 1.0))
def test_ground_out_of_reach_is_all_that_lies_farther_than_the_reach(polygon, reach):
    ring = [(x, y) for x, y in polygon.exterior.coords[:-1]]
    ground = ring_bed(ring)
    far, whole = out_of_reach(ground, reach), bed_polygon(ground)
    rim = whole.exterior
    for x in range(-8, 9):
        for y in range(-8, 9):
            point = shapely.Point(x / 2, y / 2)
            away = point.distance(rim)
            if whole.contains(point) and abs(away - reach) > 0.05:
                assert far.intersects(point) == (away > reach)


@pytest.mark.parametrize("name", RINGS)
def test_every_shape_has_a_result(name):
    far = out_of_reach(ring_bed(RINGS[name]), 0.3)
    assert far.is_valid
    assert out_of_reach(ring_bed(RINGS[name]), 50.0).is_empty
    assert out_of_reach(ring_bed(RINGS[name]), 0.0).equals(bed_polygon(ring_bed(RINGS[name])))
