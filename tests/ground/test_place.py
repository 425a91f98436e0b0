"""Layout of a planting in its bed, and coordinates."""

from __future__ import annotations

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from making import bed, crop, planting, rectangle, ring_bed
from shapes_zoo import RINGS, spacings, turns

from planner.garden import Circle, Stretch, Structure
from planner.garden.planting_figures import PlantingFigures
from planner.ground.obstacles import NO_GROUND, bed_obstacles, footprint, footprints
from planner.ground.place import place_planting
from planner.ground.shapes import bed_axis, bed_polygon, outline_area, to_own, to_plan

CARROT = PlantingFigures(crop(in_row_spacing=0.075, row_spacing=0.3), None)
NOTHING = PlantingFigures(None, None)


@given(
    st.sampled_from(sorted(RINGS)),
    spacings,
    spacings,
    turns,
    st.tuples(st.floats(-50, 50), st.floats(-50, 50)),
)
def test_counts_do_not_change_when_a_bed_is_moved_or_turned(name, s, r, turn, center):
    rows = planting(arrangement={"kind": "rows", "in_row_spacing": s, "row_spacing": r})
    here = place_planting(ring_bed(RINGS[name]), rows, NOTHING, NO_GROUND)
    there = place_planting(ring_bed(RINGS[name], center=center, turn=turn), rows, NOTHING, NO_GROUND)
    assert np.array_equal(here.layout.points, there.layout.points)


@given(st.sampled_from(sorted(RINGS.keys() - {"far away"})), turns)
def test_plan_and_own_coordinates_are_each_others_inverse(name, turn):
    outline = ring_bed(RINGS[name], center=(12.5, -3.25), turn=turn).outline
    own = np.array(RINGS[name])
    plan = to_plan(outline, own)
    assert np.allclose(to_own(outline, plan), own, atol=1e-9)
    assert shapely.Polygon(plan).area == pytest.approx(outline_area(outline))


@pytest.mark.parametrize(
    ("outline", "axis"),
    [
        (rectangle(4, 1), 0.0),
        (rectangle(1, 4), 90.0),
        (rectangle(2, 2), 0.0),
        (Circle(radius=1), 0.0),
    ],
)
def test_long_axis_of_plain_outlines(outline, axis):
    assert bed_axis(outline) == axis


@pytest.mark.parametrize("degrees", [0, 12.5, 45, 89, 90, 91, 135, 179])
def test_long_axis_of_a_polygon_is_its_longer_side(degrees):
    a = math.radians(degrees)
    ring = [
        (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a)) for x, y in RINGS["rectangle"]
    ]
    off = (bed_axis(ring_bed(ring).outline) - degrees + 90) % 180 - 90
    assert off == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize(("degrees", "axis"), [(90, 90), (91, -89), (110, -70), (179, -1)])
def test_the_long_axis_is_the_shorter_turn_from_own_x(degrees, axis):
    a = math.radians(degrees)
    ring = [
        (x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a)) for x, y in RINGS["rectangle"]
    ]
    assert bed_axis(ring_bed(ring).outline) == pytest.approx(axis)


def test_a_circle_has_the_area_of_a_circle():
    round_bed = bed(outline=Circle(radius=1.3))
    assert outline_area(round_bed.outline) == math.pi * 1.3**2
    assert bed_polygon(round_bed).area == pytest.approx(math.pi * 1.3**2, rel=1e-9)


def test_the_crops_spacing_is_the_default():
    placed = place_planting(bed(), planting(), CARROT, NO_GROUND)
    assert placed.plants == 64 * 4
    assert placed.problem == ""
    assert placed.area == pytest.approx(4.8 * 1.2)


def test_without_a_row_spacing_rows_are_as_far_apart_as_plants():
    placed = place_planting(bed(), planting(), PlantingFigures(crop(in_row_spacing=0.3), None), NO_GROUND)
    assert placed.layout.row_spacing == 0.3
    assert placed.plants == 16 * 4


@pytest.mark.parametrize(("beyond", "reported"), [(0.00005, False), (0.001, True)])
def test_a_plot_beyond_its_bed_is_a_problem(beyond, reported):
    plot = Stretch(start=4, end=4.8 + beyond)
    placed = place_planting(
        bed(),
        planting(plot=plot),
        PlantingFigures(crop(in_row_spacing=0.3, row_spacing=0.3), None),
        NO_GROUND,
    )
    assert placed.plants == 2 * 4
    assert bool(placed.problem) is reported


def test_rows_run_along_the_long_side_of_an_upright_bed():
    upright = bed(outline=rectangle(1.2, 4.8))
    placed = place_planting(upright, planting(), CARROT, NO_GROUND)
    assert placed.layout.direction == 90.0
    assert placed.plants == 64 * 4


@pytest.mark.parametrize(
    ("fields", "figures", "words"),
    [
        ({}, NOTHING, "carrot is not in the catalogue; type its spacing"),
        ({}, PlantingFigures(crop(), None), "carrot has no in-row spacing there; type its spacing"),
        ({"plot": {"kind": "stretch", "start": 9, "end": 10}}, CARROT, "lies outside b1; move it into the bed"),
        ({"plot": {"kind": "stretch", "start": 4, "end": 10}}, CARROT, "6.24 m² of the plot of carrot lie outside"),
        ({"arrangement": {"kind": "rows", "in_row_spacing": 6}}, CARROT, "No carrot fits: the plot is 4.80 m long"),
        ({"arrangement": {"kind": "rows", "edge": 0.7}}, CARROT, "set a smaller spacing or edge distance"),
        ({"arrangement": {"kind": "places", "points": [[0, 0], [9, 9]]}}, CARROT, "1 of 2 places of carrot lie outside"),
        ({"arrangement": {"kind": "scatter", "density": 100_000}, "bed": "b2"}, CARROT, "at most 5,000,000"),
    ],
)  # fmt: skip
def test_a_problem_is_a_sentence(fields, figures, words):
    ground = bed("b2", rectangle(100, 100)) if "bed" in fields else bed()
    assert words in place_planting(ground, planting(**fields), figures, NO_GROUND).problem


def test_staggered_rows_are_equilateral_without_a_row_spacing():
    placed = place_planting(bed(), planting(arrangement={"kind": "staggered"}), CARROT, NO_GROUND)
    assert placed.layout.row_spacing == pytest.approx(0.075 * math.sqrt(3) / 2)


def test_a_tree_and_its_clearance_keep_plants_off_and_a_tunnel_does_not():
    tree = Structure(
        id="s1", kind="tree", outline=Circle(radius=0.2, center=(10, 5)), height=3, clearance=0.3
    )
    tunnel = Structure(id="s2", kind="tunnel", outline=rectangle(9, 9, center=(10, 5)), height=2)
    later = Structure(
        id="s3", kind="shed", outline=rectangle(9, 9, center=(10, 5)), height=2, first_year=2030
    )
    ground = bed(outline=rectangle(4.8, 1.2, center=(10, 5), turn=30))
    grounds = footprints([tree, tunnel, later], 2026)
    obstacles = bed_obstacles(ground, grounds)
    placed = place_planting(ground, planting(), CARROT, obstacles)
    assert 0 < placed.plants < 64 * 4
    assert np.hypot(*placed.layout.points.T).min() >= 0.5 * 0.998
    assert footprint(tunnel).is_empty


def test_a_tree_with_a_clear_stem_occupies_its_trunk_only():
    tree = Structure(id="s1", kind="tree", outline=Circle(radius=2, center=(10, 5)), height=5, stem=1.8)
    assert footprint(tree).area == pytest.approx(math.pi * 0.15**2, rel=0.02)
    assert footprint(tree).centroid.equals_exact(shapely.Point(10, 5), 1e-9)
    assert footprint(tree.with_(stem=0)).area == pytest.approx(math.pi * 2**2, rel=1e-4)


def test_a_bed_away_from_all_structures_has_the_one_empty_obstacle():
    wall = Structure(id="s1", kind="wall", outline=rectangle(9, 0.2, center=(0, 30)), height=2)
    assert bed_obstacles(bed(), footprints([wall], 2026)) is NO_GROUND


def test_an_arch_occupies_only_its_two_feet():
    arch = Structure(id="s1", kind="arch", outline=rectangle(2.0, 0.5), height=2.2, foot=0.1)
    assert footprint(arch).area == pytest.approx(2 * 0.1 * 0.5)
    assert footprint(arch).bounds == pytest.approx((-1, -0.25, 1, 0.25))
