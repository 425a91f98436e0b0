"""Frost dates of a place from its daily weather, by threshold and risk.

- Spring runs from 1 January to 31 July, autumn from 1 August to 31 December; south of the equator
  from 1 July to 31 January, and from 1 February to 30 June.  A frost is a day whose minimum is at or
  below the threshold.
- A year is left out of a season of which more than 10 days lack a minimum, or more than 3 of the 30
  days between the frost found and summer.
- The date at a risk is a quantile over the years, linear between ranks (type 7 of Hyndman and Fan
  1996, numpy's and scipy's usual one), rounded to the day.  A year without frost counts as earlier
  than all others in spring and as later in autumn.
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.season.daily_weather import Numbers, Weather
from planner.season.temperatures import day_of_year_index

#: Minimum temperatures at or below which a day has a frost: 32, 28 and 24 F. [deg C]
THRESHOLDS = (0.0, -2.2, -4.4)
#: Chance of frost after the spring date, or before the autumn one. [%]
RISKS = (10, 50, 90)
#: A season, or the cold months of a year, with more days without a minimum is left out. [days]
MOST_MISSING = 10
#: Days between the frost found and summer that must be nearly complete. [days]
NEAR = 30
#: A season with more of these days missing is left out. [days]
MOST_NEAR = 3

_DAY = dt.timedelta(days=1)
#: First and last day of spring as (month, day), by whether the place lies in the south.
_SPRING = {False: ((1, 1), (7, 31)), True: ((7, 1), (1, 31))}
#: First and last day of autumn as (month, day), by whether the place lies in the south.
_AUTUMN = {False: ((8, 1), (12, 31)), True: ((2, 1), (6, 30))}


@dataclass(frozen=True)
class FrostSeason:
    """The frosts of one season at one threshold.

    Attributes
    ----------
    threshold : float
        [deg C]
    spring, southern : bool
    days : tuple of (int, date or None)
        Year in which the season begins, and the day; None in a year without such a frost.
    left_out : tuple of int
        Years left out for their gaps.
    """

    threshold: float
    spring: bool
    southern: bool
    days: tuple[tuple[int, dt.date | None], ...]
    left_out: tuple[int, ...]

    @property
    def years(self) -> int:
        """Number of years that count."""
        return len(self.days)

    def at_risk(self, risk: float) -> str | None:
        """The day MM-DD at a risk of frost after it (spring) or before it (autumn). [%]

        None where no year counts, or where so few years have a frost that the day is none.
        """
        if not self.days:
            return None
        none = -math.inf if self.spring else math.inf
        start = _SPRING if self.spring else _AUTUMN
        month, day = start[self.southern][0]
        first = day_of_year_index(dt.date(2000, month, day))
        since = [(day_of_year_index(d) - first) % 366 if d is not None else none for _, d in self.days]
        found = _quantile(since, 1 - risk / 100 if self.spring else risk / 100)
        if not math.isfinite(found):
            return None
        at = dt.date(2000, month, day) + _DAY * math.floor(found + 0.5)
        return f"{at:%m-%d}"


def _quantile(values: Sequence[float], share: float) -> float:
    """Quantile of values, linear between ranks; infinite where a rank it lies between is.

    Parameters
    ----------
    values : sequence of float
    share : float
        0 to 1.
    """
    ranked = sorted(values)
    at = share * (len(ranked) - 1)
    below = math.floor(at + 1e-12)
    part = max(0.0, at - below)
    low = ranked[below]
    if part < 1e-9:
        return low
    high = ranked[min(below + 1, len(ranked) - 1)]
    if math.isinf(low) or math.isinf(high):
        return low if math.isinf(low) else high
    return low + part * (high - low)


def frost_season(weather: Weather, threshold: float, spring: bool, southern: bool) -> FrostSeason:
    """Last spring or first autumn frost of every year of a table that has few enough gaps.

    Parameters
    ----------
    weather : Weather
    threshold : float
        [deg C]
    spring : bool
        Last frosts of spring; else first ones of autumn.
    southern : bool
    """
    (m0, d0), (m1, d1) = (_SPRING if spring else _AUTUMN)[southern]
    days: list[tuple[int, dt.date | None]] = []
    left_out: list[int] = []
    for year in range(weather.first.year - 1, weather.last.year + 1):
        first, last = dt.date(year, m0, d0), dt.date(year + (m1 < m0), m1, d1)
        if last < weather.first or first > weather.last:
            continue
        low, _ = weather.part(first, last)
        if np.isnan(low).all():
            continue
        at, complete = _frost_in(low, threshold, spring)
        if complete:
            days.append((year, first + _DAY * at if at is not None else None))
        else:
            left_out.append(year)
    return FrostSeason(threshold, spring, southern, tuple(days), tuple(left_out))


def _frost_in(low: Numbers, threshold: float, spring: bool) -> tuple[int | None, bool]:
    """Position of the last or first frost in a season, and whether its days are complete enough.

    Parameters
    ----------
    low : numpy.ndarray
        Minimum of each day of the season; NaN where it is missing. [deg C]
    threshold : float
        [deg C]
    spring : bool
        The last frost; else the first one.
    """
    gaps = np.isnan(low)
    enough = bool(np.count_nonzero(gaps) <= MOST_MISSING)
    frosts = np.flatnonzero(np.where(gaps, np.inf, low) <= threshold + 1e-9)
    if not len(frosts):
        return None, enough
    at = int(frosts[-1] if spring else frosts[0])
    towards_summer = gaps[at + 1 : at + 1 + NEAR] if spring else gaps[max(0, at - NEAR) : at]
    return at, enough and bool(np.count_nonzero(towards_summer) <= MOST_NEAR)
