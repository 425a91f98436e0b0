"""``bedwright enough``: how much of a crop to plant for some people until a day."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.arguments import add_garden_and_year, add_json, day
from planner.cli.errors import UsageError
from planner.cli.named_places import named_place
from planner.cli.output import print_lines, print_report, terminal_room
from planner.cli.plans import day_typed, plan_of
from planner.words import say, short_number

if TYPE_CHECKING:
    from planner.garden.planting import Purpose

NAME = "enough"
#: What a harvest is for, and the purpose of a planting that means it.
USES: dict[str, Purpose] = {
    "fresh": "kitchen",
    "store": "store",
    "bottling": "bottling",
    "freezing": "freezing",
    "drying": "drying",
}
#: Most kilograms that one person is taken to eat in a week.
MOST = 100.0


def persons(text: str) -> float:
    """Read a number of persons; a child may count half."""
    return _number(text, 100_000, say("'{text}' is no number of persons; write one like 2 or 2.5", text=text))


def kilograms(text: str) -> float:
    """Read an amount a week."""
    return _number(
        text,
        MOST,
        say(
            "'{text}' is no amount a week; write kilograms up to {most}, like 0.6",
            text=text,
            most=short_number(MOST),
        ),
    )


def _number(text: str, most: float, fault: str) -> float:
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = -1.0
    if not 0 < value <= most:
        raise argparse.ArgumentTypeError(fault)
    return value


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Work out how much of a crop to plant for some people until a day, and where it fits")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add crop, garden, persons and day."""
    parser.add_argument("crop", metavar="CROP", help=say("a crop, by name or key"))
    add_garden_and_year(parser)
    text = say("how many eat of it; the garden's household where not given")
    parser.add_argument("--for", dest="persons", metavar="N", type=persons, help=text)
    text = say("the last day on which it is to be eaten, as 2027-03-31 or '31 Mar'")
    parser.add_argument("--until", metavar="D", type=day, required=True, help=text)
    text = say(
        "kilograms that one person eats in a week; what the household or a publication says where not given"
    )
    parser.add_argument("--eats", metavar="KG", type=kilograms, help=text)
    text = say(
        "the store place of the garden where it is kept; the one in which it keeps best where not given"
    )
    parser.add_argument("--keep-in", metavar="PLACE", help=text)
    text = say(
        "what it is grown for: fresh, store, bottling, freezing or drying; where not given, what keeps for months is stored "
        "and all else eaten fresh"
    )
    parser.add_argument("--for-use", dest="use", choices=USES, help=text)
    add_json(parser)


def run(args: argparse.Namespace) -> int:
    """Print how much to plant."""
    from planner.amounts.enough_for import enough_for, first_day_eaten
    from planner.checks.unfit_ground import unfit_ground
    from planner.crops.search import near
    from planner.listings.enough import enough_lines
    from planner.listings.reports.enough import enough_report

    plan = plan_of(args)
    crop = plan.catalogue.named(args.crop)
    if crop is None:
        close = near(plan.catalogue, args.crop, 1)
        mend = (
            say("Did you mean {names}?", names=f"'{close[0].name}'")
            if close
            else say("bedwright crops lists them")
        )
        raise UsageError(say("there is no crop '{crop}'", crop=args.crop), args.file, mend)
    many = args.persons or plan.garden.household.persons
    if not many:
        raise UsageError(say("how many eat of it is not known"), "--for", say("Give it, as --for 2"))
    use = USES.get(args.use) if args.use else None
    until = day_typed(plan, "--until", args.until, first_day_eaten(plan, crop, use))
    place = named_place(plan.garden, args.keep_in, "--keep-in") if args.keep_in else None
    found = enough_for(plan, crop, many, until, args.eats, place, unfit_ground(plan), use)
    if args.json:
        print_report(enough_report(plan, found))
    else:
        print_lines(*enough_lines(plan, found, terminal_room()))
    return 0
