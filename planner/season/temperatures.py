"""Temperature over the year of a place, from what is known of its climate.

Days are those of a leap year, so that a date has the same place in every year.
"""

from __future__ import annotations

import datetime as dt
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from planner.garden import Climate
from planner.season.frosts import day_in, shift, zone_minimum
from planner.season.thermal_time import Numbers

#: Days of a leap year's months.
_MONTHS = np.array([31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
_YEAR = 366
#: Days of the year before each month.
_BEFORE_MONTH = (0, 31, 60, 91, 121, 152, 182, 213, 244, 274, 305, 335)
#: Latitude of a garden that gives none. [degrees]
USUAL_LATITUDE = 45.0
#: Mean minimum of the day on which the last or first frost comes in half of the years: the median of the places of
#: ``growing_places.toml``, from 4.3 to 8.4 there. [deg C]
MINIMUM_AT_FROST = 6.5
#: The coldest night of a year lies this far below the mean minimum of its coldest month (estimate: 8 by the sea, 13
#: far from it). [deg C]
COLDEST_NIGHT = 10.0
#: From minimum to maximum of a day where only frosts are known: the median of the same places, from 7.7 to 14.5. [deg C]
DAILY_RANGE = 11.0
#: Middle of the coldest time of the year, after the shortest day (practice). [days]
LAG = 28
#: Warmest month less coldest month, by latitude, where no zone is known (estimate). [deg C per degree]
_RANGE_BY_LATITUDE = 0.38
#: Half the width of a half zone. [deg C]
_MIDDLE_OF_ZONE = 1.4


def day_of_year_index(day: dt.date) -> int:
    """Position of a day in a leap year, from 0, so that a date has the same one in every year."""
    return _BEFORE_MONTH[day.month - 1] + day.day - 1


@lru_cache(maxsize=1)
def _interpolation() -> tuple[Numbers, Numbers]:
    """Weights of the middles of months for each day; and those of them that give the months' own means back."""
    middles = np.cumsum(_MONTHS) - _MONTHS / 2
    at = np.arange(_YEAR) + 0.5
    weights = np.stack(
        [np.interp(at, middles, np.eye(12)[month], period=_YEAR) for month in range(12)], axis=1
    )
    month_of = np.repeat(np.arange(12), _MONTHS)
    means = np.stack([weights[month_of == month].mean(axis=0) for month in range(12)])
    return weights, np.linalg.inv(means)


@lru_cache(maxsize=128)
def by_day(monthly: tuple[float, ...]) -> Numbers:
    """A value for each day of the year, whose mean over each month is that month's.

    Linear between values at the middles of the months, which are chosen so that the means are kept (the condition of
    Rymes and Myers 2001, Solar Energy 71, 225-231).

    Parameters
    ----------
    monthly : tuple of 12 float

    Returns
    -------
    ndarray, shape (366,)
    """
    weights, keeping = _interpolation()
    found: Numbers = weights @ (keeping @ np.asarray(monthly, dtype=np.float64))
    found.flags.writeable = False
    return found


def year_of(climate: Climate, latitude: float | None) -> tuple[Numbers, Numbers, bool] | None:
    """Mean minimum and maximum of each day of a year, and whether they are rough: made from frosts and latitude.

    None where neither monthly means nor both frosts are known.

    Parameters
    ----------
    climate : Climate
    latitude : float, optional
        [degrees north]
    """
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if low is not None and high is not None:
        return by_day(low), by_day(high), False
    found = _from_frosts(climate, latitude)
    return None if found is None else (found, found + DAILY_RANGE, True)


def _from_frosts(climate: Climate, latitude: float | None) -> Numbers | None:
    """Mean minimum of each day: a cosine over the year that has the minimum of frost days on both frosts.

    Its width is the mean of what the latitude and the coldest night of the hardiness zone ask for, or follows from the
    latitude alone.
    """
    if climate.last_frost is None or climate.first_frost is None:
        return None
    spring = day_of_year_index(day_in(climate.last_frost.at(50), 2000))
    autumn = day_of_year_index(day_in(climate.first_frost.at(50), 2000))
    at = USUAL_LATITUDE if latitude is None else latitude
    southern = at < 0 or (latitude is None and spring > autumn)
    coldest = (172 if southern else 355) + LAG
    course = -np.cos(
        2 * np.pi * (np.arange(_YEAR) - coldest) / _YEAR
    )  # -1 in the coldest time, 1 in the warmest
    on_frosts = (course[spring] + course[autumn]) / 2
    night = zone_minimum(climate.zone)
    half = _RANGE_BY_LATITUDE * abs(at) / 2
    if night is not None and on_frosts > -0.9:
        # minimum(frost) = mean + half * on_frosts, minimum(coldest) = mean - half
        by_zone = (MINIMUM_AT_FROST - (night - _MIDDLE_OF_ZONE + COLDEST_NIGHT)) / (1 + on_frosts)
        half = (half + by_zone) / 2
    half = float(np.clip(half, 3.0, 20.0))
    low: Numbers = MINIMUM_AT_FROST - half * on_frosts + half * course
    return low


def first_day(wanted: NDArray[np.bool_], after: dt.date) -> dt.date | None:
    """The first day on or after another for which something holds; None where it never does.

    Parameters
    ----------
    wanted : ndarray of bool, shape (366,)
    after : date
    """
    at = day_of_year_index(after)
    here = at + int(wanted[at:].argmax())
    if wanted[here]:
        return shift(after, here - at)
    again = int(wanted.argmax())
    return shift(after, _YEAR - at + again) if wanted[again] else None


def mean_on(climate: Climate, day: dt.date) -> float | None:
    """Mean air temperature on a day of the year, from the monthly means; None where they are not known. [deg C]"""
    low, high = climate.monthly_minimum, climate.monthly_maximum
    if low is None or high is None:
        return None
    at = day_of_year_index(day)
    return float(by_day(low)[at] + by_day(high)[at]) / 2
