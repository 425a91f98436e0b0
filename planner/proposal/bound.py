"""What no layout can cost less than, by the whole model at once; for puzzles that are small enough for it.

The model knows how long the plantings of a bed are on each day, and not where along it they lie, but for what was found
not to pack.  A layout that holds every rule is one of its solutions, so its bound is one of the layouts as well; and where
its cheapest solution packs, that one is the best there is.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from typing import Any, NamedTuple

from planner.proposal.board import Board
from planner.proposal.layout_model import Cut, Free, LayoutModel
from planner.proposal.neighbourhood import pack_beds
from planner.proposal.packing import pack
from planner.proposal.puzzle import Layout, Puzzle, cost_of
from planner.proposal.puzzle_index import PuzzleIndex

#: Larger puzzles are not modelled as a whole: it would take minutes and gigabytes.
MOST_OPTIONS = 15_000
#: Deterministic time of CP-SAT for a whole model, where nothing is said; about as many seconds.
EFFORT = 20.0


class Bound(NamedTuple):
    """What no layout can cost less than.

    Attributes
    ----------
    cost : int
        No layout that holds every rule costs less.
    layout : tuple of Choice or None
        The best one that was come across, where it costs less than the one that was given.
    proven : bool
        Whether the better of the two layouts costs just that.
    """

    cost: int
    layout: Layout | None
    proven: bool


def least_possible(index: PuzzleIndex) -> int:
    """What no layout costs less than, if each wish had the garden for itself: rough, and there at once.

    Parameters
    ----------
    index : PuzzleIndex
    """
    total = 0
    for wish, ways in enumerate(index.ways):
        total += min([index.puzzle.unmet[wish], *(way.least + way.parts * index.saved[wish] for way in ways)])
    return total


def lower_bound(
    puzzle: Puzzle,
    layout: Layout,
    *,
    effort: float = EFFORT,
    seed: int = 0,
    index: PuzzleIndex | None = None,
    watch: Callable[[Any], None] | None = None,
) -> Bound | None:
    """A proven lower bound of what a layout costs; None where the puzzle is too large.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
        Without faults: where the solver begins.
    effort : float
        Deterministic time of CP-SAT altogether: the same effort and seed give the same bound.
    seed : int
    index : PuzzleIndex
        Of the puzzle, where there is one already.
    watch : callable
        Gets the solver before it begins, to be able to stop it.

    Raises
    ------
    SolverError
        Where OR-Tools is not installed.
    """
    if len(puzzle.options) > MOST_OPTIONS:
        return None
    index = index or PuzzleIndex(puzzle)
    wishes = tuple(wish for wish, ways in enumerate(index.ways) if ways)
    options = tuple(number for wish in wishes for way in index.ways[wish] for number in way.options)
    best, cost = None, cost_of(puzzle, layout)
    hopeless = sum(weight for wish, weight in enumerate(puzzle.unmet) if not index.ways[wish])
    if not options:
        return Bound(hopeless, None, True)
    board = Board(index, layout)
    empty: dict[int, tuple[()]] = {puzzle.options[number].bed: () for number in options}
    cuts: dict[int, list[Cut]] = defaultdict(list)
    model = LayoutModel(puzzle, Free(wishes, options, empty), cuts)
    bound = least_possible(index)
    hint = tuple(choice.option for choice in layout)
    while effort > 0:
        solved = model.solve(hint, effort, seed, watch)
        effort -= max(solved.spent, 0.01)
        if solved.bound > -(1 << 60):
            bound = max(bound, solved.bound + hopeless)
        if solved.options is None:
            break
        choices, failed = pack_beds(board, empty, solved.options)
        if not failed:
            found = tuple(sorted(choices))
            if cost_of(puzzle, found) < cost:
                best, cost = found, cost_of(puzzle, found)
        elif solved.optimal:
            if not _cut_off(puzzle, model, failed):
                break
            continue
        break
    return Bound(min(bound, cost), best, bound >= cost)


def _cut_off(puzzle: Puzzle, model: LayoutModel, failed: list[tuple[int, Cut]]) -> bool:
    """Cut off what certainly does not pack; whether there is any."""
    certain = False
    for bed, cut in failed:
        packing = pack(puzzle.beds[bed], [puzzle.options[number] for number in sorted(cut)])
        if packing.starts is None and packing.proven:
            model.forbid(cut)
            certain = True
    return certain
