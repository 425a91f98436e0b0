"""Text on paper: embedded fonts, every script they cover, and text that always fits.

Text is split into runs by what each font covers; right-to-left text is shaped and put into visual
order first.  Sizes are in points, widths in millimetres.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from functools import cache, lru_cache
from typing import Any, Literal

from planner import resources

Style = Literal["regular", "bold", "italic"]

#: A point in millimetres.
POINT = 25.4 / 72.0
#: A millimetre in points.
MM = 72.0 / 25.4

_FILES = {
    "regular": "IBMPlexSans-Regular",
    "bold": "IBMPlexSans-SemiBold",
    "italic": "IBMPlexSans-Italic",
    "wide": "DejaVuSans",
    "emoji": "NotoEmoji-Regular",
    "cjk": "DroidSansFallbackFull",
}
#: Fonts for signs that the text's own font has not, the first that has them.
_FALLBACKS = ("wide", "emoji", "cjk")
#: Printed for a sign that no font has.
_MISSING = "\ufffd"
#: Invisible signs: joiners, direction marks, variation selectors, skin tones.
_INVISIBLE = re.compile("[\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufe00-\ufe0f\ufeff\U0001f3fb-\U0001f3ff]")


@cache
def _font(key: str) -> Any:
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    name = f"Sheet-{_FILES[key]}"
    font = TTFont(name, str(resources.resource("fonts", f"{_FILES[key]}.ttf")), asciiReadable=False)
    pdfmetrics.registerFont(font)
    return font


def font_name(key: str) -> str:
    """Name under which reportlab knows a font; loads it at its first use."""
    return str(_font(key).fontName)


@cache
def _glyphs(key: str) -> Mapping[int, int]:
    glyphs: Mapping[int, int] = _font(key).face.charToGlyph
    return glyphs


def _covering(char: str, style: Style) -> str | None:
    code = ord(char)
    if code in _glyphs(style):
        return style
    return next((key for key in _FALLBACKS if code in _glyphs(key)), None)


def _is_right_to_left(text: str) -> bool:
    return any(unicodedata.bidirectional(char) in ("R", "AL", "AN") for char in text)


def _visual(text: str) -> str:
    """Text in its order on the line, from left to right, joined letters shaped."""
    if text.isascii():
        return text
    text = unicodedata.normalize("NFC", text)
    if _is_right_to_left(text):
        import arabic_reshaper
        from bidi import get_display

        text = str(get_display(arabic_reshaper.reshape(text)))
    return _INVISIBLE.sub("", text)


@lru_cache(maxsize=8192)
def runs(text: str, style: Style = "regular") -> tuple[tuple[str, str], ...]:
    """Divide one line into pieces, each with the font it is set in, in visual order.

    A sign that no font has is shown as the replacement sign.

    Parameters
    ----------
    text : str
    style : {"regular", "bold", "italic"}

    Returns
    -------
    tuple of (str, str)
        Key of the font and text of each piece.
    """
    found: list[tuple[str, str]] = []
    for char in _visual(text):
        if unicodedata.category(char) == "Cc":
            char = " "
        key = style if char == " " else _covering(char, style)
        if key is None:
            key, char = "wide", _MISSING
        if found and found[-1][0] == key:
            found[-1] = (found[-1][0], found[-1][1] + char)
        else:
            found.append((key, char))
    return tuple(found)


@lru_cache(maxsize=16384)
def _unit_width(text: str, style: Style) -> float:
    return float(sum(_font(key).stringWidth(part, 1000.0) for key, part in runs(text, style))) / 1000.0


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


def fitted_size(text: str, room: float, size: float, style: Style = "regular", least: float = 6.0) -> float:
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
    while 1 < low < len(line) and unicodedata.combining(line[low]):
        low -= 1
    return low


def line_height(size: float) -> float:
    """Return the distance from one line of text to the next. [mm]"""
    return size * POINT * 1.28
