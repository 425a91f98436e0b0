"""Why there: what it would cost to plant a wish in another bed, and what keeps it out of the others.

All other wishes stay where they are.
"""

from __future__ import annotations

from collections import defaultdict
from typing import NamedTuple

from planner.proposal.board import Board
from planner.proposal.puzzle import Choice, Layout, Option, Puzzle, meet, need_other_ground
from planner.proposal.puzzle_index import PuzzleIndex, Way


class NextBest(NamedTuple):
    """The cheapest other places of a wish, and how much more they cost than where it is; less than nothing where less."""

    places: tuple[Choice, ...]
    more: int


class OtherBed(NamedTuple):
    """A bed in which a wish has options and is not.

    Attributes
    ----------
    bed : int
    more : int or None
        How much more it costs with a part in this bed; None where that cannot be.
    places : tuple of Choice
        All its parts then.
    rules, wishes : tuple of int
        Where it cannot be, what lies or is shut in its way: the fewest at any place in this bed.  Both are empty where the
        bed is too short, or what there is only so much of does not suffice, or choices may not all be made.
    """

    bed: int
    more: int | None
    places: tuple[Choice, ...]
    rules: tuple[int, ...]
    wishes: tuple[int, ...]


def next_best(puzzle: Puzzle, layout: Layout, wish: int, index: PuzzleIndex | None = None) -> NextBest | None:
    """The next best places of a wish, at least one part of it in another bed; None where there are none.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
        Without faults.
    wish : int
        Met in it.
    index : PuzzleIndex
        Of the puzzle, where there is one already.
    """
    board, before, cost = _without(puzzle, layout, wish, index)
    beds = {puzzle.options[choice.option].bed for choice in before}
    best = None
    for way in board.index.ways[wish]:
        best = _Combination(board, way, new=beds, best=best).best
    return None if best is None else NextBest(best[1], best[0] - cost)


def other_beds(
    puzzle: Puzzle, layout: Layout, wish: int, index: PuzzleIndex | None = None
) -> tuple[OtherBed, ...]:
    """For each bed in which a wish could stand and does not: what it would cost, or what keeps it out.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
        Without faults.
    wish : int
        Met in it or not.
    index : PuzzleIndex
        Of the puzzle, where there is one already.
    """
    board, before, cost = _without(puzzle, layout, wish, index)
    used = {puzzle.options[choice.option].bed for choice in before}
    if not before:
        cost = puzzle.unmet[wish]
    found = []
    by_bed: dict[int, list[Option]] = defaultdict(list)
    for option in puzzle.options:
        if option.wish == wish and option.bed not in used:
            by_bed[option.bed].append(option)
    for bed in sorted(by_bed):
        best = None
        for way in board.index.ways[wish]:
            best = _Combination(board, way, must=bed, best=best).best
        if best is not None:
            found.append(OtherBed(bed, best[0] - cost, best[1], (), ()))
        else:
            rules, wishes = _in_the_way(board, by_bed[bed])
            found.append(OtherBed(bed, None, (), rules, wishes))
    return tuple(found)


def _without(
    puzzle: Puzzle, layout: Layout, wish: int, index: PuzzleIndex | None
) -> tuple[Board, list[Choice], int]:
    """The layout without a wish, where it was, and what it cost there."""
    board = Board(index or PuzzleIndex(puzzle), layout)
    before = board.take(wish)
    cost = sum(board.marginal(puzzle.options[choice.option]) or 0 for choice in before)
    return board, before, cost


class _Combination:
    """The cheapest places of a way, one in each of as many beds as there are parts.

    Parameters
    ----------
    board : Board
        Without the wish.
    way : Way
    best : (int, tuple of Choice) or None
        The best of other ways.
    new : set of int
        Beds of which not all may be among those taken.
    must : int
        A bed that has to be among them.
    """

    def __init__(
        self,
        board: Board,
        way: Way,
        *,
        best: tuple[int, tuple[Choice, ...]] | None,
        new: set[int] | None = None,
        must: int | None = None,
    ) -> None:
        self.board, self.parts, self.best, self.new = board, way.parts, best, new
        self._taken: list[Choice] = []
        places = []
        for _, number, bed in way.entries:
            there = board.place(number)
            if there is not None:
                places.append((there[0], bed, Choice(number, there[1])))
        self.places = sorted(places)
        if must is None:
            self._choose(0, (), 0)
            return
        for cost, bed, choice in self.places:
            if bed == must:
                self._take(0, (), cost, bed, choice)

    def _choose(self, begin: int, beds: tuple[int, ...], total: int) -> None:
        missing = self.parts - len(beds)
        if not missing:
            cheaper = self.best is None or total < self.best[0]
            if cheaper and (self.new is None or not self.new.issuperset(beds)):
                self.best = (total, tuple(sorted(self._taken)))
            return
        for number in range(begin, len(self.places)):
            cost, bed, choice = self.places[number]
            if self.best is not None and total + missing * cost >= self.best[0]:
                return
            if bed not in beds:
                self._take(number + 1, beds, total + cost, bed, choice)

    def _take(self, begin: int, beds: tuple[int, ...], total: int, bed: int, choice: Choice) -> None:
        option = self.board.puzzle.options[choice.option]
        if not self.board.suffices(option):
            return
        self.board.put(choice)
        self._taken.append(choice)
        self._choose(begin, (*beds, bed), total)
        self._taken.pop()
        self.board.take_part(option.wish, bed)


def _in_the_way(board: Board, options: list[Option]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """What lies or is shut in the way of the options of a wish in a bed: the fewest things at any place, rules of no weight last."""
    puzzle, best = board.puzzle, None
    for option in options:
        ground = puzzle.beds[option.bed]
        here = [(one.start, one.end, False, one.rule) for one in ground.blocks if meet(option, one)]
        here += [(one.start, one.end, False, one.rule) for one in option.shut]
        apart = set()
        for piece in board.beds[option.bed]:
            other = puzzle.options[piece.option]
            if need_other_ground(option, other):
                here.append((piece.start, piece.end, True, piece.wish))
            if meet(option, other) and piece.wish in board.index.hard.get(option.wish, ()):
                apart.add((True, piece.wish))
        for at in sorted({0, *(end for _, end, _, _ in here)}):
            if 0 <= at <= ground.length - option.length:
                end = at + option.length
                needs = apart | {
                    (is_wish, n) for start, stop, is_wish, n in here if start < end and at < stop
                }
                key = (sum(not w and puzzle.rules[n] is None for w, n in needs), len(needs), sorted(needs))
                if best is None or key < best:
                    best = key
    if best is None:
        return (), ()
    return tuple(n for w, n in best[2] if not w), tuple(n for w, n in best[2] if w)
