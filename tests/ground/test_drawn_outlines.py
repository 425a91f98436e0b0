"""Outlines and lines that are drawn by dragging."""

from __future__ import annotations

import math

import pytest
from making import rectangle

from planner.garden import Circle, Polygon, Rectangle
from planner.garden.edits import EditError
from planner.ground.drawing import (
    dragged_box,
    drawn_circle,
    drawn_polygon,
    drawn_rectangle,
    is_a_line,
    own_place,
    straight_from,
)


@pytest.mark.parametrize("first", [(0.0, 0.0), (3.0, 2.0)])
def test_a_box_is_the_same_from_either_corner(first):
    last = (3.0 - first[0], 2.0 - first[1])
    assert dragged_box(first, last) == (0.0, 0.0, 3.0, 2.0)


def test_a_square_takes_the_longer_side_in_the_direction_of_the_drag():
    assert dragged_box((0, 0), (3, 1), square=True) == (0, 0, 3, 3)
    assert dragged_box((0, 0), (-1, -2), square=True) == (-2, -2, 0, 0)


def test_from_the_centre_the_drag_is_half_of_the_box():
    assert dragged_box((1, 1), (3, 2), from_centre=True) == (-1, 0, 3, 2)
    assert dragged_box((0, 0), (2, 1), square=True, from_centre=True) == (-2, -2, 2, 2)


def test_a_box_becomes_a_rectangle_about_its_middle_unless_it_is_too_small_to_be_meant():
    assert drawn_rectangle((1.0, 2.0, 4.0, 3.0)) == Rectangle(center=(2.5, 2.5), length=3.0, width=1.0)
    assert drawn_rectangle((0.0, 0.0, 0.05, 0.05)) is not None
    assert drawn_rectangle((0.0, 0.0, 3.0, 0.049)) is None
    assert drawn_rectangle((0.0, 0.0, 0.049, 3.0)) is None


def test_a_circle_reaches_to_the_pointer_unless_it_is_too_small_to_be_meant():
    assert drawn_circle((1.0, 1.0), (4.0, 5.0)) == Circle(center=(1.0, 1.0), radius=5.0)
    assert drawn_circle((0.0, 0.0), (0.04, 0.0)) is None


def test_a_polygon_lies_about_the_middle_of_its_extent():
    drawn = drawn_polygon([(1, 1), (5, 1), (5, 3)])
    assert drawn == Polygon(center=(3, 2), points=((-2, -1), (2, -1), (2, 1)))


def test_a_polygon_that_crosses_itself_is_refused_by_name():
    with pytest.raises(EditError, match="the drawn bed"):
        drawn_polygon([(0, 0), (2, 2), (2, 0), (0, 2)])


def test_straight_from_a_corner_the_longer_way_counts():
    assert straight_from((1, 1), (4, 2)) == (4, 1)
    assert straight_from((1, 1), (2, -4)) == (1, -4)
    assert straight_from((0, 0), (2, 2)) == (2, 0)


def test_a_place_in_a_turned_outline_goes_in_steps_of_its_own():
    outline = rectangle(4.0, 1.0, center=(1.0, 1.0), turn=90.0)
    assert own_place(outline, (0.77, 2.02)) == pytest.approx((1.02, 0.23))
    assert own_place(outline, (0.77, 2.02), 0.05) == pytest.approx((1.0, 0.25))


def test_a_line_too_short_to_be_meant_is_none():
    assert is_a_line((0, 0), (0.03, 0.04))
    assert not is_a_line((0, 0), (0.03, math.nextafter(0.04, 0)))
