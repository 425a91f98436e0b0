"""Which of a year's harvests are looked at: all, a kind, or one crop."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from planner.amounts.harvest import Harvest
from planner.amounts.supply_year import CropYear
from planner.plan import Plan
from planner.words import capital, later, say

#: Kinds by what is harvested: words of the catalogue.
_PRODUCTS = {
    "leaves": ("leaves", "young leaves", "heads", "stalks", "shoots", "green bulbs"),
    "roots": ("roots", "young roots", "tubers", "bulbs", "rhizomes"),
    "fruit": ("fruit", "green fruit", "pods"),
    "seed": ("green seed", "dry seed", "grain"),
    "flowers": ("flowers", "buds"),
}
_KIND_WORDS = {
    "leaves": later("Leaves, heads and stalks"),
    "roots": later("Roots, tubers and bulbs"),
    "fruit": later("Fruit and pods"),
    "seed": later("Seed and grain"),
    "flowers": later("Flowers and buds"),
}
_STORED, _FRESH = "for the store", "eaten fresh"


class Choice(NamedTuple):
    """What is looked at; everything where both are empty.

    Attributes
    ----------
    kind : str
        A kind of crops, by what is harvested or what becomes of it.
    crop : str
        Key of the amount that is eaten of a crop (:class:`planner.amounts.eating.Appetite`).
    """

    kind: str = ""
    crop: str = ""


ALL = Choice()


def choices(plan: Plan, years: Sequence[CropYear]) -> list[tuple[Choice, str]]:
    """All that can be chosen, with words: everything, kinds of which there are some, crops by name.

    Parameters
    ----------
    plan : Plan
    years : sequence of CropYear
    """
    harvests = [one for year in years for one in year.harvests]
    products = {product_of(plan, one) for one in harvests}
    found = [(ALL, say("All crops"))]
    there = (key for key, words in _PRODUCTS.items() if products.intersection(words))
    found += [(Choice(key), say(_KIND_WORDS[key])) for key in there]
    stored = {one.stored for one in harvests if one.picks}
    if len(stored) == 2:
        found += [(Choice(_STORED), say("Stored or preserved")), (Choice(_FRESH), say("Eaten fresh"))]
    return found + [(Choice(crop=year.appetite.key), capital(year.name)) for year in years if year.harvests]


def product_of(plan: Plan, one: Harvest) -> str:
    """What is harvested of a planting, a word of the catalogue; empty where it is not known."""
    crop = plan.figures_of(one.planting).crop
    return str(crop.product.value) if crop is not None and crop.product is not None else ""


def chosen(
    plan: Plan, years: Sequence[CropYear], choice: Choice
) -> list[tuple[CropYear, tuple[Harvest, ...]]]:
    """The harvests that are looked at, by crop; crops without any are left out.

    Parameters
    ----------
    plan : Plan
    years : sequence of CropYear
    choice : Choice
    """
    words = _PRODUCTS.get(choice.kind)

    def holds(one: Harvest) -> bool:
        if choice.kind in (_STORED, _FRESH):
            return bool(one.picks) and one.stored == (choice.kind == _STORED)
        return words is None or product_of(plan, one) in words

    found = (
        (year, tuple(one for one in year.harvests if holds(one)))
        for year in years
        if choice.crop in ("", year.appetite.key)
    )
    return [(year, harvests) for year, harvests in found if harvests]
