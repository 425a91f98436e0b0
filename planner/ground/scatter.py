"""Stations that are not in rows: scattered over a plot, at given places, or along a line."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np
import shapely

from planner.ground.layout import MOST_STATIONS, NO_LAYOUT, Layout, read_only
from planner.ground.rowlines import TOUCH
from planner.ground.shapes import polygons_of, prepared_copy
from planner.words import say, whole_words

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray

#: Relative tolerance when rounding a number of scattered plants down.
WHOLE = 1e-6
#: Greatest number of places tried in one batch when plants are scattered.
MOST_AT_ONCE = 2_000_000
#: Real root of x**3 = x + 1, the base of the two-dimensional golden-ratio sequence.
_PLASTIC_NUMBER = 1.32471795724474602596


def whole_number(quotient: float) -> int:
    """Round down, tolerating binary fractions: 2.4 / 0.3 gives 8."""
    return math.floor(quotient + WHOLE * max(1.0, abs(quotient) * 1e-3))


def too_many(wanted: int, most: int = MOST_STATIONS) -> ValueError:
    """Make the error of more stations than can be laid out."""
    return ValueError(
        say(
            "{wanted} plants; at most {most} can be laid out",
            wanted=whole_words(wanted),
            most=whole_words(most),
        )
    )


def lay_scatter(plot: shapely.Geometry, density: float, obstacles: shapely.Geometry | None = None) -> Layout:
    """Scatter ``floor(area * density)`` stations over a plot without clumps.

    The stations are points of the two-dimensional golden-ratio sequence (Roberts 2018, The unreasonable effectiveness
    of quasirandom sequences), so that the same plot always gives the same stations.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        In the bed's coordinates. [m]
    density : float
        [plants/m2]
    obstacles : shapely.Geometry, optional
        Ground without stations.

    Returns
    -------
    Layout
        Without rows; without stations if the plot is empty.

    Raises
    ------
    ValueError
        For more than :data:`MOST_STATIONS` stations.
    """
    ground = plot
    if obstacles is not None and not obstacles.is_empty:
        ground = polygons_of(shapely.difference(plot, obstacles))
    if ground.is_empty or ground.area <= 0:
        return NO_LAYOUT
    wanted = whole_number(ground.area * density)
    if wanted > MOST_STATIONS:
        raise too_many(wanted)
    left, low, right, high = shapely.bounds(ground)
    size = np.array([right - left, high - low])
    steps = np.array([1 / _PLASTIC_NUMBER, 1 / _PLASTIC_NUMBER**2])
    found: list[NDArray[np.float64]] = []
    have, begin = 0, 1
    ground = prepared_copy(ground)
    while have < wanted:
        batch = min(int((wanted - have) * 1.1 * size[0] * size[1] / ground.area) + 16, MOST_AT_ONCE)
        numbers = np.arange(begin, begin + batch)[:, None]
        places = (0.5 + numbers * steps) % 1.0 * size + np.array([left, low])
        inside = places[shapely.contains_xy(ground, places[:, 0], places[:, 1])]
        found.append(inside[: wanted - have])
        have += len(found[-1])
        begin += batch
    points = np.concatenate(found) if found else np.empty((0, 2))
    return Layout(read_only(points))


def lay_places(
    plot: shapely.Geometry, places: ArrayLike, obstacles: shapely.Geometry | None = None
) -> Layout:
    """Use given places as stations, without those outside the plot or on an obstacle.

    Parameters
    ----------
    plot : shapely.Polygon or shapely.MultiPolygon
        In the bed's coordinates. [m]
    places : array (n, 2)
        In the bed's coordinates. [m]
    obstacles : shapely.Geometry, optional
        Ground without stations.
    """
    points = np.array(places, dtype=np.float64).reshape(-1, 2)
    usable = shapely.dwithin(plot, shapely.points(points), TOUCH)
    if obstacles is not None and not obstacles.is_empty:
        usable &= ~shapely.contains_xy(prepared_copy(obstacles), points[:, 0], points[:, 1])
    return Layout(read_only(points[usable]))


def stations_beside(
    line: shapely.LineString, spacing: float, offset: float, sides: int = 1
) -> NDArray[np.float64]:
    """Stations beside a support's line, evenly spaced, the first and last half a spacing or more from its ends.

    Parameters
    ----------
    line : shapely.LineString
    spacing : float
        Station to station. [m]
    offset : float
        Distance from the line, to its left; with two sides also to its right. [m]
    sides : int
        1 or 2.

    Returns
    -------
    ndarray (n, 2)
        Empty if the line is shorter than a spacing. [m]
    """
    count = math.floor(line.length / spacing + 1e-9)
    if count < 1:
        return np.zeros((0, 2))
    rest = line.length - count * spacing
    at = rest / 2 + (np.arange(count) + 0.5) * spacing
    here, behind, ahead = (
        shapely.get_coordinates(shapely.line_interpolate_point(line, np.maximum(at + step, 0.0)))
        for step in (0.0, -1e-4, 1e-4)
    )
    along = (ahead - behind) / np.maximum(np.hypot(*(ahead - behind).T), 1e-12)[:, None]
    aside = offset * np.column_stack([-along[:, 1], along[:, 0]])
    return np.concatenate([here + side * aside for side in (1, -1)[:sides]])
