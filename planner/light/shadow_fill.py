"""Fill the shadows of many casters into many rasters at once.

For each beam a caster throws one outline: its footprint swept along the beam.  That outline is a closed chain of the
footprint's edges: those that face the way of the shadow moved to its far end, the others to its near end, joined
where one kind meets the other.  The winding number of the chain is above zero exactly where the sweep has been, for
concave footprints and holes too.  So every crossing of the chain with the middle line of a raster row adds to or
subtracts from one cell, and one running sum along the rows fills all shadows at once.

The numbers summed are not ones but the caster's optical depth (minus the logarithm of what it lets through), as whole
numbers so that they cancel exactly.  The running sum is then the depth of all shadows over a cell, and its
exponential the product of what they let through.

Translucent casters that are not convex can wind more than once over a place that they shade once; each of these is
filled in a window of its own.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.light.casters import LEAST_HEIGHT
from planner.light.shading_arrays import Bools, CasterArrays, Ints, Pairs, RasterArrays
from planner.sun import Floats


class _Frames(NamedTuple):
    """Rectangles of cells in which shadows are filled, one for each meeting of beam, raster and caster."""

    left: Floats
    low: Floats
    cell: Floats
    rows: Ints
    wide: Ints
    begin: Ints


class ShadowFill:
    """The shadows of some casters over some rasters.

    Parameters
    ----------
    casters : CasterArrays
    rasters : RasterArrays
    pairs : Pairs
        Which casters count for which raster.  Those that do not rise above it are left out.
    """

    def __init__(self, casters: CasterArrays, rasters: RasterArrays, pairs: Pairs) -> None:
        self.casters, self.rasters = casters, rasters
        height = rasters.heights[pairs.raster]
        near, far = np.maximum(casters.base[pairs.caster] - height, 0.0), casters.top[pairs.caster] - height
        rises = np.flatnonzero(far - near > LEAST_HEIGHT)
        self.pairs = pairs.taken(rises)
        self._near, self._far = near[rises], far[rises]

    def keep(self, which: Bools) -> None:
        """Leave out the other pairs."""
        self.pairs = self.pairs.taken(which)
        self._near, self._far = self._near[which], self._far[which]

    def meets(self, away: Floats) -> Bools:
        """Whether shadows meet rasters, as far as bounding boxes tell.

        Parameters
        ----------
        away : ndarray (beams, 2)
            Horizontal offset away from the sun for one metre of height. [m]

        Returns
        -------
        ndarray (beams, pairs) of bool
        """
        meets: Bools = np.ones((len(away), len(self._far)), dtype=bool)
        for axis, (begin, end, least, most) in enumerate(self._sides()):
            step = away[:, axis, None]
            near, far = self._near * step, self._far * step
            meets &= least + np.minimum(near, far) <= end
            meets &= most + np.maximum(near, far) >= begin
        return meets

    def may_meet(self, away: Floats) -> Bools:
        """Whether the shadow of each pair can meet its raster under any beam: one test for all of them.

        Parameters
        ----------
        away : ndarray (beams, 2)
            As in :meth:`meets`.
        """
        meets: Bools = np.ones(len(self._far), dtype=bool)
        for axis, (begin, end, least, most) in enumerate(self._sides()):
            low, high = min(0.0, float(away[:, axis].min())), max(0.0, float(away[:, axis].max()))
            meets &= least + self._far * low <= end
            meets &= most + self._far * high >= begin
        return meets

    def _sides(self) -> list[tuple[Floats, Floats, Floats, Floats]]:
        """For x and for y: begin and end of the raster, begin and end of the caster, of each pair. [m]"""
        rasters, (raster, caster) = self.rasters, self.pairs
        bounds = self.casters.bounds[caster]
        right, top = (
            rasters.left + (rasters.wide - 1) * rasters.cell,
            rasters.low + rasters.rows * rasters.cell,
        )
        return [
            (begin[raster], end[raster], bounds[:, axis], bounds[:, axis + 2])
            for axis, (begin, end) in enumerate(((rasters.left, right), (rasters.low, top)))
        ]

    def depth(self, away: Floats) -> NDArray[np.int32] | None:
        """Depth of all shadows over each cell, in :data:`DEPTH_SCALE`.

        Parameters
        ----------
        away : ndarray (beams, 2)
            Horizontal offset away from the sun for one metre of height. [m]

        Returns
        -------
        ndarray (beams, cells) or None
            None if no shadow falls.
        """
        casters, size = self.casters, self.rasters.size
        beam, pair = np.nonzero(self.meets(away))
        if not len(beam):
            return None
        caster = self.pairs.caster[pair]
        front = (casters.edges[:, 1] * away[:, :1] - casters.edges[:, 0] * away[:, 1:]) > 0
        joint = casters.together[caster]
        sums = np.zeros(len(away) * size, dtype=np.int32)
        meeting = beam[joint], pair[joint]
        self._cross(sums, away, front, meeting, self._whole(meeting))
        depth: NDArray[np.int32] = np.cumsum(sums, dtype=np.int32)
        if not joint.all():
            self._add_alone(depth, away, front, (beam[~joint], pair[~joint]))
        return depth.reshape(len(away), size)

    def _add_alone(
        self,
        depth: NDArray[np.int32],
        away: Floats,
        front: Bools,
        meeting: tuple[Ints, Ints],
    ) -> None:
        """Add the depth of casters that can wind more than once over a place, each in a window of its own."""
        casters, rasters = self.casters, self.rasters
        beam, numbers = meeting
        raster, caster = self.pairs.taken(numbers)
        window, row, column = self._window(away, meeting)
        sums = np.zeros(int((window.rows * window.wide).sum()), dtype=np.int32)
        self._cross(sums, away, front, meeting, window)
        wound = np.cumsum(sums, dtype=np.int32) > 0
        begin = beam * rasters.size + rasters.begin[raster] + row * rasters.wide[raster] + column
        for pair in range(len(beam)):
            rows, wide = int(window.rows[pair]), int(window.wide[pair])
            first, whole = int(window.begin[pair]), int(rasters.wide[raster[pair]])
            here = int(begin[pair])
            inside = wound[first : first + rows * wide].reshape(rows, wide)[:, :-1]
            cells = np.lib.stride_tricks.as_strided(
                depth[here:], (rows, wide - 1), (whole * depth.itemsize, depth.itemsize)
            )
            cells += inside * casters.depth[caster[pair]]

    def _whole(self, meeting: tuple[Ints, Ints]) -> _Frames:
        """For each meeting the whole of its raster."""
        beam, raster = meeting[0], self.pairs.raster[meeting[1]]
        return _Frames(
            self.rasters.left[raster],
            self.rasters.low[raster],
            self.rasters.cell[raster],
            self.rasters.rows[raster],
            self.rasters.wide[raster],
            beam * self.rasters.size + self.rasters.begin[raster],
        )

    def _window(self, away: Floats, meeting: tuple[Ints, Ints]) -> tuple[_Frames, Ints, Ints]:
        """For each meeting the part of its raster that the shadow can reach, and its first row and column."""
        beam, numbers = meeting
        raster, caster = self.pairs.taken(numbers)
        near, far = self._near[numbers], self._far[numbers]
        bounds, cell = self.casters.bounds[caster], self.rasters.cell[raster]
        begins, counts = [], []
        limits = (self.rasters.wide[raster] - 1, self.rasters.rows[raster])
        for axis, (origin, most) in enumerate(
            zip((self.rasters.left, self.rasters.low), limits, strict=True)
        ):
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
                self.rasters.left[raster] + column * cell,
                self.rasters.low[raster] + row * cell,
                cell,
                rows,
                columns + 1,
                np.cumsum(sizes) - sizes,
            ),
            row,
            column,
        )

    def _cross(
        self,
        sums: NDArray[np.int32],
        away: Floats,
        front: Bools,
        meeting: tuple[Ints, Ints],
        frames: _Frames,
    ) -> None:
        """Add the crossings of the casters' chains with the row lines to the cells that they change."""
        casters = self.casters
        beam, numbers = meeting
        caster = self.pairs.caster[numbers]
        count = casters.count[caster]
        pair = np.repeat(np.arange(len(caster)), count)
        corner = np.arange(len(pair)) + np.repeat(casters.begin[caster] - np.cumsum(count) + count, count)
        beams = beam[pair]
        near, far = self._near[numbers][pair], self._far[numbers][pair]
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
        _add_crossings(
            sums,
            (begin_x[used], begin_y[used], end_x[used], end_y[used]),
            (first[used].astype(np.int64), last[used].astype(np.int64)),
            (frames.begin[pairs], frames.wide[pairs], casters.depth[caster[pairs]]),
        )


def _add_crossings(
    sums: NDArray[np.int32],
    ends: tuple[Floats, Floats, Floats, Floats],
    rows: tuple[Ints, Ints],
    owners: tuple[Ints, Ints, NDArray[np.int32]],
) -> None:
    """For each edge and each row line it crosses, change the first cell beyond the crossing.

    Parameters
    ----------
    sums : ndarray (n,) of int
        Changed in place.
    ends : tuple of ndarray
        x and y of the beginning, x and y of the end of each edge. [cells]
    rows : tuple of ndarray
        First row line crossed by each edge and the one after the last; the other way round for falling edges.
    owners : tuple of ndarray
        Of each edge: begin of its rectangle in ``sums``, width of that rectangle, depth of its caster.
    """
    begin_x, begin_y, end_x, end_y = ends
    first, last = rows
    base, wide, depth = owners
    lowest, lines = np.minimum(first, last), np.abs(last - first)
    slope = (end_x - begin_x) / (end_y - begin_y)
    row = np.arange(int(lines.sum())) + np.repeat(lowest - np.cumsum(lines) + lines, lines)
    column = np.ceil(np.repeat(begin_x, lines) + (row - np.repeat(begin_y, lines)) * np.repeat(slope, lines))
    columns = np.repeat(wide, lines)
    np.clip(column, 0, columns - 1, out=column)
    place = np.repeat(base, lines) + row * columns + column.astype(np.int64)
    change = np.repeat(np.where(last > first, -depth, depth), lines)
    np.add.at(sums, place, change)
