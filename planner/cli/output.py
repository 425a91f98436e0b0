"""Writing to standard output and standard error, and to files that a command line names."""

from __future__ import annotations

import argparse
import contextlib
import os
import shutil
import sys
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, TextIO

from planner.cli.errors import OutputError, UsageError
from planner.listings.export_files import WORKBOOK, ExportKind, table_kind, write_export
from planner.listings.fitting import fitted
from planner.words import say

if TYPE_CHECKING:
    from planner.listings.reports.base import Report

#: Lines are not broken to less than this, however narrow the terminal. [columns]
LEAST_ROOM = 40
#: Control characters a name may hold, which could steer a terminal or turn the line about.
_NOT_SHOWN = dict.fromkeys([0x1B, *range(0x7F, 0xA0), *range(0x202A, 0x202F), *range(0x2066, 0x206A)], "?")


def terminal_room() -> int | None:
    """Width of the terminal that standard output is; None where it is a file or another program. [columns]"""
    try:
        on_screen = sys.stdout.isatty()
    except ValueError:  # closed
        return None
    return max(shutil.get_terminal_size().columns, LEAST_ROOM) if on_screen else None


def print_lines(*lines: str) -> None:
    """Print lines on standard output, broken to the width of a terminal; ``?`` for what it cannot print.

    Raises
    ------
    OutputError
        Where standard output cannot be written, as on a full disk.
    """
    _print_whole("\n".join(fitted(lines, terminal_room())) + "\n")


def _print_whole(text: str) -> None:
    """Print a text as it is, with ``?`` for what standard output cannot print."""
    try:
        _print(sys.stdout, text.translate(_NOT_SHOWN))
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(
            say("standard output cannot be written: {value}", value=error.strerror or error)
        ) from None


def print_json(value: object) -> None:
    """Print a value as indented JSON on standard output."""
    import json

    _print_whole(json.dumps(value, indent=2) + "\n")


def print_report(report: Report) -> None:
    """Print a report as JSON on standard output."""
    print_json(report.model_dump(mode="json"))


def print_error(text: str) -> None:
    """Print one line on standard error."""
    with contextlib.suppress(OSError):
        _print(
            sys.stderr, "bedwright: " + "".join(sign if sign.isprintable() else "?" for sign in text) + "\n"
        )


def write_out(content: str | bytes, output: str, garden_file: str, kind: ExportKind) -> None:
    """Write a file that a command line names.

    Parameters
    ----------
    content : str or bytes
        Text is written in UTF-8.
    output : str
        Path of the file; ``-`` is standard output.
    garden_file : str
        Path of the garden that was read, which is never overwritten.
    kind : ExportKind

    Raises
    ------
    UsageError
        Where ``output`` is the garden file itself.
    ExportError
        Where it is another file that is no such export, or has another ending.
    OutputError
        Where it cannot be written.
    """
    if output == "-":
        print_bytes(content.encode("utf-8") if isinstance(content, str) else content)
        return
    refuse_garden_file(output, garden_file)
    try:
        write_export(content, output, kind)
    except OSError as error:
        raise cannot_write(error, output) from None


def write_table(
    rows: Sequence[Mapping[str, object]],
    columns: Sequence[str],
    args: argparse.Namespace,
    garden_file: str,
    name: str,
) -> None:
    """Write a table to the CSV file or workbook that a command line names.

    Parameters
    ----------
    rows : sequence of mappings
        Cells by column.
    columns : sequence of str
        Headings, in their order.
    args : argparse.Namespace
        With ``csv``, ``bom`` and ``xlsx``.
    garden_file : str
        Path of the garden that was read; empty where none was.
    name : str
        Of the sheet of a workbook.

    Raises
    ------
    UsageError, ExportError, OutputError
        See :func:`write_out`.
    """
    if args.csv is None:
        from planner.listings.workbook import workbook_bytes

        write_out(workbook_bytes(rows, columns, name), args.xlsx, garden_file, WORKBOOK)
        return
    from planner.listings.tables import csv_text

    text = csv_text(rows, columns)
    write_out(f"\ufeff{text}" if args.bom else text, args.csv, garden_file, table_kind(columns))


def is_table(args: argparse.Namespace) -> bool:
    """Whether a table is asked for, as CSV or as a workbook."""
    return args.csv is not None or args.xlsx is not None


def refuse_bom_alone(args: argparse.Namespace) -> None:
    """Raise a :class:`UsageError` where a byte-order mark is asked for without a CSV file."""
    if args.bom and args.csv is None:
        raise UsageError(
            say("--bom goes with --csv"), fix=say("Name the table with --csv OUT, or leave --bom out")
        )


def cannot_write(error: OSError, output: str) -> OutputError:
    """Make the error of a file that could not be written.

    Parameters
    ----------
    error : OSError
        Why it could not.
    output : str
        Path of the file.
    """
    return OutputError(
        say("cannot be written: {value}", value=error.strerror or error),
        output,
        say("Name another file or folder"),
    )


def refuse_existing(path: str) -> None:
    """Raise a :class:`UsageError` where a file exists that would be overwritten."""
    if os.path.lexists(path):
        raise UsageError(say("is there already and is not overwritten"), path, say("Name a new file"))


def refuse_garden_file(output: str, garden_file: str) -> None:
    """Raise a :class:`UsageError` where the output is the garden file that is read.

    Parameters
    ----------
    output : str
        Path of the file to write.
    garden_file : str
        Path of the garden.
    """
    with contextlib.suppress(OSError):
        if os.path.samefile(output, garden_file):
            raise UsageError(
                say("is the garden file itself and is not overwritten"), output, say("Name another file")
            )


def close_output() -> None:
    """Point standard output at nothing, so that its last flush at exit does not complain."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        nothing = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nothing, sys.stdout.fileno())
        os.close(nothing)


def print_bytes(data: bytes) -> None:
    """Write bytes to standard output unchanged."""
    if sys.stdout is None:
        return
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        raise
    except OSError as error:
        raise OutputError(
            say("standard output cannot be written: {value}", value=error.strerror or error)
        ) from None


def _print(stream: TextIO | None, text: str) -> None:
    if stream is None:  # a program without a console
        return
    encoding = stream.encoding or "utf-8"
    stream.write(text.encode(encoding, "replace").decode(encoding))
    stream.flush()
