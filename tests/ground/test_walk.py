"""The walking order, against all orders of few beds."""

from __future__ import annotations

import itertools
import random

import numpy as np
import pytest

from planner.garden import Garden, Structure
from planner.garden import edits as e
from planner.ground.walk import WalkInputs, short_round, walking_order
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from tests.making import bed, garden, rectangle


def length(start: np.ndarray, points: np.ndarray, order: list[int]) -> float:
    way = np.vstack([start, points[order], start])
    return float(np.hypot(*np.diff(way, axis=0).T).sum())


def test_a_round_is_hardly_longer_than_the_shortest_of_all():
    chance = np.random.default_rng(7)
    ratios = []
    for _ in range(60):
        start, points = chance.uniform(0, 20, 2), chance.uniform(0, 20, (7, 2))
        shortest = min(length(start, points, list(order)) for order in itertools.permutations(range(7)))
        ratios.append(length(start, points, short_round(start, points)) / shortest)
    assert min(ratios) >= 1 - 1e-9
    assert max(ratios) <= 1.25
    assert np.mean(ratios) <= 1.02


def test_every_bed_is_on_the_round_once():
    chance = np.random.default_rng(3)
    for count in (1, 2, 3, 40, 700):
        order = short_round(chance.uniform(0, 50, 2), chance.uniform(0, 50, (count, 2)))
        assert sorted(order) == list(range(count))


def rows_of_beds() -> list:
    """Two rows of four beds each, listed at random."""
    beds = [bed(f"b{i}{j}", rectangle(4, 1, center=(5.0 * i, 3.0 * j))) for i in range(4) for j in range(2)]
    random.Random(1).shuffle(beds)
    return beds


def test_it_goes_round_from_the_gate():
    gate = Structure(id="s1", kind="gate", outline=rectangle(1, 0.2, center=(-4, 0)), height=1.2)
    plan = Plan(garden(*rows_of_beds(), structures=(gate,)), 2026)
    order = [one.id for one in beds_in_walking_order(plan)]
    there = ["b00", "b10", "b20", "b30", "b31", "b21", "b11", "b01"]
    assert order in (there, [*reversed(there)])


def test_an_order_by_hand_comes_first_and_beds_that_are_gone_are_passed_over():
    plan = Plan(e.change_site(garden(*rows_of_beds()), walk=("b31", "gone", "b00", "b31")), 2026)
    order = [one.id for one in beds_in_walking_order(plan)]
    assert order[:2] == ["b31", "b00"]
    assert order[2] in ("b10", "b01")  # the nearest of the others
    assert len(order) == 8


def test_a_gate_that_is_not_there_yet_does_not_count():
    gate = Structure(
        id="s1", kind="gate", outline=rectangle(1, 0.2, center=(30, 30)), height=1.2, first_year=2030
    )
    beds = rows_of_beds()
    now, later = (
        beds_in_walking_order(Plan(garden(*beds, structures=(gate,)), year)) for year in (2026, 2030)
    )
    assert now[0].id == beds[0].id
    assert later[0].id == "b31"


def test_the_order_of_a_plan_is_kept_until_beds_change():
    document: Garden = garden(*rows_of_beds())
    plan = Plan(document, 2026)
    first = beds_in_walking_order(plan)
    after = plan.after(e.change_site(document, walk=("b31",)))
    assert beds_in_walking_order(after)[0].id == "b31"
    assert beds_in_walking_order(plan) is first


@pytest.mark.parametrize("count", [0, 1])
def test_few_beds(count):
    beds = tuple(rows_of_beds()[:count])
    assert walking_order(WalkInputs(beds, (), ())) == beds
