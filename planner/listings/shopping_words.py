"""Lines of a shopping list in words: what it is, how much, in which packs, at what price, and what it is for."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.amounts.shopping import Shopping
from planner.amounts.shopping_items import Item, Purchase
from planner.garden.units import FOOT, show_length, show_mass, show_spacing
from planner.garden.volumes import show_load, show_volume
from planner.listings.materials import material_words, size_words
from planner.plan import Plan
from planner.words import join_list, key_words, later, number_words, say, say_count

#: Headings of the groups.
GROUP_WORDS = {
    "seed": later("Seed"),
    "planting stock": later("Sets, tubers, cloves, crowns and plants"),
    "raising": later("For raising"),
    "covers and supports": later("Covers and supports"),
    "ground": later("For the ground"),
}
#: How far a line has come.
STATUS_WORDS = {
    "to buy": later("to buy"),
    "ordered": later("ordered"),
    "on hand": later("on hand"),
    "not known": later("not known"),
}
#: What is not known, or not there.
NOTHING = "-"


def item_words(plan: Plan, item: Item) -> str:
    """What a line is of: ``carrot Long Hallow``, ``fleece of 17 g/m²``, ``tray of 72 cells``."""
    if item.crop:
        name = f"{item.name} {item.variety}".strip()
        if item.group == "seed":
            return name
        return say("{crop} ({kind})", crop=name, kind=key_words(item.state or item.kind))
    if item.kind == "cell tray":
        return say("tray of {count} cells", count=item.cells)
    if item.kind == "pot":
        return say("pot {width} wide", width=show_spacing(item.width, plan.garden.site.units))
    return material_words(item.kind, item.sort, plan.garden.site.units)


def amount_words(plan: Plan, item: Item, amount: float | None) -> str:
    """An amount of a line, in the garden's units; a dash for nothing."""
    units = plan.garden.site.units
    if amount is None:
        return "?"
    if not amount:
        return NOTHING
    if item.unit == "litres":
        return show_volume(amount, units)
    if item.unit == "grams":
        return show_load(amount, units)
    if item.unit == "metres":
        return show_length(amount, units)
    if item.unit == "seeds":
        return say_count("{count} seed", "{count} seeds", math.ceil(amount))
    return f"{math.ceil(amount - 1e-9)}"


def to_buy_words(plan: Plan, item: Item) -> str:
    """What is to be bought of a line; of seed with its mass; of what is cut its pieces."""
    if item.to_buy and item.cuttings:
        return say_count("{count} piece", "{count} pieces", math.ceil(item.to_buy))
    if item.to_buy and item.unit == "metres" and plan.garden.site.units == "feet_inches":
        return say("{feet} ft", feet=math.ceil(item.to_buy / FOOT - 1e-9))  # nobody sells eighths of an inch
    words = amount_words(plan, item, item.to_buy)
    if item.to_buy and item.grams:
        return say("{seeds}, {mass}", seeds=words, mass=show_mass(item.grams, plan.garden.site.units))
    return words


def packs_words(plan: Plan, item: Item) -> str:
    """The packs to get: ``2 packets of 250 seeds``, ``1 roll of 10.00 × 2.00 m``; a dash where no size is known."""
    return join_list(pack_list(plan, item)) or NOTHING


def pack_list(plan: Plan, item: Item) -> list[str]:
    """The packs of each size, in words."""
    return [_pack_words(plan, item, one) for one in item.purchases]


def _pack_words(plan: Plan, item: Item, one: Purchase) -> str:
    units, number = plan.garden.site.units, one.number
    if item.group == "seed":
        offer = next(offer for offer in plan.garden.offers if offer.id == one.key)
        size = (
            say_count("{count} seed", "{count} seeds", offer.seeds)
            if offer.seeds is not None
            else show_mass(offer.grams or 0.0, units)
        )
        return say_count("{count} packet of {size}", "{count} packets of {size}", number, size=size)
    if item.unit in ("litres", "grams"):
        size = amount_words(plan, item, one.size)
        if item.kind == "straw" and not one.key:
            return say_count(
                "{count} bale, {size} loose", "{count} bales, each {size} loose", number, size=size
            )
        return say_count("{count} bag of {size}", "{count} bags of {size}", number, size=size)
    if item.unit == "metres":
        size = show_length(one.size, units)
        return say_count("{count} roll of {size}", "{count} rolls of {size}", number, size=size)
    if one.width:
        size = size_words((one.length, one.width), units)
        return say_count("{count} roll of {size}", "{count} rolls of {size}", number, size=size)
    if one.length:
        size = show_length(one.length, units)
        if one.size == 1:
            return say("{count} of {length}", count=number, length=size)
        each = math.floor(one.size)
        return say_count(
            "{count} pack of {each}, each {size}",
            "{count} packs of {each}, each {size}",
            number,
            each=each,
            size=size,
        )
    if one.size == 1:
        return f"{number}"
    pieces = f"{math.floor(one.size)}"
    grams = next((offer.grams for offer in plan.garden.offers if offer.id == one.key), None)
    if grams is not None:
        pieces = say("{pieces} ({mass})", pieces=pieces, mass=show_load(grams, units))
    return say_count("{count} pack of {each}", "{count} packs of {each}", number, each=pieces)


def price_words(price: float | None, currency: str) -> str:
    """A price; a dash where it is not known.

    Examples
    --------
    >>> price_words(2.5, "€"), price_words(2.5, "Kr"), price_words(2.5, ""), price_words(None, "€")
    ('€2.50', 'Kr\\xa02.50', '2.50', '-')
    """
    if price is None:
        return NOTHING
    number = number_words(price, 2)
    if not currency:
        return number
    if len(currency) == 1 and not currency.isalnum():
        return say("{currency}{number}", currency=currency, number=number)
    return say("{currency} {number}", currency=currency, number=number).replace(" ", "\u00a0")


def sum_words(found: Shopping) -> str:
    """The sum of the prices, and how many lines have none; empty where no price is known."""
    lines, without = len(found.to_buy), found.without_price
    if not lines or without == lines:
        return ""
    total = price_words(found.price, found.currency)
    if not without:
        return say("In all {total}", total=total)
    return say_count(
        "In all {total}; {count} line has no price",
        "In all {total}; {count} lines have no price",
        without,
        total=total,
    )


def shops_words(item: Item) -> str:
    """Where it is sold."""
    return join_list(dict.fromkeys(one.shop for one in item.purchases if one.shop))


def note_words(plan: Plan, item: Item) -> str:
    """The gardener's own words on what is bought: the names of sizes sold and first lines of notes."""
    names = {one.id: one.name for one in plan.garden.shed if one.sold}
    notes = {one.id: one.notes for one in plan.garden.offers}
    notes |= {one.id: one.notes for one in plan.garden.shed}
    words = [
        word
        for one in item.purchases
        if one.key
        for word in (names.get(one.key, ""), notes[one.key].split("\n")[0])
    ]
    return join_list(dict.fromkeys(word for word in words if word))


def serves_words(plan: Plan, item: Item, most: int | None = None) -> str:
    """What a line is for, with the share of each: ``118 for East 2``; of crops the bed alone, else what stands in it.

    Those that use what has fallen free are counted.

    Parameters
    ----------
    plan : Plan
    item : Item
    most : int, optional
        So many are named, the others counted; all by default.
    """
    shares: dict[str, float] = {}
    for one in item.serves:
        shares[one.key] = shares.get(one.key, 0.0) + one.amount
    named = [key for key, share in shares.items() if share]
    named = named if most is None else named[:most]
    words = [_served_words(plan, item, key, shares[key]) for key in named]
    if len(shares) > len(named):
        words.append(say_count("{count} more", "{count} more", len(shares) - len(named)))
    return join_list(words)


def served_place(plan: Plan, item: Item, key: str) -> str:
    """Where a planting or bed is that a line serves: of crops the bed alone, else with what stands in it."""
    planting = plan.garden.plantings_by_id.get(key)
    if planting is None:
        return plan.garden.beds_by_id[key].name
    where = plan.bed_of(planting).name
    if item.crop:
        return where
    crop = plan.figures_of(planting).crop
    name = f"{crop.name if crop is not None else planting.crop} {planting.variety}".strip()
    return say("{crop} in {bed}", crop=name, bed=where)


def _served_words(plan: Plan, item: Item, key: str, amount: float) -> str:
    where = served_place(plan, item, key)
    if item.unit == "pieces" and amount != round(amount):
        share = number_words(amount, 1 if amount >= 0.1 else 2)
        return say("{amount} for {where}", amount=share, where=where)
    return say("{amount} for {where}", amount=amount_words(plan, item, amount), where=where)


def hints(plan: Plan, items: Sequence[Item]) -> list[str]:
    """What would make the list better: packets and packs that are not entered, sizes that are an estimate; a sentence each."""
    crops = [item_words(plan, one) for one in items if one.to_buy and one.crop and not one.purchases]
    sizes = [item_words(plan, one) for one in items if one.to_buy and one.estimated]
    unknown = [
        item_words(plan, one)
        for one in items
        if one.to_buy and one.unit in ("litres", "grams") and not one.purchases
    ]
    lines = []
    if crops:
        lines.append(
            say("Enter the packets that you can buy of {crops}", crops=join_list(dict.fromkeys(crops)))
        )
    if unknown:
        lines.append(
            say("Enter in the shed the bags that you can buy of {materials}", materials=join_list(unknown))
        )
    if sizes:
        lines.append(
            say(
                "Sizes sold are an estimate for {materials}; enter in the shed what you can buy",
                materials=join_list(dict.fromkeys(sizes)),
            )
        )
    return lines
