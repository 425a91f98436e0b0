"""Stretches of a bed's length that are free over its whole width."""

from __future__ import annotations

import shapely

from planner.garden import Bed
from planner.ground.shapes import bed_axis, bed_polygon, turned

#: Occupied ground narrower than this does not interrupt a free stretch. [m]
SLIVER = 0.01


def bed_length(bed: Bed) -> float:
    """Length of a bed along its axis. [m]"""
    left, _, right, _ = shapely.bounds(turned(bed_polygon(bed), -bed_axis(bed.outline)))
    return float(right - left)


def free_stretches(bed: Bed, free: shapely.Geometry) -> list[tuple[float, float]]:
    """Stretches of a bed's length that are free over its whole width.

    Parameters
    ----------
    bed : Bed
    free : shapely.Geometry
        Its free ground, in its own coordinates.

    Returns
    -------
    list of (float, float)
        Start and end along the bed, from its beginning. [m]
    """
    axis = -bed_axis(bed.outline)
    whole = turned(bed_polygon(bed), axis)
    left, _, right, _ = shapely.bounds(whole)
    occupied = shapely.difference(whole, turned(free, axis).buffer(SLIVER / 2, join_style="mitre"))
    blocks = sorted(
        (float(part.bounds[0]), float(part.bounds[2]))
        for part in shapely.get_parts(occupied)
        if part.area > SLIVER * SLIVER
    )
    found, at = [], float(left)
    for begin, end in blocks:
        # the free ground was widened a little so that slivers do not count: take that off again
        begin, end = begin - SLIVER / 2, end + SLIVER / 2
        if begin - at > SLIVER:
            found.append((max(0.0, at - float(left)), begin - float(left)))
        at = max(at, end)
    if float(right) - at > SLIVER:
        found.append((max(0.0, at - float(left)), float(right - left)))
    return found
