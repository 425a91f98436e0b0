"""The columns of a table of beds and plantings: what headings mean, and the units that they name."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.crops.search import plain
from planner.importing.table_text import TableError
from planner.words import join_list, say

#: Columns, each with the headings that mean it, in English and in German.  Accents, capitals and signs do not matter.
HEADINGS: dict[str, tuple[str, ...]] = {
    "bed": ("bed", "bed name", "beds", "plot", "box", "where", "beet", "beetname", "parzelle", "kasten"),
    "length": ("length", "long", "bed length", "länge", "laenge", "beetlänge"),
    "width": ("width", "wide", "bed width", "breite", "beetbreite"),
    "x": ("x", "middle x", "easting", "across"),
    "y": ("y", "middle y", "northing", "up"),
    "turn": ("turn", "turned", "angle", "drehung", "winkel"),
    "bed kind": ("bed kind", "kind of bed", "bed type", "beetart", "art des beets"),
    "crop": ("crop", "crops", "plant", "vegetable", "species", "what", "kultur", "gemüse", "pflanze", "gemüseart"),
    "variety": ("variety", "varieties", "cultivar", "sort", "cv", "sorte"),
    "year": ("year", "growing year", "season", "jahr", "anbaujahr"),
    "start": ("start", "how started", "way", "method", "anbau", "anzucht"),
    "sown": (
        "sown", "sow", "sowing", "sown on", "sow date", "date sown", "sowing date",
        "gesät", "aussaat", "saat", "aussaat am", "saatdatum", "aussaatdatum",
    ),
    "set out": (
        "set out", "planted", "planted out", "transplanted", "planting date", "date planted", "set out on",
        "plant out", "planting out", "transplant", "transplant date", "gepflanzt", "pflanzung", "auspflanzung", "pflanzdatum",
        "gepflanzt am",
    ),
    "first harvest": (
        "first harvest", "harvest", "harvested", "harvest from", "first picked", "ernte", "ernte ab", "erste ernte", "erntebeginn",
    ),
    "last": ("last", "until", "cleared", "removed", "last day", "end", "geräumt", "räumung", "ernteende"),
    "from": ("from", "from along", "begins at", "von"),
    "to": ("to", "to along", "ends at", "bis"),
    "spacing": (
        "spacing", "in row spacing", "plant spacing", "apart", "abstand", "pflanzabstand", "abstand in der reihe",
    ),
    "row spacing": ("row spacing", "rows apart", "between rows", "reihenabstand"),
    "rows": ("rows", "number of rows", "reihen", "anzahl reihen", "reihenzahl"),
    "tended by": ("tended by", "who", "person", "wer", "betreut von"),
    "notes": ("notes", "note", "remarks", "remark", "comment", "comments", "notiz", "notizen", "bemerkung", "bemerkungen"),
}  # fmt: skip
_OF_HEADING = {plain(name): column for column, names in HEADINGS.items() for name in names}
#: Columns whose numbers are lengths; of those in the second, a number without a unit is small (cm, inches).
LENGTHS = ("length", "width", "x", "y", "from", "to")
SMALL_LENGTHS = ("spacing", "row spacing")
#: Units that a heading may name, each with its words.
_UNITS = {
    "mm": "mm", "cm": "cm", "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "ft": "ft", "foot": "ft", "feet": "ft", "fuss": "ft", "in": "in", "inch": "in", "inches": "in", "zoll": "in",
}  # fmt: skip
#: A heading and the word at its end, with or without brackets; "in cm" too.
_WITH_UNIT = re.compile(r"(.+?)(?:[\s_,(\[]+in(?=[\s_]))?[\s_,(\[]*([^\W\d_]+)\s*[\])]?")


@dataclass(frozen=True)
class Column:
    """A heading as written, the column that it means (empty for one that is passed over), and the unit that it names."""

    text: str
    means: str = ""
    unit: str = ""


def column_of(text: str) -> Column:
    """What a heading means.

    Examples
    --------
    >>> column_of("Length (cm)"), column_of("Planted out"), column_of("Colour").means
    (Column(text='Length (cm)', means='length', unit='cm'), Column(text='Planted out', means='set out', unit=''), '')
    """
    bare = text.strip()
    match = _WITH_UNIT.fullmatch(bare)
    means = _OF_HEADING.get(plain(bare), "")
    if not means and match is not None and match[2].casefold() in _UNITS:
        means = _OF_HEADING.get(plain(match[1]), "")
    return _taken_for(bare, means)


def _taken_for(text: str, means: str) -> Column:
    """A heading taken for a column, with the unit at its end where that is a length."""
    match = _WITH_UNIT.fullmatch(text.strip()) if means in (*LENGTHS, *SMALL_LENGTHS) else None
    unit = _UNITS.get(match[2].casefold(), "") if match is not None else ""
    return Column(text.strip(), means, unit)


def chosen_columns(headings: Sequence[str], choice: Mapping[str, str]) -> tuple[Column, ...]:
    """What the headings of a table mean: as chosen, else as their words say.

    Parameters
    ----------
    headings : sequence of str
    choice : mapping of str to str
        Columns by heading, capitals aside; an empty column passes its heading over.

    Raises
    ------
    TableError
        For a choice of a heading or column that there is not, two headings that mean the same, and a table
        without beds.
    """
    wanted = {heading.strip().casefold(): means.strip().casefold() for heading, means in choice.items()}
    known = [heading.strip().casefold() for heading in headings]
    for heading, means in wanted.items():
        if heading not in known:
            names = join_list(text.strip() for text in headings if text.strip())
            raise TableError(
                say("no heading is '{name}'", name=heading), fix=say("Headings are {names}", names=names)
            )
        if means and means not in HEADINGS:
            raise TableError(
                say("there is no column '{name}' to choose", name=means),
                fix=say("Columns are {names}", names=join_list(HEADINGS)),
            )
    columns = []
    for text in headings:
        key = text.strip().casefold()
        columns.append(_taken_for(text, wanted[key]) if key in wanted else column_of(text))
    meant = [column.means for column in columns if column.means]
    for means in meant:
        if meant.count(means) > 1:
            texts = join_list(column.text for column in columns if column.means == means)
            raise TableError(
                say("{headings} mean the same: {column}", headings=texts, column=means),
                fix=say("Choose what each of them means, or pass one over"),
            )
    if "bed" not in meant:
        raise TableError(
            say("no heading means the bed"),
            fix=say("Head a column with bed, or choose the one that names the bed"),
        )
    return tuple(columns)
