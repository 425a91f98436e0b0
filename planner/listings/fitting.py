"""Text broken into lines that are no wider than a terminal."""

from __future__ import annotations

from collections.abc import Iterable

from planner.listings.widths import width

#: A line that is broken goes on so far behind its indent. [columns]
HANG = 2


def broken(text: str, room: int) -> list[str]:
    """A text as lines no wider than some room, broken between words, and inside a word that is wider than a line.

    >>> broken("two rows of garlic", 10)
    ['two rows', 'of garlic']

    Parameters
    ----------
    text : str
    room : int
        At least 1. [columns]
    """
    if width(text) <= room:
        return [text]
    lines, line = [], ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if width(longer) <= room:
            line = longer
            continue
        if line:
            lines.append(line)
        *whole, line = _pieces(word, room)
        lines += whole
    return [*lines, line] if line or not lines else lines


def _pieces(word: str, room: int) -> list[str]:
    """A word in pieces no wider than some room, behind an underscore where there is one; marks stay with their sign."""
    pieces, piece = [], ""
    for sign in word:
        if piece and width(piece + sign) > room:
            at = piece.rfind("_") + 1 or len(piece)
            pieces.append(piece[:at])
            piece = piece[at:]
        piece += sign
    return [*pieces, piece]


def fitted(lines: Iterable[str], room: int | None) -> list[str]:
    """Lines with those broken that are wider than some room; what goes on is indented a little more.

    Parameters
    ----------
    lines : iterable of str
    room : int or None
        None where any width is right. [columns]
    """
    if room is None:
        return list(lines)
    found = []
    for line in lines:
        if width(line) <= room:
            found.append(line)
            continue
        text = line.lstrip(" ")
        indent = min(len(line) - len(text), room // 2)
        hang = min(indent + HANG, room // 2)
        first, *_ = broken(text, room - indent)
        rest = text[len(first) :] if text.startswith(first) else " ".join(text.split())[len(first) :]
        found.append(" " * indent + first)
        found += [" " * hang + part for part in broken(rest, room - hang)] if rest.strip() else []
    return found
