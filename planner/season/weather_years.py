"""Recorded years between the garden file's packed form and arrays, and from the station's height to the garden's."""

from __future__ import annotations

import base64
import dataclasses
import datetime as dt
import math
import zlib
from collections.abc import Iterable

import numpy as np

from planner.garden import Site, WeatherYear, WeatherYears
from planner.garden.weather_years import MISSING, MOST_YEARS, packed
from planner.season.daily_weather import Numbers, Weather

#: Fall of temperature with height (ISO 2533:1975, standard atmosphere). [deg C / m]
LAPSE_RATE = 0.0065
#: Mean radius of the Earth (GRS 80, as the IUGG gives it). [m]
_EARTH = 6_371_009.0


def years_of(weather: Weather, most: int = MOST_YEARS) -> tuple[WeatherYear, ...]:
    """The calendar years of daily weather that have any minimum, packed; the latest ones where there are too many.

    Parameters
    ----------
    weather : Weather
    most : int
    """
    found = []
    for year in range(weather.first.year, weather.last.year + 1):
        first, last = dt.date(year, 1, 1), dt.date(year, 12, 31)
        low, high = weather.part(first, last)
        if np.isnan(low).all():
            continue
        found.append(
            WeatherYear(
                year=year,
                low=_packed(low),
                high=_packed(high),
                rain=_packed(weather.rain_in(first, last)),
                evapotranspiration=_packed(weather.evapotranspiration_in(first, last)),
            )
        )
    return tuple(found[-most:])


def station_weather(kept: WeatherYears) -> Weather | None:
    """The weather that a garden keeps, as it was measured at the station; None where it keeps none.

    Parameters
    ----------
    kept : WeatherYears
    """
    if not kept.years:
        return None
    first, last = dt.date(kept.years[0].year, 1, 1), dt.date(kept.years[-1].year, 12, 31)

    def whole(texts: Iterable[tuple[int, str]]) -> Numbers | None:
        values = np.full((last - first).days + 1, np.nan)
        for year, text in texts:
            if text:
                at = (dt.date(year, 1, 1) - first).days
                tenths = _unpacked(text)
                values[at : at + len(tenths)] = np.where(tenths == MISSING, np.nan, tenths / 10)
        return None if np.isnan(values).all() else values

    low = whole((one.year, one.low) for one in kept.years)
    high = whole((one.year, one.high) for one in kept.years)
    gaps = np.full((last - first).days + 1, np.nan)
    return Weather(
        first,
        gaps if low is None else low,
        gaps if high is None else high,
        rain=whole((one.year, one.rain) for one in kept.years),
        evapotranspiration=whole((one.year, one.evapotranspiration) for one in kept.years),
    )


def height_correction(kept: WeatherYears, site: Site) -> float:
    """What the garden is warmer than the station for its height; 0 where either height is not known. [deg C]"""
    if kept.elevation is None or site.elevation is None:
        return 0.0
    return (kept.elevation - site.elevation) * LAPSE_RATE


def weather_of_garden(kept: WeatherYears, site: Site) -> Weather | None:
    """The kept years at the height of the garden; None where it keeps none.

    Parameters
    ----------
    kept : WeatherYears
    site : Site
    """
    weather = station_weather(kept)
    if weather is None:
        return None
    return warmed(weather, height_correction(kept, site))


def warmed(weather: Weather, by: float) -> Weather:
    """Daily weather with warmer temperatures and everything else as it is.

    Parameters
    ----------
    weather : Weather
    by : float
        [deg C]
    """
    return dataclasses.replace(weather, low=weather.low + by, high=weather.high + by) if by else weather


def station_distance(kept: WeatherYears, site: Site, mirrored: bool = False) -> float | None:
    """Distance of the station from the garden along a great circle; None where either place is not known. [m]

    Within 0.6 % of the distance on the ellipsoid.

    Parameters
    ----------
    kept : WeatherYears
    site : Site
    mirrored : bool
        With the other sign of the station's longitude, which some tables leave out.
    """
    if kept.latitude is None or kept.longitude is None or site.latitude is None or site.longitude is None:
        return None
    east = -kept.longitude if mirrored else kept.longitude
    one, other = math.radians(kept.latitude), math.radians(site.latitude)
    north, across = other - one, math.radians(site.longitude - east)
    # the haversine formula
    share = math.sin(north / 2) ** 2 + math.cos(one) * math.cos(other) * math.sin(across / 2) ** 2
    return 2 * _EARTH * math.asin(min(1.0, math.sqrt(share)))


def _unpacked(text: str) -> Numbers:
    """The tenths of a packed year that was looked at when it was read; as :func:`planner.garden.weather_years.unpacked`, by numpy."""
    steps = np.frombuffer(zlib.decompress(base64.b64decode(text)), dtype="<u2")
    return np.cumsum(steps, dtype=np.uint16).view(np.int16).astype(np.float64)


def _packed(values: Numbers) -> str:
    """Values of a year in tenths, packed; empty where all are missing."""
    if np.isnan(values).all():
        return ""
    tenths = np.where(np.isnan(values), MISSING, np.round(np.nan_to_num(values) * 10))
    return packed([int(one) for one in tenths])
