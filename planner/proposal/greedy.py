"""A first layout within milliseconds: one wish after the other takes the cheapest free places.

The weightiest wishes come first, then those with the scarcest ground, then the longest.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from planner.proposal.board import Board
from planner.proposal.puzzle import Choice, Layout, Option, Puzzle
from planner.proposal.puzzle_index import PuzzleIndex, Way


def greedy(puzzle: Puzzle, index: PuzzleIndex | None = None) -> Layout:
    """A layout without faults, made without going back.

    Parameters
    ----------
    puzzle : Puzzle
    index : PuzzleIndex
        Of the puzzle, where there is one already.

    Returns
    -------
    tuple of Choice
    """
    board = Board(index or PuzzleIndex(puzzle))
    insert(board, in_order(board.index, range(len(puzzle.unmet))))
    return board.layout()


def in_order(index: PuzzleIndex, wishes: Iterable[int]) -> list[int]:
    """Wishes sorted by weight, scarcity of ground and length.

    Parameters
    ----------
    index : PuzzleIndex
    wishes : iterable of int
    """
    options = index.puzzle.options

    def key(wish: int) -> tuple[int, int, int, int]:
        ways = index.ways[wish]
        places = sum(len(way.options) for way in ways)
        longest = max((options[way.options[0]].length * way.parts for way in ways), default=0)
        return -index.puzzle.unmet[wish], places, -longest, wish

    return sorted(wishes, key=key)


def insert(board: Board, wishes: Iterable[int]) -> None:
    """Give each wish in turn the cheapest free places, if they cost no more than to leave it unmet.

    Parameters
    ----------
    board : Board
        Changed.
    wishes : iterable of int
        None of them is on the board.
    """
    for wish in wishes:
        best = cheapest_places(board, wish)
        if best is not None:
            for choice in best:
                board.put(choice)


def cheapest_places(board: Board, wish: int, open_beds: Sequence[int] | None = None) -> list[Choice] | None:
    """The cheapest free places for a wish, all others lying where they lie; None where to leave it unmet costs less.

    Parameters
    ----------
    board : Board
    wish : int
    open_beds : sequence of int
        For each bed whether it is looked at; None for all.
    """
    most = board.puzzle.unmet[wish] + 1
    best = None
    lowest = board.index.saved[wish]
    for way in board.index.ways[wish]:
        if way.least + lowest * way.parts >= most:
            continue
        search = _place_of if way.parts == 1 else _places_of
        found = search(board, way, most, lowest, open_beds)
        if found is not None:
            most, best = found
    return best


def _place_of(
    board: Board, way: Way, most: int, lowest: int, open_beds: Sequence[int] | None
) -> tuple[int, list[Choice]] | None:
    """The cheapest free place of a way with one part, and what it costs, where that is less than `most`."""
    options, known, work_out, suffices = board.puzzle.options, board.known, board.place, board.suffices
    cheapest, place = most, None
    for cost, number, bed in way.entries:
        if cost + lowest >= cheapest:
            break
        if open_beds is not None and not open_beds[bed]:
            continue
        here = known[bed]
        there = here[number] if number in here else work_out(number)
        if there is not None and there[0] < cheapest and suffices(options[number]):
            cheapest, place = there[0], Choice(number, there[1])
    return None if place is None else (cheapest, [place])


def _places_of(
    board: Board, way: Way, most: int, lowest: int, open_beds: Sequence[int] | None
) -> tuple[int, list[Choice]] | None:
    """The cheapest free places of a way with several parts, and what they cost, where that is less than `most`."""
    options, known, work_out, suffices = board.puzzle.options, board.known, board.place, board.suffices
    found: list[tuple[int, int, Choice]] = []  # the cheapest of each bed, sorted
    worst = most  # what the dearest of as many as there are parts costs
    for cost, number, bed in way.entries:
        if cost + lowest >= worst:
            break
        if open_beds is not None and not open_beds[bed]:
            continue
        here = known[bed]
        there = here[number] if number in here else work_out(number)
        if there is None or there[0] >= worst or not suffices(options[number]):
            continue
        found = [one for one in found if one[1] != bed or one[0] <= there[0]]
        if all(one[1] != bed for one in found):
            found.append((there[0], bed, Choice(number, there[1])))
            found.sort()
        if len(found) >= way.parts:
            worst = found[way.parts - 1][0]
    if len(found) < way.parts or sum(one[0] for one in found[: way.parts]) >= most:
        return None
    return _together(board, found, way.parts, options, most)


def _together(
    board: Board, found: list[tuple[int, int, Choice]], parts: int, options: tuple[Option, ...], most: int
) -> tuple[int, list[Choice]] | None:
    """The cheapest of places that are free one by one, as many as there are parts, that may be taken together."""
    total, places = 0, []
    for cost, _, choice in found:
        if board.suffices(options[choice.option]):
            board.put(choice)
            places.append(choice)
            total += cost
            if len(places) == parts:
                break
    if places:
        board.take(options[places[0].option].wish)
    return (total, places) if len(places) == parts and total < most else None
