"""Several plantings moved at once: they keep their order and distances, and all of them land or none."""

from __future__ import annotations

import datetime as dt
import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from making import bed, garden, planting, rectangle

from planner.garden import Places, Region, Stretch
from planner.ground.moving import move_on_plan
from planner.plan import Plan
from planner.plan.moving_together import move_together

D = dt.date


def stretch(start: float, end: float, key: str, of: str = "b1", **fields):
    return planting(key, bed=of, plot=Stretch(start=start, end=end), **fields)


def beds(*plantings, turn: float = 0.0):
    return garden(
        bed("b1", rectangle(center=(0.0, 2.0)), name="North"),
        bed("b2", rectangle(center=(0.0, 0.0), turn=turn), name="Middle"),
        bed("b3", rectangle(center=(0.0, -2.0)), name="South"),
        *plantings,
    )


def plots(made, *keys: str):
    found = []
    for key in keys:
        each = made.plantings_by_id[key]
        plot = each.plot
        found.append(
            (each.bed, round(plot.start, 3), round(plot.end, 3))
            if plot.kind == "stretch"
            else (each.bed, plot.kind)
        )
    return found


def move(made, ids, offset, target=None, **more):
    return move_together(Plan(made, 2026), made, ids, offset, target, **more)


def test_within_their_bed_all_move_by_as_much():
    made = beds(stretch(0.5, 1.5, "p1"), stretch(1.5, 2.5, "p2"))
    moved = move(made, ["p1", "p2"], (0.7, 0.1), "b1")
    assert moved.refused == ()
    assert plots(moved.garden, "p1", "p2") == [("b1", 1.2, 2.2), ("b1", 2.2, 3.2)]


@pytest.mark.parametrize(("offset", "starts"), [(9.0, (2.8, 3.8)), (-9.0, (0.0, 1.0))])
def test_at_the_end_of_the_bed_all_of_them_stop(offset, starts):
    made = beds(stretch(1.0, 2.0, "p1"), stretch(2.0, 3.0, "p2"))
    moved = move(made, ["p1", "p2"], (offset, 0.0))
    assert [plot[1] for plot in plots(moved.garden, "p1", "p2")] == list(starts)


def test_arrow_keys_stop_all_of_them_too():
    made = beds(stretch(3.0, 4.0, "p1"), stretch(4.0, 4.7, "p2"))
    moved = move_on_plan(made, ["p1", "p2"], 0.5, 0.0)
    assert plots(moved, "p1", "p2") == [("b1", 3.1, 4.1), ("b1", 4.1, 4.8)]


def test_they_go_to_another_bed_in_their_order():
    made = beds(stretch(1.0, 2.0, "p1"), stretch(2.0, 3.5, "p2", crop="onion"))
    moved = move(made, ["p2", "p1"], (0.5, -2.0), "b2")
    assert moved.refused == ()
    assert plots(moved.garden, "p1", "p2") == [("b2", 1.5, 2.5), ("b2", 2.5, 4.0)]
    assert len(moved.garden.plantings) == 2


def test_they_are_shifted_together_into_the_other_bed():
    made = beds(stretch(1.0, 2.0, "p1"), stretch(2.0, 3.5, "p2"))
    moved = move(made, ["p1", "p2"], (3.0, -2.0), "b2")
    assert plots(moved.garden, "p1", "p2") == [("b2", 2.3, 3.3), ("b2", 3.3, 4.8)]


def test_those_of_other_beds_go_to_the_bed_that_lies_as_far():
    made = beds(stretch(1.0, 2.0, "p1"), stretch(0.0, 1.0, "p2", "b2"))
    moved = move(made, ["p1", "p2"], (0.0, -2.0), "b2")
    assert moved.refused == ()
    assert plots(moved.garden, "p1", "p2") == [("b2", 1.0, 2.0), ("b3", 0.0, 1.0)]


def test_where_one_has_no_bed_none_is_moved_and_it_is_told():
    made = beds(stretch(1.0, 2.0, "p1"), stretch(0.0, 1.0, "p2", "b3", crop="onion"))
    moved = move(made, ["p1", "p2"], (0.0, -2.0), "b2")
    assert moved.garden is made
    assert moved.refused == ("onion: no bed lies there",)


def test_where_one_has_no_ground_none_is_moved_and_it_is_told():
    made = beds(
        stretch(0.0, 1.0, "p1", first=D(2026, 3, 1), last=D(2026, 4, 1)),
        stretch(1.0, 2.0, "p2", crop="onion", first=D(2026, 6, 1), last=D(2026, 8, 1)),
        planting("p3", bed="b2", crop="kale", first=D(2026, 5, 1), last=D(2026, 9, 1)),
    )
    moved = move(made, ["p1", "p2"], (0.0, -2.0), "b2")
    assert moved.garden is made
    (why,) = moved.refused
    assert why.startswith("onion: Middle has no free ground")


def test_two_that_grow_at_other_times_may_take_the_same_ground():
    made = beds(
        stretch(0.0, 2.0, "p1", first=D(2026, 3, 1), last=D(2026, 4, 1)),
        stretch(0.0, 2.0, "p2", crop="onion", first=D(2026, 6, 1), last=D(2026, 8, 1)),
    )
    moved = move(made, ["p1", "p2"], (0.0, -2.0), "b2")
    assert plots(moved.garden, "p1", "p2") == [("b2", 0.0, 2.0), ("b2", 0.0, 2.0)]


def test_single_plants_keep_their_distances():
    points = ((-1.0, 0.1), (0.0, 0.1), (1.0, 0.1))
    made = beds(planting("p1", arrangement=Places(points=points)), stretch(0.0, 1.0, "p2"))
    moved = move(made, ["p1", "p2"], (0.2, -2.0), "b2")
    assert moved.refused == ()
    got = moved.garden.plantings_by_id["p1"].arrangement.points
    assert [x - got[0][0] for x, _ in got] == pytest.approx([0.0, 1.0, 2.0])
    assert got[0] == pytest.approx((-0.8, 0.1))


@given(
    st.lists(st.floats(0.3, 1.2), min_size=2, max_size=4),
    st.floats(-4, 4),
    st.floats(-0.5, 0.5),
    st.sampled_from([0.0, 30.0, 90.0]),
)
def test_on_a_free_bed_they_land_side_by_side_at_their_lengths(lengths, dx, dy, turn):
    ends = [sum(lengths[: i + 1]) for i in range(len(lengths))]
    made = beds(
        *(
            stretch(end - length, end, f"p{i}")
            for i, (length, end) in enumerate(zip(lengths, ends, strict=True), 1)
            if end <= 4.8
        ),
        turn=turn,
    )
    ids = [each.id for each in made.plantings]
    moved = move(made, ids, (dx, -2.0 + dy), "b2")
    assert moved.refused == ()
    landed = [moved.garden.plantings_by_id[key].plot for key in ids]
    assert all(not isinstance(plot, Region) for plot in landed)
    for (one, other), was in zip(itertools.pairwise(landed), made.plantings, strict=False):
        assert one.end <= other.start + 0.051  # laid on a grid of 5 cm
        assert one.end - one.start <= was.plot.end - was.plot.start + 1e-6
