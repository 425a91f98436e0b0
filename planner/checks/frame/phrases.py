"""Words that the checks have in common."""

from __future__ import annotations

import math
import re

from planner.garden.site import UnitSystem
from planner.garden.units import show_area, show_length

from planner.words import number_words, say_in_context

_FAMILIES = {
    "Amaranthaceae": "beet family", "Amaryllidaceae": "onion family", "Apiaceae": "carrot family",
    "Asteraceae": "daisy family", "Brassicaceae": "cabbage family", "Cucurbitaceae": "cucumber family",
    "Fabaceae": "pea family", "Lamiaceae": "mint family", "Poaceae": "grass family",
    "Rosaceae": "rose family", "Solanaceae": "potato family", "Polygonaceae": "rhubarb family",
    "Ranunculaceae": "buttercup family", "Grossulariaceae": "currant family",
}  # fmt: skip


def family_words(family: str) -> str:
    """A family as a gardener says it, with its botanical name."""
    common = _FAMILIES.get(family)
    return f"the {common} ({family})" if common else family


def share_words(share: float) -> str:
    """A share of some ground in words: all, 35 %."""
    return "all" if share > 0.985 else f"{share * 100:.0f} %"


def plain_number(value: float) -> str:
    """A number without needless decimals.

    Examples
    --------
    >>> plain_number(6.0), plain_number(4.5)
    ('6', '4.5')
    """
    _, _, decimals = format(value, "g").partition(".")
    return number_words(value, len(decimals))


def many(count: int, one: str, more: str | None = None) -> str:
    """A number of things: 1 station, 3 stations."""
    return f"{count} {one}" if count == 1 else f"{count} {more or one + 's'}"


def plural_days(days: int) -> str:
    """A number of days."""
    return many(days, "day")


_METRIC = re.compile(r"(\d+(?:\.\d+)?)( x \d+(?:\.\d+)?)? (m²|m)(?![\w²])")


def in_units(text: str, units: UnitSystem) -> str:
    """A sentence of the ground rooms, which speak in metres, in the garden's units.

    Examples
    --------
    >>> in_units("the plot is 1.22 m across", "feet_inches")
    'the plot is 4 ft across'
    """
    if units == "metric":
        return text

    def said(match: re.Match[str]) -> str:
        if match[3] == "m²":
            return show_area(float(match[1]), units)
        second = f" x {show_length(float(match[2][3:]), units)}" if match[2] else ""
        return f"{show_length(float(match[1]), units)}{second}"

    return _METRIC.sub(said, text)


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
    """The whole number in whose plural form a number of things is said: "1 year", but "0.5 years".

    Examples
    --------
    >>> plural_of(1.0), plural_of(0.5), plural_of(3.0)
    (1, 2, 3)
    """
    return int(value) if value == int(value) else max(2, math.ceil(value))
