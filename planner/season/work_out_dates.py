"""Dates of a planting, however it starts.

Forward from the last spring frost at the chosen risk with the crop's windows, or backward from a
wanted first harvest or from the first autumn frost.  What was really done comes before what was
pinned by hand, that before what is worked out; every later date follows from the earlier ones.

Each subject is worked out in a file of its own, by functions from a :class:`DateContext` and earlier
dates to dates, with what is missing or doubtful as sentences beside them.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.crops.aftercare import Care
from planner.season import practice
from planner.season.aftercare import Known, aftercare
from planner.season.bolting import runs_to_seed
from planner.season.care import indoor_steps, support_day, thinning_day
from planner.season.clearing import clearing_day, still_standing
from planner.season.covers import cover_days
from planner.season.date_inputs import DateContext, DateInputs, context_of
from planner.season.emergence import emergence_day
from planner.season.flowering import flowering_day
from planner.season.harvest import Harvest, work_out_harvest
from planner.season.planting_dates import Bolting, Dated, Dates
from planner.season.start_day import Start, work_out_start
from planner.season.start_doubts import start_doubts
from planner.words import day_words, full_day_words, say

__all__ = ["DateInputs", "Outlook", "outlook", "work_out"]


class Outlook(NamedTuple):
    """What of the dates of a planting tells whether it was begun in good time: as in :class:`Dates`."""

    start: str | None
    ripens: bool
    first_harvest: Dated | None
    last_harvest: Dated | None
    bolts: Bolting | None


def outlook(inputs: DateInputs) -> Outlook:
    """Work out only what tells whether a start is good: a third quicker than all dates, and asked for every few days of a year.

    Parameters
    ----------
    inputs : DateInputs

    Returns
    -------
    Outlook
        Bolting is not looked at where nothing ripens.
    """
    context = context_of(inputs)
    start = work_out_start(context)
    on = start.on_plot
    harvest = work_out_harvest(context, start)
    first, bolts = harvest.first, None
    clear, _ = clearing_day(context, on, harvest)
    if harvest.ripens:
        bolts = runs_to_seed(context, on, emergence_day(context, start.sow, on), first)
    return Outlook(context.start, harvest.ripens, first, _last_before_clearing(harvest, clear), bolts)


def work_out(inputs: DateInputs) -> Dates:
    """Work out all dates of a planting.

    Parameters
    ----------
    inputs : DateInputs

    Returns
    -------
    Dates
        None for a step that does not belong to the planting or cannot be worked out; its ``missing``
        and ``doubts`` say why, in the order in which the steps are worked out.
    """
    context = context_of(inputs)
    start = work_out_start(context)
    sow, out, on = start.sow, start.set_out, start.on_plot
    up = emergence_day(context, sow, on)
    harvest = work_out_harvest(context, start)
    first = harvest.first
    clear, missing_clear = clearing_day(context, on, harvest)
    flower = flowering_day(context, up, out, first)
    last = _last_before_clearing(harvest, clear)
    indoors = indoor_steps(context, sow, out, up)
    return Dates(
        start=context.start,
        sheltered=context.sheltered,
        stays_for_years=context.stays_for_years,
        sow=sow,
        prick_out=indoors.prick_out,
        pot_on=indoors.pot_on,
        harden_off=indoors.harden_off,
        set_out=out,
        emerge=up,
        thin=thinning_day(context, up, on, first),
        support_up=support_day(context, on),
        flower=flower,
        first_harvest=first,
        last_harvest=last,
        clear=clear,
        stands_on=None if clear is not None else still_standing(context, start),
        covers=cover_days(context, on, flower, first, clear),
        bolts=runs_to_seed(context, on, up, first),
        aftercare=aftercare(
            context, Known(on, up, flower, first, last, clear, _expected_harvest(context, start, first))
        ),
        heat=harvest.heat,
        ripens=harvest.ripens,
        outcome=context.outcome,
        picked_until=_picked_until(context, harvest),
        missing=(*start.missing, *harvest.missing, *missing_clear),
        doubts=(
            *start_doubts(context, on, first if harvest.ripens else None),
            *harvest.doubts,
            *_out_of_order(context, on, harvest, clear),
        ),
    )


def _expected_harvest(context: DateContext, start: Start, first: Dated | None) -> Dated | None:
    """The first harvest as it was worked out before it was seen; None where it was not, and of what stays for years."""
    if first is None or first.origin != "done" or context.stays_for_years:
        return None
    if context.crop is None or not any(_ahead_of_harvest(care) for care in context.crop.aftercare):
        return None
    done = {kind: day for kind, day in context.done.items() if kind not in ("pick", "lift and cure")}
    return work_out_harvest(context._replace(done=done), start).first


def _ahead_of_harvest(care: Care) -> bool:
    return care.after == "first harvest" and care.days < 0


def _picked_until(context: DateContext, harvest: Harvest) -> dt.date | None:
    """Until when it would have been picked; None of what was not lost, or not while it was picked."""
    lost = context.outcome is not None and context.outcome.lost
    return harvest.last.day if lost and harvest.first is not None and harvest.last is not None else None


def _last_before_clearing(harvest: Harvest, clear: Dated | None) -> Dated | None:
    """The last harvest, on the day of clearing where it was worked out to come later.

    None where the planting is cleared before its first harvest.
    """
    first, last = harvest.first, harvest.last
    if clear is None or last is None or last.day <= clear.day or last.origin != "worked out":
        return last
    return Dated(clear.day, say("Cleared then")) if first is not None and first.day <= clear.day else None


def _out_of_order(
    context: DateContext, on: Dated | None, harvest: Harvest, clear: Dated | None
) -> tuple[str, ...]:
    """Sentences about days in an impossible order; none of what stays for years."""
    first = harvest.first
    if first is None or context.stays_for_years:
        return ()
    doubts = []
    begun = on.day if on is not None else first.day
    soonest = practice.cleared_sooner(begun, clear.day) if clear is not None else 0
    if (
        clear is not None
        and (first.day - clear.day).days > soonest
        and harvest.ripens
        and context.outcome is None
    ):
        doubts.append(
            say(
                "{crop} is cleared on {day}, before its first harvest ({day_2})",
                crop=context.name,
                day=day_words(clear.day),
                day_2=day_words(first.day),
            )
        )
    if on is not None and first.day < on.day:
        doubts.append(
            say(
                "{crop} is harvested from {day}, before it starts ({day_2}): give its first day, or tick off when it was started",
                crop=context.name,
                day=full_day_words(first.day),
                day_2=full_day_words(on.day),
            )
        )
    return tuple(doubts)
