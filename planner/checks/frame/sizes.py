"""Sizes of plantings and beds, by which it is known what may move where."""

from __future__ import annotations

import shapely

from planner.checks.frame.planting_view import PlantingView
from planner.garden import Bed, Planting
from planner.ground.shapes import bed_axis, bed_polygon, plan_polygon, turned
from planner.plan import Plan
from planner.words import say

#: Supports that stand at each plant, and so go with it into a bed of any width.
AT_EACH_PLANT = ("stake", "cage")
#: Greatest difference of two bed widths that count as the same for a stretch. [m]
SAME_WIDTH = 0.1
#: Greatest difference of two sides that count as the same length. [m]
SAME_SIZE = 0.02
#: Most other plots that are tried.
MOST_TRIED = 8
#: Least share of a planting's own size of another plot for it (practice).
LEAST_OF_SIZE = 0.75


def movable(view: PlantingView) -> bool:
    """Whether the planting can be moved without redrawing its plot or support."""
    planting = view.planting
    drawn = planting.support is not None and planting.support.line
    return planting.plot.kind in ("whole", "stretch") and planting.arrangement.kind != "places" and not drawn


def outline_of(bed: Bed) -> shapely.Polygon:
    return plan_polygon(bed.outline)


def sort_of(bed: Bed) -> str:
    """Sort of a bed: plantings move only between beds of one sort; raised beds count as open ones."""
    return "open" if bed.kind == "raised" else bed.kind


def wished_size(view: PlantingView) -> tuple[float, float]:
    """Length and width of a planting's plot, of one that lies outside its bed as it was wished. [m]"""
    if not view.placed.plot.is_empty:
        return size_in_bed(view.bed, view.placed.plot)
    length, width = size_in_bed(view.bed, bed_polygon(view.bed))
    plot = view.planting.plot
    return (min(plot.end - plot.start, length) if plot.kind == "stretch" else length), width


def support_fits(view: PlantingView, bed: Bed) -> bool:
    """Whether the support of a planting, if it has one, can stand in a bed of this width."""
    return fits_any_width(view.planting) or as_wide(view, bed)


def as_wide(view: PlantingView, bed: Bed) -> bool:
    """Whether a bed is as wide as the plot of a planting."""
    return abs(size_in_bed(bed, bed_polygon(bed))[1] - wished_size(view)[1]) <= SAME_WIDTH


def fits_any_width(planting: Planting) -> bool:
    """Whether it has no support that is built for the width of its bed."""
    return planting.support is None or planting.support.kind in AT_EACH_PLANT


def size_in_bed(bed: Bed, plot: shapely.Geometry) -> tuple[float, float]:
    """Length and width of a plot along and across its bed. [m]"""
    left, low, right, high = shapely.bounds(turned(plot, -bed_axis(bed.outline)))
    return float(right - left), float(high - low)


def same_size(one: PlantingView, other: PlantingView) -> bool:
    sizes = [size_in_bed(view.bed, view.placed.plot) for view in (one, other)]
    return all(abs(a - b) < SAME_SIZE for a, b in zip(*sizes, strict=True))


def plants_words(plan: Plan, view: PlantingView, there: Planting) -> str:
    """How many plants a planting has in another plot, if that is another number."""
    before, after = view.placed.plants, plan.trial(there).plants
    if after == before:
        return ""
    return say("{plants} {crop} instead of {before}", plants=after, crop=view.crop_name, before=before)
