"""A planting in rows made into several, row by row, each plant where it was, to within three centimetres."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Any, NamedTuple

import numpy as np
import shapely

from planner.garden import Garden, Planting, Region, Rows, StaggeredRows, edits
from planner.garden.edits import EditError
from planner.ground.place import Placed
from planner.ground.shapes import turned
from planner.words import say

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

#: Least distance of a row from the edge of its plot for it to be a plot of its own. [m]
LEAST_HALF = 0.005
#: By so much less than its plants' distance a row keeps from a slanting edge, so that none is lost. [m]
SLACK = 1e-4
#: Share of its area by which a plot differs from a rectangle along the rows before it counts as another shape.
SAME_AREA = 1e-6


class RowLine(NamedTuple):
    """A row of a planting, with the rows level.

    Attributes
    ----------
    first, last : float
        Along the row, of the first and the last plant. [m]
    across : float
        [m]
    plants : int
        Number of them.
    """

    first: float
    last: float
    across: float
    plants: int


def row_lines(placed: Placed) -> tuple[RowLine, ...]:
    """The rows of a planting from the lowest to the highest, the pieces of one row taken together."""
    layout = placed.layout
    if layout.table is None:
        return ()
    level = level_points(placed, layout.points)
    found = []
    for _, pieces in groupby(layout.rows, key=lambda row: row.index):
        at = np.concatenate([np.arange(piece.first, piece.first + piece.count) for piece in pieces])
        along, across = level[at].T
        found.append(RowLine(float(along.min()), float(along.max()), float(across.mean()), len(at)))
    return tuple(sorted(found, key=lambda line: line.across))


def level_points(placed: Placed, points: ArrayLike) -> NDArray[np.float64]:
    """Places (n, 2) in the bed's coordinates, turned so that the rows of a planting are level. [m]"""
    return turned_places(points, placed.layout.direction)


def turned_places(points: ArrayLike, direction: float) -> NDArray[np.float64]:
    """Places (n, 2) turned so that a direction is level. [m, degrees anticlockwise]"""
    angle = np.radians(direction)
    cos, sin = np.cos(angle), np.sin(angle)
    x, y = np.asarray(points, dtype=float).reshape(-1, 2).T
    return np.column_stack((cos * x + sin * y, cos * y - sin * x))


def row_at(placed: Placed, point: tuple[float, float]) -> int | None:
    """Index of the row nearest to a place in the bed's coordinates; None without rows."""
    lines = row_lines(placed)
    if not lines:
        return None
    across = float(level_points(placed, [point])[0][1])
    return min(range(len(lines)), key=lambda number: abs(lines[number].across - across))


def split_rows(
    garden: Garden, key: str, placed: Placed, varieties: Sequence[str], *, apart: bool = False
) -> tuple[Garden, tuple[str, ...]]:
    """Make plantings of the rows of one, each of a variety; rows beside each other of the same one stay together.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    placed : Placed
        The planting as it is placed now.
    varieties : sequence of str
        Of each row, from the lowest to the highest.
    apart : bool
        Whether each row becomes a planting of its own, whatever its variety.

    Returns
    -------
    garden, ids
        Of the parts; the first one keeps the id of the planting.

    Raises
    ------
    EditError
        Where it is not in rows, follows a drawn support, or its rows are at the very edge of its plot.
    """
    planting = garden.plantings_by_id[key]
    where = garden.beds_by_id[planting.bed].name
    arrangement, lines = planting.arrangement, row_lines(placed)
    if not isinstance(arrangement, (Rows, StaggeredRows)) or not lines:
        raise EditError(
            say("only what grows in rows can be split into rows"), where, say("Arrange it in rows first")
        )
    if planting.support is not None and planting.support.line:
        raise EditError(say("plants along a drawn support cannot be split into rows"), where)
    if len(varieties) != len(lines):
        raise EditError(say("there are {count} rows", count=len(lines)), where)
    parts = [
        {**_part(planting, arrangement, placed, lines, run), "variety": varieties[run[0]]}
        for run in (
            [range(number, number + 1) for number in range(len(lines))]
            if apart
            else _runs(varieties, placed, staggered=arrangement.kind == "staggered")
        )
    ]
    if len(parts) == 1:
        return edits.change_planting(garden, key, variety=varieties[0]), (key,)
    garden, new = edits.split_planting(garden, key, parts)
    return garden, (key, *new)


def _runs(varieties: Sequence[str], placed: Placed, *, staggered: bool) -> Iterator[range]:
    """Rows beside each other of one variety.

    Where a plot narrows, staggered rows lie otherwise in a part of it, so each is by itself; a run of several begins with one that
    is not shifted.
    """
    level = turned(placed.plot, -placed.layout.direction)
    narrows = abs(float(level.area / level.envelope.area) - 1.0) > SAME_AREA
    at = 0
    for _, group in groupby(varieties):
        past = at + len(list(group))
        alone = past - at if staggered and narrows else at % 2 if staggered and past - at > 1 else 0
        for _ in range(alone if past - at < len(varieties) else 0):
            yield range(at, at + 1)
            at += 1
        if at < past:
            yield range(at, past)
        at = past


def _part(
    planting: Planting,
    arrangement: Rows | StaggeredRows,
    placed: Placed,
    lines: Sequence[RowLine],
    run: range,
) -> dict[str, Any]:
    """Plot and arrangement of some of the rows."""
    if len(run) == len(lines):
        return {}
    layout = placed.layout
    plot = turned(placed.plot, -layout.direction)
    _, low, _, high = shapely.bounds(plot)
    between = layout.row_spacing or float(high - low)
    lowest, highest = lines[run[0]].across, lines[run[-1]].across
    # The room that each plant had: no more, so that it has it in the narrower plot too.
    room = _room_across(arrangement, between, layout.in_row_spacing)
    half = min(room, lowest - float(low), float(high) - highest)
    if half < LEAST_HALF or layout.in_row_spacing is None:
        raise EditError(
            say("its rows are at the very edge of its plot"),
            planting.crop,
            say("Give the rows a distance from the edge first"),
        )
    end = arrangement.end if arrangement.end is not None else layout.in_row_spacing / 2
    first = min(lines[number].first for number in run) - end
    last = max(lines[number].last for number in run) + end
    box = shapely.box(first, lowest - half, last, highest + half)
    shared = {name: getattr(arrangement, name) for name in ("spacing_for", "in_row_spacing", "end", "turn")}
    if len(run) == 1:
        # Beside a slanting edge the row may be nearer to it than it keeps from the long sides of its own plot.
        line = shapely.LineString([(first + end, lines[run[0]].across), (last - end, lines[run[0]].across)])
        free = float(plot.exterior.distance(line))
        new: Rows | StaggeredRows = Rows(rows=1, edge=round(max(min(half, free - SLACK), 0.0), 6), **shared)
    else:
        band = shapely.intersection(plot, shapely.box(-1e4, lowest - half, 1e4, highest + half))
        if band.geom_type == "Polygon":
            box = band
        new = type(arrangement)(row_spacing=round(between, 6), edge=round(half, 6), **shared)
    ring = shapely.get_coordinates(turned(box, layout.direction).exterior)[:-1]
    points = tuple((round(float(x), 6), round(float(y), 6)) for x, y in ring)
    return {"plot": Region(points=points), "arrangement": new}


def _room_across(arrangement: Rows | StaggeredRows, between: float, in_row: float | None) -> float:
    """Distance that a row keeps from the edge of its plot, at most half of that to the next row. [m]"""
    room = between / 2
    if arrangement.edge is not None:
        room = min(room, arrangement.edge)
    elif arrangement.rows is not None and arrangement.row_spacing is None and in_row is not None:
        room = min(room, in_row / 2)
    return room
