"""The dated work in words, as lines week by week."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence

from planner.amounts.watering import listed_waterings
from planner.garden import Planting
from planner.listings.phrases import BY_HAND, day, days_in_short
from planner.listings.tables import aligned
from planner.listings.water import watered_beds_words
from planner.listings.weeks import going_on, weeks, weeks_with
from planner.plan import Plan
from planner.season.frosts import climate_doubts
from planner.season.tasks import Task
from planner.words import capital, say


def task_days(task: Task) -> str:
    """Days of a task, as short as they can be read; an asterisk where set by hand."""
    return days_in_short(task.date, task.until) + (BY_HAND if task.origin == "by hand" else "")


def task_words(task: Task) -> tuple[str, str]:
    """The work without its bed, and how much of it there is.

    The sentence of a task names both; on a sheet they have columns of their own.
    """
    amount = re.sub(r"(\d) g\b", "\\1\u00a0g", task.amount)
    return task.work or capital(task.text.removesuffix(".")), amount


def tasks_lines(
    plan: Plan,
    tasks: Sequence[Task],
    first: dt.date,
    last: dt.date,
    room: int | None = None,
    plantings: Sequence[Planting] | None = None,
) -> list[str]:
    """Print work as lines: week by week, then what looks odd and what is not known.

    Parameters
    ----------
    plan : Plan
    tasks : sequence of Task
    first, last : date
        The days for which the work was asked.
    room : int, optional
        Width of tables; any by default. [columns]
    plantings : sequence of Planting, optional
        Whose doubts are told; those of all by default.
    """
    meant = plan.plantings if plantings is None else plantings
    lines = [
        say(
            "{garden}, work from {first} to {last}",
            garden=plan.garden.site.name,
            first=day(first),
            last=day(last),
        )
    ]
    beds = None if plantings is None else {planting.bed for planting in plantings}
    watered = listed_waterings(plan, first, last, beds)
    if not tasks and not watered:
        lines += ["", say("Nothing to do.")]
    for week in weeks_with(weeks(tasks, first, last), watered):
        rows = [("[ ]" if task.is_open else "[x]", task_days(task), _text(task)) for task in week.begins]
        lines += ["", week.title, *(aligned(("", "", ""), rows, room=room)[1:] if rows else [])]
        if week.goes_on:
            lines.append(f"  {going_on(week)}")
        if week.monday in watered:
            lines.append(f"  {watered_beds_words(watered[week.monday], plan.garden.site.units)}")
    if any(task.origin == "by hand" for task in tasks):
        lines += ["", say("{mark} set by hand", mark=BY_HAND)]
    climate = climate_doubts(plan.garden.site, plan.garden.climate)
    doubts = [*(f"  {sentence}." for sentence in climate), *_sentences(plan, meant, "doubts")]
    missing = _sentences(plan, meant, "missing")
    if doubts:
        lines += ["", say("To think about"), *doubts]
    if missing:
        lines += ["", say("Not known"), *missing]
    return lines


def _text(task: Task) -> str:
    return say("{work} Done before.", work=task.text) if task.done_before else task.text


def _sentences(plan: Plan, plantings: Iterable[Planting], field: str) -> list[str]:
    """Sentences of the dates of plantings (``doubts`` or ``missing``), each once, with the bed."""
    return list(
        dict.fromkeys(
            f"  {plan.bed_of(planting).name}: {sentence}."
            for planting in plantings
            for sentence in getattr(plan.dates(planting), field)
        )
    )
