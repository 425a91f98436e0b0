"""Beds and structures turned together, lined up, and new ones placed below them."""

from __future__ import annotations

import math

import pytest
from making import bed, garden, rectangle

from planner.garden import Circle, Site, Structure
from planner.ground.extents import align, corner_below, extent_of, turn_together

ROUND = Circle(radius=1.0, center=(6.0, 1.0))
WALL = Structure(id="s1", kind="wall", outline=rectangle(0.3, 5.0, center=(-4.0, 0.0)), height=2.0)
THREE = garden(bed("b1", rectangle(4.0, 1.0)), bed("b2", ROUND), structures=(WALL,))


def test_the_extent_covers_turned_outlines():
    square = rectangle(2.0, 2.0, turn=45)
    assert extent_of([square]) == pytest.approx((-math.sqrt(2), -math.sqrt(2), math.sqrt(2), math.sqrt(2)))
    assert extent_of([square, ROUND]) == pytest.approx((-math.sqrt(2), -math.sqrt(2), 7.0, 2.0), abs=2e-6)
    assert extent_of([]) is None


def test_one_thing_turns_about_its_own_centre():
    after = turn_together(THREE, ["b2"], 30)
    assert after.beds_by_id["b2"].outline.center == ROUND.center
    assert after.beds_by_id["b2"].outline.turn == 30


def test_things_turn_about_the_middle_of_their_extent():
    after = turn_together(
        THREE, ["b1", "s1"], 180
    )  # together they reach from -4.15 to 2 across, from -2.5 to 2.5 up
    assert after.beds_by_id["b1"].outline.center == pytest.approx((-2.15, 0.0), abs=1e-6)
    assert after.structures[0].outline.center == pytest.approx((1.85, 0.0), abs=1e-6)
    assert after.beds_by_id["b2"] is THREE.beds_by_id["b2"]


@pytest.mark.parametrize(
    ("side", "index", "goal"), [("left", 0, -4.15), ("right", 2, 7.0), ("bottom", 1, -2.5), ("top", 3, 2.5)]
)
def test_lining_up_brings_one_side_of_all_to_the_outermost(side, index, goal):
    after = align(THREE, ["b1", "b2", "s1"], side)
    for thing in (*after.beds, *after.structures):
        assert extent_of([thing.outline])[index] == pytest.approx(goal, abs=1e-5)


def test_one_thing_is_in_line_already():
    assert align(THREE, ["b1"], "left") is THREE


def test_new_beds_come_below_all_that_is_in_use_flush_with_its_left_edge():
    assert corner_below(THREE, 2026, path=0.6) == (-4.15, -3.1)
    assert corner_below(THREE, 2026, path=0.0) == (-4.15, -2.95)


def test_what_is_not_in_use_leaves_no_gap_for_new_beds():
    gone = garden(bed("b1", rectangle(4.0, 1.0)), bed("b2", rectangle(4.0, 9.0), last_year=2024))
    assert corner_below(gone, 2026, path=0.6) == (-2.0, -1.1)
    assert corner_below(gone, 2024, path=0.6) == (-2.0, -5.1)


def test_new_beds_come_below_the_outline_of_the_site():
    site = Site(outline=rectangle(20.0, 10.0))
    assert corner_below(garden(bed(), site=site), 2026, path=0.5) == (-10.0, -5.5)


def test_the_first_beds_begin_at_the_origin():
    assert corner_below(garden(), 2026, path=0.6) == (0.0, 0.0)
    assert corner_below(garden(bed(first_year=2030)), 2026, path=0.6) == (0.0, 0.0)
