"""Harvests that depend on the length of the day: short days of autumn, cloves, and bulbs from sets."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.planting_dates import Dated
from planner.season.windows import window_edge
from planner.sun import next_autumn_equinox, next_longest_day


def ripens_in_short_days(on: dt.date, harvest: dt.date, southern: bool) -> bool:
    """Whether a crop is started after midsummer and ripens when nights are longer than days.

    Parameters
    ----------
    on : date
        The day it takes its plot.
    harvest : date
        First harvest by its days to maturity.
    southern : bool
        Midsummer is in December.
    """
    longest = next_longest_day(shift(on, -200), southern)
    return longest <= on and harvest >= next_autumn_equinox(longest, southern)


def harvest_of_cloves(context: DateContext, on: dt.date, days: float) -> tuple[Dated | None, tuple[str, ...]]:
    """Harvest of cloves, which ripen in long days whenever they are planted, and doubts about it.

    None of what starts otherwise or stays for years, and of what its days to maturity ripen sooner.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it is planted.
    days : float
        Days to maturity. [days]
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
        if shift(on, days) <= ripe:
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


def in_long_days(context: DateContext, plain: dt.date) -> dt.date:
    """The day bulbs from sets are ripe: what would ripen in autumn's short days waits for the long ones.

    Parameters
    ----------
    context : DateContext
    plain : date
        First harvest by its days to maturity; given back for every other crop.
    """
    if context.planting.crop not in practice.LONG_DAY_BULBS or context.start != "sets":
        return plain
    longest = next_longest_day(shift(plain, -90), context.southern)
    return plain if abs((longest - plain).days) <= 90 else max(plain, longest)
