"""How much of each beam reaches each cell of some rasters: the one place where shading is computed.

Each caster throws, for each beam, one outline: its footprint swept along the beam.  That outline is a
closed chain of the footprint's edges: those that face the way of the shadow moved to its far end, the
others to its near end, joined where one kind meets the other.  Its winding number is above zero just
where the sweep has been, for concave footprints and holes too.  So every crossing of the chain with
the middle line of a raster row adds to or takes from one cell, and one running sum along the rows
fills all shadows at once.  What is summed is not ones but the caster's optical depth (minus the
logarithm of what it lets through), in whole numbers so that it cancels exactly; the running sum is
then the depth of all shadows over a cell, and its exponential the product of what they let through.

Translucent casters that are not convex may wind more than once over a place that they shade once;
each is filled in a window of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.lazy import lazy_property
from planner.light.casters import LEAST_HEIGHT, Caster
from planner.light.days import Beams
from planner.sun import Floats

Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Whole-number depth of 1 in the logarithm.
_SCALE = 1 << 15
#: Depth that lets nothing through; e to the power of -20 is two in a thousand million.
_OPAQUE = 20 * _SCALE
#: Cells, and pairs of raster and caster, worked on at once.
_CELLS_AT_ONCE = 150_000
_PAIRS_AT_ONCE = 400_000


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

    @lazy_property
    def middles(self) -> tuple[Floats, Floats]:
        """Middles of the columns (x) and of the rows (y). [m]"""
        column, row = np.arange(self.columns, dtype=np.float64), np.arange(self.rows, dtype=np.float64)
        return self.left + (column + 0.5) * self.cell, self.low + (row + 0.5) * self.cell

    def at_height(self, height: float) -> Raster:
        """The same cells on another plane."""
        return Raster(self.left, self.low, self.cell, self.rows, self.columns, height)


class _Casters:
    """All casters' rings, end to end."""

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
            np.round(-np.log(np.maximum(clear, 1e-12)) * _SCALE), _OPAQUE
        ).astype(np.int32)  # fmt: skip
        convex = np.array([caster.convex for caster in casters])
        self.together = convex | (self.depth == _OPAQUE)


class _Frames(NamedTuple):
    """Where a pair of beam, raster and caster is filled: a rectangle of cells, and its place in the sums."""

    left: Floats
    low: Floats
    cell: Floats
    rows: Ints
    wide: Ints
    begin: Ints


class Shading:
    """Casters over rasters.

    Parameters
    ----------
    casters : sequence of Caster
    rasters : sequence of Raster
    pairs : ndarray (rasters, casters) of bool, optional
        Which casters count over which raster; all by default.
    """

    def __init__(
        self, casters: Sequence[Caster], rasters: Sequence[Raster], pairs: Bools | None = None
    ) -> None:
        kept = np.array([n for n, caster in enumerate(casters) if caster.casts], dtype=np.intp)
        self._kept = kept
        self.rasters = tuple(rasters)
        self._casters = _Casters([casters[number] for number in kept]) if len(kept) else None
        wide = np.array([raster.columns + 1 for raster in rasters], dtype=np.int64)
        self._rows = np.array([raster.rows for raster in rasters], dtype=np.int64)
        sizes = wide * self._rows
        self._wide, self._begin, self._size = wide, np.cumsum(sizes) - sizes, int(sizes.sum())
        self._left = np.array([raster.left for raster in rasters])
        self._low = np.array([raster.low for raster in rasters])
        self._cell = np.array([raster.cell for raster in rasters])
        if self._casters is not None:
            heights = np.array([raster.height for raster in rasters])[:, None]
            self._near = np.maximum(self._casters.base - heights, 0.0)
            self._far = self._casters.top - heights
            rises = self._far - self._near > LEAST_HEIGHT
            self._paired = rises if pairs is None else rises & pairs[:, kept]

    def hours(self, beams: Beams, cancelled: Callable[[], bool] | None = None) -> list[Floats] | None:
        """Hours of direct sun of each cell, an array (rows, columns) for every raster.

        Parameters
        ----------
        beams : Beams
        cancelled : callable, optional
            Asked between batches of beams.

        Returns
        -------
        list of ndarray
            None once cancelled.
        """
        sums = self.sums(beams, beams.hours[np.newaxis], cancelled)
        return [cells[0] for cells in sums] if sums is not None else None

    def sums(
        self, beams: Beams, weights: Floats, cancelled: Callable[[], bool] | None = None
    ) -> list[Floats] | None:
        """What reaches each cell under several weights of the beams, an array (weights, rows, columns) a raster.

        Parameters
        ----------
        beams : Beams
        weights : array (k, n)
            Of each beam, k times.
        cancelled : callable, optional
            Asked between batches of beams.

        Returns
        -------
        list of ndarray
            None once cancelled.
        """
        total = np.zeros((len(weights), self._size), dtype=np.float32)
        light = weights.astype(np.float32)
        for part in self._batches(len(beams.hours)):
            if cancelled is not None and cancelled():
                return None
            self._add(beams.toward[part], light[:, part], total)
        return self._parted(total)

    def meeting_each(self, beams: Beams) -> list[list[int]]:
        """For each raster the numbers of the casters that may shade it in some beam, in order."""
        if self._casters is None or not len(beams.hours):
            return [[] for _ in self.rasters]
        met = np.zeros(self._paired.shape, dtype=bool)
        for part in self._batches(len(beams.hours)):
            met |= self._meets(self._casters, -beams.toward[part]).any(axis=0)
        return [self._kept[row].tolist() for row in met]

    def meeting(self, beams: Beams) -> NDArray[np.intp]:
        """Which of the casters may shade a raster in some beam: their numbers, in order."""
        numbers = sorted({number for row in self.meeting_each(beams) for number in row})
        return np.array(numbers, dtype=np.intp)

    def through(self, toward: Floats) -> list[Floats]:
        """Share of one beam that reaches each cell, an array (rows, columns) for every raster."""
        total = np.zeros((1, self._size), dtype=np.float32)
        self._add(toward.reshape(1, 2), np.ones((1, 1), dtype=np.float32), total)
        return [cells[0] for cells in self._parted(total)]

    def _batches(self, steps: int) -> Iterator[slice]:
        pairs = len(self.rasters) * (len(self._casters.base) if self._casters is not None else 1)
        size = max(1, min(_CELLS_AT_ONCE // max(1, self._size), _PAIRS_AT_ONCE // max(1, pairs)))
        for first in range(0, steps, size):
            yield slice(first, min(first + size, steps))

    def _parted(self, total: NDArray[np.float32]) -> list[Floats]:
        found: list[Floats] = []
        for raster, begin in zip(self.rasters, self._begin.tolist(), strict=True):
            block = total[:, begin : begin + raster.rows * (raster.columns + 1)]
            found.append(block.reshape(len(total), raster.rows, -1)[:, :, :-1].astype(np.float64))
        return found

    def _add(self, toward: Floats, light: NDArray[np.float32], total: NDArray[np.float32]) -> None:
        """Add to each cell the light that reaches it: (weights, beams) to (weights, cells)."""
        depth = self._depth(-toward) if self._casters is not None else None
        if depth is None:
            total += light.sum(axis=1)[:, np.newaxis]
            return
        clear = depth.astype(np.float32)
        clear *= np.float32(-1 / _SCALE)
        np.exp(clear, out=clear)
        total += light @ clear

    def _depth(self, away: Floats) -> NDArray[np.int32] | None:
        """Depth of all shadows over each cell, (beams, cells); None where no shadow falls."""
        casters = self._casters
        if casters is None:
            return None
        beam, raster, caster = self._meeting(casters, away)
        if not len(beam):
            return None
        front = (casters.edges[:, 1] * away[:, :1] - casters.edges[:, 0] * away[:, 1:]) > 0
        joint = casters.together[caster]
        sums = np.zeros(len(away) * self._size, dtype=np.int32)
        meeting = beam[joint], raster[joint], caster[joint]
        self._cross(sums, casters, away, front, meeting, self._whole(meeting))
        depth: NDArray[np.int32] = np.cumsum(sums, dtype=np.int32)
        if not joint.all():
            self._add_alone(depth, casters, away, front, (beam[~joint], raster[~joint], caster[~joint]))
        return depth.reshape(len(away), self._size)

    def _add_alone(
        self,
        depth: NDArray[np.int32],
        casters: _Casters,
        away: Floats,
        front: Bools,
        meeting: tuple[Ints, Ints, Ints],
    ) -> None:
        """Add the depth of casters that may wind more than once over a place, each in a window of its own."""
        beam, raster, caster = meeting
        window, row, column = self._window(casters, away, meeting)
        sums = np.zeros(int((window.rows * window.wide).sum()), dtype=np.int32)
        self._cross(sums, casters, away, front, meeting, window)
        wound = np.cumsum(sums, dtype=np.int32) > 0
        begin = beam * self._size + self._begin[raster] + row * self._wide[raster] + column
        for pair in range(len(beam)):
            rows, wide = int(window.rows[pair]), int(window.wide[pair])
            first, whole = int(window.begin[pair]), int(self._wide[raster[pair]])
            here = int(begin[pair])
            inside = wound[first : first + rows * wide].reshape(rows, wide)[:, :-1]
            cells = np.lib.stride_tricks.as_strided(
                depth[here:], (rows, wide - 1), (whole * depth.itemsize, depth.itemsize)
            )
            cells += inside * casters.depth[caster[pair]]

    def _whole(self, meeting: tuple[Ints, Ints, Ints]) -> _Frames:
        """For each pair the whole of its raster."""
        beam, raster, _ = meeting
        return _Frames(
            self._left[raster],
            self._low[raster],
            self._cell[raster],
            self._rows[raster],
            self._wide[raster],
            beam * self._size + self._begin[raster],
        )

    def _window(
        self, casters: _Casters, away: Floats, meeting: tuple[Ints, Ints, Ints]
    ) -> tuple[_Frames, Ints, Ints]:
        """For each pair the part of its raster where the shadow may fall, and its first row and column."""
        beam, raster, caster = meeting
        near, far = self._near[raster, caster], self._far[raster, caster]
        bounds, cell = casters.bounds[caster], self._cell[raster]
        begins, counts = [], []
        limits = (self._wide[raster] - 1, self._rows[raster])
        for axis, (origin, most) in enumerate(zip((self._left, self._low), limits, strict=True)):
            step = away[beam, axis]
            low = bounds[:, axis] + np.minimum(near * step, far * step) - origin[raster]
            high = bounds[:, axis + 2] + np.maximum(near * step, far * step) - origin[raster]
            begin = np.clip(np.floor(low / cell), 0, most).astype(np.int64)
            end = np.clip(np.ceil(high / cell) + 1, begin, most).astype(np.int64)
            begins.append(begin)
            counts.append(end - begin)
        (column, row), (columns, rows) = begins, counts
        sizes = rows * (columns + 1)
        return (
            _Frames(
                self._left[raster] + column * cell,
                self._low[raster] + row * cell,
                cell,
                rows,
                columns + 1,
                np.cumsum(sizes) - sizes,
            ),
            row,
            column,
        )

    def _meeting(self, casters: _Casters, away: Floats) -> tuple[Ints, Ints, Ints]:
        """Which beams, rasters and casters meet: indices of each, as far as bounding boxes tell."""
        beam, raster, caster = np.nonzero(self._meets(casters, away))
        return beam, raster, caster

    def _meets(self, casters: _Casters, away: Floats) -> Bools:
        """Whether they meet, (beams, rasters, casters)."""
        meets: Bools = np.repeat(self._paired[None], len(away), axis=0)
        last = self._low + self._rows * self._cell, self._left + (self._wide - 1) * self._cell
        for axis, begin, end in ((0, self._left, last[1]), (1, self._low, last[0])):
            step = away[:, axis, None, None]
            near, far = self._near * step, self._far * step
            meets &= casters.bounds[:, axis] + np.minimum(near, far) <= end[:, None]
            meets &= casters.bounds[:, axis + 2] + np.maximum(near, far) >= begin[:, None]
        return meets

    def _cross(
        self,
        sums: NDArray[np.int32],
        casters: _Casters,
        away: Floats,
        front: Bools,
        meeting: tuple[Ints, Ints, Ints],
        frames: _Frames,
    ) -> None:
        """Add the crossings of the casters' chains with the row lines to the cells they change."""
        beam, raster, caster = meeting
        count = casters.count[caster]
        pair = np.repeat(np.arange(len(caster)), count)
        corner = np.arange(len(pair)) + np.repeat(casters.begin[caster] - np.cumsum(count) + count, count)
        beams = beam[pair]
        near, far = self._near[raster, caster][pair], self._far[raster, caster][pair]
        moved = np.where(front[beams, corner], far, near)
        moved_before = np.where(front[beams, casters.before[corner]], far, near)
        move_x, move_y = away[beams, 0], away[beams, 1]
        here, there = casters.corners[corner], casters.corners[casters.following[corner]]
        cell, shift_x, shift_y = frames.cell[pair], frames.left[pair], frames.low[pair]

        def x_of(points: Floats, height: Floats) -> Floats:
            column: Floats = (points[:, 0] + height * move_x - shift_x) / cell - 0.5
            return column

        def y_of(points: Floats, height: Floats) -> Floats:
            row: Floats = (points[:, 1] + height * move_y - shift_y) / cell - 0.5
            return row

        middle_x, middle_y = x_of(here, moved), y_of(here, moved)
        begin_x = np.concatenate([x_of(here, moved_before), middle_x])
        begin_y = np.concatenate([y_of(here, moved_before), middle_y])
        end_x = np.concatenate([middle_x, x_of(there, moved)])
        end_y = np.concatenate([middle_y, y_of(there, moved)])
        most = frames.rows[pair]
        rows = np.concatenate([most, most])
        first, last = np.clip(np.ceil(begin_y), 0, rows), np.clip(np.ceil(end_y), 0, rows)
        used = np.flatnonzero(first != last)
        pairs = np.concatenate([pair, pair])[used]
        self._scatter(
            sums,
            (begin_x[used], begin_y[used], end_x[used], end_y[used]),
            (first[used].astype(np.int64), last[used].astype(np.int64)),
            (frames.begin[pairs], frames.wide[pairs], casters.depth[caster[pairs]]),
        )

    def _scatter(
        self,
        sums: NDArray[np.int32],
        ends: tuple[Floats, Floats, Floats, Floats],
        rows: tuple[Ints, Ints],
        owners: tuple[Ints, Ints, NDArray[np.int32]],
    ) -> None:
        """Mark, for each edge and row line it crosses, the first cell beyond the crossing."""
        begin_x, begin_y, end_x, end_y = ends
        first, last = rows
        base, wide, depth = owners
        lowest, lines = np.minimum(first, last), np.abs(last - first)
        slope = (end_x - begin_x) / (end_y - begin_y)
        row = np.arange(int(lines.sum())) + np.repeat(lowest - np.cumsum(lines) + lines, lines)
        column = np.ceil(
            np.repeat(begin_x, lines) + (row - np.repeat(begin_y, lines)) * np.repeat(slope, lines)
        )
        columns = np.repeat(wide, lines)
        np.clip(column, 0, columns - 1, out=column)
        place = np.repeat(base, lines) + row * columns + column.astype(np.int64)
        change = np.repeat(np.where(last > first, -depth, depth), lines)
        np.add.at(sums, place, change)


def raster_over(bounds: Sequence[float], cell: float, height: float = 0.0) -> Raster:
    """The raster of cells of a side that covers a rectangle (left, low, right, high)."""
    left, low, right, high = (float(value) for value in bounds)
    columns = max(1, math.ceil((right - left) / cell - 1e-9))
    rows = max(1, math.ceil((high - low) / cell - 1e-9))
    return Raster(left, low, cell, rows, columns, height)
