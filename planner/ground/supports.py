"""Supports: what ground they take, how high they stand, what they are made of.

A support stands along a line: a row of its planting, or one drawn.  ``BuiltSupport.ground`` is what it takes
of the ground (posts, feet, the foot of a frame), ``BuiltSupport.over`` all it covers seen from above.  The
coordinates are those of what it is made from: a bed's own for a planting's rows.

Measures that nobody gave are common practice unless a source is named beside them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Outline, Structure, Support
from planner.garden.planting import SupportKind
from planner.ground.shapes import own_polygon, shape_to_plan
from planner.ground.stations import Layout

#: Width on the ground of what stands along a line: [m]
THICKNESS = {"sticks": 0.15, "net": 0.05, "wire": 0.05}
#: Foot to foot across an A-frame where its rows do not set it. [m]
FRAME_WIDTH = 0.60
#: Half the diameter of a stake, a cage and a tower on the ground. [m]
STAKE_RADIUS, CAGE_RADIUS, TOWER_RADIUS = 0.025, 0.225, 0.30
#: Length of an arch's foot along its span, and its width along the path. [m]
ARCH_FOOT, ARCH_WIDTH = 0.10, 1.0
#: Clear height under an arch where it is not given. [m]
ARCH_CLEAR = 2.1
#: Post to post. [m]  Minnesota extension, Trellises and cages (umn_trellis): 1.5 to 1.8 m.
POST_SPACING = 1.5
#: How deep posts and stakes go into the ground. [m]  The same: a 6 ft stake driven 1 ft.
DRIVEN = 0.30
STICK_SPACING, FRAME_POLE_SPACING, ARCH_HOOP_SPACING = 0.15, 0.30, 0.50
#: Poles of a tower.
TOWER_POLES = 6
#: Wires one above the other; rounds of string about a stake; string of one round. [m]
WIRE_SPACING, TIE_SPACING, TIE_LENGTH = 0.40, 0.30, 0.40
#: Share of the direct sun held back by the bare support, and in full leaf (``estimate``).
BARE = {"sticks": 0.20, "stake": 0.02, "cage": 0.10, "net": 0.10, "frame": 0.10, "arch": 0.10, "tower": 0.15,
        "wire": 0.05}  # fmt: skip
IN_LEAF = 0.80

_HAIR = 1e-9


@dataclass(frozen=True)
class Material:
    """Something a support is made of.

    Attributes
    ----------
    name : str
        post, stick, stake, cage, pole, hoop, net, wire or string.
    amount : float
        Pieces, or square metres of net, or metres of wire and string.
    unit : str
        "pieces", "m2" or "m".
    length : float or None
        Of one piece. [m]
    """

    name: str
    amount: float
    unit: str = "pieces"
    length: float | None = None


@dataclass(frozen=True, eq=False)
class BuiltSupport:
    """A support worked out.

    Attributes
    ----------
    kind : str
    ground : shapely.Geometry
        What it takes of the ground.
    over : shapely.Geometry
        All it covers, seen from above.
    height : float
        Above the soil. [m]
    lines : tuple of shapely.LineString
        What it stands along; crops sit beside these.
    clear_height, clear_span : float
        Of an arch: free height under it, free width between its feet. [m]  0 of all others.
    feet : tuple of shapely.Geometry
        Of an arch: its two feet, a pair for each arch.
    materials : tuple of Material
    """

    kind: SupportKind
    ground: shapely.Geometry
    over: shapely.Geometry
    height: float
    lines: tuple[shapely.LineString, ...] = ()
    clear_height: float = 0.0
    clear_span: float = 0.0
    feet: tuple[shapely.Geometry, ...] = ()
    materials: tuple[Material, ...] = field(default=())

    def on_plan(self, outline: Outline) -> BuiltSupport:
        """The stand moved from an outline's own coordinates to the plan."""

        def moved(shape: shapely.Geometry) -> shapely.Geometry:
            return shape_to_plan(outline, shape)

        return BuiltSupport(
            self.kind, moved(self.ground), moved(self.over), self.height, tuple(map(moved, self.lines)),
            self.clear_height, self.clear_span, tuple(map(moved, self.feet)), self.materials,
        )  # fmt: skip


def support_opacity(kind: SupportKind, leafed: float) -> float:
    """Share of the direct sun a support holds back as its plants grow over it.

    Parameters
    ----------
    kind : str
    leafed : float
        0 bare, 1 in full leaf.
    """
    return BARE[kind] + (IN_LEAF - BARE[kind]) * min(1.0, max(0.0, leafed))


# -- along lines --------------------------------------------------------------------------------


def stand_along(
    kind: SupportKind,
    lines: Sequence[shapely.LineString],
    height: float,
    spacing: float | None = None,
    width: float | None = None,
    stations: NDArray[np.float64] | None = None,
) -> BuiltSupport:
    """A support along one or several lines.

    Parameters
    ----------
    kind : str
        Of an arch each line is one span, foot to foot.
    lines : sequence of shapely.LineString
    height : float
        [m]
    spacing : float, optional
        Post to post, stick to stick, or tower to tower. [m]
    width : float, optional
        Across the line: of a frame foot to foot, of an arch along the path, of a tower its diameter. [m]
    stations : ndarray (n, 2), optional
        Plants, for stakes and cages; without them one every ``spacing`` along the lines.
    """
    kept = tuple(line for line in lines if line.length > _HAIR)
    if kind in ("stake", "cage", "tower"):
        return _points(kind, kept, height, spacing, width, stations)
    if kind == "arch":
        return _arches(kept, height, width if width is not None else ARCH_WIDTH)
    thick = width if width is not None else THICKNESS.get(kind, FRAME_WIDTH)
    strips = [line.buffer(thick / 2, cap_style="flat", join_style="mitre") for line in kept]
    over = shapely.union_all(strips)
    lengths = [float(line.length) for line in kept]
    return BuiltSupport(
        kind, over, over, height, kept, materials=_made_of(kind, lengths, height, spacing, thick)
    )


def _points(
    kind: SupportKind,
    lines: Sequence[shapely.LineString],
    height: float,
    spacing: float | None,
    width: float | None,
    stations: NDArray[np.float64] | None,
) -> BuiltSupport:
    radius = {"stake": STAKE_RADIUS, "cage": CAGE_RADIUS}.get(kind, TOWER_RADIUS)
    if width is not None:
        radius = width / 2
    if stations is None or kind == "tower":
        apart = spacing if spacing is not None else max(4 * radius, 0.3)
        found = [beside(line, apart, 0.0) for line in lines]
        stations = np.concatenate(found) if found else np.zeros((0, 2))
    over = (
        shapely.union_all(shapely.points(stations).tolist()).buffer(radius)
        if len(stations)
        else shapely.Polygon()
    )
    count = len(stations)
    slant = math.hypot(height, radius)
    made = {
        "stake": (
            Material("stake", count, length=height + DRIVEN),
            Material("string", count * math.ceil(height / TIE_SPACING - _HAIR) * TIE_LENGTH, "m"),
        ),
        "cage": (Material("cage", count, length=height),),
        "tower": (
            Material("pole", count * TOWER_POLES, length=slant + DRIVEN),
            Material(
                "string", count * math.ceil(height / TIE_SPACING - _HAIR) * 2 * math.pi * radius / 2, "m"
            ),
        ),
    }[kind]
    return BuiltSupport(kind, over, over, height, tuple(lines), materials=made if count else ())


def _arches(lines: Sequence[shapely.LineString], height: float, width: float) -> BuiltSupport:
    feet: list[shapely.Geometry] = []
    for line in lines:
        ends = shapely.get_coordinates(line)[[0, -1]]
        straight = shapely.LineString(ends)
        foot = min(ARCH_FOOT, straight.length / 4)
        for start, end in ((0.0, foot), (straight.length - foot, straight.length)):
            piece = shapely.LineString([straight.interpolate(start), straight.interpolate(end)])
            feet.append(piece.buffer(width / 2, cap_style="flat"))
    over = shapely.union_all([line.buffer(width / 2, cap_style="flat") for line in lines])
    spans = [float(line.length) for line in lines]
    clear = min(ARCH_CLEAR, height)
    free = min((span - 2 * min(ARCH_FOOT, span / 4) for span in spans), default=0.0)
    made = _arch_materials(spans, height, clear, width)
    return BuiltSupport(
        "arch", shapely.union_all(feet), over, height, tuple(lines), clear, free, tuple(feet), made
    )


def arch_of(structure: Structure) -> BuiltSupport:
    """The stand of an arch drawn as a structure, on the plan."""
    outline = structure.outline
    left, low, right, high = shapely.bounds(own_polygon(outline))
    middle = (low + high) / 2
    foot = structure.foot
    feet = (shapely.box(left, low, left + foot, high), shapely.box(right - foot, low, right, high))
    span, width = right - left, high - low
    own = BuiltSupport(
        "arch",
        shapely.union_all(feet),
        own_polygon(outline),
        structure.height,
        (shapely.LineString([(left, middle), (right, middle)]),),
        min(structure.clear_height, structure.height),
        span - 2 * foot,
        feet,
        _arch_materials([span], structure.height, min(structure.clear_height, structure.height), width),
    )
    return own.on_plan(outline)


# -- of a planting ------------------------------------------------------------------------------


def built_support(support: Support, layout: Layout, plot: shapely.Geometry) -> BuiltSupport:
    """The support of a planting, in its bed's coordinates.

    Sticks, nets and wires follow every row; stakes and cages stand at every plant; an A-frame stands
    over each two rows that lie side by side; towers stand along the middle of the plot, and so does an
    arch, from end to end.  A support with a drawn line stands along that.

    Parameters
    ----------
    support : Support
    layout : Layout
    plot : shapely.Geometry
    """
    rows = [shapely.LineString([row.start, row.end]) for row in layout.rows]
    kind, height, spacing = support.kind, support.height, support.spacing
    if support.line:
        at = layout.points if kind in ("stake", "cage") else None
        return stand_along(kind, [shapely.LineString(support.line)], height, spacing, stations=at)
    if kind in ("tower", "arch"):
        return stand_along(kind, _middle_lines(plot), height, spacing)
    if kind in ("stake", "cage"):
        return stand_along(kind, rows, height, spacing, stations=layout.points)
    if not rows:
        rows = _middle_lines(plot)
    elif kind == "frame":
        return _frames(layout, height, spacing)
    return stand_along(kind, rows, height, spacing)


def _frames(layout: Layout, height: float, spacing: float | None) -> BuiltSupport:
    """A-frames over the rows, two and two."""
    by_row: dict[int, list[shapely.LineString]] = {}
    for row in layout.rows:
        by_row.setdefault(row.index, []).append(shapely.LineString([row.start, row.end]))
    numbers = sorted(by_row)
    shapes: list[shapely.Geometry] = []
    lines: list[shapely.LineString] = []
    materials: list[Material] = []
    while numbers:
        one = by_row[numbers.pop(0)]
        if numbers and len(one) == len(by_row[numbers[0]]) == 1:
            other = by_row[numbers.pop(0)]
            shape = shapely.convex_hull(shapely.union_all([*one, *other]))
            wide, length = (
                float(one[0].distance(other[0])),
                max(float(line.length) for line in (*one, *other)),
            )
            lines += [*one, *other]
            shapes.append(shape)
            materials += _made_of("frame", [length], height, spacing, wide)
        else:
            single = stand_along("frame", one, height, spacing)
            shapes.append(single.over)
            lines += one
            materials += single.materials
    over = shapely.union_all(shapes)
    return BuiltSupport("frame", over, over, height, tuple(lines), materials=add_up(materials))


def _middle_lines(plot: shapely.Geometry) -> list[shapely.LineString]:
    """The line along the middle of each piece of a plot."""
    found = []
    for part in shapely.get_parts(plot):
        corners = shapely.get_coordinates(shapely.minimum_rotated_rectangle(part))
        if len(corners) < 5:
            continue
        sides = [(corners[i] + corners[i + 1]) / 2 for i in range(4)]
        one, other = shapely.LineString([sides[0], sides[2]]), shapely.LineString([sides[1], sides[3]])
        line = shapely.intersection(max(one, other, key=lambda way: float(way.length)), part)
        found += [piece for piece in shapely.get_parts(line) if piece.geom_type == "LineString"]
    return found


def beside(line: shapely.LineString, spacing: float, offset: float, sides: int = 1) -> NDArray[np.float64]:
    """Stations along a support's line, evenly shared out, the ends half a spacing or more away.

    Parameters
    ----------
    line : shapely.LineString
    spacing : float
        Station to station. [m]
    offset : float
        From the line, to its left; with two sides to its right as well. [m]
    sides : int
        1 or 2.

    Returns
    -------
    ndarray (n, 2)
    """
    count = math.floor(line.length / spacing + 1e-9)
    if count < 1:
        return np.zeros((0, 2))
    spare = line.length - count * spacing
    found: list[NDArray[np.float64]] = []
    for side in (1, -1)[:sides]:
        for number in range(count):
            at = spare / 2 + (number + 0.5) * spacing
            here = shapely.get_coordinates(line.interpolate(at))[0]
            behind, ahead = (
                shapely.get_coordinates(line.interpolate(max(0.0, at + step)))[0] for step in (-1e-4, 1e-4)
            )
            way = (ahead - behind) / max(float(np.hypot(*(ahead - behind))), 1e-12)
            found.append(here + side * offset * np.array([-way[1], way[0]]))
    return np.array(found)


# -- materials ----------------------------------------------------------------------------------


def _count(length: float, spacing: float) -> int:
    """Posts along a length, one at either end."""
    return max(1, math.ceil(length / spacing - 1e-9)) + 1


def _made_of(
    kind: SupportKind, lengths: Sequence[float], height: float, spacing: float | None, width: float
) -> tuple[Material, ...]:
    total = sum(lengths)
    if not lengths:
        return ()
    if kind == "sticks":
        sticks = sum(_count(length, spacing or STICK_SPACING) for length in lengths)
        return (Material("stick", sticks, length=height + DRIVEN),)
    if kind == "frame":
        slant = math.hypot(height, width / 2)
        poles = sum(2 * _count(length, spacing or FRAME_POLE_SPACING) for length in lengths)
        ridge = tuple(Material("pole", 1, length=length) for length in lengths)
        return add_up([Material("pole", poles, length=slant + DRIVEN), *ridge])
    posts = sum(_count(length, spacing or POST_SPACING) for length in lengths)
    post = Material("post", posts, length=height + DRIVEN)
    if kind == "wire":
        return post, Material("wire", total * max(1, math.ceil(height / WIRE_SPACING - _HAIR)), "m")
    return post, Material("net", total * height, "m2"), Material("string", 2 * total, "m")


def _arch_materials(
    spans: Sequence[float], height: float, clear: float, width: float
) -> tuple[Material, ...]:
    found: list[Material] = []
    for span in spans:
        across, rise = span / 2, max(0.0, height - clear)
        # Half of an ellipse (Ramanujan 1914) on two upright legs.
        bow = math.pi / 2 * (3 * (across + rise) - math.sqrt((3 * across + rise) * (across + 3 * rise)))
        hoop = 2 * clear + bow
        found.append(Material("hoop", _count(width, ARCH_HOOP_SPACING), length=hoop + 2 * DRIVEN))
        found.append(Material("net", hoop * width, "m2"))
    return add_up(found)


def add_up(materials: Iterable[Material]) -> tuple[Material, ...]:
    """The same materials with equal pieces counted together."""
    sums: dict[tuple[str, str, float | None], float] = {}
    for one in materials:
        length = round(one.length, 2) if one.length is not None else None
        key = (one.name, one.unit, length)
        sums[key] = sums.get(key, 0.0) + one.amount
    return tuple(Material(name, amount, unit, length) for (name, unit, length), amount in sums.items())
