"""What is left in the shed to be cut, and for which pieces it does."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from typing import NamedTuple

from planner.amounts.cuts import Bar, CutList, Joined
from planner.amounts.cutting import millimetres
from planner.amounts.sharing import Pile
from planner.garden import ShedItem


@dataclass
class Left:
    """What is left to be cut of an item of the shed."""

    item: ShedItem
    number: int

    def size(self, strip: float) -> tuple[int, int]:
        """Its longer and its shorter side; of bars and poles, whose strips have no width, its length and 0. [mm]"""
        length, width = self.item.length or 0.0, self.item.width or 0.0
        if not strip:
            return millimetres(length), 0
        return millimetres(max(length, width)), millimetres(min(length, width))

    def lanes(self, strip: float) -> int:
        """Strips of a width [m] that lie side by side on one; 1 of bars and poles."""
        return self.size(strip)[1] // max(1, millimetres(strip)) if strip else 1


class OfSize(NamedTuple):
    """New pieces of one size, and how they are cut.

    Attributes
    ----------
    piles : tuple of Pile
        In the order in which they are wanted.
    width : float
        Of a strip; 0 of bars and poles. [m]
    together : int
        Pieces side by side on a strip.
    strips : int
        Of which a piece that is wider than its roll is made.
    """

    piles: tuple[Pile, ...]
    width: float = 0.0
    together: int = 1
    strips: int = 1

    @property
    def length(self) -> int:
        """[mm]"""
        return millimetres(self.piles[0].size[0])

    @property
    def wanted(self) -> int:
        """Strips, or bars, that are cut for them."""
        return -(-sum(pile.number for pile in self.piles) // self.together) * self.strips


class Got(NamedTuple):
    """What need not be bought, by its length [mm]: cut from what is there, and from what is ordered."""

    there: Counter[int]
    ordered: Counter[int]


def pieces_of(sizes: Iterable[OfSize]) -> dict[int, int]:
    """Number of strips or bars to cut, by their length. [mm]"""
    found: Counter[int] = Counter()
    for one in sizes:
        found[one.length] += one.wanted
    return dict(found)


def cut_first(there: Sequence[Left], strip: float, cut: Callable[[tuple[Bar, ...], str], CutList]) -> CutList:
    """Cut pieces from what is left in the shed and what is sold.

    Rolls and bars that were bought to be cut stand for those that would be bought without them: so the list by which they
    were ordered stays as it was.

    Parameters
    ----------
    there : sequence of Left
    strip : float
        Width of the strips that are cut; 0 of bars. [m]
    cut : callable
        Makes the list from what is left, beside what is sold; its second argument names which of it is left out.
    """
    tried = 0
    for out in ("uncut", "ordered"):
        rest = [one for one in there if one.item.uncut and (out == "uncut" or one.item.ordered)]
        if rest and len(rest) != tried:
            tried = len(rest)
            base = [one for one in there if one not in rest]
            found = _stand_in(cut(_bars(base, strip), out), rest, strip)
            if found is not None:
                return found
    return cut(_bars(there, strip), "")


def _strips(there: Iterable[Left], strip: float) -> Counter[tuple[int, int]]:
    """Strips that can be cut, by length and width of what they are cut from. [mm]"""
    found: Counter[tuple[int, int]] = Counter()
    for one in there:
        if one.number > 0:
            found[one.size(strip)] += one.number * one.lanes(strip)
    return found


def _bars(there: Iterable[Left], strip: float) -> tuple[Bar, ...]:
    strips = _strips(there, strip)
    return tuple(Bar(length, number, width) for (length, width), number in strips.items() if number)


def _stand_in(cuts: CutList, there: Iterable[Left], strip: float) -> CutList | None:
    """The same list, cut from what is there in place of what is bought; None where that is not enough."""
    if cuts.too_long:
        return None
    free = _strips(there, strip)
    found = []
    for one in cuts.cuts:
        wanted = 0 if one.on_hand else one.times
        found += [one] if one.on_hand else []
        for length, width in sorted(free):  # the narrowest of its length first
            taken = min(wanted, free[length, width]) if length == one.bar else 0
            if taken:
                free[length, width] -= taken
                wanted -= taken
                found.append(replace(one, on_hand=True, times=taken, width=width))
        if wanted:
            return None
    joined: Counter[tuple[int, tuple[int, ...]]] = Counter()
    for whole in cuts.joined:
        joined[whole.length, whole.parts] += whole.times
    return CutList(
        tuple(found), 0, 0, (), tuple(Joined(*at, times, on_hand=True) for at, times in joined.items())
    )


def take_down(there: Iterable[Left], cuts: CutList, strip: float) -> Got:
    """Take what is cut off what is left in the shed, what is ordered last; a sheet that is cut is not whole again.

    Parameters
    ----------
    there : iterable of Left
    cuts : CutList
    strip : float
        Width of its strips; 0 of bars. [m]
    """
    wanted: Counter[tuple[int, int]] = Counter()
    for cut in cuts.cuts:
        if cut.on_hand:
            wanted[cut.bar, cut.width] += cut.times
    at_hand: Counter[tuple[int, int]] = Counter()
    for left in sorted(there, key=lambda one: one.item.ordered):
        size, lanes = left.size(strip), left.lanes(strip)
        if left.number > 0 and lanes and wanted[size]:
            taken = min(left.number, -(-wanted[size] // lanes))
            left.number -= taken
            strips = min(wanted[size], taken * lanes)
            wanted[size] -= strips
            at_hand[size] += 0 if left.item.ordered else strips
    return _got(cuts, at_hand)


def _got(cuts: CutList, at_hand: Counter[tuple[int, int]]) -> Got:
    """What a list cuts from the shed; of its bars there so many are at hand, by length and width [mm], the others ordered."""
    got, bought, waits = Got(Counter(), Counter()), set[int](), set[int]()
    for cut in cuts.cuts:
        if not cut.on_hand:
            bought |= {whole for _, whole, _ in cut.of}
            continue
        here = min(cut.times, at_hand[cut.bar, cut.width])
        at_hand[cut.bar, cut.width] -= here
        for found, times in ((got.there, here), (got.ordered, cut.times - here)):
            for length, number in cut.pieces:
                found[length] += number * times
            for length, _, number in cut.of:
                found[length] -= number * times
        if here < cut.times:
            waits |= {whole for _, whole, _ in cut.of}
    for one in cuts.joined:
        if one.on_hand or one.length not in bought:
            found = got.ordered if one.length in waits else got.there
            found[one.length] += one.times
    return got


def note_got(sizes: Iterable[OfSize], got: Got) -> None:
    """Note for each pile how many of its new pieces need not be bought."""
    for one in sizes:
        number = sum(pile.number for pile in one.piles)
        strips = 0
        pieces = []
        for there in got:
            taken = min(one.wanted - strips, max(0, there[one.length]))
            there[one.length] -= taken
            strips += taken
            pieces.append(min(number, strips // one.strips * one.together))
        at_hand, ordered = pieces[0], pieces[1] - pieces[0]
        for pile in one.piles:
            pile.cut = min(pile.number, at_hand)
            pile.cut_of_order = min(pile.number - pile.cut, ordered)
            at_hand -= pile.cut
            ordered -= pile.cut_of_order
