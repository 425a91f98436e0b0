"""Reading a table of stock: a preview row by row first, the import afterwards.

Reading changes nothing: :func:`preview` gives for every row the lot it would become, or what is wrong
and how to mend it; :func:`import_lots` makes the garden with the good rows.
"""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, field

from planner.crops import Catalogue
from planner.garden import Garden, Lot
from planner.garden.edits import EditError, checked, fresh_id
from planner.garden.edits.common import put
from planner.importing.delimited_text import Record
from planner.importing.stock_cells import HEADINGS, CellError, heading, row_fields, unguarded
from planner.importing.table_text import (
    QUOTES,
    TableError,
    rows_below,
    table_records,
    too_many_cells,
)
from planner.words import say

#: Most rows that are read.
MOST_ROWS = 10_000


StockFileError = TableError


@dataclass(frozen=True)
class Row:
    """One row of the file.

    Attributes
    ----------
    line : int
        Line of the file it begins on, from 1.
    cells : tuple of str
        As written.
    lot : Lot or None
        The lot it would become, its id given at the import; None for a bad row.
    error, mend : str
        What is wrong, and what to do; empty for a good row.
    notes : tuple of str
        How a cell was understood, where that may not be what was meant.
    """

    line: int
    cells: tuple[str, ...]
    lot: Lot | None = None
    error: str = ""
    mend: str = ""
    notes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Preview:
    """What an import would do.

    Attributes
    ----------
    separator, encoding : str
        As found in the file.
    headings : tuple of str
        As written.
    understood : tuple of str
        The column that each heading means; empty for one that is passed over.
    rows : tuple of Row
        In the file's order; empty rows are left out.
    """

    separator: str
    encoding: str
    headings: tuple[str, ...]
    understood: tuple[str, ...]
    rows: tuple[Row, ...] = field(default=())

    @property
    def good(self) -> tuple[Row, ...]:
        """Rows that would be imported."""
        return tuple(row for row in self.rows if row.lot is not None)

    @property
    def bad(self) -> tuple[Row, ...]:
        """Rows that would not be imported."""
        return tuple(row for row in self.rows if row.lot is None)


def preview(data: bytes, catalogue: Catalogue, garden: Garden | None = None) -> Preview:
    """Read a table of stock, row by row, without changing anything.

    Parameters
    ----------
    data : bytes
        Content of the file.
    catalogue : Catalogue
        For the names of crops.
    garden : Garden, optional
        To point out lots it has already.

    Raises
    ------
    StockFileError
        When the file is too large, is no table, or has no heading for the crop.
    """
    separator, encoding, found = table_records(data, lambda cell: bool(heading(cell)), "crop, variety, seeds")
    headings = tuple(cell.strip() for cell in found[0].cells)
    understood = _understood(headings)
    present = {_content(lot) for lot in garden.stock} if garden is not None else set()
    rows = [
        Row(record.line, (), error=record.fault, mend=say(QUOTES))
        if record.fault
        else _row(record, understood, catalogue, present)
        for record in rows_below(found, MOST_ROWS)
    ]
    return Preview(separator, encoding, headings, understood, tuple(rows))


def import_lots(garden: Garden, found: Preview) -> Garden:
    """Add all good rows of a preview to a garden's stock.

    Parameters
    ----------
    garden : Garden
    found : Preview

    Returns
    -------
    Garden
        The very same garden where no row is good.
    """
    first = int(fresh_id(garden, "l")[1:])
    lots = tuple(
        row.lot.with_(id=f"l{number}")
        for number, row in enumerate(found.good, start=first)
        if row.lot is not None
    )
    return put(garden, stock=(*garden.stock, *lots)) if lots else garden


def _understood(headings: tuple[str, ...]) -> tuple[str, ...]:
    """The column each heading means; empty for one that means none."""
    understood = tuple(heading(text) for text in headings)
    columns = [word for word in understood if word]
    for word in columns:
        if columns.count(word) > 1:
            given = " and ".join(f"'{h}'" for h, w in zip(headings, understood, strict=True) if w == word)
            raise StockFileError(
                say("{given} both mean {word}", given=given, word=word), "line 1", say("Keep one of them")
            )
    if "crop" not in columns:
        names = ", ".join(HEADINGS)
        raise StockFileError(
            say("no column is headed 'crop'"), "line 1", say("Columns may be: {names}", names=names)
        )
    return understood


def _row(
    record: Record, understood: tuple[str, ...], catalogue: Catalogue, present: Collection[object]
) -> Row:
    line, cells = record.line, record.cells
    if (wrong := too_many_cells(record, len(understood))) is not None:
        return Row(line, cells, error=wrong[0], mend=wrong[1])
    given = {
        word: unguarded(cell.strip() if word != "notes" else cell)
        for word, cell in zip(understood, cells, strict=False)
        if word
    }
    try:
        fields, notes = row_fields(given, catalogue)
        lot = checked(lambda: Lot(id="new", **fields), "")
    except CellError as fault:
        return Row(line, cells, error=fault.what, mend=fault.fix)
    except EditError as fault:
        return Row(line, cells, error=fault.what, mend=fault.fix or say("Change the cell"))
    if _content(lot) in present:
        notes = [*notes, say("there is such a lot already; it would stand there twice")]
    return Row(line, cells, lot, notes=tuple(notes))


def _content(lot: Lot) -> object:
    """What tells one lot from another, apart from its id and its notes."""
    return (lot.crop, lot.variety.casefold(), lot.seeds, lot.grams, lot.packed, lot.germination, lot.ordered)
