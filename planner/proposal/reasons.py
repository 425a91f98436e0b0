"""Why a planting is proposed where it is: what shut the other beds, and what the next best one would cost."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from planner.garden.wishes import Wish
from planner.proposal.board import Board
from planner.proposal.garden_puzzle import GardenPuzzle, Offer, Rule
from planner.proposal.packing import longest_run
from planner.proposal.puzzle import Choice, Layout, Option
from planner.proposal.puzzle_index import PuzzleIndex

#: What keeps a wish out of a bed: a rule of the puzzle, a bed that is too short, other plantings of the layout, the checks, a wish
#: that it never stands beside; or that it would cost more there.
Verdict = Literal[
    "rotation", "light", "depth", "stands", "built", "short", "full", "objected", "apart", "dearer"
]


@dataclass(frozen=True)
class OtherBed:
    """What another bed would have been for a wish.

    Attributes
    ----------
    bed : int
        Which strip.
    verdict : str
    rule : Rule or None
        The rule that shuts it.
    dearer : int
        What it would cost more there; 0 where it is shut.
    """

    bed: int
    verdict: Verdict
    rule: Rule | None = None
    dearer: int = 0


@dataclass(frozen=True, eq=False)
class Placement:
    """A wish that is met, and why there.

    Attributes
    ----------
    wish : Wish
    choices : tuple of Choice
        One for each part.
    others : tuple of OtherBed
        The beds in which it might have stood, the next best first.
    """

    wish: Wish
    choices: tuple[Choice, ...]
    others: tuple[OtherBed, ...]

    @property
    def next_best(self) -> OtherBed | None:
        """The cheapest of the other beds that are open to it."""
        return next((one for one in self.others if one.verdict == "dearer"), None)

    def counts(self) -> Counter[Verdict]:
        """Number of other beds by what keeps it out of them."""
        return Counter(one.verdict for one in self.others)


@dataclass(frozen=True)
class MostThatFits:
    """The most of an unmet wish for which there is room, all others staying where they are.

    Attributes
    ----------
    offer : Offer
    start, length : int
        Steps of the bed.
    amount : float
        In what the wish is counted.
    """

    offer: Offer
    start: int
    length: int
    amount: float


class Reasons:
    """Reasons of a layout.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """

    def __init__(self, of: GardenPuzzle, layout: Layout) -> None:
        self.of, self.layout = of, layout

    @cached_property
    def _index(self) -> PuzzleIndex:
        return PuzzleIndex(self.of.puzzle)

    @cached_property
    def _board(self) -> Board:
        return Board(self._index, self.layout)

    @cached_property
    def _options(self) -> dict[int, dict[int, list[int]]]:
        """Options of each wish by bed."""
        found: dict[int, dict[int, list[int]]] = {}
        for number, option in enumerate(self.of.puzzle.options):
            found.setdefault(option.wish, {}).setdefault(option.bed, []).append(number)
        return found

    @cached_property
    def _standable(self) -> set[int]:
        return {number for ways in self._index.ways for way in ways for number in way.options}

    def placements(self) -> tuple[Placement, ...]:
        """Each wish that is met, by the order of the wishes."""
        by_wish: dict[int, list[Choice]] = {}
        for choice in self.layout:
            by_wish.setdefault(self.of.puzzle.options[choice.option].wish, []).append(choice)
        return tuple(self._placement(wish, tuple(there)) for wish, there in sorted(by_wish.items()))

    def _placement(self, wish: int, choices: tuple[Choice, ...]) -> Placement:
        options = self.of.puzzle.options
        here = {options[one.option].bed for one in choices}
        taken = self._board.take(wish)
        cost = max((self._board.marginal(options[one.option]) or 0 for one in choices), default=0)
        found = []
        for bed, numbers in self._options.get(wish, {}).items():
            if bed not in here:
                same = [one for one in numbers if options[one].parts == len(choices)]
                found.append(self._other(bed, same or numbers, cost))
        for one in taken:
            self._board.put(one)
        return Placement(self.of.wishes[wish], choices, tuple(sorted(found, key=_order)))

    def _other(self, bed: int, numbers: Iterable[int], cost: int) -> OtherBed:
        options = [(number, self.of.puzzle.options[number]) for number in numbers]
        standable = [option for number, option in options if number in self._standable]
        if not standable:
            return self._shut(bed, [option for _, option in options])
        open_ = [option for option in standable if self._board.gap(option) is not None]
        if not open_:
            return OtherBed(bed, "full")
        allowed = [option for option in open_ if self._board.suffices(option)]
        if not allowed:
            return OtherBed(bed, "objected")
        costs = [found for option in allowed if (found := self._board.marginal(option)) is not None]
        if not costs:
            return OtherBed(bed, "apart")
        return OtherBed(bed, "dearer", dearer=min(costs) - cost)

    def _shut(self, bed: int, options: list[Option]) -> OtherBed:
        """By which rule a bed is shut to all options: the one that matters for the shortest of them."""
        ground = self.of.puzzle.beds[bed]
        option = min(
            options,
            key=lambda one: (sum(shut.end - shut.start for shut in one.shut if shut.rule), one.length),
        )
        if option.length > ground.length:
            return OtherBed(bed, "short")
        fixed = tuple(one for one in option.shut if not one.rule)
        if longest_run(ground, option._replace(shut=fixed)) < option.length:
            block = next(
                (one for one in ground.blocks if one.first <= option.last and option.first <= one.last), None
            )
            rule = self.of.rules[block.rule] if block is not None else None
            return OtherBed(bed, "stands" if rule is not None and rule.kind == "stands" else "built", rule)
        ruled = [one for one in option.shut if one.rule]
        rule = self.of.rules[max(ruled, key=lambda one: one.end - one.start).rule]
        return OtherBed(bed, rule.kind, rule)  # type: ignore[arg-type]  # the kinds of rules are verdicts

    def beds_of(self, wish: int) -> tuple[OtherBed, ...]:
        """What keeps an unmet wish out of each bed that is of its kind.

        Parameters
        ----------
        wish : int
            Its number.
        """
        return tuple(
            self._other(bed, numbers, 0) for bed, numbers in sorted(self._options.get(wish, {}).items())
        )

    # -- what is unmet ----------------------------------------------------------------------

    def most_that_fits(self, wish: int) -> MostThatFits | None:
        """The most of an unmet wish for which there is room in one bed, all others staying where they are.

        Parameters
        ----------
        wish : int
            Its number.
        """
        from planner.proposal.ways import wanted_of

        best: MostThatFits | None = None
        wanted = wanted_of(self.of.plan, self.of.wishes[wish])
        if wanted is None:
            return None
        seen: set[tuple[int, int]] = set()
        for bed, numbers in self._options.get(wish, {}).items():
            for number in numbers:
                option, offer = self.of.puzzle.options[number], self.of.offers[number]
                if offer.as_it_was or (bed, option.way // 10) in seen:
                    continue
                seen.add((bed, option.way // 10))
                start, length = self._longest_free(option)
                if not length:
                    continue
                planting = offer.way.draft.with_(bed=offer.strip.bed.id, plot=offer.strip.plot(start, length))
                amount = wanted.measure(self.of.plan, planting, self.of.plan.trial(planting))
                if amount > 0 and (best is None or amount > best.amount):
                    best = MostThatFits(offer, start, length, amount)
        return best

    def _longest_free(self, option: Option) -> tuple[int, int]:
        """Start and length of the longest stretch of its bed that is free to an option on its days, but for what is fixed of it."""
        free = option._replace(shut=tuple(one for one in option.shut if one.rule))
        low, high, at = 0, self.of.puzzle.beds[option.bed].length, 0
        while low < high:
            middle = (low + high + 1) // 2
            start = self._board.gap(free._replace(length=middle))
            if start is None:
                high = middle - 1
            else:
                low, at = middle, start
        return at, low


def _order(one: OtherBed) -> tuple[bool, int, int]:
    return one.verdict != "dearer", one.dearer, one.bed
