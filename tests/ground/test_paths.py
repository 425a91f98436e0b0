"""Walkable ground and its narrow places."""

from __future__ import annotations

import pytest
import shapely
from making import bed, garden, rectangle

from planner.garden import Circle, Site, Structure
from planner.ground.narrow_places import narrow_places
from planner.ground.paths import garden_paths, walkable

LEAST = 0.45


def widths(paths, least=LEAST):
    return [round(place.width, 3) for place in narrow_places(paths, least)]


def two_beds(gap):
    return [
        bed("a", rectangle(4, 1.2)),
        bed("b", rectangle(4, 1.2, center=(0, 1.2 + gap))),
    ]


SITE = shapely.box(-5, -5, 5, 6)


@pytest.mark.parametrize("gap", [0.05, 0.2, 0.3, 0.44])
def test_a_path_between_two_beds_that_is_too_narrow(gap):
    (place,) = narrow_places(walkable(two_beds(gap), [], SITE), LEAST)
    assert place.width == pytest.approx(gap, abs=1e-6)
    assert place.across.length == pytest.approx(gap, abs=1e-6)
    assert place.shape.area == pytest.approx(4 * gap, rel=0.1)


@pytest.mark.parametrize("gap", [0.45, 0.46, 1.0])
def test_a_path_of_just_the_least_width_is_wide_enough(gap):
    assert widths(walkable(two_beds(gap), [], SITE)) == []


def test_beds_that_touch_leave_no_path():
    assert widths(walkable(two_beds(0.0), [], SITE)) == []


def test_the_least_width_is_a_parameter():
    paths = walkable(two_beds(0.7), [], SITE)
    assert widths(paths, 0.6) == []
    assert widths(paths, 0.915) == [0.7]


def test_a_path_is_reported_where_it_narrows():
    """Two beds askew: 0.8 m apart at one end and 0.2 m at the other."""
    lower = shapely.Polygon([(0, -1), (6, -1), (6, 0), (0, 0)])
    upper = shapely.Polygon([(0, 0.8), (6, 0.2), (6, 1.5), (0, 1.5)])
    (place,) = narrow_places(shapely.box(-3, -4, 9, 5).difference(shapely.union(lower, upper)), LEAST)
    assert place.width == pytest.approx(0.2, abs=2e-3)
    left, _, right, _ = place.shape.bounds
    assert right == pytest.approx(6.0, abs=0.03)
    assert left == pytest.approx(3.5, abs=0.1)  # where they are 0.45 m apart


def test_a_gap_between_two_corners():
    paths = SITE.difference(shapely.box(-2, -2, 0, 0)).difference(shapely.box(0.2, 0.2, 2, 2))
    (place,) = narrow_places(paths, LEAST)
    assert place.width == pytest.approx(0.2 * 2**0.5, abs=1e-6)
    assert place.shape.centroid.distance(shapely.Point(0.1, 0.1)) < 0.02


def test_a_gap_between_two_round_beds():
    rounds = [bed("a", Circle(radius=1.0, center=(-1, 0))), bed("b", Circle(radius=1.0, center=(1.3, 0)))]
    assert widths(walkable(rounds, [], SITE)) == [0.3]


def test_a_gap_between_a_bed_and_a_shed():
    shed = Structure(id="s1", kind="shed", outline=rectangle(2, 2, center=(3.4, 0)), height=2)
    assert widths(walkable([bed("a", rectangle(4, 1.2))], [shed], SITE)) == [0.4]
    tree = shed.with_(kind="tree")
    assert widths(walkable([bed("a", rectangle(4, 1.2))], [tree], SITE)) == []


def test_the_feet_of_an_arch_narrow_a_path_and_its_span_does_not():
    arch = Structure(id="s1", kind="arch", outline=rectangle(0.6, 1.0), height=2.3, foot=0.1)
    beds = [bed("a", rectangle(4, 1, center=(-2.35, 0))), bed("b", rectangle(4, 1, center=(2.35, 0)))]
    assert widths(walkable(beds, [], SITE)) == []
    assert widths(walkable(beds, [arch], SITE)) == [0.05, 0.05, 0.4] or 0.4 in widths(
        walkable(beds, [arch], SITE)
    )


def test_a_dead_end_too_narrow_to_enter():
    (place,) = narrow_places(shapely.box(0, 0, 3, 3).union(shapely.box(3, 1, 5, 1.3)), LEAST)
    assert place.width == pytest.approx(0.3)
    assert place.shape.bounds[2] == pytest.approx(5.0)


def test_a_lane_that_is_narrow_from_end_to_end():
    assert widths(shapely.box(0, 0, 5, 0.3)) == [0.3]


@pytest.mark.parametrize(
    "room",
    [
        shapely.box(0, 0, 3, 2),
        shapely.Polygon([(0, 0), (10, 0), (2, 4)]),
        shapely.Polygon([(0, 0), (5, 0), (5, 4), (3.8, 4), (3.8, 1.2), (0, 1.2)]),
        shapely.Point(0, 0).buffer(3, 64),
        shapely.Point(0, 0).buffer(3, 64).difference(shapely.Point(0, 0).buffer(1, 64)),
        shapely.box(-3, -3, 3, 3).difference(shapely.box(-1, -0.1, 1, 0.1)),
    ],
)
def test_corners_of_wide_ground_are_not_narrow(room):
    assert narrow_places(room, LEAST) == ()


def test_a_waist():
    waist = shapely.Polygon([(0, 0), (4, 0), (2.1, 2), (4, 4), (0, 4), (1.9, 2)])
    assert widths(waist) == [0.2]


@pytest.mark.parametrize("turn", [0, 30, 77.7])
def test_turning_the_garden_changes_nothing(turn):
    paths = shapely.affinity.rotate(walkable(two_beds(0.3), [], SITE), turn, origin=(0, 0))
    assert widths(paths) == [0.3]


def test_no_walkable_ground():
    assert narrow_places(shapely.Polygon(), LEAST) == ()
    assert narrow_places(SITE, 0.0) == ()
    assert walkable([], [], None).is_empty


def test_the_paths_of_a_garden():
    ground = garden(bed("a", rectangle(4, 1.2)), bed("b", rectangle(4, 1.2, center=(0, 1.5)), last_year=2025))
    assert garden_paths(ground, 2026).is_empty  # one bed alone fills its own hull
    assert garden_paths(ground, 2025).area == pytest.approx(4 * 0.3)
    outlined = ground.with_(site=Site(outline=rectangle(10, 8)))
    assert garden_paths(outlined, 2026).area == pytest.approx(80 - 4.8)
