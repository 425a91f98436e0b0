"""``bedwright trials``: what a garden's trials show, and a new trial laid out at random."""

from __future__ import annotations

import argparse
import datetime as dt

from planner.cli.arguments import add_garden_and_year, add_json, add_tables
from planner.cli.errors import UsageError
from planner.cli.output import (
    is_table,
    print_lines,
    print_report,
    refuse_bom_alone,
    refuse_existing,
    terminal_room,
    write_table,
)

NAME = "trials"
HELP = "Show what trials show; with --lay, lay out a new one at random into a new garden file"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden file, a new trial, and the kind of output."""
    add_garden_and_year(parser)
    parser.add_argument("--lay", metavar=("CROP", "BED"), nargs=2, help="a new trial of a crop in a bed")
    parser.add_argument(
        "--varieties", metavar="NAME", nargs="+", default=[], help="what it compares: two or more varieties"
    )
    parser.add_argument("--blocks", metavar="N", default="3", help="how often each stands there; 3")
    parser.add_argument("--seed", metavar="N", default="0", help="other numbers give other places; 0")
    parser.add_argument("--question", metavar="WORDS", default="", help="what it is to answer")
    parser.add_argument(
        "--measure", metavar="WORDS", default="", help="what is measured; what is picked where not given"
    )
    parser.add_argument("-o", "--output", metavar="NEW", help="the new garden file; never overwritten")
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """Print what trials show, or lay out a new one."""
    refuse_bom_alone(args)
    if args.lay:
        return _lay(args)
    if args.output or args.varieties:
        raise UsageError("there is no trial to lay out", fix="Give --lay CROP BED")
    from planner.cli.plans import plan_of
    from planner.listings.reports.trials import TRIAL_COLUMNS, trial_rows, trials_report
    from planner.listings.trials import trials_lines

    plan = plan_of(args)
    if args.json:
        print_report(trials_report(plan))
    elif is_table(args):
        write_table(trial_rows(plan), TRIAL_COLUMNS, args, args.file, NAME)
    else:
        print_lines(*trials_lines(plan, terminal_room()))
    return 0


def _whole(text: str, option: str) -> int:
    if not text.isascii() or not text.isdigit() or int(text[:9]) > 10**8:
        raise UsageError(f"'{text}' is no whole number", option, "Write one like 3")
    return int(text)


def _lay(args: argparse.Namespace) -> int:
    from planner.amounts.trial_places import propose_places
    from planner.cli.named_beds import beds_named
    from planner.garden import edits
    from planner.garden.units import show_length
    from planner.listings.trials import plots_words
    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import load, save
    from planner.words import say

    if not args.output:
        raise UsageError("where to write the garden with the new trial is missing", fix="Give -o NEW")
    refuse_existing(args.output)
    garden = load(args.file)
    plan = Plan(garden, args.year if args.year is not None else usual_year(garden, dt.date.today()))
    crop = plan.catalogue.named(args.lay[0])
    if crop is None:
        raise UsageError(f"there is no crop '{args.lay[0]}'", "--lay", "bedwright crops lists them")
    bed = beds_named(plan, [args.lay[1]])[0]
    places = propose_places(
        plan, bed, args.varieties, _whole(args.blocks, "--blocks"), _whole(args.seed, "--seed")
    )
    question = args.question or say("Which variety of {crop}?", crop=crop.name)
    after, _ = edits.lay_trial(
        garden,
        bed.id,
        crop.key,
        plan.year,
        question,
        [(one.treatment, one.block, one.plot) for one in places],
        measure=args.measure,
    )
    save(after, args.output)
    units = garden.site.units
    lines = [
        say(
            "{question} {plots} in {bed}, at random within each block:",
            question=question,
            plots=plots_words(len(places)),
            bed=bed.name,
        )
    ]
    for one in places:
        start, end = show_length(one.plot.start, units), show_length(one.plot.end, units)
        lines.append(
            say(
                "  {start} to {end}: {treatment}, block {block}",
                start=start,
                end=end,
                treatment=one.treatment,
                block=one.block,
            )
        )
    print_lines(*lines)
    return 0
