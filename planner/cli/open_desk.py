"""``bedwright open``: open the desk with a garden, a sample, or neither."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from functools import partial
from pathlib import Path

from planner.cli.command_words import command_text
from planner.cli.errors import UsageError
from planner.cli.samples import sample
from planner.words import say

NAME = "open"


def help_words() -> str:
    """What the command does, in one line without a full stop."""
    return say("Open the desk")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Add the garden file and the sample."""
    parser.add_argument(
        "file", metavar="FILE", nargs="?", help=say("a garden file; none: where one left off")
    )
    parser.add_argument("--sample", metavar="NAME", help=say("a copy of a sample garden instead"))


def run(args: argparse.Namespace) -> int:
    """Open the desk; the only command that loads Qt."""
    path: str | None = args.file
    if args.sample is not None:
        if path is not None:
            raise UsageError(
                say("a file and a sample cannot both be opened"), "open", say("Name one of them")
            )
        path = sample(args.sample).stem
    elif path is not None and not Path(path).is_file():
        what = say("is a folder, not a garden file") if Path(path).is_dir() else say("there is no such file")
        raise UsageError(what, path, say("Check the name; bedwright new makes a garden from a sample"))
    has_display = any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))
    if sys.platform.startswith("linux") and not has_display:
        raise UsageError(
            say("there is no display to open a window on"),
            fix=say("Start it on a desktop; bedwright sheets and bedwright amounts need none"),
        )
    gc.disable()  # the window collects garbage itself; what is imported meanwhile is none
    try:
        from planner.desk import app
    except ImportError as error:
        raise UsageError(
            say("the window's parts do not load ({error})", error=error),
            fix=say("Run: python3 planner/bootstrap.py run"),
        ) from None
    finally:
        gc.enable()
    code: int = app.run(path, args.sample is not None, partial(command_text, args.program))
    return code
