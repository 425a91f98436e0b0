"""The dated work of any span of days, by week, in words: for the week sheets and the command line."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from planner.amounts.tasks import tasks
from planner.errors import BedwrightError
from planner.garden import Site
from planner.listings.phrases import BY_HAND, capital, counted, day, days_in_short
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.season.frosts import climate_doubts, shift
from planner.season.tasks import Task, by_week, monday

#: Growing years a span of work may touch.
MOST_YEARS = 20


class WorkError(BedwrightError):
    """Work that cannot be listed."""


def work_between(
    plan: Plan,
    first: dt.date | None = None,
    last: dt.date | None = None,
    beds: Collection[str] | None = None,
) -> tuple[Task, ...]:
    """The work on any day of a span, each piece once, in the order of its dates.

    What stands for years has its harvest by growing year, so each growing year the span touches is
    asked for its own.

    Parameters
    ----------
    plan : Plan
    first, last : date, optional
        The growing year by default.
    beds : collection of str, optional
        Ids of beds; all by default.

    Raises
    ------
    WorkError
        Where the span ends before it begins or touches too many growing years.
    """
    begin, end = first or plan.span.first, last or plan.span.last
    if end < begin:
        raise WorkError(f"the last day {end} is before the first {begin}", mend="Swap the two days")
    found: dict[tuple[str, dt.date], Task] = {}
    one = plan.after(plan.garden, growing_year(plan.garden.site, begin))
    for _ in range(MOST_YEARS):
        for task in tasks(one, max(begin, one.span.first), min(end, one.span.last)):
            if beds is None or task.bed in beds:
                found.setdefault((task.key, task.date), task)
        if one.span.last >= end:
            break
        one = one.after(plan.garden, one.year + 1)
    else:
        raise WorkError(
            f"{begin} to {end} is more than {MOST_YEARS} growing years", mend="Ask for a shorter span"
        )
    places = {bed.id: place for place, bed in enumerate(plan.garden.beds)}
    return tuple(sorted(found.values(), key=lambda task: (task.date, places[task.bed])))


def growing_year(site: Site, date: dt.date) -> int:
    """The growing year in which a day lies."""
    return date.year - (date.month < site.year_begins)


@dataclass(frozen=True)
class Week:
    """A week's work.

    Attributes
    ----------
    monday : date
    begins : tuple of Task
        What begins in it.
    goes_on : tuple of Task
        What began before and is not over.
    """

    monday: dt.date
    begins: tuple[Task, ...]
    goes_on: tuple[Task, ...] = ()

    @property
    def title(self) -> str:
        """Its days and its number: ``16 – 22 Mar 2026 · week 12``."""
        sunday = shift(self.monday, 6)
        days = days_in_short(self.monday, sunday)
        year = "" if days.endswith(str(sunday.year)) else f" {sunday.year}"
        return f"{days}{year} · week {self.monday.isocalendar().week}"


def weeks(found: Iterable[Task], first: dt.date, last: dt.date) -> tuple[Week, ...]:
    """Work by week, from the week of a first day to that of a last.

    Weeks in which nothing begins are left out, but for the first: it says what goes on.
    """
    all_tasks = tuple(found)
    beginning = dict(by_week(all_tasks))
    long = [task for task in all_tasks if monday(task.until) > monday(task.date)]
    starts = {week for week in beginning if monday(first) <= week <= monday(last)} | {monday(first)}
    whole = [
        Week(at, beginning.get(at, ()), tuple(task for task in long if task.date < at <= task.until))
        for at in sorted(starts)
    ]
    return tuple(week for week in whole if week.begins or week.goes_on)


def task_days(task: Task) -> str:
    """Its days, as short as they can be read; an asterisk where given by hand."""
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
    text = task.text.removesuffix(".")
    for word in (" in ", " for "):
        head, found, tail = text.rpartition(f"{word}{task.bed_name}")
        if found and (not tail or tail[0] in " ,"):
            return capital(head), tail
    return capital(text), ""


_GOING_ON = {"pick": "pick", "lift and cure": "lift", "harden off": "harden off"}


def going_on(week: Week) -> str:
    """What goes on in a week, by kind and bed, with its last day where that lies in the week.

    As ``Going on: pick leek (to 20 Mar) in West 2, chives and thyme in Herb round.``
    """
    sunday = shift(week.monday, 6)
    kinds: dict[str, dict[str, list[str]]] = {}
    for task in week.goes_on:
        name = f"{task.crop} {task.variety}".strip()
        if task.until <= sunday:
            name += f" (to {days_in_short(task.until, task.until)})"
        kinds.setdefault(_GOING_ON.get(task.kind, task.kind), {}).setdefault(task.bed_name, []).append(name)
    parts = [
        f"{kind} {', '.join(f'{_listed(dict.fromkeys(names))} in {bed}' for bed, names in beds.items())}"
        for kind, beds in kinds.items()
    ]
    return f"Going on: {'; '.join(parts)}."


def _listed(names: Iterable[str]) -> str:
    *some, last = names
    return f"{', '.join(some)} and {last}" if some else last


#: Fields of :func:`task_rows`.
TASK_FIELDS = (
    "date", "until", "kind", "bed", "bed_id", "planting_id", "crop", "crop_name", "variety", "text", "stations",
    "seeds", "grams", "material", "why", "source", "origin", "done",
)  # fmt: skip


def task_rows(plan: Plan, found: Iterable[Task]) -> list[dict[str, object]]:
    """Work ready for JSON, one mapping a piece.

    ``bed`` is its name, ``crop`` the key as the garden file has it and ``crop_name`` the name shown;
    masses are in grams, days as YYYY-MM-DD; None stands for what is not known or does not apply.
    """
    plantings = plan.garden.plantings_by_id
    return [
        {
            "date": task.date.isoformat(),
            "until": task.until.isoformat(),
            "kind": task.kind,
            "bed": task.bed_name,
            "bed_id": task.bed,
            "planting_id": task.planting,
            "crop": plantings[task.planting].crop,
            "crop_name": task.crop,
            "variety": task.variety,
            "text": task.text,
            "stations": task.stations,
            "seeds": task.seeds,
            "grams": task.grams,
            "material": task.material,
            "why": task.why,
            "source": task.source,
            "origin": task.origin,
            "done": task.done.isoformat() if task.done is not None else None,
        }
        for task in found
    ]


def tasks_text(plan: Plan, found: Sequence[Task], first: dt.date, last: dt.date) -> list[str]:
    """Lines: the work week by week, then what looks odd and what is not known."""
    lines = [f"{plan.garden.site.name}, work from {day(first)} to {day(last)}"]
    if not found:
        lines += ["", "Nothing to do."]
    for week in weeks(found, first, last):
        rows = [
            ("[x]" if task.done is not None else "[ ]", task_days(task), task.text) for task in week.begins
        ]
        lines += ["", week.title, *(aligned(("", "", ""), rows)[1:] if rows else [])]
        if week.goes_on:
            lines.append(f"  {going_on(week)}")
    climate = climate_doubts(plan.garden.site, plan.garden.climate)
    doubts = [*(f"  {sentence}." for sentence in climate), *_said(plan, "doubts")]
    missing = _said(plan, "missing")
    if any(task.origin == "by hand" for task in found):
        lines += ["", f"{BY_HAND} given by hand"]
    if doubts:
        lines += ["", "To think about", *doubts]
    if missing:
        lines += ["", "Not known", *missing]
    return lines


def _said(plan: Plan, what: str) -> list[str]:
    """Sentences of the dates of this year's plantings, each once, with the bed."""
    return list(
        dict.fromkeys(
            f"  {plan.bed_of(planting).name}: {sentence}."
            for planting in plan.plantings
            for sentence in getattr(plan.dates(planting), what)
        )
    )
