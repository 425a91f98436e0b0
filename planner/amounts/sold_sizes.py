"""Sizes in which materials are sold, where the garden names none.

Lengths of bow tube are printed (University of New Hampshire, Using low tunnels, 2014: 10 ft); widths of fleece are those
of the trade as recalled; all others are an ``estimate`` of what a shop has.  What the garden's shed says is sold comes
before.
"""

from __future__ import annotations

import math
from typing import get_args

from planner.garden import ShedItem
from planner.garden.materials import BY_MASS, BarKind, MaterialKind, SheetKind, SpreadKind
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, INCH

#: Length and width of rolls, by kind. [m]
_ROLLS: dict[MaterialKind, tuple[tuple[float, float], ...]] = {
    "fleece": ((10, 1.5), (25, 1.5), (10, 2.0), (25, 2.0), (10, 3.0), (25, 3.0), (10, 4.0), (25, 4.0)),
    "netting": ((5, 2.0), (10, 2.0), (5, 3.0), (10, 3.0), (5, 4.0), (10, 4.0)),
    "mulch film": ((10, 1.0), (10, 1.5), (10, 2.0)),
    "tunnel film": ((10, 2.0), (10, 3.0), (10, 4.0)),
    "climbing net": ((5, 1.5), (10, 1.5), (5, 2.0), (10, 2.0)),
}
#: The same in feet and inches.
_FEET_ROLLS: dict[MaterialKind, tuple[tuple[float, float], ...]] = {
    "fleece": tuple((n * FOOT, w) for w in (83 * INCH, 118 * INCH, 10 * FOOT, 14 * FOOT) for n in (25, 50)),
    "netting": tuple((n * FOOT, w * FOOT) for w in (7, 10, 14) for n in (25, 50)),
    "mulch film": (
        (25 * FOOT, 3 * FOOT),
        (50 * FOOT, 4 * FOOT),
        (50 * FOOT, 5 * FOOT),
        (50 * FOOT, 6 * FOOT),
    ),
    "tunnel film": ((25 * FOOT, 6 * FOOT), (25 * FOOT, 10 * FOOT), (25 * FOOT, 12 * FOOT)),
    "climbing net": ((15 * FOOT, 5 * FOOT), (30 * FOOT, 5 * FOOT), (30 * FOOT, 6.5 * FOOT)),
}
#: Lengths of bars, poles and rolls, by kind. [m]
_BARS: dict[MaterialKind, tuple[float, ...]] = {
    "hoop": (10 * FOOT, 20 * FOOT),
    "post": (1.8, 2.4, 3.0),
    "stake": (1.2, 1.5, 1.8, 2.4),
    "stick": (0.9, 1.2, 1.5, 1.8, 2.4),
    "pole": (1.8, 2.4, 3.0),
    "rail": (1.8, 2.4, 3.6, 4.8),
    "wire": (30, 50, 100),
    "string": (50, 100),
    "drip line": (25, 50, 100),
    "water pipe": (25, 50, 100),
}
_FEET_BARS: dict[MaterialKind, tuple[float, ...]] = {
    "hoop": (10 * FOOT, 20 * FOOT),
    "post": (6 * FOOT, 8 * FOOT, 10 * FOOT),
    "stake": (4 * FOOT, 5 * FOOT, 6 * FOOT, 8 * FOOT),
    "stick": (3 * FOOT, 4 * FOOT, 5 * FOOT, 6 * FOOT, 8 * FOOT),
    "pole": (6 * FOOT, 8 * FOOT, 10 * FOOT),
    "rail": (6 * FOOT, 8 * FOOT, 12 * FOOT, 16 * FOOT),
    "wire": (100 * FOOT, 250 * FOOT),
    "string": (150 * FOOT, 300 * FOOT),
    "drip line": (100 * FOOT, 250 * FOOT),
    "water pipe": (100 * FOOT, 200 * FOOT),
}
#: Bag of what is spread, where the garden names none (``estimate``). [l]
BAG_LITRES = 50.0
#: Bag of what is spread by mass (``estimate``). [g]
BAG_GRAMS = 5_000.0
#: A small bale of straw, shaken out (``estimate``). [l]
BALE_LITRES = 500.0
#: Barrow, heaped to its rim (``practice``). [l]
BARROW_LITRES = 85.0


#: Posts, poles, hoops and nets are cut to whole inches in a garden in feet, else to such steps. [m]
CUT_STEP = 0.05
#: Sheets are cut to whole inches, else to such steps. [m]
SHEET_STEP = 0.01


def cut_length(length: float, units: UnitSystem, step: float = CUT_STEP) -> float:
    """A length rounded up to one that is measured and sold. [m]

    Parameters
    ----------
    length : float
        [m]
    units : {"metric", "feet_inches"}
        Of the garden.
    step : float
        In a garden in metres. [m]

    Examples
    --------
    >>> cut_length(1.82, "metric"), round(cut_length(1.82, "feet_inches") / INCH)
    (1.85, 72)
    """
    whole = step if units == "metric" else INCH
    return round(math.ceil(length / whole - 1e-4) * whole, 4)


def rolls_sold(
    kind: MaterialKind, shed: tuple[ShedItem, ...], units: UnitSystem
) -> tuple[tuple[float, float], ...]:
    """Length and width of the rolls of a sheet that can be bought: those that the garden names, else the usual ones. [m]"""
    named = [
        (one.length, one.width) for one in shed if one.sold and one.kind == kind and one.length and one.width
    ]
    return tuple(named) or (_ROLLS if units == "metric" else _FEET_ROLLS).get(kind, ())


def bars_sold(kind: MaterialKind, shed: tuple[ShedItem, ...], units: UnitSystem) -> tuple[float, ...]:
    """Lengths of a bar, pole or roll that can be bought: those that the garden names, else the usual ones. [m]"""
    named = [one.length for one in shed if one.sold and one.kind == kind and one.length]
    return tuple(named) or (_BARS if units == "metric" else _FEET_BARS).get(kind, ())


def bag_litres(kind: MaterialKind, shed: tuple[ShedItem, ...]) -> float:
    """The largest bag in which something is sold; of straw a bale as it lies loose. [l]"""
    named = [one.litres for one in shed if one.sold and one.kind == kind and one.litres]
    return max(named, default=BALE_LITRES if kind == "straw" else BAG_LITRES)


#: Usual sizes of what plants are raised in (estimate): litres of a bag, cells of a tray, width of a pot. [l, 1, m]
_FOR_RAISING: dict[str, dict[str, float]] = {
    "potting mix": {"litres": 40.0},
    "cell tray": {"cells": 72},
    "pot": {"width": 0.09},
}


def usual_size(kind: MaterialKind, units: UnitSystem) -> dict[str, float]:
    """Sizes of something as it may be sold, by fields of an item of the shed; none of what is only counted."""
    if kind in get_args(SheetKind):
        length, width = rolls_sold(kind, (), units)[0]
        return {"length": length, "width": width}
    if kind in get_args(BarKind):
        return {"length": bars_sold(kind, (), units)[0]}
    if kind in BY_MASS:
        return {"grams": BAG_GRAMS}
    if kind in _FOR_RAISING:
        return dict(_FOR_RAISING[kind])
    return {"litres": bag_litres(kind, ())} if kind in get_args(SpreadKind) else {}
