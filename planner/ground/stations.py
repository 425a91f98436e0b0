"""Stations in rows, in a plot of any shape.

A station needs an ellipse of ground: half the in-row spacing to either side along its row (or the ``end`` distance)
and half the row spacing across it (or the ``edge`` distance).  Each row line is cut to the pieces on which that
ellipse lies in the plot.  Each piece holds as many stations as fit; the rest of its length is shared equally by both
ends.  A rectangle of length L and width W so holds ``floor(L / s) * floor(W / r)`` stations, the population figure of
the handbooks, and in a plot of any shape no station is nearer to the outline than its distances allow.

The outermost stations may be nearer to the outline by :data:`TOLERANCE` of their spacing.  The rows of a bed may be nearer
to each other by :data:`TOLERANCE` of the row spacing where one more then fits: spacings are printed in inches, and
four rows of a foot are meant for 1.20 m.  Stations of a row are never nearer to each other than their spacing.

A row spacing is the distance of two rows.  A plot with room for one has that row in its middle, however narrow it is: the
row needs the room of its plants (:func:`_room_beside_lone_row`), not a whole row spacing.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
import shapely

from planner.ground.layout import MOST_STATIONS, NO_LAYOUT, Layout, RowTable, read_only
from planner.ground.rowlines import TOUCH, Pieces, row_pieces
from planner.ground.shapes import turned
from planner.words import say, whole_words

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Rounding error of lengths that are divided by a spacing. [m]
SLACK = 2e-6
#: Share of its spacing by which an outermost station may be nearer to the outline than half its spacing, and of the row
#: spacing by which the rows of a bed may be closer (practice).  A foot is 1.6 hundredths more than 30 cm.
TOLERANCE = 0.02
#: Most rows that are laid closer to gain one: those of a bed.
MOST_CLOSER = 10
#: Least distance of a lone row from the outline, as a share of the plot's width, where its plants need more (practice).
LONE_ROW = 0.25
#: Heights of the rows, by row spacing and altogether, that are tried in a plot with arms narrower than a row spacing.
HEIGHTS_TRIED, MOST_TRIED = 24, 200


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
        Least distance from the outline across and along the rows; by default half the spacings less
        :data:`TOLERANCE` of them, for a lone row across it what its plants need. [m]
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
    apart = row_spacing
    if apart is None:
        apart = _even_row_spacing(high - low, rows or 1, edge or 0.0)
    elif edge is None and not staggered:
        apart = _closer(apart, high - low, rows)
    expected = shapely.area(plot) / (in_row_spacing * apart)
    if expected > MOST_STATIONS:
        raise ValueError(
            say(
                "about {wanted} plants; at most {most} can be laid out",
                wanted=format(expected, ",.0f"),
                most=whole_words(MOST_STATIONS),
            )
        )
    ground = _Ground(
        level,
        None if obstacles is None else turned(obstacles, -direction),
        in_row_spacing * (0.5 - TOLERANCE) if end is None else end,
    )
    if edge is not None:
        lines = _row_lines(low, high, apart, edge, rows)
        pieces = ground.pieces(lines, edge)
    else:
        lines, pieces = _rows_on(ground, low, high, in_row_spacing, row_spacing, apart, rows)
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


class _Ground(NamedTuple):
    """Ground on which row lines along x are cut to pieces.

    Attributes
    ----------
    plot : shapely.Geometry
        Turned so that its rows are along x. [m]
    obstacles : shapely.Geometry or None
        Turned likewise. [m]
    along : float
        Least distance of a station from the outline along its row. [m]
    """

    plot: shapely.Geometry
    obstacles: shapely.Geometry | None
    along: float

    def pieces(self, lines: NDArray[np.float64], across: float) -> Pieces:
        """Pieces of row lines on which stations keep a distance [m] from the outline across the rows."""
        return row_pieces(self.plot, lines, self.along, across, self.obstacles)


def _rows_on(
    ground: _Ground,
    low: float,
    high: float,
    in_row_spacing: float,
    row_spacing: float | None,
    apart: float,
    most: int | None,
) -> tuple[NDArray[np.float64], Pieces]:
    """Row lines between two sides, and their pieces, at the usual distances from the outline.

    A row by itself needs no row spacing: it is laid in the middle of the plot, with the room of its plants.  In a
    plot with arms narrower than a row spacing, which would be left empty, the rows lie where the most stations fit, if
    those are more than twice as many.
    """
    lines = _row_lines(low, high, apart, apart * (0.5 - TOLERANCE), most)
    if len(lines) <= 1:
        middle = np.array([(low + high) / 2])
        return middle, ground.pieces(middle, _room_beside_lone_row(high - low, in_row_spacing, apart))
    if row_spacing is None:
        return lines, ground.pieces(lines, min(apart, in_row_spacing) / 2)
    pieces = ground.pieces(lines, apart * (0.5 - TOLERANCE))
    rows = (high - low) / apart if most is None else min((high - low) / apart, most)
    expected = rows * float(shapely.area(ground.plot)) / (high - low) / in_row_spacing
    longest = float((pieces.right - pieces.left).sum()) / in_row_spacing + len(pieces.line)
    if 2 * longest >= expected or in_row_spacing >= apart:
        return lines, pieces
    in_arms = _rows_in_arms(ground, low, high, in_row_spacing, apart, most)
    few = _count_stations(in_arms[1], in_row_spacing) <= 2 * _count_stations(pieces, in_row_spacing)
    return (lines, pieces) if few else in_arms


def _rows_in_arms(
    ground: _Ground, low: float, high: float, in_row_spacing: float, apart: float, most: int | None
) -> tuple[NDArray[np.float64], Pieces]:
    """Row lines of a plot with narrow arms, and their pieces, at the height at which the most stations fit.

    From the outline the rows keep half the spacing of their plants.

    Parameters
    ----------
    ground : _Ground
    low, high : float
        Heights of the plot's sides. [m]
    in_row_spacing, apart : float
        Of plants, and of rows, which are farther apart. [m]
    most : int or None
        Greatest number of rows.
    """
    room = in_row_spacing * (0.5 - TOLERANCE)
    low, high = low + room, high - room
    span = high - low if most is not None else min(high - low, apart)
    firsts = np.linspace(low, low + span, 1 + min(math.ceil(HEIGHTS_TRIED * span / apart), MOST_TRIED))
    tried = [np.arange(first, high + SLACK, apart)[:most] for first in firsts]
    heights = np.concatenate(tried)
    place = np.repeat(np.arange(len(tried)), [len(lines) for lines in tried])
    rising = np.argsort(heights, kind="stable")
    pieces = ground.pieces(heights[rising], room)
    held = np.floor((pieces.right - pieces.left + SLACK) / in_row_spacing) + 1
    counts = np.bincount(place[rising][pieces.line], held, minlength=len(tried))
    lines = tried[_middle_of_longest_run(np.flatnonzero(counts == counts.max()).tolist())]
    return lines, ground.pieces(lines, room)


def _count_stations(pieces: Pieces, in_row_spacing: float) -> int:
    """Number of stations that pieces of row lines hold."""
    return int(_piece_stations(pieces, in_row_spacing)[2].sum())


def _middle_of_longest_run(numbers: list[int]) -> int:
    """The middle of the longest run of consecutive numbers, of which there is at least one, rising.

    Examples
    --------
    >>> _middle_of_longest_run([1, 4, 5, 6, 9, 10])
    5
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    longest = max(runs, key=len)
    return longest[len(longest) // 2]


def _room_beside_lone_row(width: float, in_row_spacing: float, apart: float) -> float:
    """Least distance from the outline of a row without another beside it, across the row. [m]

    Half the spacing of its plants, in a plot that is too narrow for that :data:`LONE_ROW` of its width: the plants
    of a row in the middle may hang over both its sides.
    """
    return min(in_row_spacing * (0.5 - TOLERANCE), apart / 2, LONE_ROW * width)


def _closer(apart: float, width: float, most: int | None) -> float:
    """The row spacing, or a little less where one more row then fits into a bed. [m]

    Examples
    --------
    >>> round(_closer(0.3048, 1.2, None), 4), _closer(0.3048, 1.1, None), _closer(0.3048, 1.2, 3)
    (0.3, 0.3048, 0.3048)
    """
    fit = math.floor((width + 2 * TOLERANCE * apart + SLACK) / apart)
    closer = width / (fit + 1)
    wanted = fit + 1 <= min(most or MOST_CLOSER, MOST_CLOSER)
    return closer if fit and wanted and closer >= apart * (1 - TOLERANCE) else apart


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
