"""Pieces of row lines on which stations fit.

A station needs an ellipse of ground inside the plot's outline.  Each row line (along x here) is cut by the outline;
the parts nearer to an edge than the ellipse allows are removed, exactly and edge by edge, and so are the parts on an
obstacle.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Whole = NDArray[np.intp]

#: Distance within which a point counts as on the outline. [m]
TOUCH = 1e-6
#: Tolerance of a distance from the outline: corners are stored to a millionth of a metre, so that the sides of a
#: turned bed are a little nearer to each other than drawn. [m]
GIVE = 2.5e-6
#: Half-axis across the rows of an ellipse without one. [m]
_FLAT = 1e-9


@dataclass(frozen=True, eq=False)
class Pieces:
    """Pieces of row lines, line by line and from left to right.

    Attributes
    ----------
    line : ndarray (n,) of int
        Index of the line of each piece.
    left, right : ndarray (n,)
        First and last place for a station. [m]
    begin, end : ndarray (n,)
        Ends of the row: farther out by the ellipse, up to outline or obstacle. [m]
    """

    line: Whole
    left: Floats
    right: Floats
    begin: Floats
    end: Floats

    def select(self, which: NDArray[np.bool_] | Whole) -> Pieces:
        """Some of the pieces, by a mask or by indices."""
        return Pieces(
            self.line[which], self.left[which], self.right[which], self.begin[which], self.end[which]
        )


class _Edges:
    """Edges of all rings of an area, sorted from left to right, which speeds up sorting their crossings."""

    def __init__(self, area: shapely.Geometry, lines: Floats) -> None:
        rings = shapely.get_rings(shapely.get_parts(area))
        points, ring = shapely.get_coordinates(rings, return_index=True)
        same = ring[1:] == ring[:-1]
        first, last = points[:-1][same], points[1:][same]
        order = np.argsort(first[:, 0] + last[:, 0])
        self.x0, self.y0 = first[order].T
        self.x1, self.y1 = last[order].T
        self.lines = lines
        self.low, self.high = np.minimum(self.y0, self.y1), np.maximum(self.y0, self.y1)
        self.slope = np.divide(
            self.x1 - self.x0, self.y1 - self.y0, out=np.zeros(len(order)), where=self.high > self.low
        )
        #: Lines from ``begin`` up to but not including ``past`` cross the edge.
        self.begin, self.past = np.searchsorted(lines, self.low), np.searchsorted(lines, self.high)

    def crossings(self) -> tuple[Whole, Whole, Floats]:
        """Line, edge and x of every crossing, line by line and from left to right. [m]"""
        edge, line = _pairs(self.begin, self.past)
        x = self.x0[edge] + (self.lines[line] - self.y0[edge]) * self.slope[edge]
        order = np.lexsort((x, line))
        return line[order], edge[order], x[order]

    def near(self, across: float) -> tuple[Whole, Whole]:
        """Line and edge of each pair nearer than ``across`` [m] that do not cross."""
        edge_below, line_below = _pairs(np.searchsorted(self.lines, self.low - across, "right"), self.begin)
        edge_above, line_above = _pairs(self.past, np.searchsorted(self.lines, self.high + across))
        return np.concatenate([line_below, line_above]), np.concatenate([edge_below, edge_above])

    def reach(self, line: Whole, edge: Whole, along: float, across: float) -> tuple[Floats, Floats]:
        """Stretch of each line on which an ellipse about a point meets an edge.

        That is the part of the line in the ellipses about the edge's two corners and between their two common
        tangents.

        Parameters
        ----------
        line, edge : ndarray (n,) of int
            Pairs of line and edge.
        along, across : float
            Half-axes of the ellipse along x and y. [m]

        Returns
        -------
        left, right : ndarray (n,)
            Not a number if there is no such part. [m]
        """
        y = self.lines[line]
        left = right = np.full(len(y), np.nan)
        for x0, y0 in ((self.x0, self.y0), (self.x1, self.y1)):
            x, half = x0[edge], along * np.sqrt(1.0 - ((y - y0[edge]) / across) ** 2)
            left, right = np.fmin(left, x - half), np.fmax(right, x + half)
        dx, dy = self.x1 - self.x0, self.y1 - self.y0
        norm = np.hypot(across * dx, along * dy)
        norm[norm == 0] = 1.0
        beside_x, beside_y = along * along * dy / norm, -across * across * dx / norm
        off = (beside_x - beside_y * self.slope)[edge]
        middle = self.x0[edge] + (y - self.y0[edge]) * self.slope[edge]
        for x, shift in ((middle + off, beside_y), (middle - off, -beside_y)):
            x[(y < (self.low + shift)[edge]) | (y > (self.high + shift)[edge])] = np.nan
            left, right = np.fmin(left, x), np.fmax(right, x)
        return left, right


def _pairs(first: Whole, past: Whole) -> tuple[Whole, Whole]:
    """Pairs (i, k) with ``first[i] <= k < past[i]``."""
    counts = np.maximum(past - first, 0)
    index = np.repeat(np.arange(len(counts)), counts)
    return index, np.arange(len(index)) + np.repeat(first - np.cumsum(counts) + counts, counts)


def row_pieces(
    plot: shapely.Geometry,
    lines: Floats,
    along: float,
    across: float,
    obstacles: shapely.Geometry | None = None,
) -> Pieces:
    """Cut row lines to the pieces on which an ellipse about a station lies in the plot.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        Turned so that its rows are along x. [m]
    lines : ndarray (m,)
        Heights of the lines, rising. [m]
    along, across : float
        Half-axes of the ellipse along x and y; 0 for no distance in that direction. [m]
    obstacles : shapely.Geometry, optional
        Ground without stations; the centre of the ellipse only must be off it.
    """
    if across <= GIVE:  # rows may run on the outline itself
        plot = plot.buffer(TOUCH / 2, join_style="mitre")
    half_along, half_across = max(along - GIVE, 0.0), max(across - GIVE, _FLAT)
    corners = _level_rectangle(plot)
    if corners is not None:
        pieces = _in_rectangle(corners, lines, half_along, half_across)
    else:
        pieces = _in_outline(plot, lines, half_along, half_across)
    pieces = _with_ends(pieces, half_along)
    if obstacles is not None and not obstacles.is_empty:
        line, _, x = _Edges(obstacles, lines).crossings()
        pieces = _without(pieces, line[0::2], x[0::2], x[1::2], ends_rows=True)
    return pieces


def _in_outline(plot: shapely.Geometry, lines: Floats, along: float, across: float) -> Pieces:
    """Pieces of row lines in any outline."""
    edges = _Edges(plot, lines)
    with np.errstate(invalid="ignore"):  # roots of negative numbers mark pairs that are not near
        pieces = _between_crossings(edges, along, across)
        line, edge = edges.near(across)
        return _without(pieces, line, *edges.reach(line, edge, along, across))


def _level_rectangle(plot: shapely.Geometry) -> tuple[float, float, float, float] | None:
    """Left, low, right and high of a rectangle with sides along x and y; None for any other outline. [m]"""
    points = shapely.get_coordinates(plot)
    if len(points) != 5:
        return None
    steps = np.diff(points, axis=0) == 0.0
    if not (steps[:, 0] ^ steps[:, 1]).all() or not (steps[:-1] != steps[1:]).all():
        return None
    (left, low), (right, high) = points.min(axis=0), points.max(axis=0)
    return float(left), float(low), float(right), float(high)


def _in_rectangle(
    corners: tuple[float, float, float, float], lines: Floats, along: float, across: float
) -> Pieces:
    """Pieces of row lines in a level rectangle, as those of any outline; most beds are one, and this is much quicker."""
    left, low, right, high = corners
    first, last = left + along, right - along
    inside = (lines >= low + across) & (lines <= high - across) & (lines < high)
    line = np.flatnonzero(inside if first <= last else inside & False)
    ends = [np.full(len(line), x) for x in (first, last, left, right)]
    return Pieces(line, *ends)


def _between_crossings(edges: _Edges, along: float, across: float) -> Pieces:
    """Pieces inside the outline, shortened by the ellipses about the edges that cross their line."""
    line, edge, x = edges.crossings()
    if not len(x):
        return Pieces(line, x, x, x, x)
    near_left, near_right = edges.reach(line, edge, along, across)
    # The stretch about an edge can extend over pieces beyond the next one, hence the running maximum by line.
    apart = (near_right.max() - near_left.min() + 1.0) * line
    left_limit = np.maximum.accumulate(near_right + apart) - apart
    right_limit = np.minimum.accumulate((near_left + apart)[::-1])[::-1] - apart
    pieces = Pieces(line[0::2], left_limit[0::2], right_limit[1::2], x[0::2], x[1::2])
    return pieces.select(pieces.right >= pieces.left)


def _with_ends(pieces: Pieces, along: float) -> Pieces:
    """Pieces with the ends of their rows: farther out by ``along`` [m], up to the outline or half-way to the next."""
    begin = np.maximum(pieces.begin, pieces.left - along)
    end = np.minimum(pieces.end, pieces.right + along)
    over = np.flatnonzero((pieces.line[1:] == pieces.line[:-1]) & (begin[1:] < end[:-1]))
    middle = (pieces.right[over] + pieces.left[over + 1]) / 2
    end[over], begin[over + 1] = middle, middle
    return Pieces(pieces.line, pieces.left, pieces.right, begin, end)


def _without(pieces: Pieces, line: Whole, left: Floats, right: Floats, *, ends_rows: bool = False) -> Pieces:
    """Remove some stretches of their lines from pieces.

    Parameters
    ----------
    pieces : Pieces
    line : ndarray (n,) of int
        Index of the line of each stretch.
    left, right : ndarray (n,)
        Ends of each stretch. [m]
    ends_rows : bool
        Whether rows end at the stretches (obstacles) or go on to the outline.
    """
    if not len(line) or not len(pieces.line):
        return pieces
    most = max(int(line.max()), int(pieces.line[-1])) + 1
    begins, ends = np.full(most, np.inf), np.full(most, -np.inf)  # by line, over all of its pieces
    begins[pieces.line[::-1]], ends[pieces.line] = pieces.left[::-1], pieces.right
    real = (right > left) & (right > begins[line]) & (left < ends[line])
    line, left, right = line[real], left[real], right[real]
    hit = np.zeros(most, dtype=bool)
    hit[line] = True
    cut = np.flatnonzero(hit[pieces.line])
    if not len(cut):
        return pieces
    x = np.concatenate([pieces.left[cut], pieces.right[cut], left, right])
    at = np.concatenate([pieces.line[cut], pieces.line[cut], line, line])
    step = np.repeat([1, -1, -1, 1], [len(cut), len(cut), len(line), len(line)])
    piece = np.repeat([1, 0], [len(cut), len(x) - len(cut)])
    order = np.lexsort((x, at))
    x, depth, parent = x[order], np.cumsum(step[order]), cut[np.cumsum(piece[order]) - 1]
    remaining = np.flatnonzero((depth[:-1] == 1) & (x[1:] > x[:-1]))
    rest = pieces.select(parent[remaining])
    begin, end = rest.begin, rest.end
    if ends_rows:
        begin = np.where(x[remaining] > rest.left, x[remaining], begin)
        end = np.where(x[remaining + 1] < rest.right, x[remaining + 1], end)
    shortened = Pieces(rest.line, x[remaining], x[remaining + 1], begin, end)
    return _merged(pieces.select(~hit[pieces.line]), shortened)


def _merged(one: Pieces, other: Pieces) -> Pieces:
    """Pieces of both, line by line; a line has pieces in one of them only."""
    line = np.concatenate([one.line, other.line])
    order = np.argsort(line, kind="stable")
    return Pieces(
        line[order],
        np.concatenate([one.left, other.left])[order],
        np.concatenate([one.right, other.right])[order],
        np.concatenate([one.begin, other.begin])[order],
        np.concatenate([one.end, other.end])[order],
    )
