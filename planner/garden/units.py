"""Read and show lengths, areas and temperatures in the garden's units, and which of day and month is typed first.

All other code is in metres and degrees Celsius; these functions are used only where a number is shown or typed.
"""

from __future__ import annotations

import math
import os
import re
from collections.abc import Mapping

from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.words import number_words, say, short_number, whole_words

INCH = 0.0254
FOOT = 0.3048
MILE = 1609.344

_UNITS = {
    "m": 1.0, "metre": 1.0, "metres": 1.0, "meter": 1.0, "meters": 1.0,
    "cm": 0.01, "mm": 0.001,
    "ft": FOOT, "foot": FOOT, "feet": FOOT, "'": FOOT, "′": FOOT, "’": FOOT,
    "in": INCH, "inch": INCH, "inches": INCH, '"': INCH, "″": INCH, "”": INCH, "''": INCH,
}  # fmt: skip

_VULGAR = {
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8",
    "⅓": " 1/3", "⅔": " 2/3",
}  # fmt: skip
#: Unit of a second number without one, by the unit of the first: 1 m 20, 4 ft 6.
_NEXT = {1.0: 0.01, FOOT: INCH}

_NUMBER = r"(?:\d+\s+\d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?|[.,]\d+)"
_PART = re.compile(rf"\s*({_NUMBER})(?:\s*-?\s*([a-z]+|''|['\"′″’”]))?(?:\s*,(?=\s)|\s+|$|(?<=\D))")


class LengthError(BedwrightError):
    """A typed length that cannot be read."""


#: Territories that write the month before the day: the United States and theirs.
_MONTH_FIRST = frozenset({"US", "AS", "GU", "MP", "PR", "UM", "VI"})
_DEGREES = re.compile(r"([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(?:°|º|deg(?:rees?)?)?\s*([cf])?")


def month_first(units: UnitSystem, environment: Mapping[str, str] | None = None) -> bool:
    """Whether 4/5 is the fifth of April to who works in a garden.

    The fourth of May in a garden in metres; the fifth of April in one in feet and inches, unless the system's locale
    names a territory where the day comes first, as en_GB.

    Parameters
    ----------
    units : {"metric", "feet_inches"}
    environment : mapping of str to str, optional
        Holds the locale in LC_ALL, LC_TIME or LANG, the first that is set (POSIX); the process's own by default.

    Examples
    --------
    >>> month_first("metric", {}), month_first("feet_inches", {}), month_first("feet_inches", {"LANG": "en_GB.UTF-8"})
    (False, True, False)
    """
    if units == "metric":
        return False
    system = os.environ if environment is None else environment
    locale = next((system[name] for name in ("LC_ALL", "LC_TIME", "LANG") if system.get(name)), "")
    match = re.match(r"[a-z]{2,3}_([A-Z]{2})\b", locale)
    return match is None or match[1] in _MONTH_FIRST


def parse_length(text: str, units: UnitSystem = "metric", *, small: bool = False) -> float:
    """Read a length as typed.

    Decimal comma and point, fractions and mixed units are accepted: ``1.2``, ``1,2 m``, ``30 cm``,
    ``4 ft 6 in``, ``4' 6 1/2"``.

    Parameters
    ----------
    text : str
    units : {"metric", "feet_inches"}
        System of a number without a unit.
    small : bool
        Whether a number without a unit is in the small unit (cm or inches) rather than in metres
        or feet.

    Returns
    -------
    float
        [m]

    Raises
    ------
    LengthError
        If the text is no length.
    """
    rest = text.strip().casefold()
    sign = -1.0 if rest.startswith(("-", "−")) else 1.0
    if rest.startswith(("-", "−", "+")):
        rest = rest[1:]
    for mark, words in _VULGAR.items():
        rest = rest.replace(mark, words)
    plain = (0.01 if small else 1.0) if units == "metric" else (INCH if small else FOOT)
    total, found, least = 0.0, False, math.inf
    after: float | None = plain  # unit of a number without one
    while rest:
        match = _PART.match(rest)
        unit = match[2] if match else None
        factor = _UNITS.get(unit) if unit else after
        if not match or factor is None or factor >= least:
            raise LengthError(
                say("'{text}' is no length", text=text.strip()),
                fix=say("Type one like 1.2 m, 30 cm or 4 ft 6 in"),
            )
        total += _number(match[1]) * factor
        least, found = factor, True
        after = _NEXT.get(factor) if unit or units == "feet_inches" else None
        rest = rest[match.end() :].strip()
    if not found or not math.isfinite(total):
        raise LengthError(
            say("'{text}' is no length", text=text.strip()),
            fix=say("Type one like 1.2 m, 30 cm or 4 ft 6 in"),
        )
    return sign * total


def _number(text: str) -> float:
    total = 0.0
    for part in text.replace(",", ".").split():
        top, _, bottom = part.partition("/")
        if bottom and float(bottom) == 0:
            raise LengthError(say("'{text}' divides by zero", text=text))
        total += float(top) / float(bottom) if bottom else float(top)
    return total


def show_length(metres: float, units: UnitSystem = "metric") -> str:
    """Show a length of ground: ``2.40 m`` or ``7 ft 10 1/2 in``.

    Parameters
    ----------
    metres : float
        [m]
    units : {"metric", "feet_inches"}
    """
    if units == "metric":
        return say("{number} m", number=number_words(metres, 2))
    return _feet_inches(metres)


def show_distance(metres: float, units: UnitSystem = "metric") -> str:
    """Show a distance across the land, from ten metres on to the metre or foot: ``800 m``, ``330 ft``, ``0.5 mile``.

    Parameters
    ----------
    metres : float
        [m]
    units : {"metric", "feet_inches"}
    """
    if metres < 10:
        return show_length(metres, units)
    if units == "metric":
        return say("{number} m", number=whole_words(metres))
    miles = round(metres / MILE, 1)
    if miles < 0.5:
        return say("{number} ft", number=whole_words(metres / FOOT))
    number = short_number(miles)
    return say("{number} mile", number=number) if miles <= 1 else say("{number} miles", number=number)


def show_spacing(metres: float, units: UnitSystem = "metric") -> str:
    """Show a distance between plants or a depth: ``7.5 cm`` or ``3 in``.

    Parameters
    ----------
    metres : float
        [m]
    units : {"metric", "feet_inches"}
    """
    if units == "metric":
        return say("{number} cm", number=_trim(metres * 100, 1))
    return _inches(metres)


def show_spacings(in_row: float, between: float, units: UnitSystem = "metric") -> str:
    """Show the spacings in the row and between rows: ``30 × 40 cm`` or ``12 × 16 in``.

    Parameters
    ----------
    in_row, between : float
        [m]
    units : {"metric", "feet_inches"}
    """
    first, second = (_short(d, units) for d in (in_row, between))
    return f"{first} × {second} {'cm' if units == 'metric' else 'in'}"


def _short(metres: float, units: UnitSystem) -> str:
    if units == "metric":
        return _trim(metres * 100, 1 if metres < 0.1 else 0)
    return _inches(metres).removesuffix(" in")


def show_area(square_metres: float, units: UnitSystem = "metric") -> str:
    """Show an area: ``5.76 m²`` or ``62 sq ft``.

    Parameters
    ----------
    square_metres : float
        [m2]
    units : {"metric", "feet_inches"}
    """
    if units == "metric":
        return say("{number} m²", number=number_words(square_metres, 2))
    return say("{number} sq ft", number=number_words(square_metres / FOOT**2, 1))


def _trim(value: float, digits: int) -> str:
    text = number_words(value, digits)
    return text.rstrip("0").rstrip(".,") if digits else text


def _eighths(inches: float) -> str:
    eighths = round(inches * 8)
    whole, part = divmod(eighths, 8)
    if not part:
        return f"{whole}"
    divisor = math.gcd(part, 8)
    fraction = f"{part // divisor}/{8 // divisor}"
    return f"{whole} {fraction}" if whole else fraction


def _inches(metres: float) -> str:
    text = _eighths(abs(metres) / INCH)
    return f"-{text} in" if metres < 0 and text != "0" else f"{text} in"


def _feet_inches(metres: float) -> str:
    eighths = round(abs(metres) / INCH * 8)
    sign = "-" if metres < 0 and eighths else ""
    feet, rest = divmod(eighths, 96)
    if not rest:
        return f"{sign}{feet} ft"
    inches = _eighths(rest / 8)
    return f"{sign}{feet} ft {inches} in" if feet else f"{sign}{inches} in"


#: Grams of an ounce.
OUNCE = 28.349523125


def show_mass(grams: float, units: UnitSystem = "metric") -> str:
    """Show a mass of seed: ``0.35 g``, ``3.2 g``, ``210 g``, ``1.25 kg``; in feet and inches ``0.00035 oz``, ``7.4 oz``.

    Parameters
    ----------
    grams : float
        [g]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_mass(0.0021), show_mass(0.346), show_mass(3.21), show_mass(204.7), show_mass(1250)
    ('0.0021 g', '0.35 g', '3.2 g', '205 g', '1.25 kg')
    >>> show_mass(0.346, "feet_inches"), show_mass(0.01, "feet_inches"), show_mass(210, "feet_inches")
    ('0.012 oz', '0.00035 oz', '7.4 oz')
    """
    if units == "feet_inches":
        ounces = grams / OUNCE
        digits = 0 if ounces >= 10 else 1 if ounces >= 1 else 2
        if 0 < ounces < 0.1:  # two digits that count, in the unit of all else
            digits = 1 - math.floor(math.log10(ounces))
        return say("{number} oz", number=number_words(ounces, digits))
    if grams >= 1000:
        return say("{number} kg", number=number_words(grams / 1000, 2))
    if grams >= 10:
        return say("{number} g", number=number_words(grams, 0))
    if grams >= 1:
        return say("{number} g", number=number_words(grams, 1))
    return say("{number} g", number=number_words(grams, 2) if grams >= 0.01 else short_number(grams, 2))


def parse_temperature(text: str, units: UnitSystem = "metric") -> float:
    """Read a temperature as typed; one without a unit is in the garden's.

    Returns
    -------
    float
        To a thousandth. [deg C]

    Raises
    ------
    BedwrightError
        If the text is no temperature.

    Examples
    --------
    >>> parse_temperature("-1,5"), parse_temperature("50", "feet_inches"), parse_temperature("50 °F")
    (-1.5, 10.0, 10.0)
    """
    match = _DEGREES.fullmatch(text.strip().casefold().replace("−", "-").replace("–", "-"))
    if match is None or not text.isprintable():
        raise BedwrightError(
            say("'{text}' is no temperature", text=text.strip()), fix=say("Type one like 4.5 or -2")
        )
    value = float(match[1].replace(",", "."))
    fahrenheit = match[2] == "f" or (match[2] is None and units == "feet_inches")
    return round((value - 32) / 1.8, 3) + 0.0 if fahrenheit else value


def show_mean_temperature(celsius: float, units: UnitSystem = "metric") -> str:
    """Show a mean temperature without its unit, to a tenth of a degree or finer where it is not a whole tenth.

    Parameters
    ----------
    celsius : float
        [deg C]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_mean_temperature(4.0), show_mean_temperature(4.25), show_mean_temperature(10, "feet_inches")
    ('4.0', '4.25', '50.0')
    """
    value = celsius if units == "metric" else celsius * 1.8 + 32
    return number_words(value, 2).removesuffix("0")


def show_temperature(celsius: float, units: UnitSystem = "metric") -> str:
    """Show a temperature in whole degrees, with a true minus.

    Parameters
    ----------
    celsius : float
        [deg C]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_temperature(-4.2), show_temperature(10, "feet_inches")
    ('−4 °C', '50 °F')
    """
    shown = f"{celsius:.0f} °C" if units == "metric" else f"{celsius * 1.8 + 32:.0f} °F"
    return shown.replace("-", "−")


def show_degrees(difference: float, units: UnitSystem = "metric") -> str:
    """Show a difference of temperatures in whole degrees.

    Parameters
    ----------
    difference : float
        [deg C]
    units : {"metric", "feet_inches"}

    Examples
    --------
    >>> show_degrees(3.0), show_degrees(3.0, "feet_inches")
    ('3 °C', '5 °F')
    """
    return f"{difference:.0f} °C" if units == "metric" else f"{difference * 1.8:.0f} °F"


def show_heat(heat: float, units: UnitSystem = "metric", base: float = 10.0) -> str:
    """Show a heat sum.

    Parameters
    ----------
    heat : float
        [deg C days]
    units : {"metric", "feet_inches"}
    base : float
        Temperature over which it is summed. [deg C]

    Examples
    --------
    >>> show_heat(855), show_heat(855, "feet_inches", base=5.0)
    ('855 degree-days over 10 °C', '1,539 degree-days over 41 °F')
    """
    over = show_temperature(base, units)
    return say(
        "{heat} degree-days over {over}",
        heat=whole_words(heat if units == "metric" else heat * 1.8),
        over=over,
    )
