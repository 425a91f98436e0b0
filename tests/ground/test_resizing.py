"""What outlines and plots become when a side or corner is dragged."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import bed, rectangle
from pydantic import ValidationError

from planner.garden import Circle, Polygon, Stretch, Whole
from planner.garden.model import LEAST_SIDE
from planner.ground.dropping import plot_box
from planner.ground.resizing import move_corner, resize_circle, resize_plot, resize_rectangle, turn_towards
from planner.ground.shapes import to_own, to_plan

SIGNS = [(sx, sy) for sx in (-1.0, 0.0, 1.0) for sy in (-1.0, 0.0, 1.0) if (sx, sy) != (0, 0)]
places = st.tuples(st.floats(-6, 6), st.floats(-6, 6))


def corner(outline, signs) -> tuple[float, float]:
    """A corner or the middle of a side on the plan."""
    ((x, y),) = to_plan(outline, [(signs[0] * outline.length / 2, signs[1] * outline.width / 2)])
    return float(x), float(y)


@given(st.sampled_from(SIGNS), places, st.sampled_from([0.0, 30.0, 90.0, 251.0]))
def test_the_opposite_side_of_a_rectangle_stays_on_the_plan(signs, to, turn):
    old = rectangle(4.0, 1.0, center=(2.0, 3.0), turn=turn)
    new = resize_rectangle(old, signs, to)
    opposite = (-signs[0], -signs[1])
    assert corner(new, opposite) == pytest.approx(corner(old, opposite), abs=2e-5)
    assert new.turn == old.turn
    assert min(new.length, new.width) >= LEAST_SIDE


@given(st.sampled_from(SIGNS), places)
def test_the_dragged_side_comes_to_the_pointer_where_the_rectangle_stays_one(signs, to):
    old = rectangle(4.0, 1.0)
    new = resize_rectangle(old, signs, to)
    ((x, y),) = to_own(old, [corner(new, signs)])
    for sign, length, wanted, found in ((signs[0], 4.0, to[0], x), (signs[1], 1.0, to[1], y)):
        if sign and sign * wanted + length / 2 > LEAST_SIDE:
            assert found == pytest.approx(wanted, abs=2e-6)


def test_both_sides_move_about_the_centre():
    old = rectangle(4.0, 1.0, center=(2.0, 3.0))
    new = resize_rectangle(old, (1.0, 0.0), (3.0, 9.0), both=True)
    assert (new.length, new.width, new.center) == (6.0, 1.0, (2.0, 3.0))


def test_a_radius_goes_in_steps_and_never_to_nothing():
    old = Circle(radius=1.0)
    assert resize_circle(old, (0.6, 0.8123)).radius == pytest.approx(1.0098, abs=1e-4)
    assert resize_circle(old, (0.6, 0.8123), 0.05).radius == pytest.approx(1.0)
    assert resize_circle(old, (0.0, 0.0), 0.05).radius == LEAST_SIDE


def test_a_corner_moves_alone_and_may_not_cross_the_outline():
    old = Polygon(points=((0, 0), (2, 0), (2, 2), (0, 2)))
    assert move_corner(old, 2, (3.0, 2.5)).points == ((0, 0), (2, 0), (3.0, 2.5), (0, 2))
    with pytest.raises(ValidationError, match="crosses"):
        move_corner(old, 2, (1.0, -1.0))


@pytest.mark.parametrize(
    ("to", "fine", "turn"),
    [
        ((0.0, 1.0), False, 10.0),
        ((-1.0, 1.0), False, 55.0),
        ((1.0, 0.0), False, 280.0),
        ((-0.1, 5.0), True, 11.1),
    ],
)
def test_turning_goes_in_steps_from_where_the_outline_is(to, fine, turn):
    assert turn_towards(rectangle(turn=10.0), to, fine=fine) == pytest.approx(turn)


@pytest.mark.parametrize("turn", [0.0, 90.0, 30.0])
def test_the_side_of_a_plot_goes_in_whole_steps_from_the_beginning_of_its_bed(turn):
    ground = bed(outline=rectangle(4.0, 1.0, turn=turn, center=(1.0, 1.0)))
    box = plot_box(ground, Stretch(start=1.0, end=2.0))
    ((x, y),) = to_plan(ground.outline, [(0.777, 0.1)])
    to = (float(x), float(y))
    free = resize_plot(ground, box, (1.0, 0.0), to)
    assert isinstance(free, Stretch)
    assert (free.start, free.end) == pytest.approx((1.0, 2.777))
    stepped = resize_plot(ground, box, (1.0, 0.0), to, 0.05)
    assert isinstance(stepped, Stretch)
    assert (stepped.start, stepped.end) == pytest.approx((1.0, 2.8))


def test_a_plot_drawn_over_the_whole_bed_is_the_whole_bed_and_beside_it_none():
    ground = bed(outline=rectangle(4.0, 1.0))
    box = plot_box(ground, Stretch(start=0.0, end=2.0))
    assert resize_plot(ground, box, (1.0, 0.0), (9.0, 0.0)) == Whole()
    assert resize_plot(ground, box, (1.0, 0.0), (-2.0, 0.0)) is None
