"""``bedwright amounts``: plants, rows and seed of a growing year."""

from __future__ import annotations

import argparse

from planner.cli.arguments import add_assumption, add_garden_and_year, add_json, add_tables
from planner.cli.output import (
    is_table,
    print_lines,
    print_report,
    refuse_bom_alone,
    terminal_room,
    write_table,
)
from planner.cli.plans import nothing_planted, plan_of, print_assumption, warn_of_unknown_crops
from planner.listings.amounts_parts import PARTS
from planner.words import say

NAME = "amounts"
#: The part that is listed where none is named.
PLANTS = "plants"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("List plants, rows and seed of what is begun in a year, bed by bed, or what else it takes")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the part that is listed, and the kind of output."""
    add_garden_and_year(parser)
    add_assumption(parser)
    words = (PLANTS, *PARTS)
    parser.add_argument(
        "--what",
        metavar="WORD",
        choices=words,
        default=PLANTS,
        help=say("what is listed: {names}; {plants} where not given", names=", ".join(words), plants=PLANTS),
    )
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """List the amounts of the year's plantings, or another part of what they take."""
    refuse_bom_alone(args)
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
    elif is_table(args):
        write_table(amount_rows(parts), AMOUNT_COLUMNS, args, args.file, args.what)
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
    elif is_table(args):
        write_table(part.rows(plan), part.columns, args, args.file, args.what)
    else:
        print_assumption(plan)
        print_lines(*part.lines(plan, terminal_room()))
    return 0
