"""``bedwright tasks``: the dated work of a growing year or a span of days."""

from __future__ import annotations

import argparse

from planner.cli.arguments import add_beds, add_days, add_garden_and_year, add_json, add_tables, add_tended_by
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import (
    is_table,
    print_lines,
    print_report,
    refuse_bom_alone,
    terminal_room,
    write_out,
    write_table,
)
from planner.cli.people import people_named
from planner.cli.plans import nothing_planted, plan_and_days, warn_of_unknown_crops
from planner.listings.export_files import CALENDAR
from planner.words import say

NAME = "tasks"
#: Most days that a reminder comes before its work.
MOST_DAYS = 60


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("List the dated work of a year, week by week")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, days and the kind of output."""
    add_garden_and_year(parser)
    add_days(parser)
    add_beds(parser, say("work in these beds only, by name or id"))
    add_tended_by(parser)
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)
    kinds.add_argument("--ics", metavar="OUT", help=say("into a calendar file; - is standard output"))
    parser.add_argument(
        "--remind",
        metavar="DAYS",
        type=int,
        help=say("in a calendar file: a reminder so many days before, at 8 in the morning"),
    )


def run(args: argparse.Namespace) -> int:
    """List the work of the span."""
    from planner.amounts.work import work_between
    from planner.listings.reports.tasks import TASK_COLUMNS, task_record, tasks_report
    from planner.listings.tasks import tasks_lines

    refuse_bom_alone(args)
    if args.remind is not None and args.ics is None:
        raise UsageError(say("--remind goes with --ics"), fix=say("Name the calendar file with --ics OUT"))
    if args.remind is not None and not 0 <= args.remind <= MOST_DAYS:
        raise UsageError(
            say("--remind {remind} is no number of days", remind=args.remind),
            fix=say("Give one from 0 to {most_days}", most_days=MOST_DAYS),
        )
    plan, first, last = plan_and_days(args)
    beds = {bed.id for bed in beds_named(plan, args.bed)} if args.bed else None
    people = people_named(plan, args.tended_by) if args.tended_by else None
    found = work_between(plan, first, last, beds, people)
    warn_of_unknown_crops(plan)
    if args.json:
        print_report(tasks_report(plan, found, first, last))
    elif is_table(args):
        rows = [task_record(plan, task).table_row() for task in found]
        write_table(rows, TASK_COLUMNS, args, args.file, NAME)
    elif args.ics is not None:
        from planner.listings.calendar import calendar

        if not found:
            mend = (
                say(
                    "Ask for other days, beds or people; bedwright tasks without --ics says what is not known"
                )
                if beds or people
                else say("Ask for other days; bedwright tasks without --ics says what is not known")
            )
            raise UsageError(
                say("no work falls on {first} to {last}", first=first, last=last), args.file, mend
            )
        write_out(calendar(plan, found, remind=args.remind), args.ics, args.file, CALENDAR)
    elif not found and not plan.plantings:
        print_lines(nothing_planted(plan))
    else:
        meant = [
            planting
            for planting in plan.plantings
            if (beds is None or planting.bed in beds) and (people is None or planting.tended_by in people)
        ]
        print_lines(*tasks_lines(plan, found, first, last, terminal_room(), meant))
    return 0
