"""Snapping of points and boxes, in plain coordinates."""

from __future__ import annotations

import pytest
from making import bed, garden, rectangle

from planner.desk.canvas.snap import Snapped, SnappedSide, edges_of, fine_step, grid_step, snap, snap_side
from planner.plan import Plan


def test_an_edge_goes_before_the_grid_and_the_nearest_edge_before_others() -> None:
    assert snap(1.04, 2.04, grid=0.1, xs=(1.0, 1.05), reach=0.05) == Snapped(1.05, 2.0, "edge", "grid")
    assert snap(1.04, 2.04, xs=(1.5,), reach=0.05) == Snapped(1.04, 2.04)


def catch_by(edges: tuple[float, ...], grid: float):
    def catch(value: float) -> tuple[float, str]:
        caught = snap(value, 0.0, grid=grid, xs=edges, reach=0.05)
        return caught.x, caught.by_x

    return catch


def test_a_box_is_caught_by_the_side_that_needs_the_least_move() -> None:
    found = snap_side(0.02, 1.01, catch_by((), 0.1))
    assert (found.by, found.line, found.by_edge) == (pytest.approx(-0.01), 1.0, False)


def test_a_box_is_caught_by_an_edge_even_where_the_grid_is_nearer() -> None:
    found = snap_side(0.001, 1.04, catch_by((1.0,), 0.1))
    assert found == SnappedSide(pytest.approx(-0.04), 1.0, by_edge=True)


def test_edges_are_those_of_all_things_but_the_ones_that_are_moved() -> None:
    plan = Plan(garden(bed("b1", rectangle(4.0, 1.0)), bed("b2", rectangle(2.0, 1.0, center=(5, 5)))), 2026)
    assert edges_of(plan, ("b1",)) == ([4.0, 6.0], [4.5, 5.5])
    assert edges_of(plan) == ([-2.0, 2.0, 4.0, 6.0], [-0.5, 0.5, 4.5, 5.5])


def test_steps_are_whole_in_the_units_of_the_garden() -> None:
    assert (grid_step("metric"), fine_step("metric")) == (0.10, 0.05)
    assert grid_step("feet_inches") == pytest.approx(6 * fine_step("feet_inches"))
