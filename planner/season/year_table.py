"""Daily weather laid out by year and day of the year, and quantiles over it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.season.daily_weather import Numbers, Weather

#: Days of a year without 29 February.
DAYS = 365
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class YearTable:
    """Daily weather, a row for each growing year and a column for each day; 29 February is left out.

    Attributes
    ----------
    first_month : int
        In which a year begins.
    years : tuple of int
        Calendar years in which the rows begin.
    low, high, rain : numpy.ndarray
        Of shape (years, 365); NaN where missing.  [deg C, deg C, mm]
    """

    first_month: int
    years: tuple[int, ...]
    low: Numbers
    high: Numbers
    rain: Numbers

    @property
    def months(self) -> tuple[int, ...]:
        """The months in their order."""
        return tuple((self.first_month - 1 + k) % 12 + 1 for k in range(12))

    @property
    def month_begins(self) -> tuple[int, ...]:
        """Day on which each of the months begins, and the day after the last: 13 of them."""
        begins = [day_index(dt.date(2001, month, 1), self.first_month) for month in self.months]
        return (*begins, DAYS)

    def date_of(self, index: int) -> dt.date:
        """A day of the year, in a year without 29 February."""
        first = dt.date(2001, self.first_month, 1)
        return (first + _DAY * index).replace(year=2001)


def day_index(day: dt.date, first_month: int) -> int:
    """Which day of a year of 365 a day is, counted from 0; 29 February is as 28 February.

    Parameters
    ----------
    day : date
    first_month : int
        In which the year begins.
    """
    common = dt.date(2001, day.month, min(day.day, 28) if day.month == 2 else day.day)
    begin = dt.date(2001, first_month, 1)
    return (common - begin).days % DAYS


def year_table(weather: Weather, first_month: int) -> YearTable:
    """Lay daily weather out by growing year; years without any minimum are left out.

    Parameters
    ----------
    weather : Weather
    first_month : int
        In which a growing year begins.
    """
    years, rows = [], []
    for year in range(weather.first.year - (first_month > 1), weather.last.year + 1):
        first = dt.date(year, first_month, 1)
        last = dt.date(year + 1, first_month, 1) - _DAY
        low, high = weather.part(first, last)
        if np.isnan(low).all():
            continue
        row = np.array([low, high, weather.rain_in(first, last)])
        if row.shape[1] > DAYS:
            leap = first.year if first_month < 3 else first.year + 1
            row = np.delete(row, (dt.date(leap, 2, 29) - first).days, axis=1)
        years.append(year)
        rows.append(row)
    table = np.array(rows) if rows else np.empty((0, 3, DAYS))
    return YearTable(first_month, tuple(years), table[:, 0], table[:, 1], table[:, 2])


def quantiles(values: Numbers, shares: Sequence[float]) -> Numbers:
    """Quantiles over the first axis, without what is missing; NaN where nothing is left.

    They lie linearly between ranks: type 7 of Hyndman and Fan (1996, The American Statistician 50:361-365), as numpy's.

    Parameters
    ----------
    values : numpy.ndarray
        Of shape (n, ...).
    shares : sequence of float
        0 to 1.

    Returns
    -------
    numpy.ndarray
        Of shape (shares, ...).
    """
    ranked = np.sort(values, axis=0)  # what is missing comes last
    count = np.count_nonzero(~np.isnan(values), axis=0)
    found = []
    for share in shares:
        at = share * np.maximum(count - 1, 0)
        below = np.floor(at + 1e-12).astype(np.int64)
        part = np.maximum(at - below, 0.0)
        low = np.take_along_axis(ranked, below[None], axis=0)[0]
        high = np.take_along_axis(ranked, np.minimum(below + 1, np.maximum(count - 1, 0))[None], axis=0)[0]
        found.append(np.where(count > 0, low + part * (high - low), np.nan))
    return np.array(found)


def around_days(values: Numbers, window: int) -> Numbers:
    """For each day of the year the values of all years within a window about it, the year's end joined to its beginning.

    Parameters
    ----------
    values : numpy.ndarray
        Of shape (years, 365).
    window : int
        Odd. [days]

    Returns
    -------
    numpy.ndarray
        Of shape (years * window, 365).
    """
    shifts = np.arange(window) - window // 2
    at = (np.arange(DAYS)[None, :] + shifts[:, None]) % DAYS
    return values[:, at].reshape(-1, DAYS)
