"""Angles as they are typed and shown."""

from __future__ import annotations

import re

from planner.errors import BedwrightError
from planner.words import number_words, say

_DEGREES = re.compile(r"([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(?:°|º|deg(?:rees?)?)?")


def parse_angle(text: str) -> float:
    """Read an angle as typed. [degrees]

    Raises
    ------
    BedwrightError
        If the text is no angle.

    Examples
    --------
    >>> parse_angle("90"), parse_angle("-22,5°"), parse_angle("45 deg")
    (90.0, -22.5, 45.0)
    """
    match = _DEGREES.fullmatch(text.strip().casefold().replace("−", "-").replace("–", "-"))
    if match is None or not text.isprintable():
        raise BedwrightError(
            say("'{text}' is no angle", text=text.strip()), fix=say("Type one like 90 or -22.5")
        )
    return float(match[1].replace(",", "."))


def show_angle(degrees: float) -> str:
    """Show an angle to the tenth of a degree: ``90°``, ``22.5°``.

    Examples
    --------
    >>> show_angle(90.0), show_angle(22.46), show_angle(-0.01)
    ('90°', '22.5°', '0°')
    """
    tenths = round(degrees, 1) + 0.0
    return f"{number_words(tenths, 0 if tenths == round(tenths) else 1)}°"
