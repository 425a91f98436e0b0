"""Where on a plan that goes which comes without a place."""

from __future__ import annotations

import shapely

from planner.garden import Garden
from planner.ground.shapes import plan_polygon

#: Distance from what is there. [m]
_GAP = 1.0


def beside(garden: Garden) -> tuple[float, float]:
    """Left and top of the free ground to the right of everything; the origin of an empty plan. [m]"""
    outlines = [*(bed.outline for bed in garden.beds), *(one.outline for one in garden.structures)]
    if garden.site.outline is not None:
        outlines.append(garden.site.outline)
    if not outlines:
        return 0.0, 0.0
    _, _, right, high = shapely.total_bounds([plan_polygon(outline) for outline in outlines])
    return float(right) + _GAP, float(high)
