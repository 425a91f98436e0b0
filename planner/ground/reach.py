"""Ground a hand cannot reach, and paths too narrow to walk: by buffering, for any shape.

All on the plan unless said otherwise. [m]
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

import shapely

from planner.garden import Bed, Garden, Structure
from planner.ground.obstacles import footprint
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
#: Smaller pieces of ground are not pointed out. [m2]
SPECK = 1e-3
#: Ground that close to a bed's side is where one would stand. [m]
STANDING = 0.25
#: Rounding of the offset curves. [m]
_HAIR = 1e-3


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


# -- paths --------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class Narrow:
    """A stretch of path narrower than the least width.

    Attributes
    ----------
    shape : shapely.Geometry
        The stretch, on the plan.
    width : float
        Where it is narrowest. [m]
    across : shapely.LineString
        From side to side at its narrowest; empty for a stretch without an end.
    """

    shape: shapely.Geometry
    width: float
    across: shapely.LineString


def walkable(
    beds: Iterable[Bed], structures: Iterable[Structure], site: shapely.Geometry | None = None
) -> shapely.Geometry:
    """Ground one can walk on: the site less its beds and solid structures.

    Without an outline of the site its place is taken by the convex hull of all beds.
    """
    grown = [plan_polygon(bed.outline) for bed in beds]
    whole = site if site is not None else shapely.convex_hull(shapely.union_all(grown))
    solid = [footprint(structure) for structure in structures if structure.kind != "tree"]
    return polygons_of(shapely.difference(whole, shapely.union_all([*grown, *solid])))


def garden_paths(garden: Garden, year: int) -> shapely.Geometry:
    """The walkable ground of a garden in a growing year."""
    site = plan_polygon(garden.site.outline) if garden.site.outline is not None else None
    return walkable(
        (bed for bed in garden.beds if bed.in_use(year)),
        (one for one in garden.structures if one.in_use(year)),
        site,
    )


def narrow_places(paths: shapely.Geometry, least: float) -> tuple[Narrow, ...]:
    """Where walkable ground is narrower than a least width.

    What a disc of that width cannot sweep is narrow; the corners it leaves out of wide ground are not.

    Parameters
    ----------
    paths : shapely.Geometry
    least : float
        [m]
    """
    if paths.is_empty or least <= 0:
        return ()
    half = least / 2 - _HAIR / 2
    swept = paths.buffer(-half, quad_segs=_QUARTER).buffer(half + _HAIR / 4, quad_segs=_QUARTER)
    found = []
    for part in shapely.get_parts(polygons_of(shapely.difference(paths, swept))):
        if part.area > SPECK / 10:
            place = _narrow(part, swept, least)
            if place is not None:
                found.append(place)
    return tuple(sorted(found, key=lambda place: place.width))


def _narrow(part: shapely.Polygon, swept: shapely.Geometry, least: float) -> Narrow | None:
    near = swept.buffer(_HAIR)
    mouths = _runs(shapely.intersection(part.boundary, near))
    if len(mouths) == 1 and part.hausdorff_distance(mouths[0]) <= least / 2:
        return None  # a corner
    walls = _runs(shapely.difference(part.boundary, near))
    pairs = [shapely.shortest_line(one, other) for one, other in combinations(walls, 2)]
    if len(mouths) > 1 and pairs:
        across = min(pairs, key=lambda line: line.length)
        if across.length >= least - 2 * _HAIR:
            return None
        return Narrow(part, float(across.length), across)
    radius = shapely.maximum_inscribed_circle(part, tolerance=_HAIR).length
    if 2 * radius >= least - 2 * _HAIR or part.area <= SPECK:
        return None
    return Narrow(part, 2 * float(radius), shapely.LineString())


def _runs(lines: shapely.Geometry) -> Sequence[shapely.Geometry]:
    """Unbroken runs of some lines."""
    kept = [part for part in shapely.get_parts(lines) if part.length > 0]
    return list(shapely.get_parts(shapely.line_merge(shapely.union_all(kept)))) if kept else []


def reach_on_plan(bed: Bed, reach: float, blocked: shapely.Geometry | None = None) -> shapely.Geometry:
    """:func:`out_of_reach` on the plan."""
    return shape_to_plan(bed.outline, out_of_reach(bed, reach, blocked))
