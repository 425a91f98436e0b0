"""The rows of a sheet of a workbook (XLSX), as text: the same records as of a CSV file.

openpyxl reads workbooks; it is installed by choice (``pip install bedwright[workbooks]``).
"""

from __future__ import annotations

import datetime as dt
import io
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from planner.importing.delimited_text import Record
from planner.importing.table_text import MOST_BYTES, TableError
from planner.words import join_list, say

#: Most bytes that a workbook may unpack to, and most columns that are read.
MOST_UNPACKED, MOST_COLUMNS = 100_000_000, 200
#: Most rows that are read, empty ones included.
MOST_ROWS = 100_000
#: How a workbook begins.
_ZIP = b"PK\x03\x04"


def is_workbook(data: bytes) -> bool:
    """Whether a file is a workbook, or at least packed like one."""
    return data.startswith(_ZIP)


def workbook_records(data: bytes, sheet: str = "") -> tuple[str, list[Record]]:
    """Name and records of a sheet; the first record that holds anything is the headings.

    Parameters
    ----------
    data : bytes
        Content of the file.
    sheet : str
        Name of the sheet, capitals aside; the first where empty.

    Raises
    ------
    TableError
        Where it is too large, is no workbook, has no such sheet, or openpyxl is missing.
    """
    with _opened(data) as book:
        names = [str(name) for name in book.sheetnames]
        found = [name for name in names if name.casefold() == sheet.strip().casefold()] if sheet else names
        if not found:
            raise TableError(
                say("the workbook has no sheet '{name}'", name=sheet),
                fix=say("Its sheets are {names}", names=join_list(names)),
            )
        return found[0], list(_records(book[found[0]]))


def workbook_sheets(data: bytes) -> tuple[str, ...]:
    """Names of the sheets of a workbook, in their order.

    Parameters
    ----------
    data : bytes

    Raises
    ------
    TableError
        Where it is too large, is no workbook, or openpyxl is missing.
    """
    with _opened(data) as book:
        return tuple(str(name) for name in book.sheetnames)


@contextmanager
def _opened(data: bytes) -> Iterator[Any]:
    """A workbook while it is read; whatever is broken in it is one error."""
    try:
        import openpyxl
    except ImportError:
        raise TableError(
            say("workbooks are read by openpyxl, which is not installed"),
            fix=say("Install it with pip install openpyxl, or save the sheet as CSV"),
        ) from None
    if len(data) > MOST_BYTES or _unpacked(data) > MOST_UNPACKED:
        raise TableError(say("the workbook is too large"), fix=say("Save the sheet as CSV, or divide it"))
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, data_only=True)
    except Exception as error:  # broken files raise whatever the part that is broken raises
        raise _no_workbook() from error
    try:
        yield book
    except TableError:
        raise
    except Exception as error:
        raise _no_workbook() from error
    finally:
        book.close()


def _no_workbook() -> TableError:
    return TableError(
        say("the file is no workbook that can be read"), fix=say("Save it as XLSX or CSV first")
    )


def _unpacked(data: bytes) -> int:
    """What a packed file says that it unpacks to. [bytes]"""
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as packed:
            return sum(part.file_size for part in packed.infolist())
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError) as error:
        raise _no_workbook() from error


def _records(sheet: Any) -> Iterator[Record]:
    begun = False
    for line, cells in enumerate(sheet.iter_rows(values_only=True, max_col=MOST_COLUMNS), 1):
        if line > MOST_ROWS:
            raise TableError(say("the workbook is too large"), fix=say("Save the sheet as CSV, or divide it"))
        texts = [_text(cell) for cell in cells]
        while texts and not texts[-1]:
            texts.pop()
        if texts or begun:
            begun = True
            yield Record(line, tuple(texts))


def _text(cell: object) -> str:
    """A cell as it would be typed; days as 2026-03-31, whole numbers without decimals."""
    if cell is None:
        return ""
    if isinstance(cell, dt.datetime):
        return cell.date().isoformat()
    if isinstance(cell, bool):
        return "yes" if cell else "no"
    if isinstance(cell, float):
        return f"{cell:.12g}"
    return str(cell).strip()
