"""The day of a growing year on which most of its ground is planted."""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.garden import Bed, Plot
from planner.ground.shapes import plot_polygon
from planner.plan.plan import Plan
from planner.season.spans import high_summer

#: Days on which so much of the greatest area is planted count as full too (practice).
NEARLY = 0.98


def _area(plan: Plan, bed: Bed, plot: Plot) -> float:
    """Area of a plot. [m2]"""
    if plot.kind == "whole":
        return plan.area(bed)
    if plot.kind == "stretch" and bed.outline.shape == "rectangle":
        return (plot.end - plot.start) * min(bed.outline.length, bed.outline.width)
    return float(plot_polygon(bed, plot).area)


def fullest_day(plan: Plan) -> dt.date:
    """The day on which the plots of what grows take the greatest area together.

    Of days that are as full, or nearly so, it is the one nearest to the middle of summer, when the plants are largest.
    Without plantings it is the middle of summer.

    Parameters
    ----------
    plan : Plan
    """
    summer, year = high_summer(plan.garden.site, plan.year), plan.span
    planted = np.zeros(year.days + 1)
    for planting in plan.plantings:
        if planting.shares_ground:
            continue  # it lies on ground of others
        span, bed = plan.span_of(planting), plan.bed_of(planting)
        area = _area(plan, bed, planting.plot)
        planted[(max(span.first, year.first) - year.first).days] += area
        planted[(min(span.last, year.last) - year.first).days + 1] -= area
    planted = np.cumsum(planted)[:-1]
    full = np.flatnonzero(planted >= NEARLY * planted.max())
    middle = (summer - year.first).days
    return year.first + dt.timedelta(days=int(full[np.argmin(np.abs(full - middle))]))
