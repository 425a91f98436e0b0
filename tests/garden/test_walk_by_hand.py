"""The walking order by hand, as an edit."""

from __future__ import annotations

import random

import pytest
from making import bed, garden, rectangle

from planner.garden import edits as e
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order, way_of_walk

ROW = [bed(f"b{n}", rectangle(4, 1, center=(5.0 * n, 0.0))) for n in range(6)]


def order_of(document, year: int = 2026) -> tuple[str, ...]:
    return tuple(one.id for one in beds_in_walking_order(Plan(document, year)))


def test_moves_are_those_of_a_list():
    chance = random.Random(5)
    for _ in range(200):
        order = [f"b{n}" for n in range(chance.randint(1, 8))]
        key, place = chance.choice(order), chance.randint(-1, 9)
        wanted = [one for one in order if one != key]
        wanted.insert(min(max(place, 0), len(wanted)), key)
        assert e.moved_in_order(order, key, place) == tuple(wanted)


def test_the_order_given_is_the_order_walked_and_can_be_given_back():
    document = garden(*ROW)
    by_itself = order_of(document)
    wanted = e.moved_in_order(by_itself, "b5", 1)
    by_hand = e.walk_in_order(document, wanted)
    assert order_of(by_hand) == wanted
    assert order_of(e.walk_in_order(by_hand, ())) == by_itself
    assert e.walk_in_order(document, ()) is document


def test_beds_of_other_years_keep_their_place():
    later = bed("b9", rectangle(4, 1, center=(0.0, 9.0))).with_(first_year=2028)
    document = e.walk_in_order(garden(*ROW[:3], later), ("b0", "b1", "b9", "b2"))
    moved = e.walk_in_order(document, ("b1", "b2", "b0"))
    assert order_of(moved) == ("b1", "b2", "b0")
    assert order_of(moved, 2028) == ("b1", "b9", "b2", "b0")
    first = e.walk_in_order(e.walk_in_order(garden(*ROW[:2], later), ("b9", "b0", "b1")), ("b1", "b0"))
    assert order_of(first, 2028) == ("b9", "b1", "b0")


def test_a_bed_that_is_not_there_is_refused():
    with pytest.raises(e.EditError, match="no bed of the id 'b77'"):
        e.walk_in_order(garden(*ROW), ("b0", "b77"))


def test_the_way_is_a_round_from_the_gate():
    document = garden(*ROW[:2])

    def way(plan: Plan) -> list[tuple[float, float]]:
        return [(round(x, 9), round(y, 9)) for x, y in way_of_walk(plan)]

    assert way(Plan(document, 2026)) == [(0, 0), (5, 0), (0, 0)]
    gated, _ = e.add_structure(document, "gate", rectangle(1, 0.2, center=(-4, 0)), 1.2)
    assert way(Plan(gated, 2026)) == [(-4, 0), (0, 0), (5, 0), (-4, 0)]
    assert way(Plan(garden(), 2026)) == []
