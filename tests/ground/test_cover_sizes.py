"""Hoops and sheets against numerical integration and published sizes."""

from __future__ import annotations

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from planner.garden.units import FOOT, INCH
from planner.ground.arcs import half_ellipse
from planner.ground.covers import (
    EDGE,
    HOOP_FOOT,
    HOOP_SPACING,
    LEAST_HOOP,
    OVERLAP,
    TALLEST_HOOP,
    cloches_over,
    cloches_over_plants,
    film_over,
    laid_flat,
    on_hoops,
    strips_of,
    weights_around,
)
from planner.ground.support_materials import posts_along

#: Widths in which fleece is sold in the United States (practice, as recalled). [m]
US_ROLLS = (83 * INCH, 118 * INCH, 10 * FOOT, 14 * FOOT)


@given(st.floats(0.1, 10), st.floats(0, 5))
def test_an_arch_is_as_long_as_integration_says(width, rise):
    a, b = width / 2, rise
    exact, _ = quad(lambda t: math.hypot(a * math.sin(t), b * math.cos(t)), 0, math.pi, limit=400)
    assert half_ellipse(width, rise) == pytest.approx(exact, rel=5e-4)


@given(st.floats(0.3, 4), st.floats(0.5, 1.5))
def test_an_ordinary_hoop_is_right_to_a_tenth_of_a_millimetre(width, share):
    a, b = width / 2, width / 2 * share
    exact, _ = quad(lambda t: math.hypot(a * math.sin(t), b * math.cos(t)), 0, math.pi)
    assert half_ellipse(width, b) == pytest.approx(exact, abs=1e-4)


def test_a_half_circle_over_a_bed_of_four_feet():
    assert half_ellipse(4 * FOOT, 2 * FOOT) == pytest.approx(6.28 * FOOT, abs=0.002)  # GEOMETRY


@pytest.mark.parametrize(
    ("width", "height", "foot", "printed"),
    [
        # ATTRA: wire hoops 14 to 18 in high; of 65 to 72 in over bases of 24 to 36 in, 6 to 8 in deep (as recalled).
        (24, 18, 8, (65, 72)),
        (36, 18, 8, (65, 72)),
        # Over beds of 30 to 36 in hoops of 64 to 76 in, 6 to 8 in deep (as recalled).
        (30, 18, 6, (64, 76)),
        (36, 18, 8, (64, 76)),
        # University of New Hampshire 2014: bows of 10 ft over 3.5 to 6 ft, 3 ft high and more, 6 in deep.
        (72, 36, 6, (120, 120)),
        # Of 6 ft it is a half circle, as a farm says, too.
        (42, 48, 6, (120, 120)),
    ],
)
def test_published_hoops_within_five_per_cent(width, height, foot, printed):
    size = on_hoops(3.0, width * INCH, height * INCH)
    hoop = (size.hoop_length - 2 * HOOP_FOOT) / INCH + 2 * foot
    assert 0.95 * printed[0] <= hoop <= 1.05 * printed[1]


def test_a_bow_of_ten_feet_over_a_bed_of_four_feet_wears_a_cover_ten_feet_wide():
    # High and Dry Farm.  The height is what a bow of 10 ft, 6 in deep, has over 4 ft.
    low, high = 0.3, 2.0
    while high - low > 1e-6:
        middle = (low + high) / 2
        low, high = (middle, high) if half_ellipse(4 * FOOT, middle) < 9 * FOOT else (low, middle)
    size = on_hoops(8 * FOOT, 4 * FOOT, low)
    assert 3 * FOOT < low < 5 * FOOT, "3 to 5 ft tall (University of New Hampshire 2014)"
    assert size.hoop_length == pytest.approx(10 * FOOT, abs=0.02)
    assert size.width == pytest.approx(10 * FOOT, abs=0.02)
    assert size.hoops == 3, "bows every 4 ft"


def test_the_cover_of_a_bed_of_thirty_inches():
    # On hoops of 64 in the cover is 83 in wide (as recalled): the narrowest roll that holds the sheet.
    size = on_hoops(10.0, 30 * INCH, 18 * INCH)
    assert size.hoop_length == pytest.approx(64 * INCH, rel=0.03)
    assert min(roll for roll in US_ROLLS if roll >= size.width) == US_ROLLS[0]


def test_ends_and_edges_of_a_sheet():
    size = on_hoops(10.0, 1.2, 0.45)
    assert 1.20 - 1e-9 <= size.length - 10.0 <= 1.80, "60 to 90 cm at each end (as recalled)"
    assert 0.075 <= EDGE <= 0.30, "15 to 30 cm buried, half of it weighted (as recalled)"
    assert 0.15 <= HOOP_FOOT <= 0.20, "6 in or more"
    assert 4 * FOOT - 0.03 <= HOOP_SPACING <= 5 * FOOT, "4 to 5 ft"
    assert 0.30 <= OVERLAP <= 0.50, "12 to 20 in (as recalled)"


def test_film_for_a_bed_of_thirty_inches_is_forty_eight_wide():
    assert film_over(5.0, 30 * INCH).width == pytest.approx(48 * INCH, abs=0.01)  # as recalled
    assert (film_over(5.0, 0.9).width - 0.9) / 2 > 4 * INCH, "a furrow of 3 to 4 in at each side (Texas A&M)"


def test_a_flat_sheet_has_slack_for_its_plants():
    bare, grown = laid_flat(4.8, 1.2, 0.0), laid_flat(4.8, 1.2, 0.3)
    assert bare.width == pytest.approx(1.2 + 2 * EDGE, abs=1e-3)
    assert grown.width > bare.width
    assert grown.length > bare.length
    assert laid_flat(4.8, 1.2, 3.0) == laid_flat(4.8, 1.2, 0.4), "only so far"
    assert grown.hoops == 0


@given(st.floats(0.2, 60), st.floats(0.2, 3), st.floats(0.3, 1.2))
def test_hoops_stand_close_enough_and_the_sheet_reaches_the_ground_all_around(length, width, height):
    size = on_hoops(length, width, height)
    assert (size.hoops - 1) * HOOP_SPACING >= length - 1e-6
    assert size.hoops <= length / HOOP_SPACING + 2
    assert size.width >= half_ellipse(width, height)
    assert size.length >= length + 2 * height
    assert size.hoop_length == pytest.approx(size.width, abs=0.01), "a foot is as long as an edge"


def test_weights_are_at_the_corners_and_along_the_sides():
    assert weights_around(1.5, 1.5) == 4
    assert weights_around(6.0, 1.5) == 10
    assert weights_around(6.1, 1.6) == 14


def cloches_of(points: list[tuple[float, float]], direction: float = 0.0) -> int:
    return cloches_over_plants(np.array(points, dtype=float).reshape(-1, 2), direction)


def test_cloches_stand_over_plants_and_not_between_them():
    row = [(0.9 * number, 0.0) for number in range(5)]
    assert cloches_of(row) == 5, "one over each courgette"
    assert cloches_of([(0.3 * number, 0.0) for number in range(16)]) == 8, "over two of lettuce"
    assert cloches_of([*row, *((x, 0.3) for x, _ in row)]) == 5, "over two rows that are near"
    assert cloches_of([*row, *((x, 0.9) for x, _ in row)]) == 10
    turned = [(y, x) for x, y in row]
    assert cloches_of(turned, 90.0) == 5
    assert cloches_of([]) == 0


@settings(max_examples=60)
@given(st.lists(st.tuples(st.integers(0, 12), st.integers(0, 4)), min_size=1, max_size=12, unique=True))
def test_rows_of_plants_take_as_few_cloches_as_can_stand_over_them(places):
    # Rows farther apart than a cloche is wide: along each the fewest intervals (brute force over where they begin).
    points = [(0.2 * x, 0.7 * y) for x, y in places]
    fewest = 0
    for row in {y for _, y in places}:
        along = sorted(x for x, y in places if y == row)
        fewest += min(
            len(starts)
            for many in range(1, len(along) + 1)
            for starts in itertools.combinations(along, many)
            if all(any(0 <= x - start < 3 for start in starts) for x in along)
        )
    assert cloches_of(points) == fewest


def test_hoops_are_as_high_as_bows_of_ten_feet_are():
    assert 3 * FOOT <= TALLEST_HOOP <= 5 * FOOT, "3 to 5 ft (University of New Hampshire 2014)"
    assert 14 * INCH <= LEAST_HOOP <= 18 * INCH, "wire hoops 14 to 18 in (ATTRA)"


def test_cloches_and_strips():
    assert [cloches_over(*ground) for ground in ((0.3, 0.3), (1.2, 0.6), (1.3, 1.2))] == [1, 2, 6]
    assert [strips_of(width, 2.0) for width in (1.9, 2.0, 2.1, 3.6, 3.7)] == [1, 1, 2, 2, 3]
    assert strips_of(3.0, 0.3) == 0, "a roll that is all overlap"


def test_posts_and_stakes_as_published():
    # University of Minnesota, Trellises and cages: stakes of 6 ft driven 1 ft leave 5; 5 to 6 ft apart.
    import shapely

    from planner.ground.built_support import build_along

    net = build_along("net", [shapely.LineString([(0, 0), (30 * FOOT, 0)])], 5 * FOOT)
    post = next(one for one in net.materials if one.name == "post")
    assert post.length == pytest.approx(6 * FOOT, abs=0.01)
    assert posts_along(30 * FOOT, 6 * FOOT) <= post.amount <= posts_along(30 * FOOT, 5 * FOOT) + 1
