"""Releases, what forbids a wish and the next best places, against all sets of rules and all places tried one by one."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain, combinations

from layout_brute_force import Placed, places_beside, relaxed
from layout_puzzles import garden_puzzle, small_puzzles

from planner.proposal.elsewhere import next_best, other_beds
from planner.proposal.greedy import greedy
from planner.proposal.puzzle import BedGround, Block, Layout, Option, Puzzle, cost_of, faults_of
from planner.proposal.release import Hopeless, Release, cheapest_release, forbidding


def _cases(count: int, seed: int) -> Iterator[tuple[Puzzle, Layout, int]]:
    """Small puzzles with each wish left out of their first layout in turn."""
    for puzzle in small_puzzles(count, seed):
        layout = greedy(puzzle)
        for wish in range(len(puzzle.unmet)):
            yield puzzle, tuple(one for one in layout if puzzle.options[one.option].wish != wish), wish


def _others(puzzle: Puzzle, layout: Layout, wishes: set[int]) -> Placed:
    return tuple((one.option, one.start) for one in layout if puzzle.options[one.option].wish not in wishes)


def _possible(puzzle: Puzzle, layout: Layout, wish: int, rules: set[int], wishes: set[int]) -> bool:
    return bool(places_beside(relaxed(puzzle, rules), _others(puzzle, layout, wishes), wish))


def _subsets(things: list[int]) -> Iterator[tuple[int, ...]]:
    return chain.from_iterable(combinations(things, size) for size in range(len(things) + 1))


def _lightest(puzzle: Puzzle, layout: Layout, wish: int) -> tuple[int, int] | None:
    """Weight and number of what has to be given up, by trying all sets of it."""
    there = sorted({puzzle.options[one.option].wish for one in layout})
    best = None
    for rules in _subsets([rule for rule, weight in enumerate(puzzle.rules) if weight is not None]):
        for wishes in _subsets(there):
            weight = sum(puzzle.rules[rule] for rule in rules) + sum(puzzle.unmet[one] for one in wishes)
            key = (weight, len(rules) + len(wishes))
            if (best is None or key < best) and _possible(puzzle, layout, wish, set(rules), set(wishes)):
                best = key
    return best


def test_the_cheapest_release_is_that_of_all_sets_tried() -> None:
    kinds = {"free": 0, "rules": 0, "wishes": 0, "hopeless": 0}
    for puzzle, layout, wish in _cases(120, 300):
        found, best = cheapest_release(puzzle, layout, wish), _lightest(puzzle, layout, wish)
        if isinstance(found, Hopeless):
            assert best is None
            kinds["hopeless"] += 1
            continue
        assert best == (found.weight, len(found.rules) + len(found.wishes))
        rest = tuple(one for one in layout if puzzle.options[one.option].wish not in found.wishes)
        without = relaxed(puzzle, set(found.rules))
        after = tuple(sorted((*rest, *found.places)))
        assert not faults_of(without, after)
        assert {without.options[one.option].wish for one in found.places} == {wish}
        kinds["wishes" if found.wishes else "rules" if found.rules else "free"] += 1
    assert min(kinds.values()) >= 3, kinds


def test_what_forbids_a_wish_does_so_and_each_member_is_needed() -> None:
    sizes = set()
    for puzzle, layout, wish in _cases(120, 900):
        rules, wishes = (set(some) for some in forbidding(puzzle, layout, wish))
        there = {puzzle.options[one.option].wish for one in layout}
        every = set(range(len(puzzle.rules)))
        sizes.add(len(rules) + len(wishes))
        if not rules and not wishes:
            free = _possible(puzzle, layout, wish, set(), set())
            assert free or not _possible(puzzle, layout, wish, every, there)
            continue
        assert not _possible(puzzle, layout, wish, every - rules, there - wishes)
        for rule in rules:
            assert _possible(puzzle, layout, wish, every - rules | {rule}, there - wishes)
        for one in wishes:
            assert _possible(puzzle, layout, wish, every - rules, there - wishes | {one})
    assert sizes >= {0, 1, 2}


def test_a_wish_longer_than_all_beds_is_told_before_anything_is_tried() -> None:
    option = Option(0, 0, 0, 2, 6, 1, 9)
    beds = (BedGround(8), BedGround(5, (Block(0, 5, 1, 9),)))
    puzzle = Puzzle(beds, (9, 9), (option, option._replace(bed=1)))
    assert cheapest_release(puzzle, (), 0) is Hopeless.TOO_LONG
    assert cheapest_release(puzzle, (), 1) is Hopeless.NO_OPTIONS
    held = puzzle._replace(options=(option._replace(length=5), option._replace(bed=1, length=5)))
    assert cheapest_release(held, (), 0) is Hopeless.HELD
    assert forbidding(held, (), 0) == ((0,), ())
    weighed = held._replace(rules=(7,))
    assert cheapest_release(weighed, (), 0) == Release(7, (0,), (), ((0, 0), (1, 0)), 0)


def test_the_next_best_places_are_those_of_all_tried() -> None:
    found = 0
    for puzzle in small_puzzles(150, 2_000):
        layout = greedy(puzzle)
        cost = cost_of(puzzle, layout)
        for wish in sorted({puzzle.options[one.option].wish for one in layout}):
            beds = {
                puzzle.options[one.option].bed for one in layout if puzzle.options[one.option].wish == wish
            }
            others = _others(puzzle, layout, {wish})
            every = [
                (price, {puzzle.options[n].bed for n, _ in mine})
                for price, mine in places_beside(puzzle, others, wish)
            ]
            new = [price for price, there in every if not there <= beds]
            ours = next_best(puzzle, layout, wish)
            assert (ours.more if ours else None) == (min(new) - cost if new else None)
            if ours:
                found += 1
                rest = [one for one in layout if puzzle.options[one.option].wish != wish]
                assert cost_of(puzzle, (*rest, *ours.places)) == cost + ours.more
                assert not faults_of(puzzle, (*rest, *ours.places))
            for other in other_beds(puzzle, layout, wish):
                with_it = [price - cost for price, there in every if other.bed in there]
                assert other.more == (min(with_it) if with_it else None)
                assert not (other.places and (other.rules or other.wishes))
    assert found > 20


def test_reasons_in_a_garden_name_what_is_there() -> None:
    puzzle = garden_puzzle(20, 30, 3)
    layout = greedy(puzzle)
    met = {puzzle.options[one.option].wish for one in layout}
    unmet = [wish for wish in range(30) if wish not in met]
    assert unmet
    for wish in unmet:
        release = cheapest_release(puzzle, layout, wish)
        assert isinstance(release, Release)
        assert set(release.wishes) <= met
        rules, wishes = forbidding(puzzle, layout, wish)
        assert bool(rules or wishes) == bool(release.rules or release.wishes)
    there = [bed for wish in sorted(met) for bed in other_beds(puzzle, layout, wish)]
    assert any(bed.more is not None for bed in there)
    assert any(bed.rules or bed.wishes for bed in there)
