"""``bedwright join``: join two gardens that began as the same one."""

from __future__ import annotations

import argparse
import os
from typing import TYPE_CHECKING

from planner.cli.output import print_lines, refuse_existing
from planner.words import say

if TYPE_CHECKING:
    from planner.garden import Garden

NAME = "join"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say(
        "Join two gardens that began as the same one; exit 1 when both changed the same in different ways"
    )


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the three gardens, and where the joined one goes."""
    parser.add_argument(
        "base", metavar="BASE", help=say("the garden that both began with; may be an empty file")
    )
    parser.add_argument("mine", metavar="MINE", help=say("its values stay where both changed the same"))
    parser.add_argument("theirs", metavar="THEIRS", help=say("the other garden"))
    where = parser.add_mutually_exclusive_group(required=True)
    where.add_argument("-o", dest="output", metavar="NEW", help=say("the file to make; never overwritten"))
    where.add_argument("--merge", action="store_true", help=say("replace MINE, as a merge driver does"))


def run(args: argparse.Namespace) -> int:
    """Join, write and list what both changed; 1 where there is any."""
    from planner.crops import load_catalogue
    from planner.garden.conflict_words import conflict_words
    from planner.garden.join import join
    from planner.storage import load, save

    if not args.merge:
        refuse_existing(args.output)
    mine, theirs = load(args.mine), load(args.theirs)
    joined = join(_base(args.base), mine, theirs)
    target = args.mine if args.merge else args.output
    if not args.merge or joined.garden != mine:
        save(joined.garden, target)
    crop_name = load_catalogue().in_words(joined.garden.site.english).name_of
    print_lines(
        *(
            say("{file}: {what}", file=target, what=conflict_words(joined.garden, one, crop_name))
            for one in joined.conflicts
        ),
        say("{target}: joined", target=target)
        if not joined.conflicts
        else say(
            "{target}: joined; the differences are kept in it as findings, to be settled", target=target
        ),
    )
    return 1 if joined.conflicts else 0


def _base(path: str) -> Garden | None:
    """The garden that both began with; None for an empty file, which stands for no such garden."""
    from planner.plain_file import open_plain
    from planner.storage import load

    if path == os.devnull:
        return None
    try:
        with open_plain(path) as file:
            if not file.read(1):
                return None
    except OSError:
        pass  # load says what is wrong
    return load(path)
