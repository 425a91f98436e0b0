"""Where a garden is on the earth, and its local days as instants.

A local day is from midnight to midnight by the clocks of the place, so that it has 23 or 25 hours when they are
changed.
"""

from __future__ import annotations

import datetime as dt
import difflib
import math
import zoneinfo
from dataclasses import dataclass
from typing import Self

import numpy as np
from numpy.typing import NDArray

from planner.errors import BedwrightError
from planner.garden import Site
from planner.words import say

#: Instants in UTC, as numpy counts them.
Instants = NDArray[np.datetime64]

#: One second, to divide differences of instants by.
SECOND = np.timedelta64(1_000_000, "us")


class PlaceError(BedwrightError):
    """The site lacks what the position of the sun needs."""


@dataclass(frozen=True)
class Place:
    """Place of a garden: all that the position of the sun depends on.

    Attributes
    ----------
    latitude, longitude : float
        [degrees north, east]
    zone : tzinfo
        Time zone of its clocks.
    elevation : float
        [m]
    bearing_up : float
        Bearing of plan-up, clockwise from true north. [degrees]
    has_time_zone : bool
        Whether the site gives a time zone; if not, ``zone`` is mean solar time.
    """

    latitude: float
    longitude: float = 0.0
    zone: dt.tzinfo = dt.UTC
    elevation: float = 0.0
    bearing_up: float = 0.0
    has_time_zone: bool = True

    @classmethod
    def of(cls, site: Site) -> Self:
        """Place of a site.

        Without a time zone the clocks show mean solar time; without a longitude the garden is on the meridian of its
        time zone.  Neither changes the hours of sun in a day.

        Raises
        ------
        PlaceError
            If the site has no latitude, or an unknown time zone.
        """
        if site.latitude is None:
            raise PlaceError(
                say("where the sun stands is not known without the garden's latitude"),
                site.name,
                say(
                    "Type latitude and longitude in the garden's details, in degrees (north and east are positive)"
                ),
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
        """Convert a moment to UTC; without a time zone of its own it is by the place's clocks."""
        local = moment if moment.tzinfo is not None else moment.replace(tzinfo=self.zone)
        return np.datetime64(local.astimezone(dt.UTC).replace(tzinfo=None), "us")

    def local(self, instant: np.datetime64) -> dt.datetime:
        """Convert an instant in UTC to the place's clocks."""
        moment: dt.datetime = instant.astype("datetime64[us]").astype(object)
        return moment.replace(tzinfo=dt.UTC).astimezone(self.zone)

    def ends_of(self, day: dt.date) -> tuple[np.datetime64, np.datetime64]:
        """First instant of a local day and of the next, in UTC."""
        midnight = dt.datetime.combine(day, dt.time())
        return self.utc(midnight), self.utc(midnight + dt.timedelta(days=1))


def _zone(name: str, where: str) -> zoneinfo.ZoneInfo:
    """Time zone of this name, or a PlaceError that suggests one."""
    try:
        return zoneinfo.ZoneInfo(name)
    except (zoneinfo.ZoneInfoNotFoundError, ValueError, OSError):
        near = difflib.get_close_matches(name, sorted(zoneinfo.available_timezones()), 1)
        what = (
            say("there is no time zone '{name}'; did you mean {near}?", name=name, near=near[0])
            if near
            else say("there is no time zone '{name}'; write it as Europe/London or America/Denver", name=name)
        )
        raise PlaceError(what, where) from None


def _meridian(zone: dt.tzinfo) -> float:
    """Meridian of a time zone, without summer time. [degrees east]"""
    moment = dt.datetime(2026, 1, 15, tzinfo=zone)
    offset, saving = moment.utcoffset() or dt.timedelta(), moment.dst() or dt.timedelta()
    return (offset - saving).total_seconds() / 240


def step_ends(place: Place, day: dt.date, step: float) -> Instants:
    """Ends of the time steps of a local day, both midnights included, in UTC.

    Parameters
    ----------
    place : Place
    day : date
    step : float
        [min]

    Returns
    -------
    ndarray (n + 1,) of datetime64
        The last step is shorter if the day is no multiple of the step.
    """
    first, last = place.ends_of(day)
    length = float((last - first) / SECOND)
    count = max(1, math.ceil(length / (60 * step) - 1e-9))
    offsets = np.minimum(np.arange(count + 1) * (60e6 * step), length * 1e6)
    edges: Instants = first + offsets.astype("timedelta64[us]")
    return edges
