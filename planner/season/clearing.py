"""When a planting leaves its plot."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.harvest import Harvest, work_out_harvest
from planner.season.planting_dates import Dated
from planner.season.start_day import Start
from planner.season.winter import bears_winter
from planner.words import say


def clearing_day(
    context: DateContext, on: Dated | None, harvest: Harvest
) -> tuple[Dated | None, tuple[str, ...]]:
    """The day it is cleared or dug in, and what is missing for it.

    None of what stays for years until its end is given, and where it is not known.

    Parameters
    ----------
    context : DateContext
    on : Dated, optional
        The day it takes its plot.
    harvest : Harvest
    """
    given = context.given_day("clear", context.planting.last, say("Cleared on this day"))
    if given is not None or context.stays_for_years:
        return given, ()
    if context.planting.purpose == "green manure" or context.number("days_to_maturity") is None:
        return _dug_in(context, on)
    last = harvest.last
    if not harvest.ripens and context.tender and on is not None:
        frost = context.frosts.first_after(on.day)
        if frost is not None and (last is None or last.day > frost):
            return Dated(max(frost, on.day), say("Killed by the first autumn frost"), "practice"), ()
    if last is None:
        return None, ()
    return Dated(last.day, say("When the harvest is over")), ()


def still_standing(context: DateContext, start: Start) -> dt.date | None:
    """A day on which a planting without a known end still stands; None where that is not known either.

    It is the first harvest as it would be in the kitchen garden, since seed ripens later than that; else,
    of what lives through the winter that follows its start, the last frost of that winter.

    Parameters
    ----------
    context : DateContext
        Of a planting of which no clearing is known.
    start : Start
    """
    on = start.on_plot
    if on is None or context.stays_for_years:
        return None
    eaten = context._replace(planting=context.planting.with_(purpose="kitchen"))
    harvest = work_out_harvest(eaten, start)
    if harvest.first is not None:
        return harvest.first.day
    frost = context.frosts.first_after(shift(on.day, -60))
    late = frost is not None and on.day > shift(frost, -practice.SOWN_LATE)
    if late and (practice.very_hardy(context.crop) or bears_winter(context)):
        return context.frosts.last_after(on.day)
    return None


def _dug_in(context: DateContext, on: Dated | None) -> tuple[Dated | None, tuple[str, ...]]:
    """When a green manure is dug in: before it flowers, or in spring where it lives through the winter."""
    if on is None:
        return None, ()
    days = context.number("days_to_maturity")
    frost = context.frosts.first_after(shift(on.day, -60))
    late = frost is not None and on.day > shift(frost, -practice.SOWN_LATE)
    spring = context.frosts.last_after(shift(on.day, 60))
    if late and spring is not None and practice.very_hardy(context.crop):
        why = say(
            "{digging_in} days before the last spring frost, ahead of the next crop",
            digging_in=practice.DIGGING_IN,
        )
        return Dated(shift(spring, -practice.DIGGING_IN), why, "practice"), ()
    if days is not None:
        why = say("When it comes into flower")
        return Dated(shift(on.day, days), why, context.source("days_to_maturity")), ()
    if context.planting.purpose == "green manure":
        return None, (
            say("No days to flower are known for {crop}: give its last day by hand", crop=context.name),
        )
    return None, ()
