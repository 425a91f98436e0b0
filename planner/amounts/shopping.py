"""The shopping list of a growing year: everything that it takes, less what is on hand and ordered, in the packs that can be bought."""

from __future__ import annotations

import math
from dataclasses import dataclass

from planner.amounts.shopping_items import Item
from planner.amounts.shopping_materials import ground_items, material_items
from planner.amounts.shopping_plants import plant_items
from planner.amounts.shopping_raising import raising_items
from planner.plan import Plan


@dataclass(frozen=True)
class Shopping:
    """A shopping list.

    Attributes
    ----------
    items : tuple of Item
        Group by group; what is on hand in full is among them.
    currency : str
        Of the prices, as the garden writes it.
    """

    items: tuple[Item, ...]
    currency: str

    @property
    def to_buy(self) -> tuple[Item, ...]:
        """Lines of which something is to be bought, or may be."""
        return tuple(one for one in self.items if one.status in ("to buy", "not known"))

    @property
    def awaited(self) -> tuple[Item, ...]:
        """Lines of which something is ordered and nothing more is to be bought."""
        return tuple(one for one in self.items if one.status == "ordered")

    @property
    def price(self) -> float:
        """The sum of the prices that are known."""
        return round(math.fsum(one.price for one in self.to_buy if one.price is not None), 6)

    @property
    def without_price(self) -> int:
        """Lines to buy whose price is not known."""
        return sum(one.price is None for one in self.to_buy)


def shopping(plan: Plan) -> Shopping:
    """Work out the shopping list of a plan's growing year.

    Parameters
    ----------
    plan : Plan
    """
    items = (*plant_items(plan), *raising_items(plan), *material_items(plan), *ground_items(plan))
    return Shopping(items, plan.garden.site.currency)
