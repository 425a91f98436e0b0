"""What is spread on beds in a growing year, as lines."""

from __future__ import annotations

import math
from collections.abc import Sequence

from planner.amounts.bed_tasks import amount_words
from planner.amounts.spread import BAGGED, MANURE_DENSITY, Spread, SpreadTotal, spread_totals, spreads
from planner.garden.site import UnitSystem
from planner.garden.typed_amounts import show_rate
from planner.garden.units import show_area, show_spacing
from planner.garden.volumes import show_load, show_volume
from planner.listings.materials import day_cell
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import key_words, number_words, say, say_count, say_in_context


def spread_total_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (
        say("what"),
        say("in all"),
        say("barrows"),
        say("on hand or\nordered"),
        say("to get"),
        say("bags"),
    )


def spread_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (say("day"), say("what"), say("where"), say("area"), say("how much"), say("in all"))


def spread_lines(plan: Plan, room: int | None = None) -> list[str]:
    """Print what is spread as lines: day by day, and added up by kind.

    Parameters
    ----------
    plan : Plan
    room : int, optional
        Width of tables; any by default. [columns]
    """
    parts = spreads(plan)
    head = say("{garden}, spread on the beds in {year}", garden=plan.garden.site.name, year=plan.year)
    if not parts:
        return [head, "", say("Nothing is spread in {year}.", year=plan.year)]
    units = plan.garden.site.units
    rows = [
        (
            day_cell(one.day, plan),
            key_words(one.kind),
            where_words(plan, one),
            show_area(one.area, units),
            measure_words(one, units),
            in_all_words(one.litres, one.grams, units),
        )
        for one in parts
    ]
    sums = spread_totals(plan, parts)
    totals = [_total_row(one, units) for one in sums]
    marked = [
        say(
            "Barrows and bags of manure by weight are reckoned at {density} kg to a litre, an estimate",
            density=number_words(MANURE_DENSITY, 1),
        )
        for one in sums
        if one.kind == "manure" and one.grams
    ]
    marked += [
        say(
            "A bale of straw is reckoned to lie loose on {size}, an estimate",
            size=show_volume(one.bag, units),
        )
        for one in sums
        if one.kind == "straw" and one.bags and not one.bag_named
    ]
    return [
        head,
        "",
        *aligned(spread_heads(), rows, right=(3, 4, 5), room=room),
        "",
        say("Totals"),
        *aligned(spread_total_heads(), totals, right=range(1, 6), room=room),
        *(f"  {line}." for line in marked),
    ]


def where_words(plan: Plan, one: Spread) -> str:
    """Where it is spread: the bed, or what stands there."""
    if one.planting is None:
        return one.bed.name
    crop = plan.figures_of(one.planting).crop
    name = f"{crop.name if crop is not None else one.planting.crop} {one.planting.variety}".strip()
    return say("{crop} in {bed}", crop=name, bed=one.bed.name)


def measure_words(one: Spread, units: UnitSystem) -> str:
    """How deep it is spread, or how much to an area."""
    if one.depth is not None:
        return say_in_context("of a layer", "{depth} deep", depth=show_spacing(one.depth, units))
    return show_rate(one.rate or 0.0, units)


def in_all_words(litres: float | None, grams: float | None, units: UnitSystem) -> str:
    """Its volume, or its mass."""
    return show_volume(litres, units) if litres is not None else show_load(grams or 0.0, units)


def both_words(litres: float, grams: float, units: UnitSystem) -> str:
    """Volume and mass of what is spread by either; a stroke where there is neither."""
    words = [show_volume(litres, units)] if litres > 0 else []
    words += [show_load(grams, units)] if grams > 0 else []
    return " + ".join(words) or "-"


def bags_words(one: SpreadTotal, units: UnitSystem) -> str:
    """Bags or bales to buy; a stroke where it is not sold so, and where nothing is to be bought."""
    if not one.bags or (one.kind not in BAGGED and not one.bag_named):
        return "-"
    size = show_volume(one.bag, units)
    if one.kind == "straw" and not one.bag_named:
        return say_count(
            "{count} bale, {size} loose", "{count} bales, each {size} loose", one.bags, size=size
        )
    return say_count("{count} of {size}", "{count} of {size}", one.bags, size=size)


def total_words(plan: Plan, parts: Sequence[Spread]) -> str:
    """How much of something is spread in all, on what ground: ``115 l (about 1 barrow) on 5.76 m²``.

    Parameters
    ----------
    plan : Plan
    parts : sequence of Spread
        All by volume, or all by mass.
    """
    units = plan.garden.site.units
    area = show_area(math.fsum(one.area for one in parts), units)
    litres = [one.litres for one in parts if one.litres is not None]
    grams = [one.grams for one in parts if one.grams is not None]
    amount = amount_words(math.fsum(litres) if litres else None, math.fsum(grams), units)
    return say("{amount} on {area}", amount=amount, area=area)


def _total_row(one: SpreadTotal, units: UnitSystem) -> tuple[str, ...]:
    return (
        key_words(one.kind),
        both_words(one.litres, one.grams, units),
        str(one.barrows or "-"),
        both_words(one.litres_in_shed, one.grams_in_shed, units),
        both_words(one.litres_to_buy, one.grams_to_buy, units),
        bags_words(one, units),
    )
