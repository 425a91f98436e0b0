"""Distances from a shape to its neighbours, one on each side."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import shapely

from planner.garden.model import Point

#: Neighbours farther away are none. [m]
FARTHEST = 6.0


class Gap(NamedTuple):
    """The shortest way from a shape to a neighbour. [m]"""

    start: Point
    end: Point


def gaps_around(shape: shapely.Geometry, others: Sequence[shapely.Polygon]) -> list[Gap]:
    """The ways to the nearest neighbour to the right, to the left, above and below, where there is one.

    A neighbour lies on the side to which the shortest way to it leads, where a part of it lies straight across from
    the shape; what lies only on the slant is none.  Between sides that run along each other
    the way is in the middle of what they have in common.

    Parameters
    ----------
    shape : shapely.Geometry
        On the plan, as the others. [m]
    others : sequence of shapely.Polygon
        Those that the shape touches or lies on have no gap.
    """
    found: dict[tuple[bool, bool], tuple[float, Gap]] = {}
    if not others or shape.is_empty:
        return []
    lines = shapely.shortest_line(shape, others)
    for other, line, long in zip(others, lines, shapely.length(lines), strict=True):
        if not 1e-6 < long <= FARTHEST:
            continue
        gap = _in_the_middle(shape, other, float(long)) or Gap(*_ends(line))
        dx, dy = gap.end[0] - gap.start[0], gap.end[1] - gap.start[1]
        across = abs(dx) >= abs(dy)
        if not _share(shape, other, along_y=across):
            continue
        side = (across, (dx if across else dy) > 0)
        if side not in found or long < found[side][0]:
            found[side] = float(long), gap
    return [gap for _, (_, gap) in sorted(found.items())]


def _share(shape: shapely.Geometry, other: shapely.Polygon, *, along_y: bool) -> bool:
    """Whether the extents of two shapes have a stretch in common, up or across."""
    one, two = shapely.bounds(shape).tolist(), shapely.bounds(other).tolist()
    low, high = (1, 3) if along_y else (0, 2)
    return bool(min(one[high], two[high]) > max(one[low], two[low]))


def _ends(line: shapely.Geometry) -> tuple[Point, Point]:
    (x0, y0), (x1, y1) = shapely.get_coordinates(line).tolist()
    return (x0, y0), (x1, y1)


def _in_the_middle(shape: shapely.Geometry, other: shapely.Polygon, long: float) -> Gap | None:
    """The way straight across between the extents of two shapes, where the shortest way is as long as it."""
    left, low, right, high = shapely.bounds(shape).tolist()
    a, b, c, d = shapely.bounds(other).tolist()
    x, y = (max(left, a) + min(right, c)) / 2, (max(low, b) + min(high, d)) / 2
    for start, end, is_beside in (
        ((right, y), (a, y), min(high, d) > max(low, b)),
        ((left, y), (c, y), min(high, d) > max(low, b)),
        ((x, high), (x, b), min(right, c) > max(left, a)),
        ((x, low), (x, d), min(right, c) > max(left, a)),
    ):
        if is_beside and math.isclose(math.dist(start, end), long, abs_tol=1e-6):
            on = shapely.dwithin(shape, shapely.Point(start), 1e-6) and shapely.dwithin(
                other, shapely.Point(end), 1e-6
            )
            if on:
                return Gap(start, end)
    return None
