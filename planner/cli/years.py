"""``bedwright years``: what stood where in all growing years of a garden, side by side."""

from __future__ import annotations

import argparse
import datetime as dt
from typing import TYPE_CHECKING

from planner.cli.arguments import add_json, add_tables
from planner.cli.errors import UsageError
from planner.cli.output import (
    is_table,
    print_lines,
    print_report,
    refuse_bom_alone,
    terminal_room,
    write_table,
)
from planner.words import say

if TYPE_CHECKING:
    from planner.plan import Plan

NAME = "years"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Show what stood where in all years, its days, what was picked and what was lost")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden file, what is looked at, and the kind of output."""
    parser.add_argument("file", metavar="FILE", help=say("a garden file"))
    parser.add_argument("--crop", metavar="NAME", help=say("only this crop"))
    parser.add_argument(
        "--bed", metavar="NAME", help=say("only the ground of this bed, whatever bed it was then")
    )
    parser.add_argument(
        "--at", metavar="X,Y", help=say("only the ground at this place of the plan, as 3.2,1.5")
    )
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """Print years side by side."""
    from planner.listings.reports.years import YEAR_COLUMNS, year_rows, years_report
    from planner.listings.years import bed_words, place_words, years_lines
    from planner.plan import Plan
    from planner.plan.history import years_side_by_side
    from planner.season.spans import usual_year
    from planner.storage import load
    from planner.words import join_list

    refuse_bom_alone(args)
    garden = load(args.file)
    plan = Plan(garden, usual_year(garden, dt.date.today()))
    crop, of = "", []
    if args.crop is not None:
        known = plan.catalogue.named(args.crop)
        if known is None:
            raise UsageError(
                say("there is no crop '{crop}'", crop=args.crop), "--crop", say("bedwright crops lists them")
            )
        crop = known.key
        of.append(known.name)
    bed = _bed(plan, args.bed) if args.bed is not None else ""
    if bed:
        of.append(bed_words(garden.beds_by_id[bed]))
    at = _place(plan, args.at) if args.at is not None else None
    if at is not None:
        of.append(place_words(plan, at))
    found = years_side_by_side(plan, crop, bed, at)
    if args.json:
        print_report(years_report(plan, found))
    elif is_table(args):
        write_table(year_rows(plan, found), YEAR_COLUMNS, args, args.file, NAME)
    else:
        print_lines(*years_lines(plan, found, join_list(of) if of else "", terminal_room()))
    return 0


def _bed(plan: Plan, name: str) -> str:
    """Id of the bed with a name, in use or not."""
    from planner.cli.named_beds import beds_named
    from planner.garden.named_beds import beds_called

    found = beds_called(plan.garden.beds, name)
    return (found or beds_named(plan, [name]))[0].id


def _place(plan: Plan, text: str) -> tuple[float, float]:
    """A place that was typed: two lengths with a comma, or a semicolon where lengths have commas."""
    from planner.errors import BedwrightError

    parts = text.split(";" if ";" in text else ",")
    try:
        if len(parts) != 2:
            raise UsageError("", fix="")
        x, y = (_length(part, plan) for part in parts)
    except (BedwrightError, ValueError):
        raise UsageError(
            say("'{text}' is no place", text=text), "--at", say("Write x and y with a comma, as 3.2,1.5")
        ) from None
    return x, y


def _length(text: str, plan: Plan) -> float:
    from planner.garden.units import parse_length

    sign = -1.0 if text.strip().startswith("-") else 1.0
    return sign * parse_length(text.strip().lstrip("-"), plan.garden.site.units)
