"""The layout rule in a second, slower implementation with other means."""

from __future__ import annotations

import math
from itertools import pairwise

import shapely
import shapely.affinity
from hypothesis import event, given, settings
from shapes_zoo import concave_polygons, spacings, turns

from planner.ground import lay_rows


def slow_rows(plot: shapely.Polygon, s: float, r: float, direction: float) -> list[list[tuple[float, float]]]:
    """Free pieces of row lines, row by row: the line in the plot less what is near to the outline.

    In a plan squeezed so that a station's ellipse is the unit circle, what is near is the outline
    drawn with a pen two wide.
    """
    level = shapely.affinity.rotate(plot, -direction, origin=(0, 0))
    left, low, right, high = level.bounds
    squeezed = shapely.affinity.scale(level.exterior, 2 / s, 2 / r, origin=(0, 0))
    near = squeezed.buffer(1.0, quad_segs=256)
    found = []
    count = math.floor((high - low) / r + 1e-9)
    for i in range(count):
        y = (low + high) / 2 + (i - (count - 1) / 2) * r
        line = shapely.LineString([(left - 1, y), (right + 1, y)])
        inside = shapely.affinity.scale(level.intersection(line), 2 / s, 2 / r, origin=(0, 0))
        parts = [part for part in shapely.get_parts(inside.difference(near)) if not part.is_empty]
        ends = [sorted(x * s / 2 for x, _ in part.coords) for part in parts if part.geom_type == "LineString"]
        found.append(sorted((end[0], end[-1]) for end in ends))
    return found


@settings(max_examples=150)
@given(concave_polygons(), spacings, spacings, turns)
def test_rows_and_counts_agree_with_the_slow_rule(plot, s, r, direction):
    layout = lay_rows(plot, s, r, direction=direction)
    fast: dict[int, list] = {}
    for row in layout.rows:
        fast.setdefault(row.index, []).append(row)
    level = shapely.affinity.rotate(shapely.multipoints(layout.points), -direction, origin=(0, 0))
    places = shapely.get_coordinates(level)
    compared = 0
    for index, pieces in enumerate(slow_rows(plot, s, r, direction)):
        lengths = [(right - left) / s for left, right in pieces]
        # The pen's round ends are polygons: what hangs on a hundredth of a spacing proves nothing.
        if any(length < 0.01 or abs(length - round(length)) < 0.01 for length in lengths):
            continue
        # Nor do pieces that must give way to each other, as about a corner that points at the row.
        if any(other[0] - one[1] < s for one, other in pairwise(pieces)):
            continue
        compared += 1
        rows = fast.get(index, [])
        assert [row.count for row in rows] == [math.floor(length) + 1 for length in lengths]
        for row, (left, right) in zip(rows, pieces, strict=True):
            middle = places[row.first : row.first + row.count, 0].mean()
            assert abs(middle - (left + right) / 2) < 0.005 * s
    event(f"rows compared: {min(compared, 3)}")
