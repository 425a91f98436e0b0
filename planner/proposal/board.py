"""A layout while it is being made: what lies where in each bed, and what one more option would cost or break."""

from __future__ import annotations

from bisect import insort
from collections import defaultdict
from collections.abc import Iterable
from typing import NamedTuple

from planner.proposal.packing import first_gap
from planner.proposal.puzzle import Choice, Layout, Option, Use
from planner.proposal.puzzle_index import PuzzleIndex


class Piece(NamedTuple):
    """An option that lies in a bed, from one step to another."""

    start: int
    end: int
    first: int
    last: int
    family: int
    wish: int
    option: int


class Board:
    """A layout that holds every rule and is changed piece by piece.

    Parameters
    ----------
    index : PuzzleIndex
    layout : tuple of Choice
        Without faults.

    Attributes
    ----------
    beds : list of list of Piece
        What lies in each bed, sorted by where it begins.
    places : dict
        For each wish that is met the beds it is in.
    known : list of dict
        For each bed what :meth:`place` has found since it was last changed.
    """

    def __init__(self, index: PuzzleIndex, layout: Layout = ()) -> None:
        self.index, self.puzzle = index, index.puzzle
        self.beds: list[list[Piece]] = [[] for _ in index.puzzle.beds]
        self.places: dict[int, list[int]] = {}
        self._groups: dict[tuple[int, int], int] = defaultdict(int)
        self._made: dict[int, int] = defaultdict(int)
        first, last = index.days
        self._use = [[0] * (last - first + 1) for _ in self.puzzle.limits]
        self._blocks = [[(b.start, b.end, b.first, b.last) for b in bed.blocks] for bed in self.puzzle.beds]
        self._lengths = [bed.length for bed in self.puzzle.beds]
        self._soft, self._hard = index.soft, index.hard
        self.known: list[dict[int, tuple[int, int] | None]] = [{} for _ in self.beds]
        self._kept: dict[int, tuple[list[Piece], dict[int, tuple[int, int] | None]]] | None = None
        for choice in layout:
            self.put(choice)

    def layout(self) -> Layout:
        """The layout as it is now."""
        return tuple(sorted(Choice(piece.option, piece.start) for bed in self.beds for piece in bed))

    def place(self, number: int) -> tuple[int, int] | None:
        """What an option would add to the cost and where it would begin, as beds are now; None where it cannot lie in its bed.

        Parameters
        ----------
        number : int
            Of the option.  That there is enough of what it uses is for :meth:`suffices`.
        """
        option = self.puzzle.options[number]
        found = self.known[option.bed]
        if number in found:
            return found[number]
        start = self.gap(option)
        cost = None if start is None else self.marginal(option)
        place = None if start is None or cost is None else (cost, start)
        found[number] = place
        return place

    def remember(self) -> None:
        """Remember how the beds are now, for :meth:`go_back`."""
        self._kept = {}

    def go_back(self, wishes: Iterable[int], before: Iterable[Choice]) -> None:
        """Lay the beds as they were remembered.

        Parameters
        ----------
        wishes : iterable of int
            Those that were laid since.
        before : iterable of Choice
            What was taken since.
        """
        for wish in wishes:
            self.take(wish)
        for choice in before:
            self.put(choice)
        for bed, (pieces, found) in (self._kept or {}).items():
            self.beds[bed], self.known[bed] = pieces, found
        self._kept = None

    def _touch(self, bed: int) -> None:
        if self._kept is not None and bed not in self._kept:
            self._kept[bed] = (list(self.beds[bed]), self.known[bed])
        self.known[bed] = {}

    def marginal(self, option: Option) -> int | None:
        """What one more option would add to the cost, the wish being left unmet aside; None where a pair forbids it.

        Parameters
        ----------
        option : Option
        """
        cost, bed = option.cost, option.bed
        for group in option.groups:
            if not self._groups[bed, group] and group not in self.puzzle.beds[bed].groups:
                cost += self.puzzle.group_costs[group]
        soft, hard = self._soft.get(option.wish), self._hard.get(option.wish)
        if soft or hard:
            for piece in self.beds[bed]:
                if piece.first <= option.last and option.first <= piece.last:
                    if hard and piece.wish in hard:
                        return None
                    if soft:
                        cost += soft.get(piece.wish, 0)
        return cost

    def gap(self, option: Option) -> int | None:
        """The first step of the bed at which an option may begin, all else lying where it lies; None where it fits nowhere.

        Parameters
        ----------
        option : Option
        """
        bed, length, first, last, family = option.bed, option.length, option.first, option.last, option.family
        if option.shut or self._blocks[bed]:
            return self._gap_between(option)
        at = 0
        if family < 0:
            for start, end, begins, ends, _, _, _ in self.beds[bed]:
                if begins <= last and first <= ends:
                    if start - at >= length:
                        return at
                    if end > at:
                        at = end
        else:
            for start, end, begins, ends, other, _, _ in self.beds[bed]:
                if other == family or (begins <= last and first <= ends):
                    if start - at >= length:
                        return at
                    if end > at:
                        at = end
        return at if self._lengths[bed] - at >= length else None

    def _gap_between(self, option: Option) -> int | None:
        """The same beside what is given."""
        first, last, family = option.first, option.last, option.family
        taken = [
            (piece.start, piece.end)
            for piece in self.beds[option.bed]
            if (piece.first <= last and first <= piece.last) or (family >= 0 and piece.family == family)
        ]
        taken += [
            (b[0], b[1]) for b in self._blocks[option.bed] if b[2] <= last and first <= b[3] and b[0] < b[1]
        ]
        taken += [(one.start, one.end) for one in option.shut if one.start < one.end]
        return first_gap(taken, option.length, self._lengths[option.bed])

    def suffices(self, option: Option) -> bool:
        """Whether there is enough of all that an option uses, and no never is completed by it.

        Parameters
        ----------
        option : Option
        """
        for number in self.index.never_choices.get((option.wish, option.bed, option.way), ()):
            if self._made[number] + 1 >= len(self.puzzle.nevers[number]):
                return False
        if not option.uses or not self._use:
            return True
        done: list[Use] = []
        enough = True
        for use in option.uses:
            if use.resource < len(self._use):
                self._count(use, 1)
                done.append(use)
                enough = enough and self._peak(use) <= self.puzzle.limits[use.resource]
        for use in done:
            self._count(use, -1)
        return enough

    def put(self, choice: Choice) -> None:
        """Lay an option where a choice says."""
        option = self.puzzle.options[choice.option]
        piece = Piece(
            choice.start,
            choice.start + option.length,
            option.first,
            option.last,
            option.family,
            option.wish,
            choice.option,
        )
        self._touch(option.bed)
        insort(self.beds[option.bed], piece)
        self.places.setdefault(option.wish, []).append(option.bed)
        self._change(option, 1)

    def take(self, wish: int) -> list[Choice]:
        """Take all parts of a wish away; what lay there."""
        return [self.take_part(wish, bed) for bed in tuple(self.places.get(wish, ()))]

    def take_part(self, wish: int, bed: int) -> Choice:
        """Take away what a wish has in a bed; what lay there.

        Parameters
        ----------
        wish, bed : int
        """
        self._touch(bed)
        pieces = self.beds[bed]
        piece = pieces.pop(next(number for number, piece in enumerate(pieces) if piece.wish == wish))
        self.places[wish].remove(bed)
        if not self.places[wish]:
            del self.places[wish]
        self._change(self.puzzle.options[piece.option], -1)
        return Choice(piece.option, piece.start)

    def cost_of_wish(self, wish: int) -> int:
        """What would be saved by taking a wish away, its being unmet aside; of what is there, not of what would be freed."""
        before = 0
        taken = self.take(wish)
        for choice in taken:
            before += self.marginal(self.puzzle.options[choice.option]) or 0
            self.put(choice)
        return before

    def _change(self, option: Option, by: int) -> None:
        for group in option.groups:
            self._groups[option.bed, group] += by
        for number in self.index.never_choices.get((option.wish, option.bed, option.way), ()):
            self._made[number] += by
        for use in option.uses:
            if use.resource < len(self._use):
                self._count(use, by)

    def _count(self, use: Use, by: int) -> None:
        days, origin = self._use[use.resource], self.index.days[0]
        amount = by * use.amount
        for day in range(use.first - origin, use.last - origin + 1):
            days[day] += amount

    def _peak(self, use: Use) -> int:
        origin = self.index.days[0]
        return max(self._use[use.resource][use.first - origin : use.last - origin + 1], default=0)
