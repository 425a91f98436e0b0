"""One named outline of every shape, and strategies for random ones."""

from __future__ import annotations

import math

import numpy as np
import shapely
from hypothesis import strategies as st

Ring = list[tuple[float, float]]


def star(points: int, outer: float, inner: float) -> Ring:
    """A star about the origin."""
    radii = [outer if i % 2 == 0 else inner for i in range(2 * points)]
    turns = [math.pi * i / points for i in range(2 * points)]
    return [(r * math.cos(a), r * math.sin(a)) for r, a in zip(radii, turns, strict=True)]


def comb(teeth: int, pitch: float, height: float, back: float = 1.0) -> Ring:
    """A comb: teeth half a pitch wide on a back."""
    ring = [(0.0, 0.0)]
    for i in range(teeth):
        x = i * pitch
        ring += [(x, height), (x + pitch / 2, height), (x + pitch / 2, back), (x + pitch, back)]
    return [*ring[:-1], (teeth * pitch - pitch / 2, 0.0)]


def regular(corners: int, radius: float) -> Ring:
    """A regular polygon about the origin."""
    angles = [2 * math.pi * i / corners for i in range(corners)]
    return [(radius * math.cos(a), radius * math.sin(a)) for a in angles]


#: Simple rings by name. [m]
RINGS: dict[str, Ring] = {
    "rectangle": [(0, 0), (6, 0), (6, 1.2), (0, 1.2)],
    "square": [(0, 0), (2.4, 0), (2.4, 2.4), (0, 2.4)],
    "upright": [(0, 0), (1.2, 0), (1.2, 6), (0, 6)],
    "clockwise": [(0, 0), (0, 1.2), (6, 1.2), (6, 0)],
    "L": [(0, 0), (5, 0), (5, 1.2), (1.2, 1.2), (1.2, 4), (0, 4)],
    "U": [(0, 0), (5, 0), (5, 4), (3.8, 4), (3.8, 1.2), (1.2, 1.2), (1.2, 4), (0, 4)],
    "T": [(0, 3), (0, 2), (2, 2), (2, 0), (3, 0), (3, 2), (5, 2), (5, 3)],
    "star": star(7, 3, 1.5),
    "sharp star": star(5, 3, 0.6),
    "triangle": [(0, 0), (4, 0), (1, 3)],
    "sliver": [(0, 0), (8, 0.3), (8, 0.32), (0, 0.02)],
    "thin triangle": [(0, 0), (10, 0), (10, 0.4)],
    "circle": regular(360, 1.5),
    "comb": comb(6, 0.9, 2.5),
    "tiny edge": [(0, 0), (3, 0), (3.00001, 0.00002), (3, 1.5), (0, 1.5)],
    "collinear corners": [(0, 0), (1, 0), (2, 0), (4, 0), (4, 1.2), (2.5, 1.2), (0, 1.2)],
    "hourglass": [(0, 0), (4, 0), (2.1, 2), (4, 4), (0, 4), (1.9, 2)],
    "zigzag": [(0, 0), (2, 1), (4, 0), (6, 1), (8, 0), (8, 1.2), (6, 2.2), (4, 1.2), (2, 2.2), (0, 1.2)],
    "askew": [(0.3, 0.1), (5.1, 1.7), (4.7, 2.9), (-0.1, 1.3)],
    "far away": [(9000, -9000), (9006, -9000), (9006, -8998.8), (9000, -8998.8)],
}

POLYGONS: dict[str, shapely.Polygon] = {name: shapely.Polygon(ring) for name, ring in RINGS.items()}

lengths = st.floats(0.2, 8.0).map(lambda value: round(value, 3))
spacings = st.floats(0.08, 0.6).map(lambda value: round(value, 3))
turns = st.floats(-180, 180).map(lambda value: round(value, 2))


@st.composite
def concave_polygons(draw: st.DrawFn) -> shapely.Polygon:
    """A polygon about the origin, concave as a rule, 0.4 to 4 m from its middle everywhere."""
    corners = draw(st.integers(3, 12))
    radii = draw(st.lists(st.floats(0.4, 4.0), min_size=corners, max_size=corners))
    begin = draw(st.floats(0, 360))
    angles = np.radians(begin + 360 * np.arange(corners) / corners)
    points = np.round(np.array(radii)[:, None] * np.column_stack([np.cos(angles), np.sin(angles)]), 4)
    return shapely.Polygon(points)


rectangles = st.builds(lambda length, width: shapely.box(0, 0, length, width), lengths, lengths)
named = st.sampled_from(sorted(POLYGONS)).map(POLYGONS.__getitem__)
plots = st.one_of(rectangles, concave_polygons(), named)
