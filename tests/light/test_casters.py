"""Casters of structures, beds, plantings and supports."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
import shapely
from making import bed, garden, rectangle

from planner.garden import Circle, Polygon, Structure
from planner.ground.built_support import build_along
from planner.light.beams import beams
from planner.light.casters import (
    Caster,
    bed_casters,
    foliage_opacity,
    opacity_on,
    planting_casters,
    prisms,
    structure_casters,
    support_casters,
)
from planner.light.hours import hours_at
from planner.light.place import Place
from planner.light.sample_days import on_day
from planner.plan import Plan

MAY, JANUARY = dt.date(2026, 5, 20), dt.date(2026, 1, 20)
IN_LEAF = (0.3, 0.3, 0.4, 0.6, 0.9, 0.9, 0.9, 0.9, 0.9, 0.7, 0.4, 0.3)


def structure(kind="wall", outline=None, height=2.0, **fields):
    return Structure(id="s1", kind=kind, outline=outline or rectangle(4, 0.3), height=height, **fields)


@pytest.mark.parametrize("kind", ["wall", "fence", "hedge", "shed", "other", "glasshouse", "tunnel"])
def test_a_structure_is_one_prism_on_the_ground(kind):
    (caster,) = structure_casters(structure(kind, rectangle(4, 0.3, center=(3, 4), turn=90), opacity=(0.6,)), MAY)  # fmt: skip
    assert caster.shape.equals_exact(shapely.box(2.85, 2, 3.15, 6), 1e-9) or caster.shape.equals(
        shapely.box(2.85, 2, 3.15, 6)
    )
    assert (caster.base, caster.top, caster.opacity) == (0.0, 2.0, 0.6)


def test_a_tree_in_leaf_is_not_a_tree_in_january():
    tree = structure("tree", Circle(radius=1.5, center=(2, 2)), 5.0, opacity=IN_LEAF)
    assert opacity_on(tree, MAY) == 0.9
    assert opacity_on(tree, JANUARY) == 0.3
    (caster,) = structure_casters(tree, JANUARY)
    assert caster.opacity == 0.3
    assert caster.shape.area == pytest.approx(np.pi * 1.5**2, rel=2e-3)
    assert len(caster.shape.exterior.coords) < 150


def test_a_clear_stem_lifts_the_crown():
    tree = structure("tree", Circle(radius=1.5), 5.0)
    (caster,) = structure_casters(tree, MAY, stem=1.8)
    assert (caster.base, caster.top) == (1.8, 5.0)
    assert structure_casters(tree, MAY, stem=5.0) == ()
    assert structure_casters(structure("wall"), MAY, stem=1.8)[0].base == 0.0


def test_a_tree_over_a_bed_lets_the_low_sun_in_below_its_crown():
    tree = structure("tree", Circle(radius=2.0), 6.0)
    place = Place(52.0)
    under = {stem: hours_at([(0, 0)], place, on_day(MAY), lambda _d, s=stem: structure_casters(tree, MAY, s))[0] for stem in (0.0, 1.0, 3.0)}  # fmt: skip
    assert under[0.0] == pytest.approx(0.0, abs=1e-6)
    assert 0.0 < under[1.0] < under[3.0] < beams(place, MAY).total


def test_an_arch_is_two_feet_and_its_span():
    arch = structure("arch", rectangle(2.0, 1.0), 2.4, foot=0.2, clear_height=2.1, opacity=(0.5,))
    left, right, span = structure_casters(arch, MAY)
    assert left.shape.equals(shapely.box(-1, -0.5, -0.8, 0.5))
    assert right.shape.equals(shapely.box(0.8, -0.5, 1, 0.5))
    assert span.shape.equals(shapely.box(-1, -0.5, 1, 0.5))
    assert (left.base, left.top, span.base, span.top) == (0.0, 2.1, 2.1, 2.4)
    assert {one.key for one in (left, right, span)} == {"s1"}


def test_an_arch_lower_than_its_clear_height_has_feet_only():
    assert len(structure_casters(structure("arch", rectangle(2, 1), 1.9), MAY)) == 2


def test_a_structure_without_height_casts_nothing():
    for kind in ("wall", "tree", "arch"):
        assert structure_casters(structure(kind, rectangle(2, 1), 0.0), MAY) == ()
    assert structure_casters(structure(opacity=(0.0,)), MAY) == ()


def test_only_raised_beds_cast():
    assert bed_casters(bed()) == ()
    (body,) = bed_casters(bed(kind="raised", height=0.4))
    assert (body.key, body.base, body.top, body.opacity) == ("b1", 0.0, 0.4, 1.0)


def test_plants_are_above_the_soil_of_their_bed():
    ground = bed(outline=rectangle(4, 1, center=(10, 5), turn=90), kind="raised", height=0.4)
    (caster,) = planting_casters(
        "p1", "maize", ground.outline, ground.height, shapely.box(-2, -0.5, 0, 0.5), 1.5, 0.7
    )
    assert caster.shape.equals_exact(shapely.box(9.5, 3, 10.5, 5), 1e-9) or caster.shape.symmetric_difference(shapely.box(9.5, 3, 10.5, 5)).area < 1e-9  # fmt: skip
    assert (caster.base, caster.top, caster.opacity) == (0.4, 1.9, 0.7)
    assert (
        planting_casters("p1", "maize", ground.outline, ground.height, shapely.box(-2, -0.5, 0, 0.5), 0.0)
        == ()
    )
    assert planting_casters("p1", "maize", ground.outline, ground.height, shapely.Polygon(), 1.0) == ()


def test_a_plot_in_pieces_is_one_caster_a_piece():
    two = shapely.MultiPolygon([shapely.box(0, 0, 1, 1), shapely.box(3, 0, 4, 1)])
    assert [caster.key for caster in prisms("p", "beans", two, 0, 1)] == ["p", "p"]
    assert prisms("p", "beans", shapely.LineString([(0, 0), (1, 1)]), 0, 1) == ()


def test_foliage_closes_as_plants_spread():
    grown = [foliage_opacity(20, spread, 4.0) for spread in (0.0, 0.1, 0.3, 0.6, 2.0)]
    assert grown == sorted(grown)
    assert grown[0] == 0.0
    assert grown[-1] == 0.85
    assert foliage_opacity(5, 0.3, 0.0) == 0.0


def test_all_casters_of_a_garden():
    tree = Structure(id="s2", kind="tree", outline=Circle(radius=1), height=4, stem=1.5)
    things = Plan(
        garden(bed(), bed("b2", kind="raised", height=0.3), structures=(structure(), tree)), MAY.year
    ).casters(MAY)
    assert [(one.key, one.base, one.top) for one in things] == [
        ("s1", 0, 2.0),
        ("s2", 1.5, 4.0),
        ("b2", 0, 0.3),
    ]


def test_a_concave_structure_keeps_its_shape():
    ring = ((0, 0), (5, 0), (5, 1), (1, 1), (1, 4), (0, 4))
    (caster,) = structure_casters(structure("hedge", Polygon(points=ring)), MAY)
    assert isinstance(caster, Caster)
    assert caster.shape.equals(shapely.Polygon(ring))


# -- supports -----------------------------------------------------------------------------------


def test_a_support_is_leafy_up_to_its_plants_and_bare_above():
    ground = bed(kind="raised", height=0.2)
    net = build_along("net", [shapely.LineString([(-2, 0), (2, 0)])], 1.8)
    leafy, bare = support_casters("p", "peas", ground.outline, ground.height, net, 1.0, 0.5)
    assert (leafy.base, leafy.top, leafy.opacity) == (0.2, 1.2, pytest.approx(0.45))
    assert (bare.base, bare.top, bare.opacity) == (1.2, 2.0, pytest.approx(0.10))
    (grown,) = support_casters(
        "p", "peas", ground.outline, ground.height, net, 3.0, 1.0
    )  # hangs down over the top
    assert (grown.base, grown.top, grown.opacity) == (0.2, 2.0, 0.8)
    (empty,) = support_casters("p", "peas", ground.outline, ground.height, net, 0.0, 0.0)
    assert (empty.base, empty.top, empty.opacity) == (0.2, 2.0, 0.10)


def test_under_an_arch_there_are_only_its_feet():
    arch = build_along("arch", [shapely.LineString([(-1, 0), (1, 0)])], 2.4)
    casters = support_casters("p", "beans", bed().outline, 0.0, arch, 2.3, 1.0)
    low = [one for one in casters if one.base < 2.1 - 1e-9]
    high = [one for one in casters if one.base >= 2.1 - 1e-9]
    assert sum(one.shape.area for one in low) == pytest.approx(2 * 0.1)
    assert {(round(one.base, 2), round(one.top, 2), one.opacity) for one in high} == {
        (2.1, 2.3, 0.8),
        (2.3, 2.4, 0.1),
    }
