"""Where OR-Tools is missing: one sentence that says so, and all goes on that does not need it."""

from __future__ import annotations

import subprocess
import sys

import pytest
from layout_puzzles import garden_puzzle

from planner.errors import BedwrightError
from planner.proposal.elsewhere import next_best
from planner.proposal.greedy import greedy
from planner.proposal.packing import pack
from planner.proposal.puzzle import faults_of
from planner.proposal.release import cheapest_release
from planner.proposal.search import search


def test_a_search_without_the_solver_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "ortools.sat.python", None)
    puzzle = garden_puzzle(6, 8, 1)
    start = greedy(puzzle)
    assert start
    assert not faults_of(puzzle, start)
    with pytest.raises(BedwrightError, match="OR-Tools") as told:
        next(search(puzzle, start, rounds=1))
    assert "pip install ortools" in str(told.value)
    assert "\n" not in str(told.value)
    wish = puzzle.options[start[0].option].wish
    next_best(puzzle, start, wish)
    cheapest_release(puzzle, start[1:], wish)
    assert pack(puzzle.beds[0], []).starts == ()


def test_nothing_of_it_loads_the_solver_before_a_search() -> None:
    names = ("alternatives", "bound", "elsewhere", "greedy", "packing", "release", "search")
    code = ";".join(
        (
            *(f"import planner.proposal.{name}" for name in names),
            "import sys",
            "print('ortools' in sys.modules)",
        )
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"
