"""Map of direct sun over a garden: coarse maps first, then the finished one."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Garden
from planner.ground.shapes import plan_polygon, prepared_copy
from planner.light.beams import STEP, beams
from planner.light.place import Place
from planner.light.raster import Raster, raster_over
from planner.light.receiver import CastersOn, Receiver, pairs_apart
from planner.light.sample_days import Days
from planner.light.shading import Shading
from planner.light.shading_arrays import Pairs
from planner.sun import Floats

#: Side of a cell of the finished map. [m]
CELL = 0.10
#: Greatest number of cells of a map; larger gardens have larger cells.
MOST_CELLS = 4_000_000
#: Margin around beds and structures of a site without an outline. [m]
MARGIN = 1.0
#: Coarse maps before the finished one: side of a cell [m], time step [min], greatest number of days.
COARSE = ((0.40, 30, 1), (0.20, 20, 4))


@dataclass(frozen=True, eq=False)
class LightMap:
    """Hours of direct sun a day over a rectangle of the plan.

    Attributes
    ----------
    left, low : float
        Lower left corner of the first cell. [m]
    cell : float
        Side of a cell. [m]
    hours : ndarray (rows, columns)
        From the bottom up and from left to right. [h]
    unshaded : float
        Without any shade. [h]
    finished : bool
        False for the coarse maps.
    """

    left: float
    low: float
    cell: float
    hours: Floats
    unshaded: float
    finished: bool

    def at(self, x: float, y: float) -> float | None:
        """Hours at a point of the plan [m]; None outside the map. [h]"""
        column, row = int((x - self.left) // self.cell), int((y - self.low) // self.cell)
        rows, columns = self.hours.shape
        return float(self.hours[row, column]) if 0 <= row < rows and 0 <= column < columns else None


def garden_extent(garden: Garden) -> tuple[float, float, float, float] | None:
    """Extent of a garden's map: left, low, right, high. [m]

    The bounds of the site's outline; without one those of all beds and structures with a margin.  None for an empty
    garden.
    """
    if garden.site.outline is not None:
        shapes = [plan_polygon(garden.site.outline)]
        margin = 0.0
    else:
        outlines = [bed.outline for bed in garden.beds] + [one.outline for one in garden.structures]
        shapes = [plan_polygon(outline) for outline in outlines]
        margin = MARGIN
    if not shapes:
        return None
    left, low, right, high = (float(value) for value in shapely.total_bounds(shapes))
    return left - margin, low - margin, right + margin, high + margin


def light_maps(
    extent: tuple[float, float, float, float],
    place: Place,
    days: Days,
    casters_on: CastersOn,
    surfaces: Sequence[Receiver] = (),
    cell: float = CELL,
    step: float = STEP,
    cancelled: Callable[[], bool] | None = None,
    coarse: Sequence[tuple[float, float, int]] = COARSE,
) -> Iterator[LightMap]:
    """Compute maps of the hours of direct sun a day: coarse ones first, the finished one last.

    Parameters
    ----------
    extent : tuple
        Left, low, right, high on the plan. [m]
    place, days, casters_on, step
        As for :func:`planner.light.hours.hours_over`.
    surfaces : sequence of Receiver
        Surfaces above the ground: beds at their height, plantings at theirs.  Where they overlap the last one counts.
    cell : float
        Side of a cell. [m]
    cancelled : callable, optional
        Called between batches of beams; once it returns true, no more maps are made.
    coarse : sequence of (float, float, int)
        Coarse maps: side of a cell [m], time step [min], greatest number of days.

    Yields
    ------
    LightMap
    """
    area = (extent[2] - extent[0]) * (extent[3] - extent[1])
    while area / cell**2 > MOST_CELLS:
        cell *= 2
    rounds = [(side, minutes, most, False) for side, minutes, most in coarse if side > cell]
    for side, minutes, most, finished in (*rounds, (cell, step, len(days), True)):
        ground = _GroundAndSurfaces(raster_over(extent, side), surfaces)
        hours = ground.hours(place, _thinned(days, most), casters_on, minutes, cancelled)
        if hours is None:
            return
        unshaded = sum(share * beams(place, day, minutes).total for day, share in days)
        yield LightMap(extent[0], extent[1], side, hours, unshaded, finished)


def _thinned(days: Days, most: int) -> Days:
    """At most so many of the days, evenly chosen, with the same sum of shares."""
    if len(days) <= most:
        return days
    chosen = [days[(2 * i + 1) * len(days) // (2 * most)] for i in range(most)]
    whole = sum(share for _, share in days) / sum(share for _, share in chosen)
    return [(day, share * whole) for day, share in chosen]


class _GroundAndSurfaces:
    """Raster of the ground, with a window of it for each surface above the ground."""

    def __init__(self, ground: Raster, surfaces: Sequence[Receiver]) -> None:
        self.ground = ground
        self.windows: list[tuple[Receiver, slice, slice, NDArray[np.bool_]]] = []
        columns, rows = ground.middles
        for surface in surfaces:
            if surface.shape.is_empty:
                continue
            left, low, right, high = shapely.bounds(surface.shape)
            across = slice(*np.searchsorted(columns, (left, right)).tolist())
            up = slice(*np.searchsorted(rows, (low, high)).tolist())
            x, y = np.meshgrid(columns[across], rows[up])
            inside = shapely.contains_xy(prepared_copy(surface.shape), x, y)
            if inside.any():
                self.windows.append((surface, up, across, inside))

    def _window_raster(self, up: slice, across: slice, height: float) -> Raster:
        """Raster of a window at a height. [m]"""
        ground = self.ground
        return Raster(
            ground.left + across.start * ground.cell,
            ground.low + up.start * ground.cell,
            ground.cell,
            up.stop - up.start,
            across.stop - across.start,
            height,
        )

    def hours(
        self,
        place: Place,
        days: Days,
        casters_on: CastersOn,
        step: float,
        cancelled: Callable[[], bool] | None,
    ) -> Floats | None:
        """Hours a day of each cell; None once cancelled. [h]"""
        surfaces = [surface for surface, *_ in self.windows]
        total = np.zeros((self.ground.rows, self.ground.columns))
        for day, share in days:
            casters = casters_on(day)
            rasters = [
                self.ground,
                *(self._window_raster(up, across, one.height_on(day)) for one, up, across, _ in self.windows),
            ]
            apart = pairs_apart(casters, surfaces)
            apart = Pairs(apart.raster + 1, apart.caster)  # the first raster is the ground
            cells = Shading(casters, rasters, apart=apart).hours(beams(place, day, step), cancelled)
            if cells is None:
                return None
            ground = cells[0]
            for (_, up, across, inside), above in zip(self.windows, cells[1:], strict=True):
                ground[up, across][inside] = above[inside]
            total += share * ground
        return total
