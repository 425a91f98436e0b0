"""Stock as a CSV file: reading one as a preview, row by row, and writing one that reads back the same.

Reading imports nothing: :func:`preview` says of every row what it would become or how to mend it,
and :func:`import_lots` makes the garden with the good rows once that is wished.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal

from planner.crops import Catalogue
from planner.errors import BedwrightError
from planner.garden import Garden, Lot
from planner.garden.edits import EditError, checked, fresh_id
from planner.garden.edits.common import put
from planner.importing.stock_cells import HEADINGS, CellError, heading, row_fields, unguarded

#: Largest file that is read. [bytes]
MOST_BYTES = 5_000_000
MOST_ROWS = 10_000
COLUMNS = ("crop", "variety", "seeds", "grams", "packed", "germination %", "notes")

_SEPARATORS = (",", ";", "\t")
#: What a spreadsheet takes for the beginning of a formula.
_FORMULA = tuple("=+-@|%＝＋－＠")


class StockFileError(BedwrightError):
    """A file that is no table of stock."""


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
        What it would become (its id is given when it is imported); None where it cannot.
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
        As found.
    headings : tuple of str
        As written.
    understood : tuple of str
        What each is taken for; empty for a column that is passed over.
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
        """Rows that would not."""
        return tuple(row for row in self.rows if row.lot is None)


def preview(data: bytes, catalogue: Catalogue, garden: Garden | None = None) -> Preview:
    """What a file would bring, row by row. Changes nothing.

    Parameters
    ----------
    data : bytes
        The file.
    catalogue : Catalogue
    garden : Garden, optional
        To point out lots it has already.

    Raises
    ------
    StockFileError
        When the file is no table, or has no heading for the crop.
    """
    if len(data) > MOST_BYTES:
        raise StockFileError(
            f"the file has {len(data) / 1e6:.0f} MB", mend=f"At most {MOST_BYTES / 1e6:.0f} MB are read"
        )
    text, encoding = _decoded(data)
    if "\0" in text:
        raise StockFileError("the file is no text", mend="Save the table as CSV first")
    first, body = _heading_line(text)
    separator = _separator(first, body)
    records = list(_records(body, separator, lines_before=text[: len(text) - len(body)].count("\n")))
    if not records or isinstance(records[0][1], str):
        what = records[0][1] if records else "the file is empty"
        raise StockFileError(
            str(what), mend="The first line must hold the headings, such as crop, variety, seeds"
        )
    headings = tuple(cell.strip() for cell in records[0][1])
    understood = _understood(headings)
    there = {_content(lot) for lot in garden.stock} if garden is not None else set()
    rows: list[Row] = []
    for line, cells in records[1:]:
        if isinstance(cells, str):
            mend = "Close the quotation mark, or double it inside a text"
            rows.append(Row(line, (), error=cells, mend=mend))
        elif any(cell.strip() for cell in cells):
            rows.append(_row(line, tuple(cells), understood, catalogue, there))
        if len(rows) > MOST_ROWS:
            raise StockFileError(f"the file has more than {MOST_ROWS:,} rows", mend="Divide it")
    return Preview(separator, encoding, headings, understood, tuple(rows))


def import_lots(garden: Garden, found: Preview) -> Garden:
    """The garden with all good rows of a preview added to its stock; the same garden where none is good."""
    first = int(fresh_id(garden, "l")[1:])
    lots = tuple(
        row.lot.with_(id=f"l{number}")
        for number, row in enumerate(found.good, start=first)
        if row.lot is not None
    )
    return put(garden, stock=(*garden.stock, *lots)) if lots else garden


def stock_csv(lots: Iterable[Lot], catalogue: Catalogue) -> str:
    """A table after RFC 4180 that :func:`preview` reads back the same.

    No cell is one a spreadsheet would compute.  Write it as UTF-8.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for lot in lots:
        crop = catalogue.get(lot.crop)
        name = crop.name if crop is not None and catalogue.named(crop.name) is crop else lot.crop
        writer.writerow(
            (
                _guarded(name),
                _guarded(lot.variety),
                "" if lot.seeds is None else lot.seeds,
                "" if lot.grams is None else _plain(Decimal(repr(lot.grams))),
                "" if lot.packed is None else lot.packed,
                "" if lot.germination is None else _plain(Decimal(repr(lot.germination)) * 100),
                _guarded(lot.notes),
            )
        )
    return text.getvalue()


def _plain(number: Decimal) -> str:
    text = f"{number:f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def _guarded(text: str) -> str:
    """A text no spreadsheet computes: an apostrophe before what may be a formula, or is one."""
    begins = text.lstrip().startswith(_FORMULA) or text.startswith(("\t", "\r", "\n", "'"))
    return f"'{text}" if begins else text


# -- reading -----------------------------------------------------------------------------------


def _decoded(data: bytes) -> tuple[str, str]:
    marks = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))
    for mark, encoding in marks:
        if data.startswith(mark):
            try:
                return data.decode(encoding), encoding
            except UnicodeDecodeError:
                break
    for encoding in ("utf-8", "cp1252"):
        try:
            return data.decode(encoding), encoding
        except UnicodeDecodeError:
            continue
    return data.decode("latin-1"), "latin-1"


def _heading_line(text: str) -> tuple[str, str]:
    """A separator a first line ``sep=;`` names (else empty), and the text from the headings on."""
    line, _, rest = text.partition("\n")
    if line.strip().casefold().startswith("sep=") and line.strip()[4:5] in (";", ","):
        return line.strip()[4], rest
    if line.rstrip("\r").casefold() == "sep=\t":
        return "\t", rest
    return "", text


def _separator(named: str, body: str) -> str:
    """The separator that makes most known headings of the first line; a comma where none does."""
    if named:
        return named
    line = next((line for line in body.splitlines() if line.strip()), "")

    def known(separator: str) -> int:
        try:
            cells = next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])
        except csv.Error:
            return 0
        return sum(bool(heading(cell)) for cell in cells)

    return max(_SEPARATORS, key=known)


def _records(body: str, separator: str, lines_before: int) -> Iterator[tuple[int, list[str] | str]]:
    """Line and cells of each record; the words of the fault, and nothing after it, where one is broken."""
    head = body.lstrip().partition("\n")[0]  # a space after each separator is no part of the texts then
    reader = csv.reader(
        io.StringIO(body, newline=""),
        delimiter=separator,
        strict=True,
        skipinitialspace=f"{separator} " in head,
    )
    while True:
        line = reader.line_num + 1 + lines_before
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error:
            yield line, "a quotation mark is not closed, or stands inside a text; nothing after it was read"
            return
        if cells:
            yield line, cells


def _understood(headings: tuple[str, ...]) -> tuple[str, ...]:
    understood = tuple(heading(text) for text in headings)
    known = [word for word in understood if word]
    for word in known:
        if known.count(word) > 1:
            given = " and ".join(f"'{h}'" for h, w in zip(headings, understood, strict=True) if w == word)
            raise StockFileError(f"{given} both mean {word}", "line 1", "Keep one of them")
    if "crop" not in known:
        names = ", ".join(HEADINGS)
        raise StockFileError("no column is headed 'crop'", "line 1", f"Columns may be: {names}")
    return understood


def _row(
    line: int, cells: tuple[str, ...], understood: tuple[str, ...], catalogue: Catalogue, there: set[object]
) -> Row:
    if any(cell.strip() for cell in cells[len(understood) :]):
        error = f"{len(cells)} cells under {len(understood)} headings"
        return Row(
            line, cells, error=error, mend="Put a text that holds the separator between quotation marks"
        )
    given = {
        word: unguarded(cell.strip() if word != "notes" else cell)
        for word, cell in zip(understood, cells, strict=False)
        if word
    }
    try:
        fields, notes = row_fields(given, catalogue)
        lot = checked(lambda: Lot(id="new", **fields), "")
    except CellError as fault:
        return Row(line, cells, error=fault.what, mend=fault.mend)
    except EditError as fault:
        return Row(line, cells, error=fault.what, mend=fault.mend or "Change the cell")
    if _content(lot) in there:
        notes = [*notes, "there is such a lot already; it would stand there twice"]
    return Row(line, cells, lot, notes=tuple(notes))


def _content(lot: Lot) -> object:
    return (lot.crop, lot.variety.casefold(), lot.seeds, lot.grams, lot.packed, lot.germination)
