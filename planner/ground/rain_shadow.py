"""How much of the rain reaches a bed: less at the foot of walls and fences, and under trees.

How wide such a dry strip is and what reaches it is common practice and our own estimate
(``crop_water.toml``, practice).
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import shapely

from planner.crops.crop_water import water_figures
from planner.garden import Bed, Structure
from planner.garden.beds import StructureKind
from planner.ground.shapes import plan_polygon

#: What keeps rain off the ground at its foot.
WALLS: tuple[StructureKind, ...] = ("wall", "fence", "hedge", "shed", "glasshouse", "tunnel")
#: A fence that lets more than this of the light through lets the rain through too (practice).
OPEN_FENCE = 0.5
#: What is lower keeps off no rain worth speaking of (practice). [m]
LOW_WALL = 1.0


class DryGround(NamedTuple):
    """A part of a bed that rain does not reach as it does the open ground.

    Attributes
    ----------
    structure : Structure
    shape : shapely.Geometry
        On the plan.
    share : float
        Of the bed.
    rain : float
        Share of the rain that reaches it.
    """

    structure: Structure
    shape: shapely.Geometry
    share: float
    rain: float


def dry_ground(bed: Bed, structures: Iterable[Structure]) -> tuple[DryGround, ...]:
    """The parts of a bed that walls, fences and trees keep dry, the largest first.

    Parameters
    ----------
    bed : Bed
    structures : iterable of Structure
        Those that are there in the growing year.
    """
    ground = plan_polygon(bed.outline)
    if ground.area <= 0:
        return ()
    number = water_figures().number
    found = []
    for one in structures:
        if one.opacity and sum(one.opacity) / len(one.opacity) < OPEN_FENCE:
            continue
        if one.kind in WALLS and one.height >= LOW_WALL:
            reach, rain = number("wall_strip"), number("wall_rain")
        elif one.kind == "tree":
            reach, rain = 0.0, number("tree_rain")
        else:
            continue
        foot = plan_polygon(one.outline)
        dry = ground.intersection(foot.buffer(reach) if reach else foot)
        if not one.fills_outline:  # within a tunnel it is another matter: no rain at all
            dry = dry.difference(foot)
        share = float(dry.area / ground.area)
        if share > 1e-3:
            found.append(DryGround(one, dry, share, rain))
    return tuple(sorted(found, key=lambda part: -part.share))


def rain_share(bed: Bed, structures: Iterable[Structure]) -> float:
    """Share of the rain of open ground that a bed has, in the mean of its ground; 1 where nothing keeps it off."""
    left = 1.0
    taken = shapely.Polygon()
    for part in sorted(dry_ground(bed, structures), key=lambda one: one.rain):
        fresh = part.shape.difference(taken)
        left -= (1 - part.rain) * float(fresh.area) / float(plan_polygon(bed.outline).area)
        taken = taken.union(part.shape)
    return max(left, 0.0)
