"""The usual weather that a planting grows in: temperatures, light and what they add up to, day by day."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.crops.cover_effects import BySeason, CoverEffect
from planner.garden import Climate
from planner.season.temperatures import USUAL_LATITUDE, by_day, day_of_year_index, year_of
from planner.season.thermal_time import Numbers, Response, degree_days, sums
from planner.sun import day_lengths, radiation_by_day

#: Growing years that are looked at from the one in which a planting starts.
YEARS = 3
#: Development of what slows in short days: whole from so many hours of day on ... [h]
FULL_DAY = 12.0
#: ... and none at so many (coleman2009, ucanr_10h). [h]
LEAST_DAY = 10.0
#: Harborside in Maine, where that rule was found (coleman2009). [degrees north]
MAINE = 44.4
#: Mean temperature of bare soil over that of the air: the year's means differ by so much (Soil Taxonomy, USDA NRCS 1999,
#: soil temperature regimes). [deg C]
SOIL_OVER_AIR = 1.0


class SunOfYear(NamedTuple):
    """Length of each day of a leap year [h], and the share of its pace that its light leaves to growth."""

    hours: Numbers
    light: Numbers


@lru_cache(maxsize=64)
def sun_of_year(latitude: float) -> SunOfYear:
    """Length and light of the days at a latitude. [degrees north]"""
    hours = day_lengths(latitude)
    return SunOfYear(hours, light_share(latitude, hours))


class UsualWeather:
    """Mean weather of each day of a leap year, the same every year.

    Attributes
    ----------
    low, high : ndarray, shape (366,)
        Mean minimum and maximum of the air. [deg C]
    hours : ndarray, shape (366,)
        Length of the day. [h]
    light : ndarray, shape (366,)
        Share of its pace that the day's light leaves to what slows in short days.
    rough : bool
        Made from frosts and latitude, since no monthly means are known.
    soil : ndarray, shape (366,)
        Mean temperature of the soil at sowing depth: that of bare ground and what covers add; under glass by the air
        there. [deg C]
    """

    def __init__(
        self, low: Numbers, high: Numbers, sun: SunOfYear, rough: bool, soil: Numbers | None = None
    ) -> None:
        self.low, self.high, self.rough = low, high, rough
        self.sun, self.hours, self.light = sun, sun.hours, sun.light
        self._sums: dict[tuple[Response, bool], Numbers] = {}
        self._pace: dict[Response, Numbers] = {}
        self._slower: dict[tuple[Response, float], NDArray[np.bool_]] = {}
        self._under: dict[tuple[object, ...], UsualWeather] = {}
        self.mean: Numbers = (low + high) / 2
        self.soil: Numbers = self.mean + SOIL_OVER_AIR if soil is None else soil

    def sums(self, response: Response, slows: bool) -> Numbers:
        """Degree-days before each day of :data:`YEARS` years, and after the last.

        Parameters
        ----------
        response : Response
        slows : bool
            Short days slow it.
        """
        key = (response, slows)
        found = self._sums.get(key)
        if found is None:
            daily = degree_days(self.low, self.high, response)
            if slows:
                daily = daily * self.light
            found = self._sums[key] = sums(np.tile(daily, YEARS))
        return found

    def pace(self, response: Response) -> Numbers:
        """Share of the best pace that temperature and light of each day of the year leave."""
        found = self._pace.get(response)
        if found is None:
            daily = degree_days(self.low, self.high, response) * self.light
            found = self._pace[response] = daily / (response.best - response.base)
        return found

    def slower_than(self, response: Response, share: float) -> NDArray[np.bool_]:
        """Whether each day of the year leaves less than a share of the best pace."""
        found = self._slower.get((response, share))
        if found is None:
            found = self._slower[response, share] = self.pace(response) < share
        return found

    def under(self, effect: CoverEffect | None, warmer: float = 0.0) -> UsualWeather:
        """The weather under a cover or a roof, or in warmer or cooler years; itself where nothing changes it.

        Parameters
        ----------
        effect : CoverEffect, optional
        warmer : float
            [deg C]
        """
        if effect is None and not warmer:
            return self
        key = (effect, warmer)
        found = self._under.get(key)
        if found is None:
            low, high, soil = self.low + warmer, self.high + warmer, self.soil + warmer
            if effect is not None:
                southern = bool(self.hours[0] > self.hours[182])
                low = low + by_day(months_of_seasons(effect.minimum_gain, southern))
                high = high + by_day(months_of_seasons(effect.maximum_gain, southern))
                soil = (low + high) / 2 + SOIL_OVER_AIR if effect.glass else soil + effect.soil_gain
            found = UsualWeather(low, np.maximum(high, low), self.sun, self.rough, soil)
            self._under[key] = found
        return found

    def kept_above(self, least: float | None) -> UsualWeather:
        """The weather where heating keeps it above a temperature; itself where none does. [deg C]"""
        if least is None:
            return self
        key = ("kept", least)
        found = self._under.get(key)
        if found is None:
            low, high = np.maximum(self.low, least), np.maximum(self.high, least)
            soil = np.maximum(self.soil, (low + high) / 2)
            found = UsualWeather(low, high, self.sun, self.rough, soil)
            self._under[key] = found
        return found

    def mean_on(self, day: dt.date) -> float:
        """Mean temperature of the air on a day. [deg C]"""
        return float(self.mean[day_of_year_index(day)])

    def soil_on(self, day: dt.date) -> float:
        """Mean temperature of the soil at sowing depth on a day. [deg C]"""
        return float(self.soil[day_of_year_index(day)])

    def hours_on(self, day: dt.date) -> float:
        """Length of a day. [h]"""
        return float(self.hours[day_of_year_index(day)])


def light_share(latitude: float, hours: Numbers) -> Numbers:
    """Share of its pace that the light of each day leaves to what slows in short days.

    Between the two lengths growth follows light with falling returns (the shape is an estimate).  Where the sun stands
    higher than in Maine, where the rule was found, a day as short is brighter: there the day's radiation counts, between
    that of days of the two lengths in Maine, so that winters south of 32 degrees slow crops little, as the rule says.

    Parameters
    ----------
    latitude : float
        [degrees north]
    hours : ndarray, shape (366,)
        Length of each day. [h]
    """
    at_maine, of_maine = day_lengths(MAINE), radiation_by_day(MAINE)
    least, full = (float(np.interp(h, at_maine[:172], of_maine[:172])) for h in (LEAST_DAY, FULL_DAY))
    by_length = (hours - LEAST_DAY) / (FULL_DAY - LEAST_DAY)
    by_radiation = (radiation_by_day(latitude) - least) / (full - least)
    lacking: Numbers = np.clip(1.0 - np.maximum(by_length, by_radiation), 0.0, 1.0)
    share: Numbers = 1.0 - lacking**2
    return share


def months_of_seasons(seasons: BySeason, southern: bool) -> tuple[float, ...]:
    """Values of winter, spring, summer and autumn as twelve months; winter is December to February in the north."""
    winter, spring, summer, autumn = seasons
    north = (winter, winter, *[spring] * 3, *[summer] * 3, *[autumn] * 3, winter)
    return (*north[6:], *north[:6]) if southern else north


@lru_cache(maxsize=64)
def weather_of(climate: Climate, latitude: float | None, southern: bool) -> UsualWeather | None:
    """The usual weather of a place in the open; None where neither monthly means nor both frosts are known.

    Parameters
    ----------
    climate : Climate
    latitude : float, optional
        [degrees north]
    southern : bool
        Of a garden without a latitude.
    """
    found = year_of(climate, latitude)
    if found is None:
        return None
    low, high, rough = found
    at = latitude if latitude is not None else (-USUAL_LATITUDE if southern else USUAL_LATITUDE)
    return UsualWeather(low, high, sun_of_year(at), rough)
