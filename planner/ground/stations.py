"""Rows and stations in any plot.

A station takes an ellipse of ground: half the in-row spacing to either side along its row (or the
``end`` distance) and half the row spacing across it (or the ``edge`` distance).  Every row line is
cut where that ellipse still lies in the plot, and each piece of it gets as many stations as fit,
what is left over shared equally at both ends.  A rectangle of length L and width W so holds
``floor(L / s) * floor(W / r)`` stations, the population figure of the handbooks, and no station of
a plot of any shape comes nearer to the outline than its distances allow.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.ground.rowlines import TOUCH, Pieces, row_pieces
from planner.ground.shapes import polygons_of, turned
from planner.lazy import lazy_property

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

#: A length or width that lacks so little counts as whole. [m]
SLACK = 2e-6
#: Share within which a number of scattered plants is taken for whole.
WHOLE = 1e-6
#: More stations than this in one planting are refused.
MOST_STATIONS = 5_000_000
#: So many places are tried at once when plants are scattered.
MOST_AT_ONCE = 2_000_000


@dataclass(frozen=True)
class Row:
    """One row line, or one piece of it where the plot is concave.

    Attributes
    ----------
    index : int
        Number of the row, from 0 at the side of the smallest across coordinate.
    across : float
        Distance of the row from the plot's lower side, at right angles to the rows. [m]
    start, end : tuple of float
        Ends of the piece, on the outline or an obstacle, in the bed's coordinates. [m]
    first : int
        Index of its first station among all stations.
    count : int
        Number of its stations.
    """

    index: int
    across: float
    start: tuple[float, float]
    end: tuple[float, float]
    first: int
    count: int

    @property
    def length(self) -> float:
        """Length of the piece. [m]"""
        return math.dist(self.start, self.end)


@dataclass(frozen=True, eq=False)
class RowTable:
    """Rows that hold a station, as columns; :class:`Row` says what they mean."""

    index: NDArray[np.intp]
    across: NDArray[np.float64]
    starts: NDArray[np.float64]
    ends: NDArray[np.float64]
    first: NDArray[np.intp]
    count: NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Layout:
    """Stations of one planting.

    Attributes
    ----------
    points : ndarray (n, 2) of float64
        Stations, row by row, in the bed's coordinates. [m]  Not writeable.
    table : RowTable or None
        The rows as columns; None for scattered and given places.
    in_row_spacing, row_spacing : float or None
        As used, in metres; None where the arrangement has none.
    direction : float
        Of the rows in the bed's coordinates. [degrees anticlockwise]
    """

    points: NDArray[np.float64]
    table: RowTable | None = None
    in_row_spacing: float | None = None
    row_spacing: float | None = None
    direction: float = 0.0

    @property
    def count(self) -> int:
        """Number of stations."""
        return len(self.points)

    @lazy_property
    def rows(self) -> tuple[Row, ...]:
        """Rows that hold a station; none for scattered and given places."""
        if self.table is None:
            return ()
        columns = (self.table.index, self.table.across, self.table.starts, self.table.ends)
        numbers = (self.table.first, self.table.count)
        return tuple(
            Row(index, across, (start[0], start[1]), (end[0], end[1]), first, count)
            for index, across, start, end, first, count in zip(
                *(column.tolist() for column in (*columns, *numbers)), strict=True
            )
        )

    @lazy_property
    def row_count(self) -> int:
        """Number of row lines that hold a station (pieces of one line count once)."""
        return len(np.unique(self.table.index)) if self.table is not None else 0

    @lazy_property
    def row_length(self) -> float:
        """Length of all rows together. [m]"""
        if self.table is None:
            return 0.0
        along = self.table.ends - self.table.starts
        return math.fsum(np.hypot(along[:, 0], along[:, 1]))


def _frozen(points: NDArray[np.float64]) -> NDArray[np.float64]:
    points.flags.writeable = False
    return points


NO_LAYOUT = Layout(_frozen(np.empty((0, 2))))


def whole_number(quotient: float) -> int:
    """``floor`` that is not fooled by binary fractions: 2.4 / 0.3 gives 8."""
    return math.floor(quotient + WHOLE * max(1.0, abs(quotient) * 1e-3))


def lay(
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
    """Stations in rows.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        In the bed's coordinates. [m]
    in_row_spacing : float
        Station to station. [m]
    row_spacing : float or None
        Row to row. [m]  None spreads ``rows`` evenly over the plot's width.
    direction : float
        Of the rows. [degrees anticlockwise from the bed's x]
    rows : int, optional
        At most so many rows, in the middle of the plot.
    edge, end : float, optional
        Least distance from the outline across and along the rows; half the spacings by default. [m]
    staggered : bool
        Every other row shifted by half the in-row spacing.
    obstacles : shapely.Geometry, optional
        Ground where no station may stand.

    Returns
    -------
    Layout
        Without stations where none fits, or where the plot is empty.

    Raises
    ------
    ValueError
        For spacings that are not above 0, or more than :data:`MOST_STATIONS` stations.
    """
    for given in (in_row_spacing, row_spacing):
        if given is not None and not 0 < given < math.inf:
            raise ValueError("spacings must be above 0 m")
    for given in (edge, end):
        if given is not None and not 0 <= given < math.inf:
            raise ValueError("distances from the outline must not be below 0 m")
    if row_spacing is None and rows is None:
        raise ValueError("give a row spacing or a number of rows")
    if plot.is_empty:
        return NO_LAYOUT
    level = turned(plot, -direction)
    _, low, _, high = shapely.bounds(level)
    if row_spacing is not None:
        apart, half_across = row_spacing, row_spacing / 2
    else:
        apart = _shared_width(high - low, rows or 1, edge or 0.0)
        half_across = min(apart, in_row_spacing) / 2
    expected = shapely.area(plot) / (in_row_spacing * apart)
    if expected > MOST_STATIONS:
        raise ValueError(f"about {expected:,.0f} stations; at most {MOST_STATIONS:,} can be laid out")
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
        starts, counts = _on_lattice(pieces, in_row_spacing)
    else:
        pieces, starts, counts = _shared_out(pieces, in_row_spacing)
    points = _fill(lines, pieces.line, starts, counts, in_row_spacing)
    return Layout(
        _frozen(_turn_back(points, direction)),
        _table(pieces, lines, low, counts, direction),
        in_row_spacing=in_row_spacing,
        row_spacing=apart,
        direction=direction,
    )


def _shared_width(width: float, rows: int, edge: float) -> float:
    """Distance at which so many rows share a width, none nearer to its sides than the edge. [m]"""
    if rows > 1 and width > 2 * edge:
        return min(width / rows, (width - 2 * edge) / (rows - 1))
    return width / rows


def _row_lines(low: float, high: float, apart: float, edge: float, most: int | None) -> NDArray[np.float64]:
    room = high - low - 2 * edge
    if room < -SLACK:
        return np.empty(0)
    count = math.floor((room + SLACK) / apart) + 1
    if most is not None:
        count = min(count, most)
    first = (low + high) / 2 - (count - 1) * apart / 2
    return np.asarray(first + apart * np.arange(count), dtype=np.float64)


def _shared_out(pieces: Pieces, spacing: float) -> tuple[Pieces, NDArray[np.float64], NDArray[np.intp]]:
    """Stations of each piece for itself, its rest shared by both ends.

    Where the next piece of the line is near (a thin obstacle, a notch), both give way equally, so
    that their stations keep the spacing too; a piece too short to give way is left empty.
    """
    given_way = np.zeros(max(len(pieces.line) - 1, 0), dtype=bool)
    while True:
        left, right = pieces.left.copy(), pieces.right.copy()
        share = np.maximum(spacing - (pieces.left[1:] - pieces.right[:-1]), 0.0) / 2
        share[~given_way] = 0.0
        right[:-1] -= share
        left[1:] += share
        short = right < left - SLACK
        if short.any():
            pieces = pieces.taken(~short)
            given_way = np.zeros(max(len(pieces.line) - 1, 0), dtype=bool)
            continue
        counts = np.floor((right - left + SLACK) / spacing).astype(np.intp) + 1
        starts = (left + right - (counts - 1) * spacing) / 2
        gaps = starts[1:] - (starts + (counts - 1) * spacing)[:-1]
        near = (gaps < spacing - TOUCH) & (pieces.line[1:] == pieces.line[:-1]) & ~given_way
        if not near.any():
            return pieces, starts, counts
        given_way |= near


def _on_lattice(pieces: Pieces, spacing: float) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Stations of one lattice for all rows, so that neighbours keep their distance everywhere.

    The lattice is placed so that the longest piece of row shares out its rest; where that piece
    has half a spacing to spare, its neighbours hold as many stations as it does.
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


def _fill(
    lines: NDArray[np.float64],
    index: NDArray[np.intp],
    starts: NDArray[np.float64],
    counts: NDArray[np.intp],
    spacing: float,
) -> NDArray[np.float64]:
    """Stations of all pieces, written in two passes over them: memory is what this costs."""
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
    if direction == 0.0 or not len(points):
        return points
    turned_back: NDArray[np.float64] = shapely.get_coordinates(turned(shapely.multipoints(points), direction))
    return turned_back


def _table(
    pieces: Pieces,
    lines: NDArray[np.float64],
    low: float,
    counts: NDArray[np.intp],
    direction: float,
) -> RowTable:
    held = counts > 0
    rows, count = pieces.taken(held), counts[held]
    y = lines[rows.line]
    return RowTable(
        index=rows.line,
        across=y - low,
        starts=_turn_back(np.column_stack([rows.begin, y]), direction),
        ends=_turn_back(np.column_stack([rows.end, y]), direction),
        first=np.cumsum(count) - count,
        count=count,
    )


def lay_scatter(plot: shapely.Geometry, density: float, obstacles: shapely.Geometry | None = None) -> Layout:
    """Scattered stations: ``floor(area * density)`` of them, spread without clumps.

    The places are those of the two-dimensional golden-ratio sequence (Roberts 2018, The
    unreasonable effectiveness of quasirandom sequences), the same for the same plot.
    """
    ground = plot
    if obstacles is not None and not obstacles.is_empty:
        ground = polygons_of(shapely.difference(plot, obstacles))
    if ground.is_empty or ground.area <= 0:
        return NO_LAYOUT
    wanted = whole_number(ground.area * density)
    if wanted > MOST_STATIONS:
        raise ValueError(f"{wanted:,} plants; at most {MOST_STATIONS:,} can be laid out")
    left, low, right, high = shapely.bounds(ground)
    size = np.array([right - left, high - low])
    root = 1.32471795724474602596  # the real root of x**3 = x + 1
    steps = np.array([1 / root, 1 / root**2])
    found: list[NDArray[np.float64]] = []
    have, begin = 0, 1
    shapely.prepare(ground)
    while have < wanted:
        batch = min(int((wanted - have) * 1.1 * size[0] * size[1] / ground.area) + 16, MOST_AT_ONCE)
        numbers = np.arange(begin, begin + batch)[:, None]
        places = (0.5 + numbers * steps) % 1.0 * size + np.array([left, low])
        inside = places[shapely.contains_xy(ground, places[:, 0], places[:, 1])]
        found.append(inside[: wanted - have])
        have += len(found[-1])
        begin += batch
    points = np.concatenate(found) if found else np.empty((0, 2))
    return Layout(_frozen(points))


def lay_places(
    plot: shapely.Geometry, places: ArrayLike, obstacles: shapely.Geometry | None = None
) -> Layout:
    """Given places, as far as they lie in the plot and on no obstacle."""
    points = np.array(places, dtype=np.float64).reshape(-1, 2)
    keep = shapely.dwithin(plot, shapely.points(points), TOUCH)
    if obstacles is not None and not obstacles.is_empty:
        keep &= ~shapely.contains_xy(obstacles, points[:, 0], points[:, 1])
    return Layout(_frozen(points[keep]))
