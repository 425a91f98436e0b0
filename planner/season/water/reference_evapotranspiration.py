"""Evapotranspiration of a wide, well watered lawn, from the weather of the day: what crops are measured against.

From the lowest and highest temperature alone after Hargreaves and Samani (FAO 56, equation 52); where humidity, radiation
or wind were measured too, after Penman and Monteith (equation 6), with the paper's stand-ins for those that are missing.
All functions take arrays of any shape whose last axis are days; a missing temperature gives a missing result.
"""

from __future__ import annotations

import datetime as dt

import numpy as np
from numpy.typing import ArrayLike, NDArray

from planner.season.daily_weather import Weather
from planner.season.water.radiation import (
    INLAND,
    clear_sky_radiation,
    daylight,
    mean_saturation_pressure,
    net_radiation,
    psychrometric_constant,
    radiation_above,
    radiation_from_sunshine,
    radiation_from_temperature,
    saturation_slope,
    vapour_from_dew_point,
)

Numbers = NDArray[np.float64]

#: Evaporation that a radiation could drive (equation 20). [mm / (MJ m-2)]
EQUIVALENT_EVAPORATION = 0.408
#: Where no wind was measured (FAO 56, table 4: the mean of 2 000 stations). [m/s]
USUAL_WIND = 2.0
#: Least wind that the equation is used with (FAO 56, chapter 3). [m/s]
_LEAST_WIND = 0.5


def days_of_year(first: dt.date, days: int) -> NDArray[np.intp]:
    """The number in its year of each day from a first one, 1 to 366.

    Parameters
    ----------
    first : date
    days : int
    """
    dates = np.datetime64(first, "D") + np.arange(days)
    found: NDArray[np.intp] = ((dates - dates.astype("datetime64[Y]")).astype(np.intp)) + 1
    return found


def hargreaves(low: ArrayLike, high: ArrayLike, above: ArrayLike) -> Numbers:
    """From the temperature of the day alone (equation 52), at least 0. [mm/day]

    Parameters
    ----------
    low, high : array of float
        Temperature of the day. [deg C]
    above : array of float
        Radiation above the atmosphere. [MJ m-2 day-1]

    Examples
    --------
    >>> round(float(hargreaves(14.8, 26.6, 40.55)), 1)  # example 20 there: Lyon in July
    5.0
    """
    cold, warm = np.asarray(low, dtype=np.float64), np.asarray(high, dtype=np.float64)
    span = np.sqrt(np.maximum(warm - cold, 0.0))
    found = (
        0.0023
        * ((cold + warm) / 2 + 17.8)
        * span
        * EQUIVALENT_EVAPORATION
        * np.asarray(above, dtype=np.float64)
    )
    return np.maximum(found, 0.0)


def penman_monteith(
    low: ArrayLike,
    high: ArrayLike,
    vapour: ArrayLike,
    net: ArrayLike,
    wind: ArrayLike = USUAL_WIND,
    elevation: float = 0.0,
    into_soil: ArrayLike = 0.0,
) -> Numbers:
    """From temperature, humidity, net radiation and wind (equation 6), at least 0. [mm/day]

    Parameters
    ----------
    low, high : array of float
        Temperature of the day. [deg C]
    vapour : array of float
        Pressure of the water vapour. [kPa]
    net : array of float
        Net radiation. [MJ m-2 day-1]
    wind : array of float
        At 2 m; at least 0.5 is used. [m/s]
    elevation : float
        Above the sea. [m]
    into_soil : array of float
        Heat that flows into the soil; none over a day. [MJ m-2 day-1]
    """
    cold, warm = np.asarray(low, dtype=np.float64), np.asarray(high, dtype=np.float64)
    mean = (cold + warm) / 2
    slope, gamma = saturation_slope(mean), psychrometric_constant(elevation)
    speed = np.maximum(np.asarray(wind, dtype=np.float64), _LEAST_WIND)
    lack = np.maximum(mean_saturation_pressure(cold, warm) - np.asarray(vapour, dtype=np.float64), 0.0)
    warmth = np.asarray(net, dtype=np.float64) - np.asarray(into_soil, dtype=np.float64)
    by_sun = EQUIVALENT_EVAPORATION * slope * warmth
    by_wind = gamma * 900 / (mean + 273) * speed * lack
    found: Numbers = np.maximum((by_sun + by_wind) / (slope + gamma * (1 + 0.34 * speed)), 0.0)
    return found


def reference_evapotranspiration(
    low: ArrayLike,
    high: ArrayLike,
    day_of_year: ArrayLike,
    latitude: float,
    *,
    elevation: float = 0.0,
    vapour: ArrayLike | None = None,
    radiation: ArrayLike | None = None,
    sunshine: ArrayLike | None = None,
    wind: ArrayLike | None = None,
    radiation_factor: float = INLAND,
) -> Numbers:
    """Of the reference grass, day by day, by the best method for what was measured. [mm/day]

    With nothing but temperatures that is Hargreaves and Samani's; with anything else Penman and Monteith's, where what
    is missing of a day is stood in for: humidity by dew at the lowest temperature (equation 48), radiation by sunshine
    (35), else by the range of temperature (50), wind by 2 m/s.  A day that has none of them is Hargreaves and Samani's.

    Parameters
    ----------
    low, high : array of float
        Temperature of the day. [deg C]
    day_of_year : array of int
        1 to 366.
    latitude : float
        [degrees north]
    elevation : float
        Above the sea. [m]
    vapour : array of float, optional
        Pressure of the water vapour; see :mod:`planner.season.water.radiation` for it from humidity or dew point. [kPa]
    radiation : array of float, optional
        Of the sun at the ground. [MJ m-2 day-1]
    sunshine : array of float, optional
        Bright sunshine; used where the radiation is not known. [h]
    wind : array of float, optional
        At 2 m. [m/s]
    radiation_factor : float
        Of equation 50: 0.16 inland, 0.19 on a coast. [K-0.5]

    Examples
    --------
    >>> round(float(reference_evapotranspiration(12.3, 21.5, 187, 50.8)), 1)
    4.1
    """
    above = radiation_above(latitude, day_of_year)
    by_temperature = hargreaves(low, high, above)
    measured = [
        np.asarray(one, dtype=np.float64) for one in (vapour, radiation, sunshine, wind) if one is not None
    ]
    if not measured:
        return by_temperature
    known = np.zeros(np.broadcast_shapes(by_temperature.shape, *(one.shape for one in measured)), dtype=bool)
    for one in measured:
        known |= ~np.isnan(one)
    humid = _or(vapour, vapour_from_dew_point(low))
    shining = radiation_from_temperature(above, low, high, elevation, radiation_factor)
    if sunshine is not None:
        shining = _or(radiation_from_sunshine(above, sunshine, daylight(latitude, day_of_year)), shining)
    shining = _or(radiation, shining)
    net = net_radiation(low, high, humid, shining, clear_sky_radiation(above, elevation))
    full = penman_monteith(low, high, humid, net, _or(wind, np.float64(USUAL_WIND)), elevation)
    return np.where(known, full, by_temperature)


def _or(given: ArrayLike | None, otherwise: ArrayLike) -> Numbers:
    """Values, and others where they are missing."""
    stand_in = np.asarray(otherwise, dtype=np.float64)
    if given is None:
        return stand_in
    values = np.asarray(given, dtype=np.float64)
    return np.where(np.isnan(values), stand_in, values)


def evapotranspiration_of(weather: Weather, latitude: float) -> Numbers:
    """Of the reference grass on each day of recorded weather: as it was measured, else from the temperatures. [mm/day]

    Parameters
    ----------
    weather : Weather
    latitude : float
        [degrees north]

    Returns
    -------
    ndarray
        One a day of the weather; NaN where a temperature is missing.
    """
    days = days_of_year(weather.first, len(weather.low))
    found = hargreaves(weather.low, weather.high, radiation_above(latitude, days))
    return found if weather.evapotranspiration is None else _or(weather.evapotranspiration, found)
