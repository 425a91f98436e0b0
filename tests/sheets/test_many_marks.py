"""Very many plants on one page: those are drawn whose places can be told apart."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from planner.sheets import stamps
from planner.sheets.stamps import told_apart

MOST_MARKS = 2_000


@pytest.fixture(autouse=True)
def _fewer(monkeypatch):
    monkeypatch.setattr(stamps, "MOST_MARKS", MOST_MARKS)


def test_few_marks_all_stay():
    points = np.random.default_rng(1).uniform(0, 100, (MOST_MARKS, 2))
    assert told_apart(points) is points


def test_of_very_many_some_stay_in_their_order_and_cover_the_same_ground():
    points = np.random.default_rng(2).uniform((10, 20), (190, 120), (12 * MOST_MARKS, 2))
    kept = told_apart(points)
    assert 0.9 * MOST_MARKS < len(kept) <= 1.1 * MOST_MARKS
    places = {tuple(point): number for number, point in enumerate(points.tolist())}
    order = [places[tuple(point)] for point in kept.tolist()]
    assert order == sorted(order), "places of the drawing are places of plants"
    tree = shapely.STRtree(shapely.points(kept))
    _, apart = tree.query_nearest(shapely.points(points), return_distance=True, all_matches=False)
    assert apart.max() < 2 * np.sqrt(180 * 100 / MOST_MARKS)


def test_very_many_in_one_line_or_one_place():
    line = np.column_stack([np.linspace(0, 100, 3 * MOST_MARKS), np.zeros(3 * MOST_MARKS)])
    assert MOST_MARKS / 2 < len(told_apart(line)) <= MOST_MARKS + 1
    assert len(told_apart(np.ones((2 * MOST_MARKS, 2)))) == 1
