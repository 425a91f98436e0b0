"""The dated work in words, as lines week by week."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable, Sequence

from planner.garden import Planting
from planner.listings.phrases import BY_HAND, counted, day, days_in_short
from planner.listings.tables import aligned
from planner.listings.weeks import going_on, weeks
from planner.plan import Plan
from planner.season.frosts import climate_doubts
from planner.season.tasks import Task
from planner.words import capital, say


def task_days(task: Task) -> str:
    """Days of a task, as short as they can be read; an asterisk where set by hand."""
    return days_in_short(task.date, task.until) + (BY_HAND if task.origin == "by hand" else "")


def task_words(task: Task) -> tuple[str, str]:
    """The work without its bed, and how much of it there is.

    The sentence of a task names the bed, and of sowing the amount; on a sheet both have columns of
    their own.
    """
    head, tail = _without_bed(task)
    tail = re.sub(r"(\d) g\b", "\\1\u00a0g", tail)
    parts = tail.removeprefix(", ").split(", ") if tail.startswith(", ") else []
    if parts and parts[0][:1].isdigit():
        amounts = parts
        if not any(part.endswith(("plants", "plant")) for part in parts) and task.seeds and task.stations:
            amounts = [f"for {counted(task.stations, 'plant')}", *parts]
        return head, ", ".join(amounts)
    some = task.stations and task.kind != "sow the next"
    return head + tail, counted(task.stations, "plant") if some else ""


def _without_bed(task: Task) -> tuple[str, str]:
    """A task's sentence before its bed's name, and after it."""
    text = task.text.removesuffix(".")
    # What is sown indoors is sown "in 1 seed tray" "for" its bed.
    for word in (" for ",) if task.fill is not None else (" in ", " for "):
        head, found, tail = text.rpartition(f"{word}{task.bed_name}")
        if found and (not tail or tail[0] in " ,"):
            return capital(head), tail
    return capital(text), ""


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
    lines = [f"{plan.garden.site.name}, work from {day(first)} to {day(last)}"]
    if not tasks:
        lines += ["", "Nothing to do."]
    for week in weeks(tasks, first, last):
        rows = [("[ ]" if task.is_open else "[x]", task_days(task), _text(task)) for task in week.begins]
        lines += ["", week.title, *(aligned(("", "", ""), rows, room=room)[1:] if rows else [])]
        if week.goes_on:
            lines.append(f"  {going_on(week)}")
    if any(task.origin == "by hand" for task in tasks):
        lines += ["", f"{BY_HAND} set by hand"]
    climate = climate_doubts(plan.garden.site, plan.garden.climate)
    doubts = [*(f"  {sentence}." for sentence in climate), *_sentences(plan, meant, "doubts")]
    missing = _sentences(plan, meant, "missing")
    if doubts:
        lines += ["", "To think about", *doubts]
    if missing:
        lines += ["", "Not known", *missing]
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
