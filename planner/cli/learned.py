"""``bedwright learned``: a garden's own figures beside the published ones, and whether they are used."""

from __future__ import annotations

import argparse
from typing import TYPE_CHECKING

from planner.cli.arguments import add_json, add_tables
from planner.cli.errors import UsageError
from planner.cli.output import (
    is_table,
    print_lines,
    print_report,
    refuse_bom_alone,
    terminal_room,
    write_table,
)
from planner.cli.suggestions import either
from planner.words import say

if TYPE_CHECKING:
    from planner.garden import Garden

NAME = "learned"
#: Options that say of a figure whether it is used, and what they say.
_ANSWERS = {"--use": True, "--leave": False, "--by-rule": None}


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Show a garden's own figures beside the published ones, and say whether they are used")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden file, what is used, and the kind of output."""
    parser.add_argument("file", metavar="FILE", help=say("a garden file"))
    texts = {
        "--use": say(
            "use the garden's own figure of a crop, however few its years: carrot yield, or with a variety"
        ),
        "--leave": say("leave the garden's own figure of a crop out"),
        "--by-rule": say("use it from three years on, as where nothing is said"),
    }
    for option, text in texts.items():
        parser.add_argument(
            option,
            metavar=("CROP", "FIGURE"),
            nargs="+",
            action="append",
            default=[],
            dest=option.strip("-").replace("-", "_"),
            help=text,
        )
    whole = parser.add_mutually_exclusive_group()
    whole.add_argument("--never", action="store_true", help=say("use none of it in this garden"))
    whole.add_argument("--after-three-years", action="store_true", help=say("use it again"))
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)


def run(args: argparse.Namespace) -> int:
    """Write what is chosen into the garden file, and print the figures."""
    import datetime as dt

    from planner.garden import edits
    from planner.listings.learned import learned_lines
    from planner.listings.reports.learned import LEARNED_COLUMNS, learned_report, learned_rows
    from planner.plan import Plan
    from planner.season.spans import usual_year
    from planner.storage import read, save

    refuse_bom_alone(args)
    known = read(args.file)
    garden = known.garden
    for option, used in _ANSWERS.items():
        for words in getattr(args, option.strip("-").replace("-", "_")):
            garden = _chosen(garden, words, option, used=used)
    if args.never or args.after_three_years:
        garden = edits.use_learned(garden, "never" if args.never else "after three years")
    if garden is not known.garden:
        save(garden, args.file, known)
    plan = Plan(garden, usual_year(garden, dt.date.today()))
    if args.json:
        print_report(learned_report(plan))
    elif is_table(args):
        write_table(learned_rows(plan), LEARNED_COLUMNS, args, args.file, NAME)
    else:
        print_lines(*learned_lines(plan, terminal_room()))
    return 0


def _chosen(garden: Garden, words: list[str], option: str, *, used: bool | None) -> Garden:
    from planner.crops import load_catalogue
    from planner.garden import edits
    from planner.garden.learned import LEARNED_KINDS
    from planner.garden.own_catalogue import own_catalogue

    if not 2 <= len(words) <= 3:
        raise UsageError(
            say("{option} wants a crop, a figure and perhaps a variety", option=option),
            fix=say("{option} carrot yield Early", option=option),
        )
    crop = own_catalogue(load_catalogue(), garden).named(words[0])
    if crop is None:
        raise UsageError(
            say("there is no crop '{words}'", words=words[0]), option, say("bedwright crops lists them")
        )
    figure = next((kind for kind in LEARNED_KINDS if kind == words[1].casefold()), None)
    if figure is None:
        raise UsageError(
            say("there is no figure '{words}'", words=words[1]),
            option,
            say("There is {either}", either=either(LEARNED_KINDS)),
        )
    return edits.choose_learned(garden, crop.key, figure, used, words[2] if len(words) == 3 else "")
