"""Which packs to buy: the least price for at least what is needed, else the least left over and then the fewest packs.

An unbounded covering knapsack.  Of the pack that costs least for its size only so many need not be bought outright as the
other packs could replace: among as many others as its size, some add up to a multiple of it and can be exchanged for it at no
loss.  What is left then is searched in full.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import NamedTuple

#: Sizes and needs are reckoned in thousandths of a seed, litre, gram or metre; prices in thousandths.
GRAIN = 1000
#: Most amounts that are searched; what is beyond is bought in the pack that costs least for its size.
MOST_SEARCHED = 20_000

#: Price, what is left over, packs.
_Cost = tuple[int, int, int]


class Pack(NamedTuple):
    """A pack that can be bought.

    Attributes
    ----------
    key : str
        Id of an offer, or of a size that is sold in the garden's shed; of a usual size that no one named, empty.
    size : float
        What is in it, in the unit of the need.
    price : float or None
    shop : str
    """

    key: str
    size: float
    price: float | None = None
    shop: str = ""


class Bought(NamedTuple):
    """So many of a pack."""

    pack: Pack
    number: int

    @property
    def price(self) -> float | None:
        """Of all of them; None where a pack's price is not known."""
        return None if self.pack.price is None else self.number * self.pack.price


def best_packs(need: float, packs: Iterable[Pack]) -> tuple[Bought, ...]:
    """Choose packs that hold at least what is needed.

    Packs whose price is known go before those without.

    Parameters
    ----------
    need : float
        More than 0.
    packs : iterable of Pack
        Of one unit.

    Returns
    -------
    tuple of Bought
        The largest first; empty without packs, or without a need.
    """
    usable = [pack for pack in packs if pack.size > 0]
    usable = [pack for pack in usable if pack.price is not None] or usable
    wanted = math.ceil(need * GRAIN - 1e-6)
    if not usable or wanted <= 0:
        return ()
    sizes = tuple(max(1, math.floor(pack.size * GRAIN + 1e-6)) for pack in usable)
    prices = tuple(round((pack.price or 0.0) * GRAIN) for pack in usable)
    numbers = _numbers(wanted, sizes, prices)
    found = [Bought(pack, number) for pack, number in zip(usable, numbers, strict=True) if number]
    return tuple(sorted(found, key=lambda one: -one.pack.size))


def price_of(bought: Sequence[Bought]) -> float | None:
    """The sum of some packs; None where one has no price, or there are none."""
    prices = [one.price for one in bought]
    known = [price for price in prices if price is not None]
    return round(math.fsum(known), 6) if prices and len(known) == len(prices) else None


@lru_cache(maxsize=1024)
def _numbers(need: int, sizes: tuple[int, ...], prices: tuple[int, ...]) -> tuple[int, ...]:
    """How many of each pack."""
    grain = math.gcd(*sizes)
    sizes, need = tuple(size // grain for size in sizes), -(-need // grain)
    # The least price for its size; of equal ones the largest.
    best = min(range(len(sizes)), key=lambda i: (prices[i] / sizes[i], -sizes[i]))
    others = max((size for i, size in enumerate(sizes) if i != best), default=0)
    if others:
        searched = min((sizes[best] - 1) * others, MOST_SEARCHED)
        outright = max(0, need - searched) // sizes[best]
    else:
        outright = -(-need // sizes[best])
    found = [0] * len(sizes)
    found[best] += outright
    for chosen in _searched(need - outright * sizes[best], sizes, prices):
        found[chosen] += 1
    return tuple(found)


def _searched(need: int, sizes: Sequence[int], prices: Sequence[int]) -> list[int]:
    """The packs, one by one, that cover a need: the least cost to come down to each amount that is left, the greatest first."""
    if need <= 0:
        return []
    least: dict[int, tuple[_Cost, int, int]] = {need: ((0, 0, 0), -1, -1)}
    waiting = [-need]
    while waiting:
        left = -heapq.heappop(waiting)
        if left == 0:
            break
        (price, over, packs), _, _ = least[left]
        for i, size in enumerate(sizes):
            after = max(0, left - size)
            cost = (price + prices[i], over + max(0, size - left), packs + 1)
            if after not in least:
                heapq.heappush(waiting, -after)
            elif least[after][0] <= cost:
                continue
            least[after] = (cost, left, i)
    chosen, at = [], 0
    while at != need:
        _, at, i = least[at]
        chosen.append(i)
    return chosen
