"""What a line of the shopping list says is to be bought, entered in the garden as ordered; and what is ordered for a line."""

from __future__ import annotations

import math
from collections.abc import Iterable
from typing import Any, get_args

from planner.amounts.materials import Sort, suits
from planner.amounts.shopping_items import Item, Purchase
from planner.garden import Garden
from planner.garden.edits import put_lot, put_planting_stock, put_shed_item
from planner.garden.materials import BarKind, SheetKind
from planner.plan import Plan

#: What is cut from rolls, bars and poles; string is not, it is used up.
_CUT = {*get_args(SheetKind), *get_args(BarKind)} - {"string"}


def order(plan: Plan, items: Iterable[Item]) -> Garden:
    """Enter in a plan's garden that what is to be bought of some lines is ordered.

    Where no size is known in which something is sold, just what is needed is ordered.

    Parameters
    ----------
    plan : Plan
    items : iterable of Item
        Of its shopping list; those of which nothing is to be bought are passed over.

    Raises
    ------
    EditError
        Where the garden cannot hold more.
    """
    garden = plan.garden
    for item in items:
        if item.to_buy:
            for put, fields in _entries(plan, item):
                garden, _ = put(garden, **fields, ordered=True)
    return garden


def _entries(plan: Plan, item: Item) -> Iterable[tuple[Any, dict[str, Any]]]:
    """The edit and its fields for each pack of a line."""
    if item.group == "seed":
        yield from ((put_lot, fields) for fields in _lots(plan, item))
    elif item.group == "planting stock":
        yield from ((put_planting_stock, fields) for fields in _stocks(plan, item))
    else:
        yield from ((put_shed_item, fields) for fields in _materials(plan, item))


def _lots(plan: Plan, item: Item) -> Iterable[dict[str, Any]]:
    offers = {offer.id: offer for offer in plan.garden.offers}
    packed = {"crop": item.crop, "packed": plan.year}
    if not item.purchases:
        yield {**packed, "variety": item.variety, "seeds": math.ceil(item.to_buy or 0)}
    for one in item.purchases:
        offer = offers[one.key]
        amount: dict[str, Any] = (
            {"seeds": offer.seeds * one.number}
            if offer.seeds is not None
            else {"grams": (offer.grams or 0.0) * one.number}
        )
        yield {**packed, "variety": offer.variety, **amount}


def _stocks(plan: Plan, item: Item) -> Iterable[dict[str, Any]]:
    offers = {offer.id: offer for offer in plan.garden.offers}
    got = {"crop": item.crop, "kind": item.kind, "year": plan.year}
    if not item.purchases:
        yield {**got, "variety": item.variety, "number": math.ceil(item.to_buy or 0)}
    for one in item.purchases:
        offer = offers[one.key]
        yield {**got, "variety": offer.variety, "number": (offer.pieces or 0) * one.number}


def _materials(plan: Plan, item: Item) -> Iterable[dict[str, Any]]:
    sold = {one.id: one for one in plan.garden.shed if one.sold}
    plain: dict[str, Any] = {
        "kind": item.kind,
        "weight": item.sort.weight,
        "mesh": item.sort.mesh,
        "cells": item.cells or None,
        "width": item.width or None,
        "uncut": item.kind in _CUT,
    }
    for one in item.purchases:
        known = sold.get(one.key)
        if known is not None:
            size = {
                name: value
                for name in ("length", "width", "weight", "mesh", "cells", "litres", "grams", "name")
                if (value := getattr(known, name))
            }
            yield {**plain, **size, "number": one.number * max(1, known.number)}
        else:
            yield {**plain, "number": one.number, **_usual_size(item, one)}
    for length, number in (pair for cutting in item.cuttings for pair in cutting.cuts.too_long):
        yield {**plain, "uncut": False, "length": length / 1000, "number": number}
    if not item.purchases and not item.cuttings:
        yield {**plain, **_just_enough(item)}


def _usual_size(item: Item, one: Purchase) -> dict[str, Any]:
    """The size of a roll, bar or bag that no one named."""
    if item.unit == "litres":
        return {"litres": one.size}
    if item.unit == "metres":
        return {"length": one.size}
    return {"length": one.length, "width": one.width or None}


def _just_enough(item: Item) -> dict[str, Any]:
    """As much as is needed, where nothing is known of packs."""
    amount = item.to_buy or 0.0
    if item.unit in ("litres", "grams"):
        return {item.unit: amount}
    return {"number": math.ceil(amount)}


def ordered_of(plan: Plan, items: Iterable[Item]) -> tuple[str, ...]:
    """Ids of what is ordered in a plan's garden and counts for some lines of its shopping list.

    Parameters
    ----------
    plan : Plan
    items : iterable of Item
    """
    found: dict[str, None] = {}
    for item in items:
        if item.group == "seed":
            found |= {
                lot.id: None
                for lot in plan.garden.stock
                if lot.ordered and _is_of(item, lot.crop, lot.variety)
            }
        elif item.group == "planting stock":
            for stock in plan.garden.planting_stock:
                of_year = stock.year in (None, plan.year) and stock.kind == item.kind
                if stock.ordered and of_year and _is_of(item, stock.crop, stock.variety):
                    found[stock.id] = None
        else:
            for one in plan.garden.shed:
                same = one.kind == item.kind and (one.cells or 0) == item.cells
                if one.ordered and same and suits(Sort(one.weight, one.mesh), item.sort):
                    found[one.id] = None
    return tuple(found)


def _is_of(item: Item, crop: str, variety: str) -> bool:
    """Whether seed or planting stock serves a line: a line without a variety is served by any."""
    return crop == item.crop and (not item.variety or variety.casefold() == item.variety.casefold())
