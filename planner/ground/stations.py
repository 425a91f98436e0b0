"""Rows and stations in any plot.

A station takes an ellipse of ground: half the in-row spacing to either side along its row (or the
``end`` distance) and half the row spacing across it (or the ``edge`` distance).  The plot is inset
by that ellipse; every row line is cut by the inset plot, and each piece of it gets as many stations
as fit, what is left over shared equally at both ends.  A rectangle of length L and width W so holds
``floor(L / s) * floor(W / r)`` stations, the population figure of the handbooks, and no station of
a plot of any shape comes nearer to the outline than its distances allow.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.ground.shapes import polygons_of, turned

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

#: What counts as "on the outline". [m]
TOUCH = 1e-6
#: Share of a spacing within which a count is taken for whole (2.4 / 0.3 is 8, not 7).
WHOLE = 1e-6
#: More stations than this in one planting are refused.
MOST_STATIONS = 5_000_000


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
        Ends of the piece, on the plot's outline, in the bed's coordinates. [m]
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


@dataclass(frozen=True)
class Layout:
    """Stations of one planting.

    Attributes
    ----------
    points : ndarray (n, 2) of float64
        Stations, row by row, in the bed's coordinates. [m]  Not writeable.
    rows : tuple of Row
        Empty for scattered and given places.
    in_row_spacing, row_spacing : float or None
        As used, in metres; None where the arrangement has none.
    direction : float
        Of the rows in the bed's coordinates. [degrees anticlockwise]
    """

    points: NDArray[np.float64]
    rows: tuple[Row, ...] = ()
    in_row_spacing: float | None = None
    row_spacing: float | None = None
    direction: float = 0.0

    @property
    def count(self) -> int:
        """Number of stations."""
        return len(self.points)

    @property
    def row_count(self) -> int:
        """Number of row lines that hold a station (pieces of one line count once)."""
        return len({row.index for row in self.rows if row.count})

    @property
    def row_length(self) -> float:
        """Length of all rows together. [m]"""
        return sum(row.length for row in self.rows if row.count)


def _frozen(points: NDArray[np.float64]) -> NDArray[np.float64]:
    points.flags.writeable = False
    return points


NO_LAYOUT = Layout(_frozen(np.empty((0, 2))))


def whole_number(quotient: float) -> int:
    """``floor`` that is not fooled by binary fractions: 2.4 / 0.3 gives 8."""
    return math.floor(quotient + WHOLE * max(1.0, abs(quotient) * 1e-3))


def inset(plot: shapely.Geometry, along: float, across: float) -> shapely.Geometry:
    """A plot less the ground nearer to its outline than an ellipse allows.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        With its rows along x.
    along, across : float
        Half-axes of the ellipse along x and y. [m]  0 leaves that direction as it is.
    """
    half_along, half_across = max(along - TOUCH, TOUCH), max(across - TOUCH, TOUCH)
    scale = np.array([half_along, half_across])
    scaled = shapely.transform(plot, lambda points: points / scale)
    eroded = shapely.buffer(scaled, -1.0, quad_segs=16, join_style="mitre", mitre_limit=2.0)
    return shapely.transform(eroded, lambda points: points * scale)


def row_pieces(
    area: shapely.Geometry, lines: NDArray[np.float64]
) -> tuple[NDArray[np.intp], NDArray[np.float64], NDArray[np.float64]]:
    """Cut horizontal lines by an area, by scanline.

    Parameters
    ----------
    area : shapely.Polygon or shapely.MultiPolygon
    lines : ndarray (m,)
        Heights of the lines. [m]

    Returns
    -------
    index : ndarray (k,)
        Line of each piece, rising.
    left, right : ndarray (k,)
        Ends of each piece, from left to right within a line. [m]
    """
    x0, y0, x1, y1 = _edges(area)
    if not len(x0) or not len(lines):
        return np.empty(0, np.intp), np.empty(0), np.empty(0)
    y = lines[:, None]
    crossed = (y0 <= y) != (y1 <= y)
    line, edge = np.nonzero(crossed)
    share = (lines[line] - y0[edge]) / (y1[edge] - y0[edge])
    x = x0[edge] + share * (x1[edge] - x0[edge])
    order = np.lexsort((x, line))
    line, x = line[order], x[order]
    return line[0::2], x[0::2], x[1::2]


def _edges(area: shapely.Geometry) -> tuple[NDArray[np.float64], ...]:
    rings = shapely.get_rings(shapely.get_parts(area))
    if not len(rings):
        empty = np.empty(0)
        return empty, empty, empty, empty
    points, ring = shapely.get_coordinates(rings, return_index=True)
    same = ring[1:] == ring[:-1]
    first, last = points[:-1][same], points[1:][same]
    return first[:, 0], first[:, 1], last[:, 0], last[:, 1]


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
    if not in_row_spacing > 0 or (row_spacing is not None and not row_spacing > 0):
        raise ValueError("spacings must be above 0 m")
    if row_spacing is None and rows is None:
        raise ValueError("give a row spacing or a number of rows")
    if plot.is_empty:
        return NO_LAYOUT
    level = turned(plot, -direction)
    _, low, _, high = shapely.bounds(level)
    apart = row_spacing if row_spacing is not None else (high - low) / (rows or 1)
    half_across = apart / 2 if edge is None else edge
    half_along = in_row_spacing / 2 if end is None else end
    lines = _row_lines(low, high, apart, half_across, rows)
    expected = shapely.area(plot) / (in_row_spacing * apart)
    if expected > MOST_STATIONS:
        raise ValueError(f"about {expected:,.0f} stations; at most {MOST_STATIONS:,} can be laid out")
    ground = inset(level, half_along, half_across)
    if obstacles is not None and not obstacles.is_empty:
        ground = polygons_of(shapely.difference(ground, turned(obstacles, -direction)))
    index, left, right = row_pieces(ground, lines)
    if staggered:
        starts, counts = _on_lattice(index, left, right, in_row_spacing)
    else:
        starts, counts = _shared_out(left, right, in_row_spacing)
    points = _fill(lines, index, starts, counts, in_row_spacing)
    pieces = _pieces(index, left, right, lines, low, half_along, counts, direction)
    return Layout(
        _frozen(_turn_back(points, direction)),
        pieces,
        in_row_spacing=in_row_spacing,
        row_spacing=apart,
        direction=direction,
    )


def _row_lines(low: float, high: float, apart: float, edge: float, most: int | None) -> NDArray[np.float64]:
    room = high - low - 2 * edge
    if room < -TOUCH:
        return np.empty(0)
    count = whole_number(max(room, 0.0) / apart) + 1
    if most is not None:
        count = min(count, most)
    first = (low + high) / 2 - (count - 1) * apart / 2
    return np.asarray(first + apart * np.arange(count), dtype=np.float64)


def _whole_numbers(quotients: NDArray[np.float64]) -> NDArray[np.intp]:
    guard = WHOLE * np.maximum(1.0, np.abs(quotients) * 1e-3)
    return np.floor(quotients + guard).astype(np.intp)


def _shared_out(
    left: NDArray[np.float64], right: NDArray[np.float64], spacing: float
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    counts = _whole_numbers((right - left) / spacing) + 1
    starts = (left + right - (counts - 1) * spacing) / 2
    return starts, counts


def _on_lattice(
    index: NDArray[np.intp], left: NDArray[np.float64], right: NDArray[np.float64], spacing: float
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Stations of one lattice for all rows, so that neighbours keep their distance everywhere.

    The lattice is placed so that the longest piece of row shares out its rest; where that piece
    has half a spacing to spare, its neighbours hold as many stations as it does.
    """
    if not len(left):
        return left, index
    widest = int(np.argmax(right - left))
    count = whole_number((right[widest] - left[widest]) / spacing) + 1
    spare = (right[widest] - left[widest]) - (count - 1) * spacing
    shift = spacing / 2
    lead = (spare - shift) / 2 if spare >= shift - TOUCH else spare / 2
    origin = float(left[widest]) + lead - int(index[widest] % 2) * shift
    phase = origin + (index % 2).astype(np.float64) * shift
    first = np.ceil((left - phase) / spacing - WHOLE)
    last = np.floor((right - phase) / spacing + WHOLE)
    counts = np.maximum(last - first + 1, 0).astype(np.intp)
    return phase + first * spacing, counts


def _fill(
    lines: NDArray[np.float64],
    index: NDArray[np.intp],
    starts: NDArray[np.float64],
    counts: NDArray[np.intp],
    spacing: float,
) -> NDArray[np.float64]:
    total = int(counts.sum())
    points = np.empty((total, 2))
    if total:
        begin = np.cumsum(counts) - counts
        step = np.arange(total) - np.repeat(begin, counts)
        points[:, 0] = np.repeat(starts, counts) + step * spacing
        points[:, 1] = np.repeat(lines[index], counts)
    return points


def _turn_back(points: NDArray[np.float64], direction: float) -> NDArray[np.float64]:
    if direction == 0.0 or not len(points):
        return points
    turned_back: NDArray[np.float64] = shapely.get_coordinates(turned(shapely.multipoints(points), direction))
    return turned_back


def _pieces(
    index: NDArray[np.intp],
    left: NDArray[np.float64],
    right: NDArray[np.float64],
    lines: NDArray[np.float64],
    low: float,
    half_along: float,
    counts: NDArray[np.intp],
    direction: float,
) -> tuple[Row, ...]:
    if not len(index):
        return ()
    y = lines[index]
    outer = max(half_along - TOUCH, TOUCH)
    starts = _turn_back(np.column_stack([left - outer, y]), direction)
    ends = _turn_back(np.column_stack([right + outer, y]), direction)
    first = np.cumsum(counts) - counts
    return tuple(
        Row(line, across, (sx, sy), (ex, ey), begin, count)
        for line, across, (sx, sy), (ex, ey), begin, count in zip(
            index.tolist(),
            (y - low).tolist(),
            starts.tolist(),
            ends.tolist(),
            first.tolist(),
            counts.tolist(),
            strict=True,
        )
        if count
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
        batch = int((wanted - have) * 1.1 * size[0] * size[1] / ground.area) + 16
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
