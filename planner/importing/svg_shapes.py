"""The closed shapes of an SVG drawing (SVG 1.1, chapters 7 to 9), in its own units, y downwards.

Groups and transforms are followed; what is only defined (``defs``, ``symbol`` ...) is not drawn, and so not read.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from xml.parsers import expat

import numpy as np
from numpy.typing import NDArray

from planner.importing.drawn_shape import MOST_SHAPES, MOST_UNITS, DrawnShape, Ring
from planner.importing.svg_path import PathError, circle_ring, path_rings
from planner.importing.table_text import MOST_BYTES, TableError
from planner.words import later, say

#: Millimetres of a unit of length of CSS.
_UNITS = {"": 25.4 / 96, "px": 25.4 / 96, "mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6}
#: Elements whose content is not drawn where they stand.
_HIDDEN = frozenset(
    ("defs", "symbol", "clipPath", "mask", "pattern", "marker", "metadata", "style", "script")
)
#: What is said of elements that enclose no ground.
_NO_GROUND = {
    "line": later("a line encloses no ground"),
    "use": later("copies of other shapes are not followed"),
    "image": later("a picture has no outline"),
}
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")

Matrix = NDArray[np.float64]


@dataclass(frozen=True)
class SvgShapes:
    """The shapes of a drawing, and how long its unit is on paper.

    Attributes
    ----------
    shapes : tuple of DrawnShape
    unit : float
        [mm on paper]
    """

    shapes: tuple[DrawnShape, ...]
    unit: float


@dataclass
class _Open:
    """An element that is open: its matrix, the line it began on, and the title found in it."""

    tag: str
    given: Mapping[str, str]
    matrix: Matrix
    line: int
    hidden: bool
    title: str = ""


@dataclass
class _Reader:
    """Collects shapes while a drawing is parsed."""

    shapes: list[DrawnShape] = field(default_factory=list)
    open: list[_Open] = field(default_factory=list)
    unit: float = _UNITS[""]
    is_svg: bool = False

    def begin(self, name: str, given: dict[str, str], line: int) -> None:
        tag = name.rpartition(":")[2]
        if not self.open:
            self.is_svg = tag == "svg"
            self.unit = _paper_unit(given)
        outer = self.open[-1].matrix if self.open else np.eye(3)
        hidden = tag in _HIDDEN or (bool(self.open) and self.open[-1].hidden)
        hidden = hidden or given.get("display") == "none"
        self.open.append(_Open(tag, given, outer @ _matrix(given.get("transform", "")), line, hidden))

    def text(self, text: str) -> None:
        if self.open and self.open[-1].tag == "title" and len(self.open) > 1:
            self.open[-2].title += text

    def end(self, _: str) -> None:
        one = self.open.pop()
        if one.hidden or (one.tag not in _RINGS and one.tag not in _NO_GROUND):
            return
        if len(self.shapes) >= MOST_SHAPES:
            raise TableError(
                say("the drawing has more than {most} shapes", most=MOST_SHAPES), fix=say("Divide it")
            )
        where = say("line {line}", line=one.line)
        name = " ".join((one.title or one.given.get("inkscape:label") or one.given.get("id") or "").split())
        if one.tag in _NO_GROUND:
            self.shapes.append(DrawnShape(where, name, error=say(_NO_GROUND[one.tag])))
            return
        try:
            rings = tuple(_moved(ring, one.matrix) for ring in _RINGS[one.tag](one.given))
        except (PathError, ValueError) as error:
            self.shapes.append(DrawnShape(where, name, error=str(error)))
            return
        except ArithmeticError:  # numbers too large to reckon with
            rings = ()
        if not rings or any(len(ring) < 3 or not np.abs(ring).max() < MOST_UNITS for ring in rings):
            self.shapes.append(DrawnShape(where, name, error=say("it encloses no ground")))
            return
        self.shapes.append(DrawnShape(where, name, rings))


def svg_shapes(data: bytes) -> SvgShapes:
    """Read the shapes of an SVG drawing.

    Parameters
    ----------
    data : bytes

    Raises
    ------
    TableError
        Where it is too large, or is no SVG.
    """
    if len(data) > MOST_BYTES:
        raise TableError(
            say("the drawing has more than {size} MB", size=MOST_BYTES // 1_000_000), fix=say("Divide it")
        )
    reader, parser = _Reader(), expat.ParserCreate()

    def entity(*_: object) -> None:  # could be made to grow without end
        raise TableError(say("the drawing declares entities"), fix=say("Save it as plain SVG"))

    parser.EntityDeclHandler = entity
    parser.StartElementHandler = lambda name, given: reader.begin(name, given, parser.CurrentLineNumber)
    parser.CharacterDataHandler = reader.text
    parser.EndElementHandler = reader.end
    try:
        with np.errstate(all="ignore"):  # numbers without end are told of afterwards
            parser.Parse(data, True)
    except expat.ExpatError as error:
        raise TableError(
            say("the drawing is no XML: {what}", what=expat.errors.messages[error.code]),
            say("line {line}", line=error.lineno),
            say("Save it as SVG again"),
        ) from None
    if not reader.is_svg:
        raise TableError(say("the file is no SVG"), fix=say("Save the drawing as SVG"))
    return SvgShapes(tuple(reader.shapes), reader.unit)


def _numbers(text: str) -> list[float]:
    return [float(found) for found in _NUMBER.findall(text)]


def _length(text: str) -> float:
    """A length in units of the drawing; 0 where none is given."""
    match = re.fullmatch(rf"\s*({_NUMBER.pattern})\s*([a-z%]*)\s*", text or "0")
    if match is None or match[2] not in _UNITS:
        raise ValueError(say("'{text}' is no length of a drawing", text=text))
    return float(match[1]) * _UNITS[match[2]] / _UNITS[""]


def _paper_unit(given: Mapping[str, str]) -> float:
    """Millimetres on paper of a unit of the drawing: its width by that of its view box."""
    box = _numbers(given.get("viewBox", ""))
    match = re.fullmatch(rf"\s*({_NUMBER.pattern})\s*([a-z]*)\s*", given.get("width", ""))
    if match is None or match[2] not in _UNITS or len(box) != 4 or box[2] <= 0:
        return _UNITS[""]
    return float(match[1]) * _UNITS[match[2]] / box[2]


def _matrix(text: str) -> Matrix:
    """The matrix of a transform; that of what cannot be read is the identity."""
    matrix = np.eye(3)
    for name, arguments in re.findall(r"(\w+)\s*\(([^)]*)\)", text):
        v = _numbers(arguments)
        if name == "matrix" and len(v) == 6:
            step = np.array([[v[0], v[2], v[4]], [v[1], v[3], v[5]], [0, 0, 1]])
        elif name == "translate" and v:
            step = np.array([[1, 0, v[0]], [0, 1, v[1] if len(v) > 1 else 0], [0, 0, 1]])
        elif name == "scale" and v:
            step = np.diag([v[0], v[1] if len(v) > 1 else v[0], 1])
        elif name == "rotate" and v:
            cos, sin = math.cos(math.radians(v[0])), math.sin(math.radians(v[0]))
            x, y = (v[1], v[2]) if len(v) == 3 else (0.0, 0.0)
            step = np.array(
                [[cos, -sin, x - cos * x + sin * y], [sin, cos, y - sin * x - cos * y], [0, 0, 1]]
            )
        elif name in ("skewX", "skewY") and v:
            lean = math.tan(math.radians(v[0]))
            step = np.eye(3)
            step[(0, 1) if name == "skewX" else (1, 0)] = lean
        else:
            continue
        matrix = matrix @ step
    return matrix


def _moved(ring: Ring, matrix: Matrix) -> Ring:
    moved: Ring = ring @ matrix[:2, :2].T + matrix[:2, 2]
    return moved


def _rect(given: Mapping[str, str]) -> list[Ring]:
    x, y, wide, high = (_length(given.get(name, "")) for name in ("x", "y", "width", "height"))
    return [np.array([[x, y], [x + wide, y], [x + wide, y + high], [x, y + high]])]


def _ellipse(given: Mapping[str, str]) -> list[Ring]:
    x, y, r = (_length(given.get(name, "")) for name in ("cx", "cy", "r"))
    rx, ry = (_length(given[name]) if name in given else r for name in ("rx", "ry"))
    return [circle_ring() * np.array([rx, ry]) + np.array([x, y])]


def _polygon(given: Mapping[str, str]) -> list[Ring]:
    numbers = _numbers(given.get("points", ""))
    return [np.array(numbers[: len(numbers) // 2 * 2]).reshape(-1, 2)]


def _polyline(given: Mapping[str, str]) -> list[Ring]:
    (ring,) = _polygon(given)
    if len(ring) < 4 or not np.allclose(ring[0], ring[-1]):
        raise PathError(say("the line is not closed"))
    return [ring[:-1]]


def _path(given: Mapping[str, str]) -> list[Ring]:
    return path_rings(given.get("d", ""))


#: What reads the rings of each element.
_RINGS: dict[str, Callable[[Mapping[str, str]], list[Ring]]] = {
    "path": _path,
    "rect": _rect,
    "circle": _ellipse,
    "ellipse": _ellipse,
    "polygon": _polygon,
    "polyline": _polyline,
}
