"""Hatches: lines or dots drawn over a plot, on paper and on the screen."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

HatchName = Literal[
    "rise",
    "fall",
    "level",
    "upright",
    "cross",
    "net",
    "dots",
    "broken rise",
    "broken fall",
    "broken level",
    "broken upright",
    "broken cross",
    "broken net",
]


@dataclass(frozen=True)
class Hatch:
    """Lines or dots drawn over a plot.

    Attributes
    ----------
    angles : tuple of float
        Directions of its sets of lines. [degrees anticlockwise from right]  Empty for dots.
    gap : float
        From line to line, or from dot to dot. [mm on paper]
    broken : bool
        Whether its lines are dashes, as long as the gaps between them.
    """

    angles: tuple[float, ...]
    gap: float
    broken: bool = False


#: All hatches by name.
HATCHES: dict[HatchName, Hatch] = {
    "rise": Hatch((45.0,), 2.4),
    "fall": Hatch((135.0,), 2.4),
    "level": Hatch((0.0,), 2.2),
    "upright": Hatch((90.0,), 2.2),
    "cross": Hatch((0.0, 90.0), 3.2),
    "net": Hatch((45.0, 135.0), 3.2),
    "dots": Hatch((), 2.2),
    "broken rise": Hatch((45.0,), 2.4, broken=True),
    "broken fall": Hatch((135.0,), 2.4, broken=True),
    "broken level": Hatch((0.0,), 2.2, broken=True),
    "broken upright": Hatch((90.0,), 2.2, broken=True),
    "broken cross": Hatch((0.0, 90.0), 3.2, broken=True),
    "broken net": Hatch((45.0, 135.0), 3.2, broken=True),
}


def hatch_sheet(hatch: Hatch, size: float) -> list[tuple[float, float, float, float]]:
    """Return all lines of a hatch over a square as (x, y, x, y); on those of dots, a dot stands at each gap. [mm]

    Parameters
    ----------
    hatch : Hatch
    size : float
        Side of the square. [mm]
    """
    if hatch.angles:
        lines = [line for angle in hatch.angles for line in hatch_lines(angle, hatch.gap, size)]
        return [dash for line in lines for dash in _dashes(line, hatch.gap)] if hatch.broken else lines
    heights = [(k + 0.5) * hatch.gap for k in range(int(size / hatch.gap))]
    return [(((k % 2) + 1) * 0.5 * hatch.gap, y, size, y) for k, y in enumerate(heights)]


def hatch_lines(angle: float, space: float, size: float) -> list[tuple[float, float, float, float]]:
    """Return the lines of a hatch over a square as (x, y, x, y). [mm]

    Parameters
    ----------
    angle : float
        0, 45, 90 or 135. [degrees anticlockwise from right]
    space : float
        From line to line. [mm]
    size : float
        Side of the square. [mm]
    """
    found = []
    if angle in (0.0, 90.0):
        for k in range(int(size / space)):
            at = (k + 0.5) * space
            found.append((0.0, at, size, at) if angle == 0.0 else (at, 0.0, at, size))
        return found
    apart = space * 2**0.5
    for k in range(int(2 * size / apart)):
        at = (k + 0.5) * apart  # where the line meets the lower side, or would beyond it
        begin, end = max(0.0, at - size), min(size, at)
        line = (
            (end, at - end, begin, at - begin)
            if angle == 135.0
            else (size - end, at - end, size - begin, at - begin)
        )
        found.append(line)
    return found


def _dashes(
    line: tuple[float, float, float, float], length: float
) -> list[tuple[float, float, float, float]]:
    """Return a line as dashes of a length, with gaps as long between them. [mm]"""
    x, y, to_x, to_y = line
    whole = math.hypot(to_x - x, to_y - y)
    if whole == 0:
        return []
    across, down = (to_x - x) / whole, (to_y - y) / whole
    ends = [
        (2 * k * length, min((2 * k + 1) * length, whole)) for k in range(math.ceil(whole / (2 * length)))
    ]
    return [(x + a * across, y + a * down, x + b * across, y + b * down) for a, b in ends]
