"""What is said of a planting while the pointer rests on it: its days, how many plants, and what is to be done next."""

from __future__ import annotations

import datetime as dt

from planner.desk.model.thing_words import planting_words
from planner.garden import Planting
from planner.listings.odds_line import odds_line
from planner.plan import Plan
from planner.words import full_day_words, say


def hover_words(plan: Plan, planting: Planting, day: dt.date | None) -> str:
    """Lines about a planting.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    day : date or None
        Work is looked for from this day on; from the first day of the growing year for None.
    """
    span = plan.span_of(planting)
    first = full_day_words(span.first)
    days = (
        say("On its plot from {first} on", first=first)
        if span.open
        else say("On its plot from {first} to {last}", first=first, last=full_day_words(span.last))
    )
    head = say(
        "{planting}, in {bed}", planting=planting_words(plan, planting), bed=plan.bed_of(planting).name
    )
    odds = odds_line(plan, planting)
    return "\n".join(
        [head, days, *([odds] if odds else []), _next_work(plan, planting, day or plan.span.first)]
    )


def _next_work(plan: Plan, planting: Planting, day: dt.date) -> str:
    from planner.amounts.tasks import planting_tasks

    open_work = [task for task in planting_tasks(plan, planting) if task.done is None and task.until >= day]
    if not open_work:
        return say("Nothing more to do")
    task = min(open_work, key=lambda one: (one.date, one.until))
    return say("Next, {day}: {work}", day=full_day_words(max(task.date, day)), work=task.text)
