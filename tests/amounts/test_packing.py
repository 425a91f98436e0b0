"""Trays on a bench against the best of all packings, found by trying every one."""

from __future__ import annotations

import itertools
from functools import cache

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, milp

from planner.amounts.packing import most_trays


def brute_force(length: int, width: int, long: int, short: int) -> int:
    """Most pieces on a board of squares, by trying for the first free square: each piece there, or none."""
    board = length * width
    shapes = {(long, short), (short, long)}

    def mask(x: int, y: int, wide: int, high: int) -> int:
        return sum(1 << ((y + j) * length + x + i) for i in range(wide) for j in range(high))

    @cache
    def best(taken: int) -> int:
        free = next((spot for spot in range(board) if not taken >> spot & 1), None)
        if free is None:
            return 0
        y, x = divmod(free, length)
        found = best(taken | 1 << free)
        for wide, high in shapes:
            if x + wide <= length and y + high <= width:
                piece = mask(x, y, wide, high)
                if not taken & piece:
                    found = max(found, 1 + best(taken | piece))
        return found

    return best(0)


BOARDS = [
    (length, width, long, short)
    for long, short in ((2, 1), (3, 1), (3, 2), (4, 3), (5, 2), (5, 3))
    for length, width in itertools.combinations_with_replacement(range(1, 8), 2)
    if length * width <= 49
]


@pytest.mark.parametrize("board", BOARDS, ids=str)
def test_no_packing_holds_more(board):
    length, width, long, short = board
    assert most_trays(length / 10, width / 10, long / 10, short / 10) == brute_force(*board)


def by_integer_programming(length: int, width: int, long: int, short: int) -> int:
    """Most pieces on a board, by another way: a yes or no for each piece at each square, no square taken twice."""
    places = [
        (x, y, wide, high)
        for wide, high in ((long, short), (short, long))
        for x in range(length - wide + 1)
        for y in range(width - high + 1)
    ]
    covers = np.zeros((length * width, len(places)))
    for number, (x, y, wide, high) in enumerate(places):
        for i in range(wide):
            for j in range(high):
                covers[(y + j) * length + x + i, number] = 1
    found = milp(
        -np.ones(len(places)), constraints=LinearConstraint(covers, ub=1), integrality=1, bounds=Bounds(0, 1)
    )
    assert found.success
    return round(-found.fun)


# Boards on which a pinwheel of pieces about a middle beats straight cuts, or may
@pytest.mark.parametrize(
    "board",
    [(5, 5, 3, 2), (7, 7, 4, 3), (13, 11, 4, 3), (14, 11, 4, 3), (16, 13, 5, 3), (17, 17, 5, 3)],
    ids=str,
)
def test_no_solver_packs_more(board):
    length, width, long, short = board
    assert most_trays(length / 10, width / 10, long / 10, short / 10) == by_integer_programming(*board)


SIDES = st.floats(0.02, 8.0)


@settings(max_examples=80, deadline=None)
@given(SIDES, SIDES)
def test_trays_fit_by_area_and_turning_the_bench_changes_nothing(length, width):
    found = most_trays(length, width, 0.538, 0.279)
    assert found == most_trays(width, length, 0.279, 0.538)
    assert found * 0.538 * 0.279 <= length * width + 1e-2 * (length + width)
    rows = int(length / 0.538) * int(width / 0.279), int(length / 0.279) * int(width / 0.538)
    assert found >= max(rows)


@settings(max_examples=40, deadline=None)
@given(SIDES, SIDES, st.floats(0, 0.5))
def test_a_longer_bench_never_holds_less(length, width, more):
    assert most_trays(length + more, width, 0.538, 0.279) >= most_trays(length, width, 0.538, 0.279)


def test_a_bench_as_long_as_its_trays_holds_them():
    assert most_trays(2 * 0.538, 0.279, 0.538, 0.279) == 2
    assert most_trays(0.56, 1.12, 0.56, 0.28) == 4
    assert most_trays(0.2, 3.0, 0.538, 0.279) == 0
    assert most_trays(20.0, 1.2, 0.538, 0.279) == 37 * 4
