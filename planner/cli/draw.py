"""``bedwright draw``: the plan as drawn, as SVG, PNG or PDF."""

from __future__ import annotations

import argparse
import datetime as dt
from collections.abc import Callable
from pathlib import PurePath
from typing import TYPE_CHECKING

from planner.cli.arguments import add_beds, add_garden_and_year, day
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import print_lines, write_out
from planner.cli.plans import nothing_planted, plan_at, plan_of, warn_of_unknown_crops
from planner.listings.export_files import PDF, PNG, SVG, ExportKind
from planner.words import later, say

if TYPE_CHECKING:
    from planner.sheets.plan_page import PlanPage

NAME = "draw"
HELP = "Draw the plan on a day to scale, as SVG, PNG or PDF"
#: What may be written, by its ending.
KINDS: dict[str, ExportKind] = {kind.suffix: kind for kind in (SVG, PNG, PDF)}
_NO_KIND = later("the name ends with neither .svg, .png nor .pdf")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add garden, year, the picture, day, hour, beds, width and paper."""
    add_garden_and_year(parser)
    parser.add_argument(
        "-o",
        "--output",
        metavar="OUT",
        required=True,
        help="the picture, whose name ends with .svg, .png or .pdf; - is an SVG on standard output",
    )
    parser.add_argument(
        "--day",
        metavar="D",
        type=day,
        help="the day, as 2026-06-21 or 21 Jun; the one with most planted where not given",
    )
    parser.add_argument("--hour", metavar="H", type=hour, help="with its shadows: 15 or 15:30")
    add_beds(parser, "only these beds and the ground about them, by name or id")
    parser.add_argument("--width", metavar="PX", type=int, help="of a PNG, in pixels; 2000 where not given")
    parser.add_argument(
        "--paper", choices=["a4", "letter"], help="as the garden's units have it where not given"
    )


def hour(text: str) -> dt.time:
    """Read an hour of the day."""
    hours, _, minutes = text.partition(":")
    if all(part.isascii() and part.isdigit() for part in (hours, minutes or "0")):
        try:
            return dt.time(int(hours), int(minutes or 0))
        except ValueError:
            pass
    raise argparse.ArgumentTypeError(f"'{text}' is no hour; write one from 0 to 23, as 15 or 15:30")


def run(args: argparse.Namespace) -> int:
    """Write the picture."""
    from planner.plan.fullest_day import fullest_day
    from planner.sheets.plan_page import plan_page

    kind = SVG if args.output == "-" else KINDS.get(PurePath(args.output).suffix.casefold())
    if kind is None:
        raise UsageError(say(_NO_KIND), args.output, "Give it one of the three endings")
    if args.width is not None and kind is not PNG:
        raise UsageError("--width goes with a PNG", args.output, "SVG and PDF have the size of their paper")
    if args.day is None:
        plan = plan_of(args)
        shown = fullest_day(plan)
    else:
        plan, shown = plan_at(args, "--day", args.day)
    beds = beds_named(plan, args.bed) if args.bed else None
    moment = None if args.hour is None else dt.datetime.combine(shown, args.hour)
    paper = args.paper or ("letter" if plan.garden.site.units == "feet_inches" else "a4")
    page = plan_page(plan, shown, moment, beds, paper)
    warn_of_unknown_crops(plan)
    write_out(_content(kind, args.width)(page), args.output, args.file, kind)
    if args.output != "-":
        print_lines(f"{args.output}: {page.title}. {page.subtitle}. {page.scale_text}.")
        if not plan.plantings:
            print_lines(nothing_planted(plan))
    return 0


def _content(kind: ExportKind, width: int | None) -> Callable[[PlanPage], str | bytes]:
    """What makes the content of a kind of picture."""
    from planner.sheets.plan_files import USUAL_WIDTH, plan_pdf, plan_png, plan_svg

    if kind is PNG:
        return lambda page: plan_png(page, USUAL_WIDTH if width is None else width)
    return plan_svg if kind is SVG else plan_pdf
