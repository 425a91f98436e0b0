"""Direct sun that reaches the cells of rasters, under many beams and casters."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from planner.light.beams import Beams
from planner.light.casters import Caster
from planner.light.raster import Raster
from planner.light.shading_arrays import DEPTH_SCALE, Bools, CasterArrays, RasterArrays
from planner.light.shadow_fill import ShadowFill
from planner.sun import Floats

#: Greatest number of cells, and of pairs of raster and caster, in one batch of beams.
_CELLS_AT_ONCE = 150_000
_PAIRS_AT_ONCE = 400_000


class Shading:
    """Casters over rasters.

    Parameters
    ----------
    casters : sequence of Caster
    rasters : sequence of Raster
    pairs : ndarray (rasters, casters) of bool, optional
        Which casters count for which raster; all by default.
    """

    def __init__(
        self, casters: Sequence[Caster], rasters: Sequence[Raster], pairs: Bools | None = None
    ) -> None:
        self._used = np.array([n for n, caster in enumerate(casters) if caster.casts], dtype=np.intp)
        self.rasters = tuple(rasters)
        self._arrays = RasterArrays(self.rasters)
        self._fill: ShadowFill | None = None
        if len(self._used):
            caster_arrays = CasterArrays([casters[number] for number in self._used])
            used_pairs = None if pairs is None else pairs[:, self._used]
            self._fill = ShadowFill(caster_arrays, self._arrays, used_pairs)

    def hours(self, beams: Beams, cancelled: Callable[[], bool] | None = None) -> list[Floats] | None:
        """Hours of direct sun of each cell.

        Parameters
        ----------
        beams : Beams
        cancelled : callable, optional
            Called between batches of beams.

        Returns
        -------
        list of ndarray (rows, columns)
            One for each raster; None once cancelled. [h]
        """
        sums = self.sums(beams, beams.hours[np.newaxis], cancelled)
        return [cells[0] for cells in sums] if sums is not None else None

    def sums(
        self, beams: Beams, weights: Floats, cancelled: Callable[[], bool] | None = None
    ) -> list[Floats] | None:
        """Sums of the beams that reach each cell, under several weights.

        Parameters
        ----------
        beams : Beams
        weights : array (k, n)
            Weights of the n beams, k times.
        cancelled : callable, optional
            Called between batches of beams.

        Returns
        -------
        list of ndarray (k, rows, columns)
            One for each raster; None once cancelled.
        """
        total = np.zeros((len(weights), self._arrays.size), dtype=np.float32)
        light = weights.astype(np.float32)
        for part in self._batches(len(beams.hours)):
            if cancelled is not None and cancelled():
                return None
            self._add(beams.toward[part], light[:, part], total)
        return self._arrays.divide(total)

    def meeting_each(self, beams: Beams) -> list[list[int]]:
        """Indices of the casters that can shade each raster under some beam, in order."""
        if self._fill is None or not len(beams.hours):
            return [[] for _ in self.rasters]
        met = np.zeros((len(self.rasters), len(self._used)), dtype=bool)
        for part in self._batches(len(beams.hours)):
            met |= self._fill.meets(-beams.toward[part]).any(axis=0)
        return [self._used[row].tolist() for row in met]

    def meeting(self, beams: Beams) -> NDArray[np.intp]:
        """Indices of the casters that can shade any raster under some beam, in order."""
        numbers = sorted({number for row in self.meeting_each(beams) for number in row})
        return np.array(numbers, dtype=np.intp)

    def through(self, toward: Floats) -> list[Floats]:
        """Share of one beam that reaches each cell, an array (rows, columns) for each raster. [0 to 1]"""
        total = np.zeros((1, self._arrays.size), dtype=np.float32)
        self._add(toward.reshape(1, 2), np.ones((1, 1), dtype=np.float32), total)
        return [cells[0] for cells in self._arrays.divide(total)]

    def _batches(self, steps: int) -> Iterator[slice]:
        """Ranges of beams small enough for the memory of one batch."""
        pairs = len(self.rasters) * max(1, len(self._used))
        size = max(1, min(_CELLS_AT_ONCE // max(1, self._arrays.size), _PAIRS_AT_ONCE // max(1, pairs)))
        for first in range(0, steps, size):
            yield slice(first, min(first + size, steps))

    def _add(self, toward: Floats, light: NDArray[np.float32], total: NDArray[np.float32]) -> None:
        """Add to each cell the light that reaches it: (weights, beams) to (weights, cells)."""
        depth = self._fill.depth(-toward) if self._fill is not None else None
        if depth is None:
            total += light.sum(axis=1)[:, np.newaxis]
            return
        clear = depth.astype(np.float32)
        clear *= np.float32(-1 / DEPTH_SCALE)
        np.exp(clear, out=clear)
        total += light @ clear
