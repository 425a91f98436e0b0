"""Arguments that several commands share, and how years and days are typed."""

from __future__ import annotations

import argparse
from typing import NoReturn

from planner.cli.errors import UsageError
from planner.words import say
from planner.words.typed_days import YEARS, DayError, read_typed_day


class Parser(argparse.ArgumentParser):
    """A parser whose complaints are one line."""

    def error(self, message: str) -> NoReturn:
        """Raise a complaint as a :class:`UsageError`."""
        raise UsageError(message, fix=say("Help: {program} --help", program=self.prog))


def year(text: str) -> int:
    """Read a year."""
    if not text.isascii() or not text.isdigit() or not YEARS[0] <= int(text) <= YEARS[1]:
        raise argparse.ArgumentTypeError(
            say(
                "'{text}' is no year; write one from {first} to {last}",
                text=text,
                first=YEARS[0],
                last=YEARS[1],
            )
        )
    return int(text)


def day(text: str) -> str:
    """Check that a text is a day; the garden's habit and growing year say which, see ``plans``."""
    try:
        read_typed_day(text)
    except DayError as error:
        raise argparse.ArgumentTypeError(str(error)) from None
    return text


def add_garden_and_year(parser: argparse.ArgumentParser) -> None:
    """Add the garden file and its growing year: ``file`` and ``year``."""
    parser.add_argument("file", metavar="FILE", help=say("a garden file"))
    text = say("growing year; the latest that has plantings where not given")
    parser.add_argument("--year", metavar="Y", type=year, help=text)


def degrees(text: str) -> float:
    """Read a difference of temperature, with a decimal point or comma. [deg C]"""
    try:
        return float(text.replace(",", ".").replace("\u2212", "-"))
    except ValueError:
        raise argparse.ArgumentTypeError(
            say("'{text}' is no number of degrees; write one such as 2 or 1.5", text=text)
        ) from None


def add_assumption(parser: argparse.ArgumentParser) -> None:
    """Add what is assumed of the recorded years: ``warmer`` and ``years_of``."""
    parser.add_argument(
        "--warmer",
        metavar="N",
        type=degrees,
        help=say("as if all recorded days had been so many °C warmer; an assumption, and marked as one"),
    )
    parser.add_argument(
        "--years-of",
        metavar="FILE",
        help=say("as if with the recorded years of another garden file; an assumption, and marked as one"),
    )


def add_days(parser: argparse.ArgumentParser) -> None:
    """Add the first and last day of a span: ``first`` and ``last``."""
    for option, name, text in (
        ("--from", "first", say("first day, as 2026-04-12 or 12 Apr; the year's where not given")),
        ("--to", "last", say("last day, as 2026-04-12 or 12 Apr; the year's where not given")),
    ):
        parser.add_argument(
            option,
            dest=name,
            metavar="D",
            type=day,
            help=text,
        )


def add_json(parser: argparse._ActionsContainer, text: str = "") -> None:
    """Add the choice of JSON: ``json``.

    Parameters
    ----------
    parser : ArgumentParser or group of one
    text : str
        Help.
    """
    parser.add_argument("--json", action="store_true", help=text or say("as JSON"))


def add_tables(parser: argparse.ArgumentParser, kinds: argparse._ActionsContainer) -> None:
    """Add the choice of a table: a CSV file, ``csv``, with a byte-order mark or without, ``bom``, or a workbook, ``xlsx``.

    Parameters
    ----------
    parser : ArgumentParser
    kinds : group of the parser
        The kinds of output, of which one is chosen.
    """
    kinds.add_argument("--csv", metavar="OUT", help=say("into a CSV file; - is standard output"))
    kinds.add_argument("--xlsx", metavar="OUT", help=say("into a workbook (XLSX); - is standard output"))
    parser.add_argument(
        "--bom",
        action="store_true",
        help=say("a byte-order mark at the beginning of a CSV file: some spreadsheets want it for é and °"),
    )


def add_tended_by(parser: argparse.ArgumentParser) -> None:
    """Add who tends the plantings: ``tended_by``, a list, or None where not given."""
    parser.add_argument(
        "--tended-by",
        metavar="WHO",
        nargs="+",
        action="extend",
        help=say("only plantings tended by these people"),
    )


def add_repeatable(parser: argparse.ArgumentParser) -> None:
    """Add the choice of a PDF without the moment at which it is made."""
    parser.add_argument(
        "--repeatable",
        action="store_true",
        help=say(
            "leave the moment at which it is made out of the PDF: the same sheets of a day are then the same bytes"
        ),
    )


def add_beds(parser: argparse.ArgumentParser, text: str) -> None:
    """Add beds by name or id: ``bed``, a list, or None where not given.

    Parameters
    ----------
    parser : ArgumentParser
    text : str
        Help.
    """
    parser.add_argument("--bed", metavar="NAME", nargs="+", action="extend", help=text)
