"""Outlines of beds and structures from a drawing (SVG, DXF) or a map (GeoJSON): a preview first, the garden with them afterwards."""

from __future__ import annotations

import json
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any, get_args

import numpy as np
import shapely

from planner.garden import Bed, Garden, Outline, Rectangle, Structure
from planner.garden.beds import USUAL_HEIGHTS, BedKind, StructureKind
from planner.garden.edits import EditError, checked, fresh_id
from planner.garden.edits.common import fresh_name, put
from planner.ground.drawing import drawn_polygon
from planner.ground.earth import Earth
from planner.importing.beside import beside
from planner.importing.drawn_shape import DrawnShape
from planner.importing.dxf_shapes import DxfDrawing
from planner.importing.svg_shapes import svg_shapes
from planner.importing.table_text import MOST_BYTES, TableError
from planner.words import say

#: Corners that lie off a straight line by less are left out. [m]
HAIR = 0.002
#: Corners are right angles where they are off by less. [degrees]
_SQUARE = 0.5
#: Outlines that cannot be beds: farther than this from the garden's place. [m]
MOST_FAR = 20_000.0
#: What outlines may become: beds, and structures but arches, of which an outline does not tell where the feet are.
BED = "bed"
OUTLINE_KINDS = (BED, *(kind for kind in get_args(StructureKind) if kind != "arch"))
#: Largest scale on paper that is read: one to so many.
_MOST_SCALE = 1_000_000
Ring = Sequence[tuple[float, float]]


@dataclass(frozen=True)
class OutlineRow:
    """One outline of the file.

    Attributes
    ----------
    where : str
        Its line, or its number, in words.
    made : Bed or Structure or None
        What it becomes.
    error : str
        Why it cannot be taken; empty for a good one.
    notes : tuple of str
        How it was understood, where that may not be what was meant.
    count : int
        Shapes of the file that it speaks of.
    """

    where: str
    made: Bed | Structure | None = None
    error: str = ""
    notes: tuple[str, ...] = ()
    count: int = 1


@dataclass(frozen=True)
class OutlinePreview:
    """What taking a file in would do; rows in its order."""

    rows: tuple[OutlineRow, ...]

    @property
    def beds(self) -> tuple[Bed, ...]:
        """Beds that would be made."""
        return tuple(row.made for row in self.rows if isinstance(row.made, Bed))

    @property
    def structures(self) -> tuple[Structure, ...]:
        """Structures that would be made."""
        return tuple(row.made for row in self.rows if isinstance(row.made, Structure))

    @property
    def bad(self) -> tuple[OutlineRow, ...]:
        """What could not be taken."""
        return tuple(row for row in self.rows if row.error)

    @property
    def lost(self) -> int:
        """How many shapes could not be taken."""
        return sum(row.count for row in self.bad)


def take_outlines(garden: Garden, found: OutlinePreview) -> Garden:
    """The garden with all that a preview makes: one edit.

    Parameters
    ----------
    garden : Garden
        That of the preview.
    found : OutlinePreview

    Returns
    -------
    Garden
        The very same garden where nothing can be taken.
    """
    if not found.beds and not found.structures:
        return garden
    return put(
        garden,
        beds=(*garden.beds, *found.beds),
        structures=(*garden.structures, *found.structures),
    )


def read_scale(text: str) -> float:
    """A scale as it is written, 1:50 or 50: one on paper is so many on the ground.

    Raises
    ------
    TableError
        Where it is none.

    Examples
    --------
    >>> read_scale("1 : 50"), read_scale("200")
    (50.0, 200.0)
    """
    number = text.replace(" ", "").removeprefix("1:")
    if not number.isascii() or not number.isdigit() or not 0 < int(number) <= _MOST_SCALE:
        raise TableError(say("'{text}' is no scale", text=text), fix=say("Write one such as 1:50"))
    return float(number)


def preview_svg(
    data: bytes, garden: Garden, kind: str = BED, *, unit: float | None = None, scale: float | None = None
) -> OutlinePreview:
    """Read outlines of a drawing, without changing anything; they come to lie beside what is there.

    Parameters
    ----------
    data : bytes
    garden : Garden
    kind : str
        ``bed``, or the kind of a structure.
    unit : float, optional
        Ground of one unit of the drawing. [m]
    scale : float, optional
        One on paper to so many on the ground; this or ``unit`` is given.

    Raises
    ------
    TableError
        Where it is no SVG, or it is not said how large it is.
    """
    drawing = svg_shapes(data)
    if (unit is None) == (scale is None):
        raise TableError(
            say("how large the drawing is must be said in one way"),
            fix=say("Give its scale, or the unit that its numbers are in"),
        )
    metres = unit if unit is not None else drawing.unit / 1000.0 * (scale or 0.0)
    return _placed(drawing.shapes, garden, kind, metres, np.array([1.0, -1.0]))


def preview_dxf(
    data: bytes | DxfDrawing, garden: Garden, kind: str = BED, *, unit: float | None = None
) -> OutlinePreview:
    """Read outlines of a DXF drawing, without changing anything; they come to lie beside what is there.

    Parameters
    ----------
    data : bytes or DxfDrawing
        The file, or the drawing that was read of it.
    garden : Garden
    kind : str
        ``bed``, or the kind of a structure.
    unit : float, optional
        Ground of one unit of the drawing, where it is another than the file says. [m]

    Raises
    ------
    TableError
        Where it is no DXF, or the file does not say its unit.
    """
    drawing = data if isinstance(data, DxfDrawing) else DxfDrawing(data)
    metres = unit if unit is not None else drawing.unit
    if metres is None:
        raise TableError(
            say("the drawing does not say in what its numbers are"), fix=say("Give the unit of its numbers")
        )
    return _placed(drawing.shapes(metres), garden, kind, metres, np.array([1.0, 1.0]))


def _placed(
    shapes: Sequence[DrawnShape], garden: Garden, kind: str, metres: float, axes: np.ndarray
) -> OutlinePreview:
    """What shapes become, their tops in line with the top of what is there, to the right of it.

    Parameters
    ----------
    shapes : sequence of DrawnShape
    garden : Garden
    kind : str
    metres : float
        Ground of one unit.
    axes : ndarray (2,)
        1 or -1: whether the drawing's x and y go with the plan's.
    """
    rings = [ring * axes for shape in shapes for ring in shape.rings]
    left, top = beside(garden)
    corners = np.vstack(rings) if rings else np.zeros((1, 2))
    corner = np.array([corners[:, 0].min(), corners[:, 1].max()])

    def on_plan(ring: np.ndarray) -> Ring:
        across, up = ((ring * axes - corner) * metres).T
        return list(zip((left + across).tolist(), (top + up).tolist(), strict=True))

    maker = _Maker(garden, kind)
    return OutlinePreview(tuple(row for shape in shapes for row in maker.drawn(shape, on_plan)))


def preview_geojson(data: bytes, garden: Garden, kind: str = BED) -> OutlinePreview:
    """Read outlines of a map, without changing anything; they come to lie at their true place.

    Parameters
    ----------
    data : bytes
    garden : Garden
        Whose latitude and longitude are known.
    kind : str
        ``bed``, or the kind of a structure: of what does not say itself what it is.

    Raises
    ------
    TableError
        Where it is no GeoJSON.
    NoPlaceError
        Where the garden's place is not known.
    """
    earth, maker = Earth.of(garden.site), _Maker(garden, kind)
    return OutlinePreview(
        tuple(
            row
            for number, feature in enumerate(_features(data), 1)
            for row in maker.mapped(number, feature, earth)
        )
    )


def outline_through(corners: Ring) -> Outline:
    """The outline through corners on the plan: a rectangle where four of them make one.

    Parameters
    ----------
    corners : sequence of tuple of float
        The first not repeated. [m]

    Raises
    ------
    EditError
        Where it crosses itself or has no area.
    """
    ring = shapely.simplify(shapely.Polygon(corners), HAIR)
    points = shapely.get_coordinates(ring)[:-1] if not ring.is_empty else np.array(corners)
    sides = np.roll(points, -1, axis=0) - points
    lengths = np.hypot(sides[:, 0], sides[:, 1])
    if len(points) == 4 and lengths.min() > 0:
        turns = np.einsum("ij,ij->i", sides, np.roll(sides, -1, axis=0)) / (lengths * np.roll(lengths, -1))
        if np.abs(turns).max() < math.sin(math.radians(_SQUARE)):
            x, y = sides[0] - sides[2]
            middle = points.mean(axis=0).tolist()
            turn = math.degrees(math.atan2(y, x)) % 180.0
            return Rectangle(
                center=(round(middle[0], 6), round(middle[1], 6)),
                turn=round(turn, 6) % 180.0,
                length=round(float(lengths[0] + lengths[2]) / 2, 6),
                width=round(float(lengths[1] + lengths[3]) / 2, 6),
            )
    return drawn_polygon([(float(x), float(y)) for x, y in points])


class _Maker:
    """Makes beds and structures of outlines, with ids and names that no other has."""

    def __init__(self, garden: Garden, kind: str) -> None:
        self._kind = kind
        self._names = [bed.name for bed in garden.beds]
        self._next = {letter: int(fresh_id(garden, letter)[1:]) for letter in "bs"}

    def drawn(self, shape: DrawnShape, on_plan: Any) -> Iterator[OutlineRow]:
        """Rows of a shape of a drawing: each of its rings, those within others left out."""
        where = shape.where
        if shape.error:
            yield OutlineRow(where, error=shape.error, count=shape.count)
            return
        rings = [on_plan(ring) for ring in shape.rings]
        grounds = [shapely.Polygon(ring) for ring in rings]
        for ring, ground in zip(rings, grounds, strict=True):
            others = [one for one in grounds if one is not ground and one.is_valid]
            if ground.is_valid and any(other.contains(ground) for other in others):
                continue  # a hole
            holed = ground.is_valid and any(ground.contains(other) for other in others)
            notes = (say("its hole is filled"),) if holed else ()
            yield self._made(where, ring, shape.name, self._kind, {}, notes)

    def mapped(self, number: int, feature: Any, earth: Earth) -> Iterator[OutlineRow]:
        """Rows of a feature of a map: each of its polygons."""
        where = say("feature {number}", number=number)
        geometry, about = (_member(feature, name) for name in ("geometry", "properties"))
        kind = str(geometry.get("type", ""))
        if about.get("thing") in ("planting", "garden"):
            yield OutlineRow(where, error=say("only beds and structures are taken from a map"))
            return
        if kind not in ("Polygon", "MultiPolygon"):
            yield OutlineRow(where, error=say("it encloses no ground"))
            return
        try:
            parts = [geometry["coordinates"]] if kind == "Polygon" else list(geometry["coordinates"])
            rings = [np.array([corner[:2] for corner in part[0]], dtype=np.float64) for part in parts]
            holed = [len(part) > 1 for part in parts]
        except (KeyError, TypeError, ValueError, IndexError):
            yield OutlineRow(where, error=say("its corners cannot be read"))
            return
        name = str(about.get("name") or about.get("title") or "")
        for ring, hole in zip(rings, holed, strict=True):
            if (
                ring.ndim != 2
                or len(ring) < 4
                or not np.isfinite(ring).all()
                or np.abs(ring[:, 1]).max() > 90
            ):
                yield OutlineRow(where, error=say("its corners cannot be read"))
                continue
            plan = earth.on_plan(ring[:-1])
            if np.abs(plan).max() > MOST_FAR:
                yield OutlineRow(where, error=say("it lies far from the garden's latitude and longitude"))
                continue
            corners = [(float(x), float(y)) for x, y in plan]
            notes = (say("its hole is filled"),) if hole else ()
            yield self._made(where, corners, name, *self._as(about), notes)

    def _as(self, about: dict[str, Any]) -> tuple[str, dict[str, Any]]:
        """What a feature becomes, and fields that it gives: those that this program writes."""
        kind, fields = str(about.get("kind") or ""), {}
        height = about.get("height_m")
        if isinstance(height, (int, float)) and not isinstance(height, bool):
            fields["height"] = float(height)
        if about.get("thing") == "structure" and kind in get_args(StructureKind):
            return kind, fields
        if about.get("thing") == BED:
            return BED, {**fields, **({"kind": kind} if kind in get_args(BedKind) else {})}
        return self._kind, fields

    def _made(
        self,
        where: str,
        ring: Ring,
        name: str,
        kind: str,
        fields: dict[str, Any],
        notes: tuple[str, ...],
    ) -> OutlineRow:
        try:
            outline = outline_through(ring)
            letter = "b" if kind == BED else "s"
            key = f"{letter}{self._next[letter]}"
            made: Bed | Structure
            if kind == BED:
                free = fresh_name(self._names, name.strip()[:80] or f"Bed {len(self._names) + 1}")
                if name.strip() and free != name.strip():
                    notes = (*notes, say("it is called {name}", name=free))
                made = checked(lambda: Bed(id=key, name=free, outline=outline, **fields), where)
                self._names.append(free)
            else:
                usual = USUAL_HEIGHTS[kind]  # type: ignore[index]  # one of the kinds of structures
                own = {"height": usual, **fields}
                made = checked(
                    lambda: Structure(id=key, kind=kind, name=name.strip()[:80], outline=outline, **own),
                    where,
                )
        except (EditError, ValueError) as error:
            what = error.what if isinstance(error, EditError) else say("it encloses no ground")
            return OutlineRow(where, error=what)
        self._next[letter] += 1
        return OutlineRow(where, made, notes=notes)


def _member(feature: Any, name: str) -> dict[str, Any]:
    """A member of a feature that holds members itself; empty where it does not."""
    found = feature.get(name) if isinstance(feature, dict) else None
    return found if isinstance(found, dict) else {}


def _features(data: bytes) -> list[Any]:
    """The features of a GeoJSON file; a geometry by itself is one."""
    if len(data) > MOST_BYTES:
        raise TableError(
            say("the map has more than {size} MB", size=MOST_BYTES // 1_000_000), fix=say("Divide it")
        )
    try:
        found = json.loads(data.decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        line = getattr(error, "lineno", 0)
        where = say("line {line}", line=line) if line else ""
        raise TableError(say("the map is no JSON"), where, say("Save it as GeoJSON again")) from None
    kind = found.get("type") if isinstance(found, dict) else None
    if kind == "FeatureCollection" and isinstance(found.get("features"), list):
        return list(found["features"])
    if kind == "Feature":
        return [found]
    if kind in ("Polygon", "MultiPolygon"):
        return [{"geometry": found, "properties": {}}]
    raise TableError(say("the file is no GeoJSON"), fix=say("Save the map as GeoJSON"))
