"""Why a planting is proposed where it is: what shut the other beds, and what the next best one would cost."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from planner.garden.wishes import Wish
from planner.proposal import elsewhere
from planner.proposal.board import Board
from planner.proposal.in_part import IN_PART, Met, longest_free, parts_met, whole_only
from planner.proposal.layouts import plantings_of
from planner.proposal.offers import GardenPuzzle, Offer, Rule
from planner.proposal.puzzle import Choice, Layout, Option
from planner.proposal.puzzle_index import PuzzleIndex
from planner.proposal.release import Hopeless, Release, cheapest_release, forbidding
from planner.proposal.waived_rotation import waived_for
from planner.proposal.ways import wanted_of

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
    part : Met or None
        How much of it is met; None of a whole one.
    waived : str
        Why its family may come back there sooner: what the gardener said of that crop on that ground; empty where it need not.
    """

    wish: Wish
    choices: tuple[Choice, ...]
    others: tuple[OtherBed, ...]
    part: Met | None = None
    waived: str = ""

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
    def _options(self) -> dict[int, list[int]]:
        """Numbers of the options of each wish."""
        found: dict[int, list[int]] = {}
        for number, option in enumerate(self.of.puzzle.options):
            found.setdefault(option.wish, []).append(number)
        return found

    @cached_property
    def parts(self) -> dict[int, Met]:
        """Of each wish that is met in part how much is."""
        return parts_met(self.of, self.layout)

    def placements(self) -> tuple[Placement, ...]:
        """Each wish that is met, by the order of the wishes."""
        by_wish: dict[int, list[Choice]] = {}
        for choice in self.layout:
            by_wish.setdefault(self.of.puzzle.options[choice.option].wish, []).append(choice)
        return tuple(self._placement(wish, tuple(there)) for wish, there in sorted(by_wish.items()))

    def placement(self, key: str) -> Placement | None:
        """Why a wish is met where it is; None where it is not met.

        Parameters
        ----------
        key : str
            Id of the wish.
        """
        wish = next((number for number, one in enumerate(self.of.wishes) if one.id == key), None)
        there = tuple(one for one in self.layout if self.of.puzzle.options[one.option].wish == wish)
        if wish is None or not there:
            return None
        return self._placement(wish, there)

    def _placement(self, wish: int, there: tuple[Choice, ...]) -> Placement:
        waived = [waived_for(self.of.plan, one, self.of.waived) for one in plantings_of(self.of, there)]
        reason = next((one.reason for one in waived if one is not None), "")
        return Placement(self.of.wishes[wish], there, self.beds_of(wish), self.parts.get(wish), reason)

    def beds_of(self, wish: int) -> tuple[OtherBed, ...]:
        """Each bed in which a wish might stand and does not, and what keeps it out, the next best first.

        Parameters
        ----------
        wish : int
            Its number; met or not.
        """
        found = elsewhere.other_beds(self.of.puzzle, self.layout, wish, self._index)
        return tuple(sorted((self._judged(wish, one) for one in found), key=_order))

    def _judged(self, wish: int, other: elsewhere.OtherBed) -> OtherBed:
        if other.more is not None:
            return OtherBed(other.bed, "dearer", dearer=other.more)
        rules = sorted(
            (self.of.rules[number] for number in other.rules), key=lambda one: _KIND_ORDER[one.kind]
        )
        if rules:
            return OtherBed(other.bed, _KINDS[_KIND_ORDER[rules[0].kind]], rules[0])
        if other.wishes:
            never = self._index.hard.get(wish, set())
            return OtherBed(other.bed, "apart" if never.issuperset(other.wishes) else "full")
        length = self.of.puzzle.beds[other.bed].length
        options = [self.of.puzzle.options[number] for number in self._options.get(wish, ())]
        short = all(option.length > length for option in options if option.bed == other.bed)
        return OtherBed(other.bed, "short" if short else "objected")

    # -- what is unmet ----------------------------------------------------------------------

    def most_that_fits(self, wish: int) -> MostThatFits | None:
        """The most of an unmet wish for which there is room in one bed, all others staying where they are.

        Parameters
        ----------
        wish : int
            Its number.
        """
        best: MostThatFits | None = None
        wanted = wanted_of(self.of.plan, self.of.wishes[wish])
        if wanted is None:
            return None
        seen: set[tuple[int, int]] = set()
        for number in self._options.get(wish, ()):
            option, offer = self.of.puzzle.options[number], self.of.offers[number]
            if (
                offer.as_it_was
                or option.way >= IN_PART
                or (option.bed, option.way // 10) in seen
                or self._is_never(option)
            ):
                continue
            seen.add((option.bed, option.way // 10))
            start, length = longest_free(self._board, option)
            if not length:
                continue
            planting = offer.way.draft.with_(bed=offer.strip.bed.id, plot=offer.strip.plot(start, length))
            amount = wanted.measure(self.of.plan, planting, self.of.plan.trial(planting))
            if amount > 0 and (best is None or amount > best.amount):
                best = MostThatFits(offer, start, length, amount)
        return best

    def _is_never(self, option: Option) -> bool:
        """Whether a check has a word against an option, by itself or beside what is there."""
        options = self.of.puzzle.options
        made = [options[one.option] for one in self.layout]
        there = {(one.wish, one.bed, one.way) for one in made}
        key = (option.wish, option.bed, option.way)
        return any(key in never and never - {key} <= there for never in self.of.puzzle.nevers)

    def release(self, wish: int) -> Release | Hopeless:
        """The least that would have to be given up for all of a wish that is not met, or in part, all others staying where they are.

        Parameters
        ----------
        wish : int
            Its number.
        """
        return cheapest_release(whole_only(self.of, wish).puzzle, self.layout, wish)

    def forbidding(self, wish: int) -> tuple[tuple[Rule, ...], tuple[Wish, ...]]:
        """A smallest set of rules and other wishes that forbid an unmet wish: without any one of them it is possible.

        Parameters
        ----------
        wish : int
            Its number.
        """
        rules, wishes = forbidding(whole_only(self.of, wish).puzzle, self.layout, wish)
        return tuple(self.of.rules[one] for one in rules), tuple(self.of.wishes[one] for one in wishes)


#: What keeps a wish out of a bed by a rule, what matters most first.
_KINDS: tuple[Verdict, ...] = ("rotation", "light", "depth", "stands", "built")
_KIND_ORDER: dict[str, int] = {kind: place for place, kind in enumerate(_KINDS)}


def _order(one: OtherBed) -> tuple[bool, int, int]:
    return one.verdict != "dearer", one.dearer, one.bed
