"""Volumes and larger masses in the garden's units."""

from __future__ import annotations

from planner.garden.site import UnitSystem
from planner.garden.units import FOOT
from planner.words import number_words, say

#: Litres of a cubic foot and of a cubic yard.
CUBIC_FOOT = FOOT**3 * 1000
CUBIC_YARD = 27 * CUBIC_FOOT
#: Litres of a quart of the United States.
QUART = 0.946352946
#: Grams of a pound.
POUND = 453.59237


def show_volume(litres: float, units: UnitSystem = "metric") -> str:
    """Show a volume of soil, mulch or mix.

    Parameters
    ----------
    litres : float
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_volume(0.346), show_volume(2.5), show_volume(85), show_volume(1440)
    ('0.35 l', '2.5 l', '85 l', '1.44 m³')
    >>> [show_volume(one, "feet_inches") for one in (0.346, 2.0, 12.3, 57.0, 1440.0)]
    ['0.37 qt', '2.1 qt', '13 qt', '2.0 cu ft', '1.88 cu yd']
    """
    if units == "metric":
        if litres >= 1000:
            return say("{number} m³", number=number_words(litres / 1000, 2))
        return say("{volume} l", volume=_to_two(litres))
    if litres >= CUBIC_YARD:
        return say("{number} cu yd", number=number_words(litres / CUBIC_YARD, 2))
    if litres >= CUBIC_FOOT:
        return say("{number} cu ft", number=number_words(litres / CUBIC_FOOT, 1))
    return say("{volume} qt", volume=_to_two(litres / QUART))


def _to_two(volume: float) -> str:
    """A number of litres or quarts, to about two figures."""
    return number_words(volume, 0 if volume >= 10 else 1 if volume >= 1 else 2)


def show_load(grams: float, units: UnitSystem = "metric") -> str:
    """Show the mass of manure, lime or feed.

    Parameters
    ----------
    grams : float
        [g]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_load(250), show_load(23_040), show_load(250, "feet_inches"), show_load(23_040, "feet_inches")
    ('250 g', '23.0 kg', '8.8 oz', '50.8 lb')
    """
    if units == "metric":
        return (
            say("{number} kg", number=number_words(grams / 1000, 1))
            if grams >= 1000
            else say("{number} g", number=number_words(grams, 0))
        )
    if grams >= POUND:
        return say("{number} lb", number=number_words(grams / POUND, 1))
    return say("{number} oz", number=number_words(grams / POUND * 16, 1))


#: Litres of a gallon of the United States, and millimetres of an inch.
GALLON = 3.785411784
INCH_OF_RAIN = 25.4


def show_water(litres: float, units: UnitSystem = "metric") -> str:
    """Show a volume of water.

    Parameters
    ----------
    litres : float
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_water(2.5), show_water(85), show_water(1440)
    ('2.5 l', '85 l', '1.44 m³')
    >>> [show_water(one, "feet_inches") for one in (2.5, 85, 14_400.0)]
    ['0.66 gal', '22 gal', '3804 gal']
    """
    if units == "metric":
        return show_volume(litres, units)
    return say("{volume} gal", volume=_to_two(litres / GALLON))


def show_depth_of_water(millimetres: float, units: UnitSystem = "metric") -> str:
    """Show water over the ground, as rain is measured.

    Parameters
    ----------
    millimetres : float
        [mm]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_depth_of_water(12.34), show_depth_of_water(12.34, "feet_inches")
    ('12 mm', '0.49 in')
    """
    if units == "metric":
        return say("{number} mm", number=number_words(millimetres, 0 if millimetres >= 9.95 else 1))
    return say("{number} in", number=number_words(millimetres / INCH_OF_RAIN, 2))
