"""Weights of harvests as they are shown."""

from __future__ import annotations

import math

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.garden.weight_words import OUNCE, POUND, weight_words
from planner.words import number_words, say

__all__ = [
    "OUNCE",
    "POUND",
    "parse_weight",
    "seed_weight_words",
    "weight_cell",
    "weight_head",
    "weight_words",
]

#: Grams of each unit that may be typed.
_TYPED = {"kg": 1000.0, "g": 1.0, "lb": POUND, "lbs": POUND, "oz": OUNCE}


def seed_weight_words(grams: float, units: UnitSystem) -> str:
    """A weight of seed in a sentence: ``0.4 g``, ``12 g``; of a garden in feet ``0.4 oz``.

    Examples
    --------
    >>> seed_weight_words(0.42, "metric"), seed_weight_words(123.4, "metric"), seed_weight_words(42.5, "feet_inches")
    ('0.4 g', '123 g', '1.5 oz')
    """
    if units == "feet_inches":
        return say("{number} oz", number=number_words(grams / OUNCE, 2 if grams < 3 else 1))
    if grams < 10:
        return say("{number} g", number=number_words(grams, 1 if grams >= 0.1 else 2))
    return weight_words(grams, units)


def weight_cell(grams: float, units: UnitSystem) -> str:
    """A weight in a column whose heading has the unit: kilograms, or pounds of a garden in feet, to a hundredth.

    Examples
    --------
    >>> weight_cell(342, "metric"), weight_cell(0, "metric"), weight_cell(453.6, "feet_inches")
    ('0.34', '-', '1.00')
    """
    if not grams:
        return "-"
    return number_words(grams / (POUND if units == "feet_inches" else 1000), 2)


def weight_head(units: UnitSystem) -> str:
    """The unit of such a column."""
    return "lb" if units == "feet_inches" else "kg"


def parse_weight(text: str, units: UnitSystem) -> float:
    """Read a weight as it is typed: a bare number is kilograms, or pounds of a garden in feet. [g]

    Parameters
    ----------
    text : str
        A decimal point or comma, and perhaps a unit: kg, g, lb or oz.
    units : {"metric", "feet_inches"}

    Raises
    ------
    BedwrightError
        Where it is none.

    Examples
    --------
    >>> parse_weight("1,5", "metric"), parse_weight("250 g", "feet_inches"), round(parse_weight("2", "feet_inches"))
    (1500.0, 250.0, 907)
    """
    words = text.strip().casefold()
    unit = next((one for one in sorted(_TYPED, key=len, reverse=True) if words.endswith(one)), "")
    number = words.removesuffix(unit).strip().replace(",", ".")
    try:
        value = float(number)
    except ValueError:
        value = math.nan
    if not math.isfinite(value) or value < 0 or "_" in number:
        raise BedwrightError(
            say("'{text}' is no weight", text=text),
            fix=say("Type one like 1.5 {unit}", unit=weight_head(units)),
        )
    return value * _TYPED[unit or weight_head(units)]
