"""Statistics of daily weather: frost dates, hardiness zone, monthly means, with notes on them.

The mean yearly minimum is over calendar years with at most 10 days missing in the five cold months;
a monthly mean is over months with at most 5 days missing.  Frost dates are those of
:mod:`planner.season.frost_seasons`.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from planner.garden import Climate, FrostDates
from planner.season.daily_weather import Weather, WeatherError
from planner.season.frost_seasons import MOST_MISSING, RISKS, THRESHOLDS, FrostSeason, frost_season
from planner.words import later, say

#: With fewer years a note warns that they are few; a place without frost needs as many.
ENOUGH_YEARS = 10
#: A month with more days missing is left out of the monthly means. [days]
MOST_OF_MONTH = 5
#: A midwinter month that is so much warmer than midsummer belongs to the other half of the earth. [deg C]
OTHER_HALF = 4.0

_DAY = dt.timedelta(days=1)


def yearly_minimum(weather: Weather, southern: bool) -> tuple[float, int] | None:
    """Mean of the lowest temperatures of calendar years [deg C], and the number of years.

    None where no year is complete enough.

    Parameters
    ----------
    weather : Weather
    southern : bool
        The cold months are May to September; else November to March.
    """
    cold = (5, 6, 7, 8, 9) if southern else (11, 12, 1, 2, 3)
    lowest = []
    for year in range(weather.first.year, weather.last.year + 1):
        low, _ = weather.part(dt.date(year, 1, 1), dt.date(year, 12, 31))
        months = np.array([(dt.date(year, 1, 1) + _DAY * i).month for i in range(len(low))])
        if np.count_nonzero(np.isnan(low[np.isin(months, cold)])) <= MOST_MISSING:
            lowest.append(float(np.nanmin(low)))
    return (math.fsum(lowest) / len(lowest), len(lowest)) if lowest else None


def half_zone(minimum: float) -> str:
    """USDA hardiness half zone of a mean yearly minimum. [deg C]

    Half zones are 5 F wide from 1a (-60 F) to 13b (65 F) (USDA Plant Hardiness Zone Map 2023).

    Examples
    --------
    >>> half_zone(-20.0), half_zone(-17.7), half_zone(-60.0)
    ('6b', '7a', '1a')
    """
    at = math.floor((minimum * 1.8 + 32 + 60) / 5 + 1e-9)
    at = min(max(at, 0), 25)
    return f"{at // 2 + 1}{'ab'[at % 2]}"


def monthly_means(weather: Weather) -> tuple[tuple[float, ...], tuple[float, ...]] | None:
    """Mean daily minimum and maximum by month [deg C]; None where a month of the year has no data."""
    sums: list[list[tuple[float, float]]] = [[] for _ in range(12)]
    for year in range(weather.first.year, weather.last.year + 1):
        for month in range(1, 13):
            first = dt.date(year, month, 1)
            last = (first + _DAY * 31).replace(day=1) - _DAY if month < 12 else dt.date(year, 12, 31)
            low, high = weather.part(first, last)
            if np.count_nonzero(np.isnan(low) | np.isnan(high)) <= MOST_OF_MONTH:
                sums[month - 1].append((float(np.nanmean(low)), float(np.nanmean(high))))
    if not all(sums):
        return None
    means = [np.mean(np.array(pairs), axis=0) for pairs in sums]
    return tuple(round(float(m[0]), 2) for m in means), tuple(round(float(m[1]), 2) for m in means)


class _FrostSentences(NamedTuple):
    """What is said of the years of a frost."""

    rests: str
    left_out: str
    without: str
    too_few: str


_SPRING = _FrostSentences(
    rests=later("The last spring frost rests on {years} years"),
    left_out=later("Left out of the last spring frost for gaps: {years}"),
    without=later("{number} of {years} years had no last spring frost"),
    too_few=later("Too few years had one for a last spring frost at every risk: give the dates by hand"),
)
_AUTUMN = _FrostSentences(
    rests=later("The first autumn frost rests on {years} years"),
    left_out=later("Left out of the first autumn frost for gaps: {years}"),
    without=later("{number} of {years} years had no first autumn frost"),
    too_few=later("Too few years had one for a first autumn frost at every risk: give the dates by hand"),
)


@dataclass(frozen=True)
class WeatherStatistics:
    """Statistics of a place's daily weather.

    Attributes
    ----------
    springs, autumns : tuple of FrostSeason
        At each threshold, 0 °C first.
    yearly_minimum : float or None
        Mean of the years. [deg C]
    zone : str
        Half zone; empty where it is not known.
    monthly : tuple or None
        Mean daily minimum and maximum by month. [deg C]
    notes : tuple of str
        Number of years, years left out and whatever looks odd, a sentence each.
    """

    springs: tuple[FrostSeason, ...]
    autumns: tuple[FrostSeason, ...]
    yearly_minimum: float | None
    zone: str
    monthly: tuple[tuple[float, ...], tuple[float, ...]] | None
    notes: tuple[str, ...]

    def frost_dates(self, spring: bool, threshold: float = 0.0) -> FrostDates | None:
        """Days at the three risks; None where too few years have a frost for one of them.

        Parameters
        ----------
        spring : bool
            The last frosts of spring; else the first ones of autumn.
        threshold : float
            One of :data:`THRESHOLDS`. [deg C]
        """
        seasons = self.springs if spring else self.autumns
        season = next((one for one in seasons if one.threshold == threshold), None)
        if season is None:
            return None
        days = {f"risk_{risk}": season.at_risk(risk) for risk in RISKS}
        if any(day is None for day in days.values()):
            return None
        return FrostDates.model_validate(days)

    def climate(self, old: Climate, origin: str = "") -> Climate:
        """Put the statistics into a climate; the rest stays as it is.

        Parameters
        ----------
        old : Climate
        origin : str
            Where the frost dates come from, as shown.
        """
        last, first = self.frost_dates(spring=True), self.frost_dates(spring=False)
        none = all(day is None for s in (self.springs[0], self.autumns[0]) for _, day in s.days)
        enough = min(self.springs[0].years, self.autumns[0].years)
        low, high = self.monthly if self.monthly is not None else (None, None)
        return old.with_(
            last_frost=last,
            first_frost=first,
            frost_free=none and enough >= ENOUGH_YEARS,
            zone=self.zone or old.zone,
            years=enough or None,
            origin=origin,
            monthly_minimum=low or old.monthly_minimum,
            monthly_maximum=high or old.monthly_maximum,
        )


def weather_statistics(weather: Weather, southern: bool) -> WeatherStatistics:
    """Frost dates, zone and means of daily weather.

    Parameters
    ----------
    weather : Weather
    southern : bool
        The place lies south of the equator.

    Raises
    ------
    WeatherError
        Where no year is complete enough for either season.
    """
    springs = tuple(frost_season(weather, t, True, southern) for t in THRESHOLDS)
    autumns = tuple(frost_season(weather, t, False, southern) for t in THRESHOLDS)
    if not springs[0].days and not autumns[0].days:
        raise WeatherError(
            say(
                "no year of {first} to {last} is complete enough for frost dates",
                first=f"{weather.first:%Y-%m-%d}",
                last=f"{weather.last:%Y-%m-%d}",
            ),
            say("weather table"),
            say("Choose a longer table, or one with fewer gaps"),
        )
    lowest, monthly = yearly_minimum(weather, southern), monthly_means(weather)
    notes = [
        *weather.notes,
        *_other_half(monthly, southern),
        *_notes_on(springs[0], _SPRING),
        *_notes_on(autumns[0], _AUTUMN),
    ]
    return WeatherStatistics(
        springs,
        autumns,
        lowest[0] if lowest else None,
        half_zone(lowest[0]) if lowest else "",
        monthly,
        tuple(notes),
    )


def _other_half(monthly: tuple[tuple[float, ...], tuple[float, ...]] | None, southern: bool) -> list[str]:
    """A sentence where the warm months are those of the other half of the earth.

    Parameters
    ----------
    monthly : tuple, optional
        Mean daily minimum and maximum by month. [deg C]
    southern : bool
        The place is taken to lie south of the equator.
    """
    if monthly is None:
        return []
    january, july = ((monthly[0][month] + monthly[1][month]) / 2 for month in (0, 6))
    warmer = july - january if southern else january - july
    if warmer < OTHER_HALF:
        return []
    if southern:
        return [
            say(
                "July is warmer than January in this table: its station lies north of the equator, the place south of it"
            )
        ]
    return [
        say(
            "January is warmer than July in this table: its station lies south of the equator, the place north of it"
        )
    ]


def _notes_on(season: FrostSeason, sentences: _FrostSentences) -> list[str]:
    """How many years a season rests on, and what is odd about them, a sentence each.

    Parameters
    ----------
    season : FrostSeason
    sentences : _FrostSentences
        About its frost.
    """
    count, number = season.years, f"{season.years}"
    notes = [say(_SPRING.rests, years=number) if sentences is _SPRING else say(_AUTUMN.rests, years=number)]
    if count < ENOUGH_YEARS:
        notes = [say("{sentence}, fewer than 10: take them as a first guess", sentence=notes[0])]
    if season.left_out:
        named = ", ".join(map(str, season.left_out[:8])) + (" ..." if len(season.left_out) > 8 else "")
        notes.append(
            say(_SPRING.left_out, years=named) if sentences is _SPRING else say(_AUTUMN.left_out, years=named)
        )
    without = sum(day is None for _, day in season.days)
    if without:
        notes.append(
            say(_SPRING.without, number=without, years=count)
            if sentences is _SPRING
            else say(_AUTUMN.without, number=without, years=count)
        )
        if season.at_risk(90) is None or season.at_risk(10) is None:
            notes.append(say(_SPRING.too_few) if sentences is _SPRING else say(_AUTUMN.too_few))
    return notes
