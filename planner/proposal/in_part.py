"""Wishes that are met in part: less is planted of what has no room for all of it.

A whole wish has one option for each bed and start; here it gets others that are shorter.  What lacks costs as much as the wish
matters (:func:`planner.proposal.costs.cost_of_lack`), so the solvers weigh half of one wish against all of another.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from itertools import product
from typing import NamedTuple

from planner.garden import Planting
from planner.proposal.board import Board
from planner.proposal.costs import Costs, cost_of_lack
from planner.proposal.layouts import plantings_of
from planner.proposal.lengths import PLACES, SHORTEST
from planner.proposal.offers import GardenPuzzle, Offer, all_but
from planner.proposal.puzzle import Layout, Never, Option, Use
from planner.proposal.puzzle_index import PuzzleIndex
from planner.proposal.stocks import Stocks
from planner.proposal.strips import Strip
from planner.proposal.ways import (
    LEAST_PART,
    STANDING_SUPPORTS,
    Wanted,
    counts_plants,
    like_of,
    may_be_met_in_part,
    shortest,
    wanted_of,
)

#: Shares of a wish that are tried at first; what fits exactly comes afterwards.
SHARES = (0.75, 2 / 3, 0.5, 1 / 3, 0.25)
#: In puzzles of up to so many options each amount has one.
MOST_FINE = 3_000
#: Puzzles get so many more options at the most for shares that are tried, of what is not met first: more make the search slow.
MOST_MORE = 3_000
#: Of as much as fits in each bed so many options at the most are made for a wish and way: the largest.
MOST_ROOMS = 20
#: Ways from this number on meet a wish in part: the number of the whole one, and so many times which amount it is.
IN_PART = 100_000


class Met(NamedTuple):
    """How much of a wish is met, of how much; in what the wish is counted, grams where it is for people."""

    there: float
    wanted: float

    @property
    def share(self) -> float:
        """1 at the most."""
        return min(1.0, self.there / self.wanted)


def parts_met(of: GardenPuzzle, layout: Layout) -> dict[int, Met]:
    """Of each wish that is met in part how much is, counted on the real ground.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    there: dict[int, float] = {}
    wanted: dict[int, Wanted] = {}
    for choice, planting in zip(layout, plantings_of(of, layout), strict=True):
        option, offer = of.puzzle.options[choice.option], of.offers[choice.option]
        if offer.share < 1:
            whole = wanted.get(option.wish) or wanted_of(of.plan, offer.wish)
            if whole is not None:
                wanted[option.wish] = whole
                held = whole.measure(of.plan, planting, of.plan.trial(planting))
                there[option.wish] = there.get(option.wish, 0.0) + held
    return {wish: Met(there[wish], wanted[wish].amount) for wish in sorted(there)}


def whole_only(of: GardenPuzzle, wish: int) -> GardenPuzzle:
    """The puzzle in which a wish is met whole or not at all; its other options keep their numbers and fit nowhere.

    Parameters
    ----------
    of : GardenPuzzle
    wish : int
    """
    puzzle = of.puzzle
    options = tuple(
        one._replace(length=puzzle.beds[one.bed].length + 1) if one.wish == wish and offer.share < 1 else one
        for one, offer in zip(puzzle.options, of.offers, strict=True)
    )
    return replace(of, puzzle=puzzle._replace(options=options))


def with_parts(of: GardenPuzzle, layout: Layout) -> GardenPuzzle:
    """The puzzle in which what a layout does not meet may be met in part, and what is in its way too.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    met = {of.puzzle.options[one.option].wish for one in layout}
    if len(met) == len(of.wishes):
        return of
    maker = _Maker(of)
    unmet = [wish for wish in range(len(of.wishes)) if wish not in met and maker.whole(wish)]
    beds = {one.option.bed for wish in unmet for one in maker.whole(wish)}
    beds |= {
        one.bed for one in of.puzzle.options if one.wish not in met
    }  # those that are met whole or not at all
    rivals = [wish for wish in sorted(met) if any(one.option.bed in beds for one in maker.whole(wish))]
    steps = sum(one.offer.strip.length for wish in (*unmet, *rivals) for one in maker.whole(wish))
    fine = len(of.puzzle.options) + steps <= MOST_FINE
    for wish in (*unmet, *rivals):
        if maker.added + len(SHARES) * len(maker.whole(wish)) > MOST_MORE:
            break
        maker.add(wish, fine=fine)
    maker.fit(layout, unmet)
    return maker.made()


def with_fitting_parts(of: GardenPuzzle, layout: Layout) -> GardenPuzzle:
    """The puzzle in which as much as has room may be planted of what a layout meets in part or not at all, all else staying.

    Parameters
    ----------
    of : GardenPuzzle
    layout : tuple of Choice
    """
    whole = {of.puzzle.options[one.option].wish for one in layout if of.offers[one.option].share >= 1}
    maker = _Maker(of)
    maker.fit(layout, [wish for wish in range(len(of.wishes)) if wish not in whole and maker.whole(wish)])
    return maker.made()


class _Base(NamedTuple):
    """What would plant a whole wish in a bed, and is to be cut short; as long as the bed and a step where that is too short."""

    option: Option
    offer: Offer

    @property
    def stands(self) -> bool:
        """Whether it has its place at what stands there, and no other."""
        support = self.offer.way.draft.support
        return support is not None and support.kind in STANDING_SUPPORTS

    @property
    def shortest(self) -> int:
        """Steps of the shortest stretch that is planted."""
        return max(1, math.ceil(SHORTEST / self.offer.strip.step - 1e-9))


class _Maker:
    """Adds options that meet wishes in part."""

    def __init__(self, of: GardenPuzzle) -> None:
        self.of, self.plan = of, of.plan
        self.costs, self.stocks = Costs(of.plan, of.strips), Stocks(of.plan)
        self._options: list[Option] = list(of.puzzle.options)
        self._offers: list[Offer] = list(of.offers)
        self._wanted: dict[int, Wanted] = {}
        self._whole: dict[int, list[_Base]] = {}
        self._held: dict[object, dict[int, float]] = {}
        self._there: set[tuple[int, ...]] = set()
        self._amounts: dict[tuple[int, int], list[float]] = {}
        found: dict[int, list[_Base]] = {}
        for option, offer in zip(of.puzzle.options, of.offers, strict=True):
            if option.way < IN_PART:
                found.setdefault(option.wish, []).append(_Base(option, offer))
                continue
            self._there.add(_key(option))
            known = self._amounts.setdefault((option.wish, option.way % IN_PART), [])
            place = option.way // IN_PART - 1
            known += [0.0] * (place + 1 - len(known))
            known[place] = offer.part.amount
        for wish, some in of.too_short.items():
            found.setdefault(wish, []).extend(_Base(*one) for one in some)
        for wish, there in found.items():
            wanted = wanted_of(of.plan, of.wishes[wish])
            if wanted is not None and may_be_met_in_part(of.wishes[wish], wanted):
                self._wanted[wish] = wanted
                self._whole[wish] = self._to_be_cut(there)

    def _to_be_cut(self, there: Iterable[_Base]) -> list[_Base]:
        """One for each bed, start and number of parts, but for those to which the checks object."""
        objected = {choice for never in self.of.puzzle.nevers if len(never) == 1 for choice in never}
        found: dict[tuple[int, int, int], _Base] = {}
        for one in there:
            option, offer = one
            if offer.as_it_was or (option.wish, option.bed, option.way) in objected:
                continue
            if one.stands:
                found[option.bed, option.way, _key(option)[-1]] = one
                continue
            if not offer.strip.even:
                option = option._replace(shut=tuple(shut for shut in option.shut if shut.rule))
            found.setdefault((option.bed, option.way, -1), _Base(option, offer))
        return list(found.values())

    @property
    def added(self) -> int:
        """Number of options that were added."""
        return len(self._options) - len(self.of.puzzle.options)

    def whole(self, wish: int) -> list[_Base]:
        """What of a wish may be cut short; none where it may not be met in part."""
        return self._whole.get(wish, [])

    def made(self) -> GardenPuzzle:
        """The puzzle with what was added."""
        if len(self._options) == len(self.of.puzzle.options):
            return self.of
        puzzle = self.of.puzzle._replace(options=tuple(self._options), nevers=tuple(self._nevers()))
        return replace(self.of, puzzle=puzzle, offers=tuple(self._offers))

    def _nevers(self) -> dict[Never, None]:
        """What may not be chosen together may not in part either."""
        parts: dict[tuple[int, int, int], list[tuple[int, int, int]]] = {}
        for one in self._options:
            if one.way >= IN_PART:
                parts.setdefault((one.wish, one.bed, one.way % IN_PART), []).append(
                    (one.wish, one.bed, one.way)
                )
        found: dict[Never, None] = {}
        for never in self.of.puzzle.nevers:
            for some in product(*([choice, *parts.get(choice, ())] for choice in sorted(never))):
                found[frozenset(some)] = None
        return found

    # -- shares that are tried ----------------------------------------------------------------

    def add(self, wish: int, *, fine: bool) -> None:
        """Options for some shares of a wish, or for each amount where it is not divided."""
        for one in self._whole[wish]:
            strip = one.offer.strip
            if one.stands:
                self._add_at_its_place(one)
                continue
            if fine and one.offer.parts == 1 and strip.even:
                for length in range(one.shortest, min(one.option.length, strip.length + 1)):
                    self._add(one, 0, length, self._held_in(one, length))
                continue
            for share in SHARES:
                each = self._each(wish, share, one.offer)
                if each is None:
                    continue
                for start in dict.fromkeys(_starts(strip)):
                    steps = self._length(one, each, start)
                    if steps is not None:
                        self._add(one, start, steps, each, target=each)

    def _add_at_its_place(self, one: _Base) -> None:
        """What stands at an arch stays as long as it is, and may be less than is wished."""
        start, length = _key(one.option)[-1], one.option.length - 1
        held = self._held_in(one, length, start)
        if length <= one.offer.strip.length and held < one.offer.part.amount:
            self._add(one, start, length, held, target=held)

    def _each(self, wish: int, share: float, offer: Offer) -> float | None:
        """How much of a share of a wish is wanted in each bed; None where that is no less than the whole."""
        each = self._wanted[wish].amount * share / offer.parts
        if counts_plants(offer.wish):
            each = math.ceil(each - 1e-9)
        return each if each < offer.part.amount - 1e-9 else None

    def _length(self, one: _Base, amount: float, start: int) -> int | None:
        """Steps that hold an amount: counted in an even bed, by the ground it takes in another."""
        strip = one.offer.strip
        if strip.even:
            part = replace(one.offer.part, amount=amount)
            length = shortest(self.plan, _draft(one.offer), strip, part, known=self._known(one))
        else:
            whole = self._held_in(one, strip.length)
            area = strip.ground(0, strip.length) * amount / whole if whole else math.inf
            length = strip.length_of(area, start) if area < math.inf else None
        return None if length is None else min(strip.length, max(length, one.shortest))

    def _known(self, one: _Base, start: int = 0) -> dict[int, float]:
        strip = one.offer.strip
        place = (strip.bed.id, start) if self._is_uneven(one) else strip.sort
        return self._held.setdefault((one.offer.wish.id, one.offer.way.draft.arrangement, place), {})

    @staticmethod
    def _is_uneven(one: _Base) -> bool:
        """Whether it matters where along the bed it lies."""
        return one.stands or not one.offer.strip.even

    def _held_in(self, one: _Base, length: int, start: int = 0) -> float:
        """How much of a wish a stretch of a bed holds."""
        known, strip = self._known(one, start), one.offer.strip
        if length not in known:
            planting = _draft(one.offer).with_(plot=strip.plot(start if self._is_uneven(one) else 0, length))
            known[length] = one.offer.part.measure(self.plan, planting, self.plan.trial(planting))
        return known[length]

    # -- what has room ------------------------------------------------------------------------

    def fit(self, layout: Layout, wishes: Collection[int]) -> None:
        """Options for as much of some wishes as has room beside all others of a layout."""
        if not wishes:
            return
        board = Board(PuzzleIndex(self.of.puzzle), layout)
        for wish in wishes:
            mine = board.take(wish)
            rooms: dict[int, list[tuple[_Base, int, int]]] = {}
            for one in (base for base in self._whole[wish] if not base.stands):
                start, length = longest_free(board, one.option)
                if one.shortest <= length:
                    rooms.setdefault(one.option.way, []).append((one, start, length))
            for there in rooms.values():
                self._fit(there)
            for choice in mine:
                board.put(choice)

    def _fit(self, rooms: Sequence[tuple[_Base, int, int]]) -> None:
        """Options for the rooms of one way: each where undivided, else as much as the smallest of as many as there are parts holds."""
        parts, whole = rooms[0][0].offer.parts, rooms[0][0].offer.part.amount
        held = [
            (min(whole, self._held_in(one, min(length, one.offer.strip.length), start)), one, start, length)
            for one, start, length in rooms
        ]
        held.sort(key=lambda room: -room[0])
        if parts == 1:
            for amount, one, start, length in held[:MOST_ROOMS]:
                self._add(one, start, length, amount)
            return
        if len(held) < parts or held[parts - 1][0] >= whole - 1e-9:
            return
        amount = held[parts - 1][0]
        for there, one, start, _ in held:
            if there >= amount - 1e-9 > 0:
                steps = self._length(one, amount, start)
                if steps is not None:
                    self._add(one, start, steps, amount, target=amount)

    # -- options ------------------------------------------------------------------------------

    def _add(self, one: _Base, start: int, length: int, amount: float, target: float | None = None) -> None:
        """An option like another one, but shorter; none where it is no shorter, or too little.

        Parameters
        ----------
        one : _Base
        start, length : int
            Steps; the start counts in uneven beds.
        amount : float
            What it holds.
        target : float, optional
            What each of several parts holds at the least: those with the same one go together.
        """
        option, offer = one
        whole = self._wanted[option.wish].amount
        share = amount * offer.parts / whole
        if length >= option.length or not LEAST_PART - 1e-9 <= share < 1 - 1e-9:
            return
        shut = option.shut
        if not offer.strip.even:
            shut = (*shut, *all_but(offer.strip.length, start, length))
        known = self._amounts.setdefault((option.wish, option.way), [])
        each = target if target is not None else amount
        if each not in known:
            known.append(each)
        way = option.way + IN_PART * (known.index(each) + 1)
        new = option._replace(
            way=way,
            length=length,
            shut=shut,
            cost=self._cost(one, length, share),
            uses=self._uses(offer, length),
        )
        key = _key(new)
        if key not in self._there:
            self._there.add(key)
            self._options.append(new)
            self._offers.append(replace(offer, share=share, part=replace(offer.part, amount=each)))

    def _cost(self, one: _Base, length: int, share: float) -> int:
        offer = one.offer
        area = length * offer.strip.step * offer.strip.width
        like = like_of(self.plan, offer.wish)
        cost = self.costs.of_option(offer.wish, offer.way, one.option.bed, area, offer.parts, like)
        return cost + math.ceil(cost_of_lack(offer.wish.importance, share) / offer.parts)

    def _uses(self, offer: Offer, length: int) -> tuple[Use, ...]:
        if not self.stocks.limits:
            return ()
        return self.stocks.uses(_draft(offer).with_(plot=offer.strip.plot(0, length)))


def _draft(offer: Offer) -> Planting:
    return offer.way.draft.with_(bed=offer.strip.bed.id)


def _starts(strip: Strip) -> list[int]:
    """Steps from which a planting is tried in a bed; 0 in an even one, where it may lie anywhere."""
    return [0] if strip.even else [round(strip.length * number / PLACES) for number in range(PLACES)]


def _key(option: Option) -> tuple[int, ...]:
    """The same for options that plant the same: those of another number of parts are others."""
    start = next((one.end for one in option.shut if not one.rule and one.start == 0), 0)
    return option.wish, option.bed, option.way, option.length, start


def longest_free(board: Board, option: Option) -> tuple[int, int]:
    """Start and length of the longest stretch of its bed that is free to an option on its days, but for what is fixed of it.

    Parameters
    ----------
    board : Board
    option : Option
    """
    free = option._replace(shut=tuple(one for one in option.shut if one.rule))
    low, high, at = 0, board.puzzle.beds[option.bed].length, 0
    while low < high:
        middle = (low + high + 1) // 2
        start = board.gap(free._replace(length=middle))
        if start is None:
            high = middle - 1
        else:
            low, at = middle, start
    return at, low
