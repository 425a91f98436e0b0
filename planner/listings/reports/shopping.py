"""The shopping list as a report."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from planner.amounts.shopping import Shopping, shopping
from planner.amounts.shopping_items import Group, Item, Served, Status, Unit
from planner.listings.reports.base import GardenReport, Grams, GrowingYear, OfCrop, Record
from planner.listings.reports.materials import GramsPerArea, Metres
from planner.listings.shopping_words import item_words, note_words, packs_words
from planner.plan import Plan

Amount = Annotated[
    float,
    AfterValidator(lambda value: round(value, 3) + 0.0),
    Field(ge=0, description="Thousandths of the unit."),
]
Price = Annotated[
    float,
    AfterValidator(lambda value: round(value, 2) + 0.0),
    Field(ge=0, description="In the garden's currency."),
]


class ShoppingRecord(OfCrop):
    """A line of the shopping list."""

    status: Status = Field(description="To buy, ordered, on hand in full, or not known.")
    group: Group
    material: str = Field(description="Seed, a kind of planting stock, or a word of the garden file's shed.")
    what: str = Field(description="In words.")
    by: dt.date | None = Field(description="First day that is not covered; null where all is on hand.")
    unit: Unit = Field(description="Of the amounts of this line; litres, grams and metres in any garden.")
    amount_needed: Amount | None
    amount_on_hand: Amount | None
    amount_ordered: Amount | None
    amount_to_buy: Amount | None
    seed_short_g: Grams | None = Field(description="Mass of the seed to buy. [g]")
    packs: str = Field(description="What to get, in words; empty where no size is known.")
    price: Price | None = Field(description="Of all that is to be bought of this line.")
    shops: tuple[str, ...]
    note: str = Field(description="Own words on what is bought.")
    missing: tuple[str, ...] = Field(description="What cannot be worked out.")
    planting_ids: tuple[str, ...] = Field(description="That it serves, by day.")
    bed_ids: tuple[str, ...] = Field(description="That are dressed with it, by day.")


class ServedRecord(Record):
    """What a planting or bed takes of a line."""

    planting_id: str = Field(description="Empty of a bed that is dressed.")
    bed_id: str
    day: dt.date | None
    amount: Amount = Field(description="In the unit of its line; 0 where it takes what has fallen free.")


class PurchaseRecord(Record):
    """Packs, bags, rolls or bars of one size to get."""

    number: int
    offer_id: str = Field(description="Of an offer, or of a size sold in the shed; empty of a usual size.")
    pack_amount: Amount = Field(description="In one, in the unit of its line; pieces in a pack.")
    length_m: Metres | None = Field(description="Of a roll or bar. [m]")
    width_m: Metres | None = Field(description="Of a roll. [m]")
    price_each: Price | None
    shop: str


class ShoppingItemRecord(ShoppingRecord):
    """A line with its packs and with what it serves."""

    fleece_g_per_m2: GramsPerArea | None
    mesh_m: Metres | None
    cells: int | None = Field(description="Of a tray of cells.")
    pot_m: Metres | None = Field(description="Width of a pot. [m]")
    estimated: bool = Field(description="The sizes sold are an estimate.")
    purchases: tuple[PurchaseRecord, ...]
    serves: tuple[ServedRecord, ...]


class ShoppingReport(GardenReport):
    """The shopping list of a growing year."""

    report: Literal["shopping"] = "shopping"
    currency: str = Field(description="Of the prices, as the garden writes it.")
    items: tuple[ShoppingItemRecord, ...]
    price: Price = Field(description="The sum of the prices that are known.")
    without_price: int = Field(description="Lines to buy whose price is not known.")


SHOPPING_COLUMNS = tuple(ShoppingRecord.model_fields)


def shopping_rows(plan: Plan) -> list[dict[str, object]]:
    """Lines of the shopping list as rows for a table, with the columns :data:`SHOPPING_COLUMNS`."""
    return [ShoppingRecord(**_fields(plan, one)).table_row() for one in shopping(plan).items]


def shopping_report(plan: Plan) -> ShoppingReport:
    """Report the shopping list."""
    found: Shopping = shopping(plan)
    return ShoppingReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        currency=found.currency,
        items=tuple(_record(plan, one) for one in found.items),
        price=found.price,
        without_price=found.without_price,
    )


def _fields(plan: Plan, one: Item) -> dict[str, object]:
    keys = list(dict.fromkeys(served.key for served in one.serves))
    return {
        "status": one.status,
        "group": one.group,
        "material": one.kind,
        "what": item_words(plan, one),
        "crop": one.crop,
        "crop_name": one.name,
        "variety": one.variety,
        "by": one.by,
        "unit": one.unit,
        "amount_needed": one.needed,
        "amount_on_hand": one.on_hand,
        "amount_ordered": one.ordered,
        "amount_to_buy": one.to_buy,
        "seed_short_g": one.grams,
        "packs": packs_words(plan, one) if one.purchases else "",
        "price": one.price,
        "shops": tuple(dict.fromkeys(bought.shop for bought in one.purchases if bought.shop)),
        "note": note_words(plan, one),
        "missing": one.missing,
        "planting_ids": tuple(key for key in keys if key in plan.garden.plantings_by_id),
        "bed_ids": tuple(key for key in keys if key in plan.garden.beds_by_id),
    }


def _record(plan: Plan, one: Item) -> ShoppingItemRecord:
    return ShoppingItemRecord(
        **_fields(plan, one),
        fleece_g_per_m2=one.sort.weight,
        mesh_m=one.sort.mesh,
        cells=one.cells or None,
        pot_m=one.width or None,
        estimated=one.estimated,
        purchases=tuple(
            PurchaseRecord(
                number=bought.number,
                offer_id=bought.key,
                pack_amount=bought.size,
                length_m=bought.length or None,
                width_m=bought.width or None,
                price_each=bought.price,
                shop=bought.shop,
            )
            for bought in one.purchases
        ),
        serves=tuple(_served(plan, served) for served in one.serves),
    )


def _served(plan: Plan, one: Served) -> ServedRecord:
    planting = plan.garden.plantings_by_id.get(one.key)
    return ServedRecord(
        planting_id=one.key if planting is not None else "",
        bed_id=planting.bed if planting is not None else one.key,
        day=one.day,
        amount=one.amount,
    )
