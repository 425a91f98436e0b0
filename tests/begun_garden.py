"""A garden in which every way to stand in a growing year occurs: begun in it, before it, and for the year after."""

from __future__ import annotations

import datetime as dt

from making import bed, garden, planting

from planner.amounts import needs
from planner.garden import Climate, FrostDates, Garden, Lot, Site
from planner.plan import Plan

D = dt.date
YEAR = 2026

#: Ids of the plantings that are begun in 2026, the others by what they are.
BEGUN = {"sown", "raised", "sets", "autumn garlic", "early onions"}
NOT_BEGUN = {
    "garlic of last autumn",
    "overwintered spinach",
    "leeks carried over",
    "asparagus of before",
    "standing sage",
    "raised last december",
    "next year's peas",
}


def begun_garden(year: int = YEAR) -> Garden:
    """The garden, in the north with its growing year from January on."""
    rows = {
        "sown": {"crop": "carrot", "first": D(year, 4, 10)},
        "raised": {"crop": "tomato", "first": D(year, 5, 25)},
        "sets": {"crop": "onion", "start": "sets", "first": D(year, 3, 20)},
        "autumn garlic": {
            "crop": "garlic",
            "start": "cloves",
            "first": D(year, 10, 12),
            "last": D(year + 1, 7, 10),
        },
        # Sown indoors in December for the year after: its seed is wanted now.
        "early onions": {
            "crop": "onion",
            "start": "raised",
            "year": year + 1,
            "pinned_dates": {"sow": D(year, 12, 28), "set_out": D(year + 1, 3, 10)},
        },
        "garlic of last autumn": {
            "crop": "garlic",
            "start": "cloves",
            "year": year - 1,
            "first": D(year - 1, 10, 12),
            "last": D(year, 7, 10),
        },
        "overwintered spinach": {
            "crop": "spinach",
            "year": year - 1,
            "first": D(year - 1, 9, 10),
            "last": D(year, 4, 20),
        },
        "leeks carried over": {
            "crop": "leek",
            "year": year - 1,
            "first": D(year - 1, 5, 20),
            "last": D(year, 2, 20),
        },
        "asparagus of before": {
            "crop": "asparagus",
            "start": "crowns",
            "year": year - 5,
            "first": D(year - 5, 4, 5),
        },
        "standing sage": {"crop": "sage", "start": "standing"},
        # Sown in the year before: its seed was wanted then.
        "raised last december": {
            "crop": "leek",
            "start": "raised",
            "pinned_dates": {"sow": D(year - 1, 12, 20), "set_out": D(year, 4, 1)},
        },
        "next year's peas": {"crop": "pea", "year": year + 1, "first": D(year + 1, 3, 20)},
    }
    beds = [bed(f"b{number}", name=f"Bed {number}") for number, _ in enumerate(rows)]
    plantings = [
        planting(key.replace(" ", "_").replace("'", "_"), f"b{number}", **{"year": year, **fields})
        for number, (key, fields) in enumerate(rows.items())
    ]
    stock = (
        Lot(id="l1", crop="carrot", seeds=50, packed=year - 1),
        Lot(id="l2", crop="spinach", seeds=5, packed=year - 1),
        Lot(id="l3", crop="leek", seeds=5, packed=year - 1),
        Lot(id="l4", crop="onion", seeds=5, packed=year),
        Lot(id="l5", crop="pea", seeds=5, packed=year),
    )
    frosts = {
        "last_frost": FrostDates(risk_90="04-10", risk_50="04-25", risk_10="05-10"),
        "first_frost": FrostDates(risk_10="10-01", risk_50="10-15", risk_90="10-30"),
    }
    return garden(*beds, *plantings, site=Site(latitude=52.0), climate=Climate(**frosts), stock=stock)


def keys(names: set[str]) -> set[str]:
    """Ids of the plantings of some names."""
    return {name.replace(" ", "_").replace("'", "_") for name in names}


def garden_of_all_stock(year: int = YEAR) -> Garden:
    """A garden in which every state of a sort's seed occurs: enough, ordered, short, by one, too old, none, not counted."""
    rows = {
        "radish": (D(year, 4, 10), ""),
        "sweet_corn": (D(year, 5, 20), ""),
        "dwarf_bean": (D(year, 5, 20), ""),
        "lettuce": (D(year, 5, 1), ""),
        "kale": (D(year, 6, 1), ""),
        "carrot": (D(year, 4, 12), "Long"),
        "spinach": (D(year, 8, 10), ""),
        "pea": (D(year, 4, 1), ""),
    }
    beds = [bed(f"b{number}", name=f"Bed {number}") for number, _ in enumerate(rows)]
    plantings = [
        planting(key, f"b{number}", crop=key, year=year, first=first, variety=variety, start="sown")
        for number, (key, (first, variety)) in enumerate(rows.items())
    ]
    stock = (
        Lot(id="l1", crop="radish", seeds=5000, packed=year - 1),
        Lot(id="l2", crop="sweet_corn", seeds=500, packed=year, ordered=True),
        Lot(id="l3", crop="dwarf_bean", seeds=20, packed=year - 1),
        Lot(id="l4", crop="dwarf_bean", seeds=50, packed=year, ordered=True),
        Lot(id="l5", crop="kale", seeds=500, packed=year - 20),
        Lot(id="l6", crop="carrot", variety="Round", grams=20, packed=year - 1),
        Lot(id="l7", crop="pea", packed=year - 1),
    )
    whole = garden(*beds, *plantings, stock=stock)
    lettuce = next(need for need in needs(Plan(whole, year)) if need.crop == "lettuce")
    one_less = Lot(id="l8", crop="lettuce", seeds=(lettuce.seeds or 0) - 1, packed=year - 1)
    return whole.with_(stock=(*stock, one_less))
