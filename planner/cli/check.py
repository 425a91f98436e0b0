"""``bedwright check``: the findings of the checks."""

from __future__ import annotations

import argparse

from planner.cli.arguments import add_assumption, add_garden_and_year, add_json, add_tables
from planner.cli.output import is_table, print_lines, print_report, refuse_bom_alone, write_table
from planner.cli.plans import nothing_planted, plan_of, print_assumption, warn_of_unknown_crops
from planner.words import say

NAME = "check"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("List what a plan gives to think about; exit 1 when something will fail")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the checks to run and the kind of output."""
    add_garden_and_year(parser)
    add_assumption(parser)
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)
    parser.add_argument(
        "--hearsay", action="store_true", help=say("neighbours by hearsay too, and the good ones")
    )
    parser.add_argument("--lore", dest="hearsay", action="store_true", help=argparse.SUPPRESS)
    parser.add_argument(
        "--each", action="store_true", help=say("every finding by itself, with its own mends")
    )
    parser.add_argument(
        "--no-light",
        action="store_true",
        help=say("without hours of direct sun: quicker in a very large garden"),
    )


def run(args: argparse.Namespace) -> int:
    """List the findings; 1 where one of them says that something will fail as planned."""
    from planner.checks import check_all
    from planner.listings.findings import findings_lines
    from planner.listings.reports.check import FINDING_COLUMNS, check_report, finding_record

    refuse_bom_alone(args)
    plan = plan_of(args)
    warn_of_unknown_crops(plan)
    found = check_all(plan, lore=args.hearsay, light=not args.no_light)
    if args.json:
        print_report(check_report(plan, found, hearsay=args.hearsay, light=not args.no_light))
    elif is_table(args):
        rows = [finding_record(plan, one).model_dump() for one in found]
        write_table(rows, FINDING_COLUMNS, args, args.file, NAME)
    else:
        if not plan.plantings:
            print_lines(nothing_planted(plan))
        print_assumption(plan)
        if found or plan.plantings:
            print_lines(*findings_lines(plan, found, each=args.each))
    return 1 if any(one.severity == "stop" and not one.waived for one in found) else 0
