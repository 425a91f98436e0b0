"""The bound by beds against all layouts tried one by one, and against the layouts of larger gardens."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from random import Random

import pytest
from layout_brute_force import all_layouts, best_cost
from layout_puzzles import garden_puzzle, small_puzzles

import planner.proposal.bound as layout_bound
import planner.proposal.search as layout_search
from planner.proposal.bed_model import BedModel
from planner.proposal.bound import bound_of_whole, lower_bound
from planner.proposal.decomposition import SCALE, Decomposition, Prices
from planner.proposal.greedy import greedy
from planner.proposal.puzzle import BedGround, Choice, Option, Puzzle, cost_of, faults_of
from planner.proposal.puzzle_index import PuzzleIndex
from planner.proposal.search import search

pytest.importorskip("ortools")


def test_no_layout_of_small_puzzles_costs_less_than_the_bound_by_beds() -> None:
    reached = nearer = 0
    with ThreadPoolExecutor(2) as pool:
        for seed, puzzle in enumerate(small_puzzles(200, 30_000)):
            least = best_cost(puzzle)
            start = greedy(puzzle)
            relaxed = Decomposition(PuzzleIndex(puzzle), start)
            relaxed.at(relaxed.prices, pool)
            first = relaxed.bound
            assert first is not None
            relaxed.go_on(pool, 3.0)
            assert relaxed.bound is not None
            assert first <= relaxed.bound <= least <= cost_of(puzzle, start), seed
            reached += relaxed.bound == least
            nearer += relaxed.bound > first
    assert reached > 100  # it is not only true, but worth something
    assert nearer > 50


def test_a_decomposition_that_is_stopped_takes_no_further_step() -> None:
    puzzle, asked = garden_puzzle(8, 12, 3), []

    def ended() -> bool:
        asked.append(len(asked))
        return len(asked) > 2

    relaxed = Decomposition(PuzzleIndex(puzzle), greedy(puzzle))
    with ThreadPoolExecutor(2) as pool:
        relaxed.go_on(pool, 100.0, ended)
    assert len(asked) == 3
    assert relaxed.bound is not None
    assert not relaxed.done


def test_any_prices_give_a_bound() -> None:
    with ThreadPoolExecutor(2) as pool:
        for seed, puzzle in enumerate(small_puzzles(40, 31_000)):
            chance, least = Random(seed), best_cost(puzzle)
            relaxed = Decomposition(PuzzleIndex(puzzle))
            usual = relaxed.prices
            for _ in range(3):
                relaxed.at(
                    Prices(
                        {key: chance.randint(-20, 80) * SCALE for key in usual.parts},
                        {key: chance.randint(0, 9) * SCALE for key in usual.beds},
                        tuple(chance.randint(0, 9) * SCALE for _ in usual.stints),
                    ),
                    pool,
                )
                assert relaxed.bound is not None
                assert relaxed.bound <= least, seed


def test_the_cheapest_pattern_of_a_bed_is_that_of_all_its_layouts() -> None:
    quick = 0
    for seed, puzzle in enumerate(small_puzzles(60, 32_000)):
        chance = Random(seed)
        index = PuzzleIndex(puzzle)
        mine = tuple(
            number
            for ways in index.ways
            for way in ways
            for number in way.options
            if puzzle.options[number].bed == 0
        )
        costs = {number: chance.randint(-20, 10) for number in mine}
        # Each option a wish by itself would be another puzzle: the same wishes, one part each, in this bed alone.
        alone = puzzle._replace(
            unmet=(0,) * len(puzzle.unmet),
            options=tuple(
                option._replace(parts=1, cost=costs.get(number, 0), way=number)
                for number, option in enumerate(puzzle.options)
            ),
            nevers=(),
        )
        kept = set(mine)
        least = min(
            cost for cost, layout in all_layouts(alone) if all(number in kept for number, _ in layout)
        )
        model = BedModel(puzzle._replace(nevers=()), 0, tuple(sorted(mine)), 1)
        found = model.cheapest(costs)
        worth = sum(costs[number] - puzzle.options[number].cost for number in found.options)
        assert found.least <= least, seed  # a pattern may be one that does not pack
        assert model.cost_of(found.options) + worth == found.least
        for pattern in (model.fitting(chance.sample(mine, len(mine))), *model.dense(costs)):
            worth = sum(costs[number] - puzzle.options[number].cost for number in pattern)
            assert model.cost_of(pattern) + worth >= found.least  # put together quickly, none breaks a rule
            quick += len(pattern) > 1
    assert quick > 30


def test_the_bound_by_beds_is_nearer_than_that_of_the_whole_model() -> None:
    puzzle = garden_puzzle(12, 18, 3)
    index, start = PuzzleIndex(puzzle), greedy(puzzle)
    whole = bound_of_whole(index, start, 1.0, 0)
    found = lower_bound(puzzle, start, effort=6.0, index=index)
    assert found is not None
    layout = found.layout or start
    assert not faults_of(puzzle, layout)
    assert whole.cost <= found.cost <= cost_of(puzzle, layout) <= cost_of(puzzle, start)
    assert lower_bound(puzzle, start, effort=6.0) == found  # the same effort, the same bound


def test_wishes_in_parts_and_stocks_are_in_the_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(layout_bound, "SMALL", -1)  # by beds alone
    beds = (BedGround(10), BedGround(10), BedGround(4))
    two = tuple(Option(0, bed, 0, 2, 5, 1, 9, 3) for bed in range(2))
    other = (Option(1, 2, 0, 1, 5, 1, 9),)  # longer than its bed
    puzzle = Puzzle(beds, (50, 7), two + other)
    bound = lower_bound(puzzle, (), effort=1.0)
    assert bound is not None
    assert (bound.cost, bound.layout, bound.proven) == (13, (Choice(0, 0), Choice(1, 0)), True)


def test_a_search_goes_on_with_what_was_proven_before_more_choices_were_forbidden(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(layout_search, "SMALL", -1)  # by beds alone
    for seed, puzzle in enumerate(small_puzzles(12, 33_000)):
        *_, before = search(puzzle, greedy(puzzle), rounds=7, seed=seed)
        choices = [(one.wish, one.bed, one.way) for one in puzzle.options]
        narrower = puzzle._replace(nevers=(*puzzle.nevers, frozenset(choices[:1])))
        wider = puzzle._replace(nevers=puzzle.nevers[1:])
        assert before.relaxed is None or before.relaxed.bounds(narrower)
        assert before.relaxed is None or not puzzle.nevers or not before.relaxed.bounds(wider)
        for other in (narrower, wider):
            least = best_cost(other)
            for step in search(other, greedy(other), rounds=6, seed=seed, relaxed=before.relaxed):
                assert not faults_of(other, step.layout)
                assert step.cost >= least
                assert step.bound is None or step.bound <= least
