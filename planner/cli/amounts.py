"""``bedwright amounts``: plants, rows and seed of a growing year."""

from __future__ import annotations

import argparse
from collections.abc import Mapping, Sequence

from planner.cli.amounts_parts import PARTS
from planner.cli.arguments import add_garden_and_year, add_json
from planner.cli.output import print_lines, print_report, terminal_room, write_out
from planner.cli.plans import nothing_planted, plan_of, warn_of_unknown_crops
from planner.listings.export_files import WORKBOOK, table_kind

NAME = "amounts"
HELP = "List plants, rows and seed of what is begun in a year, bed by bed, or what else it takes"
#: The part that is listed where none is named.
PLANTS = "plants"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the part that is listed, and the kind of output."""
    add_garden_and_year(parser)
    words = (PLANTS, *PARTS)
    parser.add_argument(
        "--what",
        metavar="WORD",
        choices=words,
        default=PLANTS,
        help=f"what is listed: {', '.join(words)}; {PLANTS} where not given",
    )
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    kinds.add_argument("--csv", metavar="OUT", help="into a CSV file; - is standard output")
    kinds.add_argument("--xlsx", metavar="OUT", help="into a workbook (XLSX); - is standard output")


def run(args: argparse.Namespace) -> int:
    """List the amounts of the year's plantings, or another part of what they take."""
    if args.what != PLANTS:
        return _run_part(args)
    from planner.amounts import amounts
    from planner.listings.amounts import amounts_lines
    from planner.listings.reports.amounts import AMOUNT_COLUMNS, amount_rows, amounts_report

    plan = plan_of(args)
    warn_of_unknown_crops(plan)
    parts = amounts(plan)
    if args.json:
        print_report(amounts_report(plan, parts))
    elif _is_table(args):
        _write_table(args, amount_rows(parts), AMOUNT_COLUMNS)
    elif parts or plan.plantings:
        print_lines(*amounts_lines(plan, parts, terminal_room()))
    else:
        print_lines(nothing_planted(plan))
    return 0


def _run_part(args: argparse.Namespace) -> int:
    """List one part of what a year takes."""
    plan, part = plan_of(args), PARTS[args.what]()
    warn_of_unknown_crops(plan)
    if args.json:
        print_report(part.report(plan))
    elif _is_table(args):
        _write_table(args, part.rows(plan), part.columns)
    else:
        print_lines(*part.lines(plan, terminal_room()))
    return 0


def _is_table(args: argparse.Namespace) -> bool:
    return args.csv is not None or args.xlsx is not None


def _write_table(
    args: argparse.Namespace, rows: Sequence[Mapping[str, object]], columns: Sequence[str]
) -> None:
    """Write a table as CSV or as a workbook."""
    if args.csv is not None:
        from planner.listings.tables import csv_text

        write_out(csv_text(rows, columns), args.csv, args.file, table_kind(columns))
    else:
        from planner.listings.workbook import workbook_bytes

        write_out(workbook_bytes(rows, columns, args.what), args.xlsx, args.file, WORKBOOK)
