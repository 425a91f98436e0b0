"""Bars filled one by one with the least rest (minimum bin slack, Gupta and Ho 1999), beside a bound of what must be bought."""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from planner.amounts.cut_bounds import Dual, Identity, LeavesNoRoom, Rounded
from planner.amounts.cuts import Bar

#: Most steps of filling one bar with the least rest.
MOST_FILLING = 600


class Filled(NamedTuple):
    """Bars with their pieces, and what they cost: (bar, on hand, pieces by place of their length, number of bars)."""

    cost: int
    bars: tuple[tuple[int, bool, tuple[int, ...], int], ...]
    lengths: tuple[int, ...]


class Problem(NamedTuple):
    """Lengths of pieces, the longest first, and the bars that are sold and on hand."""

    lengths: tuple[int, ...]
    sold: tuple[Bar, ...]
    there: tuple[Bar, ...]

    def bound(self, left: Sequence[int], there: Sequence[int]) -> int:
        """No list of these pieces buys less. [mm]"""
        if not any(left):
            return 0
        whole = max(bar.length for bar in (*self.sold, *self.there))
        shares = [Fraction(length, whole) for length in self.lengths]
        functions = [Identity(), *(Rounded(k) for k in range(1, 13))]
        functions += [LeavesNoRoom(share) for share in sorted(set(shares)) if 2 * share <= 1]
        return max(self._bound_by(one, shares, left, there, whole) for one in functions)

    def _bound_by(
        self,
        function: Dual,
        shares: Sequence[Fraction],
        left: Sequence[int],
        there: Sequence[int],
        whole: int,
    ) -> int:
        wanted = sum(
            (function(share) * number for share, number in zip(shares, left, strict=True)), Fraction(0)
        )
        for bar, number in zip(self.there, there, strict=True):
            wanted -= function(Fraction(bar.length, whole)) * number
        if wanted <= 0:
            return 0
        rates = [
            bar.length / value  # exact, so that no bound is rounded up by a trifle
            for bar in self.sold
            if (value := function(Fraction(bar.length, whole))) > 0
        ]
        return self._bought(math.ceil(wanted * min(rates))) if rates else 0

    def _bought(self, least: int) -> int:
        """The least length at or above one that whole bars can make up, as far as their common measure says. [mm]"""
        step = math.gcd(*(bar.length for bar in self.sold))
        return max(-(-least // step) * step, min(bar.length for bar in self.sold))

    def quick_bound(self, left: Sequence[int], there: Sequence[int]) -> int:
        """The bound by lengths alone. [mm]"""
        wanted = sum(length * number for length, number in zip(self.lengths, left, strict=True))
        wanted -= sum(bar.length * number for bar, number in zip(self.there, there, strict=True))
        return self._bought(wanted) if wanted > 0 and self.sold else 0

    def fill(self, start: Sequence[int]) -> Filled:
        """A good list: bars on hand first, each bar with the least rest; the better of two orders."""
        fills = [self._fill(start, least_rest=True), self._fill(start, least_rest=False)]
        return min(fills, key=lambda found: (found.cost, sum(bar[3] for bar in found.bars)))

    def _fill(self, start: Sequence[int], *, least_rest: bool) -> Filled:
        left, there = list(start), [bar.number or 0 for bar in self.there]
        bars: list[tuple[int, bool, tuple[int, ...], int]] = []
        cost = 0
        for place, bar in reversed(list(enumerate(self.there))):  # the shortest first
            while there[place] and (held := self._held(bar.length, left, least_rest)) is not None:
                times = min(there[place], _times(left, held))
                there[place] -= times
                bars.append((bar.length, True, held, times))
                _take(left, held, times)
        while any(left):
            tried = [(bar, self._held(bar.length, left, least_rest, lead=True)) for bar in self.sold]
            fits = [(bar, held) for bar, held in tried if held is not None]
            bar, held = min(fits, key=lambda one: self._dearness(one[0], one[1], left))
            times = _times(left, held)
            cost += bar.length * times
            bars.append((bar.length, False, held, times))
            _take(left, held, times)
        return Filled(cost, tuple(bars), self.lengths)

    def _dearness(self, bar: Bar, held: Sequence[int], left: Sequence[int]) -> tuple[float, int]:
        """Length bought for each length used; of the last bar the shortest."""
        used = sum(length * number for length, number in zip(self.lengths, held, strict=True))
        if list(held) == list(left):
            return (0.0, bar.length)
        return (bar.length / used, -bar.length)

    def _held(
        self, room: int, left: Sequence[int], least_rest: bool, *, lead: bool = False
    ) -> tuple[int, ...] | None:
        """Pieces for one bar: with the longest piece left if ``lead``; None where none fits."""
        first = next(
            (i for i, number in enumerate(left) if number and (lead or self.lengths[i] <= room)), None
        )
        if first is None or self.lengths[first] > room:
            return None
        if least_rest:
            return fullest(self.lengths, left, room, first)
        held = [0] * len(left)
        for place, number in enumerate(left):
            held[place] = min(number, room // self.lengths[place])
            room -= held[place] * self.lengths[place]
        return tuple(held)


def _times(left: Sequence[int], held: Sequence[int]) -> int:
    """How many bars can be cut alike."""
    return min(number // taken for number, taken in zip(left, held, strict=True) if taken)


def _take(left: list[int], held: Sequence[int], times: int) -> None:
    """Take the pieces of some bars off those left."""
    for place, number in enumerate(held):
        left[place] -= number * times


def fullest(lengths: Sequence[int], left: Sequence[int], room: int, first: int) -> tuple[int, ...]:
    """The pieces with one of a length that leave the least rest of a bar; the longest ones of those that leave the same."""
    best: tuple[int, tuple[int, ...]] = (room + 1, ())
    held = [0] * len(left)
    held[first] = 1
    steps = 0

    def lay(place: int, rest: int) -> bool:
        nonlocal best, steps
        steps += 1
        if rest < best[0]:
            best = (rest, tuple(held))
        if not rest or steps > MOST_FILLING:
            return True
        for at in range(place, len(lengths)):
            number = min(left[at] - held[at], rest // lengths[at])
            if number <= 0:
                continue
            for more in range(number, 0, -1):
                held[at] += more
                done = lay(at + 1, rest - more * lengths[at])
                held[at] -= more
                if done:
                    return True
        return False

    lay(first, room - lengths[first])
    return best[1]
