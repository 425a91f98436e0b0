"""Where along a bed its plantings begin: first fit in several orders, then all orders until one packs or none can.

Nothing here looks at a clock: the exact search ends by a number of trials.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planner.proposal.puzzle import BedGround, Option, meet, need_other_ground

#: Trials of the exact search after which it gives up without an answer.
MOST_TRIALS = 20_000

#: First and last step, both included, at which an option may begin.
Stretch = tuple[int, int]


class Packing(NamedTuple):
    """Where the options of a bed begin.

    Attributes
    ----------
    starts : tuple of int or None
        Steps, in the order of the options; None where no packing was found.
    proven : bool
        Whether it is certain that there is none; False where the search gave up.
    """

    starts: tuple[int, ...] | None
    proven: bool = True


def allowed_starts(bed: BedGround, option: Option) -> tuple[Stretch, ...]:
    """At which steps an option may begin in a bed where nothing but what is given stands.

    Parameters
    ----------
    bed : BedGround
    option : Option
    """
    taken = [(block.start, block.end) for block in bed.blocks if meet(option, block)]
    taken += [(shut.start, shut.end) for shut in option.shut]
    return _starts_between(taken, option.length, bed.length)


def longest_run(bed: BedGround, option: Option) -> int:
    """The longest stretch of free ground for an option: an upper limit of its length there. [steps]

    Parameters
    ----------
    bed : BedGround
    option : Option
    """
    taken = [(block.start, block.end) for block in bed.blocks if meet(option, block)]
    taken += [(shut.start, shut.end) for shut in option.shut]
    longest, reached = 0, 0
    for start, end in sorted(taken):
        if start < end:
            longest, reached = max(longest, min(start, bed.length) - reached), max(reached, end)
    return max(longest, bed.length - reached)


def first_gap(taken: list[tuple[int, int]], length: int, bed_length: int) -> int | None:
    """The first step from which so many are free, or None.

    Parameters
    ----------
    taken : list of (int, int)
        From and to; sorted here.
    length, bed_length : int
        Steps.
    """
    taken.sort()
    at = 0
    for start, end in taken:
        if start - at >= length:
            return at
        if end > at:
            at = end
    return at if bed_length - at >= length else None


def pack(bed: BedGround, options: Sequence[Option], *, trials: int = MOST_TRIALS) -> Packing:
    """Places for options in one bed, such that none lies on another, on what stands there or on shut ground.

    Parameters
    ----------
    bed : BedGround
    options : sequence of Option
    trials : int
        Most trials of the exact search.

    Returns
    -------
    Packing
    """
    if not options:
        return Packing(())
    allowed = [allowed_starts(bed, option) for option in options]
    if not all(allowed):
        return Packing(None)
    clashes = [
        [number for number, other in enumerate(options) if other is not one and need_other_ground(one, other)]
        for one in options
    ]
    if not _fits_by_length(bed, options):
        return Packing(None)
    for order in _orders(options, allowed):
        starts = _first_fit(options, allowed, clashes, order)
        if starts is not None:
            return Packing(tuple(starts))
    return _Exact(options, allowed, clashes, trials).solve()


def smallest_unpackable(bed: BedGround, options: Sequence[Option]) -> list[int]:
    """Which of some options that do not pack are enough for it: without any one of them the others do.

    Parameters
    ----------
    bed : BedGround
    options : sequence of Option
        They do not pack, and that is proven.

    Returns
    -------
    list of int
        Indices.
    """
    kept = sorted(range(len(options)), key=lambda number: options[number].length)
    for number in list(kept):
        fewer = [other for other in kept if other != number]
        packing = pack(bed, [options[other] for other in fewer])
        if packing.starts is None and packing.proven:
            kept = fewer
    return sorted(kept)


def _starts_between(taken: Iterable[tuple[int, int]], length: int, bed_length: int) -> tuple[Stretch, ...]:
    found, reached = [], 0
    for start, end in (*sorted(taken), (bed_length, bed_length)):
        if start >= end and start != bed_length:
            continue
        start = min(start, bed_length)
        if start - reached >= length:
            found.append((reached, start - length))
        reached = max(reached, end)
    return tuple(found)


def _fits_by_length(bed: BedGround, options: Sequence[Option]) -> bool:
    """Whether the lengths of those on common days, and of each family, do not exceed the bed."""
    for one in options:
        if sum(other.length for other in options if other.first <= one.first <= other.last) > bed.length:
            return False
    families: dict[int, int] = {}
    for option in options:
        if option.family >= 0:
            families[option.family] = families.get(option.family, 0) + option.length
    return all(length <= bed.length for length in families.values())


def _orders(options: Sequence[Option], allowed: Sequence[Sequence[Stretch]]) -> Iterable[list[int]]:
    numbers = range(len(options))
    room = [sum(last - first + 1 for first, last in one) for one in allowed]
    yield sorted(numbers, key=lambda i: (-options[i].length, options[i].first, i))
    yield sorted(numbers, key=lambda i: (options[i].first, -options[i].length, i))
    yield sorted(numbers, key=lambda i: (options[i].first - options[i].last, -options[i].length, i))
    yield sorted(numbers, key=lambda i: (room[i], -options[i].length, i))
    yield sorted(numbers, key=lambda i: (options[i].family < 0, options[i].family, -options[i].length, i))


def _first_fit(
    options: Sequence[Option],
    allowed: Sequence[Sequence[Stretch]],
    clashes: Sequence[Sequence[int]],
    order: Sequence[int],
) -> list[int] | None:
    starts = [-1] * len(options)
    for number in order:
        length = options[number].length
        taken = sorted((starts[i], starts[i] + options[i].length) for i in clashes[number] if starts[i] >= 0)
        for first, last in allowed[number]:
            at = first
            for start, end in taken:
                if start < at + length and at < end:
                    at = end
            if at <= last:
                starts[number] = at
                break
        else:
            return None
    return starts


class _Exact:
    """All orders from the beginning of the bed to its end.

    Each packing can be pushed together towards the beginning until every option begins where it may first begin, or where
    one ends that it may not lie on.  Taken in the order of their beginnings, each then begins as early as those before
    it let it: so the orders are all there is to try.
    """

    def __init__(
        self,
        options: Sequence[Option],
        allowed: Sequence[Sequence[Stretch]],
        clashes: Sequence[Sequence[int]],
        trials: int,
    ) -> None:
        self.lengths = [option.length for option in options]
        self.allowed, self.clashes, self.trials = allowed, clashes, trials
        self.starts = [-1] * len(options)
        self.seen: set[tuple[int | None, ...]] = set()
        #: Sets of options of which none may lie on another: those on a day in common, or of one family.
        cliques = {
            frozenset(i for i, o in enumerate(options) if o.first <= one.first <= o.last) for one in options
        } | {
            frozenset(i for i, o in enumerate(options) if o.family == f)
            for f in {o.family for o in options} - {-1}
        }
        self.cliques = sorted(
            (sorted(one) for one in cliques if len(one) > 1), key=lambda one: (-len(one), one)
        )

    def solve(self) -> Packing:
        earliest = [self.allowed[i][0][0] for i in range(len(self.lengths))]
        if self._place(earliest, frozenset(range(len(self.lengths))), 0):
            return Packing(tuple(self.starts))
        return Packing(None, self.trials > 0)

    def _place(self, earliest: list[int], left: frozenset[int], reached: int) -> bool:
        if not left:
            return True
        key = (reached, *(earliest[i] if i in left else None for i in range(len(earliest))))
        if key in self.seen or not self._room(earliest, left):
            return False
        self.seen.add(key)
        for number in sorted(left, key=lambda i: (earliest[i], -self.lengths[i], i)):
            at = earliest[number]
            if at < reached:
                continue  # it comes later only if another one pushes it on
            self.trials -= 1
            if self.trials <= 0:
                return False
            rest = left - {number}
            later = self._pushed(earliest, rest, number)
            self.starts[number] = at
            if later is not None and self._place(later, rest, at):
                return True
        return False

    def _pushed(self, earliest: list[int], rest: frozenset[int], number: int) -> list[int] | None:
        """Where the rest may begin when one is placed at its earliest; None where another has no place left."""
        later = list(earliest)
        end = earliest[number] + self.lengths[number]
        for other in self.clashes[number]:
            if other in rest and later[other] < end:
                begins = self._first_from(other, end)
                if begins is None:
                    return None
                later[other] = begins
        return later

    def _first_from(self, number: int, at: int) -> int | None:
        for first, last in self.allowed[number]:
            if at <= last:
                return max(first, at)
        return None

    def _room(self, earliest: list[int], left: frozenset[int]) -> bool:
        """Whether what is left of each clique can still lie one behind the other."""
        for clique in self.cliques:
            mine = [i for i in clique if i in left]
            if len(mine) < 2:
                continue
            begins = min(earliest[i] for i in mine)
            ends = max(self.allowed[i][-1][1] + self.lengths[i] for i in mine)
            if sum(self.lengths[i] for i in mine) > ends - begins:
                return False
        return True
