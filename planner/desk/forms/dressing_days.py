"""The day that is proposed for a new dressing."""

from __future__ import annotations

import datetime as dt

from planner.garden import Bed
from planner.plan import Plan

#: So long before the first planting of its year a bed is dressed (practice). [days]
BEFORE_PLANTING = 14


def usual_day(plan: Plan, bed: Bed) -> dt.date:
    """Two weeks before the bed's first planting of the growing year; without one the year's first day.

    Parameters
    ----------
    plan : Plan
    bed : Bed
    """
    starts = [plan.span_of(one).first for one in plan.in_bed(bed) if plan.span.holds(plan.span_of(one).first)]
    if not starts:
        return plan.span.first
    return max(plan.span.first, min(starts) - dt.timedelta(days=BEFORE_PLANTING))
