"""Copies lie beside what they are made from: a path away from everything, in what is seen."""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from making import bed, garden, rectangle

from planner.garden import Site, edits
from planner.ground.shapes import plan_polygon
from planner.plan import Plan
from planner.plan.copies_beside import offset_beside

WIDE = (-50.0, -50.0, 50.0, 50.0)


def rows(*centers: tuple[float, float], turn: float = 0.0, length: float = 4.0):
    return garden(
        *(
            bed(f"b{i}", rectangle(length, 1.0, center=at, turn=turn), name=f"B{i}")
            for i, at in enumerate(centers, 1)
        )
    )


def check(made, ids, seen=WIDE, year=2026):
    """The offset, after seeing that the copies lie a path away from everything."""
    dx, dy = offset_beside(Plan(made, year), ids, seen)
    copy = shapely.union_all([plan_polygon(b.outline) for b in made.beds if b.id in ids])
    copy = shapely.transform(copy, lambda points: points + np.array((dx, dy)))
    around = shapely.union_all([plan_polygon(thing.outline) for thing in (*made.beds, *made.structures)])
    assert copy.distance(around) >= made.site.path_width - 1e-5
    return round(dx, 6), round(dy, 6)


def test_a_copy_lies_a_path_below():
    assert check(rows((0.0, 0.0)), ["b1"]) == (0.0, -1.45)
    made = rows((0.0, 0.0))
    narrow = made.with_(site=Site(path_width=0.3))
    assert check(narrow, ["b1"]) == (0.0, -1.3)


def test_a_turned_bed_is_copied_by_its_own_extent():
    assert check(rows((0.0, 0.0), turn=90), ["b1"]) == (1.45, 0.0)


def test_where_a_neighbour_lies_below_the_nearest_free_side_is_taken():
    assert check(rows((0.0, 0.0), (0.0, -1.45)), ["b1"]) == (0.0, 1.45)


def test_between_neighbours_it_goes_on_until_nothing_is_near():
    made = rows(*((0.0, -1.45 * k) for k in range(5)), (5.0, 0.0), (-5.0, 0.0), (0.0, 1.3))
    assert check(made, ["b1"]) == (0.0, 2.75)


def test_a_copy_lies_where_it_is_seen():
    seen = (-2.5, -1.0, 7.5, 1.0)
    assert check(rows((0.0, 0.0)), ["b1"], seen) == (4.45, 0.0)


def test_where_nothing_straight_beside_is_seen_any_free_place_in_view_is_taken():
    made = rows((0.0, 0.0), (0.0, -1.45), (0.0, 1.45), (4.45, 0.0), (-4.45, 0.0))
    seen = (-7.0, -3.0, 7.0, 3.0)
    dx, dy = check(made, ["b1"], seen)
    assert dx
    assert dy
    assert abs(dx) <= 5.0
    assert abs(dy) <= 2.5


def test_where_no_room_is_seen_it_lies_beside_all_the_same():
    assert check(rows((0.0, 0.0)), ["b1"], (-2.1, -0.6, 2.1, 0.6)) == (0.0, -1.45)


def test_a_copy_stays_within_the_outline_of_the_garden():
    made = rows((0.0, 0.0))
    made = made.with_(site=Site(outline=rectangle(12.0, 2.0, center=(3.0, 0.0))))
    assert check(made, ["b1"]) == (4.45, 0.0)


def test_structures_are_kept_away_from_too():
    made, _ = edits.add_structure(rows((0.0, 0.0)), "wall", rectangle(4.0, 0.3, center=(0.0, -1.0)), 2.0)
    assert check(made, ["b1"]) == (0.0, 1.45)


def test_several_are_copied_as_one():
    dx, dy = check(rows((0.0, 0.0), (0.0, -1.45)), ["b1", "b2"])
    assert (dx, dy) == (0.0, -2.9)


def test_plantings_need_no_offset():
    assert offset_beside(Plan(rows((0.0, 0.0)), 2026), ["p1"], WIDE) == (0.0, 0.0)


@pytest.mark.parametrize("path", [0.0, 0.45])
def test_a_crowded_garden_of_many_beds_has_a_place(path):
    made = rows(*((4.5 * i, -1.5 * j) for i in range(20) for j in range(20))).with_(
        site=Site(path_width=path)
    )
    assert any(check(made, ["b210"], None))
