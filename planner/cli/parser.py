"""The parser of the command line: the one list of commands.

A command is a module with a ``NAME``, a ``HELP``, ``add_arguments(parser)`` and ``run(args)``; it is
listed in :data:`COMMANDS`, and nowhere else.
"""

from __future__ import annotations

import argparse
import os
from typing import Protocol

from planner import __version__
from planner.cli import (
    amounts,
    check,
    crops,
    desktop,
    draw,
    enough,
    join,
    kitchen,
    learned,
    manual,
    new,
    odds,
    open_desk,
    pocket,
    propose,
    records,
    schema,
    sheets,
    sun,
    take,
    tasks,
    tick,
    trials,
    turn,
    water,
    weather,
    years,
)
from planner.cli.argparse_words import speak_through_catalogue
from planner.cli.arguments import Parser
from planner.cli.errors import UsageError
from planner.cli.suggestions import near_names
from planner.words import say


class Command(Protocol):
    """What the module of a command holds."""

    @property
    def NAME(self) -> str:  # noqa: N802  # a constant of the module
        """The word that is typed."""

    def help_words(self) -> str:
        """What the command does, in one line without a full stop."""

    def add_arguments(self, parser: argparse.ArgumentParser) -> None:
        """Add the command's own arguments."""

    def run(self, args: argparse.Namespace) -> int:
        """Carry the command out and return its exit code."""


#: All commands, in the order of the help.
COMMANDS: tuple[Command, ...] = (
    open_desk,
    new,
    join,
    take,
    amounts,
    enough,
    kitchen,
    tasks,
    tick,
    turn,
    propose,
    years,
    learned,
    trials,
    check,
    odds,
    sun,
    water,
    weather,
    sheets,
    draw,
    pocket,
    records,
    crops,
    schema,
    manual,
    desktop,
)


def make_parser() -> argparse.ArgumentParser:
    """Make the parser of all commands; what it parses has the command's function as ``run``."""
    speak_through_catalogue()
    parser = Parser(
        prog="bedwright",
        description=say("Plan what grows in which bed, how much of it, and when."),
        epilog=say("Without a command the desk opens. bedwright COMMAND --help tells more."),
    )
    parser.add_argument(
        "--version",
        action="version",
        help=say("show program's version number and exit"),
        version=say("Bedwright {version}", version=__version__),
    )
    parser.set_defaults(program=parser)  # the manual lists all commands
    commands = parser.add_subparsers(title=say("commands"), metavar=say("COMMAND"), required=True)
    for command in COMMANDS:
        of_command = commands.add_parser(
            command.NAME,
            help=command.help_words(),
            description=say("{sentence}.", sentence=command.help_words()),
        )
        of_command.set_defaults(run=command.run)
        command.add_arguments(of_command)
    return parser


def with_command(arguments: list[str]) -> list[str]:
    """Return the arguments with the command that is meant: ``open`` where none is given.

    Raises
    ------
    UsageError
        Where the first word is neither a command nor a file.
    """
    first = arguments[0] if arguments else ""
    names = [command.NAME for command in COMMANDS]
    if first in (*names, "-h", "--help", "--version"):
        return arguments
    is_path = first.startswith("-") or any(sign in first for sign in "./\\") or os.path.exists(first)
    if first and not is_path:
        close = near_names(first, names)
        mend = (
            say("Did you mean {names}?", names=close[0])
            if close
            else say("Commands are: {names}", names=", ".join(names))
        )
        raise UsageError(say("there is no command and no file '{first}'", first=first), fix=mend)
    return [open_desk.NAME, *arguments]
