"""Tables as a workbook (XLSX): numbers and dates as such, texts as texts, so that a spreadsheet computes none of them."""

from __future__ import annotations

import datetime as dt
import io
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from planner.listings.widths import width

if TYPE_CHECKING:
    from xlsxwriter.format import Format
    from xlsxwriter.worksheet import Worksheet

#: A spreadsheet's cell holds no more. [characters]
LONGEST_TEXT = 32_767
#: A spreadsheet's name of a table holds no more, and none of these signs.
LONGEST_NAME, NOT_IN_NAMES = 31, "[]:*?/\\"
#: A spreadsheet knows no days before this; they are written as texts.
FIRST_DAY = dt.date(1900, 3, 1)
#: Of columns. [characters]
LEAST_WIDTH, MOST_WIDTH = 8, 60
#: As a workbook's day of making, so that the same table gives the same bytes.
_MADE = dt.datetime(2000, 1, 1)


class Table(NamedTuple):
    """A table: its name, its headings in their order, and its rows with cells by heading.

    Cells are numbers, days, texts, yes or no, lists of texts (joined with semicolons) and None, an empty cell.
    """

    name: str
    columns: Sequence[str]
    rows: Sequence[Mapping[str, object]]


def workbook_bytes(rows: Sequence[Mapping[str, object]], columns: Sequence[str], name: str) -> bytes:
    """Write a table as a workbook of one sheet; see :func:`workbook_of`.

    Parameters
    ----------
    rows : sequence of mappings
        Cells by column.
    columns : sequence of str
        Headings, in their order.
    name : str
        Of the sheet.
    """
    return workbook_of([Table(name, columns, rows)])


def workbook_of(tables: Sequence[Table]) -> bytes:
    """Write tables as a workbook, a sheet each, its row of headings frozen and with filters.

    The same tables give the same bytes.

    Parameters
    ----------
    tables : sequence of Table
        One at least, no two of one name.
    """
    from xlsxwriter import Workbook

    stream = io.BytesIO()
    book = Workbook(stream, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"created": _MADE})
    head = book.add_format({"bold": True, "bottom": 1, "valign": "top"})
    day = book.add_format({"num_format": "yyyy-mm-dd", "align": "left"})
    for table in tables:
        _write_table(book.add_worksheet(_sheet_name(table.name)), table, head, day)
    book.close()
    return stream.getvalue()


def _write_table(sheet: Worksheet, table: Table, head: Format, day: Format) -> None:
    columns = table.columns
    widths = [width(column) + 3 for column in columns]  # with room for the filter's button
    for place, column in enumerate(columns):
        sheet.write_string(0, place, column, head)
    for line, row in enumerate(table.rows, start=1):
        for place, column in enumerate(columns):
            shown = _write(sheet, line, place, row[column], day)
            widths[place] = max(widths[place], shown + 1)
    for place, wide in enumerate(widths):
        sheet.set_column(place, place, min(max(wide, LEAST_WIDTH), MOST_WIDTH))
    sheet.freeze_panes(1, 0)
    if table.rows:
        sheet.autofilter(0, 0, len(table.rows), len(columns) - 1)


def _sheet_name(name: str) -> str:
    """A name that a spreadsheet takes."""
    kept = "".join(sign for sign in _plain(name) if sign not in NOT_IN_NAMES).strip("' ")
    return kept[:LONGEST_NAME] or "table"


def _write(sheet: Worksheet, line: int, place: int, value: Any, day: Format) -> int:
    """Write one cell; the width of what it shows. [characters]"""
    if value is None:
        return 0
    if isinstance(value, bool):
        sheet.write_boolean(line, place, value)
        return len(str(value))
    if isinstance(value, (int, float)):
        sheet.write_number(line, place, value)
        return len(f"{value:g}")
    if isinstance(value, dt.date) and value >= FIRST_DAY:
        sheet.write_datetime(line, place, dt.datetime.combine(value, dt.time()), day)
        return 10
    text = "; ".join(str(part) for part in value) if isinstance(value, (list, tuple)) else str(value)
    text = _plain(text)[:LONGEST_TEXT]
    if not text:
        return 0
    sheet.write_string(line, place, text)
    return max((width(part) for part in text.split("\n")), default=0)


def _plain(text: str) -> str:
    """A text without halves of signs, which no file can hold."""
    return text.encode("utf-8", "replace").decode("utf-8")
