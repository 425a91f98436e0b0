"""Harvest of a hardy crop that autumn catches small: it pauses over winter and grows on in spring."""

from __future__ import annotations

import datetime as dt

from planner.season import practice
from planner.season.date_inputs import DateContext
from planner.season.day_length import ripens_in_short_days
from planner.season.frosts import shift, zone_minimum
from planner.season.planting_dates import Dated
from planner.season.windows import window_edge
from planner.words import day_words


def harvest_after_winter(context: DateContext, on: dt.date, plain: dt.date, days: float) -> Dated | None:
    """The harvest of the year after; None of what frost kills and of what ripens before the winter.

    Growth resumes when the crop is usually started in spring; what it grew before the first frost
    counts, and at least a third of its days remain.

    Parameters
    ----------
    context : DateContext
    on : date
        The day it takes its plot.
    plain : date
        First harvest by its days.
    days : float
        From the start to the first harvest. [days]
    """
    if context.tender:
        return None  # the frost ends it
    frosts = context.frosts
    frost = frosts.first_after(shift(on, -60))
    if frost is None:
        return None
    late = plain
    if ripens_in_short_days(on, plain, context.southern):
        late = shift(plain, practice.FALL_FACTOR)
    bears = practice.HARD_FROST if practice.very_hardy(context.crop) else practice.LIGHT_FROST
    begun = practice.CAUGHT_IF_KEPT if _kept_over_winter(context, frost) else practice.CAUGHT_SMALL
    if late <= shift(frost, bears) or on < shift(frost, -begun):
        return None
    winter_ends = frosts.last_after(frost)
    if on > frost and winter_ends is not None and winter_ends <= shift(on, practice.WINTER_OVER):
        return None  # that winter is over, or nearly
    spring = frosts.last_after(on)
    if spring is None:
        return None
    window = window_edge(context, autumn=False)
    resume = shift(spring, 7 * (window.weeks if window else practice.RESUMES))
    if resume <= on:
        return None
    grown = max(0, (frost - on).days)
    at = shift(resume, max(days - grown, days / 3))
    why = (
        f"{days:g} days of growth, {grown} of them before the first frost; "
        f"it stands still over winter and grows on from {day_words(resume)}"
    )
    return Dated(max(at, plain), why, "practice")


def _kept_over_winter(context: DateContext, frost: dt.date) -> bool:
    """Whether the gardener gave it a last day beyond the winter that a frost begins."""
    last = context.planting.last
    return last is not None and last > shift(frost, practice.BEYOND_WINTER)


def bears_winter(context: DateContext) -> bool:
    """Whether it bears the coldest night of the garden's zone, and so grows on."""
    coldest, bears = zone_minimum(context.climate.zone), context.number("least_night_temperature")
    return (
        not context.tender and coldest is not None and bears is not None and bears <= coldest + practice.BEARS
    )
