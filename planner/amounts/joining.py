"""Cut lists of sheets that may be joined: one is laid of parts from several rolls, each overlapping the one before.

A sheet of ``k`` parts takes its length and ``k - 1`` overlaps.  Sheets and rolls that parts connect make a group; a group of
``n`` rolls has at least ``n - 1`` joins, and so many are enough: its sheets are laid one after another along its rolls.  So rolls
hold some sheets exactly where both fall into groups whose sheets and ``n - 1`` overlaps are no longer than their rolls.
Small lists are searched for such groups; larger ones are filled roll by roll where little is lost, the rest is one group.
"""

from __future__ import annotations

import itertools
import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from planner.amounts.bar_filling import fullest
from planner.amounts.cuts import Bar, Cut, CutList, Joined, Pieces
from planner.amounts.cutting import cut_list
from planner.amounts.long_pieces import join_long, with_parts
from planner.amounts.sheet_groups import Group, groups_of
from planner.plan.cache import fact

#: Sheets and rolls of a list whose groups are all tried.
MOST_TRIED = 11
#: Longer lists are not searched: long sheets are made of whole rolls and a rest.
MOST_PARTS = 5_000
#: Work on filling rolls by themselves, in lengths looked at; afterwards all is laid as one group.
MOST_WORK = 200_000
#: Rolls of the shed that are left out one by one, to see whether they are needed.
MOST_LEFT_OUT = 40
#: Numbers of the shorter rolls that are tried beside the longest.
MOST_SHORTER = 12


class JoiningInputs(NamedTuple):
    """What a cut list with joins depends on.

    Attributes
    ----------
    pieces : frozenset of (int, int)
        Length and number of sheets. [mm]
    bars : frozenset of Bar
    overlap : int
        Of two parts that are joined. [mm]
    """

    pieces: frozenset[tuple[int, int]]
    bars: frozenset[Bar]
    overlap: int


@fact("joined cut list")
def joined_list_of(inputs: JoiningInputs) -> CutList:
    """The cut list of some sheets and rolls."""
    return joined_list(dict(inputs.pieces), inputs.bars, inputs.overlap)


class _Part(NamedTuple):
    """A part of a sheet: its length and that of the sheet [mm], and which sheet it is."""

    length: int
    sheet: int
    number: int


@dataclass
class _Layout:
    """Rolls with the parts that are cut from them, by place of the roll."""

    rolls: Sequence[Bar]
    parts: dict[int, list[_Part]] = field(default_factory=dict)

    def add(self, roll: int, part: _Part) -> None:
        self.parts.setdefault(roll, []).append(part)

    @property
    def joins(self) -> int:
        """Parts that are not the first of their sheet."""
        every = [part.number for parts in self.parts.values() for part in parts]
        return len(every) - len(set(every))


class _Work:
    """Work that may still be done."""

    def __init__(self, left: int = MOST_WORK) -> None:
        self.left = left


def joined_list(pieces: Mapping[int, int], bars: Iterable[Bar], overlap: int) -> CutList:
    """Lay sheets on rolls so that the least length must be bought, of several parts where that spares some.

    Of lists that buy the same the one with the fewest joins; of the shed no roll that is not needed, the largest left first.

    Parameters
    ----------
    pieces : mapping of int to int
        Number of sheets by their length. [mm]
    bars : iterable of Bar
        Those on hand may have widths of their own.
    overlap : int
        Of two parts that are joined. [mm]

    Returns
    -------
    CutList
        Its pieces are the parts; ``joined`` says of which parts a sheet is laid.
    """
    wanted = {length: number for length, number in pieces.items() if number > 0 and length > 0}
    every = [bar for bar in bars if bar.length > overlap]
    sold = sorted({bar.length for bar in every if bar.number is None}, reverse=True)
    there = [bar._replace(number=1) for bar in every for _ in range(bar.number or 0)]
    there.sort(key=lambda bar: (bar.length, bar.width))
    if not wanted or not every:
        return CutList((), 0, 0, tuple(sorted(wanted.items(), reverse=True)))
    total = sum(length * number for length, number in wanted.items())
    shortest = min(bar.length for bar in every)
    if total / (shortest - overlap) + sum(wanted.values()) + len(there) > MOST_PARTS:
        return _of_whole_rolls(wanted, every, overlap)
    sheets = sorted((length for length, number in wanted.items() for _ in range(number)), reverse=True)
    too_long: Counter[int] = Counter()
    work = _Work()
    while not sold and sheets and _lay(sheets, there, overlap, work) is None:
        too_long[sheets.pop(0)] += 1
    long = tuple(sorted(too_long.items(), reverse=True))
    bound = _least(sheets, sold, there, overlap)
    layout = _cheapest(sheets, sold, there, overlap, bound, work)
    found = _list_of(_without_what_is_not_needed(sheets, layout, overlap, work), bound)
    if sold and not any(bar.width for bar in there):
        whole = _only_long_ones_joined(Counter(sheets), every, sold[0], overlap)
        if (whole.bought, _joins(whole)) <= (found.bought, _joins(found)):
            found = whole
    if found.bought > bound:
        searched = _searched(sheets, sold, there, overlap, (bound, found.bought))
        if searched is not None:
            bound = searched.least
            if searched.layout is not None:
                found = _list_of(searched.layout, bound)
    return CutList(found.cuts, found.bought, min(bound, found.bought), long, found.joined)


def _joins(found: CutList) -> int:
    return sum((len(one.parts) - 1) * one.times for one in found.joined)


def _bought(layout: _Layout) -> int:
    return sum(
        bar.length for place, bar in enumerate(layout.rolls) if bar.number is None and place in layout.parts
    )


def _only_long_ones_joined(
    wanted: Mapping[int, int], bars: Sequence[Bar], longest: int, overlap: int
) -> CutList:
    """A list in which sheets longer than a roll that is sold are made of whole rolls and a rest."""
    pieces, joined = join_long(wanted, longest, overlap)
    found = cut_list(pieces, bars)
    return CutList(with_parts(found.cuts, joined), found.bought, 0, (), joined)


def _least(sheets: Sequence[int], sold: Sequence[int], there: Sequence[Bar], overlap: int) -> int:
    """No list buys less: what sheets take with the joins that the longest must have, less what is there. [mm]"""
    if not sold or not sheets:
        return 0
    longest = max([*sold, *(bar.length for bar in there)])
    joins = sum(max(0, math.ceil((sheet - overlap) / (longest - overlap)) - 1) for sheet in sheets)
    lacks = sum(sheets) + joins * overlap - sum(bar.length for bar in there)
    if lacks <= 0:
        return 0
    step = math.gcd(*sold)
    return max(-(-lacks // step) * step, min(sold))


# -- what to buy ----------------------------------------------------------------------------------------------


def _purchases(
    sold: Sequence[int], least: int, most: int, shorter: int = MOST_SHORTER
) -> Iterator[tuple[int, ...]]:
    """Numbers of each roll that is sold whose length is within limits, the least first; so many of the shorter ones at most."""
    ranges = [range(min(shorter, most // one) + 1) for one in sold[1:]]
    found: list[tuple[int, ...]] = []
    for numbers in itertools.product(*ranges):
        length = sum(number * one for number, one in zip(numbers, sold[1:], strict=True))
        first = max(0, -(-(least - length) // sold[0]))
        last = (most - length) // sold[0]
        found += [(length + longest * sold[0], longest, *numbers) for longest in range(first, last + 1)]
    for one in sorted(found, key=lambda numbers: (numbers[0], sum(numbers[1:]))):
        yield one[1:]


def _rolls(sold: Sequence[int], numbers: Sequence[int], there: Sequence[Bar]) -> list[Bar]:
    new = [Bar(length) for length, number in zip(sold, numbers, strict=True) for _ in range(number)]
    return [*there, *new]


def _cheapest(
    sheets: Sequence[int],
    sold: Sequence[int],
    there: Sequence[Bar],
    overlap: int,
    bound: int,
    work: _Work,
) -> _Layout:
    """The least purchase with which the sheets can be laid, as far as is found."""
    if not bound:
        layout = _lay(sheets, there, overlap, work)
        if layout is not None:
            return layout
    # The longest rolls alone, laid as one group, hold all sheets.
    enough = math.ceil(max(1, sum(sheets) - overlap) / (sold[0] - overlap)) + 1
    for numbers in _purchases(sold, bound, enough * sold[0]):
        if sum(numbers):
            layout = _lay(sheets, _rolls(sold, numbers, there), overlap, work)
            if layout is not None:
                return layout
    raise AssertionError("the longest rolls hold all sheets")


# -- laying sheets on given rolls --------------------------------------------------------------------------------


def _lay(sheets: Sequence[int], rolls: Sequence[Bar], overlap: int, work: _Work) -> _Layout | None:
    """Lay sheets on rolls; None where no way is found.

    Rolls are filled by themselves where that loses no more than a join would, or where there is enough; the rest is laid as one
    group.
    """
    layout = _Layout(rolls)
    left = Counter(sheets)
    numbers: dict[int, list[int]] = {}
    for number, sheet in enumerate(sheets):
        numbers.setdefault(sheet, []).append(number)
    lengths = sorted(left, reverse=True)
    free: dict[int, list[int]] = {}
    for place, roll in enumerate(rolls):
        free.setdefault(roll.length, []).append(place)

    def spare() -> int:
        """What is left of all free rolls where they are one group. [mm]"""
        many = sum(map(len, free.values()))
        return (
            sum(length * len(places) for length, places in free.items())
            - sum(length * number for length, number in left.items())
            - overlap * (many - 1)
        )

    while work.left > 0:
        if not +left:
            return layout
        extra = spare()
        best: tuple[int, int, tuple[int, ...]] | None = None
        for length in sorted(one for one, places in free.items() if places):
            work.left -= len(lengths)
            held = _best_fill(lengths, [left[one] for one in lengths], length)
            if held is None:
                continue
            rest = length - sum(one * number for one, number in zip(lengths, held, strict=True))
            if (rest <= overlap or extra - rest + overlap >= 0) and (best is None or rest < best[0]):
                best = rest, length, held
        if best is None:
            break
        _, length, held = best
        place = free[length].pop(0)
        for one, number in zip(lengths, held, strict=True):
            left[one] -= number
            for _ in range(number):
                layout.add(place, _Part(one, one, numbers[one].pop()))
    if not +left:
        return layout
    extra = spare()
    if extra < 0 or not any(free.values()):
        return None
    order = sorted(((length, place) for length, places in free.items() for place in places), reverse=True)
    rest_of = [(one, numbers[one][at]) for one in lengths for at in range(left[one])]
    _tape(rest_of, order, overlap, extra, layout)
    return layout


def _best_fill(lengths: Sequence[int], left: Sequence[int], room: int) -> tuple[int, ...] | None:
    """The sheets that leave the least rest of a roll; None where none fits."""
    fits = [place for place, number in enumerate(left) if number and lengths[place] <= room]
    if not fits:
        return None
    found = [fullest(lengths, left, room, first) for first in fits[:3]]
    return max(found, key=lambda held: sum(a * b for a, b in zip(lengths, held, strict=True)))


def _tape(
    sheets: Sequence[tuple[int, int]],
    rolls: Sequence[tuple[int, int]],
    overlap: int,
    extra: int,
    layout: _Layout,
) -> None:
    """Lay sheets one after another along rolls: what does not fit the rest of one is joined to its part on the next.

    Parameters
    ----------
    sheets : sequence of (int, int)
        Length [mm], and which it is.
    rolls : sequence of (int, int)
        Length [mm], and place in the layout.
    overlap, extra : int
        Of a join; what is left where all rolls are joined. [mm]
    layout : _Layout
    """
    waiting = iter(rolls)
    room, place = next(waiting)
    for sheet, number in sheets:
        rest = sheet
        while rest:
            if room >= rest:
                layout.add(place, _Part(rest, sheet, number))
                room -= rest
                break
            if room > overlap:
                part = room
                # A last part that is little more than its overlap is made longer where there is enough.
                lacks = 2 * overlap - (rest - part + overlap)
                if 0 < lacks <= extra and part - lacks > overlap:
                    part -= lacks
                    extra -= lacks
                layout.add(place, _Part(part, sheet, number))
                rest += overlap - part
            room, place = next(waiting)


# -- search of small lists ------------------------------------------------------------------------------------------


class _Searched(NamedTuple):
    """The least that can be bought [mm], and a list that buys it; None where the known one does."""

    least: int
    layout: _Layout | None


def _searched(
    sheets: Sequence[int],
    sold: Sequence[int],
    there: Sequence[Bar],
    overlap: int,
    limits: tuple[int, int],
) -> _Searched | None:
    """The least purchase, from all groups of sheets and rolls; None where there are too many.

    Parameters
    ----------
    sheets, sold : sequence of int
        [mm]
    there : sequence of Bar
    overlap : int
        [mm]
    limits : tuple of (int, int)
        Nothing less than the first will do; the second is known to do. [mm]
    """
    bound, bought = limits
    if len(sheets) + len(there) + (bought - 1) // sold[-1] > MOST_TRIED:
        return None
    for numbers in _purchases(sold, bound, bought - 1, bought):
        rolls = _rolls(sold, numbers, there)
        groups = groups_of(sheets, [roll.length for roll in rolls], overlap)
        if groups is not None:
            return _Searched(
                sum(a * b for a, b in zip(numbers, sold, strict=True)),
                _in_groups(sheets, rolls, groups, overlap),
            )
    return _Searched(bought, None)


def _in_groups(sheets: Sequence[int], rolls: Sequence[Bar], groups: Iterable[Group], overlap: int) -> _Layout:
    """Lay the sheets of each group along its rolls."""
    layout = _Layout(rolls)
    for of_sheets, of_rolls in groups:
        order = sorted(((rolls[place].length, place) for place in of_rolls), reverse=True)
        extra = sum(length for length, _ in order) - sum(sheets[one] for one in of_sheets)
        extra -= overlap * (len(order) - 1)
        _tape([(sheets[one], one) for one in of_sheets], order, overlap, extra, layout)
    return layout


# -- what is not needed of the shed ------------------------------------------------------------------------------------


def _without_what_is_not_needed(sheets: Sequence[int], layout: _Layout, overlap: int, work: _Work) -> _Layout:
    """The same purchase without rolls of the shed that are not needed, the largest left out first."""
    new = [bar for place, bar in enumerate(layout.rolls) if bar.number is None and place in layout.parts]
    there = [bar for bar in layout.rolls if bar.number is not None]
    there.sort(key=lambda bar: (bar.length * max(1, bar.width), bar.width), reverse=True)
    for bar in there[:MOST_LEFT_OUT]:
        if work.left <= 0:
            break
        fewer = list(there)
        fewer.remove(bar)
        found = _lay(sheets, [*fewer, *new], overlap, work)
        if found is not None and found.joins <= layout.joins and _bought(found) <= _bought(layout):
            layout, there = found, fewer
    return layout


# -- as a cut list ------------------------------------------------------------------------------------------------------


def _list_of(layout: _Layout, bound: int) -> CutList:
    """A layout as a cut list, rolls that are cut alike together."""
    many = Counter(part.number for parts in layout.parts.values() for part in parts)
    cuts: Counter[tuple[Bar, Pieces, tuple[tuple[int, int, int], ...]]] = Counter()
    sheets: dict[int, list[tuple[int, bool]]] = {}
    lengths: dict[int, int] = {}
    for place, parts in layout.parts.items():
        bar = layout.rolls[place]
        pieces = Counter(part.length for part in parts)
        of = Counter((part.length, part.sheet) for part in parts if many[part.number] > 1)
        key = tuple(sorted(((*one, number) for one, number in of.items()), reverse=True))
        cuts[bar, tuple(sorted(pieces.items(), reverse=True)), key] += 1
        for part in parts:
            if many[part.number] > 1:
                sheets.setdefault(part.number, []).append((part.length, bar.number is not None))
                lengths[part.number] = part.sheet
    joined = Counter(
        (
            lengths[number],
            tuple(sorted((length for length, _ in parts), reverse=True)),
            all(there for _, there in parts),
        )
        for number, parts in sheets.items()
    )
    found = [
        Cut(bar.length, bar.number is not None, pieces, times, bar.width, of)
        for (bar, pieces, of), times in cuts.items()
    ]
    found.sort(key=lambda cut: (not cut.on_hand, -cut.bar, [(-a, -b) for a, b in cut.pieces]))
    return CutList(
        tuple(found),
        _bought(layout),
        bound,
        (),
        tuple(
            Joined(length, parts, times, there)
            for (length, parts, there), times in sorted(joined.items(), reverse=True)
        ),
    )


def _of_whole_rolls(wanted: Mapping[int, int], bars: Sequence[Bar], overlap: int) -> CutList:
    """A list too long to be laid part by part: each long sheet of whole rolls and a rest."""
    sold = sorted({bar.length for bar in bars if bar.number is None}, reverse=True)
    longest = sold[0] if sold else max(bar.length for bar in bars)
    pieces, joined = join_long(wanted, longest, overlap)
    found = cut_list(pieces, bars)
    there = sum(bar.length * bar.number for bar in bars if bar.number is not None)
    most = max(bar.length for bar in bars)
    joins = sum(
        max(0, math.ceil((length - overlap) / (most - overlap)) - 1) * number
        for length, number in wanted.items()
    )
    lacks = sum(length * number for length, number in wanted.items()) + joins * overlap - there
    step = math.gcd(*sold) if sold else 1
    bound = max(0, -(-lacks // step) * step) if sold else 0
    cuts = with_parts(found.cuts, joined)
    return CutList(cuts, found.bought, min(found.bought, bound), found.too_long, joined)
