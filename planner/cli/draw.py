"""``bedwright draw``: the plan as drawn, as SVG, PNG or PDF, and its ground as GeoJSON."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Callable
from pathlib import PurePath
from typing import TYPE_CHECKING

from planner.cli.arguments import add_beds, add_garden_and_year, add_repeatable, day
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import print_lines, write_out
from planner.cli.plans import (
    nothing_planted,
    paper_of,
    plan_at,
    plan_of,
    warn_of_missing_signs,
    warn_of_unknown_crops,
)
from planner.listings.export_files import GEOJSON, PDF, PNG, SVG, ExportKind
from planner.words import later, say, say_count

if TYPE_CHECKING:
    from planner.sheets.plan_files import PicturePage

NAME = "draw"
#: What may be written, by its ending.
KINDS: dict[str, ExportKind] = {kind.suffix: kind for kind in (SVG, PNG, PDF, GEOJSON)}
_NO_KIND = later("the name ends with neither .svg, .png, .pdf nor .geojson")


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Draw the plan on a day to scale, as SVG, PNG or PDF, or its ground as GeoJSON; or the weather of a year"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the picture, day, hour, beds, width and paper."""
    add_garden_and_year(parser)
    parser.add_argument(
        "-o",
        "--output",
        metavar="OUT",
        required=True,
        help=say(
            "what is written, by its ending: .svg, .png, .pdf or .geojson; - is an SVG on standard output"
        ),
    )
    parser.add_argument(
        "--day",
        metavar="D",
        type=day,
        help=say(
            "the day, as 2026-06-21 or 21 Jun; where not given the one with most planted, for GeoJSON the year"
        ),
    )
    parser.add_argument(
        "--weather",
        action="store_true",
        help=say("the weather of a year from the recorded years, in place of the plan"),
    )
    parser.add_argument("--hour", metavar="H", type=hour, help=say("with its shadows: 15 or 15:30"))
    add_beds(parser, say("only these beds and the ground about them, by name or id"))
    parser.add_argument(
        "--width", metavar="PX", type=int, help=say("of a PNG, in pixels; 2000 where not given")
    )
    add_repeatable(parser)
    parser.add_argument(
        "--paper", choices=["a4", "letter"], help=say("as the garden's units have it where not given")
    )


def hour(text: str) -> dt.time:
    """Read an hour of the day."""
    hours, _, minutes = text.partition(":")
    if all(part.isascii() and part.isdigit() for part in (hours, minutes or "0")):
        try:
            return dt.time(int(hours), int(minutes or 0))
        except ValueError:
            pass
    raise argparse.ArgumentTypeError(
        say("'{text}' is no hour; write one from 0 to 23, as 15 or 15:30", text=text)
    )


def run(args: argparse.Namespace) -> int:
    """Write the picture, or the ground."""
    from planner.plan.fullest_day import fullest_day
    from planner.sheets.pdf_metadata import made_at, now
    from planner.sheets.plan_page import plan_page

    kind = SVG if args.output == "-" else KINDS.get(PurePath(args.output).suffix.casefold())
    if kind is None:
        raise UsageError(say(_NO_KIND), args.output, say("Give it one of the four endings"))
    if args.repeatable and kind is not PDF:
        raise UsageError(
            say("--repeatable goes with a PDF"), args.output, say("Other files are the same each time anyway")
        )
    if args.width is not None and kind is not PNG:
        raise UsageError(
            say("--width goes with a PNG"), args.output, say("SVG and PDF have the size of their paper")
        )
    if args.weather:
        return _write_weather(args, kind)
    if kind is GEOJSON:
        return _write_ground(args)
    if args.day is None:
        plan = plan_of(args)
        shown = fullest_day(plan)
    else:
        plan, shown = plan_at(args, "--day", args.day)
    beds = beds_named(plan, args.bed) if args.bed else None
    moment = None if args.hour is None else dt.datetime.combine(shown, args.hour)
    paper = paper_of(args.paper, plan)
    page = plan_page(plan, shown, moment, beds, paper)
    warn_of_unknown_crops(plan)
    if kind is not SVG:  # whoever shows an SVG sets its words in fonts of its own
        warn_of_missing_signs(plan)
    with made_at(None if args.repeatable else now()):
        content = _content(kind, args.width)(page)
    write_out(content, args.output, args.file, kind)
    if args.output != "-":
        print_lines(f"{args.output}: {page.title}. {page.subtitle}. {page.scale_text}.")
        if not plan.plantings:
            print_lines(nothing_planted(plan))
    return 0


def _write_weather(args: argparse.Namespace, kind: ExportKind) -> int:
    """Write the weather of a year as a picture."""
    from planner.sheets.pdf_metadata import made_at, now
    from planner.sheets.weather_sheet import weather_picture

    given = [name for name in ("day", "hour", "bed") if getattr(args, name) is not None]
    if given:
        raise UsageError(
            say("--{option} does not go with --weather", option=given[0]),
            args.output,
            say("Leave one of the two out"),
        )
    if kind is GEOJSON:
        raise UsageError(
            say("the weather is a picture and has no ground"),
            args.output,
            say("Give it the ending .svg, .png or .pdf"),
        )
    plan = plan_of(args)
    page = weather_picture(plan, paper_of(args.paper, plan))
    with made_at(None if args.repeatable else now()):
        content = _content(kind, args.width)(page)
    write_out(content, args.output, args.file, kind)
    if args.output != "-":
        print_lines(f"{args.output}: {page.title}. {page.subtitle}.")
    return 0


def _write_ground(args: argparse.Namespace) -> int:
    """Write the outlines of the garden at their place on the Earth."""
    from planner.listings.reports.ground_map import map_report, map_text

    for option, given in (("--hour", args.hour), ("--paper", args.paper)):
        if given is not None:
            raise UsageError(
                say("{option} goes with a picture", option=option),
                args.output,
                say("Leave it out for GeoJSON"),
            )
    plan, shown = (plan_of(args), None) if args.day is None else plan_at(args, "--day", args.day)
    report = map_report(plan, shown, beds_named(plan, args.bed) if args.bed else None)
    warn_of_unknown_crops(plan)
    write_out(map_text(report), args.output, args.file, GEOJSON)
    things = say_count("{count} outline", "{count} outlines", len(report.features))
    print_lines(
        say("{output}: {things}, longitude and latitude on WGS 84", output=args.output, things=things)
    )
    return 0


def _content(kind: ExportKind, width: int | None) -> Callable[[PicturePage], str | bytes]:
    """What makes the content of a kind of picture."""
    from planner.sheets.plan_files import USUAL_WIDTH, plan_pdf, plan_png, plan_svg

    if kind is PNG:
        return lambda page: plan_png(page, USUAL_WIDTH if width is None else width)
    return plan_svg if kind is SVG else plan_pdf
