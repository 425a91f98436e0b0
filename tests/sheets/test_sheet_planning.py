"""The plain computations behind a sheet: scale, parts, tape marks, pages, tags."""

from __future__ import annotations

import math
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from making import bed, catalogue_of, crop, garden, planting, rectangle, ring_bed

from planner.garden import Site
from planner.ground import lay_places, lay_rows
from planner.ground.bed_frame import BedFrame
from planner.plan import Plan
from planner.plan.drawing_groups import drawing_groups
from planner.sheets.flow import Block, gap, paginate
from planner.sheets.scale import SCALES, choose_scale, divide, on_paper, scale_words, split
from planner.sheets.standing_too import standing_too
from planner.sheets.tape import even_step, number_ranges, row_direction, tapes

ROOM = (166.0, 122.0)


# -- scale -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("length", "width", "units", "scale"),
    [
        (0.8, 0.3, "metric", 5),
        (2.4, 1.2, "metric", 15),
        (4.8, 1.2, "metric", 30),
        (1.66, 0.3, "metric", 10),  # just fills the room
        (3.0, 3.0, "metric", 25),
        (4.8, 1.2, "feet_inches", 32),
        (6000.0, 10.0, "metric", 50000),
        (20000.0, 20000.0, "metric", 170000),
    ],
)
def test_largest_scale_that_fits(length: float, width: float, units, scale: int):
    assert choose_scale(length, width, ROOM, units) == scale
    assert on_paper(length, scale) <= ROOM[0] + 1e-9


def test_scales_fall_from_the_first_to_the_last():
    for scales in SCALES.values():
        assert list(scales) == sorted(set(scales))


def test_scale_as_printed():
    assert scale_words(30, "metric") == "1 : 30"
    assert scale_words(24, "feet_inches") == "1 : 24 (1/2 in = 1 ft)"


def test_short_bed_stays_whole():
    division = divide(4.8, 1.2, ROOM, 230.0, 33.0, "metric")
    assert division.scale == 30
    assert [(p.start, p.end, p.left, p.right) for p in division.parts] == [(0.0, 4.8, None, None)]


def test_long_bed_is_split_at_a_scale_that_can_be_read():
    division = divide(15.6, 1.2, ROOM, 230.0, 33.0, "metric")
    assert division.scale <= 40
    assert len(division.parts) > 1


def test_field_that_no_split_helps_is_drawn_whole():
    division = divide(400.0, 300.0, ROOM, 230.0, 33.0, "metric")
    assert len(division.parts) == 1
    assert on_paper(400.0, division.scale) <= ROOM[0]


@given(
    st.floats(3.0, 500.0),
    st.floats(2.0, 20.0),
    st.floats(0.1, 0.5),
    st.sampled_from(["metric", "feet_inches"]),
)
def test_parts_cover_the_length_and_share_their_overlap(length, most, overlap, units):
    parts = split(length, most, overlap, units)
    assert parts[0].start == 0
    assert parts[-1].end == length
    for part in parts:
        assert 0 < part.length <= most + 1e-6
    for before, after in pairwise(parts):
        assert before.right == after.left
        assert after.start < before.end
        assert before.right is not None
        assert after.start == pytest.approx(before.right - overlap)


def test_joins_are_round_distances():
    assert [part.left for part in split(15.6, 6.6, 0.3)] == [None, 6.0, 12.0]


def test_two_parts_have_an_overlap_at_one_end_each():
    assert [(part.start, part.end) for part in split(8.0, 4.4, 0.3)] == [(0.0, 4.3), (3.7, 8.0)]
    assert len(split(8.0, 4.2, 0.3)) == 3


@pytest.mark.parametrize("length", [10.0, 15.6, 31.0, 90.0])
def test_parts_overlap_by_six_millimetres_at_least_and_by_a_round_length(length: float):
    division = divide(length, 1.2, ROOM, 230.0, 33.0, "metric")
    assert len(division.parts) > 1
    for before in division.parts[:-1]:
        assert before.right is not None
        overlap = before.end - before.right
        assert 6.0 <= on_paper(overlap, division.scale) < 6.0 + on_paper(0.1, division.scale)
        assert overlap / 0.1 == pytest.approx(round(overlap / 0.1))


def test_bed_that_would_have_too_many_parts_is_drawn_smaller():
    divisions = [divide(length, 1.2, ROOM, 230.0, 33.0, "metric") for length in (140.0, 150.0)]
    assert [(division.scale, len(division.parts)) for division in divisions] == [(40, 24), (50, 20)]


# -- tape ------------------------------------------------------------------------------------------


def frame_and_tapes(outline, **arrangement):
    frame = BedFrame(outline)
    plot = shapely.box(-2.4, -0.6, 2.4, 0.6) if outline.outline.shape == "rectangle" else None
    return frame, tapes(frame, lay_rows(plot, **arrangement))


def test_rows_with_the_same_marks_are_one_line():
    _, found = frame_and_tapes(bed(), in_row_spacing=0.3, row_spacing=0.3)
    assert len(found) == 1
    tape = found[0]
    assert tape.rows == (1, 2, 3, 4)
    assert tape.count == 16
    assert tape.direction == "along"
    assert (tape.first, tape.spacing, tape.last) == pytest.approx((0.15, 0.3, 4.65))
    assert tape.offsets == pytest.approx((0.15, 0.45, 0.75, 1.05))
    assert tape.marks() == pytest.approx([0.15 + 0.3 * k for k in range(16)])


def test_staggered_rows_are_two_lines():
    _, found = frame_and_tapes(bed(), in_row_spacing=0.3, row_spacing=0.3, staggered=True)
    assert sorted(tape.rows for tape in found) == [(1, 3), (2, 4)]
    assert abs(found[0].first - found[1].first) == pytest.approx(0.15)


def test_single_plants_have_no_spacing():
    _, found = frame_and_tapes(bed(), in_row_spacing=3.0, row_spacing=1.2)
    assert found[0].spacing is None
    assert found[0].first == found[0].last == pytest.approx(2.4)


def test_rows_across_are_measured_from_the_lower_edge():
    _, found = frame_and_tapes(bed(), in_row_spacing=0.3, row_spacing=0.4, direction=90.0)
    (tape,) = found
    assert tape.direction == "across"
    assert len(tape.rows) == 12
    assert tape.offsets[0] == pytest.approx(0.2)
    assert (tape.first, tape.last) == pytest.approx((0.15, 1.05))


def test_rows_that_run_backwards_are_measured_the_same():
    _, there = frame_and_tapes(bed(), in_row_spacing=0.31, row_spacing=0.3)
    _, back = frame_and_tapes(bed(), in_row_spacing=0.31, row_spacing=0.3, direction=180.0)
    assert [(t.first, t.last, t.offsets) for t in back] == [
        (pytest.approx(t.first), pytest.approx(t.last), pytest.approx(t.offsets)) for t in there
    ]
    for one, other in zip(back, there, strict=True):
        assert np.allclose(one.begins, other.begins)
        assert [begin[0] for begin in one.begins] == pytest.approx([0.0] * len(one.rows))


def test_slanting_rows_are_measured_from_where_they_begin():
    frame, found = frame_and_tapes(bed(), in_row_spacing=0.3, row_spacing=0.3, direction=30.0)
    assert {tape.direction for tape in found} == {"oblique"}
    layout = lay_rows(shapely.box(-2.4, -0.6, 2.4, 0.6), 0.3, 0.3, direction=30.0)
    stations = frame.points(layout.points)
    along = np.array([math.cos(math.radians(30)), math.sin(math.radians(30))])
    marked = [np.array(b) + mark * along for tape in found for b in tape.begins for mark in tape.marks()]
    assert len(marked) == len(stations)
    for place in marked:
        assert np.hypot(*(stations - place).T).min() < 1e-3


def test_tape_marks_lead_back_to_every_station_of_a_concave_bed():
    one = ring_bed([(0, 0), (5, 0), (5, 4), (3.8, 4), (3.8, 1.2), (1.2, 1.2), (1.2, 4), (0, 4)])
    document = garden(one, planting(arrangement={"kind": "rows"}))
    crops = catalogue_of(crop(in_row_spacing=0.17, row_spacing=0.33))
    layout = Plan(document, 2026, crops).placed(document.plantings[0]).layout
    frame = BedFrame(one)
    found = tapes(frame, layout)
    marked = {(round(m, 3), round(y, 3)) for t in found for y in t.offsets for m in t.marks()}
    stations = {(round(x, 3), round(y, 3)) for x, y in frame.points(layout.points).tolist()}
    assert len(marked) == len(stations)
    for x, y in stations:
        assert any(abs(x - a) < 0.0015 and abs(y - b) < 0.0015 for a, b in marked)
    assert any(tape.pieces == 2 for tape in found)


def test_places_have_no_tapes():
    assert tapes(BedFrame(bed()), lay_places(shapely.box(-1, -1, 1, 1), [(0, 0)])) == ()


def test_way_of_a_direction():
    assert [row_direction(d) for d in (0, 180, -180, 90, -90, 270, 30)] == [
        "along", "along", "along", "across", "across", "across", "oblique",
    ]  # fmt: skip


def test_numbers_as_read_aloud():
    assert number_ranges([1, 2, 3, 4]) == "1–4"
    assert number_ranges([1, 2, 5]) == "1, 2, 5"
    assert number_ranges([]) == ""


def test_even_step():
    assert even_step([0.1, 0.4, 0.7]) == pytest.approx(0.3)
    assert even_step([0.1, 0.4, 0.8]) is None
    assert even_step([0.1, 0.4]) is None


# -- frame -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bearing", "turn", "north", "start", "edge"),
    [
        (0, 0, 90, "west", "south"),
        (90, 0, 180, "north", "west"),
        (0, 90, 0, "south", "east"),
        (0, 45, 45, "south-west", "south-east"),
        (350, 0, 80, "west", "south"),
    ],
)
def test_north_on_the_sheet(bearing: float, turn: float, north: float, start: str, edge: str):
    frame, site = BedFrame(bed(outline=rectangle(turn=turn))), Site(bearing_up=bearing)
    assert frame.north(site) == pytest.approx(north)
    assert frame.side(site, 180.0) == start
    assert frame.side(site, 270.0) == edge


# -- pages -----------------------------------------------------------------------------------------


def block(height: float, **how) -> Block:
    return Block(height, lambda pen, top: None, **how)


def test_blocks_fill_pages_in_order():
    blocks = [block(40) for _ in range(5)]
    assert [len(page) for page in paginate(blocks, 90, 130)] == [2, 3]
    assert [b for page in paginate(blocks, 90, 130) for b in page] == blocks


def test_no_blocks_are_one_page():
    assert paginate([], 100, 100) == [[]]


def test_space_alone_opens_no_page():
    pages = paginate([block(60), block(38), gap(4.0)], 100, 100)
    assert [len(page) for page in pages] == [2]
    assert [len(page) for page in paginate([block(60), block(38), gap(4.0), block(5)], 100, 100)] == [2, 1]


def test_head_is_not_left_alone():
    pages = paginate([block(80), block(10, with_next=True), block(20)], 100, 100)
    assert [len(page) for page in pages] == [1, 2]


def test_table_head_is_repeated():
    head = block(5)
    pages = paginate([head, *[block(30, repeat=head) for _ in range(5)]], 100, 100)
    assert [page[0] is head for page in pages] == [True, True]
    assert sum(b is not head for page in pages for b in page) == 5


def test_space_is_left_out_at_page_ends():
    pages = paginate([block(95), gap(3), block(50), gap(60), block(50)], 100, 100)
    assert [[b.height for b in page] for page in pages] == [[95], [50], [50]]


def test_what_must_stay_together_but_is_higher_than_a_page_falls_apart():
    pages = paginate([block(60, with_next=True), block(60, with_next=True), block(60)], 100, 100)
    assert [len(page) for page in pages] == [1, 1, 1]


def test_a_group_too_high_for_the_first_page_is_whole_on_the_next():
    heading, table = block(6, with_next=True), block(90)
    assert paginate([heading, table], 95, 100) == [[], [heading, table]]
    assert paginate([heading, table], 96, 100) == [[heading, table]]


@given(st.lists(st.tuples(st.floats(1, 90), st.booleans()), max_size=40))
def test_no_page_overflows(given_blocks):
    blocks = [block(height, with_next=stays) for height, stays in given_blocks]
    pages = paginate(blocks, 95, 100)
    assert [b for page in pages for b in page] == blocks
    for number, page in enumerate(pages):
        assert sum(b.height for b in page) <= (100 if number else 95) + 1e-6


# -- letters ---------------------------------------------------------------------------------------


def test_letters_run_from_left_to_right_through_the_drawings():
    crops = catalogue_of(crop(in_row_spacing=0.3, row_spacing=0.3))
    halves = [{"kind": "stretch", "start": s, "end": s + 2.4} for s in (0.0, 2.4)]
    document = garden(
        bed(),
        planting("late", plot=halves[0], first="2026-07-01"),
        planting("right", plot=halves[1]),
        planting("left", plot=halves[0], last="2026-06-01"),
    )
    plan = Plan(document, 2026, crops)
    found = drawing_groups(plan, plan.in_bed(document.beds[0]))
    assert [[(e.letter, e.planting.id) for e in layer] for layer in found] == [
        [("A", "left"), ("B", "right")],
        [("C", "late")],
    ]


def halves_of_a_bed() -> Plan:
    """Parsnips on the right half until March, squash there from May on; courgettes on the left half from May on."""
    left, right = ({"kind": "stretch", "start": s, "end": s + 2.4} for s in (0.0, 2.4))
    document = garden(
        bed(),
        planting("parsnip", plot=right, last="2026-03-01"),
        planting("squash", plot=right, first="2026-05-12", last="2026-10-14"),
        planting("courgette", plot=left, first="2026-05-25", last="2026-10-05"),
    )
    return Plan(document, 2026, catalogue_of(crop(in_row_spacing=0.3, row_spacing=0.3)))


def test_what_stands_at_the_same_time_is_drawn_together():
    plan = halves_of_a_bed()
    found = drawing_groups(plan, plan.in_bed(plan.garden.beds[0]))
    assert [[one.planting.id for one in group] for group in found] == [["parsnip"], ["courgette", "squash"]]


def test_a_drawing_shows_what_stands_on_its_days_and_is_drawn_elsewhere():
    plan = halves_of_a_bed()
    named = {
        one.planting.id: one
        for group in drawing_groups(plan, plan.in_bed(plan.garden.beds[0]))
        for one in group
    }
    frame = BedFrame(plan.garden.beds[0])
    parsnip, squash, courgette = (named[key] for key in ("parsnip", "squash", "courgette"))

    def beside(*group) -> list[tuple[str, str, float]]:
        others = [one for one in named.values() if one not in group]
        found = standing_too(plan, frame, group, others, lambda span: str(span.last))
        return [(one.letter, one.days, round(float(one.ground.area), 2)) for one in found]

    assert beside(courgette) == [(squash.letter, "2026-10-14", round(2.4 * 1.2, 2))]
    assert beside(parsnip) == []  # the others come when it is gone
    assert beside(squash) == [(courgette.letter, "2026-10-05", round(2.4 * 1.2, 2))]


def test_bed_without_plantings_is_one_empty_drawing():
    plan = Plan(garden(bed()), 2026, catalogue_of(crop()))
    assert drawing_groups(plan, ()) == ((),)
