"""Resize and turn outlines and plots by dragging a side or corner."""

from __future__ import annotations

import math

from planner.garden import Band, Bed, Circle, Outline, Plot, Polygon, Rectangle, Whole
from planner.garden.model import LEAST_SIDE, Point
from planner.ground.dropping import plot_box, plot_of_box
from planner.ground.shapes import bed_axis, to_own, to_plan

#: Usual and fine step of a turn. [degrees]
TURN_STEP, FINE_TURN_STEP = 5.0, 0.1


def resize_rectangle(
    outline: Rectangle, signs: tuple[float, float], to: Point, *, both: bool = False
) -> Rectangle:
    """Drag a side or corner of a rectangle; the opposite one stays where it is on the plan.

    Parameters
    ----------
    outline : Rectangle
    signs : tuple of float
        Signs of own x and y of what is dragged: (1, 0) is the right side, (1, 1) the upper right corner.
    to : tuple of float
        Where it is dragged to, in the outline's own coordinates. [m]
    both : bool
        Whether the opposite side moves as far the other way, so that the centre stays.
    """
    (sx, sy), (x, y) = signs, to
    length, shift_x = _resized_side(outline.length, sx, x, both)
    width, shift_y = _resized_side(outline.width, sy, y, both)
    ((px, py),) = to_plan(outline, [(shift_x, shift_y)])
    return outline.with_(
        length=round(length, 6), width=round(width, 6), center=(round(float(px), 6), round(float(py), 6))
    )


def _resized_side(length: float, sign: float, to: float, both: bool) -> tuple[float, float]:
    """New length of a side with one dragged end, and the move of its middle. [m]"""
    if not sign:
        return length, 0.0
    new = max(abs(to) * 2 if both else sign * to + length / 2, LEAST_SIDE)
    return new, 0.0 if both else sign * (new - length) / 2


def resize_circle(outline: Circle, to: Point, step: float = 0.0) -> Circle:
    """Drag the rim of a circle.

    Parameters
    ----------
    outline : Circle
    to : tuple of float
        Where the rim is dragged to, in the outline's own coordinates. [m]
    step : float
        The radius is rounded to whole steps; 0 for none. [m]
    """
    radius = math.hypot(*to)
    return outline.with_(radius=max(round(radius / step) * step if step else radius, LEAST_SIDE))


def move_corner(outline: Polygon, index: int, to: Point) -> Polygon:
    """Drag a corner of a polygon.

    Parameters
    ----------
    outline : Polygon
    index : int
        Of the corner.
    to : tuple of float
        Where it is dragged to, in the outline's own coordinates. [m]

    Raises
    ------
    pydantic.ValidationError
        If the outline crosses itself or has no area.
    """
    points = list(outline.points)
    points[index] = (round(to[0], 6), round(to[1], 6))
    return outline.with_(points=tuple(points))


def move_along(outline: Band, index: int, to: Point) -> Band:
    """Drag a corner of a band's middle line.

    Parameters
    ----------
    outline : Band
    index : int
        Of the corner.
    to : tuple of float
        Where it is dragged to, in the outline's own coordinates. [m]

    Raises
    ------
    pydantic.ValidationError
        If the band crosses itself.
    """
    line = list(outline.line)
    line[index] = (round(to[0], 6), round(to[1], 6))
    return outline.with_(line=tuple(line))


def turn_towards(outline: Outline, to: Point, *, fine: bool = False) -> float:
    """Turn of an outline whose upper side is dragged to a place. [degrees anticlockwise]

    Parameters
    ----------
    outline : Outline
    to : tuple of float
        In the outline's own coordinates. [m]
    fine : bool
        Use fine steps.
    """
    degrees = math.degrees(math.atan2(to[1], to[0])) - 90 + outline.turn
    step = FINE_TURN_STEP if fine else TURN_STEP
    return round(round(degrees / step) * step, 3) % 360.0


def resize_plot(
    bed: Bed, box: tuple[float, float, float, float], signs: tuple[float, float], to: Point, step: float = 0.0
) -> Plot | None:
    """Drag a side of a plot; None if nothing would be left of it.

    Parameters
    ----------
    bed : Bed
    box : tuple of float
        Extents of the plot before the drag, along and across the bed's long axis
        (:func:`planner.ground.dropping.plot_box`). [m]
    signs : tuple of float
        Which side is dragged: signs of the direction along and across the bed's long axis.
    to : tuple of float
        Where it is dragged to, on the plan. [m]
    step : float
        Sides go in whole steps from the beginning of the bed; 0 for none. [m]
    """
    ((x, y),) = to_own(bed.outline, [to])
    axis = math.radians(-bed_axis(bed.outline))
    along = math.cos(axis) * x - math.sin(axis) * y
    across = math.sin(axis) * x + math.cos(axis) * y
    if step > 0:
        begin, edge, _, _ = plot_box(bed, Whole())
        along = begin + round((along - begin) / step) * step
        across = edge + round((across - edge) / step) * step
    left, low, right, high = box
    sx, sy = signs
    left = along if sx < 0 else left
    right = along if sx > 0 else right
    low = across if sy < 0 else low
    high = across if sy > 0 else high
    return plot_of_box(bed, left, low, right, high)
