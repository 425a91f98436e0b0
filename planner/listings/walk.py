"""The stops of a walk: beds in walking order, what stands there under its letter, and the work that is due."""

from __future__ import annotations

import datetime as dt
import string
from collections.abc import Collection
from typing import NamedTuple

from planner.amounts.work import work_between
from planner.garden import Bed, Planting
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from planner.season.tasks import Task, monday
from planner.words import capital, day_words, say

_WEEK = dt.timedelta(days=6)


class WalkStop(NamedTuple):
    """A bed on a walk.

    Attributes
    ----------
    bed : Bed
    plantings : tuple of (str, Planting)
        What stands there on the day, each under its capital letter; without one after Z.
    work : tuple of Task
        Begins or goes on in the week of the day.
    """

    bed: Bed
    plantings: tuple[tuple[str, Planting], ...]
    work: tuple[Task, ...]


def walk_stops(plan: Plan, on: dt.date, beds: Collection[str] | None = None) -> tuple[WalkStop, ...]:
    """The stops of a walk on a day.

    Parameters
    ----------
    plan : Plan
    on : date
    beds : collection of str, optional
        Ids of beds; all in use by default.
    """
    begins = monday(on)
    work: dict[str, list[Task]] = {}
    for task in work_between(plan, begins, begins + _WEEK):
        work.setdefault(task.bed, []).append(task)
    return tuple(
        WalkStop(bed, lettered(plan, bed, on), tuple(work.get(bed.id, ())))
        for bed in beds_in_walking_order(plan)
        if beds is None or bed.id in beds
    )


def lettered(plan: Plan, bed: Bed, on: dt.date) -> tuple[tuple[str, Planting], ...]:
    """What stands in a bed on a day, each planting under its letter on a walk."""
    there = [one for one in plan.in_bed(bed) if plan.span_of(one).holds(on)]
    letters = string.ascii_uppercase
    return tuple((letters[at] if at < len(letters) else "", one) for at, one in enumerate(there))


def standing_words(plan: Plan, planting: Planting, on: dt.date) -> str:
    """A planting and how far it is on a day: ``Carrot ‘Long Hallow’: picked until 3 Oct``.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    on : date
    """
    name, dates = capital(plan.catalogue.name_of(planting.crop)), plan.dates(planting)
    if planting.variety:
        name = say("{crop} ‘{variety}’", crop=name, variety=planting.variety)
    first, last, up = dates.first_harvest, dates.last_harvest, dates.emerge
    if up is not None and on < up.day:
        return say("{crop}: comes up about {day}", crop=name, day=day_words(up.day, on.year))
    if first is not None and on < first.day:
        return say("{crop}: picked from {day}", crop=name, day=day_words(first.day, on.year))
    if last is not None and on <= last.day:
        return say("{crop}: picked until {day}", crop=name, day=day_words(last.day, on.year))
    return name
