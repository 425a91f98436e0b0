"""Text on paper that always fits: how wide a line is, and where it is broken.

Sizes are in points, widths in millimetres.  How a line is divided among fonts is in :mod:`planner.sheets.text_pieces`.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from planner.sheets.font_files import Style as Style
from planner.sheets.font_files import loaded_font
from planner.sheets.text_pieces import belongs_to_letter, pieces

#: No figure on paper is smaller: it is read outdoors, at arm's length. [points]
LEAST_SIZE = 8.0
#: A point in millimetres.
POINT = 25.4 / 72.0
#: A millimetre in points.
MM = 72.0 / 25.4


def font_name(key: str) -> str:
    """Name under which reportlab knows a font; loads it at its first use."""
    return str(loaded_font(key).fontName)


@lru_cache(maxsize=16384)
def _unit_width(text: str, style: Style) -> float:
    return sum(part.width for part in pieces(text, style)) / 1000.0


def width(text: str, size: float, style: Style = "regular") -> float:
    """Return the width of a line. [mm]

    Parameters
    ----------
    text : str
    size : float
        [points]
    style : {"regular", "bold", "italic"}
    """
    return _unit_width(text, style) * size * POINT


def fitted_size(
    text: str, room: float, size: float, style: Style = "regular", least: float = LEAST_SIZE
) -> float:
    """Return the largest size at which a line fits. [points]

    Parameters
    ----------
    text : str
    room : float
        Width for the line. [mm]
    size, least : float
        Largest and smallest size. [points]
    style : {"regular", "bold", "italic"}
    """
    wide = width(text, size, style)
    if wide <= room:
        return size
    return max(least, size * room / wide)


def _is_ideograph(char: str) -> bool:
    return unicodedata.east_asian_width(char) in ("W", "F")


@lru_cache(maxsize=4096)
def wrap(text: str, room: float, size: float, style: Style = "regular") -> tuple[str, ...]:
    """Break text into lines that fit, at its own line breaks and between words.

    Words are broken only where they do not fit on a line by themselves.

    Parameters
    ----------
    text : str
    room : float
        Width for a line. [mm]
    size : float
        [points]
    style : {"regular", "bold", "italic"}

    Returns
    -------
    tuple of str
        None for empty text.
    """
    lines: list[str] = []
    for paragraph in text.splitlines():
        lines += _wrapped(paragraph.replace("\t", " ").strip(), room, size, style) or [""]
    while lines and not lines[-1]:
        lines.pop()
    return tuple(lines)


def _wrapped(text: str, room: float, size: float, style: Style) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in _words(text):
        if not line or width((line + word).rstrip(), size, style) <= room:
            line += word
        else:
            lines.append(line.rstrip())
            line = word.lstrip()
        while width(line.rstrip(), size, style) > room and len(line.rstrip()) > 1:
            cut = _longest_fit(line, room, size, style)
            lines.append(line[:cut])
            line = line[cut:]
    if line.strip():
        lines.append(line.rstrip())
    return lines


def _words(text: str) -> list[str]:
    """Pieces between which a line may break, each with its following spaces.

    A no-break space holds a number and its unit together.
    """
    words: list[str] = []
    for word in re.findall(r"[^ ]+ *", text):
        piece = ""
        for char in word:
            if piece and (_is_ideograph(char) or _is_ideograph(piece[-1])) and not char.isspace():
                words.append(piece)
                piece = ""
            piece += char
        words.append(piece)
    return words


def _longest_fit(line: str, room: float, size: float, style: Style) -> int:
    """Number of signs of a line that fit; at least one, and no mark without its letter."""
    low, high = 1, len(line)
    while low < high:
        middle = (low + high + 1) // 2
        if width(line[:middle], size, style) <= room:
            low = middle
        else:
            high = middle - 1
    while 1 < low < len(line) and belongs_to_letter(line, low):
        low -= 1
    return low


def line_height(size: float) -> float:
    """Return the distance from one line of text to the next. [mm]"""
    return size * POINT * 1.28
