"""A planting as it is painted on the sheet."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtGui import QPainterPath

from planner.desk.canvas import transform
from planner.garden import Planting
from planner.garden.planting import GUARDS
from planner.ground import shapes
from planner.plan import Plan

#: The smallest plant is drawn this wide. [scene units]
LEAST_PLANT = 1.2


@dataclass(frozen=True)
class PaintedPlanting:
    """A planting as it is painted: its plot and stations on the scene.

    Attributes
    ----------
    planting : Planting
    form : str
        Growth form of the crop.
    ink : str
        Key of its ink: botanical family of the crop, empty where it is not in the catalogue, or a class.
    plot : QPainterPath
        On the scene.
    points : ndarray (n, 2)
        Stations. [scene units]
    apart : float
        About how far a plant is from its neighbour. [scene units]
    full : float
        Diameter of the ground one plant covers when it is full grown. [scene units]
    canopy : float
        The same on the day shown. [scene units]
    mark : float
        Diameter its mark may take on that day. [scene units]
    cover : str
        Kind of the first cover that is no guard; empty where there is none.
    support : QPainterPath
        What it climbs on, seen from above.
    """

    planting: Planting
    form: str
    ink: str
    plot: QPainterPath
    points: NDArray[np.float64]
    apart: float
    full: float
    canopy: float
    mark: float
    cover: str
    support: QPainterPath

    def grown(self, spread: float | None, ink: str) -> PaintedPlanting:
        """The same in an ink, with plants of a spread [m]; None for full-grown ones."""
        canopy = self.full if spread is None else max(spread * transform.SCALE, LEAST_PLANT)
        # Seed in the ground is a dot, so that a sown bed does not look bare.
        return replace(self, ink=ink, canopy=canopy, mark=min(self.apart, max(canopy, 0.25 * self.apart)))


#: Of more stakes, cages or towers of one planting the hull is painted.
MOST_POSTS = 10_000


def painted_planting(plan: Plan, planting: Planting) -> PaintedPlanting:
    """Work out how a planting is painted, its plants full grown."""
    bed, placed, figures = plan.bed_of(planting), plan.placed(planting), plan.figures_of(planting)
    layout = placed.layout
    apart = _distance_apart(layout.in_row_spacing, layout.row_spacing, placed.area, layout.count)
    spread = figures.number("spread") or apart
    return PaintedPlanting(
        planting=planting,
        form=figures.crop.growth_form if figures.crop else "bush",
        ink=figures.crop.family if figures.crop else "",
        plot=transform.path(shapes.shape_to_plan(bed.outline, placed.plot)),
        points=transform.scene_points(shapes.to_plan(bed.outline, layout.points)),
        apart=apart * transform.SCALE,
        full=spread * transform.SCALE,
        canopy=spread * transform.SCALE,
        mark=min(apart, spread) * transform.SCALE,
        cover=next((cover.kind for cover in planting.covers if cover.kind not in GUARDS), ""),
        support=_support_path(plan, planting),
    )


def _support_path(plan: Plan, planting: Planting) -> QPainterPath:
    """What a planting climbs on, seen from above, on the scene."""
    built_support = plan.built_support(planting)
    path = QPainterPath()
    if built_support is None:
        return path
    outline = plan.bed_of(planting).outline
    if shapely.get_num_geometries(built_support.over) > MOST_POSTS:
        return transform.path(shapes.shape_to_plan(outline, shapely.convex_hull(built_support.over)))
    for shape in (built_support.over, built_support.ground):
        path.addPath(transform.path(shapes.shape_to_plan(outline, shape)))
    return path


def _distance_apart(in_row: float | None, between: float | None, area: float, count: int) -> float:
    """About how far a plant is from its neighbour. [m]

    Parameters
    ----------
    in_row, between : float or None
        In-row and row spacing, where there are any. [m]
    area : float
        Of the plot. [m2]
    count : int
        Number of plants.
    """
    distances = [d for d in (in_row, between) if d]
    if distances:
        return float(min(distances))
    return max(0.02, math.sqrt(area / count)) if count else 0.1


def quantised_spread(spread: float) -> float:
    """Round a spread [m] to about 3 %, so that beds are not painted anew for every day."""
    return round(spread, 2) if spread < 0.2 else round(spread / 0.03) * 0.03
