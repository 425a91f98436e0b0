"""``bedwright weather``: frost dates by risk, zone and monthly means from a table of daily weather."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from planner.cli.arguments import add_json
from planner.cli.errors import UsageError
from planner.cli.output import print_lines, print_report, refuse_existing, terminal_room
from planner.words import say

if TYPE_CHECKING:
    from planner.importing.weather_cells import Unit

NAME = "weather"

#: Units of a weather table, as typed.
UNITS: dict[str, Unit] = {"c": "C", "f": "F", "tenths": "tenths C"}


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Work out frost dates, zone and monthly means from daily weather")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the table, how to read it, the garden that gets what is found, and the kind of output."""
    parser.add_argument(
        "csv", metavar="CSV", help=say("a table with a day and its minimum and maximum a line")
    )
    for option, text in (("--date", "day"), ("--min", "minimum"), ("--max", "maximum")):
        parser.add_argument(
            option, metavar="COL", help=say("heading of the {text}; guessed where not given", text=text)
        )
    parser.add_argument("--unit", choices=list(UNITS), help=say("degrees C or F, or tenths of C; guessed"))
    parser.add_argument("--south", action="store_true", help=say("the place lies south of the equator"))
    add_json(parser)
    parser.add_argument("--into", metavar="FILE", help=say("a garden file to take over what is found"))
    parser.add_argument("-o", "--output", metavar="NEW", help=say("the new garden file; never overwritten"))


def run(args: argparse.Namespace) -> int:
    """Print what is found in the table, and write it into a new garden file where one is named."""
    from planner.importing.weather_columns import columns_of
    from planner.importing.weather_table import read_weather
    from planner.listings.reports.weather import weather_report
    from planner.listings.weather import weather_lines
    from planner.season.climate_from_weather import weather_statistics
    from planner.storage import load, save

    if (args.into is None) != (args.output is None):
        raise UsageError(
            say("--into and -o belong together"),
            fix=say("Name a garden file and the new file for what is found"),
        )
    if args.output is not None:
        refuse_existing(args.output)
    garden = load(args.into) if args.into is not None else None
    southern = args.south or (garden is not None and garden.site.southern)
    path, unit = Path(args.csv), UNITS[args.unit] if args.unit is not None else None
    columns, named = columns_of(path, args.date, args.min, args.max, unit)
    table = read_weather(path, columns if named else None)
    found = weather_statistics(table, southern)
    if args.json:
        print_report(weather_report(path.name, table, found, columns, southern))
    else:
        print_lines(*weather_lines(path.name, table, found, columns, southern, terminal_room()))
    if garden is not None:
        climate = found.climate(garden.climate, say("daily weather table {name}", name=path.name[:100]))
        save(garden.with_(climate=climate), args.output)
        if not args.json:
            print_lines(
                "",
                say(
                    "{output}: {site} with these frost dates, zone and means",
                    output=args.output,
                    site=garden.site.name,
                ),
            )
    return 0
