"""Position of the sun, and the days of the year that the length of the day marks.

The sun's position after Meeus, Astronomical Algorithms, 2nd ed. 1998: chapters 12 (sidereal time),
22 (obliquity), 25 (the sun, lower accuracy: 0.01 degrees from 1900 to 2100) and 16 (refraction,
Saemundsson's formula).  Angles in degrees; azimuths clockwise from true north.
"""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Terrestrial time less universal time. [s]  A minute more or less moves the sun by 0.0007 degrees.
_DELTA_T = 69.0
_J2000 = np.datetime64("2000-01-01T12:00:00", "us")
_JULIAN_J2000 = 2_451_545.0
#: Half the sun's disc and the refraction at the horizon, as sunrise is defined by convention. [degrees]
SUNRISE = -0.8333


class Sun(NamedTuple):
    """The sun as seen from a place.

    Attributes
    ----------
    altitude : ndarray
        Of the disc's centre above the horizon, without refraction. [degrees]
    apparent : ndarray
        The same with refraction, as the light arrives. [degrees]
    azimuth : ndarray
        Clockwise from true north, 0 to 360. [degrees]
    """

    altitude: Floats
    apparent: Floats
    azimuth: Floats


def days_since_2000(instants: ArrayLike) -> Floats:
    """Days since noon UTC of 1 January 2000.

    Parameters
    ----------
    instants : array of datetime64 (UTC), or of float (Julian days, universal time)
    """
    given = np.asarray(instants)
    if np.issubdtype(given.dtype, np.datetime64):
        since: Floats = (given.astype("datetime64[us]") - _J2000) / np.timedelta64(1, "D")
        return since
    return np.asarray(given, dtype=np.float64) - _JULIAN_J2000


def _equatorial(days: Floats) -> tuple[Floats, Floats, Floats]:
    """Right ascension, declination, and sidereal time at Greenwich (apparent). [degrees]"""
    century = (days + _DELTA_T / 86_400) / 36_525
    longitude = 280.46646 + century * (36_000.76983 + century * 0.0003032)
    anomaly = np.radians(357.52911 + century * (35_999.05029 - century * 0.0001537))
    center = (
        (1.914602 - century * (0.004817 + century * 0.000014)) * np.sin(anomaly)
        + (0.019993 - century * 0.000101) * np.sin(2 * anomaly)
        + 0.000289 * np.sin(3 * anomaly)
    )
    node = np.radians(125.04 - 1934.136 * century)
    apparent = np.radians(longitude + center - 0.00569 - 0.00478 * np.sin(node))
    mean_tilt = 23.4392911 - century * (0.0130042 + century * (1.64e-7 - century * 5.04e-7))
    tilt = np.radians(mean_tilt + 0.00256 * np.cos(node))
    sine = np.sin(apparent)
    ascension = np.degrees(np.arctan2(np.cos(tilt) * sine, np.cos(apparent)))
    declination = np.degrees(np.arcsin(np.sin(tilt) * sine))
    sidereal = 280.46061837 + 360.98564736629 * days - 0.00478 * np.sin(node) * np.cos(tilt)
    return ascension, declination, sidereal


def hour_angle(instants: ArrayLike, longitude: float) -> Floats:
    """How far the sun is past the meridian, -180 to 180. [degrees]"""
    ascension, _, sidereal = _equatorial(days_since_2000(instants))
    angle: Floats = (sidereal + longitude - ascension + 180.0) % 360.0 - 180.0
    return angle


def refraction(altitude: ArrayLike, pressure: float = 1010.0, temperature: float = 10.0) -> Floats:
    """How much the air lifts the sun; nothing once it has set. [degrees]

    Parameters
    ----------
    altitude : array of float
        Without refraction. [degrees]
    pressure : float
        Of the air at the place. [hPa]
    temperature : float
        [deg C]
    """
    true = np.asarray(altitude, dtype=np.float64)
    held = np.maximum(true, -1.0)
    lift = 1.02 / np.tan(np.radians(held + 10.3 / (held + 5.11))) / 60
    lifted: Floats = np.where(true >= SUNRISE, lift * (pressure / 1010) * (283 / (273 + temperature)), 0.0)
    return lifted


def pressure_at(elevation: float) -> float:
    """Pressure of the standard atmosphere at a height above the sea. [hPa]"""
    return float(1013.25 * (1 - 2.25577e-5 * elevation) ** 5.25588)


def sun(
    instants: ArrayLike,
    latitude: float,
    longitude: float,
    elevation: float = 0.0,
    temperature: float = 10.0,
) -> Sun:
    """Position of the sun as seen from a place.

    Parameters
    ----------
    instants : array of datetime64 (UTC), or of float (Julian days, universal time)
        Any shape; the result has the same.
    latitude, longitude : float
        [degrees north, east]
    elevation : float
        Above the sea; thins the air that bends the light. [m]
    temperature : float
        Of the air. [deg C]

    Examples
    --------
    >>> import numpy as np
    >>> noon = sun(np.datetime64("2026-06-21T12:02"), 51.48, 0.0)
    >>> round(float(noon.altitude)), round(float(noon.azimuth))
    (62, 180)
    """
    ascension, declination, sidereal = _equatorial(days_since_2000(instants))
    hour = np.radians(sidereal + longitude - ascension)
    north, tilt = np.radians(latitude), np.radians(declination)
    upward = np.sin(north) * np.sin(tilt) + np.cos(north) * np.cos(tilt) * np.cos(hour)
    altitude = np.degrees(np.arcsin(np.clip(upward, -1.0, 1.0)))
    eastward = -np.cos(tilt) * np.sin(hour)
    northward = np.cos(north) * np.sin(tilt) - np.sin(north) * np.cos(tilt) * np.cos(hour)
    azimuth: Floats = np.degrees(np.arctan2(eastward, northward)) % 360.0
    seen = altitude - 0.00244 * np.cos(np.radians(altitude))  # from the ground, not the earth's centre
    return Sun(seen, seen + refraction(seen, pressure_at(elevation), temperature), azimuth)


def longest_day(year: int, southern: bool) -> dt.date:
    """Midsummer of a calendar year: 21 June, in the south 21 December."""
    return dt.date(year, 12, 21) if southern else dt.date(year, 6, 21)


def next_longest_day(day: dt.date, southern: bool) -> dt.date:
    """The next longest day of the year, on or after a day.

    Examples
    --------
    >>> next_longest_day(dt.date(2026, 6, 22), southern=False)
    datetime.date(2027, 6, 21)
    """
    return _on_or_after(longest_day(day.year, southern), day)


def next_autumn_equinox(day: dt.date, southern: bool) -> dt.date:
    """The next day from which nights are longer than days, on or after a day.

    22 September, in the south 21 March.
    """
    equinox = dt.date(day.year, 3, 21) if southern else dt.date(day.year, 9, 22)
    return _on_or_after(equinox, day)


def _on_or_after(of_this_year: dt.date, day: dt.date) -> dt.date:
    """A yearly day, of the year after where this year's is past; the calendar ends in 9999."""
    if of_this_year >= day:
        return of_this_year
    return of_this_year.replace(year=min(day.year + 1, dt.MAXYEAR))


def day_lengths(latitude: float) -> Floats:
    """Hours from sunrise to sunset on each day of a leap year.

    Parameters
    ----------
    latitude : float
        [degrees north]

    Returns
    -------
    ndarray, shape (366,)
        [h]

    Examples
    --------
    >>> round(float(day_lengths(51.5)[172]), 1)
    16.6
    """
    noons = np.arange("2000-01-01T12", "2001-01-01T12", 24, dtype="datetime64[h]").astype("datetime64[us]")
    _, declination, _ = _equatorial(days_since_2000(noons))
    north, tilt = np.radians(latitude), np.radians(declination)
    cosine = (np.sin(np.radians(SUNRISE)) - np.sin(north) * np.sin(tilt)) / (np.cos(north) * np.cos(tilt))
    hours: Floats = np.degrees(np.arccos(np.clip(cosine, -1.0, 1.0))) * 2 / 15
    return hours


def radiation_by_day(latitude: float) -> Floats:
    """Radiation above the atmosphere on each day of a leap year (Allen and others 1998, FAO 56, equations 21 to 25).

    Parameters
    ----------
    latitude : float
        [degrees north]

    Returns
    -------
    ndarray, shape (366,)
        [MJ m-2 day-1]

    Examples
    --------
    >>> round(float(radiation_by_day(-20.0)[245]), 1)  # example 8 there: 3 September
    32.2
    """
    year = 2 * np.pi * np.arange(1, 367) / 365
    nearness, tilt = 1 + 0.033 * np.cos(year), 0.409 * np.sin(year - 1.39)
    north = np.radians(latitude)
    sunset = np.arccos(np.clip(-np.tan(north) * np.tan(tilt), -1.0, 1.0))
    upward = sunset * np.sin(north) * np.sin(tilt) + np.cos(north) * np.cos(tilt) * np.sin(sunset)
    found: Floats = 24 * 60 / np.pi * 0.0820 * nearness * upward
    return found
