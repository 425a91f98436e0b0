"""Temperatures by day from monthly means, degree-days, and soil warmth."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from planner.crops import Series
from planner.garden import Climate

#: Base temperatures of degree-days: crops that stand frost, and crops that do not (40 and 50 F). [deg C]
COOL_BASE, WARM_BASE = 40 / 1.8 - 32 / 1.8, 10.0
#: Above it warm crops grow no faster (86 F). [deg C]
CEILING = 30.0
#: Indoors a seed comes up at about this. [deg C]
INDOORS = 20.0
#: Days in which a heat sum must be reached.
LONGEST = 500

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
    """A value for each of 366 days of the year, between the middles of the months."""
    at = np.arange(366) + 0.5
    found: Numbers = np.interp(at, _MID_MONTH, np.asarray(monthly), period=366.0)
    return found


def _place(day: dt.date) -> int:
    """Position of a day in a leap year, from 0."""
    return dt.date(2000, day.month, day.day).timetuple().tm_yday - 1


def mean_on(climate: Climate, day: dt.date) -> float | None:
    """Mean air temperature on a day of the year, from the monthly means. [deg C]"""
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if low is None or high is None:
        return None
    at = _place(day)
    return float(_by_day(low)[at] + _by_day(high)[at]) / 2


@lru_cache(maxsize=64)
def _sums(
    low: tuple[float, ...], high: tuple[float, ...], base: float, clipped: bool, warmer: float
) -> Numbers:
    least, top = _by_day(low) + warmer, _by_day(high) + warmer
    daily = degree_days(least, top, base, CEILING, method=2) if clipped else degree_days(least, top, base)
    return np.concatenate([[0.0], np.cumsum(np.concatenate([daily, daily, daily]))])


def heat_between(
    climate: Climate, first: dt.date, days: int, base: float, *, clipped: bool = False, warmer: float = 0.0
) -> float | None:
    """Degree-days of some days from a day on, from the monthly means. [deg C days]

    Parameters
    ----------
    climate : Climate
    first : date
    days : int
    base : float
        [deg C]
    clipped : bool
        Minimum and maximum each held between the base and 30 °C (86 °F), the way heat sums of warm crops are
        published; else the plain mean.
    warmer : float
        So much warmer than the open ground it is there. [deg C]
    """
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return None
    sums = _sums(climate.monthly_minimum, climate.monthly_maximum, base, clipped, warmer)
    at = _place(first)
    return float(sums[at + min(days, 700)] - sums[at])


def days_for(
    climate: Climate, first: dt.date, heat: float, base: float, *, clipped: bool = False, warmer: float = 0.0
) -> int | None:
    """Days from a day on until a heat sum is reached, as for :func:`heat_between`; None where that takes over 500."""
    if climate.monthly_minimum is None or climate.monthly_maximum is None:
        return None
    sums = _sums(climate.monthly_minimum, climate.monthly_maximum, base, clipped, warmer)
    at = _place(first)
    found = int(np.searchsorted(sums[at:] - sums[at], heat - 1e-9))
    return found if found <= LONGEST else None


def emergence(series: Series | None, temperature: float | None) -> float | None:
    """Days to emergence at a soil temperature, between the published ones; None where unknown."""
    if series is None or not series.at or temperature is None:
        return None
    at = [pair[0] for pair in series.at]
    return float(np.interp(temperature, at, [pair[1] for pair in series.at]))


def emergence_outdoors(series: Series | None, climate: Climate, sown: dt.date) -> int | None:
    """Days to emergence outdoors: each day adds its share at that day's mean air temperature.

    None where the temperatures or the table are not known.
    """
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if series is None or not series.at or low is None or high is None:
        return None
    mean = (_by_day(low) + _by_day(high)) / 2
    ahead = np.concatenate([mean, mean])[_place(sown) :][:366]
    at = [pair[0] for pair in series.at]
    shares = np.cumsum(1 / np.maximum(np.interp(ahead, at, [pair[1] for pair in series.at]), 0.5))
    return int(np.searchsorted(shares, 1 - 1e-9)) + 1
