"""The text of a table of rows that people keep in a spreadsheet: read whole, with what is wrong with it in one line."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from planner.errors import BedwrightError
from planner.importing.delimited_text import Record, decoded, records
from planner.words import later, number_words, say, whole_words

#: Largest file that is read. [bytes]
MOST_BYTES = 5_000_000


class TableError(BedwrightError):
    """A file that is no table of the kind that is wanted."""


def table_records(
    data: bytes, is_heading: Callable[[str], bool], such_as: str
) -> tuple[str, str, list[Record]]:
    """Separator, encoding and records of a file; the first record is the headings.

    Parameters
    ----------
    data : bytes
    is_heading : callable
        ``is_heading(cell)`` is true of a known heading.
    such_as : str
        Some headings, for the error of a file without them.

    Raises
    ------
    TableError
        When the file is too large, is no text, or is empty.
    """
    if len(data) > MOST_BYTES:
        raise TableError(
            say("the file has {number} MB", number=number_words(len(data) / 1e6, 0)),
            fix=say("At most {number} MB are read", number=number_words(MOST_BYTES / 1e6, 0)),
        )
    text, encoding = decoded(data)
    if "\0" in text:
        raise TableError(say("the file is no text"), fix=say("Save the table as CSV first"))
    separator, found = records(text, is_heading)
    if not found or found[0].fault:
        raise TableError(
            found[0].fault if found else say("the file is empty"),
            fix=say("The first line must hold the headings, such as {such_as}", such_as=such_as),
        )
    return separator, encoding, found


def rows_below(found: list[Record], most: int) -> Iterator[Record]:
    """The records below the headings that hold anything, broken ones among them.

    Parameters
    ----------
    found : list of Record
        The headings first.
    most : int
        Rows that are read.

    Raises
    ------
    TableError
        When there are more.
    """
    number = 0
    for record in found[1:]:
        if record.fault or any(cell.strip() for cell in record.cells):
            number += 1
            if number > most:
                raise TableError(
                    say("the file has more than {most} rows", most=whole_words(most)), fix=say("Divide it")
                )
            yield record


#: How a record with an open quotation mark is mended.
QUOTES = later("Close the quotation mark, or double it inside a text")


def too_many_cells(record: Record, headings: int) -> tuple[str, str] | None:
    """What is wrong with a record that has text under no heading, and how to mend it; None where nothing is."""
    if not any(cell.strip() for cell in record.cells[headings:]):
        return None
    return (
        say("{number} cells under {headings} headings", number=len(record.cells), headings=headings),
        say("Put a text that holds the separator between quotation marks"),
    )
