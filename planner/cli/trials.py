"""``bedwright trials``: what a garden's trials show, and a new trial laid out at random."""

from __future__ import annotations

import argparse
import datetime as dt
from functools import partial

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
from planner.words import say

NAME = "trials"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Show what trials show; make a new one of plantings, or laid out at random, into a new garden file"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden file, a new trial, and the kind of output."""
    add_garden_and_year(parser)
    parser.add_argument(
        "--compare",
        metavar="PLANTING=TREATMENT",
        nargs="+",
        default=[],
        help=say("a new trial of plantings, by their ids; with a block as p12=covered/1"),
    )
    parser.add_argument("--lay", metavar=("CROP", "BED"), nargs=2, help=say("a new trial of a crop in a bed"))
    parser.add_argument(
        "--varieties",
        metavar="NAME",
        nargs="+",
        default=[],
        help=say("what it compares: two or more varieties"),
    )
    parser.add_argument("--blocks", metavar="N", default="3", help=say("how often each stands there; 3"))
    parser.add_argument("--seed", metavar="N", default="0", help=say("other numbers give other places; 0"))
    parser.add_argument("--question", metavar="WORDS", default="", help=say("what it is to answer"))
    parser.add_argument(
        "--measure", metavar="WORDS", default="", help=say("what is measured; what is picked where not given")
    )
    parser.add_argument(
        "--lost-counts",
        action="store_true",
        help=say("with --compare: what was lost counts as nothing picked; else it is left out"),
    )
    parser.add_argument("-o", "--output", metavar="NEW", help=say("the new garden file; never overwritten"))
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """Print what trials show, or lay out a new one."""
    refuse_bom_alone(args)
    if args.lay and args.compare:
        raise UsageError(
            say("a trial is of plantings or is laid out"), fix=say("Give --compare or --lay, not both")
        )
    if args.compare:
        return _compare(args)
    if args.lay:
        return _lay(args)
    if args.output or args.varieties:
        raise UsageError(
            say("there is no trial to make"),
            fix=say("Give --compare PLANTING=TREATMENT ... or --lay CROP BED"),
        )
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
        raise UsageError(say("'{text}' is no whole number", text=text), option, say("Write one like 3"))
    return int(text)


def _compare(args: argparse.Namespace) -> int:
    from planner.garden import edits
    from planner.garden.trials import TrialEntry
    from planner.listings.trials import trials_lines
    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import load, save

    _refuse_no_output(args)
    if not args.question:
        raise UsageError(say("a trial answers a question"), "--compare", say("Give --question WORDS"))
    garden = load(args.file)
    entries = []
    for text in args.compare:
        key, sign, rest = text.partition("=")
        treatment, _, block = rest.partition("/")
        if not sign or not treatment.strip():
            raise UsageError(
                say("'{text}' is no planting with its treatment", text=text),
                "--compare",
                say("Write it like p12=covered or p12=covered/1"),
            )
        if key not in garden.plantings_by_id:
            raise UsageError(
                say("there is no planting '{key}'", key=key),
                "--compare",
                say("bedwright years FILE --json names them"),
            )
        fields = {"planting": key, "treatment": treatment.strip(), "block": block.strip()}
        entries.append(edits.checked(partial(TrialEntry.model_validate, fields), text))
    if len({one.treatment for one in entries}) < 2:
        raise UsageError(
            say("a trial compares at least two treatments"), "--compare", say("Name two or more that differ")
        )
    after, _ = edits.put_trial(
        garden,
        question=args.question,
        measure=args.measure,
        entries=tuple(entries),
        lost_counts=args.lost_counts,
    )
    save(after, args.output)
    plan = Plan(after, args.year if args.year is not None else usual_year(after, dt.date.today()))
    print_lines(*trials_lines(plan, terminal_room()))
    return 0


def _refuse_no_output(args: argparse.Namespace) -> None:
    if not args.output:
        raise UsageError(
            say("where to write the garden with the new trial is missing"), fix=say("Give -o NEW")
        )
    refuse_existing(args.output)


def _lay(args: argparse.Namespace) -> int:
    from planner.amounts.trial_places import TrialPlacesError, in_the_way, propose_places
    from planner.cli.named_beds import beds_named
    from planner.garden import edits
    from planner.garden.units import show_length
    from planner.listings.trials import plots_words
    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import load, save
    from planner.words import join_list, say

    _refuse_no_output(args)
    garden = load(args.file)
    plan = Plan(garden, args.year if args.year is not None else usual_year(garden, dt.date.today()))
    crop = plan.catalogue.named(args.lay[0])
    if crop is None:
        raise UsageError(
            say("there is no crop '{lay}'", lay=args.lay[0]), "--lay", say("bedwright crops lists them")
        )
    bed = beds_named(plan, [args.lay[1]])[0]
    blocks, seed = _whole(args.blocks, "--blocks"), _whole(args.seed, "--seed")
    try:
        places = propose_places(plan, bed, args.varieties, blocks, seed)
    except TrialPlacesError as error:
        if args.year is not None or not in_the_way(plan, bed):
            raise
        fix = say("Give another year with --year, a smaller --blocks, or a bed with more free ground")
        raise UsageError(error.what, error.where, fix) from error
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
            "{question} {plots} in {bed} in {year}, at random within each block:",
            question=question,
            plots=plots_words(len(places)),
            bed=bed.name,
            year=str(plan.year),
        )
    ]
    standing = [name for name in in_the_way(plan, bed) if name]
    if standing:
        lines.append(
            say(
                "The rest of {bed} is taken in {year}: {plantings}. Another year is laid out with --year.",
                bed=bed.name,
                year=str(plan.year),
                plantings=join_list(standing),
            )
        )
    elif args.year is None:
        lines.append(say("Another year is laid out with --year."))
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
