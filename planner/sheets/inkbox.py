"""Inks and marks that the sheets and the desk share: family inks, hatches, growth-form marks.

A family is told apart by its ink and, for eyes that do not tell inks apart, by its hatch.  A mark
says how a plant stands; it is drawn in a circle of radius 1 about its station, x right and y up.
"""

from __future__ import annotations

import math
import zlib
from dataclasses import dataclass
from typing import Literal

Rgb = tuple[float, float, float]
HatchName = Literal["rise", "fall", "level", "upright", "cross", "net", "dots"]

#: Ground the drawings stand on, light and dark. Shares of red, green, blue from 0 to 1.
PAPER: Rgb = (0.984, 0.973, 0.937)
NIGHT: Rgb = (0.125, 0.141, 0.165)

#: Share of the line's ink in a tint, on light and on dark ground.
TINT_LIGHT = 0.26
TINT_DARK = 0.34


@dataclass(frozen=True)
class Hatch:
    """Lines or dots drawn over a plot.

    Attributes
    ----------
    angles : tuple of float
        Directions of its sets of lines. [degrees anticlockwise from right]  Empty for dots.
    gap : float
        Line to line, or dot to dot. [mm on paper]
    """

    angles: tuple[float, ...]
    gap: float


HATCHES: dict[HatchName, Hatch] = {
    "rise": Hatch((45.0,), 2.4),
    "fall": Hatch((135.0,), 2.4),
    "level": Hatch((0.0,), 2.2),
    "upright": Hatch((90.0,), 2.2),
    "cross": Hatch((0.0, 90.0), 3.2),
    "net": Hatch((45.0, 135.0), 3.2),
    "dots": Hatch((), 2.2),
}


@dataclass(frozen=True)
class Ink:
    """How a family is drawn.

    Attributes
    ----------
    tint_rgb, line_rgb : tuple of float
        Of grounds and of lines. Shares of red, green and blue from 0 to 1.
    hatch : str
        Key into :data:`HATCHES`.
    base : str
        Name of the base ink.
    """

    tint_rgb: Rgb
    line_rgb: Rgb
    hatch: HatchName
    base: str


def _rgb(code: str) -> Rgb:
    red, green, blue = (int(code[i : i + 2], 16) / 255 for i in (0, 2, 4))
    return red, green, blue


#: Base inks: on light ground, on dark ground.  Found by a search for the set whose nearest pair
#: lies farthest apart in CIELAB, seen with full, red-blind, green-blind and blue-blind eyes.
BASE_INKS: dict[str, tuple[Rgb, Rgb]] = {
    "wine": (_rgb("5e3a41"), _rgb("d8697f")),
    "brick": (_rgb("6d2d1a"), _rgb("dc9474")),
    "straw": (_rgb("a3884f"), _rgb("999634")),
    "moss": (_rgb("5d6900"), _rgb("c4ed8e")),
    "sage": (_rgb("668d70"), _rgb("7eebac")),
    "sky": (_rgb("5989ea"), _rgb("718fb3")),
    "cobalt": (_rgb("2b53ad"), _rgb("9ec1fe")),
    "indigo": (_rgb("413873"), _rgb("eed9fb")),
    "lilac": (_rgb("9680bf"), _rgb("967fd8")),
    "plum": (_rgb("974f7c"), _rgb("daa8bb")),
}

_FAMILIES: dict[str, tuple[str, HatchName]] = {
    "Amaranthaceae": ("wine", "upright"),
    "Rosaceae": ("wine", "dots"),
    "Vitaceae": ("wine", "level"),
    "Solanaceae": ("brick", "rise"),
    "Grossulariaceae": ("brick", "level"),
    "Papaveraceae": ("brick", "dots"),
    "Cucurbitaceae": ("straw", "fall"),
    "Poaceae": ("straw", "upright"),
    "Tropaeolaceae": ("straw", "net"),
    "Asteraceae": ("moss", "level"),
    "Ranunculaceae": ("moss", "cross"),
    "Malvaceae": ("moss", "rise"),
    "Fabaceae": ("sage", "net"),
    "Caprifoliaceae": ("sage", "rise"),
    "Aizoaceae": ("sage", "dots"),
    "Boraginaceae": ("sky", "dots"),
    "Plumbaginaceae": ("sky", "fall"),
    "Montiaceae": ("sky", "level"),
    "Brassicaceae": ("cobalt", "cross"),
    "Plantaginaceae": ("cobalt", "rise"),
    "Convolvulaceae": ("cobalt", "dots"),
    "Amaryllidaceae": ("indigo", "rise"),
    "Ericaceae": ("indigo", "net"),
    "Moraceae": ("indigo", "level"),
    "Lamiaceae": ("lilac", "dots"),
    "Asparagaceae": ("lilac", "upright"),
    "Caryophyllaceae": ("lilac", "cross"),
    "Apiaceae": ("plum", "fall"),
    "Polygonaceae": ("plum", "net"),
    "Portulacaceae": ("plum", "upright"),
}
_LEFT: tuple[tuple[str, HatchName], ...] = tuple(
    (base, hatch) for base in BASE_INKS for hatch in HATCHES if (base, hatch) not in _FAMILIES.values()
)

#: Families whose ink is set; any other gets one of the pairs left over, always the same.
KNOWN_FAMILIES: tuple[str, ...] = tuple(_FAMILIES)


def mixed(line: Rgb, ground: Rgb, share: float) -> Rgb:
    """A share of ink laid on a ground."""
    red, green, blue = (share * a + (1 - share) * b for a, b in zip(line, ground, strict=True))
    return red, green, blue


def family_ink(family: str, *, dark: bool = False) -> Ink:
    """Ink of a botanical family.

    Parameters
    ----------
    family : str
        Botanical name, as Apiaceae.  Unknown ones, and the empty name, have an ink too.
    dark : bool
        For a dark ground.
    """
    place = _FAMILIES.get(family)
    if place is None:
        place = _LEFT[zlib.crc32(family.encode()) % len(_LEFT)]
    base, hatch = place
    line = BASE_INKS[base][dark]
    tint = mixed(line, NIGHT, TINT_DARK) if dark else mixed(line, PAPER, TINT_LIGHT)
    return Ink(tint, line, hatch, base)


@dataclass(frozen=True)
class Stroke:
    """One line of a mark, in a circle of radius 1."""

    points: tuple[tuple[float, float], ...]
    closed: bool = False
    filled: bool = False


def _at(radius: float, degrees: float) -> tuple[float, float]:
    angle = math.radians(degrees)
    return round(radius * math.cos(angle), 4), round(radius * math.sin(angle), 4)


def _ring(
    radius: float, x: float = 0.0, y: float = 0.0, corners: int = 16, *, filled: bool = False
) -> Stroke:
    points = [_at(radius, 360 * i / corners) for i in range(corners)]
    return Stroke(tuple((round(x + a, 4), round(y + b, 4)) for a, b in points), closed=True, filled=filled)


def _line(*points: tuple[float, float]) -> Stroke:
    return Stroke(points)


def _rosette() -> tuple[Stroke, ...]:
    return tuple(_line(_at(0.22, a), _at(0.95, a)) for a in range(30, 390, 60))


def _bush() -> tuple[Stroke, ...]:
    points = []
    for lobe in range(5):
        for step in range(6):
            angle = 90 + 72 * (lobe + step / 6)
            points.append(_at(0.58 + 0.34 * math.sin(math.pi * step / 6), angle))
    return (Stroke(tuple(points), closed=True),)


def _climber() -> tuple[Stroke, ...]:
    turns = [_at(0.12 + 0.82 * i / 30, 90 + 630 * i / 30) for i in range(31)]
    return (_line(*turns),)


def _sprawler() -> tuple[Stroke, ...]:
    runner = tuple(
        (round(-0.95 + 1.9 * i / 16, 4), round(0.42 * math.sin(2 * math.pi * i / 16), 4)) for i in range(17)
    )
    return (_line(*runner), _ring(0.26, -0.5, -0.35, 8, filled=True), _ring(0.26, 0.5, 0.35, 8, filled=True))


def _flower() -> tuple[Stroke, ...]:
    star = tuple(_at(0.98 if i % 2 == 0 else 0.3, 90 + 45 * i) for i in range(8))
    return (Stroke(star, closed=True, filled=True),)


#: Marks by growth form, in a circle of radius 1.
MARKS: dict[str, tuple[Stroke, ...]] = {
    "rosette": _rosette(),
    "root": (
        _ring(0.4, corners=12, filled=True),
        *(_line(_at(0.5, a), _at(0.98, a)) for a in (45.0, 135.0, 225.0, 315.0)),
    ),
    "bulb": (_ring(0.5, 0.0, -0.42), _line((0.0, 0.08), (0.0, 0.98))),
    "head": (_ring(0.9, corners=20), _ring(0.42, corners=12, filled=True)),
    "bush": _bush(),
    "upright": (
        _line((0.0, -0.98), (0.0, 0.98)),
        _line((-0.7, 0.5), (0.0, 0.05), (0.7, 0.5)),
        _line((-0.7, -0.15), (0.0, -0.6), (0.7, -0.15)),
    ),
    "climber": _climber(),
    "sprawler": _sprawler(),
    "grass": (
        _line((-0.7, 0.7), (0.0, -0.8), (0.7, 0.7)),
        _line((0.0, -0.8), (0.0, 0.98)),
        _line((-0.5, -0.8), (0.5, -0.8)),
    ),
    "fern": (
        _line((-0.7, -0.7), (0.7, 0.7)),
        *(_line((round(t - 0.36, 4), round(t + 0.36, 4)), (round(t + 0.36, 4), round(t - 0.36, 4))) for t in (-0.4, 0.0, 0.4)),
    ),
    "cane": tuple(_line((x, -0.85), (x, 0.85)) for x in (-0.52, 0.0, 0.52)),
    "shrub": (
        Stroke(((-0.7, -0.7), (0.7, -0.7), (0.7, 0.7), (-0.7, 0.7)), closed=True),
        _line((-0.7, -0.7), (0.7, 0.7)),
        _line((-0.7, 0.7), (0.7, -0.7)),
    ),
    "mat": (
        _ring(0.3, 0.0, 0.55, 8, filled=True),
        _ring(0.3, -0.57, -0.4, 8, filled=True),
        _ring(0.3, 0.57, -0.4, 8, filled=True),
    ),
    "flower": _flower(),
}  # fmt: skip


def mark(form: str) -> tuple[Stroke, ...]:
    """Strokes of a growth form's mark; a bush where the form is unknown."""
    return MARKS.get(form, MARKS["bush"])
