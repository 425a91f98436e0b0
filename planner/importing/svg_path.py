"""Path data of SVG (SVG 1.1, section 8.3) as closed rings: curves and arcs by short chords."""

from __future__ import annotations

import math
import re

import numpy as np
from numpy.typing import NDArray

from planner.errors import BedwrightError
from planner.words import say

#: Chords of a curve, of a quarter of an arc, and corners of a circle.
_OF_CURVE, _OF_QUARTER, _OF_CIRCLE = 24, 24, 180
#: Signs of a part that cannot be read that are shown.
_SHOWN = 40
#: Ends of a path that are nearer than this share of its extent count as joined.
_JOINED = 1e-4
_COMMAND = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])([^MmLlHhVvCcSsQqTtAaZz]*)")
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_GAP = r"[\s,]*"
#: The numbers of an arc, whose two flags may stand without a gap.
_ARC = re.compile(
    _GAP.join([*[f"({_NUMBER.pattern})"] * 3, "([01])", "([01])", *[f"({_NUMBER.pattern})"] * 2])
)
#: Numbers that each command takes.
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


class PathError(BedwrightError):
    """Path data that encloses no ground, or cannot be read."""

    def __str__(self) -> str:
        return self.what


def circle_ring() -> NDArray[np.float64]:
    """A circle of radius 1 about the origin (n, 2)."""
    angle = np.arange(_OF_CIRCLE) * (2 * math.pi / _OF_CIRCLE)
    return np.column_stack([np.cos(angle), np.sin(angle)])


def path_rings(data: str) -> list[NDArray[np.float64]]:
    """The closed rings of path data, the first corner not repeated.

    Parameters
    ----------
    data : str

    Raises
    ------
    PathError
        Where it cannot be read, or is not closed.
    """
    rings = []
    for points in _subpaths(data):
        ring = np.array(points)
        reach = float(np.ptp(ring, axis=0).max()) if len(ring) else 0.0
        if len(ring) > 1 and math.dist(ring[0], ring[-1]) <= _JOINED * reach:
            ring = ring[:-1]
        elif not points.closed:
            raise PathError(say("the line is not closed"))
        if len(ring) >= 3:
            rings.append(ring)
    if not rings:
        raise PathError(say("the path encloses no ground"))
    return rings


class _Points(list[tuple[float, float]]):
    """Corners of a subpath, and whether it is closed."""

    closed = False


def _commands(data: str) -> list[tuple[str, list[float]]]:
    """Commands with their numbers, repeated ones written out."""
    begin = _COMMAND.search(data)
    if data[: begin.start() if begin else None].strip():
        raise PathError(say("the path does not begin with a move"))
    return [one for letter, text in _COMMAND.findall(data) for one in _written_out(letter, text)]


def _written_out(letter: str, text: str) -> list[tuple[str, list[float]]]:
    kind = letter.upper()
    pattern = _ARC if kind == "A" else _NUMBER
    found, rest = pattern.findall(text), pattern.sub(" ", text).replace(",", " ").strip()
    numbers = [float(number) for one in found for number in ([one] if isinstance(one, str) else one)]
    takes = _TAKES[kind]
    if rest or (len(numbers) % takes if takes else numbers) or (takes and not numbers):
        part = f"{letter}{text}".strip()[:_SHOWN]
        raise PathError(say("the path's part '{text}' cannot be read", text=part))
    if takes == 0:
        return [(letter, [])]
    parts = [numbers[k : k + takes] for k in range(0, len(numbers), takes)]
    after = {"M": "L", "m": "l"}.get(letter, letter)
    return [(letter, parts[0]), *((after, part) for part in parts[1:])]


def _subpaths(data: str) -> list[_Points]:
    paths: list[_Points] = []
    here = start = control = (0.0, 0.0)
    before = ""
    for letter, numbers in _commands(data):
        kind, (x, y) = letter.upper(), here if letter.islower() else (0.0, 0.0)
        if kind == "Z":
            if paths:
                paths[-1].closed = True
            here, before = start, kind
            continue
        if kind == "M":
            here = start = (numbers[0] + x, numbers[1] + y)
            paths.append(_Points([here]))
            before = kind
            continue
        if not paths:
            raise PathError(say("the path does not begin with a move"))
        if paths[-1].closed:  # drawing goes on from where the last one began
            paths.append(_Points([start]))
        points = paths[-1]
        if kind == "H":
            points.append((numbers[0] + x, here[1]))
        elif kind == "V":
            points.append((here[0], numbers[0] + y))
        elif kind == "L":
            points.append((numbers[0] + x, numbers[1] + y))
        elif kind == "A":
            points += _arc(here, numbers[:5], (numbers[5] + x, numbers[6] + y))
        else:
            given = [(a + x, b + y) for a, b in zip(numbers[::2], numbers[1::2], strict=True)]
            if kind in "ST":
                smooth = before in ("CS" if kind == "S" else "QT") and before != ""
                mirrored = (2 * here[0] - control[0], 2 * here[1] - control[1]) if smooth else here
                given = [mirrored, *given]
            control = given[-2]
            points += _curve([here, *given])
        here, before = points[-1], kind
    return paths


def _curve(controls: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Points of a Bezier curve after its first, by its Bernstein polynomials."""
    degree = len(controls) - 1
    share = np.arange(1, _OF_CURVE + 1)[:, None] / _OF_CURVE
    places = sum(
        math.comb(degree, k) * share**k * (1 - share) ** (degree - k) * np.array(control)
        for k, control in enumerate(controls)
    )
    return [(float(x), float(y)) for x, y in np.asarray(places)]


def _arc(
    start: tuple[float, float], shape: list[float], end: tuple[float, float]
) -> list[tuple[float, float]]:
    """Points of an elliptical arc after its first (SVG 1.1, appendix F.6.5).

    Parameters
    ----------
    start, end : tuple of float
    shape : list of float
        Two radii, the turn of the ellipse in degrees, whether it is the large arc, and whether it turns clockwise.
    """
    rx, ry = abs(shape[0]), abs(shape[1])
    if not rx or not ry or start == end:
        return [end]
    turn, large, sweep = math.radians(shape[2]), bool(shape[3]), bool(shape[4])
    cos, sin = math.cos(turn), math.sin(turn)
    dx, dy = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = cos * dx + sin * dy, -sin * dx + cos * dy
    grow = max(1.0, math.sqrt((x / rx) ** 2 + (y / ry) ** 2))
    rx, ry = rx * grow, ry * grow
    under = (rx * ry) ** 2 / ((rx * y) ** 2 + (ry * x) ** 2) - 1
    factor = math.sqrt(max(0.0, under)) * (1 if large != sweep else -1)
    cx, cy = factor * rx * y / ry, -factor * ry * x / rx
    first = math.atan2((y - cy) / ry, (x - cx) / rx)
    span = math.atan2((-y - cy) / ry, (-x - cx) / rx) - first
    span = span % (2 * math.pi) if sweep else span % (2 * math.pi) - 2 * math.pi
    middle = (
        cos * cx - sin * cy + (start[0] + end[0]) / 2,
        sin * cx + cos * cy + (start[1] + end[1]) / 2,
    )
    steps = max(2, math.ceil(abs(span) / (math.pi / 2) * _OF_QUARTER))
    found = []
    for k in range(1, steps):
        a, b = rx * math.cos(first + span * k / steps), ry * math.sin(first + span * k / steps)
        found.append((middle[0] + cos * a - sin * b, middle[1] + sin * a + cos * b))
    return [*found, end]
