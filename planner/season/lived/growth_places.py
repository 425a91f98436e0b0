"""One planting in all recorded years at once: where it begins, and when it has had its warmth.

A day is a place among the days of the record (:class:`planner.season.lived.recorded_years.RecordedYears`), an array over years.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

import numpy as np

from planner.season.date_inputs import DateContext
from planner.season.development import Need
from planner.season.growing import covers_of_growth
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.lived.recorded_years import NEVER, Positions
from planner.season.thermal_time import Numbers

#: Longest time to a first picking. [days]
LONGEST = 2 * 365


class Part(NamedTuple):
    """Weather that a planting grows in from a number of days after it took its plot."""

    begins: int
    weather: RecordedWeather


class Growth(NamedTuple):
    """A planting in all recorded years.

    Attributes
    ----------
    context : DateContext
    need, sort : Need or None
        Warmth until its first picking, and that which its sort needs; None where that is not known.  They differ where a stage
        was seen on another day than was worked out.
    on_day : date
        The day of the plan on which it takes its plot.
    planned, on : ndarray of int, shape (years,)
        Where that day lies in each recorded year, and where it takes it there: the same but where a rule decides.
    parts : tuple of Part
        Under covers while they lie, then as its place has it; the first begins with it.
    place : RecordedWeather
        Where it grows, without covers.
    """

    context: DateContext
    need: Need | None
    sort: Need | None
    on_day: dt.date
    planned: Positions
    on: Positions
    parts: tuple[Part, ...]
    place: RecordedWeather

    @property
    def last(self) -> RecordedWeather:
        """The weather that it grows in in the end."""
        return self.parts[-1].weather

    def places(self, day: dt.date) -> Positions:
        """Where a day of the year lies in each recorded year."""
        return self.place.years.places(day, self.context.planting.year)

    def given(self, day: dt.date) -> Positions:
        """Where a day that the gardener gave lies in each recorded year: so many days after the start of the plan."""
        return self.planned + (day - self.on_day).days


def parts_of(context: DateContext, on: dt.date, weather: RecordedWeather) -> tuple[Part, ...]:
    """The weather that a planting grows in from the day it takes its plot on.

    Parameters
    ----------
    context : DateContext
    on : date
    weather : RecordedWeather
        In the open.
    """
    return tuple(
        Part(begins, weather.under(kinds, context.kept_above))
        for begins, kinds in covers_of_growth(context, on)
    )


def first_from(following: Positions, at: Positions) -> Positions:
    """The next day of each of some days, by a table of the next ones; a day before the record counts as its first."""
    last = len(following) - 1
    return following[np.minimum(np.maximum(at, 0), last)]  # the last entry is that nothing comes


def reached(summed: Numbers, at: Positions, heat: Numbers | float) -> Positions:
    """Where a sum has grown by so much from each of some days on; :data:`NEVER` where the record ends before.

    Parameters
    ----------
    summed : ndarray, shape (days + 1,)
        Sum before each day.
    at : ndarray of int, shape (years,)
    heat : ndarray or float
    """
    days = len(summed) - 1
    found = summed.searchsorted(summed[np.minimum(np.maximum(at, 0), days)] + (heat - 1e-9))
    return np.where((found > days) | (at > days), NEVER, np.maximum(found, at))


def grown_by(growth: Growth, need: Need, heat: float) -> Positions:
    """Where the planting has had some of the warmth that it needs. [deg C days]"""
    if len(growth.parts) == 1:
        return reached(growth.last.sums(need.response, need.slows), growth.on, heat)
    left = np.full(len(growth.on), heat)
    found = np.full(len(growth.on), NEVER, dtype=np.int64)
    for number, (begins, weather) in enumerate(growth.parts):
        summed = weather.sums(need.response, need.slows)
        first = growth.on + begins
        here = reached(summed, first, left)
        if number + 1 == len(growth.parts):
            return np.where(found == NEVER, here, found)
        ends = growth.on + growth.parts[number + 1].begins
        found = np.where((found == NEVER) & (here <= ends), here, found)
        left = left - between(summed, first, ends)
    return found


def heat_until(growth: Growth, need: Need, until: Positions) -> Numbers:
    """Warmth that the planting has had from its start until some days. [deg C days]"""
    found = np.zeros(len(growth.on))
    for number, (begins, weather) in enumerate(growth.parts):
        first = np.minimum(growth.on + begins, until)
        ends = until
        if number + 1 < len(growth.parts):
            ends = np.minimum(growth.on + growth.parts[number + 1].begins, until)
        found += between(weather.sums(need.response, need.slows), first, ends)
    return found


def between(summed: Numbers, first: Positions, last: Positions) -> Numbers:
    """By how much a sum grows from a day to another."""
    days = len(summed) - 1
    found: Numbers = (
        summed[np.minimum(np.maximum(last, 0), days)] - summed[np.minimum(np.maximum(first, 0), days)]
    )
    return found


def coldest_night_from(
    growth: Growth, bears: float, first: Positions, until: Positions | int = NEVER
) -> Positions:
    """The first night from some days on that is as cold as what kills, where it grows and under the covers that lie then.

    Parameters
    ----------
    growth : Growth
    bears : float
        [deg C]
    first, until : ndarray of int
        The first day, and the day before which it must come.
    """
    if len(growth.parts) == 1:
        found = first_from(growth.last.colder_night(bears), np.maximum(first, growth.on))
        return np.where(found < until, found, NEVER)
    found = np.full(len(growth.on), NEVER, dtype=np.int64)
    for number, (begins, weather) in enumerate(growth.parts):
        night = first_from(weather.colder_night(bears), np.maximum(first, growth.on + begins))
        if number + 1 < len(growth.parts):
            night = np.where(night < growth.on + growth.parts[number + 1].begins, night, NEVER)
        found = np.minimum(found, night)
    return np.where(found < until, found, NEVER)
