"""Lines of a shopping list: what is needed, what is there, what is to be bought, and for which plantings."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

from planner.amounts.materials import ANY, Cutting, Sort
from planner.amounts.packs import Bought
from planner.garden.materials import MaterialKind
from planner.garden.offers import StockKind

#: Parts of a shopping list, in their order.
Group = Literal["seed", "planting stock", "raising", "covers and supports", "ground"]
#: In what a line is counted.
Unit = Literal["seeds", "pieces", "litres", "grams", "metres"]
#: What a line is about.
ItemKind = Literal["seed"] | StockKind | MaterialKind
#: Less than this lacks nothing, in any unit.
SPECK = 1e-6
#: How far a line has come.
Status = Literal["to buy", "ordered", "on hand", "not known"]


class Served(NamedTuple):
    """What a planting or bed takes of a line.

    Attributes
    ----------
    key : str
        Id of the planting, or of the bed that is dressed.
    amount : float
        In the unit of the line; 0 where it takes what has fallen free.
    day : date or None
        On which it is needed; None where it is not known.
    done : bool
        It is recorded as sown, planted or done: it lacks nothing.
    """

    key: str
    amount: float
    day: dt.date | None
    done: bool = False


class Purchase(NamedTuple):
    """So many of one pack, bag, roll or bar.

    Attributes
    ----------
    number : int
    key : str
        Id of an offer, or of a size that is sold in the garden's shed; empty of a usual size.
    size : float
        In one: in the unit of its line; of rolls and bars how many are in a pack.
    length, width : float
        Of a roll, bar or pole; 0 of all else. [m]
    price : float or None
        Of one.
    shop : str
    """

    number: int
    key: str
    size: float
    length: float = 0.0
    width: float = 0.0
    price: float | None = None
    shop: str = ""

    @classmethod
    def of(cls, bought: Bought, length: float = 0.0, width: float = 0.0) -> Purchase:
        """Make it of packs that were chosen."""
        pack = bought.pack
        return cls(bought.number, pack.key, pack.size, length, width, pack.price, pack.shop)


@dataclass(frozen=True)
class Item:
    """One line.

    Attributes
    ----------
    group, kind, unit : str
    needed : float or None
        In the growing year, in the unit; of what serves again as many as are in use at once.  None where it is not known.
    on_hand, ordered : float or None
        That count for it; None where they cannot be counted.
    to_buy : float or None
        None where it is not known; ``missing`` says why.
    by : date or None
        First day of what it serves that is not covered: by what is on hand and ordered where something is to be bought, else by
        what is on hand.
    serves : tuple of Served
        By day.
    purchases : tuple of Purchase
        What to buy; empty where nothing is, and where no size is known in which it is sold.
    crop, name, variety : str
        Key, name and variety; empty of materials.
    state : str
        In which plants are bought in; empty where it is not said.
    sort : Sort
        Weight of fleece, mesh of netting.
    cells : int
        Of a tray of cells; else 0.
    width : float
        Of a pot; else 0. [m]
    grams : float or None
        Mass of the seed to buy. [g]
    cuttings : tuple of Cutting
        How rolls and bars are cut.
    estimated : bool
        The sizes sold are an estimate.
    missing : tuple of str
        What could not be worked out, a sentence each.
    """

    group: Group
    kind: ItemKind
    unit: Unit
    needed: float | None
    on_hand: float | None
    ordered: float | None
    to_buy: float | None
    by: dt.date | None
    serves: tuple[Served, ...]
    purchases: tuple[Purchase, ...] = ()
    crop: str = ""
    name: str = ""
    variety: str = ""
    state: str = ""
    sort: Sort = ANY
    cells: int = 0
    width: float = 0.0
    grams: float | None = None
    cuttings: tuple[Cutting, ...] = ()
    estimated: bool = False
    missing: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """Names it among the lines of a list."""
        parts = (self.kind, self.unit, self.crop, self.variety.casefold(), self.state)
        sizes = (self.sort.weight, self.sort.mesh, self.cells, self.width)
        return " ".join(str(part) for part in (*parts, *sizes) if part)

    @property
    def status(self) -> Status:
        """How far it has come."""
        if self.to_buy is None:
            return "not known"
        if self.to_buy:
            return "to buy"
        there = self.on_hand or 0
        return "ordered" if self.ordered and to_buy_of(self.needed or 0, there, self.serves) else "on hand"

    @property
    def price(self) -> float | None:
        """Of all that is to be bought; None where a price is not known, or nothing is bought."""
        if any(cutting.cuts.too_long for cutting in self.cuttings):
            return None
        prices = [None if one.price is None else one.number * one.price for one in self.purchases]
        known = [price for price in prices if price is not None]
        return round(math.fsum(known), 6) if prices and len(known) == len(prices) else None


def in_order(serves: Iterable[Served]) -> tuple[Served, ...]:
    """By day, those whose day is not known first; what one takes on a day is put together."""
    found: dict[tuple[str, dt.date | None, bool], float] = {}
    for one in serves:
        at = (one.key, one.day, one.done)
        found[at] = found.get(at, 0.0) + one.amount
    together = (Served(key, amount, day, done) for (key, day, done), amount in found.items())
    return tuple(sorted(together, key=lambda one: (one.day or dt.date.min, one.key)))


def first_uncovered(serves: Sequence[Served], there: float) -> dt.date | None:
    """The first day on which what is used up is more than what is there; None where it never is.

    What is done lacks nothing, and took from what is there.
    """
    left = there - math.fsum(one.amount for one in serves if one.done)
    left = max(0.0, left)
    for one in in_order(one for one in serves if not one.done):
        left -= one.amount
        if left < -SPECK:
            return one.day
    return None


def to_buy_of(needed: float, there: float, serves: Iterable[Served]) -> float:
    """What lacks of something that is used up, but no more than what is not done yet takes."""
    still = math.fsum(one.amount for one in serves if not one.done)
    lacks = min(needed - there, still)
    return lacks if lacks > SPECK else 0.0


def when_needed(serves: Sequence[Served], on_hand: float, ordered: float, to_buy: float) -> dt.date | None:
    """The day by which something that is used up must be there; None where all is on hand."""
    if to_buy:
        return first_uncovered(serves, on_hand + ordered)
    return first_uncovered(serves, on_hand) if ordered else None
