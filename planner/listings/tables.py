"""Tables as CSV that no spreadsheet computes, and as text in aligned columns."""

from __future__ import annotations

import csv
import io
from collections.abc import Collection, Mapping, Sequence

from planner.listings.fitting import broken
from planner.listings.formulas import safe_text
from planner.listings.widths import width

#: Between columns.
_GAP = "  "
#: A word up to this width stays whole. [columns]
_LONGEST_WHOLE = 14


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


def aligned(
    headers: Sequence[str],
    rows: Sequence[Sequence[str]],
    right: Collection[int] = (),
    indent: str = "  ",
    room: int | None = None,
) -> list[str]:
    """Set a table in columns as wide as their widest cell, a line a row, the headings first.

    Where that is wider than the room, headings and cells of words are broken into several lines, the widest column
    first.

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
    room : int, optional
        Width of the lines; any by default. [columns]
    """
    heads = [header.split("\n") for header in headers]
    table = [[[cell] for cell in row] for row in rows]
    widths = [max(map(width, (*head, *(row[i][0] for row in table)))) for i, head in enumerate(heads)]
    if room is not None:
        least = [
            _least(heads[i], [row[i][0] for row in table], words=i not in right) for i in range(len(heads))
        ]
        _narrow(widths, least, room - len(indent) - len(_GAP) * (len(heads) - 1))
        heads = [[part for line in head for part in broken(line, widths[i])] for i, head in enumerate(heads)]
        table = [
            [cell if i in right else broken(cell[0], widths[i]) for i, cell in enumerate(row)]
            for row in table
        ]
    tall = max(map(len, heads), default=1)
    lines = _lines([[""] * (tall - len(head)) + head for head in heads], widths, right, indent)
    for row in table:
        lines += _lines(row, widths, right, indent)
    return lines


def _least(head: Sequence[str], cells: Sequence[str], *, words: bool) -> int:
    """How narrow a column may be: cells of words may be broken between words, headings always."""
    whole = [width(word) for line in head for word in line.split()]
    if words:
        whole += [min(width(word), _LONGEST_WHOLE) for cell in cells for word in cell.split()]
    else:
        whole += map(width, cells)
    return max(1, *whole, 1)


def _narrow(widths: list[int], least: Sequence[int], room: int) -> None:
    """Take width from the widest columns until a table fits, or none of them may be narrower."""
    while sum(widths) > room:
        free = [i for i, wide in enumerate(widths) if wide > least[i]]
        if not free:
            break
        widths[max(free, key=lambda i: widths[i])] -= 1


def _lines(
    cells: Sequence[Sequence[str]], widths: Sequence[int], right: Collection[int], indent: str
) -> list[str]:
    """A row of cells of some lines each."""
    lines = []
    for number in range(max(map(len, cells), default=1)):
        parts = []
        for column, cell in enumerate(cells):
            text = cell[number] if number < len(cell) else ""
            space = " " * (widths[column] - width(text))
            parts.append(space + text if column in right else text + space)
        lines.append((indent + _GAP.join(parts)).rstrip())
    return lines
