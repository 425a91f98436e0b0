"""The frame of a bed's sheet: its long axis lies level, its beginning at the left.

Frame coordinates are metres from the bed's beginning (x) and from its lower edge as drawn (y).  For
a bed that is no rectangle both count from the box about it: its lower side is the base line.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.garden import Bed, Site
from planner.ground.shapes import bed_axis, bed_polygon, turned, turned_points
from planner.words import later, say

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

_COMPASS = (
    later("north"),
    later("north-east"),
    later("east"),
    later("south-east"),
    later("south"),
    later("south-west"),
    later("west"),
    later("north-west"),
)


@dataclass(frozen=True)
class BedFrame:
    """Brings a bed's own coordinates to the frame of its sheet."""

    bed: Bed

    @cached_property
    def axis(self) -> float:
        """Direction of the long axis. [degrees anticlockwise from the bed's own x]"""
        return bed_axis(self.bed.outline)

    @cached_property
    def _bounds(self) -> tuple[float, float, float, float]:
        left, low, right, high = shapely.bounds(turned(bed_polygon(self.bed), -self.axis))
        return float(left), float(low), float(right), float(high)

    @cached_property
    def length(self) -> float:
        """Length along the long axis. [m]"""
        return self._bounds[2] - self._bounds[0]

    @cached_property
    def width(self) -> float:
        """Width across the long axis. [m]"""
        return self._bounds[3] - self._bounds[1]

    def shape(self, geometry: shapely.Geometry) -> shapely.Geometry:
        """Bring a geometry from the bed's own coordinates to the frame. [m]"""
        if geometry.is_empty:
            return geometry
        corner = np.array(self._bounds[:2])
        return shapely.transform(turned(geometry, -self.axis), lambda points: points - corner)

    def points(self, own: ArrayLike) -> NDArray[np.float64]:
        """Bring points (n, 2) from the bed's own coordinates to the frame. [m]"""
        given = np.asarray(own, dtype=np.float64).reshape(-1, 2)
        found: NDArray[np.float64] = turned_points(given, -self.axis) - np.array(self._bounds[:2])
        return found

    @cached_property
    def outline(self) -> shapely.Polygon:
        """The bed's outline in the frame."""
        return self.shape(bed_polygon(self.bed))

    @property
    def is_rectangle(self) -> bool:
        """Whether the bed is a rectangle, so that distances are measured from its own edges."""
        return self.bed.outline.shape == "rectangle"

    def north(self, site: Site) -> float:
        """Direction of true north on the sheet. [degrees anticlockwise from right]"""
        return (90.0 + site.bearing_up - self.bed.outline.turn - self.axis) % 360.0

    def side(self, site: Site, direction: float) -> str:
        """Return the compass name of a direction on the sheet.

        Parameters
        ----------
        site : Site
        direction : float
            180 for the bed's beginning, 270 for its lower edge. [degrees anticlockwise from right]
        """
        bearing = (self.north(site) - direction) % 360.0
        return say(_COMPASS[math.floor(bearing / 45.0 + 0.5) % 8])
