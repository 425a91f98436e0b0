"""Edits of what can be bought, of planting stock, and of what was ordered and has arrived."""

from __future__ import annotations

import datetime as dt
from typing import Any

from planner.garden.edits.common import EditError, changed, put, put_thing, replaced
from planner.garden.garden import Garden
from planner.garden.offers import Offer, PlantingStock
from planner.words import say


def put_offer(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change an offer, or add one.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Id of the offer; without one a new offer is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    return put_thing(garden, "offers", Offer, key, fields, letter="o", named_by="crop")


def put_planting_stock(garden: Garden, key: str | None = None, **fields: Any) -> tuple[Garden, str]:
    """Change planting stock, or add some.

    Parameters
    ----------
    garden : Garden
    key : str, optional
        Its id; without one new planting stock is added.
    **fields
        New values of its fields.

    Returns
    -------
    garden, id
    """
    return put_thing(garden, "planting_stock", PlantingStock, key, fields, letter="g", named_by="crop")


def remove_offer(garden: Garden, key: str) -> Garden:
    """Remove an offer, or planting stock.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the offer or planting stock.
    """
    offers = tuple(one for one in garden.offers if one.id != key)
    stock = tuple(one for one in garden.planting_stock if one.id != key)
    if len(offers) == len(garden.offers) and len(stock) == len(garden.planting_stock):
        raise EditError(say("there is no offer and no planting stock '{key}'", key=key))
    return put(garden, offers=offers, planting_stock=stock)


def arrived(garden: Garden, key: str, day: dt.date) -> Garden:
    """Turn what was ordered into what is on hand.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of a lot of seed, of planting stock, or of an item of the shed.
    day : date
        On which it arrived; seed counts as counted on it, material is in the shed since then.

    Raises
    ------
    EditError
        If nothing of this id is ordered.
    """
    for part in ("stock", "planting_stock", "shed"):
        for one in getattr(garden, part):
            if one.id == key and one.ordered:
                changes: dict[str, Any] = {"ordered": False}
                if part != "planting_stock":
                    changes["counted" if part == "stock" else "since"] = day
                return replaced(garden, part, {key: changed(one, key, changes)})
    raise EditError(say("nothing with the id '{key}' is ordered", key=key))
