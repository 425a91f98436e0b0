"""The columns of a table of beds and plantings: what headings mean, and the units that they name."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from planner.crops.search import plain
from planner.importing.table_text import TableError
from planner.words import join_list, say

#: Columns, each with the headings that mean it.  Accents, capitals and signs do not matter.
HEADINGS: dict[str, tuple[str, ...]] = {
    "bed": ("bed", "bed name", "beds", "plot", "box", "where"),
    "length": ("length", "long", "bed length"),
    "width": ("width", "wide", "bed width"),
    "x": ("x", "middle x", "easting", "across"),
    "y": ("y", "middle y", "northing", "up"),
    "turn": ("turn", "turned", "angle"),
    "bed kind": ("bed kind", "kind of bed", "bed type"),
    "crop": ("crop", "crops", "plant", "vegetable", "species", "what"),
    "variety": ("variety", "varieties", "cultivar", "sort", "cv"),
    "year": ("year", "growing year", "season"),
    "start": ("start", "how started", "way", "method"),
    "sown": ("sown", "sow", "sowing", "sown on", "sow date", "date sown", "sowing date"),
    "set out": (
        "set out",
        "planted",
        "planted out",
        "transplanted",
        "planting date",
        "date planted",
        "set out on",
    ),
    "first harvest": ("first harvest", "harvest", "harvested", "harvest from", "first picked"),
    "last": ("last", "until", "cleared", "removed", "last day", "end"),
    "from": ("from", "from along", "begins at"),
    "to": ("to", "to along", "ends at"),
    "spacing": ("spacing", "in row spacing", "plant spacing", "apart"),
    "row spacing": ("row spacing", "rows apart", "between rows"),
    "rows": ("rows", "number of rows"),
    "tended by": ("tended by", "who", "person"),
    "notes": ("notes", "note", "remarks", "remark", "comment", "comments"),
}
_OF_HEADING = {plain(name): column for column, names in HEADINGS.items() for name in names}
#: Columns whose numbers are lengths; of those in the second, a number without a unit is small (cm, inches).
LENGTHS = ("length", "width", "x", "y", "from", "to")
SMALL_LENGTHS = ("spacing", "row spacing")
#: Units that a heading may name.
_UNITS = ("mm", "cm", "m", "ft", "in")


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
    bare, unit = text.strip(), ""
    match = re.fullmatch(r"(.+?)[\s_]*[\[(,]?\s*([^\W\d_]+)\s*[\])]?", bare)
    means = _OF_HEADING.get(plain(bare), "")
    if not means and match is not None and match[2].casefold() in _UNITS:
        means, unit = _OF_HEADING.get(plain(match[1]), ""), match[2].casefold()
    if means not in (*LENGTHS, *SMALL_LENGTHS):
        unit = ""
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
        found = column_of(text)
        key = text.strip().casefold()
        columns.append(Column(found.text, wanted[key], found.unit) if key in wanted else found)
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
