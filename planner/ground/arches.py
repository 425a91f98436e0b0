"""Arches that are drawn as structures, and the plants that climb them."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Planting, Structure
from planner.garden.planting_figures import PlantingFigures
from planner.ground.shapes import plan_polygon

#: Greatest distance from an arch of plants that climb it. [m]
AT_THE_ARCH = 0.75


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
