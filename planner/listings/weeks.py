"""Work week by week, with what goes on from the weeks before."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from dataclasses import dataclass

from planner.listings.phrases import days_in_short
from planner.season.frosts import shift
from planner.season.tasks import Task, by_week, monday
from planner.words import join_list, say, work_words

#: How a kind of work is called in a week in which it goes on, where not by its own name.
_GOING_ON = {"lift and cure": "lift"}


@dataclass(frozen=True)
class Week:
    """A week's work.

    Attributes
    ----------
    monday : date
    begins : tuple of Task
        Work that begins in it.
    goes_on : tuple of Task
        Work that began before and is not over.
    """

    monday: dt.date
    begins: tuple[Task, ...]
    goes_on: tuple[Task, ...] = ()

    @property
    def title(self) -> str:
        """Its days and its number: ``16 – 22 Mar 2026 · week 12``."""
        sunday = shift(self.monday, 6)
        days = days_in_short(self.monday, sunday)
        if not days.endswith(str(sunday.year)):
            days = say("{days} {year}", days=days, year=sunday.year)
        return say("{days} · week {number}", days=days, number=self.monday.isocalendar().week)


def weeks(
    tasks: Iterable[Task], first: dt.date, last: dt.date, *, going_on_too: bool = False
) -> tuple[Week, ...]:
    """Group work by week, from the week of a first day to that of a last.

    Weeks in which nothing begins are left out, but for the first one: it names what goes on.

    Parameters
    ----------
    tasks : iterable of Task
    first, last : date
        What begins in a week before or after them is left out.
    going_on_too : bool
        Weeks in which something only goes on are there, too.
    """
    all_tasks = tuple(tasks)
    beginning = dict(by_week(all_tasks))
    long = [task for task in all_tasks if monday(task.until) > monday(task.date)]
    mondays = {week for week in beginning if monday(first) <= week <= monday(last)} | {monday(first)}
    if going_on_too:
        at = monday(first)
        while at <= monday(last):
            mondays.add(at)
            at = shift(at, 7)
    found = [
        Week(at, beginning.get(at, ()), tuple(task for task in long if task.date < at <= task.until))
        for at in sorted(mondays)
    ]
    return tuple(week for week in found if week.begins or week.goes_on)


def going_on(week: Week) -> str:
    """Name what goes on in a week, by kind and bed, with its last day where that lies in the week.

    As ``Going on: pick leek (to 20 Mar) in West 2, chives and thyme in Herb round.``
    """
    sunday = shift(week.monday, 6)
    kinds: dict[str, dict[str, list[str]]] = {}
    for task in week.goes_on:
        name = f"{task.crop} {task.variety}".strip()
        if task.until <= sunday:
            name = say("{crop} (to {day})", crop=name, day=days_in_short(task.until, task.until))
        kinds.setdefault(_GOING_ON.get(task.kind, task.kind), {}).setdefault(task.bed_name, []).append(name)
    parts = []
    for kind, beds in kinds.items():
        crops = ", ".join(
            say("{crop} in {bed}", crop=join_list(names), bed=bed) for bed, names in beds.items()
        )
        parts.append(say("{work} {crops}", work=work_words(kind), crops=crops))
    return say("Going on: {work}.", work="; ".join(parts))


def weeks_with(found: Iterable[Week], mondays: Iterable[dt.date]) -> tuple[Week, ...]:
    """Weeks, and those of further Mondays, in their order.

    Parameters
    ----------
    found : iterable of Week
    mondays : iterable of date
        Weeks in which something else is to be done.
    """
    weeks = {week.monday: week for week in found}
    for day in mondays:
        weeks.setdefault(day, Week(day, ()))
    return tuple(weeks[day] for day in sorted(weeks))
