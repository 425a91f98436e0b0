"""Cells of a table of stock as people write them: headings, crops, weights, years, germination."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation

from planner.crops import Catalogue
from planner.crops.german_names import crop_in_german
from planner.crops.search import find, near, plain
from planner.errors import BedwrightError
from planner.listings.formulas import FORMULA_SIGNS, without_inner_guards
from planner.words import say

#: Columns, each with the headings that mean it. Accents, capitals and signs do not matter.
HEADINGS: dict[str, tuple[str, ...]] = {
    "crop": ("crop", "crops", "plant", "vegetable", "kind", "species"),
    "variety": ("variety", "varieties", "cultivar", "sort", "cv"),
    "seeds": ("seeds", "number of seeds", "seed count", "count", "amount seeds", "seeds count"),
    "grams": ("grams", "gram", "g", "weight", "weight g", "amount g", "amount grams", "grams of seed"),
    "amount": ("amount", "quantity", "qty", "on hand", "contents"),
    "unit": ("unit", "units"),
    "packed": ("packed", "year", "year packed", "packed year", "packed in", "date packed", "season"),
    "germination": ("germination", "germination tested", "tested", "germ", "tested germination"),
    "counted": ("counted", "counted on", "date counted", "day counted"),
    "ordered": ("ordered", "on order"),
    "notes": ("notes", "note", "remarks", "remark", "comment", "comments"),
}
_COLUMN_OF_HEADING = {name: column for column, names in HEADINGS.items() for name in names}

#: The column of germination where its heading says per cent.
PER_CENT = "germination %"

#: Grams in a unit of weight.
_WEIGHTS = {
    "g": Decimal(1), "gr": Decimal(1), "gm": Decimal(1), "gram": Decimal(1), "grams": Decimal(1),
    "mg": Decimal("0.001"), "kg": Decimal(1000), "oz": Decimal("28.349523125"),
    "ounce": Decimal("28.349523125"), "ounces": Decimal("28.349523125"), "lb": Decimal("453.59237"),
    "lbs": Decimal("453.59237"),
}  # fmt: skip
#: Units of a number of seeds.
_COUNTS = ("seed", "seeds", "pcs", "grains", "korn", "körner", "samen", "stück")
#: Words for yes and for no.
_YES = ("yes", "y", "x", "true", "1", "ordered", "ja", "j", "bestellt")
_NO = ("no", "n", "false", "0", "-", "nein")
#: A number, with separators of thousands and fraction, and its unit.
_NUMBER = re.compile(r"(-?[\d.,'\u00a0\u2009 ]*\d)\s*(%|[^\W\d]*)\.?")


class CellError(BedwrightError):
    """A cell that is not understood."""


def heading(text: str) -> str:
    """The column a heading means: a key of :data:`HEADINGS`, :data:`PER_CENT`, or empty."""
    bare = re.sub(r"%|\bper ?cent\b|\bpct\b", " ", text.casefold())
    column = _COLUMN_OF_HEADING.get(plain(bare), "")
    return PER_CENT if column == "germination" and bare != text.casefold() else column


def unguarded(text: str) -> str:
    """A text without the apostrophe that kept a spreadsheet from computing it."""
    rest = text[1:]
    guarded = text[:1] == "'" and (rest.lstrip()[:1] in FORMULA_SIGNS or rest[:1] in ("'", "\t", "\r", "\n"))
    return without_inner_guards(rest if guarded and rest else text)


def row_fields(given: Mapping[str, str], catalogue: Catalogue) -> tuple[dict[str, object], list[str]]:
    """Read the fields of a lot from a row's cells.

    Parameters
    ----------
    given : mapping of str to str
        Cells by column; what is missing is left out or empty.
    catalogue : Catalogue
        For the names of crops.

    Returns
    -------
    fields : dict
        Fields of :class:`planner.garden.Lot`, its id left out.
    notes : list of str
        How cells were understood that may have meant something else.

    Raises
    ------
    CellError
        Names the first cell that is not understood.
    """
    notes: list[str] = []
    fields: dict[str, object] = {"crop": crop_of_cell(given.get("crop", ""), catalogue, notes)}
    fields["variety"] = given.get("variety", "")
    fields["notes"] = given.get("notes", "")
    fields |= _amount(given)
    if given.get("packed"):
        fields["packed"] = _year(given["packed"])
    for word in ("germination", PER_CENT):
        if given.get(word):
            fields["germination"] = _share(given[word], word == PER_CENT, notes)
    if given.get("counted"):
        fields["counted"] = _day(given["counted"])
    if given.get("ordered"):
        fields["ordered"] = _yes(given["ordered"])
    return fields, notes


def crop_of_cell(text: str, catalogue: Catalogue, notes: list[str]) -> str:
    """Key of the crop that a cell names.

    Parameters
    ----------
    text : str
    catalogue : Catalogue
    notes : list of str
        Gains how the cell was understood, where that may not be what was meant.

    Raises
    ------
    CellError
        Where it names none, or may be several.
    """
    if not text:
        raise CellError(say("no crop is given"), fix=say("Write its name"))
    named = catalogue.named(text)
    if named is not None:
        return named.key
    german = crop_in_german(catalogue, text)
    if german is not None:
        notes.append(say("'{text}' is taken for {crop}", text=text, crop=german.name))
        return german.key
    found = find(catalogue, text)
    if len(found) == 1:
        notes.append(say("'{text}' is taken for {name}", text=text, name=found[0].name))
        return found[0].key
    close = [crop.name for crop in (found[:4] or near(catalogue, text))]
    mend = (
        say("Write one of: {names}", names=", ".join(close))
        if close
        else say("bedwright crops lists the names there are")
    )
    what = (
        say("'{text}' may be several crops", text=text)
        if found
        else say("no crop is called '{text}'", text=text)
    )
    raise CellError(what, fix=mend)


def _amount(given: Mapping[str, str]) -> dict[str, object]:
    """Seeds or grams, from columns of their own or from an amount with its unit."""
    fields: dict[str, object] = {}
    if given.get("seeds"):
        fields["seeds"] = _whole(given["seeds"])
    if given.get("grams"):
        fields["grams"] = _weight(given["grams"], "g")
    text = given.get("amount", "")
    if not text:
        return fields
    number, own = _parted(text)
    unit = own or plain(given.get("unit", ""))
    kind, value = "seeds", 0.0
    if unit in _COUNTS:
        value = _whole(number)
    elif unit in _WEIGHTS:
        kind, value = "grams", _weight(number, unit)
    else:
        what = (
            say("'{text}' may be seeds or grams", text=text)
            if not unit
            else say("'{unit}' is no unit of seed", unit=unit)
        )
        raise CellError(what, fix=say("Write {number} seeds, or {number} g", number=number))
    if kind in fields and fields[kind] != value:
        raise CellError(
            say(
                "two different amounts are given: {text} and {fields} {kind}",
                text=text,
                fields=f"{fields[kind]:g}",
                kind=kind,
            ),
            fix=say("Keep one"),
        )
    return {**fields, kind: value}


def _parted(text: str) -> tuple[str, str]:
    """Number and unit as written; the unit may be empty."""
    match = _NUMBER.fullmatch(text.strip())
    if match is None:
        raise CellError(
            say("'{text}' is no number", text=text), fix=say("Write a number such as 250 or 2.5 g")
        )
    return match[1], match[2].casefold()


def _weight(text: str, unit: str) -> float:
    """A mass; ``unit`` is that of its column, for a cell without one. [g]"""
    number, own = _parted(text)
    unit = own or unit
    if unit not in _WEIGHTS:
        raise CellError(say("'{text}' is no weight", text=text), fix=say("Write grams, such as 2.5 g"))
    return float(_decimal(number) * _WEIGHTS[unit])


def _whole(text: str) -> int:
    number, own = _parted(text)
    if own and own not in _COUNTS:
        raise CellError(say("'{text}' is no number of seeds", text=text), fix=say("Write a whole number"))
    plain_number = re.sub(r"(?<=\d)[.,' \u00a0\u2009](?=\d{3}(?!\d))", "", number)  # 1,000 and 1 000
    try:
        value = Decimal(plain_number.replace(",", "."))
    except InvalidOperation:
        value = Decimal("0.5")
    if value != value.to_integral_value():
        raise CellError(
            say("'{text}' is no whole number of seeds", text=text), fix=say("Write a whole number")
        )
    return int(value)


def _decimal(text: str) -> Decimal:
    """A number with a point or a comma for its fraction."""
    bare = re.sub(r"['\u00a0\u2009 ]", "", text)
    if re.fullmatch(r"-?\d{1,3},\d{3}", bare):
        raise CellError(
            say(
                "'{text}' may be {one} or {one_2}",
                text=text,
                one=bare.replace(",", ""),
                one_2=bare.replace(",", "."),
            ),
            fix=say("Write it with a point for the fraction, and nothing between thousands"),
        )
    if "," in bare and "." in bare:  # the later one begins the fraction
        thousands = "," if bare.rindex(".") > bare.rindex(",") else "."
        bare = bare.replace(thousands, "")
    try:
        value = Decimal(bare.replace(",", "."))
    except InvalidOperation:
        raise CellError(
            say("'{text}' is no number", text=text), fix=say("Write a number such as 250 or 2.5")
        ) from None
    if not math.isfinite(value):
        raise CellError(say("'{text}' is no number", text=text), fix=say("Write a number such as 250 or 2.5"))
    return value


def _year(text: str) -> int:
    years = re.findall(r"(?<!\d)(?:1[89]|2[0-4])\d\d(?!\d)", text)
    if len(set(years)) != 1:
        raise CellError(
            say("'{text}' names no year", text=text), fix=say("Write the year packed with four digits")
        )
    return int(years[0])


def _day(text: str) -> dt.date:
    """A day written with its year first, which is read the same everywhere."""
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        raise CellError(
            say("'{text}' is no day", text=text), fix=say("Write year, month and day, as 2026-03-31")
        ) from None


def _yes(text: str) -> bool:
    word = text.strip().casefold()
    if word not in (*_YES, *_NO):
        raise CellError(
            say("'{text}' is neither yes nor no", text=text),
            fix=say("Write yes for what is ordered, else nothing"),
        )
    return word in _YES


def _share(text: str, per_cent: bool, notes: list[str]) -> float:
    """Germination from 0 to 1: ``85``, ``85 %`` and ``85,5`` are per cent."""
    number, unit = _parted(text)
    if unit not in ("", "%"):
        raise CellError(say("'{text}' is no germination", text=text), fix=say("Write per cent, such as 85"))
    value = _decimal(number)
    if not 0 <= value <= 100:
        raise CellError(
            say("germination {text} is not from 0 to 100 %", text=text), fix=say("Write per cent, such as 85")
        )
    if 0 < value <= 1:
        if not (unit or per_cent):
            what = say(
                "germination {text} may be {number} % or {number_2} %",
                text=text,
                number=number,
                number_2=f"{value * 100:f}",
            )
            raise CellError(what, fix=say("Write it in per cent, such as 85 %"))
        notes.append(say("germination is read as {number} %; 85 % is written 85", number=number))
    return float(value / 100)
