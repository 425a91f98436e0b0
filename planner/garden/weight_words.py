"""Weights of harvests in a sentence."""

from __future__ import annotations

from planner.garden.site import UnitSystem
from planner.words import number_words, say

#: Grams of a pound and of an ounce.
POUND, OUNCE = 453.59237, 28.349523125


def weight_words(grams: float, units: UnitSystem) -> str:
    """A weight in a sentence: ``340 g``, ``3.4 kg``, ``65 kg``; of a garden in feet ``12 oz``, ``7.5 lb``.

    Parameters
    ----------
    grams : float
        [g]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> weight_words(342, "metric"), weight_words(3421, "metric"), weight_words(65340, "metric")
    ('342 g', '3.4 kg', '65 kg')
    >>> weight_words(342, "feet_inches"), weight_words(3421, "feet_inches")
    ('12 oz', '7.5 lb')
    """
    if units == "feet_inches":
        if grams < POUND:
            return say("{number} oz", number=number_words(grams / OUNCE, 0))
        pounds = grams / POUND
        return say("{number} lb", number=number_words(pounds, 0 if pounds >= 20 else 1))
    if grams < 1000:
        return say("{number} g", number=number_words(grams, 0))
    return say("{number} kg", number=number_words(grams / 1000, 0 if grams >= 20_000 else 1))
