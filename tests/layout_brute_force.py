"""All layouts of a small puzzle, tried one by one on a grid of steps and days: the yardstick of the solvers.

Written from the rules in words, without the program's own functions: what is planted takes its steps on its days and nothing
else may be there; long crops of one family never take the same step; all parts of a wish or none, one way, one part a bed.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, product

from planner.proposal.puzzle import Puzzle

#: Option number and start of each part.
Placed = tuple[tuple[int, int], ...]


def all_layouts(puzzle: Puzzle) -> Iterator[tuple[int, Placed]]:
    """Cost and choices of every layout that holds every rule."""
    blocked = []
    for bed in puzzle.beds:
        cells = set()
        for block in bed.blocks:
            for step in range(block.start, block.end):
                cells |= {(step, day) for day in range(block.first, block.last + 1)}
        blocked.append(cells)
    yield from _go_on(puzzle, 0, (), blocked, [{} for _ in puzzle.beds])


def few_enough(puzzle: Puzzle, most: int = 20_000) -> bool:
    """Whether there are so few layouts, those counted that break a rule, that all can be tried in no time."""
    count = 1
    for wish in range(len(puzzle.unmet)):
        places = 1
        for some in ways_to_meet(puzzle, wish):
            free = 1
            for option in (puzzle.options[number] for number in some):
                free *= max(0, puzzle.beds[option.bed].length - option.length + 1)
            places += free
        count *= places
    return count <= most


def best_cost(puzzle: Puzzle) -> int:
    """What the cheapest layout costs."""
    return min(cost for cost, _ in all_layouts(puzzle))


def ways_to_meet(puzzle: Puzzle, wish: int) -> list[tuple[int, ...]]:
    """Sets of options that together meet a wish."""
    numbers = [number for number, option in enumerate(puzzle.options) if option.wish == wish]
    found = []
    for way in sorted({puzzle.options[number].way for number in numbers}):
        mine = [number for number in numbers if puzzle.options[number].way == way]
        found += [
            some
            for some in combinations(mine, puzzle.options[mine[0]].parts)
            if len({puzzle.options[number].bed for number in some}) == len(some)
        ]
    return found


def _go_on(
    puzzle: Puzzle, wish: int, placed: Placed, taken: list[set], families: list[dict]
) -> Iterator[tuple[int, Placed]]:
    if wish == len(puzzle.unmet):
        if _allowed(puzzle, placed):
            yield _price(puzzle, placed), tuple(sorted(placed))
        return
    yield from _go_on(puzzle, wish + 1, placed, taken, families)
    for some in ways_to_meet(puzzle, wish):
        spans = [
            range(puzzle.beds[puzzle.options[n].bed].length - puzzle.options[n].length + 1) for n in some
        ]
        for starts in product(*spans):
            after, kin = [set(cells) for cells in taken], [dict(steps) for steps in families]
            if all(
                _lay(puzzle, number, start, after, kin) for number, start in zip(some, starts, strict=True)
            ):
                yield from _go_on(
                    puzzle, wish + 1, placed + tuple(zip(some, starts, strict=True)), after, kin
                )


def _lay(puzzle: Puzzle, number: int, start: int, taken: list[set], families: list[dict]) -> bool:
    option = puzzle.options[number]
    for step in range(start, start + option.length):
        if any(shut.start <= step < shut.end for shut in option.shut):
            return False
        if option.family >= 0 and option.family in families[option.bed].get(step, ()):
            return False
        cells = {(step, day) for day in range(option.first, option.last + 1)}
        if cells & taken[option.bed]:
            return False
        taken[option.bed] |= cells
        families[option.bed][step] = (*families[option.bed].get(step, ()), option.family)
    return True


def _days_shared(puzzle: Puzzle, placed: Placed, one: int, other: int) -> int:
    """In how many beds two wishes are on any same day."""
    chosen = [puzzle.options[number] for number, _ in placed]
    return sum(
        bool(set(range(a.first, a.last + 1)) & set(range(b.first, b.last + 1)))
        for a in chosen
        for b in chosen
        if a.bed == b.bed and a.wish == one and b.wish == other
    )


def _allowed(puzzle: Puzzle, placed: Placed) -> bool:
    chosen = [puzzle.options[number] for number, _ in placed]
    if any(pair.cost is None and _days_shared(puzzle, placed, pair.one, pair.other) for pair in puzzle.pairs):
        return False
    if any(
        all(any((o.wish, o.bed, o.way) == one for o in chosen) for one in never) for never in puzzle.nevers
    ):
        return False
    for resource, limit in enumerate(puzzle.limits):
        for day in range(40):
            used = [
                u.amount
                for o in chosen
                for u in o.uses
                if u.resource == resource and u.first <= day <= u.last
            ]
            if sum(used) > limit:
                return False
    return True


def _price(puzzle: Puzzle, placed: Placed) -> int:
    chosen = [puzzle.options[number] for number, _ in placed]
    met = {option.wish for option in chosen}
    total = sum(option.cost for option in chosen) + sum(
        c for wish, c in enumerate(puzzle.unmet) if wish not in met
    )
    for number, bed in enumerate(puzzle.beds):
        here = {group for option in chosen if option.bed == number for group in option.groups} - bed.groups
        total += sum(puzzle.group_costs[group] for group in here)
    return total + sum(
        pair.cost * _days_shared(puzzle, placed, pair.one, pair.other)
        for pair in puzzle.pairs
        if pair.cost is not None
    )


def places_beside(puzzle: Puzzle, others: Placed, wish: int) -> list[tuple[int, Placed]]:
    """All places of a wish beside others that stay where they are, and what the whole layout then costs."""
    blocked = []
    for bed in puzzle.beds:
        cells = set()
        for block in bed.blocks:
            for step in range(block.start, block.end):
                cells |= {(step, day) for day in range(block.first, block.last + 1)}
        blocked.append(cells)
    families: list[dict] = [{} for _ in puzzle.beds]
    assert all(_lay(puzzle, number, start, blocked, families) for number, start in others)
    found = []
    for some in ways_to_meet(puzzle, wish):
        spans = [
            range(puzzle.beds[puzzle.options[n].bed].length - puzzle.options[n].length + 1) for n in some
        ]
        for starts in product(*spans):
            mine = tuple(zip(some, starts, strict=True))
            after, kin = [set(cells) for cells in blocked], [dict(steps) for steps in families]
            if all(_lay(puzzle, *one, after, kin) for one in mine) and _allowed(puzzle, others + mine):
                found.append((_price(puzzle, others + mine), tuple(sorted(mine))))
    return found


def relaxed(puzzle: Puzzle, rules: set[int]) -> Puzzle:
    """The puzzle without some rules."""
    return puzzle._replace(
        beds=tuple(
            bed._replace(blocks=tuple(b for b in bed.blocks if b.rule not in rules)) for bed in puzzle.beds
        ),
        options=tuple(
            o._replace(shut=tuple(s for s in o.shut if s.rule not in rules)) for o in puzzle.options
        ),
    )
