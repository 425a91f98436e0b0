"""``bedwright schema``: the JSON Schema of a garden file."""

from __future__ import annotations

import argparse

from planner.cli.output import print_json

NAME = "schema"
HELP = "Print the JSON Schema of a garden file"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add nothing: the command has no arguments."""


def run(args: argparse.Namespace) -> int:
    """Print the schema."""
    from planner.storage import garden_schema

    print_json(garden_schema())
    return 0
