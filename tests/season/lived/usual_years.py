"""The usual weather of a place as if it had been recorded: the same year again and again."""

from __future__ import annotations

import numpy as np

from planner.season.lived.recorded_weather import RecordedWeather, recorded_weather
from planner.season.lived.recorded_years import RecordedYears
from planner.season.usual_weather import UsualWeather

#: Days of the usual weather's year, which has a 29 February.
YEAR = 366


def usual_years(usual: UsualWeather, first_month: int, years: int) -> RecordedYears:
    """Identical years, and four more so that the last of them can be followed.

    Parameters
    ----------
    usual : UsualWeather
    first_month : int
    years : int
    """
    whole = years + 4
    low, high = np.tile(usual.low, whole), np.tile(usual.high, whole)
    return RecordedYears(
        years=np.arange(1901, 1901 + years),
        first_month=first_month,
        first_year=1900,
        january=np.arange(whole) * YEAR,
        leap=np.ones(whole, dtype=bool),
        low=low,
        high=high,
        night=low,
        rain=np.full(len(low), np.nan),
        evapotranspiration=np.full(len(low), np.nan),
        day_of_year=np.tile(np.arange(YEAR), whole),
    )


def usual_record(usual: UsualWeather, latitude: float, first_month: int, years: int = 30) -> RecordedWeather:
    """The same as recorded weather."""
    return recorded_weather(usual_years(usual, first_month, years), latitude, latitude < 0)
