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
from planner.words import key_typed, say

#: Fields that are lengths, those of them that are small, and those that are shares.
LENGTHS = frozenset(field for field in FIGURE_FIELDS if UNITS[field] == "m")
SMALL = frozenset(field for field in LENGTHS if field.endswith("_spacing")) | {"sowing_depth", "cell_width"}
SHARES = frozenset(field for field in FIGURE_FIELDS if UNITS[field] == "fraction")

_RANGE = re.compile(r"(.+?)\s*(?:\b(?:to|bis)\b|–|—|…|\.\.|(?<=[\d\w])\s*-(?=\s*\d))\s*(.+)")
#: A number at the end of which stands its unit.
_UNIT = re.compile(r"\d\s*([^\d\s.,()+-][^\d]*)$")
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
    from_frost = re.fullmatch(
        r"\s*([\d.,]+)\s*(?:weeks?|wochen?)\s+(before|after|vor|nach)\b.*", text, re.IGNORECASE
    )
    if from_frost is not None and UNITS[field].startswith("weeks from"):
        weeks = float(from_frost[1].replace(",", "."))
        return -weeks if from_frost[2].casefold() in ("before", "vor") else weeks
    match = re.fullmatch(r"\s*([-−+]?\d+(?:[.,]\d+)?|[.,]\d+)\s*(.*?)\s*", text)
    if match is None:
        raise BedwrightError(say("'{text}' is no number", text=text.strip()), fix=say("Type one like 1.5"))
    value, unit = float(match[1].replace(",", ".").replace("−", "-")), match[2].casefold()
    if field in SHARES and unit in ("", "%"):
        return value / 100 if unit or value > 1 else value
    if UNITS[field] == "deg C" and unit in _DEGREES:
        return (value - 32) / 1.8 if (_DEGREES[unit] or units) in ("F", "feet_inches") else value
    factor = _FACTORS.get(UNITS[field], {}).get(unit, 1.0 if unit in ("", UNITS[field].casefold()) else None)
    if factor is None:
        known = next(iter(_FACTORS.get(UNITS[field], {})), "°C" if UNITS[field] == "deg C" else UNITS[field])
        mend = (
            say("Type the number alone, or with {known}", known=known)
            if known
            else say("Type the number alone")
        )
        raise BedwrightError(say("'{unit}' is no unit of it", unit=unit), fix=mend)
    return value * factor


#: Units in which figures may be typed, in English and German, in that of the field.
_FACTORS: dict[str, dict[str, float]] = {
    "days": {
        "days": 1,
        "day": 1,
        "d": 1,
        "weeks": 7,
        "week": 7,
        "months": 30.4,
        "month": 30.4,
        "years": 365,
        "year": 365,
        **dict.fromkeys(("tage", "tag"), 1),
        **dict.fromkeys(("wochen", "woche"), 7),
        **dict.fromkeys(("monate", "monat"), 30.4),
        **dict.fromkeys(("jahre", "jahr"), 365),
    },
    "weeks": {
        "weeks": 1,
        "week": 1,
        "days": 1 / 7,
        "day": 1 / 7,
        "months": 4.35,
        "month": 4.35,
        "wochen": 1,
        "woche": 1,
        "tage": 1 / 7,
        "tag": 1 / 7,
        "monate": 4.35,
        "monat": 4.35,
    },
    "years": {
        "years": 1,
        "year": 1,
        "months": 1 / 12,
        "month": 1 / 12,
        "jahre": 1,
        "jahr": 1,
        "monate": 1 / 12,
        "monat": 1 / 12,
    },
    "h": {"hours": 1, "hour": 1, "h": 1, "stunden": 1, "stunde": 1},
    "kg": {"kg": 1, "g": 0.001, "lb": 0.45359237, "lbs": 0.45359237, "oz": 0.028349523125},
    "plants": {"plants": 1, "plant": 1, "pflanzen": 1, "pflanze": 1},
    "cuts": {"cuts": 1, "times": 1, "schnitte": 1, "schnitt": 1, "mal": 1},
    "seeds/g": {"seeds": 1, "seeds/g": 1, "körner": 1, "korn": 1, "samen": 1, "körner/g": 1},
}
_FACTORS |= {f"weeks from {frost} frost": _FACTORS["weeks"] for frost in ("last", "first")}
_DEGREES = {"": "", "°": "", "c": "C", "°c": "C", "deg c": "C", "f": "F", "°f": "F", "deg f": "F"}


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
        first, last = span.groups()
        unit = _UNIT.search(last)
        if unit is not None and _UNIT.search(first) is None:  # 60 to 100 cm
            first = f"{first} {unit[1]}"
        low, high = (read_figure(field, part, units) for part in (first, last))
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
    words = tuple(key_typed(field, part) for part in parts if part)
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
