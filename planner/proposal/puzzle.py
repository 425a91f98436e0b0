"""The puzzle of a year's layout as plain numbers: beds as lengths in steps, days, wishes and the ways to meet each.

Nothing here knows a garden: :mod:`planner.proposal.garden_puzzle` makes the puzzle of one, :mod:`planner.proposal.search` solves it.
A puzzle goes to another process and back as it is.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple


class Block(NamedTuple):
    """Ground of a bed that is taken on some days.

    Attributes
    ----------
    start, end : int
        Steps from the beginning of the bed; the end is not taken any more.
    first, last : int
        Days, both of them taken. [proleptic Gregorian ordinal]
    rule : int
        Number of the rule by which it is taken, as that a planting stays where it is.
    """

    start: int
    end: int
    first: int
    last: int
    rule: int = 0


class Shut(NamedTuple):
    """A stretch of a bed on which no step of an option may lie: from, to, and the number of the rule that shuts it."""

    start: int
    end: int
    rule: int = 0


class BedGround(NamedTuple):
    """A bed as a length.

    Attributes
    ----------
    length : int
        Steps.
    blocks : tuple of Block
        What stands there already, and what nothing can be planted on.
    groups : frozenset of int
        Groups that are there already: one more of them costs nothing.
    """

    length: int
    blocks: tuple[Block, ...] = ()
    groups: frozenset[int] = frozenset()


class Use(NamedTuple):
    """How much of what there is only so much of is in use from one day to another, both included."""

    resource: int
    first: int
    last: int
    amount: int


class Option(NamedTuple):
    """One part of a wish in one bed, begun in one way.

    Attributes
    ----------
    wish, bed : int
        Which of them.
    way : int
        Options of a wish with the same number go together: the same dates, the same number of parts.
    parts : int
        So many options of this wish and way are chosen, each in another bed, or none.
    length : int
        Steps of the bed.
    first, last : int
        Days on which it takes them. [proleptic Gregorian ordinal]
    cost : int
        What it costs to choose it; less than nothing where it brings something.
    shut : tuple of Shut
    family : int
        Two long options of one family may not follow one another on the same ground; -1 for none.
    groups : tuple of int
        A group costs once in each bed in which any option of it is chosen.
    uses : tuple of Use
    """

    wish: int
    bed: int
    way: int
    parts: int
    length: int
    first: int
    last: int
    cost: int = 0
    shut: tuple[Shut, ...] = ()
    family: int = -1
    groups: tuple[int, ...] = ()
    uses: tuple[Use, ...] = ()


class Pair(NamedTuple):
    """Two wishes in one bed on common days: what it costs, or that it may not be (None)."""

    one: int
    other: int
    cost: int | None


#: Choices (wish, bed, way) that may not all be made.
Never = frozenset[tuple[int, int, int]]


class Puzzle(NamedTuple):
    """A year's layout to be found.

    Attributes
    ----------
    beds : tuple of BedGround
    unmet : tuple of int
        What it costs to leave a wish unmet, for each wish.
    options : tuple of Option
    group_costs : tuple of int
        For each group.
    pairs : tuple of Pair
    limits : tuple of int
        How much there is of each resource at one time.
    nevers : tuple of frozenset
    rules : tuple of int or None
        For each rule what it weighs to give it up; None for one that holds whatever comes.
    """

    beds: tuple[BedGround, ...]
    unmet: tuple[int, ...]
    options: tuple[Option, ...]
    group_costs: tuple[int, ...] = ()
    pairs: tuple[Pair, ...] = ()
    limits: tuple[int, ...] = ()
    nevers: tuple[Never, ...] = ()
    rules: tuple[int | None, ...] = (None,)


class Choice(NamedTuple):
    """An option (its index in the puzzle) that is chosen, and the step at which it begins."""

    option: int
    start: int


#: Choices, sorted by option.
Layout = tuple[Choice, ...]


def meet(one: Option | Block, other: Option | Block) -> bool:
    """Whether two have a day in common."""
    return one.first <= other.last and other.first <= one.last


def need_other_ground(one: Option, other: Option) -> bool:
    """Whether two options in one bed may not share a step: on common days, or as long crops of one family."""
    return meet(one, other) or (one.family >= 0 and one.family == other.family)


def cost_of(puzzle: Puzzle, layout: Layout) -> int:
    """What a layout costs.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
    """
    chosen = [puzzle.options[one.option] for one in layout]
    met = {one.wish for one in chosen}
    total = sum(cost for wish, cost in enumerate(puzzle.unmet) if wish not in met)
    total += sum(one.cost for one in chosen)
    groups = {(one.bed, group) for one in chosen for group in one.groups}
    total += sum(puzzle.group_costs[group] for bed, group in groups if group not in puzzle.beds[bed].groups)
    together = _together(chosen)
    return total + sum(
        pair.cost * together.get(_key(pair.one, pair.other), 0)
        for pair in puzzle.pairs
        if pair.cost is not None
    )


def faults_of(puzzle: Puzzle, layout: Layout) -> list[str]:
    """What a layout breaks, in words for the makers of the program; empty where it holds every rule.

    Parameters
    ----------
    puzzle : Puzzle
    layout : tuple of Choice
    """
    found: list[str] = []
    chosen = [(puzzle.options[one.option], one.start) for one in layout]
    if len({one.option for one in layout}) < len(layout):
        found.append("an option is chosen twice")
    ways: dict[int, list[Option]] = {}
    for option, _ in chosen:
        ways.setdefault(option.wish, []).append(option)
    for wish, there in ways.items():
        if len({one.way for one in there}) > 1:
            found.append(f"wish {wish} is met in two ways")
        if len(there) != there[0].parts or len({one.bed for one in there}) < len(there):
            found.append(f"wish {wish} has {len(there)} parts in {len({one.bed for one in there})} beds")
    for number, (option, start) in enumerate(chosen):
        found += _misplaced(puzzle.beds[option.bed], option, start)
        for other, at in chosen[:number]:
            shares = other.bed == option.bed and start < at + other.length and at < start + option.length
            if shares and need_other_ground(option, other):
                found.append(f"wishes {option.wish} and {other.wish} lie on one another in bed {option.bed}")
    together = _together(option for option, _ in chosen)
    found += [
        f"wishes {pair.one} and {pair.other} may not meet"
        for pair in puzzle.pairs
        if pair.cost is None and together.get(_key(pair.one, pair.other))
    ]
    made = {(option.wish, option.bed, option.way) for option, _ in chosen}
    found += ["choices that may not all be made" for never in puzzle.nevers if never <= made]
    return found + _overdrawn(puzzle, [option for option, _ in chosen])


def _misplaced(bed: BedGround, option: Option, start: int) -> Iterable[str]:
    end = start + option.length
    if start < 0 or end > bed.length:
        yield f"wish {option.wish} reaches out of bed {option.bed}"
    for block in bed.blocks:
        if meet(option, block) and start < block.end and block.start < end:
            yield f"wish {option.wish} lies on what stands in bed {option.bed}"
    for shut in option.shut:
        if start < shut.end and shut.start < end:
            yield f"wish {option.wish} lies on ground of bed {option.bed} that is shut to it"


def _overdrawn(puzzle: Puzzle, chosen: Sequence[Option]) -> list[str]:
    found = []
    for resource, limit in enumerate(puzzle.limits):
        uses = [use for option in chosen for use in option.uses if use.resource == resource]
        found += [
            f"resource {resource} does not suffice on day {day}"
            for day in {use.first for use in uses}
            if sum(use.amount for use in uses if use.first <= day <= use.last) > limit
        ]
    return found


def _key(one: int, other: int) -> tuple[int, int]:
    return min(one, other), max(one, other)


def _together(chosen: Iterable[Option]) -> Mapping[tuple[int, int], int]:
    """In how many beds two wishes stand on common days."""
    by_bed: dict[int, list[Option]] = {}
    for option in chosen:
        by_bed.setdefault(option.bed, []).append(option)
    found: dict[tuple[int, int], int] = {}
    for there in by_bed.values():
        for number, one in enumerate(there):
            for other in there[:number]:
                if meet(one, other):
                    key = _key(one.wish, other.wish)
                    found[key] = found.get(key, 0) + 1
    return found
