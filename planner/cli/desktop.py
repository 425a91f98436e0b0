"""``bedwright desktop``: the program in the menu of a desktop of Linux, and its files opened by a double click."""

from __future__ import annotations

import argparse
import os
import sys

from planner.cli import desktop_files
from planner.cli.errors import OutputError, UsageError
from planner.cli.output import print_lines
from planner.words import say, say_count

NAME = "desktop"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Put Bedwright into the menu of your desktop, or take it out (Linux)")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add what to do."""
    what = parser.add_mutually_exclusive_group(required=True)
    what.add_argument(
        "--install",
        action="store_true",
        help=say("an entry with its icon, and garden files (.bedwright) that open in the desk"),
    )
    what.add_argument("--remove", action="store_true", help=say("take away what --install has written"))


def run(args: argparse.Namespace) -> int:
    """Write the files for this user, or remove them; without a desktop of Linux say so."""
    if sys.platform in ("win32", "darwin"):
        raise UsageError(
            say("this is for desktops of Linux alone"), NAME, say("DEVELOPERS.md tells how a bundle is made")
        )
    folder = desktop_files.data_folder(os.environ)
    try:
        if args.install:
            done = desktop_files.install(folder, desktop_files.launcher())
            words = say_count("{count} file is written", "{count} files are written", len(done))
        else:
            done = desktop_files.remove(folder)
            words = say_count("{count} file is removed", "{count} files are removed", len(done))
    except OSError as error:
        raise OutputError(
            say("it cannot be changed ({reason})", reason=error.strerror or str(error)),
            str(folder),
            say("Give yourself the right to write there"),
        ) from None
    print_lines(say("{words} below {folder}", words=words, folder=str(folder)))
    if done:
        print_lines(*desktop_files.update_desktop(folder))
    return 0
