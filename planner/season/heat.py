"""Temperatures by day from monthly means, degree-days, and emergence by temperature."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from planner.crops import Series
from planner.garden import Climate

#: Base temperature of degree-days of crops that bear frost (40 F). [deg C]
COOL_BASE = 40 / 1.8 - 32 / 1.8
#: Base temperature of degree-days of crops that frost kills (50 F). [deg C]
WARM_BASE = 10.0
#: Temperature above which warm crops grow no faster (86 F). [deg C]
CEILING = 30.0
#: Temperature at which seed comes up indoors. [deg C]
INDOORS = 20.0
#: A heat sum that takes longer is not reached. [days]
LONGEST = 500
#: Longest time over which heat is summed. [days]
LONGEST_SUM = 700

#: Day of a leap year, from 0, in the middle of each month. [days]
_MID_MONTH = np.array([15.5, 45.0, 74.5, 105.0, 135.5, 166.0, 196.5, 227.5, 258.0, 288.5, 319.0, 349.5])

Numbers = NDArray[np.float64]


def degree_days(low: Any, high: Any, base: float, most: float | None = None, method: int = 1) -> Numbers:
    """Degree-days of days, after McMaster and Wilhelm.

    Method 1 compares the day's mean with the bounds, method 2 minimum and maximum each.

    Parameters
    ----------
    low, high : array_like
        Minimum and maximum of each day, in the unit of ``base``.
    base : float
        Below it nothing grows. [deg C, or any degree]
    most : float, optional
        Above it nothing grows faster.
    method : int
        1 or 2.

    Examples
    --------
    >>> float(degree_days(46, 72, 50, 86, method=2))
    11.0
    >>> float(degree_days(46, 72, 50))
    9.0
    """
    least, top = np.asarray(low, dtype=np.float64), np.asarray(high, dtype=np.float64)
    ceiling = np.inf if most is None else most
    if method == 2:
        return (np.clip(least, base, ceiling) + np.clip(top, base, ceiling)) / 2 - base
    if method != 1:
        raise ValueError(f"method {method} is none of 1, 2")
    return np.clip((least + top) / 2, base, ceiling) - base


@lru_cache(maxsize=64)
def _by_day(monthly: tuple[float, ...]) -> Numbers:
    """A value for each of 366 days of the year, linear between the middles of the months."""
    at = np.arange(366) + 0.5
    found: Numbers = np.interp(at, _MID_MONTH, np.asarray(monthly), period=366.0)
    return found


def day_of_year_index(day: dt.date) -> int:
    """Position of a day in a leap year, from 0, so that a date has the same one in every year."""
    return dt.date(2000, day.month, day.day).timetuple().tm_yday - 1


def mean_on(climate: Climate, day: dt.date) -> float | None:
    """Mean air temperature on a day of the year, from the monthly means; None where they are not known. [deg C]"""
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if low is None or high is None:
        return None
    at = day_of_year_index(day)
    return float(_by_day(low)[at] + _by_day(high)[at]) / 2


@lru_cache(maxsize=64)
def _sums(
    low: tuple[float, ...], high: tuple[float, ...], base: float, clipped: bool, warmer: float
) -> Numbers:
    """Degree-days from the first of January to each day of three years. [deg C days]"""
    least, top = _by_day(low) + warmer, _by_day(high) + warmer
    daily = degree_days(least, top, base, CEILING, method=2) if clipped else degree_days(least, top, base)
    return np.concatenate([[0.0], np.cumsum(np.concatenate([daily, daily, daily]))])


def heat_between(
    climate: Climate, first: dt.date, days: int, base: float, *, clipped: bool = False, warmer: float = 0.0
) -> float | None:
    """Degree-days from a day on, from the monthly means; None where they are not known. [deg C days]

    Parameters
    ----------
    climate : Climate
    first : date
    days : int
        How many, 700 at most. [days]
    base : float
        [deg C]
    clipped : bool
        Minimum and maximum are each clipped to the base and 30 °C (86 °F), as in published heat sums of warm
        crops; else the plain mean counts.
    warmer : float
        Warmth of the place over the open ground. [deg C]
    """
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return None
    sums = _sums(climate.monthly_minimum, climate.monthly_maximum, base, clipped, warmer)
    at = day_of_year_index(first)
    return float(sums[at + min(days, LONGEST_SUM)] - sums[at])


def days_for(
    climate: Climate, first: dt.date, heat: float, base: float, *, clipped: bool = False, warmer: float = 0.0
) -> int | None:
    """Days from a day on until a heat sum is reached; None where that takes over 500.

    Parameters
    ----------
    climate, first, base, clipped, warmer
        As for :func:`heat_between`.
    heat : float
        [deg C days]
    """
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return None
    sums = _sums(climate.monthly_minimum, climate.monthly_maximum, base, clipped, warmer)
    at = day_of_year_index(first)
    found = int(np.searchsorted(sums[at:] - sums[at], heat - 1e-9))
    return found if found <= LONGEST else None


def emergence(series: Series | None, temperature: float | None) -> float | None:
    """Days to emergence at a constant soil temperature; None where it is not known.

    Parameters
    ----------
    series : Series, optional
        The crop's table; linear between its temperatures, level beyond them.
    temperature : float, optional
        [deg C]
    """
    if series is None or not series.at or temperature is None:
        return None
    at = [pair[0] for pair in series.at]
    return float(np.interp(temperature, at, [pair[1] for pair in series.at]))


def emergence_outdoors(series: Series | None, climate: Climate, sown: dt.date) -> int | None:
    """Days to emergence outdoors: each day adds its share at that day's mean air temperature.

    None where the temperatures or the table are not known.

    Parameters
    ----------
    series : Series, optional
        The crop's table of days by temperature.
    climate : Climate
    sown : date
    """
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if series is None or not series.at or low is None or high is None:
        return None
    mean = (_by_day(low) + _by_day(high)) / 2
    ahead = np.concatenate([mean, mean])[day_of_year_index(sown) :][:366]
    at = [pair[0] for pair in series.at]
    shares = np.cumsum(1 / np.maximum(np.interp(ahead, at, [pair[1] for pair in series.at]), 0.5))
    return int(np.searchsorted(shares, 1 - 1e-9)) + 1
