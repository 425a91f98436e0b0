"""Any sequence of edits leaves a valid document, and what was drawn stays on its ground."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from making import bed, garden, planting, rectangle, ring_bed
from shapes_zoo import RINGS

from planner.garden import Circle, Garden, Places, Polygon, Rectangle, Region, Stretch
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.garden.planting_figures import PlantingFigures
from planner.ground import to_plan
from planner.ground.obstacles import NO_GROUND
from planner.ground.place import place_planting

numbers = st.one_of(st.floats(-30, 30), st.sampled_from([math.nan, math.inf, 1e9, 0.0]))
sides = st.one_of(st.floats(0.1, 9), st.sampled_from([math.nan, 0.0, -1.0]))
ids = st.lists(st.sampled_from([f"{letter}{i}" for letter in "bspvl" for i in range(1, 6)]), max_size=3)
one_id = st.sampled_from([f"{letter}{i}" for letter in "bspvl" for i in range(1, 6)])


def try_rectangle(length: float, width: float) -> Rectangle:
    return Rectangle(length=length if 0.02 <= length <= 9 else 1, width=width if 0.02 <= width <= 9 else 1)


outlines = st.one_of(
    st.builds(try_rectangle, sides, sides),
    st.just(Circle(radius=1.2)),
    st.sampled_from(sorted(RINGS)).map(lambda name: Polygon(points=tuple(RINGS[name]))),
)
stretches = st.tuples(sides, sides).map(lambda ends: {"kind": "stretch", "start": ends[0], "end": ends[1]})
pieces = st.one_of(st.just({"kind": "whole"}), stretches, st.just({"kind": "region", "points": RINGS["L"]}))
names = st.one_of(st.just(""), st.text(max_size=4), st.sampled_from(["Bed 1", "Long", "x" * 250]))
years = st.sampled_from([2025, 2026, 1500])

EDITS = st.one_of(
    st.tuples(st.just(e.add_bed), st.tuples(outlines, names)),
    st.tuples(st.just(e.move_things), st.tuples(ids, numbers, numbers)),
    st.tuples(st.just(e.turn_things), st.tuples(ids, numbers)),
    st.tuples(st.just(e.turn_things), st.tuples(ids, numbers, st.tuples(st.floats(-5, 5), st.floats(-5, 5)))),
    st.tuples(st.just(e.resize_bed), st.tuples(one_id, outlines)),
    st.tuples(st.just(e.add_planting), st.tuples(one_id, st.sampled_from(["carrot", "", "pea"]), years)),
    st.tuples(st.just(e.move_planting), st.tuples(one_id, one_id, pieces)),
    st.tuples(st.just(e.remove_places), st.tuples(one_id, st.sets(st.integers(0, 5)))),
    st.tuples(st.just(e.add_structure), st.tuples(st.sampled_from(["wall", "arch"]), outlines, numbers)),
    st.tuples(st.just(e.remove), st.tuples(ids)),
    st.tuples(st.just(e.duplicate), st.tuples(ids, numbers, numbers)),
    st.tuples(st.just(e.remove_part), st.tuples(one_id)),
    st.tuples(st.just(e.change_bed), st.tuples(one_id), st.fixed_dictionaries({"name": names})),
    st.tuples(st.just(e.change_bed), st.tuples(one_id), st.fixed_dictionaries({"height": numbers})),
    st.tuples(st.just(e.put_variety), st.just(()), st.fixed_dictionaries({"crop": st.just("pea"), "name": names})),
)  # fmt: skip


@settings(max_examples=120)
@given(st.lists(EDITS, max_size=25))
def test_random_edits_keep_the_document_valid_and_the_old_one_as_it_was(steps):
    now = garden(bed("b1", name="Bed 1"), planting("p1", plot=Stretch(start=0, end=1)))
    refusals: list[str] = []
    for edit, args, *named in steps:
        before = now.model_dump_json()
        old = now
        try:
            result = edit(now, *args, **(named[0] if named else {}))
        except EditError as error:
            refusals.append(str(error))
            result = now
        assert old.model_dump_json() == before
        now, key = result if isinstance(result, tuple) else (result, None)
        for new in (key,) if isinstance(key, str) else (key or ()):
            assert new in set(now.ids())
            assert new not in set(old.ids())
        assert Garden.model_validate_json(now.model_dump_json()) == now
    assert not [line for line in refusals if "\n" in line]


def ground_places(document: Garden) -> np.ndarray:
    """Stations of the first planting on the plan."""
    one = document.plantings[0]
    ground = document.beds_by_id[one.bed]
    placed = place_planting(ground, one, PlantingFigures(None, None), NO_GROUND)
    assert placed.plants
    return to_plan(ground.outline, placed.layout.points)


ROWS = {"kind": "rows", "in_row_spacing": 0.2, "row_spacing": 0.2}
DRAWN = [
    {"plot": Region(points=((-1, -0.4), (0.5, -0.4), (0.7, 0.4), (-1, 0.3))), "arrangement": ROWS},
    {"plot": Stretch(start=1.4, end=2.6), "arrangement": ROWS},
    {"arrangement": Places(points=((-1, 0.1), (0.5, -0.2), (0.7, 0.4)))},
]


def dragged(turn: float, left: float, right: float) -> Rectangle:
    """The 4 m x 1.2 m rectangle about (2, 3), its ends dragged outwards by so much."""
    a, shift = math.radians(turn), (right - left) / 2
    center = 2 + shift * math.cos(a), 3 + shift * math.sin(a)
    return rectangle(4 + left + right, 1.2, center=center, turn=turn)


@pytest.mark.parametrize("drawn", DRAWN)
@pytest.mark.parametrize("turn", [0, 30, 90, 250.5])
@pytest.mark.parametrize(("left", "right"), [(1, 0), (0, 1), (0.5, 2), (-0.8, 0), (0, -0.9)])
def test_plants_stay_where_they_are_when_a_rectangle_is_resized(drawn, turn, left, right):
    start = garden(bed(outline=dragged(turn, 0, 0)), planting(**drawn))
    after = e.resize_bed(start, "b1", dragged(turn, left, right))
    assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


@pytest.mark.parametrize("drawn", DRAWN[::2])
@pytest.mark.parametrize("turn", [15, 90, -120])
def test_plants_stay_where_they_are_when_only_the_outline_turns(drawn, turn):
    start = garden(bed(outline=Circle(radius=2, center=(5, 5))), planting(**drawn))
    after = e.resize_bed(start, "b1", Circle(radius=2.5, center=(5, 5), turn=turn))
    if drawn["arrangement"] is ROWS:  # rows follow the bed's axis: only the plot can be compared
        plot, old = after.plantings[0].plot, start.plantings[0].plot
        outlines_ = after.beds[0].outline, start.beds[0].outline
        assert np.allclose(to_plan(outlines_[0], plot.points), to_plan(outlines_[1], old.points), atol=3e-6)
    else:
        assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


@pytest.mark.parametrize("drawn", DRAWN)
def test_plants_stay_where_they_are_when_a_polygons_corners_move(drawn):
    ring = [(-2, -0.6), (2, -0.6), (2, 0.6), (-2, 0.6)]
    longer = [(-3, -0.6), (2.5, -0.6), (2.5, 0.6), (-3, 0.6)]
    start = garden(ring_bed(ring, center=(1, 1), turn=20), planting(**drawn))
    after = e.resize_bed(start, "b1", Polygon(points=tuple(longer), center=(1, 1), turn=20))
    assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


def test_a_polygon_whose_centre_moves_but_not_its_ground_changes_nothing():
    ring = [(-2, -0.6), (2, -0.6), (2, 0.6), (-2, 0.6)]
    start = garden(ring_bed(ring), planting(**DRAWN[1]))
    moved = Polygon(points=tuple((x - 1, y) for x, y in ring), center=(1, 0))
    after = e.resize_bed(start, "b1", moved)
    assert np.allclose(ground_places(after), ground_places(start), atol=3e-6)


def test_a_stretch_becomes_a_region_when_the_bed_grows_broader_than_long():
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=1, end=2), arrangement=ROWS))
    after = e.resize_bed(start, "b1", rectangle(4, 6, center=(0, 0)))
    plot = after.plantings[0].plot
    assert isinstance(plot, Region)
    assert sorted(plot.points) == [(-1, -0.6), (-1, 0.6), (0, -0.6), (0, 0.6)]


def test_a_stretch_cut_by_the_new_beginning_is_shortened():
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=0, end=2)))
    after = e.resize_bed(start, "b1", rectangle(3, 1.2, center=(0.5, 0)))
    assert after.plantings[0].plot == Stretch(start=0, end=1)


def test_a_stretch_before_the_new_beginning_stays_on_its_ground():
    start = garden(bed(outline=rectangle(4, 1.2)), planting(plot=Stretch(start=0, end=0.5)))
    after = e.resize_bed(start, "b1", rectangle(3, 1.2, center=(0.5, 0)))
    assert isinstance(after.plantings[0].plot, Region)
    back = e.resize_bed(after, "b1", rectangle(4, 1.2))
    points = to_plan(back.beds[0].outline, back.plantings[0].plot.points)
    assert points[:, 0].min() == pytest.approx(-2)
    assert points[:, 0].max() == pytest.approx(-1.5)
