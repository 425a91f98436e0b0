"""Ground that structures occupy, on the plan and inside a bed."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import shapely

from planner.garden import Bed, Structure
from planner.ground.shapes import own_polygon, plan_polygon, shape_to_own, shape_to_plan

#: Radius of the trunk of a tree with a clear stem (``practice``). [m]
TRUNK = 0.15


def footprint(structure: Structure) -> shapely.Geometry:
    """Ground that a structure occupies on the plan. [m]

    That is its outline; of an arch its two feet, of a tree with a clear stem its trunk.  A tunnel or glasshouse
    occupies none, because beds are inside it, nor does a lawn, into which beds are cut.
    """
    if structure.kind in ("tunnel", "glasshouse", "lawn"):
        return shapely.Polygon()
    if structure.kind == "arch" and structure.outline.shape == "rectangle":
        whole = own_polygon(structure.outline)
        left, low, right, high = shapely.bounds(whole)
        feet = shapely.MultiPolygon(
            [
                shapely.box(left, low, left + structure.foot, high),
                shapely.box(right - structure.foot, low, right, high),
            ]
        )
        return shape_to_plan(structure.outline, feet)
    if structure.stem > 0:
        trunk = shapely.Point(structure.outline.center).buffer(TRUNK, quad_segs=8)
        return shapely.intersection(trunk, plan_polygon(structure.outline))
    return plan_polygon(structure.outline)


def footprints(
    structures: Iterable[Structure], year: int, *, climbing: bool = False
) -> tuple[shapely.Geometry, ...]:
    """Ground on the plan that structures keep free of plants, their clearance included.

    Parameters
    ----------
    structures : iterable of Structure
    year : int
        Structures that are not in use in this growing year are left out.
    climbing : bool
        Whether the plants climb arches: they grow along the feet of one, which then take no ground from them.
    """
    found = []
    for structure in structures:
        if climbing and structure.kind == "arch":
            continue
        ground = footprint(structure)
        if structure.in_use(year) and not ground.is_empty:
            found.append(ground.buffer(structure.clearance) if structure.clearance > 0 else ground)
    return tuple(found)


def bed_obstacles(bed: Bed, grounds: Sequence[shapely.Geometry]) -> shapely.Geometry:
    """Obstacles of a bed, in the bed's coordinates.

    Parameters
    ----------
    bed : Bed
    grounds : sequence of shapely.Geometry
        Occupied ground on the plan; see :func:`footprints`. [m]

    Returns
    -------
    shapely.Geometry
        Those that meet the bed, not cut by its outline; :data:`NO_GROUND` if none does. [m]
    """
    if not grounds:
        return NO_GROUND
    outline = plan_polygon(bed.outline)
    near = [ground for ground in grounds if ground.intersects(outline)]
    if not near:
        return NO_GROUND
    return shape_to_own(bed.outline, shapely.union_all(near))


#: One shared empty geometry, so that "no obstacles" is the same object in every plan.
NO_GROUND = shapely.Polygon()
