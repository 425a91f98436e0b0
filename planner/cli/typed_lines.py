"""Lines typed at the command line that say what happened: read one after the other, all of them or none written."""

from __future__ import annotations

import datetime as dt
import sys
from collections.abc import Sequence
from typing import TYPE_CHECKING

from planner.cli.errors import UsageError
from planner.cli.output import print_error, print_lines
from planner.errors import BedwrightError
from planner.words import say, say_count

if TYPE_CHECKING:
    from planner.plan import Plan

#: In place of a line: the lines of standard input.
STANDARD_INPUT = "-"
MOST_LINES = 2_000


def lines_to_add(given: Sequence[str]) -> list[str]:
    """The lines given, with those of standard input in the place of ``-``; empty lines are passed over.

    Parameters
    ----------
    given : sequence of str

    Raises
    ------
    UsageError
        Where standard input is no text, there are no lines, or too many.
    """
    lines: list[str] = []
    for one in given:
        lines += _from_input() if one == STANDARD_INPUT else [one]
    if not any(line.strip() for line in lines):
        raise UsageError(
            say("no line is given that says what happened"),
            "--add",
            say("Type one like: sown: beds 3 to 7 on Tuesday"),
        )
    if len(lines) > MOST_LINES:
        raise UsageError(
            say("there are {count} lines", count=len(lines)),
            "--add",
            say("Take {most} at a time", most=MOST_LINES),
        )
    return lines


def _from_input() -> list[str]:
    data = sys.stdin.buffer.read() if hasattr(sys.stdin, "buffer") else sys.stdin.read().encode()
    try:
        return data.decode("utf-8-sig").splitlines()
    except UnicodeDecodeError:
        raise UsageError(
            say("what comes from standard input is no text"),
            "--add -",
            say("Save the lines as text in UTF-8"),
        ) from None


def add_lines(plan: Plan, lines: Sequence[str], today: dt.date) -> tuple[Plan, int, int]:
    """Read lines one after the other, each after the records of those before, and print what each will write.

    Parameters
    ----------
    plan : Plan
        Of the growing year of today.
    lines : sequence of str
    today : date
        The day of a line that names none.

    Returns
    -------
    plan : Plan
        With the records.
    refused : int
        Lines that were not understood; each is printed with its number, and what to type.
    doubtful : int
        Lines that are perhaps a slip of the pen; each is printed with its number, and why.
    """
    from planner.importing.typed_records import (
        add_typed_records,
        read_typed_records,
        typed_lines,
        typed_warnings,
    )

    refused = doubtful = 0
    written: list[str] = []
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        try:
            typed = read_typed_records(plan, line, today)
            garden = add_typed_records(plan.garden, typed)
        except BedwrightError as error:
            refused += 1
            print_error(str(BedwrightError(error.what, say("line {number}", number=number), error.fix)))
            continue
        warnings = typed_warnings(plan, typed)
        doubtful += bool(warnings)
        for words in warnings:
            print_error(say("line {number}: {warning}", number=number, warning=words))
        written += typed_lines(plan, typed)
        plan = plan.after(garden)
    if not refused:
        print_lines(say_count("{count} record:", "{count} records:", len(written)), *written)
    return plan, refused, doubtful
