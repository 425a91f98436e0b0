"""``bedwright weather``: what tables of daily weather say, and their years into a garden."""

from __future__ import annotations

import argparse
from pathlib import Path
from typing import TYPE_CHECKING

from planner.cli.arguments import add_json
from planner.cli.errors import UsageError
from planner.cli.output import print_lines, print_report, refuse_existing, terminal_room
from planner.words import say

if TYPE_CHECKING:
    from planner.garden import Garden
    from planner.importing.weather_cells import DepthUnit, Unit
    from planner.importing.weather_columns import Choice

NAME = "weather"

#: Units of temperatures of a weather table, as typed.
UNITS: dict[str, Unit] = {"c": "C", "f": "F", "tenths": "tenths C"}
#: Units of rain of a weather table, as typed.
RAIN_UNITS: dict[str, DepthUnit] = {"mm": "mm", "inch": "inch", "tenths": "tenths mm"}


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Work out frost dates, zone and monthly means from daily weather, and keep its years")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the tables, how to read them, where their station lies, and the garden that gets what is found."""
    parser.add_argument(
        "csv",
        metavar="CSV",
        nargs="*",
        help=say(
            "tables of one station with a day and its minimum and maximum a line, and rain where there is"
        ),
    )
    for option, text in (("--date", say("day")), ("--min", say("minimum")), ("--max", say("maximum"))):
        parser.add_argument(
            option, metavar="COL", help=say("heading of the {text}; guessed where not given", text=text)
        )
    parser.add_argument("--rain", metavar="COL", help=say("heading of the rain; guessed where not given"))
    parser.add_argument("--unit", choices=list(UNITS), help=say("degrees C or F, or tenths of C; guessed"))
    parser.add_argument(
        "--rain-unit", choices=list(RAIN_UNITS), help=say("of the rain: mm, inches or tenths of mm; guessed")
    )
    parser.add_argument("--station", metavar="ID", help=say("the station, where the tables have several"))
    parser.add_argument(
        "--at", metavar="PLACE", help=say("latitude and longitude of the station, as 52.2, 0.12")
    )
    parser.add_argument(
        "--height", metavar="M", type=float, help=say("height of the station above the sea, in metres")
    )
    parser.add_argument(
        "--of",
        metavar="FILE",
        help=say("instead of tables: what the years kept in a garden file say of its place"),
    )
    parser.add_argument("--south", action="store_true", help=say("the place lies south of the equator"))
    add_json(parser)
    parser.add_argument("--into", metavar="FILE", help=say("a garden file to take over what is found"))
    parser.add_argument("-o", "--output", metavar="NEW", help=say("the new garden file; never overwritten"))
    parser.add_argument(
        "--no-years",
        action="store_true",
        help=say("take over the frost dates alone; without a table: leave the years out of the copy"),
    )


def run(args: argparse.Namespace) -> int:
    """Print what is found in the tables, and write it into a new garden file where one is named."""
    from planner.storage import load, save

    if (args.into is None) != (args.output is None):
        raise UsageError(
            say("--into and -o belong together"),
            fix=say("Name a garden file and the new file for what is found"),
        )
    if args.of is not None:
        return _print_place(args)
    if not args.csv and not (args.no_years and args.output is not None):
        raise UsageError(say("no weather table is named"), fix=say("Name one or more files of a station"))
    if args.output is not None:
        refuse_existing(args.output)
    garden = load(args.into) if args.into is not None else None
    if not args.csv:
        assert garden is not None
        save(_without_years(garden), args.output)
        print_lines(
            say("{output}: {site} without its years of weather", output=args.output, site=garden.site.name)
        )
        return 0
    made = _report(args, garden)
    if made is not None:
        save(made, args.output)
    return 0


def _print_place(args: argparse.Namespace) -> int:
    """Print what the years of a garden file say of its place."""
    from planner.listings.place_weather import place_lines
    from planner.listings.weather_read import kept_line, station_lines
    from planner.season.place_weather import USUAL_BASE, heat_of, place_weather
    from planner.storage import load

    given = [name for name in ("csv", "into", "json", "no_years") if getattr(args, name)]
    if given:
        raise UsageError(say("--of goes alone"), fix=say("Leave the other options out"))
    garden = load(args.of)
    place = place_weather(garden.weather, garden.site)
    lines = [say("{garden}: {years}", garden=garden.site.name, years=kept_line(garden.weather))]
    if place is not None:
        lines += [f"  {line}" for line in station_lines(garden.weather, garden.site)]
        lines += ["", *place_lines(place, heat_of(place.table, USUAL_BASE), garden.site)]
    print_lines(*lines)
    return 0


def _without_years(garden: Garden) -> Garden:
    from planner.garden.edits import change_weather

    return change_weather(garden, years=())


def _report(args: argparse.Namespace, garden: Garden | None) -> Garden | None:
    """Print what is found, and the garden with it."""
    from planner.garden import Site
    from planner.importing.weather_place import placed
    from planner.importing.weather_table import read_tables
    from planner.listings.reports.weather import weather_report
    from planner.listings.weather import weather_lines
    from planner.listings.weather_read import kept_line, station_lines
    from planner.season.climate_from_weather import weather_statistics
    from planner.season.weather_years import height_correction, warmed

    table = read_tables([Path(name) for name in args.csv], _choice(args))
    kept = placed(table.kept(), args.at or "", args.height)
    site = garden.site if garden is not None else Site()
    southern = args.south or (garden is not None and garden.site.southern)
    weather = warmed(table.weather, height_correction(kept, site))
    found = weather_statistics(weather, southern)
    if args.json:
        print_report(weather_report(table, weather, found, kept, site, southern))
    else:
        lines = weather_lines(table, weather, found, southern, terminal_room())
        lines[1:1] = [f"  {line}" for line in station_lines(kept, site)]
        print_lines(*lines)
    if garden is None:
        return None
    climate = found.climate(garden.climate, say("daily weather table {name}", name=table.name[:100]))
    made = garden.with_(climate=climate)
    if not args.no_years:
        made = made.with_(weather=kept)
    if not args.json:
        print_lines(
            "",
            say(
                "{output}: {site} with these frost dates, zone and means",
                output=args.output,
                site=garden.site.name,
            ),
        )
        if not args.no_years:
            print_lines(kept_line(kept))
    return made


def _choice(args: argparse.Namespace) -> Choice:
    from planner.importing.weather_columns import Choice

    return Choice(
        date=args.date,
        minimum=args.min,
        maximum=args.max,
        rain=args.rain,
        unit=UNITS[args.unit] if args.unit is not None else None,
        rain_unit=RAIN_UNITS[args.rain_unit] if args.rain_unit is not None else None,
        station=args.station,
    )
