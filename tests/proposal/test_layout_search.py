"""The layouts found against all layouts tried one by one, and against gardens cut from a full plan."""

from __future__ import annotations

import os
import subprocess
import sys
from itertools import pairwise
from pathlib import Path
from random import Random

import pytest
from layout_brute_force import all_layouts
from layout_puzzles import cut_from_plan, garden_puzzle, small_puzzles

from planner.proposal.bound import MOST_OPTIONS, lower_bound
from planner.proposal.greedy import greedy
from planner.proposal.puzzle import BedGround, Choice, Option, Puzzle, cost_of, faults_of
from planner.proposal.search import Step, search

pytest.importorskip("ortools")


def _last(puzzle: Puzzle, rounds: int, seed: int = 0) -> Step:
    return list(search(puzzle, greedy(puzzle), rounds=rounds, seed=seed))[-1]


def test_small_puzzles_against_all_their_layouts() -> None:
    tried = 0
    for seed, puzzle in enumerate(small_puzzles(60)):
        costs = [cost for cost, _ in all_layouts(puzzle)]
        tried += len(costs)
        start = greedy(puzzle)
        assert not faults_of(puzzle, start), seed
        step = _last(puzzle, 3)
        assert not faults_of(puzzle, step.layout)
        assert (step.cost, step.proven, step.bound) == (min(costs), True, min(costs)), seed
        assert cost_of(puzzle, step.layout) == step.cost
    assert tried > 10_000


def test_what_a_layout_breaks_and_costs_is_what_trying_all_says() -> None:
    broken = whole = 0
    for seed, puzzle in enumerate(small_puzzles(25, 5_000)):
        chance = Random(seed)
        costs = {layout: cost for cost, layout in all_layouts(puzzle)}
        for _ in range(80):
            some = sorted(
                chance.sample(range(len(puzzle.options)), min(len(puzzle.options), chance.randint(0, 3)))
            )
            layout = tuple(Choice(number, chance.randint(0, 4)) for number in some)
            if faults_of(puzzle, layout):
                broken += 1
                assert layout not in costs
            else:
                whole += 1
                assert costs[layout] == cost_of(puzzle, layout)
    assert min(broken, whole) > 300


@pytest.mark.parametrize("seed", range(3))
def test_a_garden_cut_from_a_full_plan_is_laid_at_least_as_well(seed: int) -> None:
    puzzle, plan = cut_from_plan(Random(seed), 5, 14)
    assert not faults_of(puzzle, plan)
    step = _last(puzzle, 25)
    assert not faults_of(puzzle, step.layout)
    assert step.cost <= cost_of(puzzle, plan)


def test_each_step_holds_every_rule_and_is_no_dearer() -> None:
    puzzle = garden_puzzle(10, 14, 5)
    steps = list(search(puzzle, greedy(puzzle), rounds=6))
    assert [step.round for step in steps] == list(range(len(steps)))
    for one, other in pairwise(steps):
        assert other.cost <= one.cost
    for step in steps:
        assert not faults_of(puzzle, step.layout)
        assert cost_of(puzzle, step.layout) == step.cost
    assert steps[-1].cost < steps[0].cost


_RUN = """
import sys
sys.path.insert(0, sys.argv[1])
from layout_puzzles import garden_puzzle
from planner.proposal.greedy import greedy
from planner.proposal.search import search
puzzle = garden_puzzle(10, 14, 5)
print([(step.cost, step.layout, step.bound) for step in search(puzzle, greedy(puzzle), rounds=2, seed=3)])
"""


def test_same_seed_and_rounds_give_the_same_layouts_in_every_process() -> None:
    tests = Path(__file__).parent.parent
    found = {
        subprocess.run(
            [sys.executable, "-c", _RUN, str(tests)],
            env={**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": str(tests.parent)},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for hash_seed in ("1", "77")
    }
    puzzle = garden_puzzle(10, 14, 5)
    here = [(step.cost, step.layout, step.bound) for step in search(puzzle, greedy(puzzle), rounds=2, seed=3)]
    assert found == {f"{here}\n"}


def test_puzzles_with_next_to_nothing_in_them() -> None:
    bed, wish = BedGround(10), Option(0, 0, 0, 1, 4, 1, 9, -3)
    for puzzle, cost in (
        (Puzzle((), (), ()), 0),
        (Puzzle((bed,), (), ()), 0),
        (Puzzle((), (7,), ()), 7),
        (Puzzle((bed,), (7,), ()), 7),
        (Puzzle((BedGround(0),), (7,), (wish,)), 7),
        (Puzzle((bed,), (7,), (wish,)), -3),
        (Puzzle((bed,), (7,), (wish._replace(parts=2),)), 7),
        (Puzzle((bed,), (0,), (wish._replace(cost=4),)), 0),
    ):
        step = _last(puzzle, 2)
        assert (step.cost, step.bound, step.proven) == (cost, cost, True)


def test_a_search_stops_when_told_and_after_its_rounds() -> None:
    puzzle = garden_puzzle(10, 14, 5)
    start = greedy(puzzle)
    assert [step.round for step in search(puzzle, start, stop=lambda: True)] == [0]
    assert [step.round for step in search(puzzle, start, seconds=0)] == [0]
    assert [step.round for step in search(puzzle, start, rounds=0)] == [0]
    with pytest.raises(ValueError, match="faults"):
        next(search(puzzle, start[1:] + start[-1:]))


def test_a_puzzle_too_large_for_a_bound_has_none() -> None:
    puzzle = garden_puzzle(8, 10, 5)
    assert (
        lower_bound(puzzle._replace(options=puzzle.options * (MOST_OPTIONS // len(puzzle.options) + 1)), ())
        is None
    )


def test_a_garden_of_middle_size_has_a_bound_below_its_cost() -> None:
    puzzle = garden_puzzle(10, 14, 2)
    layout = _last(puzzle, 3).layout
    bound = lower_bound(puzzle, layout, effort=2.0)
    assert bound is not None
    assert bound.cost <= cost_of(puzzle, bound.layout or layout) <= cost_of(puzzle, layout)
