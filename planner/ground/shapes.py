"""Outlines and plots as shapely polygons, in a bed's own coordinates and on the plan.

Own coordinates have their origin at the outline's centre; plan coordinates are x right, y up, in metres.  Circles
are polygons of :data:`CIRCLE_CORNERS` corners with the area of the true circle, off by at most 1.2 millionths of the
radius.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.garden.outlines import long_axis

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import ArrayLike, NDArray

    from planner.garden import Bed, Outline, Plot

#: Corners of the polygon for a circle.
CIRCLE_CORNERS = 1440


@lru_cache(maxsize=1)
def _unit_circle() -> NDArray[np.float64]:
    angle = np.arange(CIRCLE_CORNERS) * (2 * math.pi / CIRCLE_CORNERS)
    step = 2 * math.pi / CIRCLE_CORNERS
    radius = math.sqrt(step / math.sin(step))  # a polygon of just the circle's area
    corners: NDArray[np.float64] = radius * np.column_stack([np.cos(angle), np.sin(angle)])
    return corners


def own_polygon(outline: Outline) -> shapely.Polygon:
    """The outline in its own coordinates. [m]"""
    if outline.shape == "rectangle":
        half_length, half_width = outline.length / 2, outline.width / 2
        return shapely.box(-half_length, -half_width, half_length, half_width)
    if outline.shape == "circle":
        return shapely.Polygon(_unit_circle() * outline.radius)
    return shapely.Polygon(outline.points)


def bed_polygon(bed: Bed) -> shapely.Polygon:
    """The bed's outline in the bed's own coordinates. [m]"""
    return own_polygon(bed.outline)


def outline_radius(outline: Outline) -> float:
    """Radius of a circle about its centre that holds an outline. [m]"""
    if outline.shape == "rectangle":
        return math.hypot(outline.length, outline.width) / 2
    if outline.shape == "circle":
        return outline.radius
    return max(math.hypot(x, y) for x, y in outline.points)


def outline_area(outline: Outline) -> float:
    """Area of an outline, exact also for circles. [m2]"""
    if outline.shape == "rectangle":
        return outline.length * outline.width
    if outline.shape == "circle":
        return math.pi * outline.radius**2
    return float(own_polygon(outline).area)


def turned_points(points: NDArray[np.float64], degrees: float) -> NDArray[np.float64]:
    """Points turned anticlockwise; quarter turns are exact."""
    quarter, rest = divmod(degrees, 90.0)
    if rest == 0.0:
        cos, sin = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    x, y = points[:, 0], points[:, 1]
    return np.column_stack([cos * x - sin * y, sin * x + cos * y])


def turned(geometry: shapely.Geometry, degrees: float) -> shapely.Geometry:
    """Turn a geometry anticlockwise about the origin.

    Parameters
    ----------
    geometry : shapely.Geometry
    degrees : float
        [degrees]
    """
    if degrees % 360.0 == 0.0:
        return geometry
    return shapely.transform(geometry, lambda points: turned_points(points, degrees))


def to_plan(outline: Outline, points: ArrayLike) -> NDArray[np.float64]:
    """Transform points from an outline's own coordinates to the plan.

    Parameters
    ----------
    outline : Outline
    points : array (n, 2)
        [m]

    Returns
    -------
    ndarray (n, 2)
        [m]
    """
    own = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    plan: NDArray[np.float64] = turned_points(own, outline.turn) + np.asarray(outline.center)
    return plan


def to_own(outline: Outline, points: ArrayLike) -> NDArray[np.float64]:
    """Transform points from the plan to an outline's own coordinates.

    Parameters
    ----------
    outline : Outline
    points : array (n, 2)
        [m]

    Returns
    -------
    ndarray (n, 2)
        [m]
    """
    plan = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    return turned_points(plan - np.asarray(outline.center), -outline.turn)


def shape_to_plan(outline: Outline, geometry: shapely.Geometry) -> shapely.Geometry:
    """Transform a geometry from an outline's own coordinates to the plan."""
    return shapely.transform(geometry, lambda points: to_plan(outline, points))


def shape_to_own(outline: Outline, geometry: shapely.Geometry) -> shapely.Geometry:
    """Transform a geometry from the plan to an outline's own coordinates."""
    return shapely.transform(geometry, lambda points: to_own(outline, points))


def plan_polygon(outline: Outline) -> shapely.Polygon:
    """The outline on the plan. [m]"""
    return shape_to_plan(outline, own_polygon(outline))


def bed_axis(outline: Outline) -> float:
    """Direction of the long axis in own coordinates. [degrees anticlockwise from own x]"""
    return long_axis(outline)


def extent_along_axis(outline: Outline) -> tuple[float, float]:
    """Least and greatest own coordinate of an outline along its long axis. [m]"""
    level = turned(own_polygon(outline), -bed_axis(outline))
    bounds = shapely.bounds(level)
    return float(bounds[0]), float(bounds[2])


def stretch_polygon(outline: Outline, start: float, end: float) -> shapely.Geometry:
    """The part of an outline between two distances from its beginning, in own coordinates.

    Parameters
    ----------
    outline : Outline
    start, end : float
        Along its long axis. [m]
    """
    axis = bed_axis(outline)
    level = turned(own_polygon(outline), -axis)
    left, low, _, high = shapely.bounds(level)
    band = shapely.box(left + start, low - 1.0, left + end, high + 1.0)
    return turned(shapely.intersection(level, band), axis)


def plot_polygon(bed: Bed, plot: Plot) -> shapely.Geometry:
    """The part of a plot inside its bed, in the bed's own coordinates.

    Parameters
    ----------
    bed : Bed
    plot : Plot

    Returns
    -------
    shapely.Polygon or shapely.MultiPolygon
        Empty if the plot is wholly outside the bed. [m]
    """
    if plot.kind == "whole":
        return bed_polygon(bed)
    if plot.kind == "stretch":
        return polygons_of(stretch_polygon(bed.outline, plot.start, plot.end))
    return polygons_of(shapely.intersection(bed_polygon(bed), shapely.Polygon(plot.points)))


def plot_outside(bed: Bed, plot: Plot) -> float:
    """Area of the part of a plot beyond its bed. [m2]

    Parameters
    ----------
    bed : Bed
    plot : Plot
    """
    if plot.kind == "whole":
        return 0.0
    if plot.kind == "region":
        beyond = shapely.difference(shapely.Polygon(plot.points), bed_polygon(bed))
        return float(beyond.area)
    low, high = extent_along_axis(bed.outline)
    length = high - low
    beyond_length = max(0.0, plot.end - max(plot.start, length)) + max(0.0, -plot.start)
    if beyond_length <= 1e-6:
        return 0.0
    level = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    return beyond_length * float(level[3] - level[1])


def polygons_of(geometry: shapely.Geometry) -> shapely.Geometry:
    """The polygons of a geometry, without its points and lines."""
    if geometry.geom_type in ("Polygon", "MultiPolygon"):
        return geometry
    parts = [p for p in shapely.get_parts(geometry) if p.geom_type == "Polygon"]
    return shapely.MultiPolygon(parts) if parts else shapely.Polygon()


def ring_points(polygon: shapely.Polygon) -> Sequence[tuple[float, float]]:
    """Corners of a polygon's outer ring in order, the first not repeated. [m]"""
    return [(float(x), float(y)) for x, y in shapely.get_coordinates(polygon.exterior)[:-1]]


def goes_left(points: Sequence[tuple[float, float]]) -> bool:
    """Whether the corners of a ring follow each other anticlockwise."""
    return bool(shapely.is_ccw(shapely.LinearRing(points)))


def prepared_copy(shape: shapely.Geometry) -> shapely.Geometry:
    """A copy of a shape, prepared for many questions by one thread.

    A shape that several threads read must not be prepared itself: what GEOS prepares is built up at its use, without a lock.
    """
    copy = shapely.from_wkb(shapely.to_wkb(shape))
    shapely.prepare(copy)
    return copy
