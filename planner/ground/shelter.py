"""What shelters a bed: the roof over it, or a wall behind it on the side away from the sun."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely

from planner.garden import Bed, Structure
from planner.ground.shapes import plan_polygon

#: Kinds of structures over beds, which are shelters of the same name.
ROOFS = ("tunnel", "glasshouse")
#: Kinds whose sunny side is warm: solid, and heavy enough to give back at night what they took by day.
WALLS = ("wall", "shed")
#: Kinds of structures that can shelter.
SHELTERING = (*ROOFS, *WALLS)
#: A wall warms as far as this from its foot (practice). [m]
REACH_OF_WALL = 1.0
#: Least height of a wall that warms (practice). [m]
LEAST_HEIGHT = 1.2
#: Least share of a bed's width along which the wall runs.
LEAST_SHARE = 0.5


def shelter_of(
    bed: Bed, structures: Iterable[Structure], bearing_up: float, southern: bool
) -> tuple[str, ...]:
    """Kinds of shelter of a bed, as :mod:`planner.crops.cover_effects` names them; empty in the open.

    A bed under glass is in the tunnel or glasshouse that covers most of it, else in a glasshouse that is not drawn.

    Parameters
    ----------
    bed : Bed
    structures : iterable of Structure
        In use in the growing year.
    bearing_up : float
        Bearing of plan-up, clockwise from true north. [degrees]
    southern : bool
        The sun stands in the north at noon.
    """
    ground = plan_polygon(bed.outline)
    there = [one for one in structures if one.kind in SHELTERING]
    roofs = [
        one.kind
        for one in there
        if one.kind in ROOFS and plan_polygon(one.outline).intersection(ground).area > ground.area / 2
    ]
    if roofs:
        return (roofs[0],)
    if bed.kind == "under glass":
        return ("glasshouse",)
    away = away_from_sun(bearing_up, southern)
    walls = [one for one in there if one.kind in WALLS and one.height >= LEAST_HEIGHT]
    return (
        ("south wall",) if any(_is_behind(plan_polygon(one.outline), ground, away) for one in walls) else ()
    )


def away_from_sun(bearing_up: float, southern: bool) -> tuple[float, float]:
    """The direction on the plan away from the midday sun, of length 1."""
    north = np.radians(-bearing_up)
    x, y = float(np.sin(north)), float(np.cos(north))
    return (-x, -y) if southern else (x, y)


def _is_behind(wall: shapely.Geometry, ground: shapely.Geometry, away: tuple[float, float]) -> bool:
    """Whether a wall runs along most of a bed, close behind it."""
    moved = shapely.affinity.translate(ground, REACH_OF_WALL * away[0], REACH_OF_WALL * away[1])
    behind = shapely.union(ground, moved).convex_hull.difference(ground)
    near = behind.intersection(wall)
    if near.is_empty:
        return False
    return _width(near, away) >= LEAST_SHARE * _width(ground, away)


def _width(shape: shapely.Geometry, away: tuple[float, float]) -> float:
    """Extent of a shape across a direction. [m]"""
    points = shapely.get_coordinates(shape)
    across = points[:, 0] * away[1] - points[:, 1] * away[0]
    return float(np.ptp(across))
