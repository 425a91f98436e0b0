"""Plots for a crop or planting that is dropped on a bed, and plots moved or resized within it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

import shapely

from planner.garden import Arrangement, Bed, Places, Plot, Region, Rows, Stretch, Whole
from planner.garden.outlines import LEAST_AREA
from planner.ground.free import piece_at, plot_of
from planner.ground.shapes import bed_axis, bed_polygon, plot_polygon, turned
from planner.words import say

#: Mode of a drop: the free piece under the pointer; the part of it from its nearer end to the pointer; the whole bed; a
#: single plant.
Manner = Literal["free", "stretch", "whole", "single"]

#: Least length of a dropped stretch. [m]
LEAST_STRETCH = 0.05
#: Distance within which a pointer is over ground. [m]
TOUCHING = 1e-9


@dataclass(frozen=True)
class Landing:
    """Plot and arrangement of a drop.

    Attributes
    ----------
    plot : Plot or None
        None if the drop is not possible.
    arrangement : Arrangement
    why : str
        Reason if it is not possible; else empty.
    """

    plot: Plot | None
    arrangement: Arrangement
    why: str = ""


@dataclass(frozen=True)
class Drop:
    """Plot and first day of a crop that is dropped on a bed.

    Attributes
    ----------
    landing : Landing
    first : date or None
        First day on its ground; None for the first of the crop's own days.
    """

    landing: Landing
    first: dt.date | None = None


def drop(
    bed: Bed,
    grounds: Iterable[tuple[dt.date | None, shapely.Geometry]],
    at: tuple[float, float],
    manner: Manner,
    step: float = 0.0,
) -> Drop | None:
    """Plot and first day of a crop dropped on a bed.

    Ground under the pointer is preferred: in the crop's own days, else from the first day on which it is free; then
    the nearest other piece.

    Parameters
    ----------
    bed : Bed
    grounds : iterable of (date or None, shapely.Geometry)
        Free ground in the bed's coordinates: in the crop's own days (None), then from each later day on which more
        becomes free.  Not read for the whole bed or a single plant. [m]
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    manner : {"free", "stretch", "whole", "single"}
    step : float
        Length to which a stretch is rounded, 0 for none. [m]

    Returns
    -------
    Drop or None
        None if a single plant is dropped beside the bed.
    """
    if manner == "single" and not bed_polygon(bed).covers(shapely.Point(at)):
        return None
    if manner in ("whole", "single"):
        return Drop(landing(bed, shapely.Polygon(), at, manner))
    found, point = [], shapely.Point(at)
    for day, free in grounds:  # later days are worked out only where they are wanted
        one = Drop(landing(bed, free, at, manner, step), day)
        if one.landing.plot is not None and free.distance(point) <= TOUCHING:
            return one
        found.append(one)
    return next((each for each in found if each.landing.plot is not None), found[0])


def stretch_step(in_row_spacing: float | None, fine_step: float) -> float:
    """Step to which the length of a dropped stretch is rounded, so that it holds whole plants. [m]

    Parameters
    ----------
    in_row_spacing : float or None
        Of the crop; None if unknown. [m]
    fine_step : float
        Step to which all drags are rounded. [m]
    """
    return max(in_row_spacing or fine_step, LEAST_STRETCH)


def landing(
    bed: Bed, free: shapely.Geometry, at: tuple[float, float], manner: Manner, step: float = 0.0
) -> Landing:
    """Plot and arrangement of a crop dropped on a bed.

    Parameters
    ----------
    bed : Bed
    free : shapely.Geometry
        Free ground of the bed, in the bed's coordinates. [m]
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    manner : {"free", "stretch", "whole", "single"}
    step : float
        Length to a multiple of which a stretch is rounded; 0 for no rounding. [m]
    """
    if manner == "whole":
        return Landing(Whole(), Rows())
    if manner == "single":
        return Landing(Whole(), Places(points=((round(at[0], 4), round(at[1], 4)),)))
    piece = piece_at(free, *at)
    if piece is None:
        return Landing(None, Rows(), say("{bed} has no free ground at this time", bed=bed.name))
    if manner == "stretch":
        return Landing(_stretch(bed, piece, at, step), Rows())
    return Landing(plot_of(bed, piece), Rows())


def carried(bed: Bed, free: shapely.Geometry, at: tuple[float, float], length: float) -> Landing:
    """Plot of a planting that is moved to a bed, of the length it had.

    Its middle is at the pointer, as far as the free piece there allows; a shorter piece is used whole.

    Parameters
    ----------
    bed : Bed
    free : shapely.Geometry
        Free ground of the bed, in the bed's coordinates. [m]
    at : tuple of float
        The pointer in the bed's coordinates. [m]
    length : float
        Along the long axis of the planting's bed. [m]
    """
    piece = piece_at(free, *at)
    if piece is None:
        return Landing(None, Rows(), say("{bed} has no free ground at this time", bed=bed.name))
    axis = bed_axis(bed.outline)
    level = turned(piece, -axis)
    left, low, right, high = shapely.bounds(level)
    if right - left <= length + 1e-6:
        return Landing(plot_of(bed, piece), Rows())
    middle = float(shapely.get_coordinates(turned(shapely.Point(at), -axis))[0][0])
    begin = min(max(middle - length / 2, left), right - length)
    begin = min(left + round((begin - left) / 0.05) * 0.05, right - length)
    part = shapely.intersection(level, shapely.box(begin, low, min(begin + length, right), high))
    polygons = [p for p in shapely.get_parts(part) if p.geom_type == "Polygon"]
    if not polygons:
        return Landing(plot_of(bed, piece), Rows())
    return Landing(plot_of(bed, turned(max(polygons, key=lambda p: p.area), axis)), Rows())


def _stretch(bed: Bed, piece: shapely.Polygon, at: tuple[float, float], step: float) -> Plot:
    """The part of a piece from its nearer end to the pointer; all of it where the pointer is beyond its ends."""
    axis = bed_axis(bed.outline)
    level = turned(piece, -axis)
    left, low, right, high = shapely.bounds(level)
    pointer = shapely.get_coordinates(turned(shapely.Point(at), -axis))[0][0]
    if not left <= pointer <= right:
        return plot_of(bed, piece)
    from_left = pointer - left <= (right - left) / 2
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
    """Fields of the new planting.

    Raises
    ------
    ValueError
        If the landing has no plot.
    """
    if land.plot is None:
        raise ValueError(land.why)
    return {"plot": land.plot, "arrangement": land.arrangement}


def shifted_plot(plot: Plot, bed: Bed, dx: float, dy: float) -> Plot:
    """Move a plot within its bed.

    A stretch moves along the bed and stops at its ends; the whole bed does not move.

    Parameters
    ----------
    plot : Plot
    bed : Bed
    dx, dy : float
        In the bed's coordinates. [m]
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
    """Extents of a plot along and across its bed's long axis.

    Parameters
    ----------
    bed : Bed
    plot : Plot

    Returns
    -------
    left, low, right, high : float
        Least along and across, greatest along and across. [m]
    """
    level = turned(plot_polygon(bed, plot), -bed_axis(bed.outline))
    left, low, right, high = shapely.bounds(level)
    return float(left), float(low), float(right), float(high)


def plot_of_box(bed: Bed, left: float, low: float, right: float, high: float) -> Plot | None:
    """The simplest plot with given extents.

    Parameters
    ----------
    bed : Bed
    left, low, right, high : float
        Along and across the bed's long axis, in any order. [m]

    Returns
    -------
    Plot or None
        None if no part of it lies in the bed.
    """
    axis = bed_axis(bed.outline)
    whole = turned(bed_polygon(bed), -axis)
    box = shapely.box(min(left, right), min(low, high), max(left, right), max(low, high))
    part = shapely.intersection(whole, box)
    polygons = [p for p in shapely.get_parts(part) if p.geom_type == "Polygon" and p.area > LEAST_AREA]
    if not polygons:
        return None
    if len(polygons) > 1 or bed.outline.shape == "circle":  # a box, which the layout cuts to the bed
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
