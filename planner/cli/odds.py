"""``bedwright odds``: what would have become of each planting in the recorded years of weather."""

from __future__ import annotations

import argparse

from planner.cli.arguments import add_assumption, add_garden_and_year, add_json, add_tables
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import (
    is_table,
    print_lines,
    print_report,
    refuse_bom_alone,
    terminal_room,
    write_table,
)
from planner.cli.plans import nothing_planted, plan_of, print_assumption, warn_of_unknown_crops
from planner.words import say

NAME = "odds"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "In how many recorded years each planting ripens, what takes it, and when it is first picked; the weakest first"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, beds and the kind of output."""
    add_garden_and_year(parser)
    add_assumption(parser)
    parser.add_argument("bed", metavar="BED", nargs="*", help=say("beds by name or id; all"))
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """List the odds of the plantings of a growing year."""
    from planner.listings.odds import odds_lines
    from planner.listings.reports.odds import ODDS_COLUMNS, odds_report, odds_rows
    from planner.plan.lived import weakest_first, weather_in

    refuse_bom_alone(args)
    plan = plan_of(args)
    warn_of_unknown_crops(plan)
    beds = beds_named(plan, args.bed) if args.bed else None
    if weather_in(plan) is None:
        raise UsageError(
            say("{garden} keeps no years of daily weather", garden=plan.garden.site.name),
            args.file,
            say(
                "bedwright weather TABLE --into {file} -o NEW takes them from a weather table", file=args.file
            ),
        )
    found = weakest_first(plan, None if beds is None else {bed.id for bed in beds})
    if args.json:
        print_report(odds_report(plan, found))
    elif is_table(args):
        write_table(odds_rows(plan, found), ODDS_COLUMNS, args, args.file, NAME)
    elif not plan.plantings:
        print_lines(nothing_planted(plan))
    else:
        print_assumption(plan)
        print_lines(*odds_lines(plan, found, terminal_room()))
    return 0
