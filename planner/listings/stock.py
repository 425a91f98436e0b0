"""Seed on hand as a CSV table that the import of stock reads back the same, and in words what is short."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from planner.amounts import Need
from planner.crops import Catalogue
from planner.garden import Lot
from planner.listings.tables import csv_text
from planner.words import say

#: Columns of :func:`stock_csv`; germination is in per cent, as people write it.
STOCK_COLUMNS = (
    "crop",
    "variety",
    "seeds",
    "grams",
    "packed",
    "germination %",
    "counted",
    "ordered",
    "notes",
)


def stock_csv(lots: Iterable[Lot], catalogue: Catalogue) -> str:
    """Write lots of seed as a table after RFC 4180, for a UTF-8 file.

    No cell is one that a spreadsheet would compute.

    Parameters
    ----------
    lots : iterable of Lot
    catalogue : Catalogue
        For the names of crops; a crop it does not know is written by its key.

    Returns
    -------
    str
        Without lots only the line of headings.
    """
    return csv_text([_cells(lot, catalogue) for lot in lots], STOCK_COLUMNS)


def short_words(need: Need) -> str:
    """What is short of one variety: ``carrot 'Long Hallow': 384 seeds short, 100 on hand, 200 ordered``."""
    name = say("{crop} '{variety}'", crop=need.name, variety=need.variety) if need.variety else need.name
    if need.short is None:
        return say("{crop}: cannot be counted", crop=name)
    if need.ordered:
        return say(
            "{crop}: {short} seeds short, {on_hand} on hand, {ordered} ordered",
            crop=name,
            short=need.short,
            on_hand=need.on_hand or 0,
            ordered=need.ordered,
        )
    return say(
        "{crop}: {short} seeds short, {on_hand} on hand",
        crop=name,
        short=need.short,
        on_hand=need.on_hand or 0,
    )


def ordered_words(need: Need) -> str:
    """What is ordered of one variety: ``carrot: 200 seeds ordered``."""
    name = say("{crop} '{variety}'", crop=need.name, variety=need.variety) if need.variety else need.name
    return say("{crop}: {ordered} seeds ordered", crop=name, ordered=need.ordered)


def _cells(lot: Lot, catalogue: Catalogue) -> dict[str, object]:
    crop = catalogue.get(lot.crop)
    cells = (
        _reversible(crop.name if crop is not None and catalogue.named(crop.name) is crop else lot.crop),
        _reversible(lot.variety),
        lot.seeds,
        None if lot.grams is None else _plain_number(Decimal(repr(lot.grams))),
        lot.packed,
        None if lot.germination is None else _plain_number(Decimal(repr(lot.germination)) * 100),
        lot.counted,
        "yes" if lot.ordered else None,
        _reversible(lot.notes),
    )
    return dict(zip(STOCK_COLUMNS, cells, strict=True))


def _plain_number(number: Decimal) -> str:
    """A number without exponent and without zeros at its end."""
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _reversible(text: str) -> str:
    """Double an apostrophe at the beginning, since reading takes one away as a guard against formulas."""
    return f"'{text}" if text.startswith("'") else text
