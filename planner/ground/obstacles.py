"""What stands in a bed and keeps stations away."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import shapely

from planner.garden import Bed, Structure
from planner.ground.shapes import own_polygon, plan_polygon, shape_to_own, shape_to_plan

#: Radius of a tree's trunk where its crown is clear of the ground. [m]  (``practice``)
TRUNK = 0.15


def footprint(structure: Structure) -> shapely.Geometry:
    """Ground a structure takes, on the plan: its outline, of an arch its two feet.

    A tunnel or glasshouse takes none: beds lie inside it.
    """
    if structure.kind in ("tunnel", "glasshouse"):
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
    if structure.stem > 0:  # under a raised crown only the trunk takes ground
        trunk = shapely.Point(structure.outline.center).buffer(TRUNK, quad_segs=8)
        return shapely.intersection(trunk, plan_polygon(structure.outline))
    return plan_polygon(structure.outline)


def footprints(structures: Iterable[Structure], year: int) -> tuple[shapely.Geometry, ...]:
    """Ground on the plan, clearance included, that the structures of a year keep free of plants."""
    found = []
    for structure in structures:
        ground = footprint(structure)
        if structure.in_use(year) and not ground.is_empty:
            found.append(ground.buffer(structure.clearance) if structure.clearance > 0 else ground)
    return tuple(found)


def bed_obstacles(bed: Bed, grounds: Sequence[shapely.Geometry]) -> shapely.Geometry:
    """What of some ground on the plan lies in a bed, in the bed's own coordinates."""
    if not grounds:
        return NO_GROUND
    outline = plan_polygon(bed.outline)
    near = [ground for ground in grounds if ground.intersects(outline)]
    if not near:
        return NO_GROUND
    return shape_to_own(bed.outline, shapely.union_all(near))


#: The one empty geometry, so that "no obstacles" is the same value from plan to plan.
NO_GROUND = shapely.Polygon()
