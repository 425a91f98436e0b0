"""Daily weather of a place: lowest and highest temperature of each day, and rain and evapotranspiration where they are known."""

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
    """Weather by day, without gaps in the days.

    Attributes
    ----------
    first : date
        Day of the first entry.
    low, high : numpy.ndarray
        NaN where it is missing. [deg C]
    notes : tuple of str
        What was left out or looks odd, a sentence each.
    rain : numpy.ndarray, optional
        Precipitation of each day; NaN where it is missing, None where none was measured. [mm]
    evapotranspiration : numpy.ndarray, optional
        Of the reference grass, where more than temperature was measured; NaN where it is missing. [mm]
    """

    first: dt.date
    low: Numbers
    high: Numbers
    notes: tuple[str, ...] = ()
    rain: Numbers | None = None
    evapotranspiration: Numbers | None = None

    @property
    def last(self) -> dt.date:
        """Day of the last entry."""
        return self.first + dt.timedelta(days=len(self.low) - 1)

    def part(self, first: dt.date, last: dt.date) -> tuple[Numbers, Numbers]:
        """Minimum and maximum from a first to a last day; NaN beyond the entries. [deg C]"""
        return self._cut(self.low, first, last), self._cut(self.high, first, last)

    def rain_in(self, first: dt.date, last: dt.date) -> Numbers:
        """Precipitation from a first to a last day; NaN where it is not known. [mm]"""
        return self._cut(self.rain, first, last)

    def evapotranspiration_in(self, first: dt.date, last: dt.date) -> Numbers:
        """Evapotranspiration of the reference grass from a first to a last day; NaN where it is not known. [mm]"""
        return self._cut(self.evapotranspiration, first, last)

    def _cut(self, values: Numbers | None, first: dt.date, last: dt.date) -> Numbers:
        days = (last - first).days + 1
        found = np.full(days, np.nan)
        if values is None:
            return found
        shift = (first - self.first).days
        begin, end = max(0, shift), min(len(values), shift + days)
        if begin < end:
            found[begin - shift : end - shift] = values[begin:end]
        return found
