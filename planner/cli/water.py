"""``bedwright water``: what beds need of water, week by week, a tank, and drip lines."""

from __future__ import annotations

import argparse
import datetime as dt

from planner.cli.arguments import add_beds, add_garden_and_year, add_json, add_tables, day
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import is_table, print_lines, print_report, refuse_bom_alone, write_table
from planner.cli.plans import day_typed, plan_at, plan_of
from planner.words import say

NAME = "water"
#: Volumes of tanks that are taken. [l]
LEAST_TANK, MOST_TANK = 10, 1_000_000


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Water that beds need by week in the median and the dry year, a tank that lasts, drip lines")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, beds, week, tank and the kind of output."""
    add_garden_and_year(parser)
    add_beds(parser, say("beds by name or id; all"))
    parser.add_argument(
        "--week", metavar="D", type=day, help=say("the watering of the week of a day, as 2026-07-06 or 6 Jul")
    )
    parser.add_argument(
        "--drought",
        action="store_true",
        help=say("with --week: as in the recorded year that is as dry as a dry one"),
    )
    parser.add_argument("--tank", metavar="LITRES", type=float, help=say("what a tank of this volume meets"))
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """List the need of the beds, or the watering of a week."""
    from planner.amounts.tank import tank_of
    from planner.amounts.watering import watering_of_week
    from planner.listings.reports.water import WATER_COLUMNS, water_report, week_records
    from planner.listings.water import water_lines, week_lines
    from planner.plan.water import garden_water

    refuse_bom_alone(args)
    if args.tank is not None and not LEAST_TANK <= args.tank <= MOST_TANK:
        raise UsageError(
            say("--tank {volume} is no volume of a tank", volume=str(args.tank)),
            fix=say("Give litres from {least} to {most}", least=str(LEAST_TANK), most=str(MOST_TANK)),
        )
    if args.drought and args.week is None:
        raise UsageError(say("--drought goes with --week"), fix=say("Name a day of the week with --week D"))
    monday: dt.date | None = None
    if args.week is not None:
        plan, of_week = plan_at(args, "--week", day_typed(plan_of(args), "--week", args.week).isoformat())
        monday = of_week - dt.timedelta(days=of_week.weekday())
    else:
        plan = plan_of(args)
    water = garden_water(plan)
    if water is None:
        raise UsageError(
            say("nothing is known of the climate, so nothing can be told of water"),
            args.file,
            say("Read a daily weather table with bedwright weather, or give monthly means"),
        )
    chosen = {bed.id for bed in beds_named(plan, args.bed)} if args.bed else None
    beds = [one for one in water.beds if chosen is None or one.bed.id in chosen]
    tank = tank_of(plan, water, args.tank)
    if args.json:
        print_report(water_report(plan, water, beds, tank))
    elif is_table(args):
        write_table(
            [one.model_dump() for one in week_records(water, beds)], WATER_COLUMNS, args, args.file, NAME
        )
    elif monday is not None:
        place = water.drought if args.drought and not water.weather.rough else None
        recorded = water.weather.years[place] if place is not None else None
        found = [
            one
            for one in watering_of_week(plan, monday, water, place)
            if chosen is None or one.bed.id in chosen
        ]
        print_lines(*week_lines(plan, monday, found, recorded))
    else:
        print_lines(*water_lines(plan, water, beds, tank))
    return 0
