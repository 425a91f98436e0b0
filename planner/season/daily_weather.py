"""Daily weather of a place: the lowest and highest temperature of each day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.errors import BedwrightError

Numbers = NDArray[np.float64]


class WeatherError(BedwrightError):
    """Daily weather that cannot be used."""


@dataclass(frozen=True)
class Weather:
    """Minimum and maximum temperature by day, without gaps in the days.

    Attributes
    ----------
    first : date
        Day of the first entry.
    low, high : numpy.ndarray
        NaN where it is missing. [deg C]
    notes : tuple of str
        What was left out or looks odd, a sentence each.
    """

    first: dt.date
    low: Numbers
    high: Numbers
    notes: tuple[str, ...] = ()

    @property
    def last(self) -> dt.date:
        """Day of the last entry."""
        return self.first + dt.timedelta(days=len(self.low) - 1)

    def part(self, first: dt.date, last: dt.date) -> tuple[Numbers, Numbers]:
        """Minimum and maximum from a first to a last day; NaN beyond the entries. [deg C]"""
        days = (last - first).days + 1
        low, high = np.full(days, np.nan), np.full(days, np.nan)
        shift = (first - self.first).days
        begin, end = max(0, shift), min(len(self.low), shift + days)
        if begin < end:
            low[begin - shift : end - shift] = self.low[begin:end]
            high[begin - shift : end - shift] = self.high[begin:end]
        return low, high
