"""Layouts that are nearly as good as the best one and unlike it and one another.

What the layouts before did is made dearer, more and more, and searched again, until enough wishes are in other beds.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from planner.proposal.puzzle import Layout, Puzzle, cost_of
from planner.proposal.search import search

#: How much dearer it is made to do as before, times the cost that may be added for each wish that has to differ.
DEARER = (0.7, 2.0, 6.0)
#: Rounds in which an unlike layout is made cheaper again.
POLISH = 4


class Alternative(NamedTuple):
    """A layout unlike others.

    Attributes
    ----------
    layout : tuple of Choice
    cost : int
    differs : float
        The share of wishes that are in other beds, or met and unmet, than in the one of the others that is most like it.
    """

    layout: Layout
    cost: int
    differs: float


def difference(puzzle: Puzzle, one: Layout, other: Layout) -> float:
    """The share of the wishes met in either layout that are not in the same beds in both.

    Parameters
    ----------
    puzzle : Puzzle
    one, other : tuple of Choice
    """
    beds = [_beds(puzzle, layout) for layout in (one, other)]
    wishes = {*beds[0], *beds[1]}
    return sum(beds[0].get(wish) != beds[1].get(wish) for wish in wishes) / max(1, len(wishes))


def alternatives(
    puzzle: Puzzle,
    best: Layout,
    count: int = 3,
    *,
    factor: float = 1.15,
    share: float = 0.3,
    rounds: int = 12,
    seed: int = 0,
    stop: Callable[[], bool] | None = None,
) -> tuple[Alternative, ...]:
    """Up to so many layouts unlike the best one and one another; fewer, or none, where no more were found.

    Parameters
    ----------
    puzzle : Puzzle
    best : tuple of Choice
        Without faults.
    count : int
    factor : float
        They cost no more than the best one and this share less one of what it costs, whatever its sign.
    share : float
        So many of the wishes at least are in other beds.
    rounds : int
        Of each search.
    seed : int
    stop : callable
        Whether to end; looked at between rounds.

    Raises
    ------
    SolverError
        Where OR-Tools is not installed.
    """
    spare = int(abs(cost_of(puzzle, best)) * (factor - 1.0))
    most = cost_of(puzzle, best) + spare
    found: list[Alternative] = []
    for number in range(count):
        known = [best, *(one.layout for one in found)]
        for dearer in DEARER:
            if stop is not None and stop():
                return tuple(found)
            step = max(1, round(dearer * spare / max(1.0, share * len(_beds(puzzle, best)))))
            layout = _unlike(_dearer(puzzle, known, step), known[-1], rounds, seed + number, stop)
            layout = _polished(puzzle, layout, known, share, seed + number, stop)
            cost, differs = cost_of(puzzle, layout), _least(puzzle, layout, known)
            if differs >= share and cost <= most:
                found.append(Alternative(layout, cost, differs))
                break
        else:
            break
    return tuple(found)


def _beds(puzzle: Puzzle, layout: Layout) -> dict[int, frozenset[int]]:
    found: dict[int, frozenset[int]] = {}
    for choice in layout:
        option = puzzle.options[choice.option]
        found[option.wish] = found.get(option.wish, frozenset()) | {option.bed}
    return found


def _least(puzzle: Puzzle, layout: Layout, known: Sequence[Layout]) -> float:
    return min(difference(puzzle, layout, one) for one in known)


def _dearer(puzzle: Puzzle, known: Sequence[Layout], step: int) -> Puzzle:
    """The puzzle in which it costs more to put a wish where it is in any of the layouts."""
    used: dict[tuple[int, int], int] = {}
    for layout in known:
        for choice in layout:
            option = puzzle.options[choice.option]
            used[option.wish, option.bed] = used.get((option.wish, option.bed), 0) + step
    options = tuple(
        option._replace(cost=option.cost + used[option.wish, option.bed])
        if (option.wish, option.bed) in used
        else option
        for option in puzzle.options
    )
    # To leave a wish unmet is no way out.
    dearest = [0] * len(puzzle.unmet)
    for (wish, _), more in used.items():
        dearest[wish] += more
    return puzzle._replace(
        options=options, unmet=tuple(cost + more for cost, more in zip(puzzle.unmet, dearest, strict=True))
    )


def _unlike(puzzle: Puzzle, start: Layout, rounds: int, seed: int, stop: Callable[[], bool] | None) -> Layout:
    layout = start
    for step in search(puzzle, start, rounds=rounds, seed=seed, stop=stop):
        layout = step.layout
    return layout


def _polished(
    puzzle: Puzzle,
    start: Layout,
    known: Sequence[Layout],
    share: float,
    seed: int,
    stop: Callable[[], bool] | None,
) -> Layout:
    """The layout made cheaper as long as it stays unlike the others."""
    layout = start
    for step in search(puzzle, start, rounds=POLISH, seed=seed, stop=stop):
        if _least(puzzle, step.layout, known) < share:
            break
        layout = step.layout
    return layout
