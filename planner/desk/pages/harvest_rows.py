"""Harvests and stores as lines of a table that open to their plantings."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence

from planner.amounts.harvest import Harvest, keeping_source
from planner.amounts.larder import LotCourse
from planner.amounts.supply_year import CropYear
from planner.desk.pages.harvest_weeks import Chosen
from planner.desk.pages.opening_table import Row
from planner.garden.site import UnitSystem
from planner.listings.harvest import figure_words, yield_source_words
from planner.listings.phrases import PURPOSE_WORDS
from planner.listings.store import is_shown, kept_words, short_life_words
from planner.listings.weights import weight_cell, weight_head
from planner.plan import Plan
from planner.words import capital, day_words, say

#: Shown for an amount that is not known.
UNKNOWN = "?"
#: Columns of numbers, set to the right.
HARVEST_NUMBERS = (1, 2, 3, 4)
STORE_NUMBERS = (2, 6, 7)


def harvest_heads(units: UnitSystem) -> tuple[str, ...]:
    """Headings of the table of harvests."""
    unit = weight_head(units)
    return (
        say("Crop"),
        say("Harvest, {unit}", unit=unit),
        say("Least"),
        say("Most"),
        say("Pieces"),
        say("From"),
        say("Until"),
        say("Use"),
        say("Yield from"),
    )


def harvest_rows(plan: Plan, chosen: Chosen) -> tuple[Row, ...]:
    """Each crop's harvest of the growing year, which opens to its plantings.

    Parameters
    ----------
    plan : Plan
    chosen : sequence of (CropYear, tuple of Harvest)
    """
    crops: dict[str, list[Harvest]] = {}
    for _, harvests in chosen:
        for one in harvests:
            crops.setdefault(one.planting.crop, []).append(one)
    return tuple(_crop_row(plan, key, found) for key, found in crops.items())


def _crop_row(plan: Plan, key: str, found: Sequence[Harvest]) -> Row:
    parts = tuple(_planting_row(plan, one) for one in found)
    numbers = [_numbers(plan, one) for one in found]
    sums = [sum(column) for column in zip(*numbers, strict=True)]
    known = any(one.picks for one in found)
    days = [day for one in found if one.picking is not None for day in (one.picking.first, one.picking.last)]
    first, last = (min(days), max(days)) if days else (None, None)
    uses = list(dict.fromkeys(_use(one) for one in found))
    sources = list(dict.fromkeys(part.cells[-1] for part in parts))
    return _row(
        plan,
        capital(found[0].crop),
        sums if known else None,
        (first, last),
        uses[0] if len(uses) == 1 else say("several uses"),
        sources[0] if len(sources) == 1 else say("several sources"),
        key=key,
        shows=found[0].planting.id if len(found) == 1 else "",
        parts=parts,
    )


def _planting_row(plan: Plan, one: Harvest) -> Row:
    days = (one.picking.first, one.picking.last) if one.picking is not None else (None, None)
    return _row(
        plan,
        say("{bed}, {variety}", bed=one.bed.name, variety=one.variety) if one.variety else one.bed.name,
        _numbers(plan, one) if one.picks else None,
        days,
        _use(one),
        (one.missing and capital(one.missing)) or yield_source_words(plan, one.amount),
        key=one.planting.id,
        shows=one.planting.id,
    )


def _numbers(plan: Plan, one: Harvest) -> tuple[float, float, float, int]:
    """Grams of the growing year, the least and the most, and pieces."""
    grams, whole = one.within(plan.span), one.amount.grams or 0
    share = grams / whole if whole else 0.0
    pieces = round((one.amount.pieces or 0) * share)
    return grams, (one.amount.low or 0) * share, (one.amount.high or 0) * share, pieces


def _use(one: Harvest) -> str:
    return say(PURPOSE_WORDS[one.planting.purpose])


def _row(
    plan: Plan,
    name: str,
    numbers: Sequence[float] | None,
    days: tuple[dt.date | None, dt.date | None],
    use: str,
    source: str,
    *,
    key: str,
    shows: str = "",
    parts: tuple[Row, ...] = (),
) -> Row:
    units = plan.garden.site.units
    cells: tuple[str, ...]
    sorts: tuple[float, ...]
    if numbers is None:
        cells, sorts = (UNKNOWN, "", "", ""), (-1.0, -1.0, -1.0, -1.0)
    else:
        weights = tuple(weight_cell(value, units) for value in numbers[:3])
        cells = (*weights, str(round(numbers[3])) if numbers[3] else "")
        sorts = tuple(float(value) for value in numbers)
    shown = tuple(day_words(day, plan.year) if day is not None else "" for day in days)
    ordered = tuple(float(day.toordinal()) if day is not None else 0.0 for day in days)
    texts = (use.casefold(), source.casefold())
    return Row(
        (name, *cells, *shown, use, source),
        key,
        shows,
        parts,
        (name.casefold(), *sorts, *ordered, *texts),
    )


# -- stores ---------------------------------------------------------------------------------------

Stored = tuple[CropYear, Harvest, LotCourse]


def stored_lots(plan: Plan, years: Iterable[CropYear]) -> list[Stored]:
    """Lots of the store that are there in the growing year, by crop.

    Parameters
    ----------
    plan : Plan
    years : iterable of CropYear
    """
    found = [(year, one, course) for year in years for one, course in year.stored if is_shown(plan, course)]
    return sorted(found, key=lambda row: (row[1].crop.casefold(), row[2].lot.first, row[2].lot.last))


def store_heads(units: UnitSystem) -> tuple[str, ...]:
    """Headings of the table of stores."""
    unit = weight_head(units)
    return (
        say("Crop"),
        say("Kept"),
        say("Stored, {unit}", unit=unit),
        say("From"),
        say("Runs out"),
        say("Good until"),
        say("Spoils, {unit}", unit=unit),
        say("A week, {unit}", unit=unit),
        say("Keeps less, since"),
        say("Time from"),
    )


def store_rows(plan: Plan, found: Sequence[Stored]) -> tuple[Row, ...]:
    """Each crop's stores, which open to their plantings.

    Parameters
    ----------
    plan : Plan
    found : sequence of (CropYear, Harvest, LotCourse)
    """
    crops: dict[str, list[Stored]] = {}
    for one in found:
        crops.setdefault(one[1].planting.crop, []).append(one)
    return tuple(_store_row(plan, key, lots) for key, lots in crops.items())


def _store_row(plan: Plan, key: str, found: Sequence[Stored]) -> Row:
    parts = tuple(_lot_row(plan, *one) for one in found)
    lots = [course.lot for *_, course in found]
    gone = [course.gone for *_, course in found]
    places = list(dict.fromkeys(part.cells[1] for part in parts))
    return _store_cells(
        plan,
        capital(found[0][1].crop),
        places[0] if len(places) == 1 else say("several places"),
        (sum(lot.grams for lot in lots), sum(course.spoilt for *_, course in found)),
        (min(lot.first for lot in lots), max(lot.last for lot in lots)),
        max((day for day in gone if day is not None), default=None) if all(gone) else None,
        found[0][0].appetite.weekly or 0,
        ("", ""),
        key=key,
        shows=found[0][1].planting.id if len(found) == 1 else "",
        parts=parts,
    )


def _lot_row(plan: Plan, year: CropYear, one: Harvest, course: LotCourse) -> Row:
    lot = course.lot
    return _store_cells(
        plan,
        say("{bed}, {variety}", bed=one.bed.name, variety=one.variety) if one.variety else one.bed.name,
        kept_words(plan, one, course),
        (lot.grams, course.spoilt),
        (lot.first, lot.last),
        course.gone,
        year.appetite.weekly or 0,
        (short_life_words(one), figure_words(plan, *keeping_source(plan, one.planting))),
        key=f"{one.planting.id} {lot.first}",
        shows=one.planting.id,
    )


def _store_cells(
    plan: Plan,
    name: str,
    place: str,
    grams: tuple[int, int],
    days: tuple[dt.date, dt.date],
    gone: dt.date | None,
    weekly: int,
    words: tuple[str, str],
    *,
    key: str,
    shows: str,
    parts: tuple[Row, ...] = (),
) -> Row:
    units = plan.garden.site.units
    first, last = (day_words(day, plan.year) for day in days)
    out = day_words(gone, plan.year) if gone is not None else ""
    return Row(
        (
            name,
            place,
            weight_cell(grams[0], units),
            first,
            out,
            last,
            weight_cell(grams[1], units),
            weight_cell(weekly, units),
            *words,
        ),
        key,
        shows,
        parts,
        (
            name.casefold(),
            place.casefold(),
            float(grams[0]),
            float(days[0].toordinal()),
            float((gone or days[1]).toordinal()),
            float(days[1].toordinal()),
            float(grams[1]),
            float(weekly),
            *(word.casefold() for word in words),
        ),
    )
