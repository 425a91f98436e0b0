"""``bedwright sheets``: bed sheets, week sheets or the shopping list as PDF."""

from __future__ import annotations

import argparse
import datetime as dt
import io

from planner.cli.arguments import add_beds, add_days, add_garden_and_year, add_tended_by
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import cannot_write, print_bytes, print_lines, refuse_garden_file
from planner.cli.people import people_named
from planner.cli.plans import nothing_planted, plan_and_days, warn_of_unknown_crops
from planner.listings.export_files import PDF, export_target

NAME = "sheets"
HELP = "Write bed sheets to scale, week sheets, or the shopping list, as PDF"
#: What is written.
KINDS = ("bed", "week", "shopping")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the kind of sheets, days, beds, paper and the PDF."""
    add_garden_and_year(parser)
    kinds = parser.add_mutually_exclusive_group()
    kinds.add_argument(
        "--kind",
        metavar="WORD",
        choices=KINDS,
        help=f"{', '.join(KINDS)}; bed where not given",
    )
    kinds.add_argument(
        "--weeks", action="store_const", const="week", dest="kind", help="the same as --kind week"
    )
    add_days(parser)
    parser.add_argument(
        "-o", "--output", metavar="OUT.pdf", required=True, help="the PDF to write; - is standard output"
    )
    add_beds(parser, "beds by name or id; all of one name; every bed where not given")
    add_tended_by(parser)
    parser.add_argument("--paper", choices=["a4", "letter"], default="a4", help="a4 where not given")


def run(args: argparse.Namespace) -> int:
    """Write the sheets."""
    kind = args.kind or KINDS[0]
    is_week = kind == "week"
    if not is_week and (args.first or args.last):
        raise UsageError("--from and --to go with --weeks", fix="Add --weeks, or leave the days out")
    if not is_week and args.tended_by:
        raise UsageError("--tended-by goes with --weeks", fix="Add --weeks, or name beds with --bed")
    if kind == "shopping" and args.bed:
        raise UsageError("the shopping list is of the whole garden", fix="Leave --bed out")
    plan, first, last = plan_and_days(args)
    beds = beds_named(plan, args.bed) if args.bed else None
    people = people_named(plan, args.tended_by) if args.tended_by else None
    if args.output != "-":
        refuse_garden_file(args.output, args.file)
        export_target(args.output, PDF)
    target = io.BytesIO() if args.output == "-" else args.output
    warn_of_unknown_crops(plan)
    today = dt.date.today()
    try:
        if kind == "shopping":
            from planner.sheets.shopping_sheet import write_shopping_sheet

            write_shopping_sheet(plan, target, args.paper, today)
        elif is_week:
            from planner.sheets.week_sheets import write_week_sheets

            chosen = {bed.id for bed in beds} if beds is not None else None
            write_week_sheets(plan, target, first, last, args.paper, today, beds=chosen, tended_by=people)
        else:
            from planner.sheets.bed_sheets import write_bed_sheets

            write_bed_sheets(plan, target, beds=beds, paper=args.paper, today=today)
    except OSError as error:
        raise cannot_write(error, args.output) from None
    if isinstance(target, io.BytesIO):
        print_bytes(target.getvalue())
        return 0
    words = {
        "bed": f"bed sheets for {plan.year}",
        "week": f"week sheets for {first} to {last}",
        "shopping": f"shopping list for {plan.year}",
    }
    print_lines(f"{args.output}: {words[kind]}")
    if kind == "bed" and not plan.plantings:
        print_lines(nothing_planted(plan))
    return 0
