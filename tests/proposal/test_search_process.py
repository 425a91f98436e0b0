"""The search in a process of its own finds what the search here finds, stops at once, and says what went wrong."""

from __future__ import annotations

import pytest
from layout_puzzles import garden_puzzle

from planner.proposal.greedy import greedy
from planner.proposal.puzzle import Choice
from planner.proposal.search import search
from planner.proposal.search_process import SearchProcess

pytest.importorskip("ortools")
PUZZLE = garden_puzzle(8, 14)
START = greedy(PUZZLE)


def test_steps_are_those_of_the_search_here_one_search_after_another_and_a_fault_comes_back():
    apart = SearchProcess()
    try:
        assert list(apart.search(PUZZLE, START, rounds=3, seed=5)) == list(
            search(PUZZLE, START, rounds=3, seed=5)
        )
        process = apart._process
        assert list(apart.search(PUZZLE, START, rounds=1)) == list(search(PUZZLE, START, rounds=1))
        assert apart._process is process
        with pytest.raises(ValueError, match="the start of the search has faults"):
            list(apart.search(PUZZLE, (Choice(0, -5),), rounds=1))
        assert len(list(apart.search(PUZZLE, START, rounds=1))) == 2

        stopped = False
        found = []
        for step in apart.search(PUZZLE, START, stop=lambda: stopped):
            found.append(step)
            stopped = True
        assert len(found) == 1
        assert apart._process is None
        assert process is not None
        assert list(apart.search(PUZZLE, START, stop=lambda: True)) == []
    finally:
        apart.close()
    assert apart._process is None
