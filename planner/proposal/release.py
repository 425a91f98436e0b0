"""Why a wish is not met: the least that would have to be given up for it, and on demand a smallest set of what forbids it.

All that is planted stays where it is.  What may be given up are rules, which free all ground they take or shut, and the
places of other wishes, each with all its parts.  The search is exact and needs no solver.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from enum import Enum
from math import lcm
from typing import NamedTuple

from planner.proposal.puzzle import Choice, Layout, Option, Puzzle, meet, need_other_ground


class Obstacle(NamedTuple):
    """A rule, or the place of another wish, by its number."""

    is_wish: bool
    number: int


class Release(NamedTuple):
    """What has to be given up for a wish.

    Attributes
    ----------
    weight : int
        Of all that is given up: of a rule as the puzzle says, of a wish what it costs to leave it unmet.
    rules, wishes : tuple of int
        Both empty where nothing forbids it, and it only costs more than to leave it unmet.
    places : tuple of Choice
        Where it would then be.
    cost : int
        What its options cost there, without groups and pairs.
    """

    weight: int
    rules: tuple[int, ...]
    wishes: tuple[int, ...]
    places: tuple[Choice, ...]
    cost: int


class Hopeless(Enum):
    """Why nothing that may be given up helps a wish."""

    NO_OPTIONS = "there is no bed for it in any way"
    TOO_LONG = "it is longer than the beds, in all its parts"
    HELD = "rules forbid it that hold whatever comes"


class _Place(NamedTuple):
    """An option at a start, and what forbids it there; no other start of it is forbidden by less."""

    option: int
    start: int
    needs: frozenset[Obstacle]


class _Task:
    """A wish and a layout in which it is not met."""

    def __init__(self, puzzle: Puzzle, layout: Layout, wish: int) -> None:
        self.puzzle, self.wish = puzzle, wish
        self.there = [
            (puzzle.options[choice.option], choice.start)
            for choice in layout
            if puzzle.options[choice.option].wish != wish
        ]
        self.made = {(option.wish, option.bed, option.way) for option, _ in self.there}
        self.by_bed: dict[int, list[tuple[Option, int]]] = defaultdict(list)
        for option, start in self.there:
            self.by_bed[option.bed].append((option, start))
        self.apart = {
            pair.other if pair.one == wish else pair.one
            for pair in puzzle.pairs
            if pair.cost is None and wish in (pair.one, pair.other)
        }
        self.ways: dict[int, list[_Place]] = defaultdict(list)
        for number, option in enumerate(puzzle.options):
            if option.wish == wish:
                self.ways[option.way] += self._places(number, option)

    def obstacles(self) -> list[Obstacle]:
        """All that can forbid the wish anywhere."""
        found = {obstacle for places in self.ways.values() for place in places for obstacle in place.needs}
        mine = {place.option for places in self.ways.values() for place in places}
        resources = {use.resource for number in mine for use in self.puzzle.options[number].uses}
        found |= {
            Obstacle(True, o.wish) for o, _ in self.there if any(use.resource in resources for use in o.uses)
        }
        for never in self.puzzle.nevers:
            if any(choice[0] == self.wish for choice in never):
                found |= {Obstacle(True, choice[0]) for choice in never & self.made}
        return sorted(found)

    def _places(self, number: int, option: Option) -> list[_Place]:
        """Where an option may begin: as early as something ends that is not given up, for more to the right is worse."""
        bed = self.puzzle.beds[option.bed]
        here = [
            (block.start, block.end, Obstacle(False, block.rule))
            for block in bed.blocks
            if meet(option, block)
        ]
        here += [(shut.start, shut.end, Obstacle(False, shut.rule)) for shut in option.shut]
        always = set()
        for other, start in self.by_bed[option.bed]:
            if need_other_ground(option, other):
                here.append((start, start + other.length, Obstacle(True, other.wish)))
            if other.wish in self.apart and meet(option, other):
                always.add(Obstacle(True, other.wish))
        found: list[_Place] = []
        for at in sorted({0, *(end for _, end, _ in here)}):
            if 0 <= at <= bed.length - option.length:
                end = at + option.length
                needs = frozenset(always.union(one for start, stop, one in here if start < end and at < stop))
                if not any(place.needs <= needs for place in found):
                    found = [place for place in found if not needs <= place.needs]
                    found.append(_Place(number, at, needs))
        return found

    def cheapest(
        self, weigh: Callable[[Obstacle], int | None]
    ) -> tuple[int, frozenset[Obstacle], tuple[_Place, ...]] | None:
        """The least weight to give up, what that is, and the places; None where it does not suffice to give up all.

        Parameters
        ----------
        weigh : callable
            The weight of an obstacle, no less than nothing; None for one that is not given up.
        """
        best: tuple[int, int, frozenset[Obstacle], tuple[_Place, ...]] | None = None
        for way in sorted(self.ways):
            best = _Choosing(self, self.ways[way], weigh, best).best
        return None if best is None else (best[0], best[2], best[3])

    def clash(self, places: tuple[_Place, ...], given: frozenset[Obstacle]) -> list[Obstacle] | None:
        """Wishes of which one has to go, as a never is made or something does not suffice; none where the places will do.

        None where they can never be taken together.
        """
        chosen = [self.puzzle.options[place.option] for place in places]
        gone = {one.number for one in given if one.is_wish}
        new = {(option.wish, option.bed, option.way) for option in chosen}
        for never in self.puzzle.nevers:
            if never & new and never <= new | {choice for choice in self.made if choice[0] not in gone}:
                return [
                    Obstacle(True, wish) for wish in sorted({choice[0] for choice in never - new})
                ] or None
        left = [option for option, _ in self.there if option.wish not in gone]
        for resource in sorted({use.resource for option in chosen for use in option.uses}):
            if resource >= len(self.puzzle.limits):
                continue
            ours = [use for option in chosen for use in option.uses if use.resource == resource]
            theirs = [
                (option.wish, use) for option in left for use in option.uses if use.resource == resource
            ]
            for day in sorted({use.first for use in ours} | {use.first for _, use in theirs}):
                used = [use.amount for use in ours if use.first <= day <= use.last]
                others = [(wish, use.amount) for wish, use in theirs if use.first <= day <= use.last]
                if used and sum(used) + sum(amount for _, amount in others) > self.puzzle.limits[resource]:
                    return [Obstacle(True, wish) for wish in sorted({wish for wish, _ in others})] or None
        return []


class _Choosing:
    """Choosing as many places in different beds as there are parts, such that what forbids them weighs least together."""

    def __init__(
        self,
        task: _Task,
        places: list[_Place],
        weigh: Callable[[Obstacle], int | None],
        best: tuple[int, int, frozenset[Obstacle], tuple[_Place, ...]] | None,
    ) -> None:
        self.task, self.weigh, self.best = task, weigh, best
        self.options = task.puzzle.options
        places = [place for place in places if all(weigh(one) is not None for one in place.needs)]
        if not places:
            return
        self.parts = self.options[places[0].option].parts
        # An obstacle of several beds counts in each of them for its share only, so that shares never add up to more.
        self.scale = lcm(*range(1, self.parts + 1))
        beds: dict[Obstacle, set[int]] = defaultdict(set)
        for place in places:
            for one in place.needs:
                beds[one].add(self.options[place.option].bed)
        ranked = []
        for place in places:
            share = sum(
                (weigh(one) or 0) * self.scale // min(self.parts, len(beds[one])) for one in place.needs
            )
            ranked.append((share, self.options[place.option].cost, place.option, place.start, place))
        ranked.sort(key=lambda one: one[:4])
        self.ranked = [(share, cost, place) for share, cost, _, _, place in ranked]
        self.least_cost = min(cost for _, cost, _ in self.ranked)
        self._choose(0, (), frozenset(), 0, 0)

    def _choose(
        self, begin: int, chosen: tuple[_Place, ...], needs: frozenset[Obstacle], shares: int, cost: int
    ) -> None:
        missing = self.parts - len(chosen)
        if not missing:
            self._settle(chosen, needs, frozenset(), cost)
            return
        used = {self.options[place.option].bed for place in chosen}
        for number in range(begin, len(self.ranked)):
            share, mine, place = self.ranked[number]
            if self._no_better(
                -(-(shares + missing * share) // self.scale), cost + mine + (missing - 1) * self.least_cost
            ):
                # Later ones weigh no less; of the same weight they may cost less.
                if self._too_heavy(-(-(shares + missing * share) // self.scale)):
                    return
                continue
            if self.options[place.option].bed not in used:
                together = needs | place.needs
                if not self._too_heavy(self._weight(together)):
                    self._choose(number + 1, (*chosen, place), together, shares + share, cost + mine)

    def _settle(
        self, chosen: tuple[_Place, ...], given: frozenset[Obstacle], kept: frozenset[Obstacle], cost: int
    ) -> None:
        """Give up, beside what lies in the way, as little as it takes that all suffices and no never is made."""
        weight = self._weight(given)
        if self._no_better(weight, cost):
            return
        clash = self.task.clash(chosen, given)
        if clash is None:
            return
        if not clash:
            self.best = (weight, cost, given, chosen)
            return
        for one in clash:
            if one not in kept:
                if self.weigh(one) is not None:
                    self._settle(chosen, given | {one}, kept, cost)
                kept |= {one}

    def _weight(self, given: frozenset[Obstacle]) -> int:
        return sum(self.weigh(one) or 0 for one in given)

    def _too_heavy(self, weight: int) -> bool:
        return self.best is not None and weight > self.best[0]

    def _no_better(self, weight: int, cost: int) -> bool:
        return self.best is not None and (weight, cost) >= self.best[:2]


#: Of releases of the same weight the one of fewer things is taken: each counts by this share of a weight of one.
_FEW = 10_000


def cheapest_release(puzzle: Puzzle, layout: Layout, wish: int) -> Release | Hopeless:
    """The least that has to be given up for a wish that is not met, all others staying where they are.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
        Without faults.
    wish : int

    Returns
    -------
    Release or Hopeless
    """
    hopeless = hopeless_by_length(puzzle, wish)
    if hopeless is not None:
        return hopeless

    def weigh(one: Obstacle) -> int | None:
        weight = max(0, puzzle.unmet[one.number]) if one.is_wish else puzzle.rules[one.number]
        return None if weight is None else weight * _FEW + 1

    found = _Task(puzzle, layout, wish).cheapest(weigh)
    if found is None:
        return Hopeless.HELD
    weight, given, places = found
    return Release(
        weight // _FEW,
        tuple(sorted(one.number for one in given if not one.is_wish)),
        tuple(sorted(one.number for one in given if one.is_wish)),
        tuple(sorted(Choice(place.option, place.start) for place in places)),
        sum(puzzle.options[place.option].cost for place in places),
    )


def hopeless_by_length(puzzle: Puzzle, wish: int) -> Hopeless | None:
    """Whether a wish has no options, or is longer than its beds in all its parts; None where it has a chance.

    Parameters
    ----------
    puzzle : Puzzle
    wish : int
    """
    long_enough: dict[int, set[int]] = defaultdict(set)
    parts: dict[int, int] = {}
    for option in puzzle.options:
        if option.wish == wish:
            parts[option.way] = option.parts
            if option.length <= puzzle.beds[option.bed].length:
                long_enough[option.way].add(option.bed)
    if not parts:
        return Hopeless.NO_OPTIONS
    return None if any(len(long_enough[way]) >= count for way, count in parts.items()) else Hopeless.TOO_LONG


def forbidding(puzzle: Puzzle, layout: Layout, wish: int) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """A smallest set of rules and wishes that forbid a wish: without any one of them, all else given up, it is possible.

    Rules that hold whatever comes are among them.  What weighs much is kept where there is a choice.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
        Without faults.
    wish : int
        Not met.

    Returns
    -------
    tuple of (tuple of int, tuple of int)
        Rules and wishes; both empty where nothing forbids it, or nothing but lengths and limits.
    """
    task = _Task(puzzle, layout, wish)

    def possible(held: set[Obstacle]) -> bool:
        return task.cheapest(lambda one: None if one in held else 0) is not None

    def weight(one: Obstacle) -> tuple[bool, bool, int, int]:
        weighs = max(0, puzzle.unmet[one.number]) if one.is_wish else puzzle.rules[one.number]
        return weighs is None, not one.is_wish, weighs or 0, one.number

    held = set(task.obstacles())
    if possible(held) or not possible(set()):
        return (), ()
    for one in sorted(held, key=weight):
        if not possible(held - {one}):
            held.discard(one)
    return (
        tuple(sorted(one.number for one in held if not one.is_wish)),
        tuple(sorted(one.number for one in held if one.is_wish)),
    )
