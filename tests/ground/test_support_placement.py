"""Problems with the place of a support."""

from __future__ import annotations

import pytest
import shapely
from making import bed, rectangle

from planner.garden import Structure
from planner.ground.built_support import build_along, build_arch
from planner.ground.paths import walkable
from planner.ground.shapes import plan_polygon
from planner.ground.support_placement import support_problems

BEDS = [bed("a", rectangle(4, 2, center=(-2.5, 0))), bed("b", rectangle(4, 2, center=(2.5, 0)))]  # 1 m apart
SHAPES = [plan_polygon(one.outline) for one in BEDS]
SITE = shapely.box(-6, -4, 6, 4)
PATHS = walkable(BEDS, [], SITE)


def problem_kinds(support, beds=SHAPES, paths=PATHS, width=0.45, **fields):
    return [one.kind for one in support_problems(support, beds, paths, width, **fields)]


def along(kind, start, end, height=1.8, **fields):
    return build_along(kind, [shapely.LineString([start, end])], height, **fields)


def arch(span=1.4, center=(0, 0), **fields):
    shape = rectangle(span, 1.0, center=center)
    return build_arch(
        Structure(id="s1", kind="arch", outline=shape, **{"height": 2.4, "foot": 0.2, **fields})
    )


@pytest.mark.parametrize("kind", ["sticks", "net", "frame", "wire", "tower"])
def test_a_support_in_its_bed_has_no_problem(kind):
    assert problem_kinds(along(kind, (-4.2, 0), (-0.8, 0))) == []


def test_an_arch_from_bed_to_bed_has_no_problem():
    assert problem_kinds(arch()) == []


def test_a_support_beyond_its_bed():
    (one,) = support_problems(along("frame", (-4.2, 0.9), (-0.8, 0.9)), SHAPES[:1], PATHS, 0.45)
    assert one.kind == "outside"
    assert one.where.area == pytest.approx(3.4 * 0.2)
    assert one.text == "0.68 m² of the A-frame stand outside its bed; move or narrow it"
    assert problem_kinds(along("frame", (-4.2, 0.9), (-0.8, 0.9)), permitted=shapely.box(-5, 1, 5, 2)) == []


def test_a_support_longer_than_its_bed():
    (one,) = support_problems(along("net", (-4.5, 0), (-0.3, 0)), SHAPES[:1], PATHS, 0.45)
    assert one.kind == "longer"
    assert one.text == "The net is 4.20 m long and its bed 4.00 m; shorten it by 0.20 m"


def test_a_support_across_a_path():
    (one,) = support_problems(along("net", (-2, 0), (2, 0)), SHAPES, PATHS, 0.45)
    assert one.kind == "across"
    assert one.where.symmetric_difference(shapely.box(-0.5, -0.025, 0.5, 0.025)).area < 1e-6


def test_an_arch_too_low_over_the_path():
    low = arch(clear_height=1.8)
    (one,) = support_problems(low, SHAPES, PATHS, 0.45)
    assert one.kind == "low"
    assert (
        one.text == "The arch leaves 1.80 m of height over the path; 2.03 m are wanted, so raise it by 0.23 m"
    )
    assert problem_kinds(low, clear_height=1.8) == []


def test_an_arch_too_narrow_for_the_path():
    assert problem_kinds(arch(), width=1.2) == ["tight"]


def test_feet_in_the_path_leave_too_little_between():
    narrow = arch(span=0.9, foot=0.25)  # feet are 5 cm off either bed
    kinds = problem_kinds(narrow, width=0.6)
    assert "outside" in kinds
    assert "tight" in kinds


def test_an_arch_whose_feet_share_a_bed():
    (one,) = support_problems(arch(span=2.0, center=(-2.5, 0)), SHAPES, PATHS, 0.45)
    assert one.kind == "one bed"


@pytest.mark.parametrize(("center", "kinds"), [(-0.72, ["one bed"]), (-0.68, [])])
def test_a_foot_is_in_the_bed_that_holds_more_than_half_of_it(center, kinds):
    found = problem_kinds(arch(span=0.5, center=(center, 0), foot=0.1), clear_height=0, width=0.1)
    assert [kind for kind in found if kind == "one bed"] == kinds


def test_a_support_on_permitted_ground_leaves_the_path_its_width():
    edge = shapely.box(-0.5, -1, -0.1, 1)
    net = along("net", (-0.4, -0.8), (-0.4, 0.8))
    assert problem_kinds(net, permitted=edge) == []
    tight = along("net", (-0.15, -0.8), (-0.15, 0.8))
    (one,) = support_problems(tight, SHAPES, PATHS, 0.75, permitted=edge)
    assert one.kind == "beside"
    assert one.text == "The net leaves 0.62 m of path beside it; 0.75 m are wanted"


def test_a_path_that_was_narrow_before_is_not_the_support_s_fault():
    close = [
        bed("a", rectangle(4, 2, center=(-2.15, 0))),
        bed("b", rectangle(4, 2, center=(2.15, 0))),
    ]  # 0.3 m
    shapes = [plan_polygon(one.outline) for one in close]
    support = along("frame", (-4.0, -0.9), (-0.6, -0.9))
    assert (
        problem_kinds(support, shapes, walkable(close, [], SITE), permitted=shapely.box(-6, -4, 6, -1)) == []
    )
