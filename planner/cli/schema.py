"""``bedwright schema``: the JSON Schema of a garden file, or of what a command writes as JSON."""

from __future__ import annotations

import argparse

from planner.cli.output import print_json

NAME = "schema"
HELP = "Print the JSON Schema of a garden file, or of a command's JSON"
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
    "sun",
    "map",
    "weather",
    "years",
    "learned",
    "trials",
    "crops",
    "coverage",
)


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the name of the schema."""
    parser.add_argument(
        "name",
        metavar="NAME",
        nargs="?",
        choices=(GARDEN, *REPORTS),
        default=GARDEN,
        help=f"{GARDEN} where not given, or the JSON of a command: {', '.join(REPORTS)}",
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
