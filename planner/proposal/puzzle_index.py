"""A puzzle sorted for its solvers: which options can stand at all, the ways of each wish, who minds whom."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable
from functools import cached_property
from typing import NamedTuple

from planner.proposal.packing import longest_run
from planner.proposal.puzzle import Choice, Layout, Option, Puzzle


class Way(NamedTuple):
    """One way to meet a wish.

    Attributes
    ----------
    parts : int
        So many of its options are chosen, each in another bed.
    options : tuple of int
        Those that can stand in their bed if nothing else does, the cheapest first.
    least : int
        What its cheapest options cost without groups and pairs.
    entries : tuple of (int, int, int)
        Cost, number and bed of each option, in the same order.
    """

    parts: int
    options: tuple[int, ...]
    least: int
    entries: tuple[tuple[int, int, int], ...]


class PuzzleIndex:
    """What the solvers look up again and again; nothing of it changes.

    Parameters
    ----------
    puzzle : Puzzle

    Attributes
    ----------
    ways : list of list of Way
        For each wish; those alone that can be met if nothing else stands there.
    never_choices : dict
        Of each choice (wish, bed, way) the numbers of the nevers that it is part of.
    hard, soft : dict
        Of each wish those with which it may not share a bed, and what it costs to share one with others.
    saved : list of int
        For each wish the most that company and groups can take off the cost of one part: none or less than nothing.
    days : tuple of int
        First and last day of any use.
    """

    def __init__(self, puzzle: Puzzle) -> None:
        self.puzzle = puzzle
        self.ways: list[list[Way]] = [[] for _ in puzzle.unmet]
        by_way: dict[tuple[int, int], list[int]] = defaultdict(list)
        options, beds = puzzle.options, puzzle.beds
        plain = [bed.length if not bed.blocks else -1 for bed in beds]
        for number, option in enumerate(options):
            room = plain[option.bed]
            if option.shut or room < 0:
                room = longest_run(beds[option.bed], option)
            if option.length <= room and self.within_limits((option,)):
                by_way[option.wish, option.way].append(number)
        for (wish, _), numbers in sorted(by_way.items()):
            way = self._way(numbers)
            if way is not None:
                self.ways[wish].append(way)
        for ways in self.ways:
            ways.sort(key=lambda way: way.least)
        self.hard: dict[int, set[int]] = defaultdict(set)
        self.soft: dict[int, dict[int, int]] = defaultdict(dict)
        for pair in puzzle.pairs:
            for one, other in ((pair.one, pair.other), (pair.other, pair.one)):
                if one == other:
                    continue  # no two parts of a wish are in one bed
                if pair.cost is None:
                    self.hard[one].add(other)
                else:
                    self.soft[one][other] = self.soft[one].get(other, 0) + pair.cost
        self.never_choices: dict[tuple[int, int, int], list[int]] = defaultdict(list)
        for number, never in enumerate(puzzle.nevers):
            for choice in never:
                self.never_choices[choice].append(number)
        groups = sum(min(cost, 0) for cost in puzzle.group_costs)
        self.saved = [
            groups + sum(min(cost, 0) for cost in self.soft.get(wish, {}).values())
            for wish in range(len(puzzle.unmet))
        ]
        uses = [use for option in options for use in option.uses]
        self.days = (min((use.first for use in uses), default=0), max((use.last for use in uses), default=0))

    def within_limits(self, options: tuple[Option, ...]) -> bool:
        """Whether there is enough of everything for these alone."""
        limits = self.puzzle.limits
        uses = [use for option in options for use in option.uses if use.resource < len(limits)]
        return all(
            sum(
                other.amount
                for other in uses
                if other.resource == use.resource and other.first <= use.first <= other.last
            )
            <= limits[use.resource]
            for use in uses
        )

    def options_in(self, wish: int, bed: int) -> tuple[int, ...]:
        """The options of a wish in a bed, of the ways that can be met.

        Parameters
        ----------
        wish, bed : int
        """
        return self._by_bed[wish].get(bed, ())

    def beds_of(self, wish: int) -> Iterable[int]:
        """The beds in which a part of a wish can stand.

        Parameters
        ----------
        wish : int
        """
        return self._by_bed[wish]

    @cached_property
    def _by_bed(self) -> list[dict[int, tuple[int, ...]]]:
        found = []
        for ways in self.ways:
            mine: dict[int, tuple[int, ...]] = {}
            for way in ways:
                for number in way.options:
                    bed = self.puzzle.options[number].bed
                    mine[bed] = (*mine.get(bed, ()), number)
            found.append(mine)
        return found

    def _way(self, numbers: list[int]) -> Way | None:
        options = self.puzzle.options
        parts = options[numbers[0]].parts
        numbers.sort(key=lambda number: options[number].cost)
        cheapest: dict[int, int] = {}
        for number in numbers:
            cheapest.setdefault(options[number].bed, options[number].cost)
            if len(cheapest) == parts:
                entries = tuple((options[n].cost, n, options[n].bed) for n in numbers)
                return Way(parts, tuple(numbers), sum(cheapest.values()), entries)
        return None


def by_wish(puzzle: Puzzle, layout: Layout) -> dict[int, list[Choice]]:
    """The choices of each wish that is met."""
    found: dict[int, list[Choice]] = defaultdict(list)
    for choice in layout:
        found[puzzle.options[choice.option].wish].append(choice)
    return dict(found)


def by_bed(puzzle: Puzzle, layout: Layout) -> dict[int, list[Choice]]:
    """The choices in each bed."""
    found: dict[int, list[Choice]] = defaultdict(list)
    for choice in layout:
        found[puzzle.options[choice.option].bed].append(choice)
    return dict(found)
