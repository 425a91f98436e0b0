"""A cut list: pieces laid on bars, poles and rolls so that the least length must be bought.

The one-dimensional cutting-stock problem with bars of several lengths, some of them on hand.  Small lists are solved by
branch and bound: the longest piece left goes onto some bar together with a set of pieces to which no other can be added.
Larger ones are filled bar by bar with the least rest (minimum bin slack, Gupta and Ho 1999), and stand beside a lower
bound from dual feasible functions (Martello and Toth 1990; Fekete and Schepers 2001).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from planner.plan.cache import fact

#: Lengths are cut to the millimetre. [m]
MILLIMETRE = 0.001
#: Most fillings of a bar that the search tries; a list that takes more keeps the best found, beside its bound.
MOST_STEPS = 15_000
#: Most sets of pieces that are tried for one bar.
MOST_FILLS = 400
#: Most steps of filling one bar with the least rest.
MOST_FILLING = 600
#: Lists of more pieces, or of more lengths, are filled and not searched: the search goes as deep as there are bars.
SEARCHED_PIECES, SEARCHED_LENGTHS = 250, 60

Pieces = tuple[tuple[int, int], ...]


class Bar(NamedTuple):
    """A bar, pole or roll to cut from.

    Attributes
    ----------
    length : int
        [mm]
    number : int or None
        So many are on hand; None where any number can be bought.
    width : int
        Of a sheet on hand; 0 where it is that of the roll, and of bars and poles. [mm]
    """

    length: int
    number: int | None = None
    width: int = 0

    @property
    def cost(self) -> int:
        """What is bought with it. [mm]"""
        return 0 if self.number is not None else self.length


@dataclass(frozen=True)
class Cut:
    """Bars that are cut alike.

    Attributes
    ----------
    bar : int
        Length of each. [mm]
    on_hand : bool
        They are in the shed; else they are bought.
    pieces : tuple of (int, int)
        Lengths cut from each, the longest first, and how many. [mm]
    times : int
        How many bars.
    width : int
        Of a sheet on hand from which a strip is cut; 0 of all else. [mm]
    of : tuple of (int, int, int)
        Which pieces are parts of something longer: length of the part, of what it is a part, and how many. [mm]
    """

    bar: int
    on_hand: bool
    pieces: Pieces
    times: int
    width: int = 0
    of: tuple[tuple[int, int, int], ...] = ()

    @property
    def rest(self) -> int:
        """What is left of each bar. [mm]"""
        return self.bar - sum(length * number for length, number in self.pieces)


class Joined(NamedTuple):
    """What is made of several parts.

    Attributes
    ----------
    length : int
        Of the whole. [mm]
    parts : tuple of int
        They are longer than the whole by an overlap at each join. [mm]
    times : int
        How many are made so.
    on_hand : bool
        All parts are cut from what is in the shed.
    """

    length: int
    parts: tuple[int, ...]
    times: int
    on_hand: bool


@dataclass(frozen=True)
class CutList:
    """How pieces are cut.

    Attributes
    ----------
    cuts : tuple of Cut
    bought : int
        Length bought in all. [mm]
    bound : int
        No cut list buys less. [mm]
    too_long : tuple of (int, int)
        Pieces longer than any bar, and how many. [mm]
    joined : tuple of Joined
        What is made of several parts; the parts are among the pieces that are cut.
    """

    cuts: tuple[Cut, ...]
    bought: int
    bound: int
    too_long: Pieces = ()
    joined: tuple[Joined, ...] = ()

    @property
    def proven(self) -> bool:
        """Whether nothing less can be bought."""
        return self.bought == self.bound

    @property
    def gap(self) -> float:
        """Share of what is bought that might be spared. [0 to 1]"""
        return 1 - self.bound / self.bought if self.bought else 0.0

    @property
    def waste(self) -> int:
        """Rests of the bars bought. [mm]"""
        return sum(cut.rest * cut.times for cut in self.cuts if not cut.on_hand)

    def bars(self, on_hand: bool) -> dict[int, int]:
        """Bars used by their length, the longest first: those on hand, or those bought. [mm]"""
        found: Counter[int] = Counter()
        for cut in self.cuts:
            if cut.on_hand == on_hand:
                found[cut.bar] += cut.times
        return dict(sorted(found.items(), reverse=True))


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
    problem = _Problem(tuple(sorted(left, reverse=True)), tuple(sold), tuple(alone.bars))
    start = tuple(left[length] for length in problem.lengths)
    best = problem.fill(start)
    bound = best.cost and _least(wanted, too_long, sold, there)
    small = sum(start) <= SEARCHED_PIECES and len(start) <= SEARCHED_LENGTHS
    if best.cost > bound and small:
        searched = _Search(problem, best, bound, steps).run(start)
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
    problem = _Problem(lengths, tuple(sold), tuple(there))
    return problem.bound([fit[length] for length in lengths], [bar.number or 0 for bar in there])


# -- pieces that are too long to buy ----------------------------------------------------------------------


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


# -- bounds and filling -------------------------------------------------------------------------------------


class _Filled(NamedTuple):
    """Bars with their pieces, and what they cost: (bar, on hand, pieces by place of their length, number of bars)."""

    cost: int
    bars: tuple[tuple[int, bool, tuple[int, ...], int], ...]
    lengths: tuple[int, ...]


class _Problem(NamedTuple):
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
        functions = [_Identity(), *(_Rounded(k) for k in range(1, 13))]
        functions += [_Cut(share) for share in sorted(set(shares)) if 2 * share <= 1]
        return max(self._bound_by(one, shares, left, there, whole) for one in functions)

    def _bound_by(
        self,
        function: _Dual,
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

    def fill(self, start: Sequence[int]) -> _Filled:
        """A good list: bars on hand first, each bar with the least rest; the better of two orders."""
        fills = [self._fill(start, least_rest=True), self._fill(start, least_rest=False)]
        return min(fills, key=lambda found: (found.cost, sum(bar[3] for bar in found.bars)))

    def _fill(self, start: Sequence[int], *, least_rest: bool) -> _Filled:
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
        return _Filled(cost, tuple(bars), self.lengths)

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


class _Dual:
    """A dual feasible function: shares that add up to 1 at most have values that do; it grows faster than its argument adds up."""

    def __call__(self, share: Fraction) -> Fraction:
        raise NotImplementedError


class _Identity(_Dual):
    def __call__(self, share: Fraction) -> Fraction:
        return share


class _Rounded(_Dual):
    """Fekete and Schepers' u: shares rounded to the next lower of k, but for whole (k + 1)ths."""

    def __init__(self, k: int) -> None:
        self._k = k

    def __call__(self, share: Fraction) -> Fraction:
        times = share * (self._k + 1)
        return share if times.denominator == 1 else Fraction(math.floor(times), self._k)


class _Cut(_Dual):
    """Martello and Toth's: what leaves no room for a share counts as whole, what is less than the share as nothing."""

    def __init__(self, share: Fraction) -> None:
        self._share = share

    def __call__(self, share: Fraction) -> Fraction:
        if share > 1 - self._share:
            return Fraction(1)
        return share if share >= self._share else Fraction(0)


# -- search ---------------------------------------------------------------------------------------------------


class _Search:
    """Branch and bound over what is left of pieces and bars on hand."""

    def __init__(self, problem: _Problem, best: _Filled, bound: int, steps: int) -> None:
        self._problem, self.best, self._bound, self._left_steps = problem, best, bound, steps
        self._seen: dict[tuple[tuple[int, ...], tuple[int, ...]], int] = {}
        self._laid: list[tuple[int, bool, tuple[int, ...], int]] = []
        self.complete = True

    def run(self, start: tuple[int, ...]) -> _Search:
        """Search from all pieces and bars."""
        self._step(start, tuple(bar.number or 0 for bar in self._problem.there), 0)
        return self

    def _step(self, left: tuple[int, ...], there: tuple[int, ...], cost: int) -> None:
        if not any(left):
            if cost < self.best.cost:
                self.best = _Filled(cost, tuple(self._laid), self._problem.lengths)
            return
        if cost + self._problem.quick_bound(left, there) >= self.best.cost:
            return
        if self._seen.get((left, there), cost + 1) <= cost:
            return
        self._seen[left, there] = cost
        for bar, place, held in self._choices(left, there):
            rest = tuple(number - taken for number, taken in zip(left, held, strict=True))
            after = there if place < 0 else (*there[:place], there[place] - 1, *there[place + 1 :])
            self._laid.append((bar.length, place >= 0, held, 1))
            self._step(rest, after, cost + (bar.length if place < 0 else 0))
            self._laid.pop()
            if self.best.cost <= self._bound or self._left_steps < 0:
                self.complete = self.complete and self.best.cost <= self._bound
                return

    def _choices(
        self, left: tuple[int, ...], there: tuple[int, ...]
    ) -> Iterator[tuple[Bar, int, tuple[int, ...]]]:
        """Bars for the longest piece left with the pieces to cut from them, the least rest first."""
        first = next(i for i, number in enumerate(left) if number)
        lengths = self._problem.lengths
        kinds = [(bar, place) for place, bar in enumerate(self._problem.there) if there[place]]
        kinds += [(bar, -1) for bar in self._problem.sold]
        found = []
        for bar, place in kinds:
            if bar.length < lengths[first]:
                continue
            fills = list(_full(lengths, left, bar.length, first))
            if len(fills) > MOST_FILLS:
                self.complete = False
            self._left_steps -= len(fills)
            found += [(rest, place < 0, bar, place, held) for rest, held in fills[:MOST_FILLS]]
        found.sort(key=lambda one: (one[1], one[0] / one[2].length))
        for _, _, bar, place, held in found:
            yield bar, place, held


def _full(
    lengths: Sequence[int], left: Sequence[int], room: int, first: int
) -> Iterator[tuple[int, tuple[int, ...]]]:
    """All sets of pieces with one of a length to which no piece can be added, and the rest of the bar."""
    held = [0] * len(left)
    made = 0

    def lay(place: int, rest: int, shortest_out: int) -> Iterator[tuple[int, tuple[int, ...]]]:
        nonlocal made
        if made > MOST_FILLS:
            return
        if place == len(lengths):
            if rest < shortest_out:
                made += 1
                yield rest, tuple(held)
            return
        most = min(left[place], rest // lengths[place])
        least = 1 if place == first else 0
        for number in range(most, least - 1, -1):
            held[place] = number
            out = lengths[place] if number < left[place] else shortest_out
            yield from lay(place + 1, rest - number * lengths[place], min(out, shortest_out))
        held[place] = 0

    yield from lay(first, room, room + 1)


def _grouped(filled: _Filled) -> list[Cut]:
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
