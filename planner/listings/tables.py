"""Tables as CSV that no spreadsheet computes, and as text in aligned columns."""

from __future__ import annotations

import csv
import io
import re
import unicodedata
from collections.abc import Collection, Mapping, Sequence

#: A text that begins with one of these is a formula to a spreadsheet.
FORMULA_SIGNS = tuple("=+-@|%＝＋－＠")
_SIGNS = re.escape("".join(FORMULA_SIGNS))
_INNER_FORMULA = re.compile(rf"([;\t\r\n]\s*)('*)(?=[{_SIGNS}])")
_GUARDED_INNER_FORMULA = re.compile(rf"([;\t\r\n]\s*)'('*)(?=[{_SIGNS}])")


def csv_text(rows: Sequence[Mapping[str, object]], columns: Sequence[str]) -> str:
    """Write a table after RFC 4180: a line of headings, commas, CR LF; no cell a spreadsheet would compute.

    Parameters
    ----------
    rows : sequence of mappings
        Cells by column. Lists are joined with semicolons; None is an empty cell.
    columns : sequence of str
        Headings, in their order.
    """
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    for row in rows:
        writer.writerow([_cell(row[column]) for column in columns])
    return text.getvalue()


def _cell(value: object) -> object:
    if isinstance(value, (list, tuple)):
        value = "; ".join(str(part) for part in value)
    return safe_text(value) if isinstance(value, str) else value


def safe_text(text: str) -> str:
    """A text that a spreadsheet shows as it is: with an apostrophe before what might be a formula.

    A spreadsheet that separates cells by semicolons or tabs finds further cells within a text; what might be a formula there
    gets one too.
    """
    inner = _INNER_FORMULA.sub(r"\1'\2", text)
    begins = text.lstrip().startswith(FORMULA_SIGNS) or text.startswith(("\t", "\r", "\n"))
    return f"'{inner}" if begins else inner


def without_inner_guards(text: str) -> str:
    """Take away the apostrophes that :func:`safe_text` has put into the middle of a text."""
    return _GUARDED_INNER_FORMULA.sub(r"\1\2", text)


def aligned(
    headers: Sequence[str], rows: Sequence[Sequence[str]], right: Collection[int] = (), indent: str = "  "
) -> list[str]:
    """Set a table in columns as wide as their widest cell, a line a row, the headings first.

    Parameters
    ----------
    headers : sequence of str
        A heading of several lines stands with its last line just above its column.
    rows : sequence of sequences of str
        Each as long as ``headers``.
    right : collection of int
        Columns that are set to the right, counted from 0.
    indent : str
        Set before each line.
    """
    heads = [header.split("\n") for header in headers]
    tall = max(map(len, heads), default=1)
    above = [[""] * (tall - len(lines)) + lines for lines in heads]
    table = [*map(list, zip(*above, strict=True)), *map(list, rows)]
    widths = [max(width(row[column]) for row in table) for column in range(len(headers))]
    lines = []
    for row in table:
        cells = []
        for column, text in enumerate(row):
            space = " " * (widths[column] - width(text))
            cells.append(space + text if column in right else text + space)
        lines.append((indent + "  ".join(cells)).rstrip())
    return lines


def width(text: str) -> int:
    """Columns a text takes on a terminal: marks none, wide signs two."""
    total = 0
    for sign in text:
        if unicodedata.combining(sign) or unicodedata.category(sign) in ("Cf", "Me", "Mn"):
            continue
        total += 2 if unicodedata.east_asian_width(sign) in ("W", "F") else 1
    return total
