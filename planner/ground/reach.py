"""Ground a hand cannot reach: by buffering, for any shape."""

from __future__ import annotations

import shapely

from planner.garden import Bed
from planner.ground.shapes import (
    bed_axis,
    bed_polygon,
    polygons_of,
    shape_to_own,
    shape_to_plan,
    turned,
)

#: Corners of a quarter circle when buffering: off by less than a millimetre at 0.6 m.
_QUARTER = 24
#: Smaller pieces of ground are not pointed out. [m2]
SPECK = 1e-3
#: Ground that close to a bed's side is where one would stand. [m]
STANDING = 0.25


def out_of_reach(bed: Bed, reach: float, blocked: shapely.Geometry | None = None) -> shapely.Geometry:
    """Ground of a bed farther than a reach from every side one can stand at, in the bed's coordinates.

    Parameters
    ----------
    bed : Bed
        Of a rectangle the sides of ``access`` count, named looking along its long axis from its
        beginning; of any other outline the whole of it, unless ``access`` names none.
    reach : float
        [m]
    blocked : shapely.Geometry, optional
        Ground on the plan on which nobody can stand (walls, other beds): sides along it do not count.

    Returns
    -------
    shapely.Polygon or shapely.MultiPolygon
        Empty where all can be reached.
    """
    ground = bed_polygon(bed)
    sides = _standing_sides(bed, ground)
    if blocked is not None and not blocked.is_empty:
        sides = shapely.difference(sides, shape_to_own(bed.outline, blocked).buffer(STANDING / 2))
    if sides.is_empty or reach <= 0:
        return ground
    far = polygons_of(shapely.difference(ground, sides.buffer(reach, quad_segs=_QUARTER)))
    return _without_specks(far)


def standing_sides(bed: Bed) -> shapely.Geometry:
    """The sides of a bed one can stand at, on the plan; empty where there are none."""
    return shape_to_plan(bed.outline, _standing_sides(bed, bed_polygon(bed)))


def _standing_sides(bed: Bed, ground: shapely.Polygon) -> shapely.Geometry:
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


def reach_on_plan(bed: Bed, reach: float, blocked: shapely.Geometry | None = None) -> shapely.Geometry:
    """:func:`out_of_reach` on the plan."""
    return shape_to_plan(bed.outline, out_of_reach(bed, reach, blocked))
