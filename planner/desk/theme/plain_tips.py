"""Tool tips that show names as they are: Qt takes what looks like markup for markup."""

from __future__ import annotations

import html


def plain_tip(text: str) -> str:
    """Return what to set as a tool tip so that it shows this very text.

    Parameters
    ----------
    text : str
        May hold names that a person has typed.
    """
    if "<" not in text:  # Qt looks for a tag
        return text
    return "<span>" + html.escape(text).replace("\n", "<br>") + "</span>"


def wrapped_tip(text: str) -> str:
    """Return what to set as a tool tip so that a long text is broken into lines: Qt breaks only what is marked up."""
    return "<span>" + html.escape(text).replace("\n", "<br>") + "</span>"
