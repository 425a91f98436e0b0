"""``bedwright schema``: the JSON Schema of a garden file, or of what a command writes as JSON."""

from __future__ import annotations

import argparse

from planner.cli.output import print_json
from planner.words import say

NAME = "schema"
#: Name of the schema of a garden file.
GARDEN = "garden"
#: Names of the schemas of reports (``planner.listings.reports.schemas``, which takes long to import).
REPORTS = (
    "amounts",
    "raising",
    "covers",
    "supports",
    "ground",
    "shopping",
    "harvest",
    "store",
    "enough",
    "tasks",
    "records",
    "turn",
    "propose",
    "filling",
    "check",
    "odds",
    "sun",
    "water",
    "map",
    "weather",
    "years",
    "learned",
    "trials",
    "crops",
    "coverage",
)


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Print the JSON Schema of a garden file, or of a command's JSON")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the name of the schema."""
    parser.add_argument(
        "name",
        metavar="NAME",
        nargs="?",
        choices=(GARDEN, *REPORTS),
        default=GARDEN,
        help=say(
            "{garden} where not given, or the JSON of a command: {names}",
            garden=GARDEN,
            names=", ".join(REPORTS),
        ),
    )


def run(args: argparse.Namespace) -> int:
    """Print the schema."""
    from planner.storage import garden_schema

    if args.name == GARDEN:
        print_json(garden_schema())
    else:
        from planner.listings.reports.schemas import report_schema

        print_json(report_schema(args.name))
    return 0
