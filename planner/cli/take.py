"""``bedwright take``: beds and plantings from a table, or outlines from a drawing or map, into a copy of a garden file."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from planner.cli.arguments import year
from planner.cli.errors import UsageError
from planner.cli.output import print_lines, refuse_existing
from planner.words import join_list, later, say

if TYPE_CHECKING:
    from planner.garden import Garden
    from planner.importing.taken_file import FileKind, Preview, Wishes

NAME = "take"
_CHANGES_NOTHING = later("nothing in it can be taken")


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Take beds and plantings from a table, or outlines from a drawing or map; without -o only show what would come"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, file, how it is read, and the new file."""
    parser.add_argument("file", metavar="FILE", help=say("a garden file"))
    parser.add_argument(
        "table",
        metavar="TABLE",
        help=say("a table (CSV, XLSX) of beds and plantings, a drawing (SVG, DXF), or a map (GeoJSON)"),
    )
    parser.add_argument("-o", "--output", metavar="NEW", help=say("the new garden file; never overwritten"))
    parser.add_argument(
        "--column",
        metavar="HEADING=COLUMN",
        action="append",
        default=[],
        help=say(
            "what a heading of a table means, as Beet=bed; Beet= passes it over; may be given several times"
        ),
    )
    parser.add_argument("--sheet", metavar="NAME", help=say("of a workbook; the first where not given"))
    parser.add_argument(
        "--year", metavar="Y", type=year, help=say("growing year of plantings that say neither year nor day")
    )
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--scale", metavar="N", help=say("of a drawing on paper: 1:50, or 50"))
    how.add_argument(
        "--unit",
        choices=("m", "cm", "mm", "ft", "in"),
        help=say("of the numbers of a drawing, on the ground; a DXF may say it itself"),
    )
    parser.add_argument(
        "--as",
        dest="kind",
        metavar="KIND",
        help=say("what outlines are: bed, where not given, or wall, shed, tree ..."),
    )


def run(args: argparse.Namespace) -> int:
    """Show what would be taken, and write it where a file is named; 1 where something could not be read."""
    from planner.crops import load_catalogue
    from planner.importing.table_text import TableError
    from planner.importing.taken_file import file_kind, lost_words, open_taken, take_preview
    from planner.storage import load, save

    if args.output is not None:
        refuse_existing(args.output)
    garden = load(args.file)
    _refuse_strange_options(args, file_kind(args.table))
    try:
        wishes = _wishes(args, garden)
        found = open_taken(args.table).preview(garden, load_catalogue(), wishes)
    except TableError as error:
        where = f"{args.table}: {error.where}" if error.where else args.table
        raise TableError(error.what, where, error.fix) from None
    except OSError as error:
        raise UsageError(
            say("cannot be read: {value}", value=error.strerror or error),
            args.table,
            say("Name another file"),
        ) from None
    print_lines(*_lines(args.table, found))
    if args.output is not None:
        after = take_preview(garden, found)
        if after is garden:
            raise UsageError(say(_CHANGES_NOTHING), args.table, say("Mend it, and take it again"))
        save(after, args.output)
        print_lines("", say("{file}: {garden} with all of it", file=args.output, garden=after.site.name))
    return 1 if lost_words(found) else 0


def _refuse_strange_options(args: argparse.Namespace, kind: FileKind) -> None:
    """Refuse options that do not go with a kind of file."""
    if kind == "table":
        for option, given in (("--scale", args.scale), ("--unit", args.unit), ("--as", args.kind)):
            if given is not None:
                raise UsageError(
                    say("{option} goes with a drawing or map", option=option),
                    args.table,
                    say("Leave it out for a table"),
                )
        return
    if args.column or args.sheet is not None or args.year is not None:
        raise UsageError(
            say("--column, --sheet and --year go with a table"), args.table, say("Leave them out")
        )
    if kind == "map" and (args.scale is not None or args.unit is not None):
        raise UsageError(
            say("--scale and --unit go with a drawing"), args.table, say("A map has its own place and size")
        )
    if kind == "dxf" and args.scale is not None:
        raise UsageError(
            say("--scale goes with a drawing on paper"),
            args.table,
            say("A DXF has its true size; give --unit"),
        )
    if kind == "svg" and args.scale is None and args.unit is None:
        raise UsageError(
            say("how large the drawing is is not known"),
            args.table,
            say("Give its scale, as --scale 1:50, or --unit with what its numbers are in"),
        )


def _wishes(args: argparse.Namespace, garden: Garden) -> Wishes:
    """How the options say that the file is to be read."""
    from planner.importing.outlines import BED, OUTLINE_KINDS, read_scale
    from planner.importing.taken_file import UNITS, Wishes
    from planner.season.spans import usual_year

    kind = args.kind or BED
    if kind not in OUTLINE_KINDS:
        raise UsageError(
            say("outlines cannot be taken as '{kind}'", kind=kind),
            "--as",
            say("Choose one of {names}", names=", ".join(OUTLINE_KINDS)),
        )
    return Wishes(
        year=args.year if args.year is not None else usual_year(garden, dt.date.today()),
        columns=_choice(args.column),
        sheet=args.sheet or "",
        kind=kind,
        unit=UNITS[args.unit] if args.unit is not None else None,
        scale=read_scale(args.scale) if args.scale is not None else None,
    )


def _choice(given: Sequence[str]) -> dict[str, str]:
    choice = {}
    for text in given:
        heading, sign, column = text.rpartition("=")
        if not sign or not heading.strip():
            raise UsageError(
                say("--column {text} chooses nothing", text=text),
                fix=say("Write it as HEADING=COLUMN, as Beet=bed"),
            )
        choice[heading] = column
    return choice


def _lines(table: str, found: Preview) -> Iterator[str]:
    """What a file holds: a summary, what its columns mean, and a line about each row that is to be told of."""
    from planner.importing.ground_table import GroundPreview
    from planner.importing.taken_file import lost_words, made_words, row_lines

    things, lost = made_words(found) or say("nothing"), lost_words(found)
    if lost:
        yield say("{file}: {things}; {lost}", file=table, things=things, lost=lost)
    else:
        yield say("{file}: {things}", file=table, things=things)
    if isinstance(found, GroundPreview):
        taken = [
            say("{heading} is {column}", heading=one.text, column=one.means)
            for one in found.columns
            if one.means
        ]
        yield say("Columns: {columns}", columns=join_list(taken))
        passed = [one.text for one in found.columns if one.text and not one.means]
        if passed:
            yield say("Passed over: {columns}", columns=join_list(passed))
    for line in row_lines(found):
        yield f"  {line}"
