"""``bedwright propose``: the layout of a growing year from its wishes, or what could still go into free ground."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.arguments import add_beds, add_garden_and_year, add_json, day
from planner.cli.errors import UsageError
from planner.cli.named_beds import beds_named
from planner.cli.output import print_lines, print_report, refuse_existing
from planner.cli.plans import day_typed, plan_of
from planner.words import say

if TYPE_CHECKING:
    from planner.plan import Plan

NAME = "propose"
#: Most rounds of search that may be asked for.
MOST_ROUNDS = 100_000
#: Deterministic time of a proof.
PROOF = 20.0
#: Fillings that are printed.
SHOWN = 12


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Propose the layout of a growing year from its wishes, say why, and what would have to change for the rest"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden, how long to search, and what to print or write."""
    add_garden_and_year(parser)
    parser.add_argument(
        "-o",
        dest="output",
        metavar="NEW",
        help=say("write the garden with the layout; never overwrites a file"),
    )
    add_beds(parser, say("only these beds are planned anew; all others stay as they are"))
    parser.add_argument(
        "--wishes",
        choices=("plantings", "household"),
        help=say(
            "make the wishes first: from what was begun in the year before, or from what the household eats"
        ),
    )
    parser.add_argument(
        "--effort",
        metavar="N",
        type=_rounds,
        help=say(
            "rounds of search; the same number and seed give the same layout (24 where neither it nor --seconds is given)"
        ),
    )
    parser.add_argument("--seconds", metavar="S", type=_seconds, help=say("search for so long"))
    parser.add_argument(
        "--seed", metavar="N", type=_seed, default=0, help=say("another number searches elsewhere")
    )
    parser.add_argument(
        "--prove",
        action="store_true",
        help=say("then work out, for half a minute or so, how much better any layout could be at the most"),
    )
    parser.add_argument(
        "--unlike",
        metavar="N",
        type=_few,
        default=0,
        help=say("tell up to N other layouts as well that are about as good and unlike it"),
    )
    parser.add_argument(
        "--forbids",
        action="store_true",
        help=say(
            "of each wish that is not met, say all that forbids it: without any one of these things it would fit"
        ),
    )
    parser.add_argument(
        "--no-reasons", action="store_true", help=say("do not say why each planting is where it is")
    )
    parser.add_argument(
        "--fill",
        metavar="D",
        type=day,
        help=say(
            "instead of a layout: what could still go into each of the beds from a day on, as 2027-07-20 or '20 Jul'"
        ),
    )
    add_json(parser)


def _rounds(text: str) -> int:
    return _whole(text, MOST_ROUNDS)


def _few(text: str) -> int:
    return _whole(text, 9)


def _seed(text: str) -> int:
    return _whole(text, 2**31 - 1)


def _whole(text: str, most: int) -> int:
    if not text.isascii() or not text.isdigit() or int(text) > most:
        raise argparse.ArgumentTypeError(
            say("'{text}' is no whole number up to {most}", text=text, most=most)
        )
    return int(text)


def _seconds(text: str) -> float:
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = -1.0
    if not 0 <= value <= 86_400:
        raise argparse.ArgumentTypeError(say("'{text}' is no number of seconds up to 86400", text=text))
    return value


def run(args: argparse.Namespace) -> int:
    """Propose a layout and print it, or what could still be planted."""
    if args.output:
        refuse_existing(args.output)
    if args.effort is not None and args.seconds is not None:
        raise UsageError(
            say("search either by --effort or by --seconds"), "--effort", say("Leave one of them out")
        )
    plan = plan_of(args)
    beds = {bed.id for bed in beds_named(plan, args.bed)} if args.bed else None
    if args.fill:
        return _fill(args, plan, beds)
    return _propose(args, _with_wishes(args, plan), beds)


def _with_wishes(args: argparse.Namespace, plan: Plan) -> Plan:
    """The plan of the year that is laid out, with its wishes."""
    from planner.garden import edits
    from planner.plan import Plan as AnyPlan
    from planner.proposal.wishes import wishes_from, wishes_to_eat

    garden = plan.garden
    if args.wishes == "plantings":
        year = plan.year if args.year is not None else plan.year + 1
        wishes = wishes_from(AnyPlan(garden, year - 1))
    elif args.wishes == "household":
        year = plan.year
        wishes = wishes_to_eat(plan)
    else:
        wished = sorted({one.year for one in garden.wishes})
        year = args.year if args.year is not None else wished[-1] if wished else plan.year
        wishes = ()
    garden = edits.add_wishes(garden, wishes)
    if not any(one.year == year for one in garden.wishes):
        raise UsageError(
            say("{file} has no wishes for {year}", file=args.file, year=year),
            fix=say(
                "Turn the year, type wishes on the Wishes page, or make them with --wishes plantings or --wishes household"
            ),
        )
    return AnyPlan(garden, year)


def _propose(args: argparse.Namespace, plan: Plan, beds: set[str] | None) -> int:
    from planner.listings.filling import bare_lines_of_year
    from planner.listings.proposal import forbidding_lines, proposal_lines, unlike_lines
    from planner.proposal.open_wishes import open_wishes
    from planner.proposal.propose import propose, unlike
    from planner.proposal.reasons import Reasons
    from planner.storage import save

    *_, found = propose(
        plan,
        beds=beds,
        rounds=args.effort,
        seconds=args.seconds,
        seed=args.seed,
        prove=PROOF if args.prove else 0.0,
    )
    garden = found.garden
    reasons = None if args.no_reasons else Reasons(found.of, found.layout)
    if args.output:
        save(garden, args.output)
    if args.json:
        from planner.listings.reports.proposal import proposal_report

        print_report(proposal_report(found, reasons))
        return 0
    lines = proposal_lines(found, reasons)
    after = found.of.plan.what_if(garden)
    bare = bare_lines_of_year(after, [strip.bed for strip in found.of.strips], open_wishes(found))
    lines += ["", *bare] if bare else []
    if args.forbids:
        lines += ["", *forbidding_lines(found, reasons or Reasons(found.of, found.layout))]
    for number, one in enumerate(unlike(found, args.unlike, seed=args.seed) if args.unlike else (), 1):
        lines += ["", *unlike_lines(found, one, number)]
    print_lines(*lines, *(("", say("{file}: written", file=args.output)) if args.output else ()))
    return 0


def _fill(args: argparse.Namespace, plan: Plan, beds: set[str] | None) -> int:
    from planner.listings.filling import filling_lines
    from planner.proposal.filling import fillings

    first = day_typed(plan, "--fill", args.fill)
    asked = [bed for bed in plan.beds if beds is None or bed.id in beds]
    found = [(bed, fillings(plan, bed, first)[:SHOWN]) for bed in asked]
    if args.json:
        from planner.listings.reports.filling import filling_report

        print_report(filling_report(plan, first, found))
        return 0
    print_lines(*filling_lines(plan, first, found))
    return 0
