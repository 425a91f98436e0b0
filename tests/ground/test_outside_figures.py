"""Counts of plants against published figures."""

from __future__ import annotations

import math

import pytest
import shapely

from planner.garden.arrangements import StaggeredRows
from planner.garden.planting_figures import PlantingFigures
from planner.garden.units import FOOT, INCH
from planner.ground import lay_rows
from planner.ground.bed_spacing import spacings
from planner.ground.layout import MOST_STATIONS

ACRE = 43_560 * FOOT**2
SQUARE_ROD = 272.25 * FOOT**2

#: Bailey 1911, Farm and Garden Rule-Book, number of plants to set an acre (in x in, plants an acre);
#: the acre filled to the margin, decimals dropped.
BAILEY_1911 = [
    (24, 36, 7_260),
    (1, 1, 6_272_640),
    (1, 2, 3_136_320),
    (1, 7, 896_091),
    (2, 3, 1_045_440),
    (3, 6, 348_480),
    (3, 7, 298_697),
    (3, 8, 261_360),
    (3, 9, 232_320),
    (3, 10, 209_088),
    (3, 11, 190_080),
    (3, 12, 174_240),
    (4, 5, 313_632),
    (4, 7, 224_022),
    (4, 8, 196_020),
    (4, 10, 156_816),
]
#: Weathers 1913, Commercial Gardening, vol. 3, laying out land and planting: plants an acre.
WEATHERS_1913_ACRE = [
    (30, 12, 17_424),
    (30, 18, 11_616),
    (30, 24, 8_712),
    (30, 30, 6_969),
    (30, 36, 5_808),
    (30, 42, 4_978),
]
#: The same: plants a square rod, decimals dropped.
WEATHERS_1913_ROD = [
    (3, 3, 4_356),
    (4, 4, 2_450),
    (5, 4, 1_960),
    (6, 4, 1_633),
    (6, 6, 1_089),
    (8, 6, 816),
    (8, 8, 612),
    (10, 8, 490),
    (10, 10, 392),
    (12, 12, 272),
    (15, 10, 261),
]
#: Valley Potato Grower, Mar 2021, Table 1, plants an acre, rounded.
POTATO_2021 = [
    (34, 6, 30_748),
    (34, 7, 26_356),
    (34, 12, 15_374),
    (36, 6, 29_040),
    (36, 10, 17_424),
    (36, 12, 14_520),
    (38, 9, 18_341),
    (38, 14, 11_791),
]


def in_one_row(area: float, row_in: float, plant_in: float) -> int:
    """Plants of an area laid out as one row, which is how "filled to the margin" reads."""
    apart, spacing = row_in * INCH, plant_in * INCH
    return lay_rows(shapely.box(0, 0, area / apart, apart), spacing, apart).count


@pytest.mark.parametrize(("row", "plant", "printed"), BAILEY_1911)
def test_bailey_1911_plants_an_acre(row, plant, printed):
    if printed > MOST_STATIONS:
        assert 2 * in_one_row(ACRE / 2, row, plant) == printed
    else:
        assert in_one_row(ACRE, row, plant) == printed


@pytest.mark.parametrize(
    ("row", "plant", "printed"),
    [case for case in BAILEY_1911 if 792 % case[0] == 7920 % case[1] == 0 and case[2] < 400_000],
)
def test_bailey_1911_on_an_acre_of_660_by_66_feet(row, plant, printed):
    assert lay_rows(shapely.box(0, 0, 660 * FOOT, 66 * FOOT), plant * INCH, row * INCH).count == printed


@pytest.mark.parametrize(("row", "plant", "printed"), WEATHERS_1913_ACRE)
def test_weathers_1913_plants_an_acre(row, plant, printed):
    assert in_one_row(ACRE, row, plant) == printed


@pytest.mark.parametrize(("row", "plant", "printed"), WEATHERS_1913_ROD)
def test_weathers_1913_plants_a_square_rod(row, plant, printed):
    assert in_one_row(SQUARE_ROD, row, plant) == printed


@pytest.mark.parametrize(("row", "plant", "printed"), POTATO_2021)
def test_valley_potato_grower_2021_plants_an_acre(row, plant, printed):
    assert abs(in_one_row(ACRE, row, plant) - printed) <= 1


def test_wickson_1914_triangular_rows():
    """Wickson 1914, The California Fruits: trees 18 ft apart in triangles are in rows 15.588 ft apart."""
    in_row, between = spacings(StaggeredRows(in_row_spacing=18 * FOOT), PlantingFigures(None, None))
    assert in_row == 18 * FOOT
    assert between is not None
    assert round(between / FOOT, 3) == 15.588


def test_wickson_1914_fifteen_per_cent_more_trees_in_triangles():
    """Wickson 1914 and Hume, The Pecan and its Culture: 15 % more; exactly 2/sqrt(3) in the limit."""
    field, spacing = shapely.box(0, 0, 600, 600), 1.0
    square = lay_rows(field, spacing, spacing).count
    triangles = lay_rows(field, spacing, spacing * math.sqrt(3) / 2, staggered=True).count
    assert square == 360_000
    assert triangles / square == pytest.approx(2 / math.sqrt(3), rel=3e-3)
    assert round(100 * (triangles / square - 1)) == 15


def test_five_thousand_plants_a_hectare_in_triangles_of_one_and_a_half_metres():
    """Plain geometry: 10,000 / (1.5**2 * sqrt(3) / 2) = 5,132; the square lattice holds 4,444."""
    side = 100.0
    triangles = lay_rows(shapely.box(0, 0, side, side), 1.5, 1.5 * math.sqrt(3) / 2, staggered=True).count
    square = lay_rows(shapely.box(0, 0, side, side), 1.5, 1.5).count
    assert square == 66 * 66  # 4,444 less what the margins do not fill
    assert triangles == pytest.approx(5_132, rel=0.025)


def test_kihanya_2013_rows_of_a_hundred_and_of_ninety_nine():
    """Kihanya, Sunday Nation, 10 Nov 2013: a hectare at 1 m x 2 m holds 100 x 50 = 5,000 trees;
    in triangles the shifted rows hold 99 and are 1.94 m apart."""
    hectare = shapely.box(0, 0, 100, 100)
    assert lay_rows(hectare, 1.0, 2.0).count == 5_000
    between = math.sqrt(2**2 - 0.5**2)
    assert round(between, 2) == 1.94
    shifted = lay_rows(hectare, 1.0, between, staggered=True)
    assert {row.count for row in shifted.rows} == {100, 99}


@pytest.mark.parametrize(
    ("length", "width", "s", "r", "count"),
    [
        (2.4, 1.2, 0.3, 0.3, 8 * 4),
        (0.9, 0.3, 0.1, 0.1, 9 * 3),
        (0.7, 0.6, 0.1, 0.2, 7 * 3),
        (4.8, 1.2, 0.075, 0.15, 64 * 8),
        (1.1, 0.55, 0.11, 0.11, 10 * 5),
        (2.1, 0.7, 0.35, 0.35, 6 * 2),
        (10.0, 1.0, 0.05, 0.25, 200 * 4),
        (2.387, 1.2, 0.3, 0.3, 7 * 4),
        (2.4, 1.175, 0.3, 0.3, 8 * 3),
    ],
)
def test_binary_fractions_do_not_cost_a_plant(length, width, s, r, count):
    assert lay_rows(shapely.box(0, 0, length, width), s, r).count == count
    assert lay_rows(shapely.box(0.1, 0.7, 0.1 + length, 0.7 + width), s, r).count == count
    upright = shapely.box(-width / 2, -length / 2, width / 2, length / 2)
    assert lay_rows(upright, s, r, direction=90.0).count == count


@pytest.mark.parametrize("inches", [1, 1.5, 2, 3, 4, 6, 8, 9, 12, 18])
@pytest.mark.parametrize("feet", [(3, 3), (8, 4), (12, 3), (16, 4), (20, 2.5)])
def test_inches_in_beds_of_feet(inches, feet):
    length, width = feet
    count = int(length * 12 // inches) * int(width * 12 // inches)
    assert (
        lay_rows(shapely.box(0, 0, length * FOOT, width * FOOT), inches * INCH, inches * INCH).count == count
    )


@pytest.mark.parametrize("tenths", range(0, 1800, 37))
def test_a_turned_bed_with_rounded_coordinates_holds_as_much(tenths):
    angle = math.radians(tenths / 10)
    cos, sin = math.cos(angle), math.sin(angle)
    corners = [(0, 0), (2.4, 0), (2.4, 1.2), (0, 1.2)]
    drawn = shapely.Polygon([(round(cos * x - sin * y, 6), round(sin * x + cos * y, 6)) for x, y in corners])
    assert lay_rows(drawn, 0.3, 0.3, direction=tenths / 10).count == 8 * 4
