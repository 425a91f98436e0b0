"""Figures and words of own varieties and crops as people type them, or write them in tables."""

from __future__ import annotations

import re

from planner.crops.crop import FIGURE_FIELDS
from planner.crops.field_units import UNITS
from planner.crops.figures import Words
from planner.errors import BedwrightError
from planner.garden import Garden, OwnFigure, OwnWord, edits
from planner.garden.edits.common import checked
from planner.garden.site import UnitSystem
from planner.garden.units import parse_length
from planner.garden.varieties import OWN_WORDS

#: Fields that are lengths, those of them that are small, and those that are shares.
LENGTHS = frozenset(field for field in FIGURE_FIELDS if UNITS[field] == "m")
SMALL = frozenset(field for field in LENGTHS if field.endswith("_spacing")) | {"sowing_depth", "cell_width"}
SHARES = frozenset(field for field in FIGURE_FIELDS if UNITS[field] == "fraction")

_RANGE = re.compile(r"(.+?)\s*(?:\bto\b|–|—|…|\.\.)\s*(.+)")
_WITH_RANGE = re.compile(r"(.+?)\s*\((.+)\)\s*")


def read_figure(field: str, text: str, units: UnitSystem) -> float:
    """A typed number of a field, in SI units.

    Parameters
    ----------
    field : str
        A field of a crop.
    text : str
        A number, with its unit or without.
    units : str
        How lengths and temperatures are meant that have no unit.

    Raises
    ------
    BedwrightError
        When it is no number.
    """
    if field in LENGTHS:
        return parse_length(text, units, small=field in SMALL)
    if field == "winter_zone" and (zone := re.fullmatch(r"\s*(\d{1,2})\s*([abAB]?)\s*", text)):
        return int(zone[1]) + (0.5 if zone[2] in ("b", "B") else 0.0)
    plain = text.strip().replace(",", ".").rstrip("°CF ").rstrip()
    percent = plain.endswith("%")
    words = plain.rstrip("% ").split()
    try:
        value = float(words[0])
    except (ValueError, IndexError):
        raise BedwrightError(f"'{text.strip()}' is no number", fix="Type one like 1.5") from None
    if field in SHARES and (percent or value > 1):
        return value / 100
    fahrenheit = re.search(r"°?\s*F\s*$", text) or (units != "metric" and not re.search(r"°?\s*C\s*$", text))
    return (value - 32) / 1.8 if UNITS[field] == "deg C" and fahrenheit else value


def read_own_figure(
    field: str, text: str, units: UnitSystem, old: OwnFigure | None = None, where: str = ""
) -> OwnFigure:
    """A typed figure: ``45``, ``40 to 50``, or ``45 (40 to 50)``.

    Of a range alone, its middle is taken.  Source and note stay as they were.

    Raises
    ------
    BedwrightError
        When it is no number, or none that the field can have.
    """
    main, low, high = text, None, None
    with_range = _WITH_RANGE.fullmatch(text)
    span = _RANGE.fullmatch(with_range[2] if with_range else text)
    if span is not None:
        low, high = (read_figure(field, part, units) for part in span.groups())
        main = with_range[1] if with_range else ""
    value = read_figure(field, main, units) if main else ((low or 0) + (high or 0)) / 2
    kept = {"source": old.source, "note": old.note} if old is not None else {}
    return checked(lambda: OwnFigure(field=field, value=value, low=low, high=high, **kept), where or field)


def read_own_word(field: str, text: str, old: OwnWord | None = None, where: str = "") -> OwnWord:
    """A typed word of a field; several are parted by commas.

    Raises
    ------
    BedwrightError
        When the field does not know it; the words that it knows are named.
    """
    several = OWN_WORDS[field] is Words
    parts = [part.strip() for part in re.split(r"[,;]", text)] if several else [text.strip()]
    words = tuple(part for part in parts if part)
    kept = {"source": old.source, "note": old.note} if old is not None else {}
    return checked(lambda: OwnWord(field=field, words=words, **kept), where or field)


def source_named(garden: Garden, title: str) -> tuple[Garden, str]:
    """The key of the own source with a title; one is made where the garden has none.

    Parameters
    ----------
    garden : Garden
    title : str
        Empty for none.

    Returns
    -------
    garden, key
    """
    if not title:
        return garden, ""
    for source in garden.sources:
        if source.title.casefold() == title.casefold():
            return garden, source.key
    return edits.put_source(garden, title=title)
