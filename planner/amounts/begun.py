"""What begins in a growing year: its seed is sown, or its plants, sets or tubers are planted, in that year.

Only this is to be got for the year.  Perennials of before, rows that stood through the winter, and whatever else
was begun earlier need nothing more.  Young plants count in the growing year in which their seed is sown, even
where they are set out in the next one: a grower needs the seed on the day of sowing.
"""

from __future__ import annotations

import datetime as dt

from planner.garden import Planting
from planner.plan import Plan


def begun_on(plan: Plan, planting: Planting) -> dt.date | None:
    """The day on which a planting is sown or planted; None for what is found grown already.

    Parameters
    ----------
    plan : Plan
    planting : Planting
        Of the plan's garden, in any growing year.  Where neither day is known, the first day on its plot counts.
    """
    dates = plan.dates(planting)
    if dates.start == "standing":
        return None
    begun = dates.sow or dates.set_out
    return begun.day if begun is not None else plan.span_of(planting).first


def begun_in_year(plan: Plan) -> tuple[Planting, ...]:
    """Plantings that are sown or planted in the plan's growing year, bed by bed in the document's order.

    Those of beds that are in use neither in it nor in their own growing year are left out.
    """
    found = []
    for bed in plan.garden.beds:
        for planting in plan.garden_in_bed(bed.id):
            if bed.in_use(plan.year) or bed.in_use(planting.year):
                begun = begun_on(plan, planting)
                if begun is not None and plan.span.holds(begun):
                    found.append(planting)
    return tuple(found)


def begun_before(plan: Plan) -> tuple[Planting, ...]:
    """Plantings that stand in the growing year and were begun before it, or found grown, bed by bed."""
    found = []
    for bed in plan.beds:
        for planting in plan.in_bed(bed):
            begun = begun_on(plan, planting)
            if begun is None or begun < plan.span.first:
                found.append(planting)
    return tuple(found)
