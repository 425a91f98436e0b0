"""Rasters of square cells, by which light is measured over ground."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.ground.shapes import prepared_copy
from planner.lazy import lazy_property
from planner.sun import Floats

#: Greatest side of the cells by which a plot is measured. [m]
CELL = 0.10
#: Greatest number of cells of one plot.
MOST_CELLS = 20_000
#: Least side of a cell in narrow shapes. [m]
LEAST_CELL = 0.01


@dataclass(frozen=True, eq=False)
class Raster:
    """A rectangle of square cells on a level plane.

    Attributes
    ----------
    left, low : float
        Its lower left corner on the plan. [m]
    cell : float
        Side of a cell. [m]
    rows, columns : int
    height : float
        Of the plane above the ground. [m]
    """

    left: float
    low: float
    cell: float
    rows: int
    columns: int
    height: float = 0.0

    @property
    def cells(self) -> int:
        """Number of cells."""
        return self.rows * self.columns

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, low, right, high. [m]"""
        right, high = self.left + self.columns * self.cell, self.low + self.rows * self.cell
        return self.left, self.low, right, high

    @lazy_property
    def middles(self) -> tuple[Floats, Floats]:
        """Middles of the columns (x) and of the rows (y). [m]"""
        column, row = np.arange(self.columns, dtype=np.float64), np.arange(self.rows, dtype=np.float64)
        return self.left + (column + 0.5) * self.cell, self.low + (row + 0.5) * self.cell

    def at_height(self, height: float) -> Raster:
        """Return the same cells on a plane at another height. [m]"""
        return Raster(self.left, self.low, self.cell, self.rows, self.columns, height)


def raster_over(bounds: Sequence[float], cell: float, height: float = 0.0) -> Raster:
    """Cover a rectangle with a raster.

    Parameters
    ----------
    bounds : sequence of float
        Left, low, right, high. [m]
    cell : float
        Side of a cell. [m]
    height : float
        Of the plane above the ground. [m]

    Returns
    -------
    Raster
        Reaches beyond the rectangle at the right and the top, if its sides are no multiples of the cell.
    """
    left, low, right, high = (float(value) for value in bounds)
    columns = max(1, math.ceil((right - left) / cell - 1e-9))
    rows = max(1, math.ceil((high - low) / cell - 1e-9))
    return Raster(left, low, cell, rows, columns, height)


def point_raster(x: float, y: float, height: float = 0.0) -> Raster:
    """Return a raster of one small cell about a point.

    Parameters
    ----------
    x, y : float
        On the plan. [m]
    height : float
        Of the plane above the ground. [m]
    """
    return Raster(x - LEAST_CELL / 2, y - LEAST_CELL / 2, LEAST_CELL, 1, 1, height)


def rasterize(shape: shapely.Geometry, cell: float = CELL) -> tuple[Raster, NDArray[np.bool_]]:
    """Find the cells by which a shape is measured.

    Cells have the given side, a smaller one in narrow shapes and a larger one in very large shapes.  A cell belongs
    to the shape if its middle does; a shape too small for any cell is measured at one point inside.

    Parameters
    ----------
    shape : shapely.Geometry
        On the plan, not empty. [m]
    cell : float
        Usual side of a cell. [m]

    Returns
    -------
    raster : Raster
    inside : ndarray (rows, columns) of bool
        Cells that belong to the shape.
    """
    width = 2 * shape.area / max(shape.length, 1e-9)
    cell = min(cell, max(width / 4, LEAST_CELL))
    left, low, right, high = shapely.bounds(shape)
    cell = max(cell, math.sqrt(max((right - left) * (high - low), 0.0) / MOST_CELLS))
    raster = raster_over((left, low, right, high), cell)
    columns, rows = raster.middles
    x, y = np.meshgrid(columns, rows)
    inside: NDArray[np.bool_] = shapely.contains_xy(prepared_copy(shape), x, y)
    if inside.any():
        return raster, inside
    point = shapely.point_on_surface(shape)
    return point_raster(point.x, point.y), np.ones((1, 1), dtype=bool)
