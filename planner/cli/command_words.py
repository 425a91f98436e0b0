"""The command line as a chapter of the manual, from its parser."""

from __future__ import annotations

import argparse
import re
from collections.abc import Iterator

from planner.manual.marks import escaped
from planner.manual.words import ManualWords


def commands_of(parser: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    """The commands of a parser by their names."""
    return {
        name: command
        for action in parser._actions
        if isinstance(action, argparse._SubParsersAction)
        for name, command in action.choices.items()
    }


def command_text(parser: argparse.ArgumentParser, words: ManualWords, _: str = "") -> str:
    """All commands with their arguments, in Markdown; a command's place is ``command.NAME``."""
    return "\n\n".join(
        "\n".join(_command(name, command, words)) for name, command in commands_of(parser).items()
    )


def _command(name: str, command: argparse.ArgumentParser, words: ManualWords) -> Iterator[str]:
    usage = re.sub(r"\s+", " ", command.format_usage()).strip().removeprefix("usage: ")
    description = (command.description or "").removesuffix(".")
    yield f"## bedwright {name} {{#command.{name}}}"
    yield ""
    yield f"{escaped(words.say(description))}."
    yield ""
    yield f"    {usage}"
    yield ""
    for action in command._actions:
        if isinstance(action, argparse._HelpAction) or action.help in (None, argparse.SUPPRESS):
            continue
        yield f"- `{_signature(action)}`: {escaped(words.say(help_of(action)))}"


def help_of(action: argparse.Action) -> str:
    """What the help says of an argument."""
    return (action.help or "").replace("%%", "%")


def _signature(action: argparse.Action) -> str:
    value = action.metavar if action.metavar is not None else "" if action.nargs == 0 else action.dest.upper()
    shown = " ".join(value) if isinstance(value, tuple) else value
    if action.nargs in ("+", "*"):
        shown = f"{shown} ..."
    return " ".join(part for part in (", ".join(action.option_strings), shown) if part)
