"""What no layout can cost less than; for puzzles that are small enough for it.

Small ones are modelled as a whole.  The model knows how long the plantings of a bed are on each day, and not where along it
they lie, but for what was found not to pack.  A layout that holds every rule is one of its solutions, so its bound is one of
the layouts as well; and where its cheapest solution packs, that one is the best there is.  Where that is not proven in half
of the time, and for larger puzzles, the bound is that of the decomposition by beds (:mod:`planner.proposal.decomposition`),
which is much nearer; what it finds promising is then modelled as a whole, for a better layout.
"""

from __future__ import annotations

from collections.abc import Iterable
from concurrent.futures import Executor, ThreadPoolExecutor
from typing import NamedTuple

from planner.proposal.board import Board
from planner.proposal.decomposition import Decomposition
from planner.proposal.greedy import in_order, insert
from planner.proposal.layout_model import Cut, Free, LayoutModel
from planner.proposal.neighbourhood import pack_beds
from planner.proposal.packing import pack
from planner.proposal.puzzle import Choice, Layout, Puzzle, cost_of
from planner.proposal.puzzle_index import PuzzleIndex, by_wish

#: Puzzles of no more options are solved as a whole.
SMALL = 1_500
#: Larger puzzles have no bound: it would take minutes and gigabytes.
MOST_OPTIONS = 15_000
#: Deterministic time of CP-SAT for a whole model, where nothing is said; about as many seconds.
EFFORT = 20.0
#: Share of it that goes to the bound of a large puzzle; the rest is for a better layout.
TO_BOUND = 0.8
#: How much dearer than nothing an option of the decomposition may be to be promising: two models, solved side by side.
PROMISING = (5.0, 15.0)


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

    Raises
    ------
    SolverError
        Where OR-Tools is not installed.
    """
    if len(puzzle.options) > MOST_OPTIONS:
        return None
    index = index or PuzzleIndex(puzzle)
    if not any(index.ways):
        return Bound(sum(puzzle.unmet), None, True)
    cost, found = cost_of(puzzle, layout), Bound(least_possible(index), None, False)
    if len(puzzle.options) <= SMALL:
        found = bound_of_whole(index, layout, effort / 2, seed)
        if found.proven:
            return found
        effort /= 2
    best = found.layout or layout
    relaxed = Decomposition(index, best)
    with ThreadPoolExecutor(2) as pool:
        relaxed.go_on(pool, effort * TO_BOUND)
        better = best_of_promising(index, relaxed, best, pool, effort * (1 - TO_BOUND), seed)
    best = better or best
    bound = max(found.cost, relaxed.bound if relaxed.bound is not None else found.cost)
    least = cost_of(puzzle, best)
    return Bound(min(bound, least), best if least < cost else None, bound >= least)


def best_of_promising(
    index: PuzzleIndex, relaxed: Decomposition, layout: Layout, pool: Executor, effort: float, seed: int
) -> Layout | None:
    """The best layout made of options that a decomposition finds promising, and of those of a layout; None where that is no worse.

    Parameters
    ----------
    index : PuzzleIndex
    relaxed : Decomposition
        Of the puzzle, or of one with fewer nevers.
    layout : tuple of Choice
        Without faults.
    pool : Executor
        In which two models are solved side by side.
    effort : float
        Deterministic time of CP-SAT for each.
    seed : int
    """
    board = Board(index, layout)
    known = [choice.option for choice in layout]
    able = {number for ways in index.ways for way in ways for number in way.options}
    chosen = dict.fromkeys(tuple(sorted(able & {*relaxed.promising(most), *known})) for most in PROMISING)

    def solved(options: tuple[int, ...]) -> Layout | None:
        model = _model_of(index, options)
        there = model.solve(known, effort, seed).options
        if there is None:
            return None
        choices, failed = pack_beds(board, model.free.fixed, there)
        return _with_the_rest(index, choices, {bed for bed, _ in failed})

    found = [one for one in pool.map(solved, chosen) if one is not None]
    best = min(found, key=lambda one: (cost_of(index.puzzle, one), one), default=None)
    return best if best is not None and cost_of(index.puzzle, best) < cost_of(index.puzzle, layout) else None


def _with_the_rest(index: PuzzleIndex, choices: Iterable[Choice], failed: set[int]) -> Layout:
    """A layout of choices that pack; wishes with a part in a bed that does not are placed where else there is room."""
    options = index.puzzle.options
    there = by_wish(index.puzzle, tuple(choices))
    whole = {wish: mine for wish, mine in there.items() if len(mine) == options[mine[0].option].parts}
    board = Board(index, tuple(sorted(choice for mine in whole.values() for choice in mine)))
    if failed:
        insert(board, in_order(index, (wish for wish in range(len(index.ways)) if wish not in whole)))
    return board.layout()


def _model_of(index: PuzzleIndex, options: Iterable[int]) -> LayoutModel:
    """The model in which each wish may be met by some of its options, in beds in which nothing else lies."""
    wishes = tuple(wish for wish, ways in enumerate(index.ways) if ways)
    some = tuple(options)
    beds: dict[int, tuple[()]] = {index.puzzle.options[number].bed: () for number in some}
    return LayoutModel(index.puzzle, Free(wishes, some, beds), {})


def bound_of_whole(index: PuzzleIndex, layout: Layout, effort: float, seed: int) -> Bound:
    """The bound by a model of the whole puzzle.

    Parameters
    ----------
    index : PuzzleIndex
    layout : tuple of Choice
        Without faults: where the solver begins.
    effort : float
        Deterministic time of CP-SAT altogether.
    seed : int
    """
    puzzle = index.puzzle
    best, cost = None, cost_of(puzzle, layout)
    hopeless = sum(weight for wish, weight in enumerate(puzzle.unmet) if not index.ways[wish])
    board = Board(index, layout)
    model = _model_of(index, (number for ways in index.ways for way in ways for number in way.options))
    bound = least_possible(index)
    hint = tuple(choice.option for choice in layout)
    while effort > 0:
        solved = model.solve(hint, effort, seed)
        effort -= max(solved.spent, 0.01)
        if solved.bound > -(1 << 60):
            bound = max(bound, solved.bound + hopeless)
        if solved.options is None:
            break
        choices, failed = pack_beds(board, model.free.fixed, solved.options)
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
