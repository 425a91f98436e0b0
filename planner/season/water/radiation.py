"""Humidity of the air and radiation at the ground, and what stands in for them where they are not measured (FAO 56, chapter 3).

All functions take arrays of any shape, or numbers.  A missing value (NaN) gives a missing result.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from planner.sun import radiation_by_day

Numbers = NDArray[np.float64]

#: Of the reference grass: share of the sun's radiation that it throws back.
ALBEDO = 0.23
#: Stefan-Boltzmann constant. [MJ K-4 m-2 day-1]
_STEFAN_BOLTZMANN = 4.903e-9
#: Radiation from the range of the day's temperature (equation 50): inland, and on the coast. [K-0.5]
INLAND, COAST = 0.16, 0.19


def air_pressure(elevation: float) -> float:
    """Of the standard atmosphere (equation 7). [kPa]

    Parameters
    ----------
    elevation : float
        Above the sea. [m]
    """
    return float(101.3 * ((293 - 0.0065 * elevation) / 293) ** 5.26)


def psychrometric_constant(elevation: float) -> float:
    """Equation 8. [kPa / K]

    Parameters
    ----------
    elevation : float
        Above the sea. [m]
    """
    return 0.665e-3 * air_pressure(elevation)


def saturation_pressure(temperature: ArrayLike) -> Numbers:
    """Pressure of water vapour in saturated air (equation 11). [kPa]

    Parameters
    ----------
    temperature : array of float
        [deg C]
    """
    warmth = np.asarray(temperature, dtype=np.float64)
    pressure: Numbers = 0.6108 * np.exp(17.27 * warmth / (warmth + 237.3))
    return pressure


def saturation_slope(temperature: ArrayLike) -> Numbers:
    """How much the saturation pressure rises with the temperature (equation 13). [kPa / K]

    Parameters
    ----------
    temperature : array of float
        [deg C]
    """
    warmth = np.asarray(temperature, dtype=np.float64)
    slope: Numbers = 4098 * saturation_pressure(warmth) / (warmth + 237.3) ** 2
    return slope


def mean_saturation_pressure(low: ArrayLike, high: ArrayLike) -> Numbers:
    """Over a day of a lowest and a highest temperature (equation 12). [kPa]"""
    return (saturation_pressure(low) + saturation_pressure(high)) / 2


def vapour_from_humidity(
    low: ArrayLike,
    high: ArrayLike,
    *,
    most: ArrayLike | None = None,
    least: ArrayLike | None = None,
    mean: ArrayLike | None = None,
) -> Numbers:
    """Pressure of the water vapour from relative humidity: equation 17, 18 or 19, the best for what is given. [kPa]

    Parameters
    ----------
    low, high : array of float
        Temperature of the day. [deg C]
    most, least, mean : array of float, optional
        Relative humidity. [per cent]

    Raises
    ------
    TypeError
        Where neither the greatest nor the mean humidity is given.
    """
    if most is not None:
        at_night = saturation_pressure(low) * np.asarray(most, dtype=np.float64) / 100
        if least is None:
            return at_night
        return (at_night + saturation_pressure(high) * np.asarray(least, dtype=np.float64) / 100) / 2
    if mean is None:
        raise TypeError("the greatest or the mean relative humidity is needed")
    return mean_saturation_pressure(low, high) * np.asarray(mean, dtype=np.float64) / 100


def vapour_from_dew_point(dew_point: ArrayLike) -> Numbers:
    """Equation 14; with the lowest temperature of the day where the dew point is not known, equation 48. [kPa]"""
    return saturation_pressure(dew_point)


def least_humidity(vapour: ArrayLike, high: ArrayLike) -> Numbers:
    """Relative humidity at the warmest hour (equation 63), at most 100. [per cent]

    Parameters
    ----------
    vapour : array of float
        [kPa]
    high : array of float
        Highest temperature of the day. [deg C]
    """
    return np.minimum(100 * np.asarray(vapour, dtype=np.float64) / saturation_pressure(high), 100.0)


def wind_at_two_metres(speed: ArrayLike, height: float) -> Numbers:
    """From the speed measured at another height over grass (equation 47). [m/s]

    Parameters
    ----------
    speed : array of float
        [m/s]
    height : float
        [m]
    """
    found: Numbers = np.asarray(speed, dtype=np.float64) * 4.87 / np.log(67.8 * height - 5.42)
    return found


def radiation_above(latitude: float, day_of_year: ArrayLike) -> Numbers:
    """Radiation above the atmosphere (equation 21). [MJ m-2 day-1]

    Parameters
    ----------
    latitude : float
        [degrees north]
    day_of_year : array of int
        1 to 366.
    """
    return radiation_by_day(latitude)[np.asarray(day_of_year, dtype=np.intp) - 1]


def daylight(latitude: float, day_of_year: ArrayLike) -> Numbers:
    """Longest possible sunshine (equation 34). [h]

    Parameters
    ----------
    latitude : float
        [degrees north]
    day_of_year : array of int
        1 to 366.
    """
    tilt = 0.409 * np.sin(2 * np.pi * np.asarray(day_of_year, dtype=np.float64) / 365 - 1.39)
    hours: Numbers = 24 / np.pi * np.arccos(np.clip(-np.tan(np.radians(latitude)) * np.tan(tilt), -1, 1))
    return hours


def clear_sky_radiation(above: ArrayLike, elevation: float = 0.0) -> Numbers:
    """At the ground under a clear sky (equation 37). [MJ m-2 day-1]

    Parameters
    ----------
    above : array of float
        Radiation above the atmosphere. [MJ m-2 day-1]
    elevation : float
        Above the sea. [m]
    """
    return (0.75 + 2e-5 * elevation) * np.asarray(above, dtype=np.float64)


def radiation_from_sunshine(above: ArrayLike, sunshine: ArrayLike, longest: ArrayLike) -> Numbers:
    """Radiation at the ground from hours of sunshine (equation 35). [MJ m-2 day-1]

    Parameters
    ----------
    above : array of float
        Radiation above the atmosphere. [MJ m-2 day-1]
    sunshine, longest : array of float
        Sunshine, and the longest that is possible. [h]
    """
    part = np.asarray(sunshine, dtype=np.float64) / np.maximum(np.asarray(longest, dtype=np.float64), 1e-9)
    return (0.25 + 0.50 * np.clip(part, 0, 1)) * np.asarray(above, dtype=np.float64)


def radiation_from_temperature(
    above: ArrayLike, low: ArrayLike, high: ArrayLike, elevation: float = 0.0, factor: float = INLAND
) -> Numbers:
    """Radiation at the ground from the range of the day's temperature (equation 50), at most a clear sky's. [MJ m-2 day-1]

    Parameters
    ----------
    above : array of float
        Radiation above the atmosphere. [MJ m-2 day-1]
    low, high : array of float
        Temperature of the day. [deg C]
    elevation : float
        Above the sea. [m]
    factor : float
        :data:`INLAND` or :data:`COAST`. [K-0.5]
    """
    span = np.maximum(np.asarray(high, dtype=np.float64) - np.asarray(low, dtype=np.float64), 0.0)
    return np.minimum(
        factor * np.sqrt(span) * np.asarray(above, dtype=np.float64), clear_sky_radiation(above, elevation)
    )


def net_longwave_radiation(
    low: ArrayLike, high: ArrayLike, vapour: ArrayLike, radiation: ArrayLike, clear: ArrayLike
) -> Numbers:
    """What the ground loses to the sky (equation 39). [MJ m-2 day-1]

    Parameters
    ----------
    low, high : array of float
        Temperature of the day. [deg C]
    vapour : array of float
        Pressure of the water vapour. [kPa]
    radiation, clear : array of float
        At the ground, as it was and under a clear sky. [MJ m-2 day-1]
    """
    warm = (np.asarray(high, dtype=np.float64) + 273.16) ** 4
    cold = (np.asarray(low, dtype=np.float64) + 273.16) ** 4
    sky = np.asarray(radiation, dtype=np.float64) / np.maximum(np.asarray(clear, dtype=np.float64), 1e-9)
    humid = 0.34 - 0.14 * np.sqrt(np.asarray(vapour, dtype=np.float64))
    lost: Numbers = _STEFAN_BOLTZMANN * (warm + cold) / 2 * humid * (1.35 * np.minimum(sky, 1.0) - 0.35)
    return lost


def net_radiation(
    low: ArrayLike, high: ArrayLike, vapour: ArrayLike, radiation: ArrayLike, clear: ArrayLike
) -> Numbers:
    """What the reference grass keeps of the radiation (equations 38 to 40). [MJ m-2 day-1]

    Parameters
    ----------
    low, high : array of float
        Temperature of the day. [deg C]
    vapour : array of float
        Pressure of the water vapour. [kPa]
    radiation, clear : array of float
        At the ground, as it was and under a clear sky. [MJ m-2 day-1]
    """
    kept: Numbers = (1 - ALBEDO) * np.asarray(radiation, dtype=np.float64)
    return kept - net_longwave_radiation(low, high, vapour, radiation, clear)
