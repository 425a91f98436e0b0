"""``bedwright new``: start a garden file from a sample."""

from __future__ import annotations

import argparse

from planner.cli.output import print_lines, refuse_existing
from planner.cli.samples import sample, samples
from planner.words import say

NAME = "new"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Start a garden file from a sample")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the file to make and the sample it begins as."""
    parser.add_argument("file", metavar="FILE", help=say("the garden file to make; never overwritten"))
    parser.add_argument(
        "--sample",
        metavar="NAME",
        required=True,
        help=say("one of {value}", value=", ".join(samples()) or "none"),
    )


def run(args: argparse.Namespace) -> int:
    """Write the sample under the new name."""
    from planner.storage import load, save

    refuse_existing(args.file)
    save(load(sample(args.sample)), args.file)
    print_lines(say("{file}: begun from the sample {sample}", file=args.file, sample=args.sample))
    return 0
