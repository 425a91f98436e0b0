"""``bedwright sheets``: bed sheets, week sheets, the year sheet, the raising sheet, the map, the walk sheet, the shopping list, labels or the weather as PDF."""

from __future__ import annotations

import argparse
import datetime as dt
import io
from typing import TYPE_CHECKING

from planner.cli.arguments import (
    add_assumption,
    add_beds,
    add_days,
    add_garden_and_year,
    add_repeatable,
    add_tended_by,
)
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import cannot_write, print_bytes, print_lines, refuse_garden_file
from planner.cli.people import people_named
from planner.cli.plans import (
    day_typed,
    paper_of,
    plan_and_days,
    plan_at,
    plan_of,
    warn_of_missing_signs,
    warn_of_unknown_crops,
)
from planner.listings.export_files import PDF, export_target
from planner.words import say, say_count

if TYPE_CHECKING:
    from planner.plan import Plan
    from planner.sheets.kinds import SheetKind
    from planner.sheets.label_sheets import Shift

NAME = "sheets"
#: What is written; held to be those of the sheets by a test, which take long to import.
KINDS: tuple[SheetKind, ...] = (
    "bed",
    "week",
    "year",
    "raising",
    "map",
    "walk",
    "water",
    "shopping",
    "labels",
    "weather",
)
#: Kinds of which days, people and beds can be chosen.
_OF_DAYS, _OF_BEDS = ("week",), ("bed", "week", "walk", "water", "labels")
_OF_A_DAY = ("map", "walk", "water")


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Write bed sheets to scale, week sheets, a year sheet, a raising sheet, a map, a walk sheet, a watering sheet, the shopping list, stake labels or the weather of a year, as PDF"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the kind of sheets, days, beds, paper, labels and the PDF."""
    add_garden_and_year(parser)
    add_assumption(parser)
    kinds = parser.add_mutually_exclusive_group()
    kinds.add_argument(
        "--kind",
        metavar="WORD",
        choices=KINDS,
        help=say("{names}; bed where not given", names=", ".join(KINDS)),
    )
    kinds.add_argument(
        "--weeks", action="store_const", const="week", dest="kind", help=say("the same as --kind week")
    )
    kinds.add_argument(
        "--all",
        action="store_true",
        help=say("every kind of sheet, all tables, calendar, map and plan, each a file in the folder OUT"),
    )
    add_days(parser)
    parser.add_argument(
        "-o",
        "--output",
        metavar="OUT.pdf",
        required=True,
        help=say("the PDF to write, or the folder of --all; - is standard output"),
    )
    add_beds(parser, say("beds by name or id; all of one name; every bed where not given"))
    add_tended_by(parser)
    parser.add_argument(
        "--paper", choices=["a4", "a3", "letter"], help=say("as the garden's units have it where not given")
    )
    parser.add_argument(
        "--tint", action="store_true", help=say("tint plots by family; black on white where not given")
    )
    add_repeatable(parser)
    parser.add_argument(
        "--day", metavar="D", help=say("day of the walk, watering or map; today where not given")
    )
    maps = parser.add_argument_group(say("garden map"))
    maps.add_argument(
        "--strip", action="store_true", help=say("the plan in spring, early summer, late summer and winter")
    )
    maps.add_argument("--days", metavar="D,D", help=say("the plan on these days side by side, up to six"))
    maps.add_argument(
        "--poster", metavar="2x3", help=say("over so many pages across and down, or in a scale as 1:25")
    )
    labels = parser.add_argument_group(say("stake labels"))
    labels.add_argument(
        "--labels",
        metavar="SHEET",
        help=say(
            "sheet of labels: one of a list, or its measures as 'a4 3x7 63.5x38.1 2.5x0' in millimetres"
        ),
    )
    labels.add_argument(
        "--used", type=int, metavar="N", help=say("labels that the first sheet lacks already")
    )
    labels.add_argument(
        "--shift", metavar="RIGHT,UP", help=say("move everything by so many millimetres, as 1,-0.5")
    )
    labels.add_argument("--codes", action="store_true", help=say("a QR code of each planting's text"))
    labels.add_argument("--per-row", action="store_true", help=say("a label for each row"))
    labels.add_argument(
        "--calibrate",
        action="store_true",
        help=say("instead of labels a page that shows where they will lie"),
    )


def run(args: argparse.Namespace) -> int:
    """Write the sheets."""
    if args.all:
        return _write_all(args)
    kind: SheetKind = args.kind or KINDS[0]
    _refuse_what_does_not_go_together(args, kind)
    plan, first, last = plan_and_days(args)
    day: dt.date | None = None
    days: tuple[dt.date, ...] = ()
    if args.days:
        plan, days = _days(args)
    elif kind in _OF_A_DAY:
        plan, day = plan_at(args, "--day", args.day or dt.date.today().isoformat())
    beds = tuple(bed.id for bed in beds_named(plan, args.bed)) if args.bed else None
    people = tuple(sorted(people_named(plan, args.tended_by))) if args.tended_by else None
    if args.output != "-":
        refuse_garden_file(args.output, args.file)
        export_target(args.output, PDF)
    target = io.BytesIO() if args.output == "-" else args.output
    warn_of_unknown_crops(plan)
    warn_of_missing_signs(plan)
    from planner.sheets.kinds import SheetWish, write_sheets
    from planner.sheets.label_sheets import write_calibration
    from planner.sheets.pdf_metadata import made_at, now
    from planner.sheets.poster import poster_wish

    wish = SheetWish(
        kind=kind,
        beds=beds,
        first=first,
        last=last,
        tended_by=people,
        day=day,
        strip=args.strip or bool(days),
        days=days,
        poster=poster_wish(args.poster) if args.poster else None,
        paper=paper_of(args.paper, plan),
        tint=args.tint,
        labels=args.labels or "",
        used=args.used or 0,
        shift=_shift(args.shift),
        codes=args.codes,
        per_row=args.per_row,
    )
    try:
        with made_at(None if args.repeatable else now()):
            if args.calibrate:
                from planner.sheets.kinds import USUAL_LABELS
                from planner.sheets.label_formats import label_format

                write_calibration(target, label_format(wish.labels or USUAL_LABELS[wish.paper]), wish.shift)
            else:
                write_sheets(plan, target, wish, dt.date.today())
    except OSError as error:
        raise cannot_write(error, args.output) from None
    if isinstance(target, io.BytesIO):
        print_bytes(target.getvalue())
        return 0
    words = {
        "bed": say("bed sheets for {year}", year=plan.year),
        "week": say("week sheets for {first} to {last}", first=first, last=last),
        "year": say("year sheet for {year}", year=plan.year),
        "raising": say("raising sheet for {year}", year=plan.year),
        "map": say("garden map for {day}", day=day if day is not None and not args.strip else plan.year),
        "walk": say("walk sheet for {day}", day=day),
        "water": say("watering sheet for {day}", day=day),
        "shopping": say("shopping list for {year}", year=plan.year),
        "weather": say("the weather of a year"),
        "labels": say("calibration of labels")
        if args.calibrate
        else say("labels for {year}", year=plan.year),
    }
    print_lines(say("{file}: {what}", file=args.output, what=words[kind]))
    return 0


def _write_all(args: argparse.Namespace) -> int:
    """Write a folder of everything."""
    of_one = (
        "first",
        "last",
        "bed",
        "tended_by",
        "strip",
        "days",
        "poster",
        "labels",
        "used",
        "shift",
        "codes",
    )
    given = [name for name in (*of_one, "per_row", "calibrate") if getattr(args, name)]
    if given:
        option = {"first": "--from", "last": "--to"}.get(given[0], "--" + given[0].replace("_", "-"))
        raise UsageError(
            say("{option} goes with one kind of sheets, not with --all", option=option),
            fix=say("Leave {option} out", option=option),
        )
    if args.output == "-":
        raise UsageError(say("--all writes a folder"), args.output, say("Name a folder after -o"))
    plan, day = plan_of(args), None
    if args.day:
        plan, day = plan_at(args, "--day", args.day)
    warn_of_unknown_crops(plan)
    from planner.sheets.folder import FolderWish, write_folder

    wish = FolderWish(paper_of(args.paper, plan), args.tint, day)
    try:
        files = write_folder(plan, args.output, wish, dt.date.today())
    except OSError as error:
        raise cannot_write(error, args.output) from None
    written = [one.name for one in files if not one.why_not]
    print_lines(
        say_count(
            "{folder}: {count} file for {year}",
            "{folder}: {count} files for {year}",
            len(written),
            folder=args.output,
            year=plan.year,
        ),
        *(f"  {name}" for name in written),
        *(say("Not written: {name}, {why}", name=one.name, why=one.why_not) for one in files if one.why_not),
    )
    return 0


def _refuse_what_does_not_go_together(args: argparse.Namespace, kind: str) -> None:
    """Refuse options that mean nothing for a kind of sheets."""
    if kind not in _OF_DAYS and (args.first or args.last):
        raise UsageError(
            say("--from and --to go with --weeks"), fix=say("Add --weeks, or leave the days out")
        )
    if kind not in _OF_DAYS and args.tended_by:
        raise UsageError(
            say("--tended-by goes with --weeks"), fix=say("Add --weeks, or name beds with --bed")
        )
    if kind not in _OF_BEDS and args.bed:
        whole = {
            "shopping": say("the shopping list is of the whole garden"),
            "map": say("the garden map is of the whole garden"),
            "year": say("the year sheet is of the whole garden"),
            "weather": say("the weather is of the whole garden"),
            "raising": say("the raising sheet is of the whole garden"),
        }[kind]
        raise UsageError(whole, fix=say("Leave --bed out"))
    if kind not in _OF_A_DAY and args.day:
        raise UsageError(
            say("--day goes with --kind walk, water or map"), fix=say("Name the kind, or leave the day out")
        )
    of_maps = {"--strip": args.strip, "--days": args.days, "--poster": args.poster}
    chosen = [name for name, value in of_maps.items() if value]
    if kind != "map" and chosen:
        raise UsageError(
            say("{chosen} goes with --kind map", chosen=chosen[0]),
            fix=say("Add --kind map, or leave {chosen} out", chosen=chosen[0]),
        )
    if args.poster and len(chosen) > 1:
        raise UsageError(
            say("a poster shows one day, and no {chosen}", chosen=chosen[0]),
            fix=say("Leave {chosen} or --poster out", chosen=chosen[0]),
        )
    if args.day and (args.strip or args.days):
        raise UsageError(
            say("--day goes with a map of one day"), fix=say("Name the days with --days D,D instead")
        )
    of_labels = {
        "--labels": args.labels,
        "--used": args.used,
        "--shift": args.shift,
        "--codes": args.codes,
        "--per-row": args.per_row,
        "--calibrate": args.calibrate,
    }
    given = [name for name, value in of_labels.items() if value]
    if kind != "labels" and given:
        raise UsageError(
            say("{given} goes with --kind labels", given=given[0]),
            fix=say("Add --kind labels, or leave {given} out", given=given[0]),
        )


def _days(args: argparse.Namespace) -> tuple[Plan, tuple[dt.date, ...]]:
    """The days of the map in their order, and the plan of the year of the first."""
    from planner.sheets.plan_strip import MOST_DAYS

    words = [word.strip() for word in args.days.split(",")]
    if not 0 < len(words) <= MOST_DAYS:
        raise UsageError(
            say(
                "--days has {number} days, and no more than {most_days} are drawn side by side",
                number=len(words),
                most_days=MOST_DAYS,
            ),
            fix=say("Name fewer days, with commas between them"),
        )
    plan, _ = plan_at(args, "--days", words[0])
    days = [day_typed(plan, "--days", word) for word in words]
    for number, day in enumerate(days):
        if day in days[:number]:
            raise UsageError(say("--days names {day} twice", day=day), fix=say("Name each day once"))
    return plan, tuple(sorted(days))


def _shift(text: str | None) -> Shift:
    from planner.sheets.label_sheets import NO_SHIFT, Shift

    if text is None:
        return NO_SHIFT
    parts = text.split(",")
    try:
        right, up = (float(part) for part in parts)
    except ValueError:
        raise UsageError(
            say("--shift '{text}' is no pair of numbers", text=text),
            fix=say("Give millimetres to the right and up, as 1,-0.5"),
        ) from None
    return Shift(right, up)
