"""What a crop takes when it is let go over a bed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

import shapely

from planner.garden import Arrangement, Bed, Places, Plot, Region, Rows, Stretch, Whole
from planner.garden.outlines import LEAST_AREA
from planner.ground.free import piece_at, plot_of
from planner.ground.shapes import bed_axis, bed_polygon, plot_polygon, turned

#: The free piece under the pointer; the part of it from its nearer end to the pointer; the whole
#: bed; a single plant.
Manner = Literal["free", "stretch", "whole", "single"]

#: Shortest stretch a drop takes. [m]
LEAST_STRETCH = 0.05


@dataclass(frozen=True)
class Landing:
    """Where a drop would land; ``why`` is empty where it may."""

    plot: Plot | None
    arrangement: Arrangement
    why: str = ""


def landing(
    bed: Bed, free: shapely.Geometry, at: tuple[float, float], manner: Manner, step: float = 0.0
) -> Landing:
    """Plot and arrangement of a drop.

    Parameters
    ----------
    bed : Bed
    free : shapely.Geometry
        Free ground of the bed, in the bed's coordinates.
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    manner : {"free", "stretch", "whole", "single"}
    step : float
        Length to which a stretch is rounded, 0 for none. [m]
    """
    if manner == "whole":
        return Landing(Whole(), Rows())
    if manner == "single":
        return Landing(Whole(), Places(points=((round(at[0], 4), round(at[1], 4)),)))
    piece = piece_at(free, *at)
    if piece is None:
        return Landing(None, Rows(), f"{bed.name} has no free ground at this time")
    if manner == "stretch":
        return Landing(_stretch(bed, piece, at, step), Rows())
    return Landing(plot_of(bed, piece), Rows())


def carried(bed: Bed, free: shapely.Geometry, at: tuple[float, float], length: float) -> Landing:
    """Where a planting of some length along its bed lands when it is carried to this bed.

    Its middle comes under the pointer, as far as the free piece there allows; a shorter piece is
    taken whole.

    Parameters
    ----------
    length : float
        Along the long axis. [m]
    """
    piece = piece_at(free, *at)
    if piece is None:
        return Landing(None, Rows(), f"{bed.name} has no free ground at this time")
    axis = bed_axis(bed.outline)
    level = turned(piece, -axis)
    left, low, right, high = shapely.bounds(level)
    if right - left <= length + 1e-6:
        return Landing(plot_of(bed, piece), Rows())
    middle = float(shapely.get_coordinates(turned(shapely.Point(at), -axis))[0][0])
    begin = min(max(middle - length / 2, left), right - length)
    begin = left + round((begin - left) / 0.05) * 0.05
    part = shapely.intersection(level, shapely.box(begin, low, min(begin + length, right), high))
    polygons = [p for p in shapely.get_parts(part) if p.geom_type == "Polygon"]
    if not polygons:
        return Landing(plot_of(bed, piece), Rows())
    return Landing(plot_of(bed, turned(max(polygons, key=lambda p: p.area), axis)), Rows())


def _stretch(bed: Bed, piece: shapely.Polygon, at: tuple[float, float], step: float) -> Plot:
    """The part of a piece from its nearer end to the pointer."""
    axis = bed_axis(bed.outline)
    level = turned(piece, -axis)
    left, low, right, high = shapely.bounds(level)
    pointer = shapely.get_coordinates(turned(shapely.Point(at), -axis))[0][0]
    pointer = min(max(float(pointer), left), right)
    from_left = pointer - left >= (right - left) / 2
    length = pointer - left if from_left else right - pointer
    if step > 0:
        length = round(length / step) * step
    length = min(max(length, LEAST_STRETCH, step), right - left)
    ends = (left, left + length) if from_left else (right - length, right)
    part = shapely.intersection(level, shapely.box(ends[0], low, ends[1], high))
    polygons = [p for p in shapely.get_parts(part) if p.geom_type == "Polygon"]
    if not polygons:
        return plot_of(bed, piece)
    return plot_of(bed, turned(max(polygons, key=lambda p: p.area), axis))


def fields_of(land: Landing) -> dict[str, Any]:
    """Fields of the planting that a landing makes."""
    if land.plot is None:
        raise ValueError(land.why)
    return {"plot": land.plot, "arrangement": land.arrangement}


def shifted_plot(plot: Plot, bed: Bed, dx: float, dy: float) -> Plot:
    """A plot moved within its bed by an offset in the bed's coordinates. [m]

    A stretch moves along the bed and stops at its ends; the whole bed stays the whole bed.
    """
    if plot.kind == "region":
        return Region(points=tuple((round(x + dx, 6), round(y + dy, 6)) for x, y in plot.points))
    if plot.kind == "stretch":
        axis = bed_axis(bed.outline)
        along = float(shapely.get_coordinates(turned(shapely.Point(dx, dy), -axis))[0][0])
        left, _, right, _ = shapely.bounds(turned(bed_polygon(bed), -axis))
        length = right - left
        along = min(max(along, -plot.start), max(length - plot.end, 0.0))
        return Stretch(start=round(max(plot.start + along, 0.0), 6), end=round(plot.end + along, 6))
    return plot


def plot_box(bed: Bed, plot: Plot) -> tuple[float, float, float, float]:
    """Extents of a plot along and across its bed's long axis: least and greatest of each. [m]"""
    level = turned(plot_polygon(bed, plot), -bed_axis(bed.outline))
    left, low, right, high = shapely.bounds(level)
    return float(left), float(low), float(right), float(high)


def plot_of_box(bed: Bed, left: float, low: float, right: float, high: float) -> Plot | None:
    """The plainest plot for an extent along and across the bed's long axis; None where it is empty."""
    axis = bed_axis(bed.outline)
    whole = turned(bed_polygon(bed), -axis)
    box = shapely.box(min(left, right), min(low, high), max(left, right), max(low, high))
    part = shapely.intersection(whole, box)
    polygons = [p for p in shapely.get_parts(part) if p.geom_type == "Polygon" and p.area > LEAST_AREA]
    if not polygons:
        return None
    if len(polygons) > 1 or bed.outline.shape == "circle":  # keep the box: its parts are cut anew
        begin, bottom, _, top = shapely.bounds(whole)
        if min(low, high) <= bottom + 1e-6 and max(low, high) >= top - 1e-6:
            return _stretch_or_whole(bed, box, whole, begin)
        ring = shapely.get_coordinates(turned(box, axis))[:-1]
        return Region(points=tuple((round(float(x), 6), round(float(y), 6)) for x, y in ring))
    return plot_of(bed, turned(polygons[0], axis))


def _stretch_or_whole(bed: Bed, box: shapely.Polygon, whole: shapely.Geometry, begin: float) -> Plot:
    left, _, right, _ = shapely.bounds(box)
    end = shapely.bounds(whole)[2]
    if left <= begin + 1e-6 and right >= end - 1e-6:
        return Whole()
    return Stretch(start=round(max(left - begin, 0.0), 6), end=round(min(right, end) - begin, 6))
