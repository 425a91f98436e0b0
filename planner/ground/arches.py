"""Arches that are drawn as structures, and the plants that climb them."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Bed, Planting, Rectangle, Structure
from planner.garden.planting_figures import PlantingFigures
from planner.ground.shapes import own_polygon, plan_polygon, shape_to_plan

#: Greatest distance from an arch of plants that climb it. [m]
AT_THE_ARCH = 0.75
#: Greatest distance of an arch's foot from the bed it stands at. [m]
AT_THE_BED = 0.05


def climbs_arches(planting: Planting, figures: PlantingFigures) -> bool:
    """Whether a planting may climb an arch beside it: a climber without another support, or one that is given an arch.

    The feet of an arch keep other plants off; what climbs grows along them.
    """
    if planting.support is not None:
        return planting.support.kind == "arch"
    return figures.crop is not None and figures.crop.growth_form == "climber"


def arch_beside(points: NDArray[np.float64], arches: Iterable[Structure]) -> Structure | None:
    """The arch beside at least half of some plants, the one beside the most of them; None if there is none.

    Parameters
    ----------
    points : ndarray (n, 2)
        On the plan. [m]
    arches : iterable of Structure
    """
    stations = shapely.points(points)
    best, most = None, 0
    for arch in arches:
        near = int(shapely.dwithin(stations, plan_polygon(arch.outline), AT_THE_ARCH).sum())
        if near > most and 2 * near >= len(points):
            best, most = arch, near
    return best


def arch_between_beds(drawn: Rectangle, beds: Iterable[Bed]) -> Rectangle:
    """The outline of an arch that was drawn as a box: it spans the box in the direction in which its feet stand at beds.

    Parameters
    ----------
    drawn : Rectangle
    beds : iterable of Bed

    Returns
    -------
    Rectangle
        With its span along its length; as drawn where neither direction is better.
    """
    ground = shapely.union_all([plan_polygon(bed.outline) for bed in beds]).buffer(AT_THE_BED)
    across = drawn.with_(length=drawn.width, width=drawn.length, turn=(drawn.turn + 90.0) % 360.0)
    return across if _feet_at(across, ground) > _feet_at(drawn, ground) + 1e-6 else drawn


def _feet_at(outline: Rectangle, ground: shapely.Geometry) -> float:
    """Share of the foot line of an arch that lies in some ground, of that foot of which less does."""
    left, low, right, high = shapely.bounds(own_polygon(outline))
    feet = (shapely.LineString([(x, low), (x, high)]) for x in (left, right))
    lines = [shape_to_plan(outline, foot) for foot in feet]
    return min(float(shapely.intersection(line, ground).length / line.length) for line in lines)
