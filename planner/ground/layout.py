"""Rows and stations of one planting, as the layout functions return them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from planner.lazy import lazy_property

if TYPE_CHECKING:
    from numpy.typing import NDArray

#: Greatest number of stations in one planting; more are refused.
MOST_STATIONS = 5_000_000


@dataclass(frozen=True)
class Row:
    """One row line, or one piece of it if the plot is concave.

    Attributes
    ----------
    index : int
        Number of the row line, from 0 at the plot's lower side.
    across : float
        Distance from the plot's lower side, at right angles to the rows. [m]
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
    """Rows with at least one station, as read-only columns; see :class:`Row` for their meaning."""

    index: NDArray[np.intp]
    across: NDArray[np.float64]
    starts: NDArray[np.float64]
    ends: NDArray[np.float64]
    first: NDArray[np.intp]
    count: NDArray[np.intp]

    def __post_init__(self) -> None:
        for column in (self.index, self.across, self.starts, self.ends, self.first, self.count):
            column.flags.writeable = False


@dataclass(frozen=True, eq=False)
class Layout:
    """Rows and stations of one planting.

    Attributes
    ----------
    points : ndarray (n, 2) of float64
        Stations, row by row, in the bed's coordinates; read-only. [m]
    table : RowTable or None
        The rows as columns; None for scattered and given places.
    in_row_spacing, row_spacing : float or None
        Spacings used; None if the arrangement has none. [m]
    direction : float
        Direction of the rows in the bed's coordinates. [degrees anticlockwise from the bed's x]
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
        """Rows with at least one station; empty for scattered and given places."""
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
        """Number of row lines with at least one station; pieces of one line count once."""
        return len(np.unique(self.table.index)) if self.table is not None else 0

    @lazy_property
    def row_length(self) -> float:
        """Total length of the rows. [m]"""
        if self.table is None:
            return 0.0
        along = self.table.ends - self.table.starts
        return math.fsum(np.hypot(along[:, 0], along[:, 1]))


def read_only(points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Make an array of points read-only and return it."""
    points.flags.writeable = False
    return points


#: The layout without stations.
NO_LAYOUT = Layout(read_only(np.empty((0, 2))))
