"""Beams of direct sun: one for each time step of a local day."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from planner.lazy import lazy_property
from planner.light.place import SECOND, Instants, Place, step_ends
from planner.sun import Floats, sun

#: Least altitude at which direct sun counts: about the 120 W/m2 of the WMO's sunshine duration. [degrees]
LEAST_ALTITUDE = 3.0
#: Usual time step. [min]
STEP = 10
#: Least altitude at which a single moment has a beam. [degrees]
_LEAST_ALTITUDE_OF_MOMENT = 0.1


@dataclass(frozen=True, eq=False)
class Beams:
    """The direct sun of a day, one beam for each time step.

    Attributes
    ----------
    instants : ndarray (n,) of datetime64
        Middle of the part of the step with the sun high enough, in UTC.
    hours : ndarray (n,)
        Length of that part. [h]
    toward : ndarray (n, 2)
        Horizontal offset on the plan, toward the sun, for one metre of height. [m]
    altitude : ndarray (n,)
        With refraction. [degrees]
    """

    instants: Instants
    hours: Floats
    toward: Floats
    altitude: Floats

    @lazy_property
    def total(self) -> float:
        """Hours of direct sun without any shade. [h]"""
        return float(self.hours.sum())

    @lazy_property
    def weighed(self) -> Beams:
        """The same beams with hours weighted by the sine of the altitude, scaled to the same total.

        A beam spreads over level ground with the sine of its altitude, so that an hour of high sun counts more than
        one of low sun.
        """
        worth = self.hours * np.sin(np.radians(self.altitude))
        whole = float(worth.sum())
        return replace(self, hours=worth * (self.total / whole) if whole > 0 else worth)


def toward_sun(place: Place, altitude: Floats, azimuth: Floats) -> Floats:
    """Horizontal offset on the plan, toward the sun, for one metre of height.

    Parameters
    ----------
    place : Place
        Sets the bearing of plan-up.
    altitude, azimuth : ndarray (n,)
        [degrees]

    Returns
    -------
    ndarray (n, 2)
        [m]
    """
    turn = np.radians(azimuth - place.bearing_up)
    run = 1 / np.tan(np.radians(np.maximum(altitude, 0.01)))
    return np.stack([np.sin(turn) * run, np.cos(turn) * run], axis=-1)


@lru_cache(maxsize=512)
def beams(place: Place, day: dt.date, step: float = STEP) -> Beams:
    """Beams of a local day; cached.

    Parameters
    ----------
    place : Place
    day : date
    step : float
        Time step; at sunrise and sunset only its part with the sun above :data:`LEAST_ALTITUDE` counts. [min]

    Returns
    -------
    Beams
        Empty if the sun stays below :data:`LEAST_ALTITUDE`.
    """
    edges = step_ends(place, day, step)
    height = sun(edges, place.latitude, place.longitude, place.elevation).apparent - LEAST_ALTITUDE
    before, after = height[:-1], height[1:]
    with np.errstate(divide="ignore", invalid="ignore"):
        cross = np.where(before != after, before / (before - after), 0.0)
    begin = np.where(before >= 0, 0.0, np.where(after > 0, cross, 1.0))
    end = np.where(after >= 0, 1.0, np.where(before > 0, cross, 0.0))
    share = np.clip(end - begin, 0.0, 1.0)
    used = share > 0
    lengths = (edges[1:] - edges[:-1]) / SECOND
    middle = ((begin + end) / 2 * lengths * 1e6).astype("timedelta64[us]")
    instants = (edges[:-1] + middle)[used]
    seen = sun(instants, place.latitude, place.longitude, place.elevation)
    return Beams(
        instants,
        (share * lengths / 3600)[used],
        toward_sun(place, seen.apparent, seen.azimuth),
        seen.apparent,
    )


def beam_at(place: Place, moment: dt.datetime) -> Beams:
    """The beam of one moment.

    Parameters
    ----------
    place : Place
    moment : datetime
        By the place's clocks.

    Returns
    -------
    Beams
        One beam; none while the sun is down.
    """
    instant = np.array([place.utc(moment)])
    seen = sun(instant, place.latitude, place.longitude, place.elevation)
    up = seen.apparent > _LEAST_ALTITUDE_OF_MOMENT
    toward = toward_sun(place, seen.apparent, seen.azimuth)
    return Beams(instant[up], np.ones(int(up.sum())), toward[up], seen.apparent[up])
