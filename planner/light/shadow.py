"""Shadows as exact polygons, for drawing.

The shadow of a prism on a level plane is its footprint swept along the beam: a point of the plane is shaded if the
straight line from there to the sun passes over the footprint at a height between the prism's base and its top.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from planner.light.beams import LEAST_ALTITUDE, Beams
from planner.light.casters import LEAST_HEIGHT, Caster

#: Thinner shadows (a bare stake's, a wire's) are not drawn. [0 to 1]
FAINT = 0.12
#: So many densities of shadow are told apart where they are drawn; more would not be seen.
DENSITIES = 3
#: Outlines of shadows are simplified by this where they are drawn. [m]
TOLERANCE = 0.01

_NOTHING = shapely.Polygon()


def swept(shape: shapely.Polygon, start: ArrayLike, end: ArrayLike) -> shapely.Geometry:
    """All ground that a polygon passes over while it moves straight from one offset to another.

    That is the polygon at both offsets and the parallelogram drawn by each of its edges; holes remain where nothing
    passes over them.

    Parameters
    ----------
    shape : shapely.Polygon
        [m]
    start, end : array (2,)
        Offsets. [m]
    """
    first, last = np.asarray(start, dtype=np.float64), np.asarray(end, dtype=np.float64)
    move = last - first
    if not shape.interiors and shape.area >= shape.convex_hull.area * (1 - 1e-12):
        corners = shapely.get_coordinates(shape)
        return shapely.convex_hull(shapely.MultiPoint(np.concatenate([corners + first, corners + last])))
    parts = [shapely.transform(shape, lambda points: points + first)]
    parts.append(shapely.transform(shape, lambda points: points + last))
    for ring in (shape.exterior, *shape.interiors):
        parts += _parallelograms(shapely.get_coordinates(ring) + first, move)
    return shapely.union_all(parts)


def _parallelograms(ring: NDArray[np.float64], move: NDArray[np.float64]) -> list[shapely.Geometry]:
    """The parallelograms that the edges of a ring draw while it moves."""
    begin, end = ring[:-1], ring[1:]
    area = np.abs((end - begin)[:, 0] * move[1] - (end - begin)[:, 1] * move[0])
    corners = np.stack([begin, end, end + move, begin + move, begin], axis=1)[area > 1e-15]
    return list(shapely.polygons(corners)) if len(corners) else []


def shadow(caster: Caster, toward: ArrayLike, height: float = 0.0) -> shapely.Geometry:
    """Shadow of a prism on a level plane.

    Parameters
    ----------
    caster : Caster
    toward : array (2,)
        Horizontal offset on the plan, toward the sun, for one metre of height. [m]
    height : float
        Of the plane above the ground: the height of the plant or bed on which the shadow falls. [m]

    Returns
    -------
    shapely.Geometry
        Empty if the prism does not rise above the plane. [m]
    """
    foot, head = max(caster.base - height, 0.0), caster.top - height
    if not caster.casts or head - foot <= LEAST_HEIGHT:
        return _NOTHING
    away = -np.asarray(toward, dtype=np.float64)
    return swept(caster.shape, away * foot, away * head)


def shadows(
    casters: Sequence[Caster], beam: Beams, height: float = 0.0
) -> tuple[tuple[Caster, shapely.Geometry], ...]:
    """Shadows of all casters at one moment.

    Parameters
    ----------
    casters : sequence of Caster
    beam : Beams
        The beam of a moment; see :func:`planner.light.beams.beam_at`.
    height : float
        Of the plane above the ground. [m]

    Returns
    -------
    tuple of (Caster, shapely.Geometry)
        Casters without a shadow are left out; empty while the sun is down.
    """
    if not len(beam.hours):
        return ()
    cast = ((caster, shadow(caster, beam.toward[0], height)) for caster in casters)
    return tuple((caster, shape) for caster, shape in cast if not shape.is_empty)


def drawn_shadows(casters: Sequence[Caster], beam: Beams) -> list[tuple[float, shapely.Geometry]]:
    """Shadows of one moment as they are drawn: those of each density together.

    Parameters
    ----------
    casters : sequence of Caster
    beam : Beams
        The beam of a moment; see :func:`planner.light.beams.beam_at`.

    Returns
    -------
    list of (float, shapely.Geometry)
        Opacity and ground, the thinnest first; nothing while the sun is lower than :data:`LEAST_ALTITUDE`. [m]
    """
    if not len(beam.hours) or beam.altitude[0] < LEAST_ALTITUDE:
        return []
    cast = [(caster, shape) for caster, shape in shadows(casters, beam) if caster.opacity >= FAINT]
    if not cast:
        return []
    # What casts is not darkened itself: its leaves or roof are in the light.
    fallen = shapely.difference([shape for _, shape in cast], [caster.shape for caster, _ in cast])
    density = np.array([max(1, round(caster.opacity * DENSITIES)) / DENSITIES for caster, _ in cast])
    return [
        (float(opacity), shapely.simplify(shapely.union_all(fallen[density == opacity]), TOLERANCE))
        for opacity in np.unique(density)
    ]
