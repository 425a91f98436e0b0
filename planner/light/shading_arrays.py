"""Casters and rasters as columns of arrays, for the computation of shading."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.light.casters import Caster
from planner.light.raster import Raster
from planner.sun import Floats

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Optical depth as a whole number, for 1 in the natural logarithm.
DEPTH_SCALE = 1 << 15
#: Depth that lets nothing through; e to the power of -20 is two in a thousand million.
_OPAQUE = 20 * DEPTH_SCALE


class Pairs(NamedTuple):
    """Pairs of rasters and casters by their numbers, ordered by raster, then by caster."""

    raster: Ints
    caster: Ints

    def taken(self, which: Bools | Ints) -> Pairs:
        """Some of them, in the same order."""
        return Pairs(self.raster[which], self.caster[which])


def pairs_of(table: Bools) -> Pairs:
    """The pairs that hold in a table (rasters, casters)."""
    raster, caster = np.nonzero(table)
    return Pairs(raster, caster)


class CasterArrays:
    """All casters as columns, with their rings end to end."""

    def __init__(self, casters: Sequence[Caster]) -> None:
        rings: list[Floats] = []
        owner: list[int] = []
        for number, caster in enumerate(casters):
            rings += caster.rings
            owner += [number] * len(caster.rings)
        sizes = np.array([len(ring) for ring in rings], dtype=np.int64)
        begins = np.cumsum(sizes) - sizes
        self.corners = np.concatenate(rings)
        self.following = np.arange(len(self.corners)) + 1
        self.following[begins + sizes - 1] = begins
        self.before = np.empty_like(self.following)
        self.before[self.following] = np.arange(len(self.corners))
        self.edges = self.corners[self.following] - self.corners
        self.count = np.bincount(np.array(owner), weights=sizes, minlength=len(casters)).astype(np.int64)
        self.begin = np.cumsum(self.count) - self.count
        self.base = np.array([caster.base for caster in casters])
        self.top = np.array([caster.top for caster in casters])
        self.bounds = np.array([caster.bounds for caster in casters])
        clear = np.array([max(0.0, 1.0 - caster.opacity) for caster in casters])
        self.depth = np.minimum(
            np.round(-np.log(np.maximum(clear, 1e-12)) * DEPTH_SCALE), _OPAQUE
        ).astype(np.int32)  # fmt: skip
        convex = np.array([caster.convex for caster in casters])
        self.together = convex | (self.depth == _OPAQUE)


class RasterArrays:
    """All rasters as columns, with the place of each in one long array of cells.

    Each row of a raster has one cell more than columns: crossings beyond its right end go there.
    """

    def __init__(self, rasters: Sequence[Raster]) -> None:
        self.rasters = tuple(rasters)
        self.rows = np.array([raster.rows for raster in rasters], dtype=np.int64)
        self.wide = np.array([raster.columns + 1 for raster in rasters], dtype=np.int64)
        sizes = self.wide * self.rows
        self.begin, self.size = np.cumsum(sizes) - sizes, int(sizes.sum())
        self.left = np.array([raster.left for raster in rasters])
        self.low = np.array([raster.low for raster in rasters])
        self.cell = np.array([raster.cell for raster in rasters])
        self.heights = np.array([raster.height for raster in rasters])

    def divide(self, total: NDArray[np.float32]) -> list[Floats]:
        """Divide an array (k, size) into one array (k, rows, columns) for each raster."""
        found: list[Floats] = []
        for raster, begin in zip(self.rasters, self.begin.tolist(), strict=True):
            block = total[:, begin : begin + raster.rows * (raster.columns + 1)]
            found.append(block.reshape(len(total), raster.rows, -1)[:, :, :-1].astype(np.float64))
        return found
