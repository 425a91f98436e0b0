"""Outlines by their measures: what is typed while one draws, and the sides and corners of a polygon."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from planner.garden.model import Point

#: Lines whose directions differ by less than this have no crossing to count on (sine of the angle).
PARALLEL = 1e-6


def side_end(start: Point, pointer: Point, length: float | None, degrees: float | None) -> Point:
    """Where a side ends that goes from a corner towards the pointer, as far as its measures are not typed.

    Parameters
    ----------
    start, pointer : tuple of float
        [m]
    length : float or None
        As typed; None goes as far as the pointer, measured along the direction. [m]
    degrees : float or None
        Direction as typed, anticlockwise from plan-right; None is that of the pointer. [degrees]

    Examples
    --------
    >>> side_end((1.0, 1.0), (4.0, 5.0), 10.0, None), side_end((0.0, 0.0), (3.0, 4.0), None, 90.0)
    ((7.0, 9.0), (0.0, 4.0))
    """
    dx, dy = pointer[0] - start[0], pointer[1] - start[1]
    if length is None and degrees is None:
        return pointer
    if degrees is not None:
        ux, uy = _unit(degrees)
    else:
        far = math.hypot(dx, dy)
        ux, uy = (dx / far, dy / far) if far > 0 else (1.0, 0.0)
    far = length if length is not None else max(0.0, dx * ux + dy * uy)
    return round(start[0] + far * ux, 6), round(start[1] + far * uy, 6)


def box_corner(
    first: Point,
    pointer: Point,
    across: float | None,
    up: float | None,
    *,
    square: bool = False,
    from_centre: bool = False,
) -> Point:
    """The corner towards the pointer of a box whose extents are typed, as far as they are.

    Parameters
    ----------
    first, pointer : tuple of float
        Where it begins, and where the pointer is. [m]
    across, up : float or None
        Extents as typed; None reaches to the pointer. [m]
    square : bool
        Whether one typed extent holds for both.
    from_centre : bool
        Whether it begins in the middle.
    """
    if square:
        across, up = (up if across is None else across), (across if up is None else up)
    part = 0.5 if from_centre else 1.0
    x, y = pointer
    if across is not None:
        x = first[0] + math.copysign(part * across, 1.0 if x >= first[0] else -1.0)
    if up is not None:
        y = first[1] + math.copysign(part * up, 1.0 if y > first[1] else -1.0)
    return x, y


def square_end(before: Point, corner: Point, pointer: Point, reach: float) -> Point | None:
    """The place square to a side at its corner that is nearest to the pointer; None where none is within reach.

    Parameters
    ----------
    before, corner : tuple of float
        The side that was drawn last. [m]
    pointer : tuple of float
        [m]
    reach : float
        [m]

    Examples
    --------
    >>> square_end((0.0, 0.0), (4.0, 0.0), (4.05, 2.0), 0.1), square_end((0.0, 0.0), (4.0, 0.0), (4.5, 2.0), 0.1)
    ((4.0, 2.0), None)
    """
    side = math.dist(before, corner)
    if side == 0:
        return None
    ux, uy = (corner[0] - before[0]) / side, (corner[1] - before[1]) / side
    dx, dy = pointer[0] - corner[0], pointer[1] - corner[1]
    off, far = dx * ux + dy * uy, dy * ux - dx * uy
    if abs(off) > reach or abs(far) <= 2 * reach:
        return None
    return corner[0] - far * uy, corner[1] + far * ux


def rounded_end(start: Point, end: Point, step: float) -> Point:
    """The end of a line whose length is rounded to whole steps. [m]"""
    far = math.dist(start, end)
    if step <= 0 or far == 0:
        return end
    part = round(far / step) * step / far
    return _tidy((start[0] + part * (end[0] - start[0]), start[1] + part * (end[1] - start[1])))


def direction_of(start: Point, end: Point) -> float:
    """Direction of a line, anticlockwise from plan-right, from 0 to below 360. [degrees]"""
    degrees = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    return round(degrees, 9) % 360.0


def corner_angle(before: Point, corner: Point, after: Point) -> float:
    """Angle between two sides at their corner, from 0 to 180. [degrees]"""
    turn = abs(direction_of(corner, before) - direction_of(corner, after))
    return min(turn, 360.0 - turn)


def side_lengths(points: Sequence[Point]) -> list[float]:
    """Lengths of the sides of a polygon, each from its corner to the next. [m]"""
    return [math.dist(one, next_) for one, next_ in pairwise((*points, points[0]))]


def inner_angles(points: Sequence[Point]) -> list[float]:
    """Angles inside a polygon at its corners, from 0 to 360; they sum up to (n - 2) times 180. [degrees]"""
    turning = 1.0 if _area(points) > 0 else -1.0
    angles = []
    for index, corner in enumerate(points):
        before, after = points[index - 1], points[(index + 1) % len(points)]
        angle = direction_of(corner, before) - direction_of(corner, after)
        angles.append((turning * angle) % 360.0)
    return angles


def with_side_length(points: Sequence[Point], side: int, length: float) -> tuple[Point, ...]:
    """Give a side of a polygon another length; all angles stay.

    The side after it moves along, parallel to itself, and ends where it meets the line of the one after that.
    Where these two have no crossing, or one of them would be turned about, it moves as it is.

    Parameters
    ----------
    points : sequence of tuple of float
        Corners in order. [m]
    side : int
        Index of the side's first corner.
    length : float
        [m]

    Examples
    --------
    >>> with_side_length([(0.0, 0.0), (4.0, 0.0), (4.0, 1.0), (0.0, 1.0)], 0, 5.0)
    ((0.0, 0.0), (5.0, 0.0), (5.0, 1.0), (0.0, 1.0))
    """
    count = len(points)
    a, b, c, d = (points[(side + k) % count] for k in range(4))
    old = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / old, (b[1] - a[1]) / old
    dx, dy = (length - old) * ux, (length - old) * uy
    new_b, moved_c = (b[0] + dx, b[1] + dy), (c[0] + dx, c[1] + dy)
    met = _crossing(new_b, moved_c, c, d)
    if met is None or not (_points_along(new_b, met, b, c) and _points_along(met, d, c, d)):
        met = moved_c
    new = list(points)
    new[(side + 1) % count] = _tidy(new_b)
    new[(side + 2) % count] = _tidy(met)
    return tuple(new)


def with_inner_angle(points: Sequence[Point], corner: int, degrees: float) -> tuple[Point, ...]:
    """Give a corner of a polygon another angle: the side that begins there turns about it and stays as long as it is.

    Parameters
    ----------
    points : sequence of tuple of float
        Corners in order. [m]
    corner : int
    degrees : float
        Inside the polygon. [degrees]

    Examples
    --------
    >>> with_inner_angle([(0.0, 0.0), (4.0, 0.0), (5.0, 1.0), (0.0, 1.0)], 1, 90.0)
    ((0.0, 0.0), (4.0, 0.0), (4.0, 1.414214), (0.0, 1.0))
    """
    count = len(points)
    here, after = points[corner], (corner + 1) % count
    turning = 1.0 if _area(points) > 0 else -1.0
    direction = direction_of(here, points[corner - 1]) - turning * degrees
    new = list(points)
    new[after] = _tidy(side_end(here, here, math.dist(here, points[after]), direction))
    return tuple(new)


def _crossing(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the line through two points meets that through two others; None where they are as good as parallel."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ux * vy - uy * vx
    if abs(cross) <= PARALLEL * math.hypot(ux, uy) * math.hypot(vx, vy):
        return None
    along = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross
    return a[0] + along * ux, a[1] + along * uy


def _points_along(start: Point, end: Point, old_start: Point, old_end: Point) -> bool:
    """Whether a side still points where it pointed."""
    along = (end[0] - start[0]) * (old_end[0] - old_start[0]) + (end[1] - start[1]) * (
        old_end[1] - old_start[1]
    )
    return along > 0


def _area(points: Sequence[Point]) -> float:
    """Area, positive where the corners go anticlockwise. [m2]"""
    ring = pairwise((*points, points[0]))
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in ring) / 2


def _unit(degrees: float) -> Point:
    """Cosine and sine; exact for quarter turns."""
    quarter, rest = divmod(degrees, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    return math.cos(math.radians(degrees)), math.sin(math.radians(degrees))


def _tidy(point: Point) -> Point:
    return round(point[0], 6), round(point[1], 6)
