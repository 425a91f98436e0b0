"""Reference evapotranspiration and rain of a garden's recorded years, laid onto the days of a growing year."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.garden import Climate, Site
from planner.garden.weather_years import WeatherYears
from planner.season.daily_weather import Weather
from planner.season.temperatures import USUAL_LATITUDE, day_of_year_index, year_of
from planner.season.water.radiation import radiation_above
from planner.season.water.reference_evapotranspiration import days_of_year, evapotranspiration_of, hargreaves
from planner.season.weather_years import weather_of_garden

Numbers = NDArray[np.float64]

#: A recorded year with more missing days than this, of temperature or of rain, is left out. [days]
MOST_MISSING = 30


@dataclass(frozen=True, eq=False)
class WaterWeather:
    """What the sky takes and gives on each day of the growing year, in each recorded year.

    Attributes
    ----------
    first : date
        First day of the growing year.
    reference : ndarray, shape (days, years)
        Reference evapotranspiration. [mm/day]
    rain : ndarray, shape (days, years)
        [mm/day]
    low, high : ndarray, shape (days,)
        Mean temperature of the day over the years. [deg C]
    years : tuple of int
        Calendar year in which each recorded growing year begins; empty where the monthly means stand for all years.
    latitude : float
        [degrees north]
    rain_known : bool
        False where no rain was recorded: then all that crops take is needed.
    filled : int
        Days of the years used on which a temperature or the rain was missing: by the mean of the day in other years, and dry.
    left_out : int
        Recorded years left out since too much of them is missing.
    """

    first: dt.date
    reference: Numbers
    rain: Numbers
    low: Numbers
    high: Numbers
    years: tuple[int, ...]
    latitude: float
    rain_known: bool
    filled: int = 0
    left_out: int = 0

    def __post_init__(self) -> None:
        for values in (self.reference, self.rain, self.low, self.high):
            values.flags.writeable = False

    @property
    def rough(self) -> bool:
        """Whether it rests on monthly means, so that no year is drier than another."""
        return not self.years

    @property
    def days(self) -> int:
        """Days of the growing year."""
        return int(self.reference.shape[0])


def water_weather(
    kept: WeatherYears, site: Site, climate: Climate, first: dt.date, days: int
) -> WaterWeather | None:
    """The weather of a growing year, from recorded years where there are any, else from the monthly means.

    Parameters
    ----------
    kept : WeatherYears
    site : Site
    climate : Climate
    first : date
        First day of the growing year.
    days : int
        Its length.

    Returns
    -------
    WaterWeather or None
        None where neither recorded years nor means nor both frosts are known.
    """
    latitude = site.latitude if site.latitude is not None else kept.latitude
    if latitude is None:
        latitude = -USUAL_LATITUDE if site.southern else USUAL_LATITUDE
    recorded = weather_of_garden(kept, site)
    if recorded is not None:
        found = _of_years(recorded, latitude, first, days)
        if found is not None:
            return found
    return of_means(climate, latitude, first, days)


def _of_years(recorded: Weather, latitude: float, first: dt.date, days: int) -> WaterWeather | None:
    reference = evapotranspiration_of(recorded, latitude)
    rain_known = recorded.rain is not None
    rain = recorded.rain if recorded.rain is not None else np.zeros(len(reference))
    columns, years, left_out = [], [], 0
    for year in range(recorded.first.year - 1, recorded.last.year + 1):
        begin = (first.replace(year=year) - recorded.first).days
        if begin < 0 or begin + days - 1 > len(reference):  # a leap day more or less is no gap
            continue
        part = slice(begin, min(begin + days, len(reference)))
        parts = [_padded(one[part], days) for one in (reference, rain, recorded.low, recorded.high)]
        missing = max(int(np.isnan(parts[0]).sum()), int(np.isnan(parts[1]).sum()))
        if missing > MOST_MISSING:
            left_out += 1
            continue
        columns.append(parts)
        years.append(year)
    if not columns:
        return None
    of_reference, of_rain, low, high = (
        np.stack([one[place] for one in columns], axis=1) for place in range(4)
    )
    gaps = np.isnan(of_reference)
    filled = int((gaps | np.isnan(of_rain)).sum())
    of_day = _mean_of_day(of_reference)
    of_reference = np.where(gaps, of_day[:, None], of_reference)
    return WaterWeather(
        first=first,
        reference=of_reference,
        rain=np.nan_to_num(of_rain),
        low=_mean_of_day(low),
        high=_mean_of_day(high),
        years=tuple(years),
        latitude=latitude,
        rain_known=rain_known,
        filled=filled,
        left_out=left_out,
    )


def _padded(values: Numbers, days: int) -> Numbers:
    """A year that ends a day before the record's end is lengthened by its last day."""
    return values if len(values) == days else np.concatenate([values, values[-1:]])


def _mean_of_day(values: Numbers) -> Numbers:
    """Mean over the years of each day; of days that no year has, that of the whole year."""
    known = ~np.isnan(values)
    count = known.sum(axis=1)
    sums = np.where(known, values, 0.0).sum(axis=1)
    means = np.where(count > 0, sums / np.maximum(count, 1), np.nan)
    found: Numbers = np.where(np.isnan(means), np.nanmean(means), means)
    return found


def of_means(climate: Climate, latitude: float, first: dt.date, days: int) -> WaterWeather | None:
    """The weather of a growing year by the monthly means, without rain; None where they are not known.

    Parameters
    ----------
    climate : Climate
    latitude : float
        [degrees north]
    first : date
        First day of the growing year.
    days : int
        Its length.
    """
    usual = year_of(climate, latitude)
    if usual is None:
        return None
    order = [day_of_year_index(first + dt.timedelta(days=day)) for day in range(days)]
    low, high = usual[0][order], usual[1][order]
    reference = hargreaves(low, high, radiation_above(latitude, days_of_year(first, days)))
    return WaterWeather(
        first=first,
        reference=reference[:, None],
        rain=np.zeros((days, 1)),
        low=low,
        high=high,
        years=(),
        latitude=latitude,
        rain_known=False,
    )
