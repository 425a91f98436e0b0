"""What recorded years tell of a place: frosts, warmth over the year, degree-days, rain, dry spells and the trend."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.garden import Site, WeatherYears
from planner.season.daily_weather import Numbers, Weather
from planner.season.frost_seasons import FrostSeason, frost_season
from planner.season.student_t import for_both_tails
from planner.season.weather_gaps import longest_run, runs
from planner.season.weather_years import weather_of_garden
from planner.season.year_table import YearTable, around_days, day_index, quantiles, year_table

#: Days about each day of the year whose values its bands are taken from. [days]
WINDOW = 15
#: Shares of years of a band: its lower edge, its middle, its upper edge.
SHARES = (0.1, 0.5, 0.9)
#: Base of degree-days where none is chosen: the usual one of cool-season crops (practice). [deg C]
USUAL_BASE = 5.0
#: A day with less rain is dry (the usual bound of a dry day: Zhang X and others 2011, WIREs Climate Change 2:851-870, CDD). [mm]
DRY = 1.0
#: A year with more days missing is left out of degree-days and of the trend. [days]
MOST_MISSING = 10
#: Fewer years give no trend.
LEAST_OF_TREND = 5
#: Chance that the interval of a trend holds the true one.
CONFIDENCE = 0.95


@dataclass(frozen=True)
class Bands:
    """Warmth over the year, each of shape (5, 365): least, 10 %, middle, 90 %, most of all years. [deg C]

    Quantiles and extremes are of the days within :data:`WINDOW` about each day.
    """

    low: Numbers
    high: Numbers


@dataclass(frozen=True)
class Heat:
    """Degree-days from the beginning of the year on: the mean of minimum and maximum over a base, where it is above it.

    Attributes
    ----------
    base : float
        [deg C]
    years : tuple of int
        Those that are complete enough; on a missing day they have the mean of the other years.
    sums : numpy.ndarray
        Of shape (years, 365). [deg C days]
    bands : numpy.ndarray
        Of shape (3, 365): 10 %, middle, 90 % of years. [deg C days]
    """

    base: float
    years: tuple[int, ...]
    sums: Numbers
    bands: Numbers


@dataclass(frozen=True)
class Rain:
    """Rain by month and dry spells.

    Attributes
    ----------
    monthly : numpy.ndarray
        Of shape (years, 12), from the first month of the growing year on; NaN of months with a day missing. [mm]
    bands : numpy.ndarray
        Of shape (3, 12): 10 %, middle, 90 % of years. [mm]
    yearly : numpy.ndarray
        Of shape (years,); NaN of years with a day missing. [mm]
    spells : tuple of (int, date, int)
        The year, the first day and the days of the longest dry spell that begins in each growing year; 0 days where none does.
        A day that is missing ends a spell.
    monthly_spells : numpy.ndarray
        Of shape (years, 12): longest dry spell within the month; NaN of months with a day missing. [days]
    """

    monthly: Numbers
    bands: Numbers
    yearly: Numbers
    spells: tuple[tuple[int, dt.date, int], ...]
    monthly_spells: Numbers


@dataclass(frozen=True)
class Trend:
    """Straight line through the mean temperatures of years, by least squares.

    Attributes
    ----------
    years : tuple of int
    means : numpy.ndarray
        [deg C]
    slope : float
        [deg C / year]
    low, high : float
        Interval of the slope, by Student's t with two degrees of freedom less than years. [deg C / year]
    middle : tuple of (float, float)
        A point on the line: the mean year and the mean of the means.
    """

    years: tuple[int, ...]
    means: Numbers
    slope: float
    low: float
    high: float
    middle: tuple[float, float]

    @property
    def is_proven(self) -> bool:
        """Whether the interval leaves 0 out."""
        return self.low > 0 or self.high < 0

    def at(self, year: float) -> float:
        """The line in a year. [deg C]"""
        return self.middle[1] + self.slope * (year - self.middle[0])


@dataclass(frozen=True)
class PlaceWeather:
    """The weather of a place.

    Attributes
    ----------
    weather : Weather
        At the height of the garden.
    table : YearTable
    spring, autumn : FrostSeason
        Last and first frosts at 0 deg C.
    bands : Bands
    rain : Rain or None
        None where none was measured.
    trend : Trend or None
        None with too few years.
    """

    weather: Weather
    table: YearTable
    spring: FrostSeason
    autumn: FrostSeason
    bands: Bands
    rain: Rain | None
    trend: Trend | None

    def frost_index(self, spring: bool, risk: int) -> int | None:
        """The day of the year of a frost at a risk, as index; None where it is none."""
        season = self.spring if spring else self.autumn
        text = season.at_risk(risk)
        if text is None:
            return None
        return day_index(dt.date(2000, int(text[:2]), int(text[3:])), self.table.first_month)

    def frosts_by_year(self) -> list[tuple[int, dt.date | None, dt.date | None]]:
        """For each growing year its last and first frost; None where there is none or the season has gaps."""
        begins = self.table.first_month
        found: dict[int, list[dt.date | None]] = {year: [None, None] for year in self.table.years}
        for at, season in enumerate((self.spring, self.autumn)):
            for _, day in season.days:
                if day is None:
                    continue
                year = day.year - (day.month < begins)
                if year in found:
                    found[year][at] = day
        return [(year, last, first) for year, (last, first) in found.items()]


def place_weather(kept: WeatherYears, site: Site) -> PlaceWeather | None:
    """What the years of a garden tell of its place, at its height; None where it keeps none.

    Parameters
    ----------
    kept : WeatherYears
    site : Site
    """
    weather = weather_of_garden(kept, site)
    if weather is None:
        return None
    table = year_table(weather, site.year_begins)
    return PlaceWeather(
        weather,
        table,
        frost_season(weather, 0.0, True, site.southern),
        frost_season(weather, 0.0, False, site.southern),
        bands_of(table),
        rain_of(weather, table),
        trend_of(weather),
    )


def bands_of(table: YearTable) -> Bands:
    """Bands of minimum and maximum over the year."""
    shares = (0.0, *SHARES, 1.0)
    return Bands(
        quantiles(around_days(table.low, WINDOW), shares), quantiles(around_days(table.high, WINDOW), shares)
    )


def heat_of(table: YearTable, base: float) -> Heat:
    """Degree-days of each year over a base.

    The plainest of the usual ways: the mean of minimum and maximum less the base, 0 where that is below (method 1 of McMaster
    and Wilhelm 1997, Agricultural and Forest Meteorology 87:291-300).

    Parameters
    ----------
    table : YearTable
    base : float
        [deg C]
    """
    daily = np.maximum((table.low + table.high) / 2 - base, 0.0)
    missing = np.isnan(daily)
    enough = np.count_nonzero(missing, axis=1) <= MOST_MISSING
    known = np.where(missing, 0.0, daily)
    usual = known.sum(axis=0) / np.maximum(np.count_nonzero(~missing, axis=0), 1)
    sums = np.cumsum(np.where(missing, usual, daily)[enough], axis=1)
    years = tuple(year for year, whole in zip(table.years, enough, strict=True) if whole)
    return Heat(base, years, sums, quantiles(sums, SHARES))


def rain_of(weather: Weather, table: YearTable) -> Rain | None:
    """Rain by month and dry spells; None where no rain was measured.

    Parameters
    ----------
    weather : Weather
    table : YearTable
        Of that weather.
    """
    rain = table.rain
    if not rain.size or np.isnan(rain).all():
        return None
    begins = table.month_begins
    months = [slice(first, last) for first, last in itertools.pairwise(begins)]
    monthly = np.stack([rain[:, month].sum(axis=1) for month in months], axis=1)
    in_month = np.full((len(table.years), 12), np.nan)
    with np.errstate(invalid="ignore"):
        dry = rain < DRY  # a missing day is not
    for row in range(len(table.years)):
        for at, month in enumerate(months):
            if not np.isnan(monthly[row, at]):
                in_month[row, at] = longest_run(dry[row, month])[1]
    return Rain(monthly, quantiles(monthly, SHARES), rain.sum(axis=1), _spells(weather, table), in_month)


def _spells(weather: Weather, table: YearTable) -> tuple[tuple[int, dt.date, int], ...]:
    """Year, first day and days of the longest dry spell that begins in each growing year with rain measured."""
    rain = weather.rain_in(weather.first, weather.last)
    with np.errstate(invalid="ignore"):
        begins, days = runs(rain < DRY)
    found = []
    for year in table.years:
        first = (dt.date(year, table.first_month, 1) - weather.first).days
        after = (dt.date(year + 1, table.first_month, 1) - weather.first).days
        if np.isnan(rain[max(first, 0) : max(after, 0)]).all():
            continue
        there = np.flatnonzero((begins >= first) & (begins < after))
        if len(there):
            at = there[np.argmax(days[there])]
            found.append((year, weather.first + dt.timedelta(days=int(begins[at])), int(days[at])))
        else:
            found.append((year, dt.date(year, table.first_month, 1), 0))
    return tuple(found)


def trend_of(weather: Weather) -> Trend | None:
    """Trend of the mean temperature of calendar years that are complete enough; None with too few of them.

    Parameters
    ----------
    weather : Weather
    """
    years, means = [], []
    for year in range(weather.first.year, weather.last.year + 1):
        low, high = weather.part(dt.date(year, 1, 1), dt.date(year, 12, 31))
        mean = (low + high) / 2
        if np.count_nonzero(np.isnan(mean)) <= MOST_MISSING:
            years.append(year)
            means.append(float(np.nanmean(mean)))
    return line_through(years, means) if len(years) >= LEAST_OF_TREND else None


def line_through(years: Sequence[int], means: Sequence[float]) -> Trend:
    """Least squares with the interval of the slope.

    Parameters
    ----------
    years : sequence of int
        At least three.
    means : sequence of float
        [deg C]
    """
    x, y = np.array(years, dtype=np.float64), np.array(means)
    middle = float(x.mean()), float(y.mean())
    spread = float(((x - middle[0]) ** 2).sum())
    slope = float(((x - middle[0]) * (y - middle[1])).sum()) / spread
    left = y - middle[1] - slope * (x - middle[0])
    freedom = len(x) - 2
    error = math.sqrt(float((left**2).sum()) / freedom / spread)
    reach = for_both_tails(1 - CONFIDENCE, freedom) * error
    return Trend(tuple(years), y, slope, slope - reach, slope + reach, middle)
