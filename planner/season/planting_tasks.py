"""The work on one planting, from its dates.

What the work amounts to (stations, seed, material) is worked out above this room and handed in.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from typing import cast

from planner.crops import Crop
from planner.crops.aftercare import TASKS
from planner.garden import Bed, Planting
from planner.garden.planting import Work
from planner.garden.site import UnitSystem
from planner.season import practice
from planner.season.covering_tasks import covering_work
from planner.season.frosts import shift
from planner.season.planting_dates import Dated, Dates
from planner.season.starting_tasks import starting_work
from planner.season.tasks import WORK_ORDER, Extent, Task
from planner.season.work_words import Subject, WorkWords, one_task, repeated
from planner.words import capital, day_words, key_words, say


def tasks_of(
    planting: Planting,
    bed: Bed,
    crop: Crop | None,
    dates: Dates,
    extent: Extent,
    done: Mapping[str, dt.date],
    following: tuple[Planting, str, dt.date] | None = None,
    units: UnitSystem = "metric",
    times: Mapping[str, tuple[dt.date, ...]] | None = None,
    *,
    over: bool = False,
) -> tuple[Task, ...]:
    """The work on a planting in the order of its dates.

    Parameters
    ----------
    planting : Planting
    bed : Bed
    crop : Crop, optional
    dates : Dates
    extent : Extent
        How much there is to do.
    done : mapping of str to date
        Real dates of the work done, by kind.
    following : tuple of (Planting, str, date), optional
        What comes onto this ground next, its name, and from when.
    units : {"metric", "feet_inches"}
    times : mapping of str to tuple of date, optional
        Of each kind of work all days on which it was done; those of ``done`` by default.
    over : bool
        Whether its picking is known to be over.
    """
    if times is None:
        times = {kind: (day,) for kind, day in done.items()}
    name = crop.name if crop is not None else planting.crop
    of = Subject(planting, bed, name, dates, extent, done, units, times, over)
    steps = (
        *starting_work(of),
        *_tending(of),
        *covering_work(of),
        *_harvesting(of),
        *_clearing(of, following),
    )
    found = (task for task in steps if task is not None)
    return tuple(sorted(found, key=lambda task: (task.date, WORK_ORDER[task.kind])))


def _tending(of: Subject) -> Iterator[Task | None]:
    """Thinning, supports, and what else the crop needs."""
    bed, sort, dates, support = of.bed.name, of.sort, of.dates, of.planting.support
    plants = of.plants("thin", dates.thin)
    text = say("Thin {crop} in {bed} to {plants}", crop=sort, bed=bed, plants=plants)
    yield one_task(
        of, "thin", dates.thin, WorkWords(text, say("Thin {crop} to {plants}", crop=sort, plants=plants))
    )
    if support is not None:
        kind = key_words(support.kind)
        text = say("Put up {support} for {crop} in {bed}", support=kind, crop=sort, bed=bed)
        work = say("Put up {support} for {crop}", support=kind, crop=sort)
        yield one_task(of, "support up", dates.support_up, WorkWords(text, work), material=support.kind)
    for care in dates.aftercare:
        text = say(TASKS[care.task].words, crop=sort, bed=bed)
        work = say(TASKS[care.task].without_bed, crop=sort)
        if care.every:
            text = say("{work}, every {days} days", work=text, days=care.every)
            work = say("{work}, every {days} days", work=work, days=care.every)
            words = WorkWords(text, work)
            yield from repeated(of, cast("Work", care.kind), care.on, words, care.until, care.every)
            continue
        yield one_task(of, cast("Work", care.kind), care.on, WorkWords(text, work), until=care.until)


def _harvesting(of: Subject) -> Iterator[Task | None]:
    """Picking, or lifting and curing; nothing of what does not ripen or is cleared before."""
    bed, sort, dates = of.bed.name, of.sort, of.dates
    first, last = dates.first_harvest, dates.last_harvest
    if first is None or not dates.ripens:
        return
    if dates.clear is not None and first.day > dates.clear.day:
        return
    until = last.day if last is not None else first.day
    cure = practice.CURED.get(of.planting.crop)
    if cure is not None:
        words = WorkWords(
            say("Lift {crop} in {bed} and cure it for about {days} days", crop=sort, bed=bed, days=cure),
            say("Lift {crop} and cure it for about {days} days", crop=sort, days=cure),
        )
        yield one_task(of, "lift and cure", first, words, until=until)
        return
    words = WorkWords(say("Pick {crop} in {bed}", crop=sort, bed=bed), say("Pick {crop}", crop=sort))
    if of.over or (until - first.day).days < practice.PICKED_AGAIN:
        yield one_task(of, "pick", first, words, until=until)
    else:
        yield from repeated(of, "pick", first, words, until, practice.PICKED_AGAIN)


def _clearing(of: Subject, following: tuple[Planting, str, dt.date] | None) -> Iterator[Task | None]:
    """Clearing or digging in, and what follows on the same ground."""
    bed, sort, clear = of.bed.name, of.sort, of.dates.clear
    if clear is None:
        return
    if of.planting.purpose == "green manure":
        words = WorkWords(say("Dig in {crop} in {bed}", crop=sort, bed=bed), say("Dig in {crop}", crop=sort))
    else:
        words = WorkWords(say("Clear {crop} in {bed}", crop=sort, bed=bed), say("Clear {crop}", crop=sort))
    yield one_task(of, "clear", clear, words)
    if following is not None:
        _, name, day = following
        why = say("{crop} is cleared on {day}", crop=sort, day=day_words(clear.day))
        at = Dated(max(day, shift(clear.day, 1)), why)
        words = WorkWords(
            say("{next} follows {crop} in {bed}", next=capital(name), crop=sort, bed=bed),
            say("{next} follows {crop}", next=capital(name), crop=sort),
            "",
        )
        yield one_task(of, "sow the next", at, words)
