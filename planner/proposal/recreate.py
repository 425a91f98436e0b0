"""Quick improvement of a layout: a few beds are cleared and what stood there is laid anew, thousands of times.

Needs no solver.  Now and then a somewhat worse layout is gone on with, ever more rarely; the best one is kept.
"""

from __future__ import annotations

import math
from random import Random

from planner.proposal.board import Board
from planner.proposal.greedy import cheapest_places, in_order
from planner.proposal.puzzle import Choice, Layout

#: Most wishes that are taken up at once, and unmet ones that are tried beside them.
MOST_TAKEN, MOST_UNMET = 10, 4
#: So many beds, and those that were cleared, are looked at in one turn.
MOST_OPEN = 25


class Recreator:
    """Improves the layout of a board.

    Parameters
    ----------
    board : Board
        Its own: changed.
    cost : int
        Of the layout on the board.
    chance : Random
    """

    def __init__(self, board: Board, cost: int, chance: Random) -> None:
        self.board, self.cost, self.chance = board, cost, chance
        self.best, self.best_cost = board.layout(), cost
        self.wishes = [wish for wish, ways in enumerate(board.index.ways) if ways]
        self.rank = {wish: place for place, wish in enumerate(in_order(board.index, self.wishes))}
        options = board.puzzle.options
        self.size = {
            wish: max(options[n].length * (options[n].last - options[n].first + 1) for n in (way.options[0] for way in board.index.ways[wish]))
            for wish in self.wishes
        }

    def run(self, times: int, warm: float, cold: float) -> Layout:
        """Clear and lay anew so many times; the best layout so far.

        Parameters
        ----------
        times : int
        warm, cold : float
            How much worse a layout may be to be gone on with, by the scale of an exponential; at first and at last.
        """
        for turn in range(times if self.wishes else 0):
            heat = warm * (cold / warm) ** (turn / times)
            self._turn(heat)
        return self.best

    def _turn(self, heat: float) -> None:
        board, chance = self.board, self.chance
        taken = self._taken()
        board.remember()
        before: list[Choice] = []
        saved = 0
        for wish in taken:
            choices = board.take(wish)
            saved += self._worth(choices) - board.puzzle.unmet[wish]
            before += choices
        unmet = [wish for wish in self.wishes if wish not in board.places and wish not in taken]
        tried = [*taken, *chance.sample(unmet, min(len(unmet), MOST_UNMET))]
        self._sort(tried)
        open_beds = self._open(before)
        added = 0
        laid = []
        for wish in tried:
            if chance.random() < 0.02:
                continue
            found = cheapest_places(board, wish, open_beds)
            if found is not None:
                laid.append(wish)
                added += self._lay(found) - board.puzzle.unmet[wish]
        change = added - saved
        if change <= 0 or change < -heat * math.log(max(chance.random(), 1e-12)):
            self.cost += change
            if self.cost < self.best_cost:
                self.best, self.best_cost = board.layout(), self.cost
            return
        board.go_back(laid, before)

    def _taken(self) -> list[int]:
        """Wishes of a few beds that one wish would like."""
        board, chance = self.board, self.chance
        wish = chance.choice(self.wishes)
        way = chance.choice(board.index.ways[wish])
        options = board.puzzle.options
        taken: dict[int, None] = {}
        if wish in board.places:
            taken[wish] = None
        # The cheap ones most often; what is far down the list now and then.
        beds = [*board.places.get(wish, ())]
        for _ in range(chance.randint(1, 4)):
            place = int(len(way.options) * chance.random() ** 3)
            beds.append(options[way.options[place]].bed)
        for bed in beds:
            pieces = board.beds[bed]
            if len(pieces) > 4 and chance.random() < 0.5:
                pieces = chance.sample(pieces, chance.randint(1, len(pieces)))
            for piece in pieces:
                taken[piece.wish] = None
            if len(taken) >= MOST_TAKEN:
                break
        return list(taken)

    def _open(self, before: list[Choice]) -> bytearray | None:
        """Which beds are looked at: all where they are few, else those that were cleared and some others."""
        beds = len(self.board.beds)
        if beds <= 2 * MOST_OPEN:
            return None
        flags = bytearray(beds)
        for bed in self.chance.sample(range(beds), MOST_OPEN):
            flags[bed] = 1
        for choice in before:
            flags[self.board.puzzle.options[choice.option].bed] = 1
        return flags

    def _sort(self, wishes: list[int]) -> None:
        self.chance.shuffle(wishes)
        kind = self.chance.random()
        if kind < 0.35:
            wishes.sort(key=self.rank.__getitem__)
        elif kind < 0.65:
            wishes.sort(key=lambda wish: -self.size[wish])
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
