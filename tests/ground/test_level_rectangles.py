"""Rows in level rectangles, which most beds are, against those of any outline."""

from __future__ import annotations

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.ground import rowlines


@settings(max_examples=300)
@given(
    st.tuples(*(st.integers(-300, 300) for _ in range(2))),
    st.integers(1, 400),
    st.integers(1, 150),
    st.integers(1, 60),
    st.integers(0, 60),
    st.lists(st.integers(-350, 500), min_size=1, max_size=12, unique=True),
)
def test_pieces_in_a_level_rectangle_are_those_of_any_outline(
    corner: tuple[int, int], length: int, width: int, along: int, across: int, heights: list[int]
) -> None:
    x, y = corner[0] / 100, corner[1] / 100
    plot = shapely.box(x, y, x + length / 100, y + width / 100)
    corners = rowlines._level_rectangle(plot)
    assert corners == plot.bounds
    lines = np.array(sorted(heights)) / 100 + 0.003  # none just on the limit
    ours = rowlines._in_rectangle(corners, lines, along / 100, across / 100 + 1e-9)
    other = rowlines._in_outline(plot, lines, along / 100, across / 100 + 1e-9)
    if abs(length - 2 * along) > 0:  # a piece of no length may be there or not by rounding
        assert ours.line.tolist() == other.line.tolist()
        for name in ("left", "right", "begin", "end"):
            np.testing.assert_allclose(getattr(ours, name), getattr(other, name), atol=1e-12)


def test_other_outlines_are_no_level_rectangles() -> None:
    box = shapely.box(0, 0, 4, 1)
    for plot in (
        shapely.transform(box, lambda points: points @ np.array([[0.8, 0.6], [-0.6, 0.8]])),
        shapely.Polygon([(0, 0), (4, 0), (4, 1), (1, 1)]),
        shapely.Polygon([(0, 0), (4, 0), (2, 0.5), (4, 1), (0, 1)]),
        shapely.MultiPolygon([box, shapely.box(5, 0, 6, 1)]),
        box.difference(shapely.box(1, 0.2, 2, 0.8)),
        shapely.Polygon([(0, 0), (4, 0), (1, 1)]),
    ):
        assert rowlines._level_rectangle(plot) is None
