"""The stops of a walk: beds in walking order, what stands there under its letter, and the work that is due.

Letters are those of the bed sheets; numbers of work follow from letters and kinds of work.  Neither follows from days, so
that nothing that is written down deals them anew.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from planner.amounts.tasks import planting_tasks
from planner.amounts.work import work_between
from planner.garden import Bed, Garden, Planting
from planner.plan import Plan
from planner.plan.drawing_groups import plot_letters
from planner.plan.walking import beds_in_walking_order
from planner.season.tasks import WORK_ORDER, Task, monday
from planner.words import capital, day_words, say

_WEEK = dt.timedelta(days=6)


class WalkStop(NamedTuple):
    """A bed on a walk.

    Attributes
    ----------
    bed : Bed
    plantings : tuple of (str, Planting)
        What stands there on the day, each under the letter of its plot.
    work : tuple of Task
        Begins or goes on in the week of the day; numbered from 1.
    needless : frozenset of str
        Keys of the work that was due when the walk began and need not be done any more.
    """

    bed: Bed
    plantings: tuple[tuple[str, Planting], ...]
    work: tuple[Task, ...]
    needless: frozenset[str] = frozenset()


def walk_stops(plan: Plan, on: dt.date, beds: Collection[str] | None = None) -> tuple[WalkStop, ...]:
    """The stops of a walk on a day.

    Parameters
    ----------
    plan : Plan
        Of the growing year of the day.
    on : date
    beds : collection of str, optional
        Ids of beds; all in use by default.
    """
    begins = monday(on)
    work: dict[str, list[Task]] = {}
    for task in work_between(plan, begins, begins + _WEEK):
        work.setdefault(task.bed, []).append(task)
    found = []
    for bed in beds_in_walking_order(plan):
        if beds is None or bed.id in beds:
            letters = plot_letters(plan, bed)
            there = [one for one in plan.in_bed(bed) if plan.span_of(one).holds(on)]
            found.append(WalkStop(bed, _lettered(there, letters), _numbered(work.get(bed.id, ()), letters)))
    return tuple(found)


def walk_goes_on(begun: Sequence[WalkStop], now: Sequence[WalkStop], plan: Plan) -> tuple[WalkStop, ...]:
    """The stops of a walk as they are now, with what was listed when it began under the same letters and numbers.

    Parameters
    ----------
    begun, now : sequence of WalkStop
        On the same day.
    plan : Plan
        As it is now.
    """
    before = {stop.bed.id: stop for stop in begun}
    return tuple(_gone_on(before[one.bed.id], one, plan) if one.bed.id in before else one for one in now)


def _gone_on(begun: WalkStop, now: WalkStop, plan: Plan) -> WalkStop:
    garden = plan.garden
    listed = {one.id: letter for letter, one in begun.plantings if one.id in garden.plantings_by_id}
    plantings = [(letter, garden.plantings_by_id[key]) for key, letter in listed.items()]
    taken = {letter for letter, _ in plantings}
    for letter, one in now.plantings:
        if one.id not in listed:
            plantings.append((letter if letter not in taken else "", one))
    work, needless = list[Task](), set[str]()
    for task in begun.work:
        found = _as_it_is(task, now.work, plan, garden)
        if found is None:
            needless.add(task.key)
        work.append(found or task)
    known = {task.key for task in work}
    work += [task for task in now.work if task.key not in known]
    plantings.sort(key=_by_letter)
    return WalkStop(now.bed, tuple(plantings), tuple(work), frozenset(needless))


def _as_it_is(task: Task, in_week: Iterable[Task], plan: Plan, garden: Garden) -> Task | None:
    """A piece of work as it is now, wherever it has moved; None where it is no work any more."""
    same = [one for one in in_week if one.base_key == task.base_key]
    if task.every and task.is_open:  # what was due is answered, though it is due again
        for one in same:
            if one.done is not None and one.date >= task.date:
                return one
    for one in same:
        if one.key == task.key:
            return one
    planting = garden.plantings_by_id.get(task.planting)
    alike = planting_tasks(plan, planting) if planting is not None and not task.dressing else ()
    return next((one for one in alike if one.key == task.key), None) or next(
        (one for one in alike if one.base_key == task.base_key), None
    )


def _lettered(plantings: Iterable[Planting], letters: dict[str, str]) -> tuple[tuple[str, Planting], ...]:
    return tuple(sorted(((letters.get(one.id, ""), one) for one in plantings), key=_by_letter))


def _by_letter(pair: tuple[str, Planting]) -> tuple[bool, int, str]:
    letter, _ = pair
    return not letter, len(letter), letter


def _numbered(tasks: Iterable[Task], letters: dict[str, str]) -> tuple[Task, ...]:
    """Work in the order of its numbers: by the letter of its planting, then by kind; that on the bed comes first."""

    def place(task: Task) -> tuple[int, str, int, str]:
        letter = letters.get(task.planting, "")
        return len(letter), letter, WORK_ORDER[task.kind], task.key

    return tuple(sorted(tasks, key=place))


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
