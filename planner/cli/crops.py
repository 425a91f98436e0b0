"""``bedwright crops``: what is known of crops, with the sources."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
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
    from planner.crops import Catalogue, Crop

NAME = "crops"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Show what is known of a crop, with sources")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the crop's name, the table of coverage and the kind of output."""
    parser.add_argument(
        "words", metavar="WORDS", nargs="*", help=say("a name or part of one; all crops where not given")
    )
    kinds = parser.add_mutually_exclusive_group()
    add_json(kinds)
    add_tables(parser, kinds)
    parser.add_argument(
        "--garden", metavar="FILE", help=say("a garden file: its own crops too, named as it names them")
    )
    text = say("how many figures are printed, chosen, derived, practice, estimate or missing instead")
    parser.add_argument("--coverage", action="store_true", help=text)


def run(args: argparse.Namespace) -> int:
    """Print one crop in full, several as a table, or how complete their figures are."""
    from planner.crops import load_catalogue
    from planner.listings.crops import crop_lines, crops_table
    from planner.listings.reports.crops import FIGURE_COLUMNS, crops_report, figure_rows

    refuse_bom_alone(args)
    catalogue = load_catalogue().in_words("british")
    if args.garden is not None:
        from planner.garden.own_catalogue import own_catalogue
        from planner.storage import load

        catalogue = own_catalogue(catalogue, load(args.garden))
    found = _found(catalogue, " ".join(args.words))
    if args.coverage:
        _print_coverage(catalogue, found, args)
    elif args.json:
        print_report(crops_report(catalogue, found))
    elif is_table(args):
        write_table(figure_rows(catalogue, found), FIGURE_COLUMNS, args, args.garden or "", NAME)
    elif len(found) == 1:
        print_lines(*crop_lines(catalogue, found[0], terminal_room()))
    else:
        print_lines(*crops_table(found, terminal_room()))
        print_lines(
            "",
            say(
                "{number} crops. Name one to see its figures: bedwright crops {key}",
                number=len(found),
                key=found[0].key,
            ),
        )
    return 0


def _found(catalogue: Catalogue, words: str) -> Sequence[Crop]:
    """The crops that are meant; all where no words are given."""
    from planner.crops.search import find, near

    found = find(catalogue, words) if words else tuple(catalogue.crops.values())
    if not found:
        close = [crop.name for crop in near(catalogue, words)]
        mend = (
            say("Did you mean {names}?", names=either(close))
            if close
            else say("bedwright crops lists all there are")
        )
        raise UsageError(say("no crop is called '{words}'", words=words), fix=mend)
    return found


def _print_coverage(catalogue: Catalogue, crops: Sequence[Crop], args: argparse.Namespace) -> None:
    from planner.crops.cautions import cautions
    from planner.crops.coverage import coverage
    from planner.crops.neighbours import rules
    from planner.listings.crop_coverage import coverage_lines
    from planner.listings.reports.crops import COVERAGE_COLUMNS, coverage_report, coverage_rows

    for read in (rules, cautions):  # so that a fault in their files is reported here too
        read(catalogue)
    found = coverage(crops)
    if args.json:
        print_report(coverage_report(found))
    elif is_table(args):
        write_table(coverage_rows(found), COVERAGE_COLUMNS, args, args.garden or "", "coverage")
    else:
        print_lines(*coverage_lines(found, terminal_room()))
