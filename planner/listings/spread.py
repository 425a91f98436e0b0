"""What is spread on beds in a growing year, as lines."""

from __future__ import annotations

from planner.amounts.spread import BAGGED, MANURE_DENSITY, Spread, SpreadTotal, spread_totals, spreads
from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_spacing
from planner.garden.volumes import show_load, show_volume
from planner.listings.materials import day_cell
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import number_words, say, say_count

SPREAD_HEADS = ("day", "what", "where", "area", "how much", "in all")
SPREAD_TOTAL_HEADS = ("what", "in all", "barrows", "in the shed", "to get", "bags")
#: Ounces of a pound; grams a square metre that make an ounce a square yard.
_OUNCES = 16
_OUNCE_A_YARD = 28.349523125 / 0.83612736


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
            one.kind,
            where_words(plan, one),
            show_area(one.area, units),
            _measure(one, units),
            _in_all(one.litres, one.grams, units),
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
        *aligned(SPREAD_HEADS, rows, right=(3, 4, 5), room=room),
        "",
        say("Totals"),
        *aligned(SPREAD_TOTAL_HEADS, totals, right=range(1, 6), room=room),
        *(f"  {line}." for line in marked),
    ]


def where_words(plan: Plan, one: Spread) -> str:
    """Where it is spread: the bed, or what stands there."""
    if one.planting is None:
        return one.bed.name
    crop = plan.figures_of(one.planting).crop
    name = f"{crop.name if crop is not None else one.planting.crop} {one.planting.variety}".strip()
    return say("{crop} in {bed}", crop=name, bed=one.bed.name)


def _measure(one: Spread, units: UnitSystem) -> str:
    if one.depth is not None:
        return say("{depth} deep", depth=show_spacing(one.depth, units))
    return rate_words(one.rate or 0.0, units)


def rate_words(rate: float, units: UnitSystem) -> str:
    """Mass to an area: ``150 g/m²``, ``4 kg/m²``; of a garden in feet ``4.4 oz a sq yd``, ``7.4 lb a sq yd``.

    Parameters
    ----------
    rate : float
        [g/m2]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> rate_words(150, "metric"), rate_words(4000, "metric"), rate_words(4000, "feet_inches")
    ('150 g/m²', '4 kg/m²', '7.4 lb a sq yd')
    """
    if units == "metric":
        if rate < 1000:
            return say("{grams} g/m²", grams=number_words(rate, 0))
        kilograms = round(rate / 1000, 1)
        return say("{kilograms} kg/m²", kilograms=number_words(kilograms, 0 if kilograms.is_integer() else 1))
    ounces = rate / _OUNCE_A_YARD
    if ounces < _OUNCES:
        return say("{ounces} oz a sq yd", ounces=number_words(ounces, 1))
    return say("{pounds} lb a sq yd", pounds=number_words(ounces / _OUNCES, 1))


def _in_all(litres: float | None, grams: float | None, units: UnitSystem) -> str:
    return show_volume(litres, units) if litres is not None else show_load(grams or 0.0, units)


def _bags_words(one: SpreadTotal, units: UnitSystem) -> str:
    """Bags or bales to buy; a stroke where it is not sold so, and where nothing is to be bought."""
    if not one.bags or (one.kind not in BAGGED and not one.bag_named):
        return "-"
    size = show_volume(one.bag, units)
    if one.kind == "straw" and not one.bag_named:
        return say_count(
            "{count} bale, {size} loose", "{count} bales, each {size} loose", one.bags, size=size
        )
    return say_count("{count} of {size}", "{count} of {size}", one.bags, size=size)


def _total_row(one: SpreadTotal, units: UnitSystem) -> tuple[str, ...]:
    def both(litres: float, grams: float) -> str:
        words = [show_volume(litres, units)] if litres > 0 else []
        words += [show_load(grams, units)] if grams > 0 else []
        return " + ".join(words) or "-"

    return (
        one.kind,
        both(one.litres, one.grams),
        str(one.barrows or "-"),
        both(one.litres_in_shed, one.grams_in_shed),
        both(one.litres_to_buy, one.grams_to_buy),
        _bags_words(one, units),
    )
