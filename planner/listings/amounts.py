"""Amounts bed by bed, as lines."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby

from planner.amounts import Amount, begun_before, begun_on, needs, totals
from planner.garden.site import UnitSystem
from planner.garden.units import show_area
from planner.listings.phrases import start_words
from planner.listings.stock import ordered_words, short_words
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import day_words, number_words, say, short_number

#: Shown for a number that is not known.
UNKNOWN = "?"


def total_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (
        say("crop"),
        say("variety"),
        say("plantings"),
        say("plants"),
        say("area"),
        say("seeds"),
        say("seed, g"),
        say("plants\nto raise"),
        say("sets and\nplants\nneeded"),
    )


def bed_heads() -> tuple[str, ...]:
    """Headings of a table."""
    return (
        say("crop"),
        say("variety"),
        say("start"),
        say("plants"),
        say("rows"),
        say("seeds"),
        say("seed, g"),
        say("plants\nto raise"),
        say("sets and\nplants\nneeded"),
    )


def amounts_lines(plan: Plan, parts: Sequence[Amount], room: int | None = None) -> list[str]:
    """Print amounts as lines: a table a bed, totals by variety, seed that is short, then what is not counted since it
    was begun before, what is wrong and what is not known.

    Parameters
    ----------
    plan : Plan
    parts : sequence of Amount
        Bed by bed.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    lines = [say("{garden}, growing year {year}", garden=plan.garden.site.name, year=plan.year)]
    for bed, of_bed in groupby(parts, key=lambda part: part.bed):
        area = show_area(plan.area(bed), plan.garden.site.units)
        lines += ["", f"{bed.name} ({area})", *_bed_table(of_bed, room)]
    if parts:
        lines += ["", say("Totals"), *_totals_table(parts, plan.garden.site.units, room)]
    else:
        lines += ["", say("Nothing is sown or planted in {year}.", year=plan.year)]
    lines += [*_short_lines(plan, parts), *_before_lines(plan)]
    problems = [f"{part.bed.name}: {part.problem}." for part in parts if part.problem]
    missing = [f"{part.bed.name}: {sentence}." for part in parts for sentence in part.missing]
    if problems:
        lines += ["", say("Problems"), *("  " + line for line in dict.fromkeys(problems))]
    if missing:
        lines += [
            "",
            say("Not known ({mark})", mark=UNKNOWN),
            *("  " + line for line in dict.fromkeys(missing)),
        ]
    return lines


def _short_lines(plan: Plan, parts: Sequence[Amount]) -> list[str]:
    """Seed that is short and seed that is ordered; nothing where no seed on hand is entered."""
    if not plan.garden.stock:
        return []
    of_year = needs(plan, parts)
    short = [short_words(need) for need in of_year if need.short is None or need.short]
    ordered = [ordered_words(need) for need in of_year if need.ordered and not need.short]
    lines = (*short, *ordered)
    return ["", say("Seed that is short"), *("  " + line for line in lines)] if lines else []


def _before_lines(plan: Plan) -> list[str]:
    """What stands in the year and needs nothing, since it was begun before."""
    lines = []
    for planting in begun_before(plan):
        day, figures = begun_on(plan, planting), plan.figures_of(planting)
        name = f"{figures.crop.name if figures.crop else planting.crop} {planting.variety}".strip()
        bed = plan.bed_of(planting).name
        if day is None:
            lines.append(say("{bed}: {crop}, found grown", bed=bed, crop=name))
        else:
            lines.append(say("{bed}: {crop}, since {day}", bed=bed, crop=name, day=day_words(day, plan.year)))
    head = say("Begun before {year}, not counted", year=plan.year)
    return ["", head, *("  " + line for line in dict.fromkeys(lines))] if lines else []


def _bed_table(parts: Iterable[Amount], room: int | None) -> list[str]:
    rows = [
        (
            part.crop,
            part.variety,
            start_words(part.start),
            _count(part.plants),
            _count(part.rows),
            _count(part.seeds),
            grams_cell(part.seed_grams),
            _count(part.raise_),
            _count(part.acquire),
        )
        for part in parts
    ]
    return aligned(bed_heads(), rows, right=range(3, 9), room=room)


def _totals_table(parts: Sequence[Amount], units: UnitSystem, room: int | None) -> list[str]:
    rows = [
        (
            total.crop,
            total.variety,
            _count(total.plantings),
            _count(total.plants),
            show_area(total.area, units),
            _count(total.seeds),
            grams_cell(total.seed_grams),
            _count(total.raise_),
            _count(total.acquire),
        )
        for total in totals(parts)
    ]
    return aligned(total_heads(), rows, right=range(2, 9), room=room)


def _count(number: int | None) -> str:
    if number is None:
        return UNKNOWN
    return str(number) if number else "-"


def grams_cell(mass: float | None) -> str:
    """A mass of seed in a table: ``12.5``, ``0.34``, ``0.0021``; ``-`` for none, ``?`` for unknown. [g]"""
    if mass is None:
        return UNKNOWN
    if not mass:
        return "-"
    if mass < 1:
        return short_number(mass, 3)
    return number_words(mass, 0 if mass >= 100 else 1)
