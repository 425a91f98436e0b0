"""Stations in rows, in a plot of any shape.

A station needs an ellipse of ground: half the in-row spacing to either side along its row (or the ``end`` distance)
and half the row spacing across it (or the ``edge`` distance).  Each row line is cut to the pieces on which that
ellipse lies in the plot.  Each piece holds as many stations as fit; the rest of its length is shared equally by both
ends.  A rectangle of length L and width W so holds ``floor(L / s) * floor(W / r)`` stations, the population figure of
the handbooks, and in a plot of any shape no station is nearer to the outline than its distances allow.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.ground.layout import MOST_STATIONS, NO_LAYOUT, Layout, RowTable, read_only
from planner.ground.rowlines import TOUCH, Pieces, row_pieces
from planner.ground.shapes import turned
from planner.words import say

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Tolerance when dividing a length by a spacing. [m]
SLACK = 2e-6


def lay_rows(
    plot: shapely.Geometry,
    in_row_spacing: float,
    row_spacing: float | None,
    *,
    direction: float = 0.0,
    rows: int | None = None,
    edge: float | None = None,
    end: float | None = None,
    staggered: bool = False,
    obstacles: shapely.Geometry | None = None,
) -> Layout:
    """Lay out stations in rows.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        In the bed's coordinates. [m]
    in_row_spacing : float
        Station to station. [m]
    row_spacing : float or None
        Row to row; None spreads ``rows`` evenly over the plot's width. [m]
    direction : float
        Direction of the rows. [degrees anticlockwise from the bed's x]
    rows : int, optional
        Greatest number of rows; fewer than fit are in the middle of the plot.
    edge, end : float, optional
        Least distance from the outline across and along the rows; half the spacings by default. [m]
    staggered : bool
        Shift every other row by half the in-row spacing.
    obstacles : shapely.Geometry, optional
        Ground without stations.

    Returns
    -------
    Layout
        Without stations if none fits or the plot is empty.

    Raises
    ------
    ValueError
        For spacings that are not above 0, distances below 0, or more than :data:`MOST_STATIONS` stations.
    """
    _check_distances(in_row_spacing, row_spacing, rows, (edge, end))
    if plot.is_empty:
        return NO_LAYOUT
    level = turned(plot, -direction)
    _, low, _, high = shapely.bounds(level)
    if row_spacing is not None:
        apart, half_across = row_spacing, row_spacing / 2
    else:
        apart = _even_row_spacing(high - low, rows or 1, edge or 0.0)
        half_across = min(apart, in_row_spacing) / 2
    expected = shapely.area(plot) / (in_row_spacing * apart)
    if expected > MOST_STATIONS:
        raise ValueError(
            say(
                "about {wanted} plants; at most {most} can be laid out",
                wanted=format(expected, ",.0f"),
                most=format(MOST_STATIONS, ","),
            )
        )
    lines = _row_lines(low, high, apart, apart / 2 if edge is None else edge, rows)
    half_along = in_row_spacing / 2 if end is None else end
    pieces = row_pieces(
        level,
        lines,
        half_along,
        half_across if edge is None else edge,
        None if obstacles is None else turned(obstacles, -direction),
    )
    if staggered:
        starts, counts = _lattice_stations(pieces, in_row_spacing)
    else:
        pieces, starts, counts = _piece_stations(pieces, in_row_spacing)
    points = _station_points(lines, pieces.line, starts, counts, in_row_spacing)
    return Layout(
        read_only(_turn_back(points, direction)),
        _row_table(pieces, lines, low, counts, direction),
        in_row_spacing=in_row_spacing,
        row_spacing=apart,
        direction=direction,
    )


def _check_distances(
    in_row_spacing: float,
    row_spacing: float | None,
    rows: int | None,
    from_outline: tuple[float | None, float | None],
) -> None:
    """Raise ValueError for spacings or distances from the outline that are not possible."""
    for given in (in_row_spacing, row_spacing):
        if given is not None and not 0 < given < math.inf:
            raise ValueError(say("spacings must be above 0 m"))
    for given in from_outline:
        if given is not None and not 0 <= given < math.inf:
            raise ValueError(say("distances from the outline must not be below 0 m"))
    if row_spacing is None and rows is None:
        raise ValueError(say("give a row spacing or a number of rows"))


def _even_row_spacing(width: float, rows: int, edge: float) -> float:
    """Spacing that spreads rows evenly over a width, none nearer to its sides than ``edge``. [m]"""
    if rows > 1 and width > 2 * edge:
        return min(width / rows, (width - 2 * edge) / (rows - 1))
    return width / rows


def _row_lines(low: float, high: float, apart: float, edge: float, most: int | None) -> NDArray[np.float64]:
    """Heights of the row lines between two sides, centred, at most ``most`` of them. [m]"""
    room = high - low - 2 * edge
    if room < -SLACK:
        return np.empty(0)
    count = math.floor((room + SLACK) / apart) + 1
    if most is not None:
        count = min(count, most)
    first = (low + high) / 2 - (count - 1) * apart / 2
    return np.asarray(first + apart * np.arange(count), dtype=np.float64)


def _piece_stations(pieces: Pieces, spacing: float) -> tuple[Pieces, NDArray[np.float64], NDArray[np.intp]]:
    """First station and number of stations of each piece, the rest of its length shared by both ends.

    If the next piece of the line is near (a thin obstacle, a notch), both are shortened equally, so that the spacing
    holds across the gap; a piece that is too short for that is dropped.
    """
    shortened = np.zeros(max(len(pieces.line) - 1, 0), dtype=bool)
    while True:
        left, right = pieces.left.copy(), pieces.right.copy()
        share = np.maximum(spacing - (pieces.left[1:] - pieces.right[:-1]), 0.0) / 2
        share[~shortened] = 0.0
        right[:-1] -= share
        left[1:] += share
        short = right < left - SLACK
        if short.any():
            pieces = pieces.select(~short)
            shortened = np.zeros(max(len(pieces.line) - 1, 0), dtype=bool)
            continue
        counts = np.floor((right - left + SLACK) / spacing).astype(np.intp) + 1
        starts = (left + right - (counts - 1) * spacing) / 2
        gaps = starts[1:] - (starts + (counts - 1) * spacing)[:-1]
        near = (gaps < spacing - TOUCH) & (pieces.line[1:] == pieces.line[:-1]) & ~shortened
        if not near.any():
            return pieces, starts, counts
        shortened |= near


def _lattice_stations(pieces: Pieces, spacing: float) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """First station and number of stations of each piece, all on one lattice for staggered rows.

    One lattice makes neighbours keep their distance in concave plots too.  It is placed so that the rest of the
    longest piece is shared by its ends; if that rest is half a spacing or more, the rows beside it hold as many
    stations as it does.
    """
    index, left, right = pieces.line, pieces.left, pieces.right
    if not len(left):
        return left, index
    widest = int(np.argmax(right - left))
    length = right[widest] - left[widest]
    spare = length - math.floor((length + SLACK) / spacing) * spacing
    shift = spacing / 2
    lead = (spare - shift) / 2 if spare >= shift - TOUCH else spare / 2
    origin = float(left[widest]) + lead - int(index[widest] % 2) * shift
    phase = origin + (index % 2).astype(np.float64) * shift
    first = np.ceil((left - phase - SLACK / 2) / spacing)
    last = np.floor((right - phase + SLACK / 2) / spacing)
    counts = np.maximum(last - first + 1, 0).astype(np.intp)
    return phase + first * spacing, counts


def _station_points(
    lines: NDArray[np.float64],
    index: NDArray[np.intp],
    starts: NDArray[np.float64],
    counts: NDArray[np.intp],
    spacing: float,
) -> NDArray[np.float64]:
    """Points of all stations; two passes over the array, because memory traffic dominates the cost."""
    total = int(counts.sum())
    begin = np.cumsum(counts) - counts
    firsts = np.empty(len(counts), np.complex128)  # x and y in one number
    firsts.real = starts - begin * spacing
    firsts.imag = lines[index]
    points: NDArray[np.float64] = np.repeat(firsts, counts).view(np.float64).reshape(-1, 2)
    along = np.arange(total, dtype=np.float64)
    along *= spacing
    points[:, 0] += along
    return points


def _turn_back(points: NDArray[np.float64], direction: float) -> NDArray[np.float64]:
    """Points with their rows along x, turned to the direction of the rows. [m]"""
    if direction == 0.0 or not len(points):
        return points
    turned_back: NDArray[np.float64] = shapely.get_coordinates(turned(shapely.multipoints(points), direction))
    return turned_back


def _row_table(
    pieces: Pieces,
    lines: NDArray[np.float64],
    low: float,
    counts: NDArray[np.intp],
    direction: float,
) -> RowTable:
    used = counts > 0
    rows, count = pieces.select(used), counts[used]
    y = lines[rows.line]
    return RowTable(
        index=rows.line,
        across=y - low,
        starts=_turn_back(np.column_stack([rows.begin, y]), direction),
        ends=_turn_back(np.column_stack([rows.end, y]), direction),
        first=np.cumsum(count) - count,
        count=count,
    )
