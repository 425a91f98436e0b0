"""Recorded growing years: the days of a station's record, and where a day of the plan lies in each of them.

The record is one row of days without a break, and a growing year a place in it: what is planted in autumn is followed into
the days that really came after.  Short gaps are bridged, for sums of warmth only; a bridged night is never a frost.
"""

from __future__ import annotations

import calendar
import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.lazy import lazy_property
from planner.season.daily_weather import Numbers, Weather
from planner.season.temperatures import day_of_year_index

Positions = NDArray[np.int64]

#: Longest gap that is bridged, straight from the day before to the day after. [days]
MOST_BRIDGED = 3
#: Stands for a place beyond the record, or for what never comes.
NEVER = 1 << 40
#: Growing years over which a planting is followed from the one in which it starts.
FOLLOWED = 3
#: Place of 29 February in a year that has one.
_LEAP_DAY = 59


@dataclass(frozen=True, eq=False)
class RecordedYears:
    """The days of a record, and the growing years in it.

    Attributes
    ----------
    years : ndarray of int, shape (years,)
        Growing years of which at least the first day is in the record, named after the calendar year in which they begin.
    first_month : int
        Of the growing year.
    first_year : int
        Calendar year of the first entry of ``january``.
    january : ndarray of int
        Place of 1 January of each calendar year among the days; below 0 or beyond the last where it is not in the record.
    leap : ndarray of bool
        Whether each of these calendar years has a 29 February.
    low, high : ndarray, shape (days,)
        Minimum and maximum of each day, short gaps bridged; NaN in longer ones. [deg C]
    night : ndarray, shape (days,)
        Minimum as it was measured; NaN where it was not. [deg C]
    rain, evapotranspiration : ndarray, shape (days,)
        NaN where they are not known. [mm]
    day_of_year : ndarray of int, shape (days,)
        Place of each day in a leap year, from 0.
    bridged : int
        Days whose gap was bridged.
    """

    years: Positions
    first_month: int
    first_year: int
    january: Positions
    leap: NDArray[np.bool_]
    low: Numbers
    high: Numbers
    night: Numbers
    rain: Numbers
    evapotranspiration: Numbers
    day_of_year: Positions
    bridged: int = 0

    @property
    def days(self) -> int:
        """Number of days of the record."""
        return len(self.low)

    @lazy_property
    def lacking(self) -> Positions:
        """Days before each day, and before the end, that lack a minimum or a maximum; shape (days + 1,)."""
        found = np.zeros(self.days + 1, dtype=np.int64)
        np.cumsum(np.isnan(self.low) | np.isnan(self.high), out=found[1:])
        return found

    def places(self, day: dt.date, year: int) -> Positions:
        """Where a day of the plan lies in each recorded year; below 0 or from ``days`` on where that is not in the record.

        29 February is the 28th in a year without one.

        Parameters
        ----------
        day : date
        year : int
            The growing year of the plan that is held against each recorded one.

        Returns
        -------
        ndarray of int, shape (years,)
        """
        at = self.years + (day.year - year) - self.first_year
        known = np.minimum(np.maximum(at, 0), len(self.january) - 1)
        index = day_of_year_index(day)
        found = self.january[known] + index
        if index >= _LEAP_DAY:
            found = found - ~self.leap[known]
        return np.where((at >= 0) & (at < len(self.january)), found, np.where(at < 0, -NEVER, NEVER))

    def starts(self) -> Positions:
        """Place of the first day of each growing year."""
        return self.places(dt.date(2000, self.first_month, 1), 2000)

    def rows(self, values: Numbers, days: int = 366 * FOLLOWED) -> Numbers:
        """The days of each growing year and those that really came after it; NaN beyond the record.

        Parameters
        ----------
        values : ndarray, shape (days of the record,)
        days : int

        Returns
        -------
        ndarray, shape (years, days)
        """
        at = self.starts()[:, None] + np.arange(days)
        inside = (at >= 0) & (at < self.days)
        return np.where(inside, values[np.clip(at, 0, self.days - 1)], np.nan)


def recorded_years(weather: Weather, first_month: int) -> RecordedYears | None:
    """The growing years of daily weather; None where no day has both a minimum and a maximum.

    Parameters
    ----------
    weather : Weather
        At the height of the garden.
    first_month : int
        Of the growing year.
    """
    if np.isnan(weather.low + weather.high).all():
        return None
    first, last = weather.first, weather.last
    calendar_years = np.arange(first.year - 1, last.year + 2)
    january = np.array([(dt.date(year, 1, 1) - first).days for year in calendar_years.tolist()])
    leap = np.array([calendar.isleap(year) for year in calendar_years.tolist()])
    low, high = bridged(weather.low), bridged(weather.high)
    missing = np.isnan(weather.low) | np.isnan(weather.high)
    begins = [year for year in calendar_years.tolist() if first <= dt.date(year, first_month, 1) <= last]
    days = len(low)
    return RecordedYears(
        years=np.array(begins, dtype=np.int64),
        first_month=first_month,
        first_year=first.year - 1,
        january=january.astype(np.int64),
        leap=leap,
        low=low,
        high=high,
        night=weather.low,
        rain=weather.rain_in(first, last),
        evapotranspiration=weather.evapotranspiration_in(first, last),
        day_of_year=_days_of_year(january, leap, days),
        bridged=int((missing & ~(np.isnan(low) | np.isnan(high))).sum()),
    )


def _days_of_year(january: NDArray[np.int64], leap: NDArray[np.bool_], days: int) -> Positions:
    """Place in a leap year of each day of a record."""
    at = np.arange(days)
    year = np.searchsorted(january, at, side="right") - 1
    found = at - january[year]
    return np.where(~leap[year] & (found >= _LEAP_DAY), found + 1, found)


def bridged(values: Numbers, most: int = MOST_BRIDGED) -> Numbers:
    """Values with their short gaps filled, straight from the day before to the day after.

    Parameters
    ----------
    values : ndarray, shape (days,)
        NaN where they are missing.
    most : int
        Longest gap that is filled. [days]

    Examples
    --------
    >>> bridged(np.array([1.0, np.nan, 3.0, np.nan, np.nan, 9.0]), most=1).tolist()
    [1.0, 2.0, 3.0, nan, nan, 9.0]
    """
    missing = np.isnan(values)
    if not missing.any() or missing.all():
        return values
    known = np.flatnonzero(~missing)
    at = np.flatnonzero(missing)
    after = np.searchsorted(known, at)
    within = (after > 0) & (after < len(known))
    at, after = at[within], after[within]
    short = known[after] - known[after - 1] - 1 <= most
    at = at[short]
    found = values.copy()
    found[at] = np.interp(at, known, values[known])
    return found
