"""Reading a table of varieties: a preview row by row first, the import afterwards.

A row is a variety: its crop, its name, and any figures and words of the crop's page, each in a column of its own.
Reading changes nothing: :func:`preview` gives for every row the variety it would become, or what is wrong and how to mend
it; :func:`import_varieties` makes the garden with the good rows.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from planner.crops import Catalogue
from planner.crops.search import plain
from planner.errors import BedwrightError
from planner.garden import Garden, OwnFigure, OwnWord, edits
from planner.garden.site import UnitSystem
from planner.garden.varieties import OWN_FIELDS, OWN_WORDS
from planner.importing.delimited_text import Record
from planner.importing.own_figures import read_own_figure, read_own_word, source_named
from planner.importing.stock_cells import CellError, crop_of_cell, unguarded
from planner.importing.table_text import (
    QUOTES,
    TableError,
    rows_below,
    table_records,
    too_many_cells,
)
from planner.listings.figure_words import FIELD_NAMES
from planner.words import join_list, say

#: Most rows that are read.
MOST_ROWS = 5_000

#: Headings of columns that are no figure, and of figures that are often called by another name.
HEADINGS: dict[str, tuple[str, ...]] = {
    "crop": ("crop", "plant", "vegetable", "kind", "species"),
    "name": ("variety", "name", "cultivar", "sort", "cv"),
    "notes": ("notes", "note", "remarks", "remark", "comment", "comments", "description"),
    "source": ("source", "from", "catalogue", "supplier", "reference"),
    "days_to_maturity": ("days", "days to harvest", "maturity", "dtm"),
    "in_row_spacing": ("spacing", "plant spacing", "in_row", "plant distance", "apart"),
    "row_spacing": ("between rows", "row distance", "rows apart"),
    "sowing_depth": ("depth", "sow depth"),
    "seeds_per_gram": ("seeds g", "seeds per g", "seeds to the gram"),
    "germination": ("germination percent", "germ"),
    "yield_per_plant": ("yield", "yield kg"),
}
#: Units that a heading may name, with what is put behind a bare number of the column.
_UNITS = {
    "m": "m", "cm": "cm", "mm": "mm", "in": "in", "inch": "in", "inches": "in", "ft": "ft", "feet": "ft", "%": "%",
    "percent": "%", "c": "°C", "°c": "°C", "f": "°F", "°f": "°F", "days": "", "weeks": "", "years": "", "h": "", "hours": "",
    "kg": "", "g": "",
}  # fmt: skip
_FIELDS = {plain(field.replace("_", " ")): field for field in (*OWN_FIELDS, *OWN_WORDS)}
_FIELDS |= {plain(name): field for field, name in FIELD_NAMES.items() if field in (*OWN_FIELDS, *OWN_WORDS)}
_FIELDS |= {plain(name): field for field, names in HEADINGS.items() for name in names}


VarietyFileError = TableError


@dataclass(frozen=True)
class Heading:
    """What a column is understood as.

    Attributes
    ----------
    text : str
        As written.
    field : str
        A field of a variety or of a crop; ``source``; empty for one that is passed over.
    unit : str
        Put behind numbers without a unit.
    """

    text: str
    field: str
    unit: str


@dataclass(frozen=True)
class Row:
    """One row of the file.

    Attributes
    ----------
    line : int
        Line of the file it begins on, from 1.
    cells : tuple of str
        As written.
    fields : mapping or None
        Fields of the variety it would become; None for a bad row.
    source : str
        Title of the source of its figures.
    error, mend : str
        What is wrong, and what to do; empty for a good row.
    notes : tuple of str
        How a cell was understood, and whether the garden has the variety already.
    """

    line: int
    cells: tuple[str, ...]
    fields: Mapping[str, Any] | None = None
    source: str = ""
    error: str = ""
    mend: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Preview:
    """What an import would do; rows in the file's order, empty ones left out."""

    headings: tuple[Heading, ...]
    rows: tuple[Row, ...]

    @property
    def good(self) -> tuple[Row, ...]:
        """Rows that would be imported."""
        return tuple(row for row in self.rows if row.fields is not None)

    @property
    def number(self) -> int:
        """How many varieties the good rows make; one that stands there twice counts once."""
        names = {
            (row.fields["crop"], row.fields["name"].casefold()) for row in self.rows if row.fields is not None
        }
        return len(names)

    @property
    def passed_over(self) -> tuple[str, ...]:
        """Headings that mean no figure."""
        return tuple(one.text for one in self.headings if not one.field and one.text)


def heading_of(text: str) -> Heading:
    """What a heading means, with the unit that it names.

    Examples
    --------
    >>> heading_of("Height (cm)"), heading_of("days to maturity").field
    (Heading(text='Height (cm)', field='height', unit='cm'), 'days_to_maturity')
    """
    bare, unit = text.strip(), ""
    match = re.fullmatch(r"(.+?)[\s_]*[\[(,]?\s*([^\s()\[\],_]+)\s*[\])]?", bare)
    whole = _FIELDS.get(plain(bare.replace("_", " ")), "") if "%" not in bare else ""
    if not whole and match is not None and match[2].casefold() in _UNITS:
        bare, unit = match[1], _UNITS[match[2].casefold()]
    return Heading(text.strip(), whole or _FIELDS.get(plain(bare.replace("_", " ")), ""), unit)


def preview(data: bytes, catalogue: Catalogue, garden: Garden) -> Preview:
    """Read a table of varieties, row by row, without changing anything.

    Parameters
    ----------
    data : bytes
        Content of the file.
    catalogue : Catalogue
        For the names of crops.
    garden : Garden
        For its units, and to point out varieties that it has already.

    Raises
    ------
    VarietyFileError
        When the file is too large, is no table, or has no headings for crop and variety.
    """
    _, _, found = table_records(
        data, lambda cell: bool(heading_of(cell).field), "crop, variety, days to maturity"
    )
    headings = _understood(found[0])
    seen = {(own.crop, own.name.casefold()): 0 for own in garden.varieties}
    rows = [
        Row(record.line, (), error=record.fault, mend=say(QUOTES))
        if record.fault
        else _row(record, headings, catalogue, garden.site.units, seen)
        for record in rows_below(found, MOST_ROWS)
    ]
    return Preview(headings, tuple(rows))


def import_varieties(garden: Garden, found: Preview) -> Garden:
    """Add all good rows of a preview to a garden's own varieties; the very same garden where no row is good.

    A variety that the garden has already takes the figures of the row over its own.
    """
    for row in found.good:
        assert row.fields is not None
        garden, key = source_named(garden, row.source)
        fields = dict(row.fields)
        for name in ("figures", "words"):
            fields[name] = tuple(own.with_(source=key) for own in fields[name])
        old = next(
            (
                own
                for own in garden.varieties
                if (own.crop, own.name.casefold()) == (fields["crop"], fields["name"].casefold())
            ),
            None,
        )
        if old is not None:
            for name in ("figures", "words"):
                new = {own.field for own in fields[name]}
                fields[name] = (*(own for own in getattr(old, name) if own.field not in new), *fields[name])
            fields["notes"] = "\n".join(dict.fromkeys(text for text in (old.notes, fields["notes"]) if text))
        garden, _ = edits.put_variety(garden, old.id if old is not None else None, **fields)
    return garden


def _understood(record: Record) -> tuple[Heading, ...]:
    headings = tuple(heading_of(cell) for cell in record.cells)
    fields = [one.field for one in headings if one.field]
    for field in fields:
        if fields.count(field) > 1:
            given = join_list([f"'{one.text}'" for one in headings if one.field == field])
            raise VarietyFileError(
                say("{given} both mean {field}", given=given, field=field), "line 1", say("Keep one of them")
            )
    for needed, shown in (("crop", "crop"), ("name", "variety")):
        if needed not in fields:
            raise VarietyFileError(
                say("no column is headed '{shown}'", shown=shown),
                "line 1",
                say("Columns may be: crop, variety, and fields of a crop"),
            )
    return headings


def _row(
    record: Record,
    headings: tuple[Heading, ...],
    catalogue: Catalogue,
    units: UnitSystem,
    seen: dict[tuple[str, str], int],
) -> Row:
    line, cells = record.line, record.cells
    if (wrong := too_many_cells(record, len(headings))) is not None:
        return Row(line, cells, error=wrong[0], mend=wrong[1])
    notes: list[str] = []
    given = {
        one: unguarded(cell.strip())
        for one, cell in zip(headings, cells, strict=False)
        if one.field and cell.strip()
    }
    plain_cells = {one.field: text for one, text in given.items()}
    try:
        fields: dict[str, Any] = {"crop": crop_of_cell(plain_cells.get("crop", ""), catalogue, notes)}
        fields["name"] = plain_cells.get("name", "")
        if not fields["name"]:
            raise CellError(say("no variety is named"), fix=say("Write its name"))
        fields["notes"] = plain_cells.get("notes", "")
        figures, words = _told(given, units)
    except BedwrightError as fault:
        where = f"{fault.where}: " if fault.where else ""
        return Row(line, cells, error=f"{where}{fault.what}", mend=fault.fix or say("Change the cell"))
    known = (fields["crop"], fields["name"].casefold())
    if seen.get(known) == 0:
        notes.append(say("it is in the garden already; these figures take the place of its own"))
    elif known in seen:
        notes.append(say("it stands in line {line} already; both make one variety", line=seen[known]))
    seen.setdefault(known, line)
    fields |= {"figures": figures, "words": words}
    return Row(line, cells, fields, plain_cells.get("source", ""), notes=tuple(notes))


def _told(
    given: Mapping[Heading, str], units: UnitSystem
) -> tuple[tuple[OwnFigure, ...], tuple[OwnWord, ...]]:
    """The figures and words of a row."""
    figures, words = [], []
    for one, text in given.items():
        try:
            if one.field in OWN_FIELDS:
                figures.append(read_own_figure(one.field, _with_unit(text, one), units, where=one.text))
            elif one.field in OWN_WORDS:
                words.append(read_own_word(one.field, text, where=one.text))
        except BedwrightError as error:
            raise type(error)(error.what, error.where or one.text, error.fix) from None
    return tuple(figures), tuple(words)


def _with_unit(text: str, heading: Heading) -> str:
    """A number or range with the unit of its heading, where it has none of its own."""
    if not heading.unit or not re.fullmatch(r"[\d.,\s()–—…-]+|[\d.,\s]+to[\d.,\s]+", text):
        return _dashed(text)
    return re.sub(r"\d+(?:[.,]\d+)?", lambda match: f"{match[0]} {heading.unit}", _dashed(text))


def _dashed(text: str) -> str:
    """A range written with a hyphen between two numbers, with the word instead: a hyphen may be a minus."""
    return re.sub(r"(?<=\d)\s*-\s*(?=\d)", " to ", text)
