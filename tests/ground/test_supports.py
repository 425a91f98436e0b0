"""Footprints, heights and materials of supports."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from making import bed, rectangle

from planner.crops.catalogue import load_catalogue
from planner.garden import Structure, Support
from planner.garden.units import FOOT, INCH
from planner.ground.built_support import ARCH_CLEAR, build_along, build_arch, support_opacity
from planner.ground.layout import NO_LAYOUT
from planner.ground.scatter import stations_beside
from planner.ground.stations import lay_rows
from planner.ground.support_materials import (
    DRIVEN,
    FRAME_POLE_SPACING,
    POST_SPACING,
    RAIL_POST_SPACING,
    TALL_NET_DRIVEN,
    WIRE_FIXING,
    line_materials,
    post_depth,
    wires_of,
)
from planner.ground.supports import built_support, nets_lie_level

LINE = shapely.LineString([(0, 0), (4, 0)])
PLOT = shapely.box(0, 0, 4, 1.2)
KINDS = ("sticks", "stake", "cage", "net", "frame", "arch", "tower", "wire", "strings", "panel")


def pieces(support, name):
    return {(one.amount, one.length) for one in support.materials if one.name == name}


def amount(support, name):
    return sum(one.amount for one in support.materials if one.name == name)


@pytest.mark.parametrize(
    ("kind", "width"), [("net", 0.05), ("wire", 0.05), ("sticks", 0.15), ("frame", 0.60)]
)
def test_a_support_along_a_line_is_a_strip(kind, width):
    support = build_along(kind, [LINE], 1.8)
    assert support.ground.equals(shapely.box(0, -width / 2, 4, width / 2))
    assert support.over.equals(support.ground)
    assert support.height == 1.8
    assert support.clear_height == 0.0


def test_a_width_given_by_hand_counts():
    assert build_along("frame", [LINE], 1.8, width=0.9).ground.area == pytest.approx(3.6)


def test_a_bent_line_has_one_footprint():
    bent = shapely.LineString([(0, 0), (2, 0), (2, 3)])
    support = build_along("net", [bent], 1.5)
    assert support.ground.geom_type == "Polygon"
    assert support.ground.area == pytest.approx(5 * 0.05, rel=0.02)


def test_posts_net_and_string_of_a_net():
    support = build_along("net", [LINE], 1.8, spacing=2.0)
    assert pieces(support, "post") == {(3, 1.8 + TALL_NET_DRIVEN)}
    assert amount(support, "net") == pytest.approx(4 * 1.8)
    assert amount(support, "string") == pytest.approx(8.0)
    assert amount(build_along("net", [LINE], 1.8, spacing=1.5), "post") == 4  # three fields of 1.33 m
    assert amount(build_along("net", [LINE, LINE], 1.8, spacing=2.0), "post") == 6


def test_a_stake_six_feet_long_driven_one_foot_leaves_five():
    """Minnesota extension, Trellises and cages: 1.52 m usable of a 1.83 m stake."""
    (stake,) = pieces(build_along("stake", [LINE], 1.52, stations=np.array([[1.0, 0.0]])), "stake")
    assert stake == (1, pytest.approx(1.83, abs=0.02))


def test_wires_one_above_the_other():
    support = build_along("wire", [LINE], 1.6, spacing=2.0)
    assert amount(support, "wire") == pytest.approx(3 * (4 + WIRE_FIXING))


def test_posts_and_wires_as_published():
    """Practice as recalled in table 16: depth, distance and wires by kind of support."""
    (post,) = pieces(build_along("wire", [LINE], 5 * FOOT), "post")
    assert post[1] == pytest.approx(8 * FOOT, abs=0.35), "end posts of 8 ft"
    assert post[1] - 5 * FOOT == pytest.approx(2 * FOOT, abs=0.02), "2 ft deep"
    assert wires_of(5 * FOOT) in (2, 3), "at 2 1/2 and 5 ft"
    (post,) = pieces(build_along("strings", [LINE], 6.5 * FOOT), "post")
    assert 18 * INCH - 0.01 <= post[1] - 6.5 * FOOT <= 24 * INCH, "rail posts 18 to 24 in deep"
    assert 8 * FOOT - 0.05 <= RAIL_POST_SPACING <= 10 * FOOT
    assert 6 * FOOT - 0.05 <= POST_SPACING <= 8 * FOOT, "pea net 6 to 8 ft"
    assert 12 * INCH - 0.01 <= post_depth("net", 3 * FOOT) <= post_depth("net", 6 * FOOT) <= 18 * INCH
    assert 9 * INCH - 0.01 <= FRAME_POLE_SPACING <= 12 * INCH


@pytest.mark.parametrize(("plants", "least", "most"), [(12, 12, 14), (4, 8, 8), (60, 32, 36), (None, 32, 36)])
def test_a_frame_has_a_pole_for_each_plant_no_closer_than_nine_inches_and_stands(plants, least, most):
    materials = line_materials("frame", [3.6], 2.0, None, 0.6, plants)
    legs = next(one.amount for one in materials if one.length != 3.6)
    assert least <= legs <= most
    assert legs % 2 == 0


def test_towers_are_as_many_as_their_plants_need():
    layout = lay_rows(shapely.box(0, 0, 6, 0.5), 0.5, 0.5)
    assert layout.count == 12
    support = built_support(Support(kind="tower"), layout, shapely.box(0, 0, 6, 0.5))
    assert amount(support, "pole") == 12
    assert len(shapely.get_parts(support.ground)) == 2


def test_a_net_over_flowers_lies_level_with_posts_at_its_corners_and_sides():
    plot = shapely.box(0, 0, 2.4, 1.2)
    layout = lay_rows(plot, 0.25, 0.25)
    support = built_support(Support(kind="net", height=0.4), layout, plot, level=True)
    assert support.level == ((2.4, 1.2),)
    assert pieces(support, "post") == {(6, 0.4 + DRIVEN)}
    assert amount(support, "net") == pytest.approx(2.4 * 1.2)
    upright = built_support(Support(kind="net", height=0.4), layout, plot)
    assert support.over.equals(upright.over)
    assert not upright.level


def test_nets_of_flowers_that_do_not_climb_lie_level():
    crops = load_catalogue().crops
    names = ("snapdragon", "zinnia", "cosmos", "sweet_pea", "pea", "cucumber", "tomato")
    assert [key for key in names if nets_lie_level(crops[key])] == ["snapdragon", "zinnia", "cosmos"]


def test_the_poles_of_a_frame_are_its_slant():
    support = build_along("frame", [LINE], 2.0, spacing=1.0, width=1.2)
    lengths = {round(length, 2): count for count, length in pieces(support, "pole")}
    assert lengths == {round(math.hypot(2.0, 0.6) + DRIVEN, 2): 10, 4.0: 1}


def test_an_arch_has_two_feet_and_a_span_over_the_path():
    support = build_along("arch", [shapely.LineString([(0, 0), (1.2, 0)])], 2.4, width=1.0)
    assert support.over.equals(shapely.box(0, -0.5, 1.2, 0.5))
    assert [foot.bounds for foot in support.feet] == [
        (0, -0.5, pytest.approx(0.1), 0.5),
        (pytest.approx(1.1), -0.5, 1.2, 0.5),
    ]
    assert support.clear_span == pytest.approx(1.0)
    assert support.clear_height == ARCH_CLEAR
    (hoop,) = pieces(support, "hoop")
    assert hoop[0] == 3  # a metre along the path, half a metre apart
    legs_and_half_ellipse = 2 * 2.1 + math.pi * math.sqrt((0.6**2 + 0.3**2) / 2)
    assert hoop[1] == pytest.approx(legs_and_half_ellipse + 2 * DRIVEN, rel=0.01)
    assert amount(support, "net") == pytest.approx((hoop[1] - 2 * DRIVEN) * 1.0, abs=0.01)


def test_several_arches_in_a_row():
    lines = [shapely.LineString([(0, y), (1.2, y)]) for y in (0, 2, 4)]
    support = build_along("arch", lines, 2.4)
    assert len(support.feet) == 6
    assert amount(support, "hoop") == 9
    assert len(shapely.get_parts(support.over)) == 3


def test_a_low_arch_has_no_more_clear_height_than_height():
    assert build_along("arch", [LINE], 1.5).clear_height == 1.5


def test_an_arch_drawn_as_a_structure():
    arch = Structure(
        id="s1", kind="arch", outline=rectangle(1.4, 1.0, center=(5, 3), turn=90), height=2.3, foot=0.2
    )
    support = build_arch(arch)
    assert support.over.symmetric_difference(shapely.box(4.5, 2.3, 5.5, 3.7)).area < 1e-9
    assert support.feet[0].symmetric_difference(shapely.box(4.5, 2.3, 5.5, 2.5)).area < 1e-9
    assert support.clear_span == pytest.approx(1.0)
    assert support.clear_height == 2.1
    assert support.materials


def test_a_tower_is_round():
    support = build_along("tower", [LINE], 2.0, spacing=2.0, width=0.8)
    assert len(shapely.get_parts(support.ground)) == 2
    assert support.ground.area == pytest.approx(2 * math.pi * 0.4**2, rel=0.01)
    assert amount(support, "pole") == 12


def test_towers_are_two_diameters_apart_by_default():
    support = build_along("tower", [LINE], 2.0, width=0.8)
    middles = sorted(part.centroid.x for part in shapely.get_parts(support.ground))
    assert middles == pytest.approx([1.2, 2.8])


# -- of a planting ------------------------------------------------------------------------------


def test_a_planting_s_nets_follow_its_rows():
    layout = lay_rows(PLOT, 0.2, 0.6)
    support = built_support(Support(kind="net", height=1.5), layout, PLOT)
    assert len(support.lines) == layout.row_count == 2
    assert shapely.distance(shapely.points(layout.points), support.ground).max() < 1e-9


def test_stakes_are_at_every_plant():
    layout = lay_rows(PLOT, 0.5, 0.6)
    support = built_support(Support(kind="stake"), layout, PLOT)
    assert amount(support, "stake") == layout.count == 16
    assert len(shapely.get_parts(support.ground)) == 16


@pytest.mark.parametrize(("rows", "frames"), [(2, 1), (4, 2), (5, 3)])
def test_a_frame_is_over_two_rows(rows, frames):
    plot = shapely.box(0, 0, 4, 1.0 * rows)
    layout = lay_rows(plot, 0.2, 1.0)
    support = built_support(Support(kind="frame", height=2.0), layout, plot)
    assert len(shapely.get_parts(support.over)) == frames
    assert len(support.lines) == rows
    first = shapely.get_parts(support.over)[0]
    assert sorted(first.bounds[2 * i + 1] for i in (0, 1)) == pytest.approx([0.5, 1.5])


def test_a_row_in_pieces_has_a_frame_of_its_own():
    plot = shapely.box(0, 0, 4, 2).difference(shapely.box(1.5, 1, 2.5, 2))
    layout = lay_rows(plot, 0.2, 1.0)
    assert [row.index for row in layout.rows] == [0, 1, 1]
    support = built_support(Support(kind="frame", height=2.0), layout, plot)
    assert len(shapely.get_parts(support.over)) == 3
    assert support.over.area == pytest.approx((4.0 + 1.5 + 1.5) * 0.6, rel=1e-3)


def test_towers_and_arches_follow_the_middle_of_the_plot():
    support = built_support(Support(kind="tower", spacing=2.0), lay_rows(PLOT, 0.3, 0.3), PLOT)
    feet = sorted((part.centroid.x, part.centroid.y) for part in shapely.get_parts(support.ground))
    assert np.array(feet) == pytest.approx(np.array([[1.0, 0.6], [3.0, 0.6]]))
    arch = built_support(Support(kind="arch", height=2.3), lay_rows(PLOT, 0.3, 0.3), PLOT)
    assert arch.clear_span == pytest.approx(3.8)


@pytest.mark.parametrize("kind", KINDS)
def test_plants_without_rows_have_a_support_along_the_middle(kind):
    support = built_support(Support(kind=kind), NO_LAYOUT, PLOT)
    if kind in ("stake", "cage"):  # they need plants
        assert support.ground.is_empty
    else:
        assert support.ground.intersects(shapely.LineString([(0, 0.6), (4, 0.6)]))


@pytest.mark.parametrize("kind", KINDS)
def test_no_line_no_support(kind):
    support = build_along(kind, [], 1.8)
    assert support.ground.is_empty
    assert support.over.is_empty
    assert support.materials == ()


@pytest.mark.parametrize("kind", KINDS)
def test_foliage_closes_over_the_bare_frame(kind):
    shares = [support_opacity(kind, leafed) for leafed in (-1.0, 0.0, 0.3, 0.9, 1.0, 2.0)]
    assert shares == sorted(shares)
    assert shares[0] == shares[1] < shares[2]
    assert shares[-1] == shares[-2] == 0.8


def test_a_support_moves_with_its_bed():
    ground = bed(outline=rectangle(4, 1.2, center=(10, 5), turn=90))
    support = build_along("arch", [shapely.LineString([(-1, 0), (1, 0)])], 2.3).on_plan(ground.outline)
    assert support.over.symmetric_difference(shapely.box(9.5, 4, 10.5, 6)).area < 1e-9
    assert support.feet[0].bounds == pytest.approx((9.5, 4.0, 10.5, 4.1))
    assert shapely.get_coordinates(support.lines[0]) == pytest.approx(np.array([[10, 4], [10, 6]]))


# -- stations beside a line ---------------------------------------------------------------------


def test_stations_on_one_side_and_on_both():
    left = stations_beside(LINE, 0.5, 0.1)
    assert left[:, 0] == pytest.approx(np.arange(0.25, 4, 0.5))
    assert left[:, 1] == pytest.approx(np.full(8, 0.1))
    both = stations_beside(LINE, 0.5, 0.1, sides=2)
    assert len(both) == 16
    assert both[8:, 1] == pytest.approx(np.full(8, -0.1))


def test_what_is_left_over_is_shared_at_both_ends():
    points = stations_beside(LINE, 0.7, 0.0)
    assert len(points) == 5
    assert points[0, 0] == pytest.approx(4 - points[-1, 0])
    assert (
        len(stations_beside(shapely.LineString([(0, 0), (2.4, 0)]), 0.3, 0.0)) == 8
    )  # 2.4 / 0.3 in binary is less


def test_a_line_too_short_for_a_plant():
    assert stations_beside(LINE, 5.0, 0.1).shape == (0, 2)


def test_stations_keep_their_distance_round_a_bend():
    bent = shapely.LineString([(0, 0), (2, 0), (2, 3)])
    for point in stations_beside(bent, 0.33, 0.12):
        assert shapely.Point(point).distance(bent) == pytest.approx(0.12, abs=0.04)


def test_a_level_net_over_a_plot_beyond_its_bed_is_none():
    support = built_support(
        Support(kind="net", height=0.4),
        lay_rows(shapely.Polygon(), 0.25, 0.25),
        shapely.Polygon(),
        level=True,
    )
    assert support.level == ()
    assert amount(support, "net") == 0
