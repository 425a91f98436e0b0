"""What the parser of the standard library says, in the program's language."""

from __future__ import annotations

import argparse

from planner.words import later, say

#: Its messages that a user can meet; in percent signs are their parts, which it fills in itself.
_MESSAGES = {
    "usage: ": later("usage: "),
    "positional arguments": later("positional arguments"),
    "options": later("options"),
    "show this help message and exit": later("show this help message and exit"),
    "show program's version number and exit": later("show program's version number and exit"),
    "argument %(argument_name)s: %(message)s": later("argument %(argument_name)s: %(message)s"),
    "unrecognized arguments: %s": later("unrecognized arguments: %s"),
    "not allowed with argument %s": later("not allowed with argument %s"),
    "ignored explicit argument %r": later("ignored explicit argument %r"),
    "the following arguments are required: %s": later("the following arguments are required: %s"),
    "one of the arguments %s is required": later("one of the arguments %s is required"),
    "expected one argument": later("expected one argument"),
    "expected at most one argument": later("expected at most one argument"),
    "expected at least one argument": later("expected at least one argument"),
    "ambiguous option: %(option)s could match %(matches)s": later(
        "ambiguous option: %(option)s could match %(matches)s"
    ),
    "invalid %(type)s value: %(value)r": later("invalid %(type)s value: %(value)r"),
    "invalid choice: %(value)r (choose from %(choices)s)": later(
        "invalid choice: %(value)r (choose from %(choices)s)"
    ),
}


def _said(message: str) -> str:
    return say(_MESSAGES[message]) if message in _MESSAGES else message


def speak_through_catalogue() -> None:
    """Have the parser look its messages up in the catalogue of sentences; it looks up each where it says it."""
    vars(argparse)["_"] = _said
