"""The mark of each growth form, on paper and on the screen.

A mark shows how a plant grows; it is drawn in a circle of radius 1 about its station, x right and y up.
"""

from __future__ import annotations

import math
from dataclasses import dataclass


@dataclass(frozen=True)
class Stroke:
    """One line of a mark, in a circle of radius 1; a filled one is an area without a line."""

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
    """Return the strokes of a growth form's mark; those of a bush where the form is unknown."""
    return MARKS.get(form, MARKS["bush"])
