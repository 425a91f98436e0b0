"""When a green manure is sown so that it covers its ground before the autumn's frost."""

from __future__ import annotations

import datetime as dt

from planner.checks.frame.planting_view import PlantingView
from planner.plan import Plan
from planner.season.frosts import shift

#: Days before the first autumn frost by which a green manure is sown that frost kills sooner or later, and days after it until
#: which one that stands hard frost still is (practice). [days]
TENDER_MANURE, HARDY_MANURE = 49, 10
#: An autumn frost that is longer ago is that of the year before. [days]
LONG_AGO = 120


def covers_ground(plan: Plan, view: PlantingView) -> bool:
    """Whether a green manure is sown early enough before the autumn's frost to cover its ground, and after that of spring if tender.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
        Of the green manure, with its days.
    """
    frosts, day = plan.frosts(), view.span.first
    autumn = frosts.first_after(shift(day, -LONG_AGO))
    if view.tender and frosts.last is not None:
        spring = frosts.last_after(day)
        if spring is not None and (autumn is None or spring < autumn):
            return False  # frost still comes before autumn's
    last = last_sowing(plan, view)
    return last is None or day <= last


def last_sowing(plan: Plan, view: PlantingView) -> dt.date | None:
    """The last day on which it may be sown to cover its ground; None where no autumn frost is known.

    Parameters
    ----------
    plan : Plan
    view : PlantingView
        Of the green manure, with its days.
    """
    autumn = plan.frosts().first_after(shift(view.span.first, -LONG_AGO))
    if autumn is None:
        return None
    return shift(autumn, HARDY_MANURE if view.very_hardy else -TENDER_MANURE)
