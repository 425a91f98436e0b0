"""Outlines of beds and structures, and lines of supports, drawn by dragging."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.garden import Band, Circle, Outline, Polygon, Rectangle
from planner.garden.edits.common import checked
from planner.garden.model import Point
from planner.ground.shapes import to_own
from planner.words import say

#: Least length of a drag that draws anything. [m]
LEAST_DRAG = 0.05


def straight_from(start: Point, point: Point) -> Point:
    """Move a point so that it is level with the start, or straight above or below it.

    Parameters
    ----------
    start, point : tuple of float
        [m]

    Examples
    --------
    >>> straight_from((0.0, 0.0), (3.0, 1.0)), straight_from((0.0, 0.0), (1.0, 3.0))
    ((3.0, 0.0), (0.0, 3.0))
    """
    (x0, y0), (x, y) = start, point
    return (x, y0) if abs(x - x0) >= abs(y - y0) else (x0, y)


def dragged_box(
    first: Point, last: Point, *, square: bool = False, from_centre: bool = False
) -> tuple[float, float, float, float]:
    """Extents of the box dragged from one place to another: least x and y, greatest x and y. [m]

    Parameters
    ----------
    first, last : tuple of float
        Beginning and present place of the drag. [m]
    square : bool
        Make all sides as long as the longer one.
    from_centre : bool
        Begin in the middle, not in a corner.
    """
    (x0, y0), (x1, y1) = first, last
    if square:
        side = max(abs(x1 - x0), abs(y1 - y0))
        x1, y1 = x0 + math.copysign(side, x1 - x0), y0 + math.copysign(side, y1 - y0)
    if from_centre:
        x0, y0 = 2 * x0 - x1, 2 * y0 - y1
    return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)


def drawn_rectangle(box: tuple[float, float, float, float]) -> Rectangle | None:
    """The outline of a dragged box; None if it is smaller than :data:`LEAST_DRAG`."""
    left, low, right, high = box
    length, width = right - left, high - low
    if length < LEAST_DRAG or width < LEAST_DRAG:
        return None
    center = (round((left + right) / 2, 6), round((low + high) / 2, 6))
    return Rectangle(center=center, length=round(length, 6), width=round(width, 6))


def drawn_circle(center: Point, rim: Point) -> Circle | None:
    """The outline of a circle dragged from its centre to its rim; None if it is smaller than :data:`LEAST_DRAG`.

    Parameters
    ----------
    center, rim : tuple of float
        [m]
    """
    radius = math.dist(center, rim)
    return Circle(center=center, radius=round(radius, 6)) if radius >= LEAST_DRAG else None


def drawn_polygon(corners: Sequence[Point]) -> Outline:
    """The outline through corners on the plan; its centre is that of their extents.

    Parameters
    ----------
    corners : sequence of tuple of float
        At least three. [m]

    Raises
    ------
    planner.garden.edits.EditError
        If the outline crosses itself or has no area.
    """
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    cx, cy = round((min(xs) + max(xs)) / 2, 6), round((min(ys) + max(ys)) / 2, 6)
    points = tuple((round(x - cx, 6), round(y - cy, 6)) for x, y in corners)
    return checked(lambda: Polygon(center=(cx, cy), points=points), say("the drawn bed"))


def drawn_band(corners: Sequence[Point], width: float) -> Band:
    """The band along a line on the plan; its centre is that of the line's extents.

    Parameters
    ----------
    corners : sequence of tuple of float
        Of the middle line, at least two; those that follow one another within a millimetre are one. [m]
    width : float
        [m]

    Raises
    ------
    planner.garden.edits.EditError
        If the band crosses or touches itself.
    """
    apart = [
        point
        for number, point in enumerate(corners)
        if not number or math.dist(point, corners[number - 1]) > 1e-3
    ]
    xs, ys = [x for x, _ in apart], [y for _, y in apart]
    cx, cy = round((min(xs) + max(xs)) / 2, 6), round((min(ys) + max(ys)) / 2, 6)
    line = tuple((round(x - cx, 6), round(y - cy, 6)) for x, y in apart)
    return checked(lambda: Band(center=(cx, cy), line=line, width=round(width, 6)), say("the drawn path"))


def own_place(outline: Outline, place: Point, step: float = 0.0) -> Point:
    """A place of the plan in an outline's own coordinates, on whole steps from its centre. [m]

    Parameters
    ----------
    outline : Outline
    place : tuple of float
        On the plan. [m]
    step : float
        0 for none. [m]
    """
    ((x, y),) = to_own(outline, [place])
    if step <= 0:
        return float(x), float(y)
    return round(float(x) / step) * step, round(float(y) / step) * step


def is_a_line(first: Point, last: Point) -> bool:
    """Whether a dragged line is at least :data:`LEAST_DRAG` long.

    Parameters
    ----------
    first, last : tuple of float
        Its ends. [m]
    """
    return math.dist(first, last) >= LEAST_DRAG
