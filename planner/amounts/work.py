"""The dated work of any span of days, over as many growing years as the span touches."""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection

from planner.amounts.tasks import tasks
from planner.errors import BedwrightError
from planner.plan import Plan
from planner.season.spans import growing_year
from planner.season.tasks import Task
from planner.words import say

#: Most growing years that a span of work may touch.
MOST_YEARS = 20


class WorkError(BedwrightError):
    """A span of days for which no work can be listed."""


def work_between(
    plan: Plan,
    first: dt.date | None = None,
    last: dt.date | None = None,
    beds: Collection[str] | None = None,
    tended_by: Collection[str] | None = None,
) -> tuple[Task, ...]:
    """Return the work on any day of a span, each piece once, in the order of its dates.

    A perennial has a harvest in each growing year, so the work of every growing year that the span
    touches is put together.

    Parameters
    ----------
    plan : Plan
    first, last : date, optional
        First and last day of the span; those of the plan's growing year by default.
    beds : collection of str, optional
        Ids of beds; all by default.
    tended_by : collection of str, optional
        Who tends the plantings, as entered; everybody and nobody by default.

    Raises
    ------
    WorkError
        Where the span ends before it begins or touches too many growing years.
    """
    begin, end = first or plan.span.first, last or plan.span.last
    if end < begin:
        raise WorkError(
            say("the last day {end} is before the first {begin}", end=end, begin=begin),
            fix=say("Swap the two days"),
        )
    found: dict[tuple[str, dt.date], Task] = {}
    of_year = plan.after(plan.garden, growing_year(plan.garden.site, begin))
    for _ in range(MOST_YEARS):
        for task in tasks(of_year, max(begin, of_year.span.first), min(end, of_year.span.last)):
            tends = plan.garden.plantings_by_id[task.planting].tended_by if task.planting else ""
            if (beds is None or task.bed in beds) and (tended_by is None or tends in tended_by):
                found.setdefault((task.key, task.date), task)
        if of_year.span.last >= end:
            break
        of_year = of_year.after(plan.garden, of_year.year + 1)
    else:
        raise WorkError(
            say(
                "{begin} to {end} is more than {most_years} growing years",
                begin=begin,
                end=end,
                most_years=MOST_YEARS,
            ),
            fix=say("Ask for a shorter span"),
        )
    order = {bed.id: number for number, bed in enumerate(plan.garden.beds)}
    return tuple(sorted(found.values(), key=lambda task: (task.date, order[task.bed])))
