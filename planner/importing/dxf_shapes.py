"""The closed shapes of a DXF drawing (DXF reference, sections HEADER, BLOCKS and ENTITIES), in its own units, y upwards.

Blocks are followed where they are inserted.  A shape is called by its layer; one in a block on layer 0 has the layer of the
place where the block is inserted, as the format says.  ezdxf reads the file; it is installed by choice
(``pip install bedwright[drawings]``).
"""

from __future__ import annotations

import io
import logging
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from planner.importing.drawn_shape import MOST_SHAPES, MOST_UNITS, DrawnShape, Ring
from planner.importing.table_text import MOST_BYTES, TableError
from planner.words import later, say

#: Chords of arcs lie no farther than this from the arc. [m]
SAGITTA = 0.001
#: Most chords of an arc, whatever its size.
MOST_CHORDS = 1_440
#: Blocks in blocks, and inserted blocks altogether, that are followed.
MOST_DEEP, MOST_INSERTED = 16, 20_000
#: Ends of a line that are nearer than this share of its extent count as joined.
_JOINED = 1e-4
#: What rises by less than this share of its extent lies flat.
_FLAT = 1e-6
#: Metres of the values of $INSUNITS that a garden may be drawn in (DXF reference, header variables).
UNITS = {1: 0.0254, 2: 0.3048, 4: 0.001, 5: 0.01, 6: 1.0, 10: 0.9144, 14: 0.1, 15: 10.0, 16: 100.0}

#: How a binary file begins.
_BINARY = b"AutoCAD Binary DXF\r\n"

_SILENT = logging.NullHandler()

_NOT_CLOSED = later("the line is not closed")
_NO_GROUND = later("it encloses no ground")
_NOT_READ = later("it is no closed outline that is read")
_HIDDEN = later("its layer is switched off")
_SLANTED = later("it does not lie flat on the plan")
_TOO_DEEP = later("blocks lie too deep in each other")
_NO_BLOCK = later("its block is not in the file")
#: What is said of kinds that are lines, and of no others.
_LINES = ("LINE", "ARC", "RAY", "XLINE")
#: Kinds whose coordinates are along axes of their own.
_OWN_AXES = ("LWPOLYLINE", "POLYLINE", "CIRCLE")


class DxfDrawing:
    """A DXF file that was read, of which the size is not yet known.

    Parameters
    ----------
    data : bytes
        Text or binary.

    Raises
    ------
    TableError
        Where it is too large, is no DXF, or ezdxf is missing.
    """

    def __init__(self, data: bytes) -> None:
        try:
            from ezdxf import document, recover
            from ezdxf.lldxf.tagger import binary_tags_loader
        except ImportError:
            raise TableError(
                say("DXF drawings are read by ezdxf, which is not installed"),
                fix=say("Install it with pip install ezdxf, or save the drawing as SVG"),
            ) from None
        # It writes to standard error what it repairs, unless somebody listens.
        logging.getLogger("ezdxf").addHandler(_SILENT)
        if len(data) > MOST_BYTES:
            raise TableError(
                say("the drawing has more than {size} MB", size=MOST_BYTES // 1_000_000), fix=say("Divide it")
            )
        try:
            if data.startswith(_BINARY):
                self._file = document.Drawing.load(binary_tags_loader(data))
            else:
                self._file, _ = recover.read(io.BytesIO(data))
            self._entities = list(self._file.modelspace())
        except Exception as error:  # broken files raise whatever the part that is broken raises
            raise TableError(
                say("the file is no DXF that can be read"),
                fix=say("Save the drawing as DXF again, or as SVG"),
            ) from error

    @property
    def unit(self) -> float | None:
        """Metres of the unit that the file names; None where it names none that a garden is drawn in."""
        return UNITS.get(int(self._file.header.get("$INSUNITS", 0)))

    def shapes(self, metres: float) -> tuple[DrawnShape, ...]:
        """Its closed shapes, in its own units.

        Parameters
        ----------
        metres : float
            Of its unit: arcs are divided as finely as they are large on the ground.

        Raises
        ------
        TableError
            Where it has too many shapes.
        """
        reader = _Reader(SAGITTA / metres, self._hidden_layers())
        try:
            with np.errstate(all="ignore"):  # numbers without end are told of afterwards
                reader.read(self._entities, np.eye(4), "", 0)
        except TableError:
            raise
        except Exception as error:  # what is broken inside an entity is found when it is asked
            raise TableError(
                say("the file is no DXF that can be read"),
                fix=say("Save the drawing as DXF again, or as SVG"),
            ) from error
        return tuple(reader.all_shapes())

    def _hidden_layers(self) -> frozenset[str]:
        layers = self._file.layers
        return frozenset(one.dxf.name.casefold() for one in layers if one.is_off() or one.is_frozen())


@dataclass
class _Reader:
    """Collects shapes; what cannot be read is counted by layer, kind and reason."""

    sagitta: float
    hidden: frozenset[str]
    good: list[DrawnShape] = field(default_factory=list)
    bad: dict[tuple[str, str, str], int] = field(default_factory=dict)
    inserted: int = 0

    def read(self, entities: Any, matrix: Ring, of_layer: str, depth: int) -> None:
        """Read entities of the model, or of a block by its place.

        Parameters
        ----------
        entities : iterable of ezdxf entities
        matrix : ndarray (4, 4)
            From the entities' coordinates to those of the model; points are rows.
        of_layer : str
            Layer of what is on layer 0 of a block.
        depth : int
            Of the block.
        """
        for entity in entities:
            kind, layer = entity.dxftype(), str(entity.dxf.get("layer", "0"))
            if layer == "0" and of_layer:
                layer = of_layer
            if layer.casefold() in self.hidden or entity.dxf.get("invisible", 0):
                self._count(layer, kind, say(_HIDDEN))
            elif kind == "INSERT":
                self._insert(entity, matrix, layer, depth)
            elif kind in _POINTS:
                self._shape(entity, kind, matrix, layer)
            else:
                self._count(layer, kind, say(_NO_GROUND) if kind in _LINES else say(_NOT_READ))

    def all_shapes(self) -> Iterator[DrawnShape]:
        """What was read, then what could not be."""
        yield from self.good
        for (layer, kind, error), count in self.bad.items():
            where = say("layer {layer}: {kind}", layer=layer, kind=kind)
            if count > 1:
                where = say("layer {layer}: {kind}, {count} of them", layer=layer, kind=kind, count=count)
            yield DrawnShape(where, "", error=error, count=count)

    def _count(self, layer: str, kind: str, error: str) -> None:
        key = (layer, kind, error)
        self.bad[key] = self.bad.get(key, 0) + 1

    def _insert(self, entity: Any, matrix: Ring, layer: str, depth: int) -> None:
        block = entity.block()
        if block is None:
            self._count(layer, "INSERT", say(_NO_BLOCK))
            return
        if depth >= MOST_DEEP:
            self._count(layer, "INSERT", say(_TOO_DEEP))
            return
        if self.inserted + entity.mcount > MOST_INSERTED:
            raise TableError(
                say("the drawing inserts more than {most} blocks", most=MOST_INSERTED), fix=say("Divide it")
            )
        self.inserted += entity.mcount
        for one in entity.multi_insert() if entity.mcount > 1 else (entity,):
            inner = np.array(list(one.matrix44())).reshape(4, 4)
            self.read(block, inner @ matrix, layer if layer != "0" else str(entity.dxf.name), depth + 1)

    def _shape(self, entity: Any, kind: str, matrix: Ring, layer: str) -> None:
        if kind in _OWN_AXES and entity.ocs().transform:
            matrix = np.array(list(entity.ocs().matrix)).reshape(4, 4) @ matrix
        if np.abs(matrix[:2, 2]).max() > _FLAT * np.abs(matrix[:2, :2]).max():
            self._count(layer, kind, say(_SLANTED))
            return
        grown = float(np.linalg.norm(matrix[:2, :2], 2)) or 1.0
        points = _POINTS[kind](entity, self.sagitta / grown)
        if points is None:
            self._count(layer, kind, say(_NOT_READ))
            return
        ring, closed = points
        if len(ring) > 1:
            reach = float(np.ptp(ring, axis=0).max())
            if math.dist(ring[0], ring[-1]) <= _JOINED * reach:
                ring, closed = ring[:-1], True
        if not closed:
            self._count(layer, kind, say(_NOT_CLOSED))
            return
        moved = ring @ matrix[:2, :2] + matrix[3, :2]
        if len(moved) < 3 or not np.abs(moved).max() < MOST_UNITS:
            self._count(layer, kind, say(_NO_GROUND))
            return
        if len(self.good) >= MOST_SHAPES:
            raise TableError(
                say("the drawing has more than {most} shapes", most=MOST_SHAPES), fix=say("Divide it")
            )
        where = say("layer {layer}: {kind}", layer=layer, kind=kind)
        self.good.append(DrawnShape(where, "" if layer == "0" else layer, (moved,)))


def bulged(corners: Ring, closed: bool, sagitta: float) -> Ring:
    """The corners of a line of which pieces may be arcs, these by short chords.

    Parameters
    ----------
    corners : ndarray (n, 3)
        Places, and the bulge of the piece after each: the tangent of a quarter of its angle, positive to the left.
    closed : bool
        Whether the last piece leads back to the first corner.
    sagitta : float
        Chords lie no farther than this from their arc.

    Returns
    -------
    ndarray (m, 2)
        Of a closed line the first corner is not repeated.
    """
    found: list[Ring] = []
    pieces = len(corners) if closed else len(corners) - 1
    for number, (x, y, bulge) in enumerate(corners.tolist()):
        found.append(np.array([[x, y]]))
        if number >= pieces or not bulge:
            continue
        start = np.array([x, y])
        chord = corners[(number + 1) % len(corners), :2] - start
        span = 4 * math.atan(bulge)
        length = float(np.hypot(*chord))
        if not length:
            continue
        radius = length / 2 / math.sin(abs(span) / 2)
        steps = chords(radius, abs(span), sagitta)
        # The middle lies beside the chord's: to its left where the bulge is positive and small.
        left = np.array([-chord[1], chord[0]])
        middle = start + chord / 2 + left / 2 / math.tan(span / 2)
        turn = np.arange(1, steps) * (span / steps)
        x0, y0 = start - middle
        found.append(
            middle
            + np.column_stack([np.cos(turn) * x0 - np.sin(turn) * y0, np.sin(turn) * x0 + np.cos(turn) * y0])
        )
    return np.vstack(found) if found else np.zeros((0, 2))


def chords(radius: float, span: float, sagitta: float) -> int:
    """Into how many chords an arc is divided.

    Parameters
    ----------
    radius : float
    span : float
        [radians]
    sagitta : float
        Chords lie no farther than this from their arc.

    Examples
    --------
    >>> chords(1.0, 2 * math.pi, 0.001)
    71
    """
    if not sagitta < radius:
        return max(2, math.ceil(span / (math.pi / 3)))
    widest = 2 * math.acos(1 - sagitta / radius)
    return min(max(2, math.ceil(span / widest)), MOST_CHORDS)


#: Points of an entity in its own coordinates, and whether they are closed; None where it is no outline at all.
_Points = Callable[[Any, float], tuple[Ring, bool] | None]


def _lwpolyline(entity: Any, sagitta: float) -> tuple[Ring, bool]:
    corners = np.array(list(entity.get_points("xyb")), dtype=np.float64).reshape(-1, 3)
    return bulged(corners, entity.closed, sagitta), bool(entity.closed)


def _polyline(entity: Any, sagitta: float) -> tuple[Ring, bool] | None:
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        return None
    flat = entity.is_2d_polyline
    drawn = [one for one in entity.vertices if not one.dxf.flags & 16]  # 16: only steers a curve
    corners = np.array(
        [(*one.dxf.location.vec2, one.dxf.get("bulge", 0.0) if flat else 0.0) for one in drawn],
        dtype=np.float64,
    ).reshape(-1, 3)
    return bulged(corners, entity.is_closed, sagitta), bool(entity.is_closed)


def _circle(entity: Any, sagitta: float) -> tuple[Ring, bool]:
    x, y, radius = entity.dxf.center.x, entity.dxf.center.y, entity.dxf.radius
    half = np.array([[x - radius, y, 1.0], [x + radius, y, 1.0]])
    return bulged(half, True, sagitta), True


def _ellipse(entity: Any, sagitta: float) -> tuple[Ring, bool]:
    points = [(one.x, one.y) for one in entity.flattening(sagitta)]
    return np.array(points, dtype=np.float64).reshape(-1, 2), False


#: What reads the points of each kind of entity.
_POINTS: dict[str, _Points] = {
    "LWPOLYLINE": _lwpolyline,
    "POLYLINE": _polyline,
    "CIRCLE": _circle,
    "ELLIPSE": _ellipse,
}
