"""How far one walks from a place to the beds: round them and what is built, through gates, along paths."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Bed, Structure
from planner.garden.model import Point
from planner.garden.outlines import Outline
from planner.ground.obstacles import footprint
from planner.ground.shapes import plan_polygon

#: Cells of the raster one walks on, as a rule, and the least and greatest side of one: a path must be wider. [1, m]
USUAL_CELLS, LEAST_CELL, GREATEST_CELL = 4_000, 0.15, 0.4
#: Ground that takes more cells is not walked over: it would take long. 4,800 m2 of the largest cells.
MOST_CELLS = 30_000
#: Ground beyond all that is drawn, where the plot has no edge. [m]
AROUND = 2.0

#: Steps of a king and of a knight: no way is more than a fortieth longer than a straight one.
_STEPS = [
    (x, y)
    for x in range(-2, 3)
    for y in range(-2, 3)
    if (abs(x), abs(y)) in ((0, 1), (1, 0), (1, 1), (1, 2), (2, 1))
]

Grid = NDArray[np.float64]


class WayInputs(NamedTuple):
    """What the ways from a place depend on."""

    start: Point
    beds: tuple[Bed, ...]
    structures: tuple[Structure, ...]
    edge: Outline | None


def walking_distances(inputs: WayInputs) -> tuple[float, ...]:
    """How far one walks from a place to the nearest spot beside each bed.

    The ground is a raster; a gap narrower than a cell may be closed on it. Distances are up to
    3 % and a cell too long.

    Parameters
    ----------
    inputs : WayInputs
        The place from which one starts, the beds and structures that are there, and the edge of the plot, where it is drawn.

    Returns
    -------
    tuple of float
        In the order of the beds; infinite where no way leads to one, or the ground takes more than :data:`MOST_CELLS`. [m]
    """
    if not inputs.beds:
        return ()
    grounds = [plan_polygon(bed.outline) for bed in inputs.beds]
    left, low, right, high = _extent(inputs, grounds)
    area = (right - left) * (high - low)
    cell = min(max(LEAST_CELL, math.sqrt(area / USUAL_CELLS)), GREATEST_CELL)
    if area / cell**2 > MOST_CELLS:
        return tuple(math.inf for _ in grounds)
    xs, ys = np.arange(left + cell / 2, right, cell), np.arange(low + cell / 2, high, cell)
    x, y = np.meshgrid(xs, ys)
    free = _may_walk(inputs, grounds, x, y)
    if not free.any():
        return tuple(math.inf for _ in grounds)
    begin = _start(free, x, y, inputs.start)
    far = _spread(free, begin, cell) + math.dist(inputs.start, (float(x[begin]), float(y[begin])))
    row, column = np.nonzero(np.isfinite(far))
    places = shapely.STRtree(shapely.points(x[row, column], y[row, column]))
    found = np.full(len(grounds), math.inf)
    which, spot = places.query(np.asarray(grounds), predicate="dwithin", distance=1.5 * cell)
    last = shapely.distance(np.asarray(grounds)[which], places.geometries[spot])
    np.minimum.at(found, which, far[row[spot], column[spot]] + last)
    return tuple(float(value) for value in found)


def _extent(inputs: WayInputs, grounds: Sequence[shapely.Polygon]) -> tuple[float, float, float, float]:
    """Box of the ground one may walk on. [m]"""
    if inputs.edge is not None:
        whole = [plan_polygon(inputs.edge), shapely.Point(inputs.start), *grounds]
        left, low, right, high = (float(value) for value in shapely.total_bounds(whole))
        return left, low, right, high
    built = [plan_polygon(one.outline) for one in inputs.structures]
    left, low, right, high = (
        float(value) for value in shapely.total_bounds([shapely.Point(inputs.start), *grounds, *built])
    )
    return left - AROUND, low - AROUND, right + AROUND, high + AROUND


def _may_walk(inputs: WayInputs, grounds: Iterable[shapely.Polygon], x: Grid, y: Grid) -> NDArray[np.bool_]:
    """Which cells one may walk on: all within the edge but beds and what is built, and the ground of gates and paths."""
    solid = [
        footprint(one) for one in inputs.structures if one.kind not in ("tree", "arch") and not one.stood_on
    ]
    opened = [plan_polygon(one.outline) for one in inputs.structures if one.kind in ("gate", "path")]
    taken = shapely.difference(shapely.union_all([*grounds, *solid]), shapely.union_all(opened))
    shapely.prepare(taken)
    free: NDArray[np.bool_] = ~shapely.contains_xy(taken, x, y)
    if inputs.edge is not None:
        edge = shapely.union_all([plan_polygon(inputs.edge), *opened])
        shapely.prepare(edge)
        free &= shapely.contains_xy(edge, x, y)
    return free


def _start(free: NDArray[np.bool_], x: Grid, y: Grid, start: Point) -> tuple[int, int]:
    """The free cell that is nearest to the place."""
    off = np.where(free, np.hypot(x - start[0], y - start[1]), np.inf)
    row, column = divmod(int(np.argmin(off)), free.shape[1])
    return row, column


def _spread(free: NDArray[np.bool_], start: tuple[int, int], cell: float) -> Grid:
    """Length of the shortest way from a cell to each other one, by steps of a king and of a knight. [m]"""
    rows, columns = free.shape
    edge = 2
    open_ground = np.pad(free, edge)
    far = np.full(open_ground.shape, np.inf)
    far[start[0] + edge, start[1] + edge] = 0.0

    def shifted(grid: NDArray[np.generic], dx: int, dy: int) -> NDArray[np.generic]:
        return grid[edge + dy : edge + dy + rows, edge + dx : edge + dx + columns]

    steps = []
    for dx, dy in _STEPS:
        passable = free.copy()
        for number in range(1, 2 * max(abs(dx), abs(dy))):  # what lies half way of a long step is free too
            part = number / (2 * max(abs(dx), abs(dy)))
            for turn in (math.floor, math.ceil):
                passable &= shifted(open_ground, turn(dx * part), turn(dy * part)).astype(np.bool_)
        steps.append((dx, dy, np.where(passable, cell * math.hypot(dx, dy), np.inf)))
    inner = far[edge : edge + rows, edge : edge + columns]
    while True:
        before = inner.copy()
        for dx, dy, cost in steps:
            np.minimum(inner, shifted(far, dx, dy) + cost, out=inner)
        if np.array_equal(inner, before):
            return before
