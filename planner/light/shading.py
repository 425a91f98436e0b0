"""Direct sun that reaches the cells of rasters, under many beams and casters."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.light.beams import Beams
from planner.light.casters import Caster
from planner.light.raster import Raster
from planner.light.shading_arrays import DEPTH_SCALE, CasterArrays, Ints, Pairs, RasterArrays, pairs_of
from planner.light.shadow_fill import ShadowFill
from planner.sun import Floats

#: Greatest number of cells, and of pairs of raster and caster, in one batch of beams.
_CELLS_AT_ONCE = 150_000
_PAIRS_AT_ONCE = 400_000
#: Up to so many pairs are tried one by one; of more those near each other are looked up in a tree of the rasters.
_PAIRS_TRIED = 20_000
#: Boxes in the tree are so much larger: rounding must not lose one that touches. [m]
_TOUCHING = 1e-6


class Shading:
    """Casters over rasters.

    The cost grows with the pairs of a raster and a caster whose shadow can reach it, not with all pairs.

    Parameters
    ----------
    casters : sequence of Caster
    rasters : sequence of Raster
    pairs : Pairs, optional
        Which casters count for which raster; all by default.
    apart : Pairs, optional
        Those that do not count.
    """

    def __init__(
        self,
        casters: Sequence[Caster],
        rasters: Sequence[Raster],
        pairs: Pairs | None = None,
        apart: Pairs | None = None,
    ) -> None:
        self._used = np.array([n for n, caster in enumerate(casters) if caster.casts], dtype=np.intp)
        self.rasters = tuple(rasters)
        self._arrays = RasterArrays(self.rasters)
        self._casters: CasterArrays | None = None
        if len(self._used):
            self._casters = CasterArrays([casters[number] for number in self._used])
        place = np.full(len(casters), -1, dtype=np.int64)
        place[self._used] = np.arange(len(self._used))
        self._pairs = _renumbered(pairs, place)
        self._apart = _renumbered(apart, place)

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
        fill = self._fill(-beams.toward)
        for part in self._batches(len(beams.hours), fill):
            if cancelled is not None and cancelled():
                return None
            self._add(fill, beams.toward[part], light[:, part], total)
        return self._arrays.divide(total)

    def depths(self, beams: Beams) -> Iterator[tuple[slice, NDArray[np.int32]]]:
        """Depth of the shadows over rasters of the same size, some beams at a time; see :func:`clear`.

        Parameters
        ----------
        beams : Beams

        Yields
        ------
        slice, ndarray (beams, rasters, rows, columns)
            Which beams, and the depths under them; beams without a shadow are left out.
        """
        fill = self._fill(-beams.toward)
        if fill is None:
            return
        first = self.rasters[0]
        for part in self._batches(len(beams.hours), fill):
            depth = fill.depth(-beams.toward[part])
            if depth is not None:
                cells = depth.reshape(len(depth), len(self.rasters), first.rows, first.columns + 1)
                yield part, cells[..., :-1]

    def meeting_each(self, beams: Beams) -> list[list[int]]:
        """Indices of the casters that can shade each raster under some beam, in order."""
        fill = self._fill(-beams.toward)
        if fill is None:
            return [[] for _ in self.rasters]
        met = np.zeros(len(fill.pairs.raster), dtype=bool)
        for part in self._batches(len(beams.hours), fill):
            met |= fill.meets(-beams.toward[part]).any(axis=0)
        raster, caster = fill.pairs.taken(met)
        ends = np.searchsorted(raster, np.arange(len(self.rasters) + 1)).tolist()
        numbers = self._used[caster].tolist()
        return [numbers[first:last] for first, last in pairwise(ends)]

    def meeting(self, beams: Beams) -> NDArray[np.intp]:
        """Indices of the casters that can shade any raster under some beam, in order."""
        numbers = sorted({number for row in self.meeting_each(beams) for number in row})
        return np.array(numbers, dtype=np.intp)

    def through(self, toward: Floats) -> list[Floats]:
        """Share of one beam that reaches each cell, an array (rows, columns) for each raster. [0 to 1]"""
        total = np.zeros((1, self._arrays.size), dtype=np.float32)
        beam = toward.reshape(1, 2)
        self._add(self._fill(-beam), beam, np.ones((1, 1), dtype=np.float32), total)
        return [cells[0] for cells in self._arrays.divide(total)]

    # -- pairs of rasters and casters ---------------------------------------------------------------

    def _fill(self, away: Floats) -> ShadowFill | None:
        """The shadows of the pairs that can meet under some beams; None where there are none.

        Parameters
        ----------
        away : ndarray (beams, 2)
            Horizontal offset away from the sun for one metre of height. [m]
        """
        if self._casters is None or not self.rasters or not len(away):
            return None
        pairs = self._pairs if self._pairs is not None else self._near(away)
        fill = ShadowFill(self._casters, self._arrays, self._without_those_apart(pairs))
        fill.keep(fill.may_meet(away))
        return fill if len(fill.pairs.raster) else None

    def _without_those_apart(self, pairs: Pairs) -> Pairs:
        if self._apart is None or not len(self._apart.raster):
            return pairs
        wide = len(self._used)
        apart = self._apart.raster * wide + self._apart.caster
        return pairs.taken(~np.isin(pairs.raster * wide + pairs.caster, apart))

    def _near(self, away: Floats) -> Pairs:
        """Pairs of which the shadow can reach the raster under some beams; others may be among them."""
        rasters, casters = self._arrays, self._casters
        assert casters is not None
        count, wide = len(self.rasters), len(self._used)
        if count * wide <= _PAIRS_TRIED:
            return pairs_of(np.ones((count, wide), dtype=bool))
        right, top = (
            rasters.left + (rasters.wide - 1) * rasters.cell,
            rasters.low + rasters.rows * rasters.cell,
        )
        tree = shapely.STRtree(shapely.box(rasters.left, rasters.low, right, top))
        high = np.maximum(casters.top - rasters.heights.min(), 0.0)
        low, far = np.minimum(away.min(axis=0), 0.0), np.maximum(away.max(axis=0), 0.0)
        swept = casters.bounds + np.stack(
            [high * low[0], high * low[1], high * far[0], high * far[1]], axis=1
        )
        swept += np.array([-_TOUCHING, -_TOUCHING, _TOUCHING, _TOUCHING])
        caster, raster = tree.query(shapely.box(*swept.T))
        order = np.lexsort((caster, raster))
        return Pairs(raster[order].astype(np.int64), caster[order].astype(np.int64))

    def _batches(self, steps: int, fill: ShadowFill | None) -> Iterator[slice]:
        """Ranges of beams small enough for the memory of one batch."""
        pairs = max(1, len(fill.pairs.raster)) if fill is not None else 1
        size = max(1, min(_CELLS_AT_ONCE // max(1, self._arrays.size), _PAIRS_AT_ONCE // pairs))
        for first in range(0, steps, size):
            yield slice(first, min(first + size, steps))

    def _add(
        self,
        fill: ShadowFill | None,
        toward: Floats,
        light: NDArray[np.float32],
        total: NDArray[np.float32],
    ) -> None:
        """Add to each cell the light that reaches it: (weights, beams) to (weights, cells)."""
        depth = fill.depth(-toward) if fill is not None else None
        if depth is None:
            total += light.sum(axis=1)[:, np.newaxis]
            return
        total += light @ clear(depth)


def clear(depth: NDArray[np.int32]) -> NDArray[np.float32]:
    """What shadows of a depth let through. [0 to 1]"""
    through = depth.astype(np.float32)
    through *= np.float32(-1 / DEPTH_SCALE)
    np.exp(through, out=through)
    return through


def _renumbered(pairs: Pairs | None, place: Ints) -> Pairs | None:
    """Pairs with other numbers for the casters; those whose caster has none are left out."""
    if pairs is None:
        return None
    caster = place[pairs.caster]
    return Pairs(pairs.raster, caster).taken(caster >= 0)
