"""Footprints, heights and materials of supports."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from making import bed, rectangle

from planner.garden import Structure, Support
from planner.ground.stations import NO_LAYOUT, lay
from planner.ground.supports import (
    ARCH_CLEAR,
    DRIVEN,
    arch_of,
    beside,
    built_support,
    stand_along,
    support_opacity,
)

LINE = shapely.LineString([(0, 0), (4, 0)])
PLOT = shapely.box(0, 0, 4, 1.2)
KINDS = ("sticks", "stake", "cage", "net", "frame", "arch", "tower", "wire")


def pieces(stand, name):
    return {(one.amount, one.length) for one in stand.materials if one.name == name}


def amount(stand, name):
    return sum(one.amount for one in stand.materials if one.name == name)


@pytest.mark.parametrize(
    ("kind", "width"), [("net", 0.05), ("wire", 0.05), ("sticks", 0.15), ("frame", 0.60)]
)
def test_what_stands_along_a_line_is_a_strip(kind, width):
    stand = stand_along(kind, [LINE], 1.8)
    assert stand.ground.equals(shapely.box(0, -width / 2, 4, width / 2))
    assert stand.over.equals(stand.ground)
    assert stand.height == 1.8
    assert stand.clear_height == 0.0


def test_a_width_given_by_hand_counts():
    assert stand_along("frame", [LINE], 1.8, width=0.9).ground.area == pytest.approx(3.6)


def test_a_bent_line_has_one_footprint():
    bent = shapely.LineString([(0, 0), (2, 0), (2, 3)])
    stand = stand_along("net", [bent], 1.5)
    assert stand.ground.geom_type == "Polygon"
    assert stand.ground.area == pytest.approx(5 * 0.05, rel=0.02)


def test_posts_net_and_string_of_a_net():
    stand = stand_along("net", [LINE], 1.8, spacing=2.0)
    assert pieces(stand, "post") == {(3, 1.8 + DRIVEN)}
    assert amount(stand, "net") == pytest.approx(4 * 1.8)
    assert amount(stand, "string") == pytest.approx(8.0)
    assert amount(stand_along("net", [LINE], 1.8, spacing=1.5), "post") == 4  # three fields of 1.33 m
    assert amount(stand_along("net", [LINE, LINE], 1.8, spacing=2.0), "post") == 6


def test_a_stake_six_feet_long_driven_one_foot_leaves_five():
    """Minnesota extension, Trellises and cages: 1.52 m usable of a 1.83 m stake."""
    (stake,) = pieces(stand_along("stake", [LINE], 1.52, stations=np.array([[1.0, 0.0]])), "stake")
    assert stake == (1, pytest.approx(1.83, abs=0.02))


def test_wires_one_above_the_other():
    stand = stand_along("wire", [LINE], 1.6, spacing=2.0)
    assert amount(stand, "wire") == pytest.approx(4 * 4)


def test_the_poles_of_a_frame_are_its_slant():
    stand = stand_along("frame", [LINE], 2.0, spacing=1.0, width=1.2)
    lengths = {round(length, 2): count for count, length in pieces(stand, "pole")}
    assert lengths == {round(math.hypot(2.0, 0.6) + DRIVEN, 2): 10, 4.0: 1}


def test_an_arch_has_two_feet_and_a_span_over_the_path():
    stand = stand_along("arch", [shapely.LineString([(0, 0), (1.2, 0)])], 2.4, width=1.0)
    assert stand.over.equals(shapely.box(0, -0.5, 1.2, 0.5))
    assert [foot.bounds for foot in stand.feet] == [
        (0, -0.5, pytest.approx(0.1), 0.5),
        (pytest.approx(1.1), -0.5, 1.2, 0.5),
    ]
    assert stand.clear_span == pytest.approx(1.0)
    assert stand.clear_height == ARCH_CLEAR
    (hoop,) = pieces(stand, "hoop")
    assert hoop[0] == 3  # a metre along the path, half a metre apart
    legs_and_half_ellipse = 2 * 2.1 + math.pi * math.sqrt((0.6**2 + 0.3**2) / 2)
    assert hoop[1] == pytest.approx(legs_and_half_ellipse + 2 * DRIVEN, rel=0.01)
    assert amount(stand, "net") == pytest.approx((hoop[1] - 2 * DRIVEN) * 1.0, abs=0.01)


def test_several_arches_in_a_row():
    lines = [shapely.LineString([(0, y), (1.2, y)]) for y in (0, 2, 4)]
    stand = stand_along("arch", lines, 2.4)
    assert len(stand.feet) == 6
    assert amount(stand, "hoop") == 9
    assert len(shapely.get_parts(stand.over)) == 3


def test_a_low_arch_has_no_more_clear_height_than_height():
    assert stand_along("arch", [LINE], 1.5).clear_height == 1.5


def test_an_arch_drawn_as_a_structure():
    arch = Structure(
        id="s1", kind="arch", outline=rectangle(1.4, 1.0, center=(5, 3), turn=90), height=2.3, foot=0.2
    )
    stand = arch_of(arch)
    assert stand.over.symmetric_difference(shapely.box(4.5, 2.3, 5.5, 3.7)).area < 1e-9
    assert stand.feet[0].symmetric_difference(shapely.box(4.5, 2.3, 5.5, 2.5)).area < 1e-9
    assert stand.clear_span == pytest.approx(1.0)
    assert stand.clear_height == 2.1
    assert stand.materials


def test_a_tower_is_round():
    stand = stand_along("tower", [LINE], 2.0, spacing=2.0, width=0.8)
    assert len(shapely.get_parts(stand.ground)) == 2
    assert stand.ground.area == pytest.approx(2 * math.pi * 0.4**2, rel=0.01)
    assert amount(stand, "pole") == 12


# -- of a planting ------------------------------------------------------------------------------


def test_a_planting_s_nets_follow_its_rows():
    layout = lay(PLOT, 0.2, 0.6)
    stand = built_support(Support(kind="net", height=1.5), layout, PLOT)
    assert len(stand.lines) == layout.row_count == 2
    assert shapely.distance(shapely.points(layout.points), stand.ground).max() < 1e-9


def test_stakes_stand_at_every_plant():
    layout = lay(PLOT, 0.5, 0.6)
    stand = built_support(Support(kind="stake"), layout, PLOT)
    assert amount(stand, "stake") == layout.count == 16
    assert len(shapely.get_parts(stand.ground)) == 16


@pytest.mark.parametrize(("rows", "frames"), [(2, 1), (4, 2), (5, 3)])
def test_a_frame_stands_over_two_rows(rows, frames):
    plot = shapely.box(0, 0, 4, 1.0 * rows)
    layout = lay(plot, 0.2, 1.0)
    stand = built_support(Support(kind="frame", height=2.0), layout, plot)
    assert len(shapely.get_parts(stand.over)) == frames
    assert len(stand.lines) == rows
    first = shapely.get_parts(stand.over)[0]
    assert sorted(first.bounds[2 * i + 1] for i in (0, 1)) == pytest.approx([0.5, 1.5])


def test_towers_and_arches_stand_along_the_middle_of_the_plot():
    stand = built_support(Support(kind="tower", spacing=2.0), lay(PLOT, 0.3, 0.3), PLOT)
    feet = sorted((part.centroid.x, part.centroid.y) for part in shapely.get_parts(stand.ground))
    assert np.array(feet) == pytest.approx(np.array([[1.0, 0.6], [3.0, 0.6]]))
    arch = built_support(Support(kind="arch", height=2.3), lay(PLOT, 0.3, 0.3), PLOT)
    assert arch.clear_span == pytest.approx(3.8)


@pytest.mark.parametrize("kind", KINDS)
def test_plants_without_rows_have_a_support_along_the_middle(kind):
    stand = built_support(Support(kind=kind), NO_LAYOUT, PLOT)
    if kind in ("stake", "cage"):  # there are no plants to stand at
        assert stand.ground.is_empty
    else:
        assert stand.ground.intersects(shapely.LineString([(0, 0.6), (4, 0.6)]))


@pytest.mark.parametrize("kind", KINDS)
def test_no_line_no_support(kind):
    stand = stand_along(kind, [], 1.8)
    assert stand.ground.is_empty
    assert stand.over.is_empty
    assert stand.materials == ()


@pytest.mark.parametrize("kind", KINDS)
def test_foliage_closes_over_the_bare_frame(kind):
    shares = [support_opacity(kind, leafed) for leafed in (-1.0, 0.0, 0.3, 0.9, 1.0, 2.0)]
    assert shares == sorted(shares)
    assert shares[0] == shares[1] < shares[2]
    assert shares[-1] == shares[-2] == 0.8


def test_a_stand_moves_with_its_bed():
    ground = bed(outline=rectangle(4, 1.2, center=(10, 5), turn=90))
    stand = stand_along("arch", [shapely.LineString([(-1, 0), (1, 0)])], 2.3).on_plan(ground.outline)
    assert stand.over.symmetric_difference(shapely.box(9.5, 4, 10.5, 6)).area < 1e-9
    assert stand.feet[0].bounds == pytest.approx((9.5, 4.0, 10.5, 4.1))
    assert shapely.get_coordinates(stand.lines[0]) == pytest.approx(np.array([[10, 4], [10, 6]]))


# -- stations beside a line ---------------------------------------------------------------------


def test_stations_on_one_side_and_on_both():
    left = beside(LINE, 0.5, 0.1)
    assert left[:, 0] == pytest.approx(np.arange(0.25, 4, 0.5))
    assert left[:, 1] == pytest.approx(np.full(8, 0.1))
    both = beside(LINE, 0.5, 0.1, sides=2)
    assert len(both) == 16
    assert both[8:, 1] == pytest.approx(np.full(8, -0.1))


def test_what_is_left_over_is_shared_at_both_ends():
    points = beside(LINE, 0.7, 0.0)
    assert len(points) == 5
    assert points[0, 0] == pytest.approx(4 - points[-1, 0])
    assert len(beside(shapely.LineString([(0, 0), (2.4, 0)]), 0.3, 0.0)) == 8  # 2.4 / 0.3 in binary is less


def test_a_line_too_short_for_a_plant():
    assert beside(LINE, 5.0, 0.1).shape == (0, 2)


def test_stations_keep_their_distance_round_a_bend():
    bent = shapely.LineString([(0, 0), (2, 0), (2, 3)])
    for point in beside(bent, 0.33, 0.12):
        assert shapely.Point(point).distance(bent) == pytest.approx(0.12, abs=0.04)
