"""Read and show volumes, masses, masses to an area and meshes in the garden's units, as they are typed into a field."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, INCH, parse_length, show_spacing
from planner.garden.volumes import CUBIC_FOOT, CUBIC_YARD, POUND, QUART
from planner.words import number_words, say

_YARD = 3 * FOOT
_OUNCE = POUND / 16
#: Litres of each unit of volume.
_VOLUMES = {
    "l": 1.0, "litre": 1.0, "litres": 1.0, "liter": 1.0, "liters": 1.0, "m3": 1000.0, "m³": 1000.0,
    "qt": QUART, "quart": QUART, "quarts": QUART, "cu ft": CUBIC_FOOT, "cu yd": CUBIC_YARD,
}  # fmt: skip
#: Grams of each unit of mass.
_MASSES = {
    "g": 1.0, "gram": 1.0, "grams": 1.0, "kg": 1000.0, "t": 1_000_000.0,
    "oz": _OUNCE, "ounce": _OUNCE, "ounces": _OUNCE, "lb": POUND, "lbs": POUND, "pound": POUND, "pounds": POUND,
}  # fmt: skip
#: Square metres of each area that a mass is given to.
_AREAS = {
    "m2": 1.0, "m²": 1.0, "sq m": 1.0, "10 m2": 10.0, "10 m²": 10.0, "100 m2": 100.0, "100 m²": 100.0, "ha": 10_000.0,
    "sq ft": FOOT**2, "100 sq ft": 100 * FOOT**2, "1000 sq ft": 1000 * FOOT**2, "sq yd": _YARD**2, "yd2": _YARD**2,
    "yd²": _YARD**2, "acre": 4840 * _YARD**2,
}  # fmt: skip
_AMOUNT = re.compile(r"([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(.*)")
_PER = re.compile(r"\s*(?:/|\ba\b|\bper\b|\bto the\b)\s*")


def _amount(text: str, units: Mapping[str, float], usual: float, kind: str, fix: str) -> float:
    """A number and its unit, in the base unit."""
    match = _AMOUNT.fullmatch(text.strip().casefold().replace(",", "."))
    factor = None if match is None else usual if not match[2] else units.get(match[2].strip())
    value = float(match[1]) * factor if match is not None and factor is not None else math.nan
    if not math.isfinite(value) or value <= 0:
        raise BedwrightError(say("'{text}' is no {kind}", text=text.strip(), kind=kind), fix=fix)
    return value


def parse_volume(text: str, units: UnitSystem = "metric") -> float:
    """Read a volume; one without a unit is in litres, of a garden in feet in cubic feet. [l]

    Raises
    ------
    BedwrightError
        If the text is no volume above 0.

    Examples
    --------
    >>> parse_volume("50"), parse_volume("1.2 m3"), round(parse_volume("2", "feet_inches"), 1)
    (50.0, 1200.0, 56.6)
    """
    metric = units == "metric"
    fix = say("Type one like 50 l or 1.2 m³") if metric else say("Type one like 2 cu ft or 25 qt")
    return _amount(text, _VOLUMES, 1.0 if metric else CUBIC_FOOT, say("volume"), fix)


def parse_load(text: str, units: UnitSystem = "metric") -> float:
    """Read a mass; one without a unit is in kilograms, of a garden in feet in pounds. [g]

    Raises
    ------
    BedwrightError
        If the text is no mass above 0.

    Examples
    --------
    >>> parse_load("5"), parse_load("250 g"), round(parse_load("10", "feet_inches"))
    (5000.0, 250.0, 4536)
    """
    metric = units == "metric"
    fix = say("Type one like 5 kg or 250 g") if metric else say("Type one like 10 lb or 8 oz")
    return _amount(text, _MASSES, 1000.0 if metric else POUND, say("mass"), fix)


def parse_seed_mass(text: str, units: UnitSystem = "metric") -> float:
    """Read a mass of seed; one without a unit is in grams, of a garden in feet in ounces. [g]

    Raises
    ------
    BedwrightError
        If the text is no mass above 0.

    Examples
    --------
    >>> parse_seed_mass("2.5"), parse_seed_mass("1,2 kg"), round(parse_seed_mass("0.25", "feet_inches"), 2)
    (2.5, 1200.0, 7.09)
    """
    metric = units == "metric"
    fix = say("Type one like 2.5 g or 1 kg") if metric else say("Type one like 0.25 oz or 1 lb")
    return _amount(text, _MASSES, 1.0 if metric else _OUNCE, say("mass"), fix)


def parse_rate(text: str, units: UnitSystem = "metric") -> float:
    """Read a mass to an area; one without a unit is in g/m², of a garden in feet in ounces a square yard. [g/m2]

    Raises
    ------
    BedwrightError
        If the text is no such rate above 0.

    Examples
    --------
    >>> parse_rate("200"), parse_rate("2 kg/10 m2"), round(parse_rate("5 lb per 100 sq ft")), round(parse_rate("6", "feet_inches"))
    (200.0, 200.0, 244, 203)
    """
    metric = units == "metric"
    fix = say("Type one like 200 g/m²") if metric else say("Type one like 6 oz a sq yd or 5 lb per 100 sq ft")
    usual = 1.0 if metric else _OUNCE / _YARD**2
    kind = say("amount to an area")
    parts = _PER.split(text.strip().casefold(), maxsplit=1)
    if len(parts) == 1:
        return _amount(text, {"gsm": 1.0}, usual, kind, fix)
    area = _AREAS.get(parts[1].strip())
    if area is None:
        raise BedwrightError(say("'{text}' is no {kind}", text=text.strip(), kind=kind), fix=fix)
    return _amount(parts[0], _MASSES, math.nan, kind, fix) / area


def show_rate(rate: float, units: UnitSystem = "metric") -> str:
    """Show a mass to an area.

    Parameters
    ----------
    rate : float
        [g/m2]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_rate(200), show_rate(17), show_rate(4000), show_rate(200, "feet_inches"), show_rate(4000, "feet_inches")
    ('200 g/m²', '17 g/m²', '4 kg/m²', '5.9 oz a sq yd', '7.4 lb a sq yd')
    """
    if units == "metric" and rate >= 1000:
        kilograms = round(rate / 1000, 1)
        return say("{kilograms} kg/m²", kilograms=number_words(kilograms, 0 if kilograms.is_integer() else 1))
    if units == "metric":
        return say("{grams} g/m²", grams=number_words(rate, 0 if rate >= 10 else 1))
    grams = rate * _YARD**2
    if grams >= POUND:
        return say("{pounds} lb a sq yd", pounds=number_words(grams / POUND, 1))
    return say("{ounces} oz a sq yd", ounces=number_words(grams / _OUNCE, 1))


def parse_mesh(text: str, units: UnitSystem = "metric") -> float:
    """Read the mesh of a net; a number without a unit is in millimetres, of a garden in feet in inches. [m]

    Raises
    ------
    LengthError
        If the text is no length.

    Examples
    --------
    >>> parse_mesh("1.35"), parse_mesh("7 mm"), parse_mesh("3/4", "feet_inches")
    (0.00135, 0.007, 0.01905)
    """
    plain = text.strip()
    alone = bool(plain) and plain[-1].isdigit()
    if alone and units == "metric":
        plain = f"{plain} mm"
    elif alone:
        plain = f"{plain} in"
    return round(parse_length(plain, units, small=True), 7)


def show_mesh(mesh: float, units: UnitSystem = "metric") -> str:
    """Show the mesh of a net.

    Parameters
    ----------
    mesh : float
        [m]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_mesh(0.00135), show_mesh(0.007), show_mesh(0.007, "feet_inches")
    ('1.35 mm', '7 mm', '0.28 in')
    """
    if units == "metric":
        millimetres = f"{mesh * 1000:g}"
        return say("{number} mm", number=millimetres)
    inches = f"{mesh / INCH:.2g}"
    return say("{number} in", number=inches)


def parse_measure(
    text: str, units: UnitSystem = "metric", *, by_mass: bool = False
) -> dict[str, float | None]:
    """Read how much is spread: a depth, or a mass to an area.

    Parameters
    ----------
    text : str
        A depth without a unit is in centimetres, of a garden in feet in inches.
    units : {"metric", "feet_inches"}
    by_mass : bool
        It is spread by mass only.

    Returns
    -------
    dict
        ``depth`` [m] and ``rate`` [g/m2]; one of them is None.

    Raises
    ------
    BedwrightError
        If the text is neither.

    Examples
    --------
    >>> parse_measure("5"), parse_measure("200 g/m2"), parse_measure("80", by_mass=True)
    ({'depth': 0.05, 'rate': None}, {'depth': None, 'rate': 200.0}, {'depth': None, 'rate': 80.0})
    """
    if by_mass or len(_PER.split(text.strip().casefold())) > 1:
        return {"depth": None, "rate": parse_rate(text, units)}
    return {"depth": round(parse_length(text, units, small=True), 5), "rate": None}


def show_measure(depth: float | None, rate: float | None, units: UnitSystem = "metric") -> str:
    """Show how much is spread, as it can be typed.

    Examples
    --------
    >>> show_measure(0.05, None), show_measure(None, 200.0)
    ('5 cm', '200 g/m²')
    """
    return show_spacing(depth, units) if depth is not None else show_rate(rate or 0.0, units)
