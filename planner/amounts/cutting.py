"""A cut list: pieces laid on bars, poles and rolls so that the least length must be bought.

The one-dimensional cutting-stock problem with bars of several lengths, some of them on hand.  Small lists are solved by
branch and bound: the longest piece left goes onto some bar together with a set of pieces to which no other can be added.
Larger ones are filled bar by bar with the least rest (minimum bin slack, Gupta and Ho 1999), and stand beside a lower
bound from dual feasible functions (Martello and Toth 1990; Fekete and Schepers 2001).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from planner.amounts.bar_filling import Filled, Problem
from planner.amounts.cut_search import CutSearch
from planner.amounts.cuts import Bar, Cut, CutList, Pieces
from planner.plan.cache import fact

#: Lengths are cut to the millimetre. [m]
MILLIMETRE = 0.001
#: Most fillings of a bar that the search tries; a list that takes more keeps the best found, beside its bound.
MOST_STEPS = 15_000
#: Lists of more pieces, or of more lengths, are filled and not searched: the search goes as deep as there are bars.
SEARCHED_PIECES, SEARCHED_LENGTHS = 250, 60


class CuttingInputs(NamedTuple):
    """What a cut list depends on: pieces and bars, each with their numbers.

    Attributes
    ----------
    pieces : frozenset of (int, int)
        Length and number. [mm]
    bars : frozenset of Bar
    """

    pieces: frozenset[tuple[int, int]]
    bars: frozenset[Bar]


@fact("cut list")
def cut_list_of(inputs: CuttingInputs) -> CutList:
    """The cut list of some pieces and bars."""
    return cut_list(dict(inputs.pieces), inputs.bars)


def millimetres(length: float) -> int:
    """A length in whole millimetres, of pieces as of bars rounded down: two of 3 ft come from one of 6 ft. [m -> mm]"""
    return math.floor(length / MILLIMETRE + 1e-6)


def cut_list(pieces: Mapping[int, int], bars: Iterable[Bar], steps: int = MOST_STEPS) -> CutList:
    """Lay pieces on bars so that the least length must be bought.

    Parameters
    ----------
    pieces : mapping of int to int
        Number of pieces by their length. [mm]
    bars : iterable of Bar
    steps : int
        Most fillings of a bar that the search tries.

    Returns
    -------
    CutList
        Without pieces an empty one.
    """
    wanted = {length: number for length, number in pieces.items() if number > 0 and length > 0}
    kinds = _kinds(bars)
    sold, there = [bar for bar in kinds if bar.number is None], [bar for bar in kinds if bar.number]
    longest_sold = max((bar.length for bar in sold), default=0)
    left, alone, too_long = _long_pieces(wanted, there, longest_sold)
    problem = Problem(tuple(sorted(left, reverse=True)), tuple(sold), tuple(alone.bars))
    start = tuple(left[length] for length in problem.lengths)
    best = problem.fill(start)
    bound = best.cost and _least(wanted, too_long, sold, there)
    small = sum(start) <= SEARCHED_PIECES and len(start) <= SEARCHED_LENGTHS
    if best.cost > bound and small:
        searched = CutSearch(problem, best, bound, steps).run(start)
        best = searched.best
        # What long pieces leave of bars on hand was chosen, not searched: then only the bound proves.
        bound = best.cost if searched.complete and not alone.cuts else bound
    return CutList((*alone.cuts, *_grouped(best)), best.cost, bound, too_long)


def _least(wanted: Mapping[int, int], too_long: Pieces, sold: Sequence[Bar], there: Sequence[Bar]) -> int:
    """No list of all pieces that fit some bar buys less. [mm]"""
    fit = dict(wanted)
    for length, number in too_long:
        fit[length] -= number
    lengths = tuple(sorted(fit, reverse=True))
    problem = Problem(lengths, tuple(sold), tuple(there))
    return problem.bound([fit[length] for length in lengths], [bar.number or 0 for bar in there])


class _Alone(NamedTuple):
    bars: list[Bar]
    cuts: list[Cut]


def _long_pieces(
    wanted: dict[int, int], there: Sequence[Bar], longest_sold: int
) -> tuple[dict[int, int], _Alone, Pieces]:
    """Give pieces longer than what is sold the shortest bars on hand that hold them; those that find none are too long.

    Returns
    -------
    pieces left, bars on hand left with the rests of those used, pieces too long
    """
    left, bars = dict(wanted), Counter({bar.length: bar.number or 0 for bar in there})
    cuts, too_long = list[Cut](), list[tuple[int, int]]()
    for length in sorted((one for one in wanted if one > longest_sold), reverse=True):
        number = left.pop(length)
        for bar in sorted(bars):
            while number and bar >= length and bars[bar]:
                bars[bar] -= 1
                same = min(number, bar // length)
                held = _shorter_pieces(bar - same * length, left)
                pieces = tuple(sorted({length: same, **held}.items(), reverse=True))
                cuts.append(Cut(bar, True, pieces, 1))
                number -= same
        if number:
            too_long.append((length, number))
    remaining = [Bar(bar, number) for bar, number in sorted(bars.items(), reverse=True) if number]
    return (
        {one: number for one, number in left.items() if number},
        _Alone(remaining, _merged(cuts)),
        tuple(too_long),
    )


def _shorter_pieces(room: int, left: dict[int, int]) -> dict[int, int]:
    """Take further pieces for the rest of a bar, the longest that fit first."""
    held: dict[int, int] = {}
    for length in sorted(left, reverse=True):
        number = min(left[length], room // length)
        if number:
            held[length] = number
            left[length] -= number
            room -= number * length
    return held


def _merged(cuts: Iterable[Cut]) -> list[Cut]:
    found = Counter((cut.bar, cut.on_hand, cut.pieces) for cut in cuts)
    return [Cut(*key, times) for key, times in found.items()]


def _kinds(bars: Iterable[Bar]) -> tuple[Bar, ...]:
    """Bars by length, those on hand added up, the longest first; without such as have no length."""
    there: Counter[int] = Counter()
    sold = set()
    for bar in bars:
        if bar.length <= 0:
            continue
        if bar.number is None:
            sold.add(bar.length)
        elif bar.number > 0:
            there[bar.length] += bar.number
    on_hand = [Bar(length, number) for length, number in sorted(there.items(), reverse=True)]
    return (*on_hand, *(Bar(length) for length in sorted(sold, reverse=True)))


def _grouped(filled: Filled) -> list[Cut]:
    """The bars of a list, those that are cut alike together: on hand first, the longest first."""
    found: Counter[tuple[int, bool, tuple[int, ...]]] = Counter()
    for bar, on_hand, held, times in filled.bars:
        found[bar, on_hand, held] += times
    cuts = [
        Cut(
            bar,
            on_hand,
            tuple((length, number) for length, number in zip(filled.lengths, held, strict=True) if number),
            times,
        )
        for (bar, on_hand, held), times in found.items()
    ]
    return sorted(cuts, key=lambda cut: (not cut.on_hand, -cut.bar, [(-a, -b) for a, b in cut.pieces]))
