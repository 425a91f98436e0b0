"""Free ground of a bed, and the plot for a piece of it."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from planner.garden import Bed, Plot, Region, Stretch, Whole
from planner.garden.outlines import LEAST_AREA, MOST_CORNERS
from planner.ground.shapes import bed_axis, bed_polygon, polygons_of, ring_points, turned

#: Half the width of slivers that do not count as free ground. [m]
SLIVER = 0.005


def free_ground(
    bed: Bed, occupied: Sequence[shapely.Geometry], obstacles: shapely.Geometry | None = None
) -> shapely.Geometry:
    """Outline of a bed without occupied ground, in the bed's coordinates.

    Slivers, and pieces too small for a plot, are left out.

    Parameters
    ----------
    bed : Bed
    occupied : sequence of shapely.Geometry
        Plots of other plantings. [m]
    obstacles : shapely.Geometry, optional
        Ground occupied by structures. [m]
    """
    ground = bed_polygon(bed)
    away = [shape for shape in (*occupied, obstacles) if shape is not None and not shape.is_empty]
    if not away:
        return ground
    return ground_without(ground, away)


def ground_without(ground: shapely.Geometry, occupied: Sequence[shapely.Geometry]) -> shapely.Geometry:
    """Ground less what is occupied; slivers, and pieces too small for a plot, are left out. [m]"""
    rest = shapely.difference(ground, shapely.union_all(occupied))
    opened = rest.buffer(-SLIVER, join_style="mitre").buffer(SLIVER, join_style="mitre")
    parts = shapely.get_parts(polygons_of(shapely.intersection(opened, rest)))
    return shapely.union_all(parts[shapely.area(parts) >= LEAST_AREA])


def pieces(ground: shapely.Geometry) -> list[shapely.Polygon]:
    """Connected pieces of ground, from left to right."""
    parts = [p for p in shapely.get_parts(ground) if p.geom_type == "Polygon" and not p.is_empty]
    return sorted(parts, key=lambda p: (p.centroid.x, p.centroid.y))


def piece_at(ground: shapely.Geometry, x: float, y: float) -> shapely.Polygon | None:
    """The piece of ground under a point, else the nearest one.

    Parameters
    ----------
    ground : shapely.Geometry
    x, y : float
        [m]

    Returns
    -------
    shapely.Polygon or None
        None if the ground is empty.
    """
    parts = pieces(ground)
    if not parts:
        return None
    point = shapely.Point(x, y)
    return min(parts, key=lambda part: part.distance(point))


def plot_of(bed: Bed, piece: shapely.Polygon) -> Plot:
    """The simplest plot that covers a piece of a bed: the whole bed, a stretch, or a region.

    Parameters
    ----------
    bed : Bed
    piece : shapely.Polygon
        In the bed's coordinates; of one with holes only the largest part beside them is covered. [m]
    """
    whole = bed_polygon(bed)
    if abs(whole.area - piece.area) <= 1e-6 * whole.area:
        return Whole()
    axis = bed_axis(bed.outline)
    level, level_whole = turned(piece, -axis), turned(whole, -axis)
    left, _, right, _ = shapely.bounds(level)
    begin, low, _, high = shapely.bounds(level_whole)
    band = shapely.intersection(level_whole, shapely.box(left, low - 1, right, high + 1))
    if abs(band.area - piece.area) <= 1e-6 * whole.area + 1e-9 and right - left >= 0.01:
        return Stretch(start=max(0.0, _tidy(left - begin)), end=_tidy(right - begin))
    outer = shapely.Polygon(piece.exterior)
    if piece.interiors:  # a region is a single ring without holes
        outer = largest_beside(piece)
    return Region(points=_corners(outer))


def largest_beside(piece: shapely.Polygon) -> shapely.Polygon:
    """The largest part of a piece that lies on one side of all of its holes."""
    left, low, right, high = shapely.bounds(piece)
    holes = shapely.union_all([shapely.Polygon(ring) for ring in piece.interiors])
    hole_left, hole_low, hole_right, hole_high = shapely.bounds(holes)
    sides = (
        shapely.box(left, low, hole_left, high),
        shapely.box(hole_right, low, right, high),
        shapely.box(left, low, right, hole_low),
        shapely.box(left, hole_high, right, high),
    )
    parts = [
        part
        for side in sides
        for part in shapely.get_parts(shapely.intersection(piece, side))
        if part.geom_type == "Polygon"
    ]
    return max(parts, key=lambda part: part.area)


def _corners(outer: shapely.Polygon) -> tuple[tuple[float, float], ...]:
    """Corners of a region, simplified to at most the permitted number. [m]"""
    tolerance = 1e-6
    drawn = outer.simplify(tolerance)
    while len(drawn.exterior.coords) > MOST_CORNERS:
        tolerance *= 4
        drawn = outer.simplify(tolerance)
    return tuple((_tidy(x), _tidy(y)) for x, y in ring_points(drawn))


def _tidy(value: float) -> float:
    """Round to a millionth of a metre, so that plots are readable in the file."""
    return round(value, 6)
