"""The dated work of a plan, with its amounts.

The tasks themselves are made in ``season``; here they are given the plants and seed they are about.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import shapely

from planner.amounts.bed_tasks import dressing_tasks, without_needless
from planner.amounts.plants import Amount, amount
from planner.amounts.raising import Raised, raised
from planner.crops import Crop
from planner.garden import Bed, Done, Planting
from planner.garden.site import UnitSystem
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.done_before import with_done_before
from planner.season.planting_dates import Dates
from planner.season.planting_tasks import tasks_of
from planner.season.tasks import Extent, Task
from planner.words import say

#: Plots that share less ground do not follow each other. [m2]
SPECK = 1e-3
#: A planting follows another that begins at most so long after its end. [days]
FOLLOWS_WITHIN = 60
#: Work may begin so long before a planting is on its plot, or its plants on the bench. [days]
WORK_BEFORE = 60


def extent_of(
    part: Amount, of_raised: Raised | None = None, left: tuple[tuple[dt.date, int], ...] = ()
) -> Extent:
    """Turn what a planting needs, what raising its plants takes, and what is left of them, into the amounts its tasks name."""
    sown = ""
    if part.seeds_per_station is not None and part.seeds_per_station > 1:
        sown = say("{seeds} for each plant", seeds=part.seeds_per_station)
    elif part.thinned_from:
        sown = say("in drills")
    return Extent(
        stations=part.plants,
        seeds=part.seeds,
        grams=part.seed_grams,
        sown=sown,
        fills=of_raised.fills if of_raised is not None else (),
        nursery_area=of_raised.nursery_area if of_raised is not None else 0.0,
        left=left,
    )


class TaskInputs(NamedTuple):
    """What the work of a planting depends on.

    Attributes
    ----------
    planting : Planting
    bed : Bed
    crop : Crop or None
    dates : Dates
    amount : Amount
    raised : Raised or None
        What raising its plants takes; None where they are not raised.
    units : {"metric", "feet_inches"}
    done : tuple of Done
    following : tuple of (Planting, str, date), optional
        What is sown or set onto its ground next: the planting, its name and its first day.
    happened : frozenset of str
        Kinds of work that are written down, stages that were seen, and ``ended``.
    left : tuple of (date, int)
        Plants that are left from a day on, after what was lost or counted; empty where nothing is known.
    """

    planting: Planting
    bed: Bed
    crop: Crop | None
    dates: Dates
    amount: Amount
    raised: Raised | None
    units: UnitSystem
    done: tuple[Done, ...]
    following: tuple[Planting, str, dt.date] | None
    happened: frozenset[str]
    left: tuple[tuple[dt.date, int], ...] = ()


@fact("tasks")
def tasks_of_planting(inputs: TaskInputs) -> tuple[Task, ...]:
    """The work on one planting, whatever the growing year it falls in."""
    times: dict[str, list[dt.date]] = {}
    for one in inputs.done:
        times.setdefault(one.work, []).append(one.date)
    work = tasks_of(
        inputs.planting,
        inputs.bed,
        inputs.crop,
        inputs.dates,
        extent_of(inputs.amount, inputs.raised, inputs.left),
        {record.work: record.date for record in inputs.done},
        inputs.following,
        inputs.units,
        {kind: tuple(days) for kind, days in times.items()},
        over=bool(inputs.happened & {"ended", "last picking"}),
    )
    outcome = inputs.dates.outcome
    return with_done_before(work, inputs.happened, outcome.day if outcome is not None else None)


def planting_tasks(plan: Plan, planting: Planting) -> tuple[Task, ...]:
    """Return the work on one planting, whatever growing year it falls in.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    lives = plan.survival(planting)
    inputs = TaskInputs(
        planting=planting,
        bed=plan.bed_of(planting),
        crop=plan.figures_of(planting).crop,
        dates=plan.dates(planting),
        amount=amount(plan, planting),
        raised=raised(plan, planting),
        units=plan.garden.site.units,
        done=plan.garden.ticked(planting),
        following=_following(plan, planting),
        happened=_happened(plan, planting),
        left=tuple((step.day, round(lives.planned * step.left)) for step in lives.steps),
    )
    work = plan.cached(tasks_of_planting, planting.id, inputs)
    ended = plan.garden.outcome(planting)
    gone = ended.day if ended is not None else lives.steps[-1].day if lives.left == 0.0 else None
    if gone is not None:  # nothing more is done on what is gone
        work = tuple(task for task in work if task.done is not None or task.date <= gone)
    return without_needless(plan, planting, work)


def _happened(plan: Plan, planting: Planting) -> frozenset[str]:
    """What is written down of a planting: work, stages, and whether it ended."""
    garden = plan.garden
    outcome = garden.outcome(planting)
    ends = ("ended", "pick") if outcome is not None and outcome.why == "harvested" else ("ended",)
    return frozenset(
        (
            *(one.kind for one in garden.done(planting)),
            *(one.stage for one in garden.observed(planting)),
            *(ends if outcome is not None else ()),
        )
    )


def tasks(
    plan: Plan,
    first: dt.date | None = None,
    last: dt.date | None = None,
    plantings: Iterable[Planting] | None = None,
) -> tuple[Task, ...]:
    """Return the work that falls on any day of a span, in the order of its dates, beds and kinds.

    Parameters
    ----------
    plan : Plan
    first, last : date, optional
        First and last day of the span; the growing year by default.
    plantings : iterable of Planting, optional
        Those of the growing year, those whose plants are raised in it, and the dressings of beds, by default; only
        work on these plantings where they are given.
    """
    begin, end = first or plan.span.first, last or plan.span.last
    if plantings is not None:
        return tasks_between(plan, [planting_tasks(plan, one) for one in plantings], begin, end)
    found = [planting_tasks(plan, one) for one in plan.garden.plantings if touches(plan, one, begin, end)]
    return tasks_between(plan, (dressing_tasks(plan, begin, end), *found), begin, end)


def tasks_between(
    plan: Plan, work: Iterable[Sequence[Task]], first: dt.date, last: dt.date
) -> tuple[Task, ...]:
    """Of the work on some plantings what falls on any day of a span, in the order of dates, beds and kinds.

    Parameters
    ----------
    plan : Plan
    work : iterable of sequence of Task
        Of each planting, in the order of the garden.
    first, last : date
    """
    found = [task for there in work for task in there if task.date <= last and task.until >= first]
    beds = {bed.id: place for place, bed in enumerate(plan.garden.beds)}
    return tuple(sorted(found, key=lambda task: (task.date, beds[task.bed], task.kind)))


def touching(plan: Plan, planting: Planting) -> tuple[dt.date, dt.date]:
    """First and last day around which there is work on a planting."""
    span, bench = plan.span_of(planting), plan.bench(planting)
    begins = bench.first if bench is not None else span.first
    return begins - dt.timedelta(days=WORK_BEFORE), span.last


def touches(plan: Plan, planting: Planting, first: dt.date, last: dt.date) -> bool:
    """Whether there may be work on a planting on any day of a span."""
    begins, ends = touching(plan, planting)
    return begins <= last and ends >= first


def _following(plan: Plan, planting: Planting) -> tuple[Planting, str, dt.date] | None:
    """The next planting on a planting's ground, its name and first day; None without one in time."""
    end = plan.span_of(planting).last
    near = [
        (plan.span_of(other).first, other)
        for other in plan.garden_in_bed(planting.bed)
        if other.id != planting.id
        and not other.shares_ground
        and end < plan.span_of(other).first <= end + dt.timedelta(days=FOLLOWS_WITHIN)
    ]
    for day, other in sorted(near, key=lambda pair: (pair[0], pair[1].id)):
        shared = shapely.intersection(plan.placed(planting).plot, plan.placed(other).plot)
        if shared.area > SPECK:
            crop = plan.figures_of(other).crop
            return other, f"{crop.name if crop else other.crop} {other.variety}".strip(), day
    return None
