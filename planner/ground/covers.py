"""Sheets, hoops and weights of a cover, from the ground that it lies over.

Measures whose constant names no source are common practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal, NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Outline
from planner.garden.outlines import long_axis
from planner.ground.arcs import half_ellipse
from planner.ground.place import Placed
from planner.ground.shapes import shape_to_plan, turned
from planner.ground.support_materials import posts_along

Held = Literal["hoops", "flat"]

#: Foot of a hoop in the ground.  University of New Hampshire, Using low tunnels, 2014: 6 in or more at each side. [m]
HOOP_FOOT = 0.15
#: Hoop to hoop.  Same source: 4 to 5 ft with metal tube. [m]
HOOP_SPACING = 1.22
#: Edge of a sheet on the ground, held by weights or tucked in, at each side and end. [m]
EDGE = 0.15
#: Edge of film that is dug in at each side of a bed, down its shoulder and into a furrow.  The furrow is 3 to 4 in deep
#: (Texas A&M, plastic mulch); a film of 48 in lies over a bed of 30 in (practice). [m]
FILM_EDGE = 0.23
#: Weight to weight, or peg to peg, along the edges. [m]
WEIGHT_SPACING = 1.5
#: Overlap of two sheets that together are as wide as one is wanted. [m]
OVERLAP = 0.4
#: Side of the ground under one cloche. [m]
CLOCHE = 0.6
#: Ground that a bundle of twiggy sticks lies over (``estimate``). [m2]
BRUSHWOOD_BUNDLE = 2.0
#: Least height of hoops where none is given: wire hoops are 14 to 18 in high (practice, as recalled). [m]
LEAST_HOOP = 0.40
#: Hoops are no higher: bows of 10 ft make tunnels 3 to 5 ft tall (University of New Hampshire, Using low tunnels, 2014). [m]
TALLEST_HOOP = 1.52
#: A sheet laid flat is pushed up by its plants at most so far. [m]
MOST_SLACK = 0.40
#: Ground about a plant that stands by itself. [m]
ABOUT_PLANT = 0.25


class CoveredGround(NamedTuple):
    """The rectangle that a cover lies over, along the long axis of its bed.

    Attributes
    ----------
    direction : float
        Of its length on the plan, from 0 to 180. [degrees anticlockwise from plan-right]
    start, end : float
        Along that direction, on the plan turned back by it. [m]
    low, high : float
        Across it. [m]
    """

    direction: float
    start: float
    end: float
    low: float
    high: float

    @property
    def length(self) -> float:
        """Along the bed. [m]"""
        return self.end - self.start

    @property
    def width(self) -> float:
        """Across the bed. [m]"""
        return self.high - self.low


def covered_ground(outline: Outline, placed: Placed, *, single: bool) -> CoveredGround | None:
    """The ground under a planting's cover; None where it has no ground.

    Parameters
    ----------
    outline : Outline
        Of its bed.
    placed : Placed
    single : bool
        Its plants stand at given places: only those are covered, and not the plot.
    """
    shape = placed.plot
    if single:
        if not placed.plants:
            return None
        shape = shapely.MultiPoint(placed.layout.points).buffer(ABOUT_PLANT)
    if shape.is_empty:
        return None
    direction = round(outline.turn + long_axis(outline), 1) % 180.0
    left, low, right, high = shapely.bounds(turned(shape_to_plan(outline, shape), -direction)).tolist()
    return CoveredGround(direction, left, right, low, high)


@dataclass(frozen=True)
class SheetSize:
    """A sheet and what holds it.

    Attributes
    ----------
    length, width : float
        Of the sheet. [m]
    hoops : int
    hoop_length : float
        With both feet; 0 without hoops. [m]
    weights : int
        Pegs or bags along its edges; 0 where they are dug in.
    """

    length: float
    width: float
    hoops: int = 0
    hoop_length: float = 0.0
    weights: int = 0


def on_hoops(length: float, width: float, height: float) -> SheetSize:
    """A sheet over hoops that stand on the edges of a piece of ground.

    Parameters
    ----------
    length, width : float
        Of the ground. [m]
    height : float
        Of the hoops. [m]
    """
    arch = half_ellipse(width, height)
    ends = 2 * (height + EDGE)
    return SheetSize(
        length=length + ends,
        width=arch + 2 * EDGE,
        hoops=posts_along(length, HOOP_SPACING),
        hoop_length=arch + 2 * HOOP_FOOT,
        weights=weights_around(length + ends, width + 2 * EDGE),
    )


def laid_flat(length: float, width: float, rise: float) -> SheetSize:
    """A sheet that lies on its plants, with slack for them to lift it.

    Parameters
    ----------
    length, width : float
        Of the ground. [m]
    rise : float
        Height of the plants while it lies. [m]
    """
    up = min(max(0.0, rise), MOST_SLACK)
    return SheetSize(
        length=length + 2 * (up + EDGE),
        width=half_ellipse(width, up) + 2 * EDGE,
        weights=weights_around(length + 2 * EDGE, width + 2 * EDGE),
    )


def film_over(length: float, width: float) -> SheetSize:
    """Film on a bed, its edges and ends dug in.

    Parameters
    ----------
    length, width : float
        Of the ground. [m]
    """
    return SheetSize(length + 2 * FILM_EDGE, width + 2 * FILM_EDGE)


def cloches_over_plants(points: NDArray[np.float64], direction: float) -> int:
    """Number of cloches over plants, each over as many as stand under it.

    Rows nearer than a cloche is wide are covered together; along them each cloche begins at the next plant that is not covered.

    Parameters
    ----------
    points : ndarray (n, 2)
        [m]
    direction : float
        Of the rows. [degrees]
    """
    angle = math.radians(direction)
    along = points @ np.array([math.cos(angle), math.sin(angle)])
    across = points @ np.array([-math.sin(angle), math.cos(angle)])
    order = np.argsort(across, kind="stable")
    return sum(len(_groups_within(along[order[first:last]])) for first, last in _groups_within(across[order]))


def _groups_within(places: NDArray[np.float64]) -> list[tuple[int, int]]:
    """Places in their order, in groups that are less than a cloche long: first of each, and first of the next. [m]"""
    order = np.sort(places)
    found, first = [], 0
    while first < len(order):
        last = int(np.searchsorted(order, order[first] + CLOCHE - 1e-6))
        found.append((first, last))
        first = last
    return found


def cloches_over(length: float, width: float) -> int:
    """Number of cloches over a piece of ground that is sown all over."""
    return max(1, math.ceil(length / CLOCHE - 1e-6)) * max(1, math.ceil(width / CLOCHE - 1e-6))


def brushwood_over(length: float, width: float) -> int:
    """Bundles of brushwood over a piece of ground."""
    return max(1, math.ceil(length * width / BRUSHWOOD_BUNDLE - 1e-6))


def weights_around(length: float, width: float) -> int:
    """Pegs or bags around a sheet: one at each corner, and along each side."""
    along, across = (posts_along(side, WEIGHT_SPACING) - 1 for side in (length, width))
    return 2 * (along + across)


def strips_of(width: float, roll: float) -> int:
    """How many strips of a roll, overlapping, are as wide as a sheet.

    Parameters
    ----------
    width, roll : float
        [m]
    """
    if roll >= width - 1e-6:
        return 1
    gained = roll - OVERLAP
    return math.ceil((width - OVERLAP) / gained - 1e-6) if gained > 0 else 0
