"""Dual feasible functions, from which no list of pieces buys less than a bound (Martello and Toth 1990; Fekete and Schepers 2001)."""

from __future__ import annotations

import math
from fractions import Fraction


class Dual:
    """A dual feasible function: shares that add up to 1 at most have values that do; it grows faster than its argument adds up."""

    def __call__(self, share: Fraction) -> Fraction:
        raise NotImplementedError


class Identity(Dual):
    def __call__(self, share: Fraction) -> Fraction:
        return share


class Rounded(Dual):
    """Fekete and Schepers' u: shares rounded to the next lower of k, but for whole (k + 1)ths."""

    def __init__(self, k: int) -> None:
        self._k = k

    def __call__(self, share: Fraction) -> Fraction:
        times = share * (self._k + 1)
        return share if times.denominator == 1 else Fraction(math.floor(times), self._k)


class LeavesNoRoom(Dual):
    """Martello and Toth's: what leaves no room for a share counts as whole, what is less than the share as nothing."""

    def __init__(self, share: Fraction) -> None:
        self._share = share

    def __call__(self, share: Fraction) -> Fraction:
        if share > 1 - self._share:
            return Fraction(1)
        return share if share >= self._share else Fraction(0)
