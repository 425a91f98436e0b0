"""``bedwright turn``: begin the next growing year with what this one leaves to it."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.arguments import add_garden_and_year, add_json
from planner.cli.errors import UsageError
from planner.cli.output import print_lines, print_report, refuse_existing
from planner.cli.plans import day_typed, plan_of
from planner.words import later, say

if TYPE_CHECKING:
    import datetime as dt

    from planner.garden.planting import Work
    from planner.garden.records import EndedWhy
    from planner.plan import Plan

NAME = "turn"


#: What follows a list of open work.
_HOW_TO_ANSWER = later(
    "Answer for open work with --done ID, --not-begun ID, --ended ID=WHY or --as-planned; what is not answered is asked again."
)


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Begin the next growing year: what stays, what is to be renewed, open work, seed used and saved, wishes"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden, the answers and where the new one goes."""
    add_garden_and_year(parser)
    parser.add_argument(
        "-o", dest="output", metavar="NEW", required=True, help=say("the file to make; never overwritten")
    )
    parser.add_argument(
        "--repeat",
        metavar="WHAT",
        action="append",
        default=[],
        help=say(
            "repeat plantings where they may stand: an id, a crop, or 'all' that was begun in the year; more than once"
        ),
    )
    parser.add_argument(
        "--not-begun",
        metavar="ID",
        action="append",
        default=[],
        help=say("a planting that was never sown or planted"),
    )
    parser.add_argument(
        "--ended",
        metavar="ID=WHY",
        action="append",
        default=[],
        help=say(
            "how a planting ended, as p12=eaten or p12=frozen:2026-10-20; WHY is harvested, failed, eaten, frozen, resown, "
            "bolted or 'made room'"
        ),
    )
    parser.add_argument(
        "--done",
        metavar="ID",
        action="append",
        default=[],
        help=say("a planting whose open work was done on its planned days"),
    )
    parser.add_argument(
        "--as-planned",
        action="store_true",
        help=say(
            "all open work that is not answered for was done on its planned day; not what is still to come"
        ),
    )
    parser.add_argument(
        "--day",
        metavar="D",
        help=say("what is planned for a day after this one is still to come; today where not given"),
    )
    parser.add_argument("--no-wishes", action="store_true", help=say("make no wishes for the next year"))
    add_json(parser, say("tell what was found as JSON"))


def run(args: argparse.Namespace) -> int:
    """Turn the year, write the garden and tell what was found."""
    import datetime as dt

    from planner.listings.turn import turn_lines
    from planner.plan import Plan
    from planner.proposal.turn import Answers, turn_year
    from planner.storage import save

    refuse_existing(args.output)
    plan = plan_of(args)
    answers = Answers(
        not_begun=frozenset(args.not_begun),
        ended=dict(_ended(plan, text) for text in args.ended),
        done=_done(plan, args.done),
        as_planned=args.as_planned,
        until=day_typed(plan, "--day", args.day) if args.day else dt.date.today(),
        repeat=_repeated(plan, args),
        wishes=not args.no_wishes,
    )
    turn = turn_year(plan, answers)
    save(turn.garden, args.output)
    after = Plan(turn.garden, turn.year, plan.catalogue)
    if args.json:
        from planner.listings.reports.turn import turn_report

        print_report(turn_report(plan.after(turn.garden), after, turn))
        return 0
    print_lines(
        *turn_lines(after, turn),
        *(("", say(_HOW_TO_ANSWER)) if turn.unfinished else ()),
        "",
        say("{file}: {year} begins", file=args.output, year=turn.year),
    )
    return 0


def _done(plan: Plan, keys: list[str]) -> dict[tuple[str, Work], dt.date]:
    """The open work of plantings, each on its planned day."""
    from planner.proposal.turn import unfinished_work

    for key in keys:
        if key not in plan.garden.plantings_by_id:
            raise UsageError(
                say("there is no planting '{key}'", key=key),
                "--done",
                say("bedwright tasks --json names them"),
            )
    return {(one.planting, one.kind): one.date for one in unfinished_work(plan) if one.planting in keys}


def _ended(plan: Plan, text: str) -> tuple[str, tuple[dt.date, EndedWhy]]:
    """Read how a planting ended; without a day it ended on its planned last day."""
    from planner.garden.records import ENDED_WHY

    key, _, rest = text.partition("=")
    why, _, typed = rest.partition(":")
    planting = plan.garden.plantings_by_id.get(key)
    if planting is None:
        raise UsageError(
            say("there is no planting '{key}'", key=key), "--ended", say("bedwright tasks --json names them")
        )
    found = next((one for one in ENDED_WHY if one == why.strip()), None)
    if found is None:
        raise UsageError(
            say("'{why}' is no way to end", why=why),
            "--ended",
            say("Possible are {names}", names=", ".join(ENDED_WHY)),
        )
    span = plan.span_of(planting)
    return key, (day_typed(plan, "--ended", typed) if typed else min(span.last, plan.span.last), found)


def _repeated(plan: Plan, args: argparse.Namespace) -> tuple[str, ...]:
    """Ids of the plantings to repeat."""
    from planner.proposal.repeat import repeatable

    begun = repeatable(plan)
    found: list[str] = []
    for text in args.repeat:
        crop = plan.catalogue.named(text)
        meant = [
            one.id for one in begun if text in ("all", one.id) or (crop is not None and one.crop == crop.key)
        ]
        if not meant:
            raise UsageError(
                say("nothing that was begun in {year} is '{text}'", year=plan.year, text=text),
                "--repeat",
                say("Name a planting's id, a crop, or all"),
            )
        found += meant
    return tuple(dict.fromkeys(found))
