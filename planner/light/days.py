"""Days of a place: its local day as instants, when the sun rises and sets, and the beams of a day.

A local day runs from midnight to midnight by the clocks of the place, so it has 23 or 25 hours
where they are changed.
"""

from __future__ import annotations

import datetime as dt
import difflib
import math
import zoneinfo
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise
from typing import Self

import numpy as np
from numpy.typing import NDArray

from planner.errors import BedwrightError
from planner.garden import Site
from planner.lazy import lazy_property
from planner.season.spans import Span
from planner.sun import SUNRISE, Floats, hour_angle, sun

Instants = NDArray[np.datetime64]

#: Direct sun counts from this altitude on. [degrees]  About the 120 W/m2 of the WMO's sunshine.
LEAST_ALTITUDE = 3.0
#: Usual time step. [min]
STEP = 10
_SECOND = np.timedelta64(1_000_000, "us")


class PlaceError(BedwrightError):
    """Where the garden lies is not known well enough to say where the sun stands."""


@dataclass(frozen=True)
class Place:
    """Where a garden lies, as far as the sun is concerned.

    Attributes
    ----------
    latitude, longitude : float
        [degrees north, east]
    zone : tzinfo
        Of its clocks.
    elevation : float
        [m]
    bearing_up : float
        Bearing of plan-up, clockwise from true north. [degrees]
    clock_known : bool
        Whether the time zone is the garden's own, not one made up from its longitude.
    """

    latitude: float
    longitude: float = 0.0
    zone: dt.tzinfo = dt.UTC
    elevation: float = 0.0
    bearing_up: float = 0.0
    clock_known: bool = True

    @classmethod
    def of(cls, site: Site) -> Self:
        """The place of a garden.

        Without a time zone the clocks are taken to show mean solar time; without a longitude the
        garden is taken to lie on its time zone's own meridian. Neither changes the hours of a day.

        Raises
        ------
        PlaceError
            Without a latitude, or where the time zone is none.
        """
        if site.latitude is None:
            raise PlaceError(
                "where the sun stands is not known without the garden's latitude",
                site.name,
                "Type latitude and longitude in the garden's details, in degrees (north and east are positive)",
            )
        zone: dt.tzinfo
        if site.time_zone:
            zone = _zone(site.time_zone, site.name)
            longitude = site.longitude if site.longitude is not None else _meridian(zone)
        else:
            longitude = site.longitude or 0.0
            zone = dt.timezone(dt.timedelta(minutes=round(longitude * 4)))
        return cls(
            site.latitude, longitude, zone, site.elevation or 0.0, site.bearing_up, bool(site.time_zone)
        )

    def utc(self, moment: dt.datetime) -> np.datetime64:
        """A moment by the place's clocks (or with a time zone of its own) as UTC."""
        local = moment if moment.tzinfo is not None else moment.replace(tzinfo=self.zone)
        return np.datetime64(local.astimezone(dt.UTC).replace(tzinfo=None), "us")

    def local(self, instant: np.datetime64) -> dt.datetime:
        """An instant (UTC) by the place's clocks."""
        moment: dt.datetime = instant.astype("datetime64[us]").astype(object)
        return moment.replace(tzinfo=dt.UTC).astimezone(self.zone)

    def ends_of(self, day: dt.date) -> tuple[np.datetime64, np.datetime64]:
        """First instant of a local day, and the first of the next. (UTC)"""
        midnight = dt.datetime.combine(day, dt.time())
        return self.utc(midnight), self.utc(midnight + dt.timedelta(days=1))


def _zone(name: str, where: str) -> zoneinfo.ZoneInfo:
    try:
        return zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        near = difflib.get_close_matches(name, sorted(zoneinfo.available_timezones()), 1)
        hint = f"did you mean {near[0]}" if near else "write it as Europe/London or America/Denver"
        raise PlaceError(f"there is no time zone '{name}'; {hint}?", where) from None


def _meridian(zone: dt.tzinfo) -> float:
    """Longitude a zone's clocks are set by, without summer time. [degrees east]"""
    moment = dt.datetime(2026, 1, 15, tzinfo=zone)
    offset, saving = moment.utcoffset() or dt.timedelta(), moment.dst() or dt.timedelta()
    return (offset - saving).total_seconds() / 240


# -- sunrise, sunset, length --------------------------------------------------------------------


@dataclass(frozen=True)
class DayOfSun:
    """A local day of the sun.

    Attributes
    ----------
    sunrise, sunset : datetime or None
        By the place's clocks, to the second; None where the sun does not cross the horizon that way
        on that day. In the far north sunset may come after midnight, that is before sunrise.
    noon : datetime
        When the sun stands on the meridian.
    noon_altitude : float
        Without refraction. [degrees]
    length : float
        Time the sun is above the horizon. [h]  0 in the polar night; the whole day in the polar day.
    """

    sunrise: dt.datetime | None
    sunset: dt.datetime | None
    noon: dt.datetime
    noon_altitude: float
    length: float


def day_of_sun(place: Place, day: dt.date, horizon: float = SUNRISE) -> DayOfSun:
    """Sunrise, sunset and length of a local day.

    Parameters
    ----------
    place : Place
    day : date
    horizon : float
        Altitude, without refraction, at which the sun rises: by default that of the upper rim with
        34 minutes of refraction. [degrees]
    """
    edges = _edges(place, day, 5)
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
    """Instants at which the sun rises above and sets below an altitude."""
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
    begins = np.concatenate([edges[:1][up[:1]], rises])
    ends = np.concatenate([sets, edges[-1:][up[-1:]]])
    return float(np.sum((ends - begins) / _SECOND) / 3600)


def _noon(place: Place, edges: Instants) -> np.datetime64:
    angles = np.abs(hour_angle(edges, place.longitude))
    instant: np.datetime64 = edges[int(np.argmin(angles))]
    for _ in range(3):  # the sun goes on by 15 degrees an hour, so one step is nearly there
        past = float(hour_angle(instant, place.longitude))
        instant = instant - np.timedelta64(round(past * 240e6), "us")
    return instant


def _edges(place: Place, day: dt.date, step: float) -> Instants:
    """Ends of the time steps of a local day, its midnights included. (UTC)"""
    first, last = place.ends_of(day)
    length = float((last - first) / _SECOND)
    count = max(1, math.ceil(length / (60 * step) - 1e-9))
    offsets = np.minimum(np.arange(count + 1) * (60e6 * step), length * 1e6)
    edges: Instants = first + offsets.astype("timedelta64[us]")
    return edges


# -- beams --------------------------------------------------------------------------------------


@dataclass(frozen=True, eq=False)
class Beams:
    """The direct sun of a day, one beam a time step.

    Attributes
    ----------
    instants : ndarray of datetime64
        Middle of that part of the step in which the sun counts. (UTC)
    hours : ndarray
        Length of that part. [h]
    toward : ndarray (n, 2)
        On the plan, toward the sun: how far a beam runs while it climbs one metre. [m]
    altitude : ndarray
        As the light arrives, with refraction. [degrees]
    """

    instants: Instants
    hours: Floats
    toward: Floats
    altitude: Floats

    @lazy_property
    def total(self) -> float:
        """Hours of direct sun where nothing shades."""
        return float(self.hours.sum())

    @lazy_property
    def weighed(self) -> Beams:
        """The same beams, their hours weighed by the height of the sun, as many in all. [h]

        Light that falls from an altitude spreads over level ground by its sine, so an hour of high sun
        is worth more of these hours than one of low sun.
        """
        worth = self.hours * np.sin(np.radians(self.altitude))
        whole = float(worth.sum())
        return replace(self, hours=worth * (self.total / whole) if whole > 0 else worth)


def toward_sun(place: Place, altitude: Floats, azimuth: Floats) -> Floats:
    """On the plan, toward the sun: how far a beam runs while it climbs one metre. [m]"""
    turn = np.radians(azimuth - place.bearing_up)
    run = 1 / np.tan(np.radians(np.maximum(altitude, 0.01)))
    return np.stack([np.sin(turn) * run, np.cos(turn) * run], axis=-1)


@lru_cache(maxsize=512)
def beams(place: Place, day: dt.date, step: float = STEP) -> Beams:
    """The beams of a local day.

    Parameters
    ----------
    place : Place
    day : date
    step : float
        [min]  At sunrise and sunset only the part of the step with the sun high enough counts.

    Returns
    -------
    Beams
        Empty in the polar night, and where the sun stays under 3 degrees.
    """
    edges = _edges(place, day, step)
    height = sun(edges, place.latitude, place.longitude, place.elevation).apparent - LEAST_ALTITUDE
    before, after = height[:-1], height[1:]
    with np.errstate(divide="ignore", invalid="ignore"):
        cross = np.where(before != after, before / (before - after), 0.0)
    begin = np.where(before >= 0, 0.0, np.where(after > 0, cross, 1.0))
    end = np.where(after >= 0, 1.0, np.where(before > 0, cross, 0.0))
    share = np.clip(end - begin, 0.0, 1.0)
    used = share > 0
    lengths = (edges[1:] - edges[:-1]) / _SECOND
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
    """The one beam of a moment by the place's clocks; empty while the sun is not up."""
    instant = np.array([place.utc(moment)])
    seen = sun(instant, place.latitude, place.longitude, place.elevation)
    up = seen.apparent > 0.1
    toward = toward_sun(place, seen.apparent, seen.azimuth)
    return Beams(instant[up], np.ones(int(up.sum())), toward[up], seen.apparent[up])


def sample_days(span: Span, most: int = 12) -> tuple[tuple[dt.date, float], ...]:
    """Days that stand for a span: the middle day of each of at most ``most`` near-equal stretches.

    Returns
    -------
    tuple of (date, float)
        With the share of the span that each stands for; the shares add up to 1.
    """
    count = min(most, span.days)
    cuts = [round(i * span.days / count) for i in range(count + 1)]
    return tuple(
        (span.first + dt.timedelta(days=(low + high - 1) // 2), (high - low) / span.days)
        for low, high in pairwise(cuts)
    )


def common_days(span: Span, every: int) -> tuple[tuple[dt.date, float], ...]:
    """Days that stand for a span, chosen so that spans that meet have most of them in common.

    Parameters
    ----------
    span : Span
    every : int
        From one to the next. [days]

    Returns
    -------
    tuple of (date, float)
        With the share of the span's days that are nearest to each; the shares add up to 1. The middle
        day alone where the span holds none of the common ones.
    """
    first, last = span.first.toordinal(), span.last.toordinal()
    chosen = list(range(first + -first % every, last + 1, every))
    if not chosen:
        return sample_days(span, 1)
    cuts = [first - 0.5, *((a + b) / 2 for a, b in pairwise(chosen)), last + 0.5]
    return tuple(
        (dt.date.fromordinal(day), (high - low) / span.days)
        for day, (low, high) in zip(chosen, pairwise(cuts), strict=True)
    )
