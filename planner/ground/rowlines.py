"""Where along row lines stations may stand.

A station needs an ellipse of ground free of the plot's outline.  Each row line (along x here) is
cut by the outline; what lies nearer to an edge than the ellipse allows is taken off, edge by edge
and exactly, and so is what lies on an obstacle.
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

#: What counts as "on the outline". [m]
TOUCH = 1e-6
#: What a distance from the outline may lack: corners are kept to a millionth of a metre, so that the
#: sides of a bed drawn askew are a little nearer to each other than drawn. [m]
GIVE = 2.5e-6
#: Height of an ellipse that stands for one without height. [m]
_FLAT = 1e-9


@dataclass(frozen=True, eq=False)
class Pieces:
    """Pieces of row lines, line by line and from left to right.

    Attributes
    ----------
    line : ndarray (n,) of int
        Line of each piece.
    left, right : ndarray (n,)
        From where to where stations may stand. [m]
    begin, end : ndarray (n,)
        Ends of the ground the piece serves: farther out by the ellipse, up to outline or obstacle. [m]
    """

    line: Whole
    left: Floats
    right: Floats
    begin: Floats
    end: Floats

    def taken(self, which: NDArray[np.bool_] | Whole) -> Pieces:
        """Some of the pieces."""
        return Pieces(
            self.line[which], self.left[which], self.right[which], self.begin[which], self.end[which]
        )


class _Edges:
    """Edges of all rings of an area, from left to right (which makes sorting their crossings quick)."""

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
        #: Lines from ``begin`` up to but not with ``past`` cross the edge.
        self.begin, self.past = np.searchsorted(lines, self.low), np.searchsorted(lines, self.high)

    def crossings(self) -> tuple[Whole, Whole, Floats]:
        """Line, edge and place of every crossing, line by line and from left to right."""
        edge, line = _pairs(self.begin, self.past)
        x = self.x0[edge] + (self.lines[line] - self.y0[edge]) * self.slope[edge]
        order = np.lexsort((x, line))
        return line[order], edge[order], x[order]

    def near(self, across: float) -> tuple[Whole, Whole]:
        """Line and edge wherever the two come near to each other without crossing."""
        edge_below, line_below = _pairs(np.searchsorted(self.lines, self.low - across, "right"), self.begin)
        edge_above, line_above = _pairs(self.past, np.searchsorted(self.lines, self.high + across))
        return np.concatenate([line_below, line_above]), np.concatenate([edge_below, edge_above])

    def reach(self, line: Whole, edge: Whole, along: float, across: float) -> tuple[Floats, Floats]:
        """From where to where an ellipse about a point of a line meets an edge.

        The points nearer to an edge than the ellipse allows are those in the ellipses about its two
        corners, and those between the two lines beside it that touch both.  Not a number where
        there are none.
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
    """Cut row lines by a plot, keeping an ellipse away from its outline.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        With its rows along x.
    lines : ndarray (m,)
        Heights of the lines, rising. [m]
    along, across : float
        Half-axes of the ellipse along x and y. [m]  0 leaves that direction as it is.
    obstacles : shapely.Geometry, optional
        Ground on which no station may stand.
    """
    if across <= GIVE:  # rows may run on the outline itself
        plot = plot.buffer(TOUCH / 2, join_style="mitre")
    edges = _Edges(plot, lines)
    half_along, half_across = max(along - GIVE, 0.0), max(across - GIVE, _FLAT)
    with np.errstate(invalid="ignore"):  # roots below 0 are what is not near
        pieces = _between_crossings(edges, half_along, half_across)
        line, edge = edges.near(half_across)
        pieces = _without(pieces, line, *edges.reach(line, edge, half_along, half_across))
    pieces = _with_ends(pieces, half_along)
    if obstacles is not None and not obstacles.is_empty:
        line, _, x = _Edges(obstacles, lines).crossings()
        pieces = _without(pieces, line[0::2], x[0::2], x[1::2], ends_rows=True)
    return pieces


def _between_crossings(edges: _Edges, along: float, across: float) -> Pieces:
    """Pieces inside the outline, as far as the edges that cross their line leave them."""
    line, edge, x = edges.crossings()
    if not len(x):
        return Pieces(line, x, x, x, x)
    near_left, near_right = edges.reach(line, edge, along, across)
    # An edge keeps all of its line away up to its own end, over pieces farther off too.
    apart = (near_right.max() - near_left.min() + 1.0) * line
    taken_from_left = np.maximum.accumulate(near_right + apart) - apart
    taken_from_right = np.minimum.accumulate((near_left + apart)[::-1])[::-1] - apart
    pieces = Pieces(line[0::2], taken_from_left[0::2], taken_from_right[1::2], x[0::2], x[1::2])
    return pieces.taken(pieces.right >= pieces.left)


def _with_ends(pieces: Pieces, along: float) -> Pieces:
    """Pieces whose rows end an ellipse farther out, at most at the outline or half-way to the next."""
    begin = np.maximum(pieces.begin, pieces.left - along)
    end = np.minimum(pieces.end, pieces.right + along)
    over = np.flatnonzero((pieces.line[1:] == pieces.line[:-1]) & (begin[1:] < end[:-1]))
    middle = (pieces.right[over] + pieces.left[over + 1]) / 2
    end[over], begin[over + 1] = middle, middle
    return Pieces(pieces.line, pieces.left, pieces.right, begin, end)


def _without(pieces: Pieces, line: Whole, left: Floats, right: Floats, *, ends_rows: bool = False) -> Pieces:
    """Pieces less some stretches of their lines, at which the rows end too where so said."""
    if not len(line) or not len(pieces.line):
        return pieces
    most = max(int(line.max()), int(pieces.line[-1])) + 1
    begins, ends = np.full(most, np.inf), np.full(most, -np.inf)  # of all pieces of a line
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
    kept = np.flatnonzero((depth[:-1] == 1) & (x[1:] > x[:-1]))
    rest = pieces.taken(parent[kept])
    begin, end = rest.begin, rest.end
    if ends_rows:
        begin = np.where(x[kept] > rest.left, x[kept], begin)
        end = np.where(x[kept + 1] < rest.right, x[kept + 1], end)
    cut_up = Pieces(rest.line, x[kept], x[kept + 1], begin, end)
    return _merged(pieces.taken(~hit[pieces.line]), cut_up)


def _merged(one: Pieces, other: Pieces) -> Pieces:
    line = np.concatenate([one.line, other.line])
    order = np.argsort(line, kind="stable")
    return Pieces(
        line[order],
        np.concatenate([one.left, other.left])[order],
        np.concatenate([one.right, other.right])[order],
        np.concatenate([one.begin, other.begin])[order],
        np.concatenate([one.end, other.end])[order],
    )
