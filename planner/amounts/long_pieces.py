"""Pieces that are longer than any that is sold, made of parts that overlap."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping

from planner.amounts.cuts import Bar, Cut, CutList, Joined
from planner.amounts.cutting import cut_list


def join_long(
    pieces: Mapping[int, int], longest: int, overlap: int
) -> tuple[dict[int, int], tuple[Joined, ...]]:
    """Make pieces that are longer than any that is sold of parts; the others stay whole.

    Parameters
    ----------
    pieces : mapping of int to int
        Number by length. [mm]
    longest : int
        That is sold. [mm]
    overlap : int
        Of two parts. [mm]
    """
    found: Counter[int] = Counter()
    joined = []
    for length, number in pieces.items():
        if length <= longest or longest <= 2 * overlap:
            found[length] += number
            continue
        whole, rest = divmod(length - overlap, longest - overlap)
        parts = [longest] * whole + ([rest + overlap] if rest else [])
        lacks = 2 * overlap - parts[-1]
        if lacks > 0:
            parts[-1] += lacks
            parts[-2] -= lacks
        for part, times in Counter(parts).items():
            found[part] += times * number
        joined.append(Joined(length, tuple(parts), number, False))
    return dict(found), tuple(joined)


def with_parts(cuts: Iterable[Cut], joined: Iterable[Joined]) -> tuple[Cut, ...]:
    """Cuts that say which of their pieces are parts of something longer."""
    waiting: dict[int, list[list[int]]] = {}
    for one in joined:
        for part, number in Counter(one.parts).items():
            waiting.setdefault(part, []).append([one.length, number * one.times])
    found = []
    for cut in cuts:
        left = cut.times
        while left:
            of, times = [], left
            for length, number in cut.pieces:
                taken = 0
                for whole in waiting.get(length, ()):
                    here = min(number - taken, whole[1])
                    if here:
                        of.append((length, whole[0], here))
                        times = min(times, whole[1] // here)
                        taken += here
            for length, whole_length, here in of:
                for whole in waiting[length]:
                    if whole[0] == whole_length:
                        whole[1] -= here * times
            found.append(Cut(cut.bar, cut.on_hand, cut.pieces, times, cut.width, tuple(of)))
            left -= times
    return tuple(found)


def bar_list(pieces: Mapping[int, int], bars: Iterable[Bar], overlap: int) -> CutList:
    """The cut list of bars, poles or wires: pieces that are longer than any bar are made of parts, the others stay whole.

    Parameters
    ----------
    pieces : mapping of int to int
        Number by length. [mm]
    bars : iterable of Bar
    overlap : int
        Of two parts; 0 where none are joined. [mm]
    """
    every = tuple(bars)
    found = cut_list(pieces, every)
    longest = max((bar.length for bar in every if bar.number is None), default=0)
    if not overlap or not found.too_long or longest <= 2 * overlap:
        return found
    parts, joined = join_long(dict(found.too_long), longest, overlap)
    rest = Counter(pieces)
    rest.subtract(dict(found.too_long))
    with_joins = cut_list(+(rest + Counter(parts)), every)
    there = sum(bar.length * bar.number for bar in every if bar.number is not None)
    joins = sum((len(one.parts) - 1) * one.times for one in joined)
    total = sum(length * number for length, number in pieces.items()) + joins * overlap - there
    bound = min(max(found.bound, total), with_joins.bought)
    return CutList(with_parts(with_joins.cuts, joined), with_joins.bought, bound, with_joins.too_long, joined)
