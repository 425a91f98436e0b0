"""Shadows as polygons, exact: for drawing, and to be measured against.

The shadow of a prism on a level plane is its footprint swept along the beam: a point of the plane is
shaded when the way from there to the sun passes over the footprint at a height between the prism's
foot and its top.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from planner.light.casters import LEAST_HEIGHT, Caster
from planner.light.days import Beams

_NOTHING = shapely.Polygon()


def swept(shape: shapely.Polygon, start: ArrayLike, end: ArrayLike) -> shapely.Geometry:
    """All ground a polygon passes over while it moves straight from one offset to another.

    That is the polygon at either end and the parallelogram drawn by each of its edges; holes stay
    where nothing passes over them.
    """
    first, last = np.asarray(start, dtype=np.float64), np.asarray(end, dtype=np.float64)
    way = last - first
    if not shape.interiors and shape.area >= shape.convex_hull.area * (1 - 1e-12):
        corners = shapely.get_coordinates(shape)
        return shapely.convex_hull(shapely.MultiPoint(np.concatenate([corners + first, corners + last])))
    parts = [shapely.transform(shape, lambda points: points + first)]
    parts.append(shapely.transform(shape, lambda points: points + last))
    for ring in (shape.exterior, *shape.interiors):
        parts += _parallelograms(shapely.get_coordinates(ring) + first, way)
    return shapely.union_all(parts)


def _parallelograms(ring: NDArray[np.float64], way: NDArray[np.float64]) -> list[shapely.Geometry]:
    begin, end = ring[:-1], ring[1:]
    area = np.abs((end - begin)[:, 0] * way[1] - (end - begin)[:, 1] * way[0])
    corners = np.stack([begin, end, end + way, begin + way, begin], axis=1)[area > 1e-15]
    return list(shapely.polygons(corners)) if len(corners) else []


def shadow(caster: Caster, toward: ArrayLike, height: float = 0.0) -> shapely.Geometry:
    """The shadow of a prism on a level plane.

    Parameters
    ----------
    caster : Caster
    toward : array (2,)
        On the plan, toward the sun: how far a beam runs while it climbs one metre. [m]
    height : float
        Of the plane above the ground: that of the plant or bed the shadow falls on. [m]

    Returns
    -------
    shapely.Geometry
        Empty where the prism does not rise above the plane.
    """
    foot, head = max(caster.base - height, 0.0), caster.top - height
    if not caster.casts or head - foot <= LEAST_HEIGHT:
        return _NOTHING
    away = -np.asarray(toward, dtype=np.float64)
    return swept(caster.shape, away * foot, away * head)


def shadows(
    casters: Sequence[Caster], beam: Beams, height: float = 0.0
) -> tuple[tuple[Caster, shapely.Geometry], ...]:
    """The shadows of a moment, one a caster that throws one; none while the sun is not up."""
    if not len(beam.hours):
        return ()
    cast = ((caster, shadow(caster, beam.toward[0], height)) for caster in casters)
    return tuple((caster, shape) for caster, shape in cast if not shape.is_empty)
