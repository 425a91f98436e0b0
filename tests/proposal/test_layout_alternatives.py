"""Unlike layouts: each is checked for what it promises, and small cases of which it is known whether there are any."""

from __future__ import annotations

import pytest
from layout_brute_force import all_layouts
from layout_puzzles import garden_puzzle, small_puzzles

from planner.proposal.alternatives import alternatives, difference
from planner.proposal.greedy import greedy
from planner.proposal.puzzle import BedGround, Choice, Option, Puzzle, cost_of, faults_of
from planner.proposal.search import search

pytest.importorskip("ortools")


def _best(puzzle: Puzzle, rounds: int) -> tuple[Choice, ...]:
    return list(search(puzzle, greedy(puzzle), rounds=rounds))[-1].layout


def test_layouts_of_a_garden_are_as_unlike_and_as_cheap_as_promised() -> None:
    puzzle = garden_puzzle(10, 12, 4)
    best = _best(puzzle, 6)
    cost = cost_of(puzzle, best)
    found = alternatives(puzzle, best, 2, factor=1.3, share=0.25, rounds=4)
    assert found
    known = [best]
    for one in found:
        assert not faults_of(puzzle, one.layout)
        assert one.cost == cost_of(puzzle, one.layout) <= cost + 0.3 * abs(cost)
        assert one.differs == min(difference(puzzle, one.layout, other) for other in known) >= 0.25
        known.append(one.layout)


def test_two_beds_alike_can_be_swapped_and_one_alone_cannot() -> None:
    options = tuple(Option(wish, bed, 0, 1, 6, 1, 9, 5) for wish in range(2) for bed in range(2))
    puzzle = Puzzle((BedGround(8), BedGround(8)), (50, 50), options)
    best = _best(puzzle, 2)
    (swapped,) = alternatives(puzzle, best, 3, share=0.9, rounds=3)
    assert (swapped.cost, swapped.differs) == (10, 1.0)
    alone = Puzzle((BedGround(8),), (50,), options[:1])
    assert alternatives(alone, _best(alone, 2), 3, rounds=2) == ()
    assert alternatives(Puzzle((), (), ()), (), 3, rounds=2) == ()


def test_none_is_found_where_trying_all_finds_none() -> None:
    some = 0
    for puzzle in small_puzzles(12, 7_000):
        best = _best(puzzle, 2)
        most = cost_of(puzzle, best) + abs(cost_of(puzzle, best)) * 0.5
        there = any(
            difference(puzzle, tuple(Choice(*one) for one in layout), best) >= 0.5
            for cost, layout in all_layouts(puzzle)
            if cost <= most
        )
        found = alternatives(puzzle, best, 1, factor=1.5, share=0.5, rounds=2)
        assert there or not found
        some += bool(found)
    assert some
