"""``bedwright sun``: hours of direct sun of beds on a day, and of plantings over a span."""

from __future__ import annotations

import argparse

from planner.cli.arguments import add_beds, add_garden_and_year, add_json, add_tables, day
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import is_table, print_lines, print_report, refuse_bom_alone, write_table
from planner.cli.plans import day_typed, plan_at
from planner.words import say

NAME = "sun"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Hours of direct sun of beds on a day, shadows of plants included")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, day, beds, span and the kind of output."""
    add_garden_and_year(parser)
    parser.add_argument(
        "--date", metavar="D", type=day, required=True, help=say("the day, as 2026-06-21 or 21 Jun")
    )
    add_beds(parser, say("beds by name or id; all"))
    parser.add_argument(
        "--span", metavar=("A", "B"), nargs=2, type=day, help=say("plantings too, over these days")
    )
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """List the hours of the beds, and of their plantings where a span is given."""
    from planner.listings.reports.sun import (
        SUN_COLUMNS,
        PlantingSunRecord,
        bed_records,
        planting_records,
        sun_report,
        sun_rows,
    )
    from planner.listings.sun import sun_lines

    refuse_bom_alone(args)
    plan, day = plan_at(args, "--date", args.date)
    beds = beds_named(plan, args.bed) if args.bed else list(plan.beds)
    of_beds = bed_records(plan, beds, day)
    of_plantings: list[PlantingSunRecord] = []
    if args.span is not None:
        first = day_typed(plan, "--span", args.span[0])
        last = day_typed(plan, "--span", args.span[1], first)
        if last < first:
            raise UsageError(
                say("the span's last day {last} is before its first {first}", last=last, first=first),
                fix=say("Swap the two"),
            )
        of_plantings = planting_records(plan, beds, first, last)
    if args.json:
        print_report(sun_report(plan, day, of_beds, of_plantings))
    elif is_table(args):
        write_table(sun_rows(day, of_beds, of_plantings), SUN_COLUMNS, args, args.file, NAME)
    else:
        print_lines(*sun_lines(plan, day, of_beds, of_plantings))
    return 0
