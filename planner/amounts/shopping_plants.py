"""Seed and planting stock to buy, a line a variety."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from planner.amounts.begun import begun_on
from planner.amounts.packs import Bought, Pack, best_packs, price_of
from planner.amounts.plants import Amount, amounts
from planner.amounts.shopping_items import Item, Purchase, Served, in_order, to_buy_of, when_needed
from planner.amounts.stock import Need, needs
from planner.garden import Offer, PlantingStock
from planner.garden.offers import StockKind
from planner.plan import Plan
from planner.words import say

#: What is got for each start without seed.
STOCK_OF: dict[str, StockKind] = {
    "sets": "sets",
    "tubers": "tubers",
    "cloves": "cloves",
    "crowns": "crowns",
    "bought": "plants",
}


# -- seed ----------------------------------------------------------------------------------------------


def seed_items(plan: Plan, parts: Iterable[Amount]) -> list[Item]:
    """Seed of some plantings, a line a variety, by name.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Amount
    """
    return [_seed_item(plan, need) for need in needs(plan, parts)]


def _seed_item(plan: Plan, need: Need) -> Item:
    serves = in_order(_served(plan, part, part.seeds or 0, "sow") for part in need.parts)
    per_gram = plan.figures_of(need.parts[0].planting).number("seeds_per_gram")
    there, missing = (need.on_hand or 0) + need.ordered, list(need.missing)
    to_buy = None if need.short is None else round(to_buy_of(need.seeds or 0, there, serves))
    offers = _offers(plan, "seed", need.crop, need.variety)
    packs = [pack for offer in offers if (pack := _packet(offer, per_gram)) is not None]
    if to_buy and len(packs) < len(offers):
        missing.append(
            say("Packets of {crop} that are sold by weight cannot be counted in seeds", crop=need.name)
        )
    return Item(
        group="seed",
        kind="seed",
        unit="seeds",
        needed=need.seeds,
        on_hand=need.on_hand,
        ordered=need.ordered,
        to_buy=to_buy,
        by=when_needed(serves, need.on_hand or 0, need.ordered, 1 if to_buy is None else to_buy),
        serves=serves,
        purchases=_best_of_one_variety(to_buy or 0, packs, offers),
        crop=need.crop,
        name=need.name,
        variety=need.variety,
        grams=to_buy / per_gram if to_buy is not None and per_gram else None,
        missing=tuple(missing),
    )


def _packet(offer: Offer, per_gram: float | None) -> Pack | None:
    """A packet with the seeds in it; None where they cannot be counted."""
    seeds = offer.seeds
    if seeds is None and per_gram and offer.grams:
        seeds = math.floor(offer.grams * per_gram + 1e-6)
    return Pack(offer.id, seeds, offer.price, offer.shop) if seeds else None


def _served(plan: Plan, part: Amount, number: float, work: str) -> Served:
    planting = part.planting
    done = any(record.kind == work for record in plan.garden.done(planting))
    day = begun_on(plan, planting)
    chit = plan.dates(planting).care_day("chit")
    if day is not None and chit is not None and chit.day < day:
        day = chit.day
    return Served(planting.id, number, day, done)


# -- offers --------------------------------------------------------------------------------------------


def _offers(plan: Plan, kind: str, crop: str, variety: str) -> list[Offer]:
    """What can be bought of a variety; for plantings that name none any, those without a variety before all others."""
    found = [one for one in plan.garden.offers if one.kind == kind and one.crop == crop]
    name = variety.casefold()
    fitting = [one for one in found if one.variety.casefold() == name]
    return fitting if fitting or name else found


def _best_of_one_variety(need: float, packs: Sequence[Pack], offers: Sequence[Offer]) -> tuple[Purchase, ...]:
    """The packs to buy, all of one variety."""
    names = {offer.id: offer.variety.casefold() for offer in offers}
    by_name: dict[str, list[Pack]] = {}
    for pack in packs:
        by_name.setdefault(names[pack.key], []).append(pack)
    choices = [found for group in by_name.values() if (found := best_packs(need, group))]
    return tuple(Purchase.of(one) for one in min(choices, key=_cost)) if choices else ()


def _cost(bought: Sequence[Bought]) -> tuple[bool, float, float, int]:
    """What a choice is compared by: price, where it is known; then what it holds; then its packs."""
    price = price_of(bought)
    held = math.fsum(one.number * one.pack.size for one in bought)
    return price is None, price or 0.0, held, sum(one.number for one in bought)


# -- planting stock ------------------------------------------------------------------------------------


class _Key(NamedTuple):
    """Kind, crop, variety in lower case, and the state in which plants are bought in."""

    kind: StockKind
    crop: str
    variety: str
    state: str


def stock_items(plan: Plan, parts: Iterable[Amount]) -> list[Item]:
    """Sets, tubers, cloves, crowns and plants of some plantings, a line a variety, by name.

    Parameters
    ----------
    plan : Plan
    parts : iterable of Amount
    """
    groups: dict[_Key, list[Amount]] = {}
    for part in parts:
        if part.acquire:
            planting = part.planting
            state = planting.bought_as("") if part.start == "bought" else ""
            key = _Key(STOCK_OF[part.start], planting.crop, planting.variety.casefold(), state)
            groups.setdefault(key, []).append(part)
    left = {
        one.id: one.number for one in plan.garden.planting_stock if one.year is None or one.year == plan.year
    }
    # Named varieties first, so that what they leave serves those that name none.
    found = [
        _stock_item(plan, key, groups[key], left) for key in sorted(groups, key=lambda one: not one.variety)
    ]
    return sorted(found, key=lambda one: (one.name.casefold(), one.variety.casefold(), one.state))


def _stock_item(plan: Plan, key: _Key, parts: Sequence[Amount], left: dict[str, int]) -> Item:
    serves = in_order(_served(plan, part, part.acquire, "set out") for part in parts)
    needed = sum(part.acquire for part in parts)
    serving = [one for one in plan.garden.planting_stock if one.id in left and _serves(one, key)]
    serving.sort(key=lambda one: (one.ordered, one.variety != ""))
    taken = {False: 0, True: 0}
    on_hand, ordered = (
        sum(left[one.id] for one in serving if one.ordered is coming) for coming in (False, True)
    )
    for one in serving:
        number = min(left[one.id], needed - sum(taken.values()))
        left[one.id] -= number
        taken[one.ordered] += number
    to_buy = round(to_buy_of(needed, on_hand + ordered, serves))
    offers = _offers(plan, key.kind, key.crop, parts[0].variety)
    packs = [Pack(one.id, one.pieces or 0, one.price, one.shop) for one in offers]
    return Item(
        group="planting stock",
        kind=key.kind,
        unit="pieces",
        needed=needed,
        on_hand=on_hand,
        ordered=ordered,
        to_buy=to_buy,
        by=when_needed(serves, on_hand, ordered, to_buy),
        serves=serves,
        purchases=_best_of_one_variety(to_buy, packs, offers),
        crop=key.crop,
        name=parts[0].crop,
        variety=parts[0].variety,
        state=key.state,
    )


def _serves(one: PlantingStock, key: _Key) -> bool:
    """Whether planting stock serves plantings: of its variety; of those that name none any of their crop."""
    return (
        one.kind == key.kind
        and one.crop == key.crop
        and (not key.variety or one.variety.casefold() == key.variety)
    )


def plant_items(plan: Plan) -> list[Item]:
    """Seed and planting stock of what is begun in the growing year."""
    parts = amounts(plan)
    return [*seed_items(plan, parts), *stock_items(plan, parts)]
