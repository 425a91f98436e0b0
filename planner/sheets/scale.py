"""The scale of a drawing, and how a long bed is split into parts."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from planner.garden.site import UnitSystem
from planner.garden.units import FOOT

_METRIC = (5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200, 250, 300, 400, 500, 750)
_FEET = (6, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192, 240, 360, 480, 600, 720)
#: Scales that rulers and readers know, one to so many, the largest first.
SCALES: dict[UnitSystem, tuple[int, ...]] = {
    "metric": (*_METRIC, *(n * k for k in (1000, 10000) for n in (1, 2, 5))),
    "feet_inches": (*_FEET, *(1200 * n for n in (1, 2, 5, 10, 25, 50))),
}
#: Inches on paper for a foot of ground, by scale.
_INCHES = {6: "2 in", 8: "1 1/2 in", 12: "1 in", 16: "3/4 in", 24: "1/2 in", 32: "3/8 in", 48: "1/4 in",
           64: "3/16 in", 96: "1/8 in"}  # fmt: skip

#: Smallest scale at which a bed is drawn in one part; a bed that needs a smaller one is split.
USEFUL: dict[UnitSystem, int] = {"metric": 40, "feet_inches": 48}
#: Largest scale of a bed that is split.
SPLIT_FROM: dict[UnitSystem, int] = {"metric": 20, "feet_inches": 24}
#: Most parts of a bed that is split over several pages.
MOST_PARTS = 24
#: Least length that neighbouring parts share, on paper. [mm]
OVERLAP_MM = 6.0

#: Joins are at multiples of these, the largest that works. [m]
_STEPS: dict[UnitSystem, tuple[float, ...]] = {
    "metric": (1.0, 0.5, 0.25, 0.1),
    "feet_inches": (2 * FOOT, FOOT, FOOT / 2),
}
#: Overlaps are multiples of this. [m]
_OVERLAP_STEP: dict[UnitSystem, float] = {"metric": 0.1, "feet_inches": FOOT / 2}


@dataclass(frozen=True)
class Part:
    """A stretch of the bed that has a drawing of its own.

    Attributes
    ----------
    start, end : float
        Ends of what is drawn, overlaps included, from the bed's beginning. [m]
    left, right : float or None
        Where it joins the neighbouring parts; None at the bed's ends. [m]
    """

    start: float
    end: float
    left: float | None = None
    right: float | None = None

    @property
    def length(self) -> float:
        """Length of what is drawn. [m]"""
        return self.end - self.start


@dataclass(frozen=True)
class Division:
    """The scale of a bed's drawings, one to ``scale``, and the parts that are drawn."""

    scale: int
    parts: tuple[Part, ...]


def on_paper(metres: float, scale: int) -> float:
    """Convert a length of ground to paper. [mm]

    Parameters
    ----------
    metres : float
        [m]
    scale : int
        One to so many.
    """
    return metres * 1000.0 / scale


def scale_words(scale: int, units: UnitSystem) -> str:
    """Print a scale: ``1 : 30``, ``1 : 24 (1/2 in = 1 ft)``.

    Parameters
    ----------
    scale : int
        One to so many.
    units : {"metric", "feet_inches"}
    """
    inches = _INCHES.get(scale) if units == "feet_inches" else None
    return f"1 : {scale}" + (f" ({inches} = 1 ft)" if inches else "")


def bar_length(scale: int, units: UnitSystem, room: float) -> float:
    """Choose the longest round length that a scale bar shows. [m]

    Parameters
    ----------
    scale : int
        One to so many.
    units : {"metric", "feet_inches"}
    room : float
        Most length on paper. [mm]
    """
    lengths = [n * 10.0**k for k in range(-1, 6) for n in (1, 2, 5)]
    if units == "feet_inches":
        lengths = [FOOT / 12, FOOT / 4, FOOT / 2, *(n * FOOT for n in lengths if n >= 1)]
    return max((one for one in lengths if on_paper(one, scale) <= room), default=lengths[0])


def choose_scale(length: float, width: float, room: tuple[float, float], units: UnitSystem) -> int:
    """Choose the largest scale at which a bed fits.

    Parameters
    ----------
    length, width : float
        Of the bed. [m]
    room : tuple of float
        Width and height of the drawing. [mm]
    units : {"metric", "feet_inches"}

    Returns
    -------
    int
        One of :data:`SCALES`; beyond the last one a multiple of 10 000.
    """
    for scale in SCALES[units]:
        if on_paper(length, scale) <= room[0] + 1e-9 and on_paper(width, scale) <= room[1] + 1e-9:
            return scale
    largest = max(length * 1000 / room[0], width * 1000 / room[1])
    return math.ceil(largest / 10_000) * 10_000


def close_scale(length: float, width: float, room: tuple[float, float], units: UnitSystem) -> int:
    """Choose the largest scale at which a drawing fits that nobody measures on: in finer steps than those of rulers.

    Parameters
    ----------
    length, width : float
        Of the drawing. [m]
    room : tuple of float
        Width and height on paper. [mm]
    units : {"metric", "feet_inches"}

    Returns
    -------
    int
        Above 1:50 a multiple of 10, or of so many feet to an inch; else as :func:`choose_scale`.
    """
    of_ruler = choose_scale(length, width, room, units)
    least = max(length * 1000 / room[0], width * 1000 / room[1])
    step = 10 if units == "metric" else 12
    return of_ruler if least <= 50 else min(of_ruler, math.ceil(least / step - 1e-9) * step)


def split(length: float, most: float, overlap: float, units: UnitSystem = "metric") -> tuple[Part, ...]:
    """Split a length into the fewest parts that share an overlap and join at round distances.

    Parameters
    ----------
    length : float
        Of the bed. [m]
    most : float
        Longest part, overlaps included; above twice the overlap and the smallest step. [m]
    overlap : float
        Drawn beyond each join. [m]
    units : {"metric", "feet_inches"}
        For the steps in which joins are placed.
    """
    if length <= most + 1e-9:
        return (Part(0.0, length),)
    count = 1
    while True:
        count += 1
        beyond = overlap * (1 if count == 2 else 2)  # parts in the middle have two neighbours
        for step in (*_STEPS[units], 0.0):
            least = length / count
            each = math.ceil(least / step - 1e-9) * step if step else least
            if each + beyond <= most + 1e-9:
                return _parts(length, each, count, overlap)


def _parts(length: float, each: float, count: int, overlap: float) -> tuple[Part, ...]:
    joins = [0.0, *(each * k for k in range(1, count)), length]
    return tuple(
        Part(
            start=max(0.0, left - overlap) if k else 0.0,
            end=min(length, right + overlap) if k < count - 1 else length,
            left=left if k else None,
            right=right if k < count - 1 else None,
        )
        for k, (left, right) in enumerate(itertools.pairwise(joins))
    )


def divide(
    length: float, width: float, room: tuple[float, float], page: float, around: float, units: UnitSystem
) -> Division:
    """Choose scale and parts of a bed's drawings.

    The whole bed at the largest scale that fits, down to :data:`USEFUL`; else split at the largest
    scale whose parts fit above each other on one page; else over more pages at the largest scale, from
    ``USEFUL`` on, that needs no more than :data:`MOST_PARTS`; else the whole bed at whatever scale fits.

    Parameters
    ----------
    length, width : float
        Of the bed. [m]
    room : tuple of float
        Width and height of a drawing. [mm]
    page : float
        Height of a page's room. [mm]
    around : float
        Height that each part needs besides the bed itself. [mm]
    units : {"metric", "feet_inches"}
    """
    whole = choose_scale(length, width, room, units)
    if whole <= USEFUL[units]:
        return Division(whole, (Part(0.0, length),))
    for scale in SCALES[units]:
        if scale < SPLIT_FROM[units] or on_paper(width, scale) > room[1] + 1e-9:
            continue
        parts = split(length, room[0] * scale / 1000, _overlap(scale, units), units)
        stacked = len(parts) * (on_paper(width, scale) + around) <= page
        if stacked or (scale >= USEFUL[units] and len(parts) <= MOST_PARTS):
            return Division(scale, parts)
    return Division(whole, (Part(0.0, length),))


def _overlap(scale: int, units: UnitSystem) -> float:
    """The overlap of parts on the ground, :data:`OVERLAP_MM` rounded up to a step. [m]"""
    step = _OVERLAP_STEP[units]
    return math.ceil(OVERLAP_MM * scale / 1000 / step - 1e-9) * step
