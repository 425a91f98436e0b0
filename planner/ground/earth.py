"""From the plan to latitude and longitude, and back.

The plan is the plane that touches the Earth at the garden's place, at the garden's height above the sea; its origin has
the garden's latitude and longitude.  Both ways go through coordinates from the Earth's centre, on the ellipsoid of WGS 84
(NGA.STND.0036, 2014: a = 6 378 137 m, 1/f = 298.257223563).  Within a kilometre the plane is off by less than 0.1 mm.
Heights above the sea are taken for heights above the ellipsoid, which differ by up to 110 m: 1.7 mm in 100 m.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Self

import numpy as np
import shapely
from numpy.typing import ArrayLike, NDArray

from planner.errors import BedwrightError
from planner.garden import Site
from planner.words import say

#: Equatorial radius and squared eccentricity of WGS 84. [m, 1]
RADIUS = 6_378_137.0
_FLATTENING = 1 / 298.257223563
_ECCENTRICITY = _FLATTENING * (2 - _FLATTENING)
#: Rounds after which a latitude does not change any more; each gains more than two digits.
_ROUNDS = 8


class NoPlaceError(BedwrightError):
    """A garden whose place on the Earth is not known."""


@dataclass(frozen=True)
class Earth:
    """The place of a plan on the Earth.

    Attributes
    ----------
    latitude, longitude : float
        Of the plan's origin. [degrees]
    height : float
        [m]
    bearing_up : float
        Bearing of plan-up, clockwise from true north. [degrees]
    """

    latitude: float
    longitude: float
    height: float = 0.0
    bearing_up: float = 0.0

    @classmethod
    def of(cls, site: Site) -> Self:
        """The place of a site.

        Raises
        ------
        NoPlaceError
            Where its latitude or its longitude is not known.
        """
        if site.latitude is None or site.longitude is None:
            raise NoPlaceError(
                say("its place on the Earth is not known"),
                site.name,
                say("Type latitude and longitude in the garden's details"),
            )
        return cls(site.latitude, site.longitude, site.elevation or 0.0, site.bearing_up)

    @cached_property
    def _axes(self) -> NDArray[np.float64]:
        """Plan-right, plan-up and upward as columns, in coordinates from the Earth's centre."""
        lat, lon = math.radians(self.latitude), math.radians(self.longitude)
        east = np.array([-math.sin(lon), math.cos(lon), 0.0])
        north = np.array([-math.sin(lat) * math.cos(lon), -math.sin(lat) * math.sin(lon), math.cos(lat)])
        upward = np.cross(east, north)
        turn = math.radians(self.bearing_up)
        right = math.cos(turn) * east - math.sin(turn) * north
        up = math.sin(turn) * east + math.cos(turn) * north
        axes: NDArray[np.float64] = np.column_stack([right, up, upward])
        return axes

    @cached_property
    def _origin(self) -> NDArray[np.float64]:
        origin: NDArray[np.float64] = _from_centre(np.array([[self.longitude, self.latitude]]), self.height)[
            0
        ]
        return origin

    def positions(self, plan: ArrayLike) -> NDArray[np.float64]:
        """Longitudes and latitudes (n, 2) of points of the plan. [degrees]

        Longitudes run on beyond 180 degrees, so that a garden is never torn.

        Parameters
        ----------
        plan : array (n, 2)
            [m]
        """
        points = np.asarray(plan, dtype=np.float64).reshape(-1, 2)
        x, y, z = (points @ self._axes[:, :2].T + self._origin).T
        level = np.hypot(x, y)
        lat = np.arctan2(z, level * (1 - _ECCENTRICITY))
        for _ in range(_ROUNDS):
            sine = np.sin(lat)
            normal = RADIUS / np.sqrt(1 - _ECCENTRICITY * sine**2)
            lat = np.arctan2(z + _ECCENTRICITY * normal * sine, level)
        lon = np.degrees(np.arctan2(y, x))
        lon = self.longitude + (lon - self.longitude + 180.0) % 360.0 - 180.0
        return np.column_stack([lon, np.degrees(lat)])

    def on_plan(self, positions: ArrayLike) -> NDArray[np.float64]:
        """Points of the plan (n, 2) at longitudes and latitudes. [m]

        Parameters
        ----------
        positions : array (n, 2)
            Longitudes and latitudes. [degrees]
        """
        given = np.asarray(positions, dtype=np.float64).reshape(-1, 2)
        found: NDArray[np.float64] = (_from_centre(given, self.height) - self._origin) @ self._axes[:, :2]
        return found

    def shape(self, plan: shapely.Geometry) -> shapely.Geometry:
        """Bring a geometry from the plan to longitudes and latitudes, cut at 180 degrees (RFC 7946, 3.1.9).

        Parameters
        ----------
        plan : shapely.Geometry
            [m]

        Returns
        -------
        shapely.Geometry
            Outer rings run anticlockwise, inner ones clockwise. [degrees]
        """
        placed = shapely.transform(plan, self.positions)
        left, _, right, _ = shapely.bounds(placed)
        parts = []
        for begin in (-540.0, -180.0, 180.0):
            if left < begin + 360.0 and right > begin:
                part = placed
                if left < begin or right > begin + 360.0:
                    part = shapely.intersection(placed, shapely.box(begin, -90.0, begin + 360.0, 90.0))
                shift = begin + 180.0
                parts += list(
                    shapely.get_parts(shapely.transform(part, lambda points, s=shift: points - [s, 0.0]))
                )
        whole = parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)
        return shapely.orient_polygons(whole)


def _from_centre(positions: NDArray[np.float64], height: float) -> NDArray[np.float64]:
    """Coordinates from the Earth's centre (n, 3) of longitudes and latitudes. [m]"""
    lon, lat = np.radians(positions).T
    normal = RADIUS / np.sqrt(1 - _ECCENTRICITY * np.sin(lat) ** 2)
    level = (normal + height) * np.cos(lat)
    high = (normal * (1 - _ECCENTRICITY) + height) * np.sin(lat)
    return np.column_stack([level * np.cos(lon), level * np.sin(lon), high])
