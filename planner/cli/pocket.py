"""``bedwright pocket``: the page that goes outside on a phone, and brings notes back."""

from __future__ import annotations

import argparse
import datetime as dt

from planner.cli.arguments import add_garden_and_year, day
from planner.cli.output import print_lines, write_out
from planner.cli.plans import plan_at, plan_of, warn_of_unknown_crops
from planner.listings.export_files import POCKET_PAGE
from planner.words import full_day_words, say

NAME = "pocket"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Write one page for a phone: beds, work week by week, and room for notes that come back with records --take"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the page and the day that it shows first."""
    add_garden_and_year(parser)
    parser.add_argument(
        "-o",
        "--output",
        metavar="OUT.html",
        required=True,
        help=say("the page to write; - is standard output"),
    )
    parser.add_argument(
        "--day",
        metavar="D",
        type=day,
        help=say("the day that it shows first; that of the phone where not given"),
    )


def run(args: argparse.Namespace) -> int:
    """Write the page."""
    from planner.sheets.pocket_page import pocket_page

    plan, shown = (plan_of(args), None) if args.day is None else plan_at(args, "--day", args.day)
    warn_of_unknown_crops(plan)
    page = pocket_page(plan, dt.date.today(), shown)
    write_out(page, args.output, args.file, POCKET_PAGE)
    if args.output != "-":
        kilobytes = max(1, round(len(page.encode()) / 1000))
        print_lines(
            say(
                "{file}: {garden} from {first} to {last}, {size} kB. Send it to the phone and open it there in a browser.",
                file=args.output,
                garden=plan.garden.site.name,
                first=full_day_words(plan.span.first),
                last=full_day_words(plan.span.last),
                size=kilobytes,
            )
        )
    return 0
