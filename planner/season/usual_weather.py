"""The usual weather that a planting grows in: temperatures, light and what they add up to, day by day."""

from __future__ import annotations

import datetime as dt
from functools import lru_cache

import numpy as np

from planner.crops.cover_effects import CoverEffect
from planner.garden import Climate
from planner.season.temperatures import by_day, day_of_year_index, hours_of_day, year_of
from planner.season.thermal_time import Numbers, Response, degree_days, sums

#: Growing years that are looked at from the one in which a planting starts.
YEARS = 3
#: Development of what slows in short days: whole from so many hours of day on ... [h]
FULL_DAY = 12.0
#: ... and none at so many (coleman2009, ucanr_10h). [h]
LEAST_DAY = 10.0
#: Mean temperature of bare soil over that of the air: the year's means differ by so much (Soil Taxonomy, USDA NRCS 1999,
#: soil temperature regimes). [deg C]
SOIL_OVER_AIR = 1.0


class UsualWeather:
    """Mean weather of each day of a leap year, the same every year.

    Attributes
    ----------
    low, high : ndarray, shape (366,)
        Mean minimum and maximum of the air. [deg C]
    hours : ndarray, shape (366,)
        Length of the day. [h]
    rough : bool
        Made from frosts and latitude, since no monthly means are known.
    soil_gain : float
        Warmth of the soil over bare ground. [deg C]
    """

    def __init__(
        self, low: Numbers, high: Numbers, hours: Numbers, rough: bool, soil_gain: float = 0.0
    ) -> None:
        self.low, self.high, self.hours, self.rough, self.soil_gain = low, high, hours, rough, soil_gain
        self._sums: dict[tuple[Response, bool], Numbers] = {}
        self._under: dict[tuple[object, float], UsualWeather] = {}
        self.mean: Numbers = (low + high) / 2

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
                daily = daily * light_share(self.hours)
            found = self._sums[key] = sums(np.tile(daily, YEARS))
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
            low, high, soil = self.low + warmer, self.high + warmer, self.soil_gain
            if effect is not None:
                south = bool(self.mean[:60].mean() > self.mean[180:240].mean())
                low = low + by_day(by_month(effect.minimum_gain, south))
                high = high + by_day(by_month(effect.maximum_gain, south))
                soil += effect.soil_gain
            found = UsualWeather(low, np.maximum(high, low), self.hours, self.rough, soil)
            self._under[key] = found
        return found

    def mean_on(self, day: dt.date) -> float:
        """Mean temperature of the air on a day. [deg C]"""
        return float(self.mean[day_of_year_index(day)])

    def soil_on(self, day: dt.date) -> float:
        """Mean temperature of the soil at sowing depth on a day. [deg C]"""
        return self.mean_on(day) + SOIL_OVER_AIR + self.soil_gain

    def hours_on(self, day: dt.date) -> float:
        """Length of a day. [h]"""
        return float(self.hours[day_of_year_index(day)])


def light_share(hours: Numbers) -> Numbers:
    """Share of its pace that the length of the day leaves to what slows in short days."""
    share: Numbers = np.clip((hours - LEAST_DAY) / (FULL_DAY - LEAST_DAY), 0.0, 1.0)
    return share


def by_month(seasons: tuple[float, float, float, float], southern: bool) -> tuple[float, ...]:
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
    return UsualWeather(low, high, hours_of_day(latitude, southern), rough)
