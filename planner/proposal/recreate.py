"""Quick improvement of a layout: a few beds are cleared and what stood there is laid anew, thousands of times.

Needs no solver.  What is worse is put back as it was.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from planner.proposal.board import Board
from planner.proposal.greedy import cheapest_places, in_order
from planner.proposal.puzzle import Choice

#: Most wishes that are taken up at once, and unmet ones that are tried beside them.
MOST_TAKEN, MOST_UNMET = 5, 3
#: Beds that are cleared beside those of one wish.
MOST_CLEARED = 2
#: So many beds, and those that were cleared, are looked at in one turn.
MOST_OPEN = 80
#: A wish is left out of a turn once in so many times, for others to come before it.
LEFT_OUT = 0.02


class Recreator:
    """Improves the layout of a board.

    Parameters
    ----------
    board : Board
        Changed by each run.
    chance : Random
    """

    def __init__(self, board: Board, chance: Random) -> None:
        self.board, self.chance = board, chance
        wishes = [wish for wish, ways in enumerate(board.index.ways) if ways]
        self._rank = {wish: place for place, wish in enumerate(in_order(board.index, wishes))}
        options = board.puzzle.options
        self._size: dict[int, int] = {}
        for wish in wishes:
            first = [options[way.options[0]] for way in board.index.ways[wish]]
            self._size[wish] = max(one.length * (one.last - one.first + 1) for one in first)
        self._wishes: list[int] = []
        self._mine: set[int] = set()
        self._beds: Sequence[int] = ()
        self._closed = False

    def run(self, times: int, wishes: Sequence[int], beds: Sequence[int]) -> int:
        """Clear and lay anew so many times; what was saved.

        Parameters
        ----------
        times : int
        wishes : sequence of int
            Those that may be taken up, unmet or lying in these beds alone.
        beds : sequence of int
            Those in which anything may change.
        """
        self._mine = {wish for wish in wishes if wish in self._rank}
        self._wishes = sorted(self._mine)
        self._beds = beds
        self._closed = len(beds) < len(self.board.beds)
        return sum(self._turn() for _ in range(times if self._wishes and beds else 0))

    def _turn(self) -> int:
        board, chance = self.board, self.chance
        taken = self._taken()
        board.remember()
        before: list[Choice] = []
        saved = 0
        for wish in taken:
            choices = board.take(wish)
            saved += self._worth(choices) - board.puzzle.unmet[wish]
            before += choices
        unmet = [wish for wish in self._wishes if wish not in board.places and wish not in taken]
        tried = [*taken, *chance.sample(unmet, min(len(unmet), MOST_UNMET))]
        self._sort(tried)
        open_beds = self._open(before)
        added = 0
        laid = []
        for wish in tried:
            if chance.random() < LEFT_OUT:
                continue
            found = cheapest_places(board, wish, open_beds)
            if found is not None:
                laid.append(wish)
                added += self._lay(found) - board.puzzle.unmet[wish]
        if added > saved:
            board.go_back(laid, before)
            return 0
        return saved - added

    def _taken(self) -> list[int]:
        """A wish, and those of a few beds that it would like."""
        board, chance = self.board, self.chance
        wish = chance.choice(self._wishes)
        way = chance.choice(board.index.ways[wish])
        taken: dict[int, None] = {wish: None} if wish in board.places else {}
        beds = [*board.places.get(wish, ())]
        for _ in range(chance.randint(1, MOST_CLEARED)):
            # The cheap ones most often; what is far down the list now and then.
            beds.append(way.entries[int(len(way.entries) * chance.random() ** 3)][2])
        for bed in beds:
            pieces = board.beds[bed]
            if len(pieces) > 4 and chance.random() < 0.5:
                pieces = chance.sample(pieces, chance.randint(1, len(pieces)))
            for piece in pieces:
                if piece.wish in self._mine:
                    taken[piece.wish] = None
            if len(taken) >= MOST_TAKEN:
                break
        return list(taken)

    def _open(self, before: list[Choice]) -> bytearray | None:
        """Which beds are looked at: some where they are many, those that were cleared always; None for all."""
        if not self._closed and len(self._beds) <= MOST_OPEN:
            return None
        flags = bytearray(len(self.board.beds))
        for bed in self._beds if len(self._beds) <= MOST_OPEN else self.chance.sample(self._beds, MOST_OPEN):
            flags[bed] = 1
        for choice in before:
            flags[self.board.puzzle.options[choice.option].bed] = 1
        return flags

    def _sort(self, wishes: list[int]) -> None:
        self.chance.shuffle(wishes)
        kind = self.chance.random()
        if kind < 0.35:
            wishes.sort(key=self._rank.__getitem__)
        elif kind < 0.65:
            wishes.sort(key=lambda wish: -self._size[wish])
        elif kind < 0.8:
            wishes.sort(key=lambda wish: len(self.board.index.ways[wish]))

    def _lay(self, choices: list[Choice]) -> int:
        cost = 0
        for choice in choices:
            cost += self.board.marginal(self.board.puzzle.options[choice.option]) or 0
            self.board.put(choice)
        return cost

    def _worth(self, choices: list[Choice]) -> int:
        """What was saved by taking choices away that are no longer on the board.  Each lay in a bed of its own."""
        return sum(self.board.marginal(self.board.puzzle.options[choice.option]) or 0 for choice in choices)
