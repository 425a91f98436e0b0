"""Bulbs, which swell in long days and then ripen by warmth.

A bulb grows leaves until the days are long enough for its kind, and swells from then on.  It is ripe when it has had the
warmth that it has from its start where its days to maturity were counted, or that which it has from swelling there:
whichever comes first.  A mild winter gives much of the first, a start in spring little.
"""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.development import Need, Stretch, day_reached, heat_after_swelling
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.temperatures import first_day
from planner.words import say

#: Share of its warmth that a bulb has from swelling on, where its days were counted in days too short for it (estimate).
SWELLING = 0.4
#: Least share of its warmth after swelling, however grown it was before (estimate).
LEAST_SWELLING = 0.5


def swells_in_long_days(context: DateContext) -> bool:
    """Whether the crop's bulbs wait for long days."""
    return context.number("day_length_to_bulb") is not None


def day_bulbs_are_ripe(
    context: DateContext, on: dt.date, need: Need, stretches: tuple[Stretch, ...]
) -> dt.date | None:
    """The day on which bulbs that swell in long days are ripe; None where that takes over two years.

    Where the days never are that long, warmth alone counts.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it takes its plot.
    need : Need
    stretches : tuple of Stretch
    """
    by_heat = day_reached(on, need, stretches)
    hours = context.number("day_length_to_bulb")
    weather = stretches[-1].weather
    swells = first_day(weather.hours >= hours, on) if hours is not None else None
    if swells is None or hours is None:
        return by_heat
    after = heat_after_swelling(context, need, hours)
    if after is None:
        after = SWELLING * need.heat
    slowest, soonest = (
        day_reached(swells, need, (Stretch(0, weather),), heat=heat)
        for heat in (after, LEAST_SWELLING * after)
    )
    if by_heat is None or soonest is None or slowest is None:
        return slowest
    return min(slowest, max(by_heat, soonest))


def small_bulbs(context: DateContext, on: dt.date, ripe: Dated | None) -> tuple[str, ...]:
    """A sentence where cloves have little time to grow before long days ripen them.

    Parameters
    ----------
    context : DateContext
    on : date
        The day they are planted.
    ripe : Dated, optional
    """
    if context.start != "cloves" or ripe is None or ripe.day >= shift(on, practice.SPRING_CLOVES):
        return ()
    return (
        say(
            "{crop} has little time to grow before the days shorten: its bulbs stay small",
            crop=context.name,
        ),
    )
