"""Latitudes and longitudes as people type them: ``52 N``, ``52° 12' N``, ``52°12'30"N``, ``-33.9``, ``+5212-00007/``.

Degrees may be decimal, or be followed by minutes, or by minutes and seconds; the last number may have a decimal
point or comma.  South and west are a minus or a letter, never both.  Digits without marks are those of ISO 6709:
two (of a longitude three) for the degrees, two for the minutes, two for the seconds.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from planner.errors import BedwrightError
from planner.words import later, number_words, say

#: Digits that are kept of degrees, of which seven are a centimetre on the ground.
DIGITS = 7
#: Digits of degrees that are shown, of which five are a metre.
_SHOWN = 5

_SIGNS = {
    **dict.fromkeys("‐‑‒–—−", "-"),
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("′’‘´`ʹ", "'"),
    **dict.fromkeys("″”“ʺ", '"'),
}
_NUMBER = r"\d+(?:[.,]\d+)?"
_PARTS = re.compile(
    rf"(?P<degrees>{_NUMBER})\s*(?:°|deg(?:rees?)?\b)?"
    rf"(?:[\s:]*(?P<minutes>{_NUMBER})\s*(?:'|min(?:utes?)?\b)?"
    rf"(?:[\s:]*(?P<seconds>{_NUMBER})\s*(?:\"|sec(?:onds?)?\b)?)?)?"
)
_LETTER = re.compile(
    r"(?P<before>north|south|east|west|[nsew])?\s*(?P<sign>[+-])?\s*"
    r"(?P<rest>\d.*?)\s*(?P<after>(?<![a-z])(?:north|south|east|west|[nsew]))?"
)
_COMPACT = re.compile(r"(\d+)((?:[.,]\d+)?)")
#: Longest text that may be a place. [characters]
_LONGEST = 100
#: Two coordinates, as maps and ISO 6709 write a place.
_PLACES = (
    re.compile(rf"([+-]{_NUMBER})([+-]{_NUMBER})(?:[+-]{_NUMBER})?(?:crs\w*)?/?"),
    re.compile(r"(.*\d.*?(?:north|south|[ns]))[\s,;]+(.*\d.*?(?:east|west|[ew]))"),
    re.compile(r"([ns].*\d.*?)[\s,;]+([ew].*\d.*)"),
    re.compile(rf"([+-]?{_NUMBER}°?)(?:\s*;\s*|,\s+|\s+(?=[+-]))([+-]?{_NUMBER}°?)"),
    re.compile(r"([+-]?\d+\.\d+),([+-]?\d+\.\d+)"),
)


class CoordinateError(BedwrightError):
    """What was typed is no latitude or longitude."""


class _Axis(NamedTuple):
    """What sets a latitude apart from a longitude."""

    letters: str  # of the positive and the negative half
    limit: float  # [degrees]
    digits: int  # of whole degrees in ISO 6709
    no_number: str
    out_of_range: str
    other_axis: str
    example: str


_AXES = {
    "latitude": _Axis(
        letters="ns",
        limit=90.0,
        digits=2,
        no_number=later("'{text}' is no latitude"),
        out_of_range=later("'{text}' is no latitude: they end at the poles, at 90 degrees"),
        other_axis=later("'{text}' is a longitude; a latitude is north or south"),
        example=later("Type one like 52.2, 52 N, 52° 12' N or -33.9"),
    ),
    "longitude": _Axis(
        letters="ew",
        limit=180.0,
        digits=3,
        no_number=later("'{text}' is no longitude"),
        out_of_range=later("'{text}' is no longitude: they end at 180 degrees"),
        other_axis=later("'{text}' is a latitude; a longitude is east or west"),
        example=later("Type one like 0.12, 2.6 W, 0° 7' E or -2.6"),
    ),
}


def parse_latitude(text: str) -> float:
    """Read a latitude as typed.

    Returns
    -------
    float
        North is positive. [degrees]

    Raises
    ------
    CoordinateError
        Where it is none.

    Examples
    --------
    >>> parse_latitude("52° 12' N"), parse_latitude("33.9 S")
    (52.2, -33.9)
    """
    return _parse(text, "latitude")


def parse_longitude(text: str) -> float:
    """Read a longitude as typed.

    Returns
    -------
    float
        East is positive. [degrees]

    Raises
    ------
    CoordinateError
        Where it is none.

    Examples
    --------
    >>> parse_longitude("2° 36' W"), parse_longitude("174,8")
    (-2.6, 174.8)
    """
    return _parse(text, "longitude")


def parse_place(text: str) -> tuple[float, float] | None:
    """Read a latitude and a longitude typed together, as maps write them; None where it is not two of them.

    Parameters
    ----------
    text : str

    Examples
    --------
    >>> parse_place("+48.8577+002.295/"), parse_place("52.2, 0.12"), parse_place("52.2")
    ((48.8577, 2.295), (52.2, 0.12), None)
    """
    plain = _folded(text)
    if len(plain) > _LONGEST:
        return None
    for pattern in _PLACES:
        if match := pattern.fullmatch(plain):
            try:
                return parse_latitude(match[1]), parse_longitude(match[2])
            except CoordinateError:
                continue
    return None


def show_latitude(degrees: float) -> str:
    """Show a latitude, as ``52.2° N``."""
    return _show(degrees, "NS")


def show_longitude(degrees: float) -> str:
    """Show a longitude, as ``2.6° W``."""
    return _show(degrees, "EW")


def _show(degrees: float, letters: str) -> str:
    number = number_words(abs(degrees), _SHOWN).rstrip("0").rstrip(".,")
    return f"{number}° {letters[degrees < 0]}"


def _folded(text: str) -> str:
    plain = text.strip().casefold()
    for sign, usual in _SIGNS.items():
        plain = plain.replace(sign, usual)
    return plain.replace("''", '"')


def _parse(text: str, name: str) -> float:
    axis, typed = _AXES[name], text.strip()
    mend = say(_AXES[name].example)
    not_read = CoordinateError(say(_AXES[name].no_number, text=typed), fix=mend)
    match = _LETTER.fullmatch(_folded(text).rstrip("/"))
    if match is None or (match["before"] and match["after"]):
        raise not_read
    letter = (match["before"] or match["after"] or "")[:1]
    if letter and letter not in axis.letters:
        raise CoordinateError(say(_AXES[name].other_axis, text=typed), fix=mend)
    if letter and match["sign"] == "-":
        raise CoordinateError(
            say("'{text}' has a minus and a letter", text=typed), fix=say("Leave one of the two out")
        )
    size = _size(match["rest"], axis, marked=bool(letter or match["sign"]))
    if size is None:
        raise not_read
    if size > axis.limit:
        raise CoordinateError(say(_AXES[name].out_of_range, text=typed), fix=mend)
    negative = match["sign"] == "-" or letter == axis.letters[1]
    return round(-size if negative else size, DIGITS) + 0.0


def _size(text: str, axis: _Axis, *, marked: bool) -> float | None:
    """Degrees, minutes and seconds as degrees; None where it is not that.

    Parameters
    ----------
    text : str
        Without sign and letter.
    axis : _Axis
    marked : bool
        Whether there was a sign or a letter: without one, digits alone are degrees.
    """
    compact = _COMPACT.fullmatch(text)
    if compact and marked and len(compact[1]) in (axis.digits + 2, axis.digits + 4):
        whole, fraction = compact[1], compact[2]
        pairs = [whole[: axis.digits], *re.findall("..", whole[axis.digits :])]
        parts = [*pairs[:-1], pairs[-1] + fraction]
    else:
        match = _PARTS.fullmatch(text)
        if match is None:
            return None
        parts = [part for part in match.groups() if part is not None]
    if any(not part.isdigit() for part in parts[:-1]):  # only the last may have a fraction
        return None
    degrees, *rest = (float(part.replace(",", ".")) for part in parts)
    if any(part >= 60 for part in rest):
        return None
    return degrees + sum(part / 60.0**place for place, part in enumerate(rest, start=1))
