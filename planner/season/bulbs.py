"""Bulbs, which swell and ripen by the length of the day."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.development import Need, Stretch, day_reached
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.temperatures import day_of_year_index
from planner.season.windows import window_edge
from planner.sun import next_longest_day

#: Share of its warmth that a bulb needs from swelling until it is ripe (estimate).
SWELLING = 0.4


def harvest_of_cloves(
    context: DateContext, on: dt.date, days: float, by_heat: dt.date | None
) -> tuple[Dated | None, tuple[str, ...]]:
    """Harvest of cloves, which ripen in long days whenever they are planted, and doubts about it.

    None of what starts otherwise or stays for years, and of what its days to maturity and its warmth ripen sooner.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it is planted.
    days : float
        Days to maturity. [days]
    by_heat : date, optional
        The day it has had its warmth; None where that is never or not known.
    """
    if context.stays_for_years or context.start not in practice.LIFTED:
        return None, ()
    frosts = context.frosts
    longest = next_longest_day(on, context.southern)
    last_frost = frosts.last_after(shift(longest, -250))
    ripe = shift(longest, -practice.BEFORE_LONGEST)
    if last_frost is not None and last_frost <= longest:
        ripe = max(ripe, shift(last_frost, practice.AFTER_FROST))
    if (longest - on).days > 183:
        if shift(on, days) <= ripe and by_heat is not None and by_heat <= ripe:
            return None, ()
        return Dated(ripe, "Planted in autumn, it ripens as the days grow long", "practice"), ()
    first_frost, window = frosts.first_after(shift(on, -365)), window_edge(context, autumn=True)
    if first_frost is not None and window is not None:
        ripe = min(ripe, shift(first_frost, 7 * window.weeks + days))
    after_autumns, soonest = shift(ripe, practice.SPRING_CLOVES_LATER), shift(on, practice.SPRING_CLOVES)
    doubts: tuple[str, ...] = ()
    if after_autumns < soonest:
        doubts = (f"{context.name} has little time to grow before the days shorten: its bulbs stay small",)
    why = "Planted in spring, it ripens soon after what was planted in autumn"
    return Dated(max(after_autumns, soonest), why, "practice"), doubts


def day_bulbs_are_ripe(
    context: DateContext, on: dt.date, ripe: dt.date, need: Need, stretches: tuple[Stretch, ...]
) -> dt.date:
    """The day on which bulbs are ripe that swell in long days; the day by warmth of every other crop.

    They swell from the day on which the days are long enough, and then need a part of their warmth to ripen.

    Parameters
    ----------
    context : DateContext
    on, ripe : date
        The day it takes its plot, and the day it has had its warmth.
    need : Need
    stretches : tuple of Stretch
    """
    hours = context.number("day_length_to_bulb")
    if hours is None or not stretches:
        return ripe
    weather = stretches[-1].weather
    long = weather.hours >= hours
    if not long.any():
        return ripe
    swells = on
    while not long[day_of_year_index(swells)]:
        swells = shift(swells, 1)
    soonest = day_reached(swells, need, (Stretch(0, weather),), heat=SWELLING * need.heat)
    return ripe if soonest is None else max(ripe, soonest)
