"""Ground of a bed that is out of reach from its sides."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely

from planner.garden import Bed, Structure
from planner.ground.shapes import (
    bed_axis,
    bed_polygon,
    plan_polygon,
    polygons_of,
    shape_to_own,
    shape_to_plan,
    turned,
)

#: Corners of a quarter circle when buffering: off by less than a millimetre at 0.6 m.
_QUARTER = 24
#: An outline of more corners is taken side by side.
MANY_CORNERS = 200
#: Smaller pieces of ground are not reported. [m2]
SPECK = 1e-3
#: Width of the ground beside a bed on which a person needs to stand. [m]
STANDING_WIDTH = 0.25


def out_of_reach(
    bed: Bed,
    reach: float,
    blocked: shapely.Geometry | None = None,
    stood_on: shapely.Geometry | None = None,
) -> shapely.Geometry:
    """Ground of a bed that is farther than a reach from every accessible side, in the bed's coordinates.

    Parameters
    ----------
    bed : Bed
        The accessible sides of a rectangle are those of ``access``, looking along its long axis from its beginning;
        any other outline is accessible all round, unless ``access`` is empty.
    reach : float
        [m]
    blocked : shapely.Geometry, optional
        Ground on the plan that nobody can use (walls, other beds); sides along it are not accessible. [m]
    stood_on : shapely.Geometry, optional
        Ground on the plan to stand on in the bed: boards and paths.  It counts where one can come to the bed. [m]

    Returns
    -------
    shapely.Polygon or shapely.MultiPolygon
        Empty if all ground is within reach. [m]
    """
    ground = bed_polygon(bed)
    sides = _accessible_sides(bed, ground)
    if blocked is not None and not blocked.is_empty:
        sides = shapely.difference(sides, shape_to_own(bed.outline, blocked).buffer(STANDING_WIDTH / 2))
    if sides.is_empty or reach <= 0:
        return ground
    near = sides
    if stood_on is not None and not stood_on.is_empty:
        near = shapely.union_all([sides, shapely.intersection(shape_to_own(bed.outline, stood_on), ground)])
    far = polygons_of(shapely.difference(ground, _around(near, reach)))
    return _without_specks(far)


def _around(shape: shapely.Geometry, distance: float) -> shapely.Geometry:
    """Ground within a distance of a shape; of many corners side by side, which is much faster. [m]"""
    if shapely.get_num_coordinates(shape) <= MANY_CORNERS:
        return shape.buffer(distance, quad_segs=_QUARTER)
    sides: list[shapely.Geometry] = []
    for part in shapely.get_parts(shape):
        if part.geom_type == "Polygon":
            sides.append(part)
        else:
            corners = shapely.get_coordinates(part)
            sides += shapely.linestrings(np.stack([corners[:-1], corners[1:]], axis=1)).tolist()
    return shapely.union_all(shapely.buffer(sides, distance, quad_segs=_QUARTER))


def accessible_sides(bed: Bed) -> shapely.Geometry:
    """Accessible sides of a bed on the plan; empty if there are none. [m]"""
    return shape_to_plan(bed.outline, _accessible_sides(bed, bed_polygon(bed)))


def _accessible_sides(bed: Bed, ground: shapely.Polygon) -> shapely.Geometry:
    if bed.outline.shape != "rectangle":
        return ground.exterior if bed.access else shapely.LineString()
    axis = bed_axis(bed.outline)
    left, low, right, high = shapely.bounds(turned(ground, -axis))
    lines = {
        "start": [(left, low), (left, high)],
        "end": [(right, low), (right, high)],
        "left": [(left, high), (right, high)],
        "right": [(left, low), (right, low)],
    }
    return turned(shapely.MultiLineString([lines[side] for side in bed.access]), axis)


def _without_specks(ground: shapely.Geometry) -> shapely.Geometry:
    parts = [part for part in shapely.get_parts(ground) if part.area > SPECK]
    if not parts:
        return shapely.Polygon()
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def reach_on_plan(
    bed: Bed,
    reach: float,
    blocked: shapely.Geometry | None = None,
    stood_on: shapely.Geometry | None = None,
) -> shapely.Geometry:
    """Ground of a bed out of reach on the plan; see :func:`out_of_reach` for the parameters."""
    return shape_to_plan(bed.outline, out_of_reach(bed, reach, blocked, stood_on))


def ground_to_stand_on(structures: Iterable[Structure], year: int) -> shapely.Geometry:
    """Boards and paths of a growing year, on the plan. [m]"""
    return shapely.union_all(
        [plan_polygon(one.outline) for one in structures if one.stood_on and one.in_use(year)]
    )
