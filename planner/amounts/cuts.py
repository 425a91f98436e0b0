"""Bars, what is cut from each, and the list of all cuts."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import NamedTuple

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
