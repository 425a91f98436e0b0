"""Quick improvement of a layout: a few beds are cleared and what stood there is laid anew, thousands of times.

Needs no solver.  What is worse is put back as it was.
"""

from __future__ import annotations

from collections.abc import Sequence
from random import Random

from planner.proposal.board import Board
from planner.proposal.greedy import cheapest_places, in_order
from planner.proposal.packing import allowed_starts
from planner.proposal.puzzle import Choice
from planner.proposal.puzzle_index import Way

#: Most wishes that are taken up at once, and unmet ones that are tried beside them.
MOST_TAKEN, MOST_UNMET = 5, 3
#: Beds that are cleared beside those of one wish.
MOST_CLEARED = 2
#: So many beds, and those that were cleared, are looked at in one turn.
MOST_OPEN = 20
#: So often a wish is squeezed in where few lie, instead of clearing beds for it.
SQUEEZED = 0.75
#: A wish that is met is drawn anew so many times: those that are not come up more often.
UNMET_FIRST = 2
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
        self._in_beds = bytearray()

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
        self._in_beds = bytearray(len(self.board.beds))
        for bed in beds:
            self._in_beds[bed] = 1
        return sum(self._turn() for _ in range(times if self._wishes and beds else 0))

    def _turn(self) -> int:
        """Clear and lay anew once; what was saved."""
        board, chance = self.board, self.chance
        wish = chance.choice(self._wishes)
        for _ in range(UNMET_FIRST):
            if wish in board.places:
                wish = chance.choice(self._wishes)
        way = chance.choice(board.index.ways[wish])
        squeezed = self._squeezed_in(wish, way) if way.parts == 1 and chance.random() < SQUEEZED else None
        taken = self._taken(wish, way) if squeezed is None else squeezed[1]
        board.remember()
        before: list[Choice] = []
        saved = 0
        for one in taken:
            choices = board.take(one)
            saved += self._worth(choices) - board.puzzle.unmet[one]
            before += choices
        added = 0
        laid: list[int] = []
        if squeezed is not None:
            option = board.puzzle.options[squeezed[0].option]
            if board.marginal(option) is None or not board.suffices(option):
                board.go_back(laid, before)
                return 0
            added += self._lay([squeezed[0]]) - board.puzzle.unmet[wish]
            laid.append(wish)
        unmet = [one for one in self._wishes if one not in board.places and one not in taken]
        tried = [one for one in taken if one not in laid]
        tried += chance.sample(unmet, min(len(unmet), MOST_UNMET if squeezed is None else 1))
        self._sort(tried)
        open_beds = self._open(before)
        for one in tried:
            if chance.random() < LEFT_OUT:
                continue
            found = cheapest_places(board, one, open_beds)
            if found is not None:
                laid.append(one)
                added += self._lay(found) - board.puzzle.unmet[one]
        if added > saved:
            board.go_back(laid, before)
            return 0
        return saved - added

    def _squeezed_in(self, wish: int, way: Way) -> tuple[Choice, list[int]] | None:
        """A place for a wish at which few others lie, and these with the wish itself; None where one of them has to stay."""
        board, chance = self.board, self.chance
        number = way.entries[int(len(way.entries) * chance.random() ** 2)][1]
        option = board.puzzle.options[number]
        if not self._in_beds[option.bed]:
            return None
        pieces = [
            piece
            for piece in board.beds[option.bed]
            if piece.wish != wish
            and (
                (piece.first <= option.last and option.first <= piece.last)
                or (piece.family >= 0 and piece.family == option.family)
            )
        ]
        best: tuple[int, float, int, list[int]] | None = None
        for first, last in allowed_starts(board.puzzle.beds[option.bed], option):
            for at in sorted({first, *(piece.end for piece in pieces if first <= piece.end <= last)}):
                end = at + option.length
                others = [piece.wish for piece in pieces if piece.start < end and at < piece.end]
                key = (sum(self._size[other] for other in others), chance.random(), at, others)
                if best is None or key < best:
                    best = key
        if best is None or not self._mine.issuperset(best[3]) or len(best[3]) > MOST_TAKEN:
            return None
        taken = [*best[3], *([wish] if wish in board.places else [])]
        return Choice(number, best[2]), taken

    def _taken(self, wish: int, way: Way) -> list[int]:
        """A wish, and those of a few beds that it would like."""
        board, chance = self.board, self.chance
        taken: dict[int, None] = {wish: None} if wish in board.places else {}
        beds = [*board.places.get(wish, ())]
        # The cheap ones most often; what is far down the list now and then.
        beds += [
            way.entries[int(len(way.entries) * chance.random() ** 3)][2]
            for _ in range(chance.randint(1, MOST_CLEARED))
        ]
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
