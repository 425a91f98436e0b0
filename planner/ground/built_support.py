"""Shape and materials of one support along given lines, or of an arch drawn as a structure.

Measures without a source are common practice.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.garden import Outline, Structure
from planner.garden.planting import SupportKind
from planner.ground.scatter import stations_beside
from planner.ground.shapes import own_polygon, shape_to_plan
from planner.ground.support_materials import (
    TOWER_POLES,
    Material,
    arch_materials,
    line_materials,
    point_materials,
)

#: Width on the ground of supports along a line. [m]
THICKNESS = {"sticks": 0.15, "net": 0.05, "wire": 0.05, "strings": 0.05, "panel": 0.05}
#: Foot to foot across an A-frame, unless its rows set it. [m]
FRAME_WIDTH = 0.60
#: Radius of a stake, a cage and a tower on the ground. [m]
STAKE_RADIUS, CAGE_RADIUS, TOWER_RADIUS = 0.025, 0.225, 0.30
#: Length of an arch's foot along its span, and its width along the path. [m]
ARCH_FOOT, ARCH_WIDTH = 0.10, 1.0
#: Clear height under an arch of a planting. [m]
ARCH_CLEAR = 2.1
#: Share of the direct sun blocked by the bare support (``estimate``). [0 to 1]
BARE = {"sticks": 0.20, "stake": 0.02, "cage": 0.10, "net": 0.10, "frame": 0.10, "arch": 0.10, "tower": 0.15,
        "wire": 0.05, "strings": 0.03, "panel": 0.10}  # fmt: skip
#: Share of the direct sun blocked by a support in full leaf (``estimate``). [0 to 1]
IN_LEAF = 0.80
#: More towers, stakes or cages along lines take the whole strip of ground that they stand in.
MOST_POSTS = 20_000
#: Shorter lines have no support. [m]
_LEAST_LENGTH = 1e-9


@dataclass(frozen=True, eq=False)
class BuiltSupport:
    """Shape and materials of a support.

    Shapes are in the coordinates of the lines it was made from: the bed's own, or the plan's. [m]

    Attributes
    ----------
    kind : str
    ground : shapely.Geometry
        Ground it occupies: posts, feet, the base of a frame.
    over : shapely.Geometry
        Ground it covers, seen from above.
    height : float
        Above the soil. [m]
    lines : tuple of shapely.LineString
        Lines of the support; crops grow beside these.
    clear_height, clear_span : float
        Of an arch: free height under it, free width between its feet; 0 for other supports. [m]
    feet : tuple of shapely.Geometry
        Of arches: two feet each.
    materials : tuple of Material
    level : tuple of (float, float)
        Length and width of nets that lie level over their plants; none where they hang upright. [m]
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
    level: tuple[tuple[float, float], ...] = ()

    def on_plan(self, outline: Outline) -> BuiltSupport:
        """Return the support moved from an outline's own coordinates to the plan."""

        def moved(shape: shapely.Geometry) -> shapely.Geometry:
            return shape_to_plan(outline, shape)

        return BuiltSupport(
            self.kind, moved(self.ground), moved(self.over), self.height, tuple(map(moved, self.lines)),
            self.clear_height, self.clear_span, tuple(map(moved, self.feet)), self.materials,
            self.level,
        )  # fmt: skip


def support_opacity(kind: SupportKind, leafed: float) -> float:
    """Share of the direct sun that a support blocks as its plants grow over it. [0 to 1]

    Parameters
    ----------
    kind : str
    leafed : float
        Closure of the foliage, 0 bare to 1 in full leaf.
    """
    return BARE[kind] + (IN_LEAF - BARE[kind]) * min(1.0, max(0.0, leafed))


def build_along(
    kind: SupportKind,
    lines: Sequence[shapely.LineString],
    height: float,
    spacing: float | None = None,
    width: float | None = None,
    stations: NDArray[np.float64] | None = None,
) -> BuiltSupport:
    """Build a support along one or several lines.

    Parameters
    ----------
    kind : str
    lines : sequence of shapely.LineString
        For arches each line is one span, foot to foot. [m]
    height : float
        [m]
    spacing : float, optional
        Post to post, stick to stick, or tower to tower. [m]
    width : float, optional
        Across the line: of a frame foot to foot, of an arch along the path, of a tower its diameter. [m]
    stations : ndarray (n, 2), optional
        Plants, for stakes, cages, strings, poles of frames and towers; without them one every ``spacing`` along the lines. [m]
    """
    real = tuple(line for line in lines if line.length > _LEAST_LENGTH)
    if kind in ("stake", "cage", "tower"):
        return _build_at_points(kind, real, height, spacing, width, stations)
    if kind == "arch":
        return _build_arches(real, height, width if width is not None else ARCH_WIDTH)
    thick = width if width is not None else THICKNESS.get(kind, FRAME_WIDTH)
    strips = [line.buffer(thick / 2, cap_style="flat", join_style="mitre") for line in real]
    over = shapely.union_all(strips)
    lengths = [float(line.length) for line in real]
    plants = len(stations) if stations is not None else None
    materials = line_materials(kind, lengths, height, spacing, thick, plants)
    return BuiltSupport(kind, over, over, height, real, materials=materials)


def _build_at_points(
    kind: SupportKind,
    lines: Sequence[shapely.LineString],
    height: float,
    spacing: float | None,
    width: float | None,
    stations: NDArray[np.float64] | None,
) -> BuiltSupport:
    """Build stakes and cages at stations, or towers along lines."""
    radius = {"stake": STAKE_RADIUS, "cage": CAGE_RADIUS}.get(kind, TOWER_RADIUS)
    if width is not None:
        radius = width / 2
    if stations is None or kind == "tower":
        apart = spacing if spacing is not None else max(4 * radius, 0.3)
        if kind == "tower" and spacing is None and stations is not None and lines:
            # A tower for as many plants as it has poles.
            wanted = math.ceil(len(stations) / TOWER_POLES)
            apart = max(apart, sum(float(line.length) for line in lines) / max(1, wanted) - 1e-9)
        many = sum(int(line.length / apart) for line in lines)
        if many > MOST_POSTS:
            strips = shapely.union_all([line.buffer(radius) for line in lines])
            materials = point_materials(kind, many, height, radius)
            return BuiltSupport(kind, strips, strips, height, tuple(lines), materials=materials)
        found = [stations_beside(line, apart, 0.0) for line in lines]
        stations = np.concatenate(found) if found else np.zeros((0, 2))
    count = len(stations)
    discs = shapely.buffer(shapely.points(stations), radius, quad_segs=16)
    over = shapely.disjoint_subset_union_all(discs) if count else shapely.Polygon()
    materials = point_materials(kind, count, height, radius)
    return BuiltSupport(kind, over, over, height, tuple(lines), materials=materials)


def _build_arches(lines: Sequence[shapely.LineString], height: float, width: float) -> BuiltSupport:
    """Build an arch over each line, which is its span."""
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
    materials = arch_materials(spans, height, clear, width)
    return BuiltSupport(
        "arch", shapely.union_all(feet), over, height, tuple(lines), clear, free, tuple(feet), materials
    )


def build_arch(structure: Structure) -> BuiltSupport:
    """Build an arch that is drawn as a structure, on the plan."""
    outline = structure.outline
    left, low, right, high = shapely.bounds(own_polygon(outline))
    middle = (low + high) / 2
    foot = structure.foot
    feet = (shapely.box(left, low, left + foot, high), shapely.box(right - foot, low, right, high))
    span, width = right - left, high - low
    clear = min(structure.clear_height, structure.height)
    own = BuiltSupport(
        "arch",
        shapely.union_all(feet),
        own_polygon(outline),
        structure.height,
        (shapely.LineString([(left, middle), (right, middle)]),),
        clear,
        span - 2 * foot,
        feet,
        arch_materials([span], structure.height, clear, width),
    )
    return own.on_plan(outline)
