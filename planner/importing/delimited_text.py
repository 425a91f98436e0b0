"""Delimited text as spreadsheets save it: its encoding, its separator, its records with their lines."""

from __future__ import annotations

import csv
import io
from collections.abc import Callable, Iterator
from dataclasses import dataclass

from planner.words import say

#: Separators that are tried, the likeliest first.
SEPARATORS = (",", ";", "\t")
#: Bytes at the beginning of a file that name its encoding.
_BYTE_ORDER_MARKS = ((b"\xef\xbb\xbf", "utf-8-sig"), (b"\xff\xfe", "utf-16"), (b"\xfe\xff", "utf-16"))


@dataclass(frozen=True)
class Record:
    """One record of delimited text.

    Attributes
    ----------
    line : int
        Line of the file it begins on, from 1.
    cells : tuple of str
        Empty for a broken record.
    fault : str
        What is broken, after which nothing can be read; empty for a record that is whole.
    """

    line: int
    cells: tuple[str, ...] = ()
    fault: str = ""


def decoded(data: bytes) -> tuple[str, str]:
    """Decode a file by its byte order mark, else as UTF-8, Windows-1252 or Latin-1, the first that fits.

    Returns
    -------
    tuple of (str, str)
        The text and the name of its encoding.
    """
    for mark, encoding in _BYTE_ORDER_MARKS:
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


def records(text: str, is_heading: Callable[[str], bool]) -> tuple[str, list[Record]]:
    """Read a table's separator and its records, that of the headings first.

    A first line ``sep=;`` names the separator; else it is the one that makes most known headings of
    the first line with text, or most cells where none makes any.

    Parameters
    ----------
    text : str
    is_heading : callable
        ``is_heading(cell)`` is true of a known heading.

    Returns
    -------
    separator : str
    records : list of Record
        Lines without cells are left out; empty for an empty text.  A broken record is the last.
    """
    named, body = _named_separator(text)
    separator = named or _separator(body, is_heading)
    lines_before = text[: len(text) - len(body)].count("\n")
    return separator, list(_records(body, separator, lines_before))


def _named_separator(text: str) -> tuple[str, str]:
    """The separator that a first line ``sep=;`` names (else empty), and the text from the headings on."""
    line, _, rest = text.partition("\n")
    if line.strip().casefold().startswith("sep=") and line.strip()[4:5] in (";", ","):
        return line.strip()[4], rest
    if line.rstrip("\r").casefold() == "sep=\t":
        return "\t", rest
    return "", text


def _separator(body: str, is_heading: Callable[[str], bool]) -> str:
    line = next((line for line in body.splitlines() if line.strip()), "")

    def headings(separator: str) -> tuple[int, int]:
        try:
            cells = next(csv.reader([line], delimiter=separator, skipinitialspace=True), [])
        except csv.Error:
            return 0, 0
        known = sum(is_heading(cell) for cell in cells)
        return known, 0 if known else len(cells)

    return max(SEPARATORS, key=headings)


def _records(body: str, separator: str, lines_before: int) -> Iterator[Record]:
    # Where the first line has a space after each separator, such spaces are no part of the cells.
    head = body.lstrip().partition("\n")[0]
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
            fault = say("a quotation mark is not closed, or stands inside a text; nothing after it was read")
            yield Record(line, fault=fault)
            return
        if cells:
            yield Record(line, tuple(cells))
