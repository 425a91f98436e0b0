"""Words that several checks use."""

from __future__ import annotations

import math
import re

from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length
from planner.words import percent, say, say_in_context

#: Share of some ground from which on it is called all of it.
ALL = 0.985


def share_words(share: float) -> str:
    """A share of some ground.

    Examples
    --------
    >>> share_words(0.35), share_words(0.99)
    ('35 %', 'all')
    """
    # For translators: of some ground, in place of a percentage.
    return say("all") if share > ALL else percent(share)


_METRIC = re.compile(r"(\d+(?:\.\d+)?)( x \d+(?:\.\d+)?)? (m²|m)(?![\w²])")


def in_units(text: str, units: UnitSystem) -> str:
    """A sentence of the ground rooms, whose lengths and areas are in metres, in the garden's units.

    Parameters
    ----------
    text : str
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> in_units("the plot is 1.22 m across", "feet_inches")
    'the plot is 4 ft across'
    """
    if units == "metric":
        return text

    def in_feet(match: re.Match[str]) -> str:
        first, second, unit = match.groups()
        if unit == "m²":
            return show_area(float(first), units)
        sides = (first, second.removeprefix(" x ")) if second else (first,)
        return " x ".join(show_length(float(side), units) for side in sides)

    return _METRIC.sub(in_feet, text)


def significant(value: float, digits: int = 6) -> str:
    """A number in a sentence with at most so many significant digits, without zeros at its end.

    Parameters
    ----------
    value : float
    digits : int

    Examples
    --------
    >>> significant(2.0), significant(2.5), significant(0.0154, 2)
    ('2', '2.5', '0.015')
    """
    return format(value, "." + str(digits) + "g").replace(".", say_in_context("decimal sign", "."))


def plural_of(value: float) -> int:
    """The whole number in whose plural form a number of things is written: "1 year", but "0.5 years".

    Examples
    --------
    >>> plural_of(1.0), plural_of(0.5), plural_of(3.0)
    (1, 2, 3)
    """
    return int(value) if value == int(value) else max(2, math.ceil(value))
