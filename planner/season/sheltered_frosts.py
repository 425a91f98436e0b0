"""Frosts where a planting grows: under a roof or a cover they come later in autumn and end sooner in spring.

A frost comes in half of the years when the mean minimum has fallen to that of its day in the open.  What holds off so many
degrees of frost moves the day to the one on which the mean minimum has fallen by as many more.
"""

from __future__ import annotations

import datetime as dt

import numpy as np

from planner.crops.cover_effects import sheltered_by
from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.frosts import shift
from planner.season.temperatures import day_of_year_index, first_day

#: Longest time by which a shelter moves a frost. [days]
LONGEST = 120


def frost_held_off(context: DateContext, covers: tuple[str, ...] = ()) -> float:
    """Degrees of frost that its shelter and some covers hold off; all of them where it is heated. [deg C]"""
    if context.kept_above:
        return np.inf
    kinds = (*context.shelter, *covers)
    return sheltered_by(kinds).frost_gain if kinds else 0.0


def covers_at_start(context: DateContext) -> tuple[str, ...]:
    """Covers that lie over it from its start on and hold off frost."""
    return tuple(
        cover.kind
        for cover in context.planting.covers
        if cover.kind in practice.WARMING and cover.first is None
    )


def first_frost_there(context: DateContext, frost: dt.date, covers: tuple[str, ...] = ()) -> dt.date:
    """The first autumn frost where it grows.

    Parameters
    ----------
    context : DateContext
    frost : date
        That of the open ground.
    covers : tuple of str
        Covers that lie over it then.
    """
    return shift(frost, _days_beyond(context, frost, frost_held_off(context, covers), 1))


def last_frost_there(context: DateContext, frost: dt.date, covers: tuple[str, ...] = ()) -> dt.date:
    """The last spring frost where it grows, as :func:`first_frost_there`."""
    return shift(frost, -_days_beyond(context, frost, frost_held_off(context, covers), -1))


def _days_beyond(context: DateContext, frost: dt.date, held: float, forward: int) -> int:
    """Days from a frost, into the winter, until the mean minimum has fallen by so much; held within limits."""
    if held <= 0 or context.outside is None:
        return 0
    low = context.outside.low
    at = day_of_year_index(frost)
    ahead = np.roll(low, -at) if forward > 0 else np.roll(low[::-1], at + 1)
    cold = first_day(ahead <= low[at] - held, dt.date(2000, 1, 1))
    days = (cold - dt.date(2000, 1, 1)).days if cold is not None else LONGEST
    return min(days, LONGEST)
