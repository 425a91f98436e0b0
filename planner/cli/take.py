"""``bedwright take``: beds and plantings from a table, or outlines from a drawing or map, into a copy of a garden file."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Callable, Iterator, Sequence
from pathlib import PurePath
from typing import TYPE_CHECKING, NamedTuple

from planner.cli.arguments import year
from planner.cli.errors import UsageError
from planner.cli.output import print_lines, refuse_existing
from planner.words import join_list, later, say, say_count

if TYPE_CHECKING:
    from planner.garden import Garden
    from planner.importing.ground_table import GroundPreview
    from planner.importing.outlines import OutlinePreview

NAME = "take"
HELP = "Take beds and plantings from a table, or outlines from a drawing or map; without -o only show what would come"
_CHANGES_NOTHING = later("nothing in it can be taken")


class _Found(NamedTuple):
    """What a file holds: lines that say so, how many things could not be read, and the garden with the rest."""

    lines: list[str]
    bad: int
    taken: Callable[[], Garden]


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, file, how it is read, and the new file."""
    parser.add_argument("file", metavar="FILE", help="a garden file")
    parser.add_argument(
        "table",
        metavar="TABLE",
        help="a table (CSV, XLSX) of beds and plantings, a drawing (SVG, DXF), or a map (GeoJSON)",
    )
    parser.add_argument("-o", "--output", metavar="NEW", help="the new garden file; never overwritten")
    parser.add_argument(
        "--column",
        metavar="HEADING=COLUMN",
        action="append",
        default=[],
        help="what a heading of a table means, as Beet=bed; Beet= passes it over; may be given several times",
    )
    parser.add_argument("--sheet", metavar="NAME", help="of a workbook; the first where not given")
    parser.add_argument(
        "--year", metavar="Y", type=year, help="growing year of plantings that say neither year nor day"
    )
    how = parser.add_mutually_exclusive_group()
    how.add_argument("--scale", metavar="N", help="of a drawing on paper: 1:50, or 50")
    how.add_argument(
        "--unit",
        choices=("m", "cm", "mm", "ft", "in"),
        help="of the numbers of a drawing, on the ground; a DXF may say it itself",
    )
    parser.add_argument(
        "--as",
        dest="kind",
        metavar="KIND",
        help="what outlines are: bed, where not given, or wall, shed, tree ...",
    )


def run(args: argparse.Namespace) -> int:
    """Show what would be taken, and write it where a file is named; 1 where something could not be read."""
    from planner.importing.outlines import DXF_ENDINGS, MAP_ENDINGS, SVG_ENDINGS
    from planner.importing.table_text import TableError
    from planner.storage import load, save

    if args.output is not None:
        refuse_existing(args.output)
    garden = load(args.file)
    ending = PurePath(args.table).suffix.casefold()
    try:
        if ending in (*MAP_ENDINGS, *SVG_ENDINGS, *DXF_ENDINGS):
            found = _outlines(args, garden, ending)
        else:
            found = _rows(args, garden)
    except TableError as error:
        raise TableError(
            error.what, f"{args.table}: {error.where}" if error.where else args.table, error.fix
        ) from None
    print_lines(*found.lines)
    if args.output is not None:
        after = found.taken()
        if after is garden:
            raise UsageError(say(_CHANGES_NOTHING), args.table, say("Mend it, and take it again"))
        save(after, args.output)
        print_lines("", say("{file}: {garden} with all of it", file=args.output, garden=after.site.name))
    return 1 if found.bad else 0


def _data(path: str) -> bytes:
    from planner.importing.table_text import MOST_BYTES
    from planner.plain_file import open_plain

    try:
        with open_plain(path) as file:
            return file.read(MOST_BYTES + 1)
    except OSError as error:
        raise UsageError(f"cannot be read: {error.strerror or error}", path, "Name another file") from None


def _rows(args: argparse.Namespace, garden: Garden) -> _Found:
    """What a table holds."""
    from planner.crops import load_catalogue
    from planner.importing.ground_table import preview, take
    from planner.season.spans import usual_year

    for option, given in (("--scale", args.scale), ("--unit", args.unit), ("--as", args.kind)):
        if given is not None:
            raise UsageError(f"{option} goes with a drawing or map", args.table, "Leave it out for a table")
    growing = args.year if args.year is not None else usual_year(garden, dt.date.today())
    found = preview(
        _data(args.table), garden, load_catalogue(), growing, _choice(args.column), args.sheet or ""
    )
    return _Found(list(_table_lines(args.table, found)), len(found.bad), lambda: take(garden, found))


def _choice(given: Sequence[str]) -> dict[str, str]:
    choice = {}
    for text in given:
        heading, sign, column = text.rpartition("=")
        if not sign or not heading.strip():
            raise UsageError(
                f"--column {text} chooses nothing", fix="Write it as HEADING=COLUMN, as Beet=bed"
            )
        choice[heading] = column
    return choice


def _table_lines(table: str, found: GroundPreview) -> Iterator[str]:
    yield _summary(table, len(found.beds), len(found.plantings), 0, len(found.bad))
    taken = [
        say("{heading} is {column}", heading=one.text, column=one.means) for one in found.columns if one.means
    ]
    yield say("Columns: {columns}", columns=join_list(taken))
    passed = [one.text for one in found.columns if one.text and not one.means]
    if passed:
        yield say("Passed over: {columns}", columns=join_list(passed))
    for row in found.rows:
        where = say("line {line}", line=row.line)
        yield from _about(where, " ".join(_ended(part) for part in (row.error, row.mend) if part), row.notes)


def _outlines(args: argparse.Namespace, garden: Garden, ending: str) -> _Found:
    """What a drawing or a map holds."""
    from planner.importing.outlines import (
        BED,
        DXF_ENDINGS,
        MAP_ENDINGS,
        OUTLINE_KINDS,
        UNITS,
        preview_dxf,
        preview_geojson,
        preview_svg,
        read_scale,
        take_outlines,
    )

    if args.column or args.sheet is not None or args.year is not None:
        raise UsageError("--column, --sheet and --year go with a table", args.table, "Leave them out")
    kind = args.kind or BED
    if kind not in OUTLINE_KINDS:
        raise UsageError(
            f"outlines cannot be taken as '{kind}'", "--as", f"Choose one of {', '.join(OUTLINE_KINDS)}"
        )
    data = _data(args.table)
    unit = UNITS[args.unit] if args.unit is not None else None
    scale = read_scale(args.scale) if args.scale is not None else None
    if ending in MAP_ENDINGS:
        if scale is not None or unit is not None:
            raise UsageError(
                "--scale and --unit go with a drawing", args.table, "A map has its own place and size"
            )
        found = preview_geojson(data, garden, kind)
    elif ending in DXF_ENDINGS:
        if scale is not None:
            raise UsageError(
                "--scale goes with a drawing on paper", args.table, "A DXF has its true size; give --unit"
            )
        found = preview_dxf(data, garden, kind, unit=unit)
    else:
        if scale is None and unit is None:
            raise UsageError(
                "how large the drawing is is not known",
                args.table,
                "Give its scale, as --scale 1:50, or --unit with what its numbers are in",
            )
        found = preview_svg(data, garden, kind, unit=unit, scale=scale)
    return _Found(list(_outline_lines(args.table, found)), found.lost, lambda: take_outlines(garden, found))


def _outline_lines(table: str, found: OutlinePreview) -> Iterator[str]:
    yield _summary(table, len(found.beds), 0, len(found.structures), found.lost)
    for row in found.rows:
        yield from _about(row.where, _ended(row.error) if row.error else "", row.notes)


def _summary(table: str, beds: int, plantings: int, structures: int, bad: int) -> str:
    parts = [
        say_count("{count} bed", "{count} beds", beds) if beds else "",
        say_count("{count} planting", "{count} plantings", plantings) if plantings else "",
        say_count("{count} structure", "{count} structures", structures) if structures else "",
    ]
    things = join_list(part for part in parts if part) or say("nothing")
    if bad:
        lost = say_count("{count} could not be read", "{count} could not be read", bad)
        return say("{file}: {things}; {lost}", file=table, things=things, lost=lost)
    return say("{file}: {things}", file=table, things=things)


def _about(where: str, error: str, notes: Sequence[str]) -> Iterator[str]:
    """Lines about one row: why it could not be read, and how it was understood."""
    if error:
        yield say("  {where}: {what}", where=where, what=error)
    for note in notes:
        yield say("  {where}: {what}", where=where, what=note)


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."
