"""Snapping of points and boxes, in plain coordinates."""

from __future__ import annotations

import pytest
from making import bed, garden, rectangle

from planner.desk.canvas.snap import (
    Snapped,
    SnappedSide,
    SnapTargets,
    catch_of,
    fine_step,
    grid_step,
    snap,
    snap_side,
    targets_of,
)
from planner.plan import Plan


def test_an_edge_goes_before_the_grid_and_the_nearest_edge_before_others() -> None:
    targets = SnapTargets(((1.0, 7.0, 1.05, 9.0),))
    assert snap(1.04, 2.04, grid=0.1, targets=targets, reach=0.05) == Snapped(1.05, 2.0, "edge", "grid")
    assert snap(1.44, 2.04, targets=targets, reach=0.05) == Snapped(1.44, 2.04)


def catch_by(edges: tuple[float, ...], grid: float):
    def catch(value: float) -> tuple[float, str]:
        targets = SnapTargets(tuple((edge, 5.0, edge, 6.0) for edge in edges))
        caught = snap(value, 0.0, grid=grid, targets=targets, reach=0.05)
        return caught.x, caught.by_x

    return catch


def test_a_box_is_caught_by_the_side_that_needs_the_least_move() -> None:
    found = snap_side(0.02, 1.01, catch_by((), 0.1))
    assert (found.by, found.line, found.kind) == (pytest.approx(-0.01), 1.0, "grid")


def test_a_box_is_caught_by_an_edge_even_where_the_grid_is_nearer() -> None:
    found = snap_side(0.001, 1.04, catch_by((1.0,), 0.1))
    assert found == SnappedSide(pytest.approx(-0.04), 1.0, "edge")


def test_a_box_is_caught_by_its_middle_where_no_edge_catches_it() -> None:
    def by_middle(value: float) -> tuple[float, str]:
        return (0.53, "centre") if abs(value - 0.53) < 0.05 else (value, "")

    found = snap_side(0.02, 1.0, catch_by((), 0.1), by_middle)
    assert found == SnappedSide(pytest.approx(0.02), 0.53, "centre")
    assert snap_side(0.02, 1.0, catch_by((1.01,), 0.1), by_middle).kind == "edge"


def test_edges_are_those_of_all_things_but_the_ones_that_are_moved() -> None:
    plan = Plan(garden(bed("b1", rectangle(4.0, 1.0)), bed("b2", rectangle(2.0, 1.0, center=(5, 5)))), 2026)
    others = targets_of(plan, ("b1",))
    assert (others.xs, others.ys, others.corners) == ([4.0, 6.0], [4.5, 5.5], ())
    assert (others.middle_xs, others.middle_ys) == ([5.0], [5.0])
    assert targets_of(plan).xs == [-2.0, 2.0, 4.0, 6.0]


def test_what_has_caught_is_named() -> None:
    targets = SnapTargets(((0.0, 0.0, 4.0, 1.0),), corners=((7.07, 7.07),))
    for place, kind in (
        ((4.02, 1.03), "corner"),
        ((4.02, 0.33), "edge"),
        ((1.3, 0.98), "edge"),
        ((4.02, 3.33), "extension"),
        ((2.01, 3.33), "centre"),
        ((5.52, 3.33), "grid"),
        ((7.05, 7.08), "corner"),
    ):
        caught = snap(*place, grid=0.1, targets=targets, reach=0.05)
        catch = catch_of(caught, targets)
        assert catch is not None
        assert catch.kind == kind, place
        assert catch.place == (caught.x, caught.y)
    assert catch_of(snap(5.52, 3.33, targets=targets, reach=0.05), targets) is None


def test_steps_are_whole_in_the_units_of_the_garden() -> None:
    assert (grid_step("metric"), fine_step("metric")) == (0.10, 0.05)
    assert grid_step("feet_inches") == pytest.approx(6 * fine_step("feet_inches"))
