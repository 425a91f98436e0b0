"""The layout rule in a second, slower implementation with other means."""

from __future__ import annotations

import math
from itertools import pairwise

import shapely
import shapely.affinity
from ground.counting import rows_counted
from hypothesis import event, given, settings
from hypothesis import strategies as st
from shapes_zoo import concave_polygons, spacings, turns

from planner.ground import lay_rows


def slow_rows(plot: shapely.Polygon, s: float, r: float, direction: float) -> list[list[tuple[float, float]]]:
    """Free pieces of row lines, row by row: the line in the plot less what is near to the outline.

    An outermost station may be nearer to the outline by a fiftieth of its spacing, and up to ten rows may be closer by a
    fiftieth where one more then fits.  A row by itself needs half the
    spacing of its plants beside it, or a quarter of the plot's width.
    """
    level = shapely.affinity.rotate(plot, -direction, origin=(0, 0))
    _, low, _, high = level.bounds
    count = rows_counted(high - low, r)
    if count > math.floor((high - low) / r + 0.04 + 1e-9):  # closer, to gain one
        r = (high - low) / count
    if count <= 1:
        return [free_pieces(level, (low + high) / 2, 0.48 * s, min(0.48 * s, r / 2, (high - low) / 4))]
    middle = (low + high) / 2
    return [free_pieces(level, middle + (i - (count - 1) / 2) * r, 0.48 * s, 0.48 * r) for i in range(count)]


def free_pieces(level: shapely.Polygon, y: float, along: float, across: float) -> list[tuple[float, float]]:
    """Pieces of a row line on which an ellipse about a station lies in the plot.

    In a plan squeezed so that the ellipse is the unit circle, what is near is the outline drawn with a pen two wide.
    """
    left, _, right, _ = level.bounds
    near = shapely.affinity.scale(level.exterior, 1 / along, 1 / across, origin=(0, 0)).buffer(
        1.0, quad_segs=256
    )
    line = shapely.LineString([(left - 1, y), (right + 1, y)])
    inside = shapely.affinity.scale(level.intersection(line), 1 / along, 1 / across, origin=(0, 0))
    parts = [part for part in shapely.get_parts(inside.difference(near)) if not part.is_empty]
    ends = [sorted(x * along for x, _ in part.coords) for part in parts if part.geom_type == "LineString"]
    return sorted((end[0], end[-1]) for end in ends)


def slow_count(length: float, width: float, s: float, r: float) -> int:
    """Plants of a rectangle, one by one: row after row, plant after plant, as long as the next still fits.

    What fits is counted in micrometres, so that no rounding can hide.
    """
    um = 1_000_000
    plants = 0
    while (plants + 1) * round(s * um) <= round(length * um) + round(0.04 * s * um) + 2:
        plants += 1
    return plants * max(rows_counted(width, r), 1)


millimetres = st.integers(30, 2000).map(lambda mm: mm / 1000)


@settings(max_examples=400)
@given(st.integers(50, 3000).map(lambda mm: mm / 1000), millimetres, millimetres, millimetres)
def test_rectangles_hold_what_is_counted_plant_by_plant(length, width, s, r):
    assert lay_rows(shapely.box(0, 0, length, width), s, r).count == slow_count(length, width, s, r)


@settings(max_examples=150)
@given(concave_polygons(), spacings, spacings, turns)
def test_rows_and_counts_agree_with_the_slow_rule(plot, s, r, direction):
    layout = lay_rows(plot, s, r, direction=direction)
    fast: dict[int, list] = {}
    for row in layout.rows:
        fast.setdefault(row.index, []).append(row)
    level = shapely.affinity.rotate(shapely.multipoints(layout.points), -direction, origin=(0, 0))
    places = shapely.get_coordinates(level)
    slow = slow_rows(plot, s, r, direction)
    if layout.count > 2 * sum(math.floor((right - left) / s) + 1 for row in slow for left, right in row):
        event("rows laid where the plot's arms hold the most")
        assert s < r
        return
    compared = 0
    for index, pieces in enumerate(slow):
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
