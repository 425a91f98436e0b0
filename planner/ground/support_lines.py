"""The lines along which a support stands: along the rows, beside each other over the plot, or as drawn."""

from __future__ import annotations

import numpy as np
import shapely

from planner.garden import Support
from planner.ground.layout import Layout
from planner.ground.shapes import turned

#: Distance of several drawn lines from each other where none is given (practice). [m]
USUAL_APART = 0.5
#: Single plants stand in a line where they are no farther out of it (practice). [m]
_OUT_OF_LINE = 0.05
#: Shorter pieces of a line hold no support. [m]
_LEAST_PIECE = 0.05


def drawn_lines(support: Support) -> list[shapely.LineString]:
    """The lines of a support whose line is drawn: so many beside each other, the drawn one in their middle.

    Parameters
    ----------
    support : Support
        With a drawn line; its points are in the bed's coordinates.
    """
    line, count = shapely.LineString(support.line), support.lines or 1
    if count == 1:
        return [line]
    apart = support.line_spacing or USUAL_APART
    found: list[shapely.LineString] = []
    for number in range(count):
        beside = apart * ((count - 1) / 2 - number)
        curve = shapely.offset_curve(line, beside, join_style="mitre") if abs(beside) > 1e-9 else line
        found += [part for part in shapely.get_parts(curve) if part.geom_type == "LineString"]
    return found


def lines_over_plot(support: Support, layout: Layout, plot: shapely.Geometry) -> list[shapely.LineString]:
    """A given number of lines over a plot, in the direction of its rows.

    Parameters
    ----------
    support : Support
        With a number of lines: ``line_spacing`` apart about the plot's middle, or sharing its width evenly.
    layout : Layout
        Its direction is that of the lines.
    plot : shapely.Geometry
        In the bed's coordinates. [m]
    """
    count = support.lines or 1
    level = turned(plot, -layout.direction)
    left, low, right, high = shapely.bounds(level)
    apart = support.line_spacing or (high - low) / count
    heights = (low + high) / 2 + apart * (np.arange(count) - (count - 1) / 2)
    found: list[shapely.LineString] = []
    for height in heights:
        across = shapely.LineString([(left - 1, height), (right + 1, height)])
        parts = shapely.get_parts(shapely.intersection(level, across))
        found += [part for part in parts if part.geom_type == "LineString" and part.length > _LEAST_PIECE]
    return [turned(line, layout.direction) for line in found]


def lines_through_plants(layout: Layout) -> list[shapely.LineString]:
    """Lines along which plants stand that were set singly, lengthwise or crosswise; none where they stand in no lines.

    Every line has two plants at least, and the plants are in the fewest lines that there are.

    Parameters
    ----------
    layout : Layout
        Of plants without rows.
    """
    if len(layout.points) < 2:
        return []
    ways = [
        (layout.direction + turn, _in_lines(layout.points, layout.direction + turn)) for turn in (0.0, 90.0)
    ]
    ways = [
        (way, found)
        for way, found in ways
        if all(len(line) > 1 and np.ptp(line[:, 1]) <= _OUT_OF_LINE for line in found)
    ]
    if not ways:
        return []
    way, best = min(ways, key=lambda one: len(one[1]))
    return [turned(shapely.LineString([line[0], line[-1]]), way) for line in best]


def _in_lines(points: np.ndarray, direction: float) -> list[np.ndarray]:
    """Points turned so that lines in a direction are level, line by line and from left to right."""
    level = shapely.get_coordinates(turned(shapely.MultiPoint(points), -direction))
    level = level[np.argsort(level[:, 1], kind="stable")]
    breaks = np.flatnonzero(np.diff(level[:, 1]) > _OUT_OF_LINE) + 1
    return [part[np.argsort(part[:, 0], kind="stable")] for part in np.split(level, breaks)]
