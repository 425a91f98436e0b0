"""Sunrise, sunset and length of a local day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.light.place import SECOND, Instants, Place, step_ends
from planner.sun import SUNRISE, Floats, hour_angle, sun


@dataclass(frozen=True)
class DayOfSun:
    """Sunrise, noon, sunset and length of a local day.

    Attributes
    ----------
    sunrise, sunset : datetime or None
        By the place's clocks, to the second; None if the sun does not cross the horizon that way on that day.  In
        the far north sunset may be after midnight, that is before sunrise.
    noon : datetime
        Passage of the meridian.
    noon_altitude : float
        Without refraction. [degrees]
    length : float
        Time with the sun above the horizon: 0 in the polar night, the whole day in the polar day. [h]
    """

    sunrise: dt.datetime | None
    sunset: dt.datetime | None
    noon: dt.datetime
    noon_altitude: float
    length: float


def day_of_sun(place: Place, day: dt.date, horizon: float = SUNRISE) -> DayOfSun:
    """Sunrise, noon, sunset and length of a local day.

    Parameters
    ----------
    place : Place
    day : date
    horizon : float
        Altitude of the sun's centre at sunrise, without refraction; by default that of its upper rim on the horizon
        with 34 minutes of refraction. [degrees]
    """
    edges = step_ends(place, day, 5)
    above = sun(edges, place.latitude, place.longitude).altitude - horizon
    rises, sets = _crossings(place, edges, above, horizon)
    noon = _noon(place, edges)
    length = _time_above(edges, above > 0, rises, sets)
    return DayOfSun(
        place.local(rises[0]) if len(rises) else None,
        place.local(sets[-1]) if len(sets) else None,
        place.local(noon),
        float(sun(noon, place.latitude, place.longitude).altitude),
        length,
    )


def _crossings(place: Place, edges: Instants, above: Floats, horizon: float) -> tuple[Instants, Instants]:
    """Instants at which the sun rises above and sets below an altitude, by bisection."""
    up = above > 0
    change = np.flatnonzero(up[1:] != up[:-1])
    low, high = edges[change].copy(), edges[change + 1].copy()
    rising = up[change + 1]
    for _ in range(24):
        middle = low + (high - low) // 2
        is_up = sun(middle, place.latitude, place.longitude).altitude > horizon
        past = is_up == rising
        high = np.where(past, middle, high)
        low = np.where(past, low, middle)
    return high[rising], high[~rising]


def _time_above(edges: Instants, up: NDArray[np.bool_], rises: Instants, sets: Instants) -> float:
    """Time between rises and sets within a day. [h]"""
    begins = np.concatenate([edges[:1][up[:1]], rises])
    ends = np.concatenate([sets, edges[-1:][up[-1:]]])
    return float(np.sum((ends - begins) / SECOND) / 3600)


def _noon(place: Place, edges: Instants) -> np.datetime64:
    """Instant at which the sun passes the meridian."""
    angles = np.abs(hour_angle(edges, place.longitude))
    instant: np.datetime64 = edges[int(np.argmin(angles))]
    for _ in range(3):  # Newton's method: the sun moves by 15 degrees an hour
        past = float(hour_angle(instant, place.longitude))
        instant = instant - np.timedelta64(round(past * 240e6), "us")
    return instant
