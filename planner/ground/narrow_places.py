"""Places where walkable ground is narrower than a least width; for any shape, on the plan.

Ground is narrow if a disc of the least width cannot sweep it, or if there is a gap between two corners that the disc
cannot pass.  The width of a place is measured along a strait: a straight line from rim to rim that is shorter than
its neighbours.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.ground.shapes import polygons_of

#: Corners of a quarter circle when buffering: off by less than a millimetre at 0.6 m.
_QUARTER = 24
#: Smaller pieces of ground are not reported. [m2]
_SPECK = 1e-4
#: Rounding of offset curves. [m]
_ROUNDING = 1e-3
#: Distance outside a piece at which a strait still belongs to it. [m]
_NEAR = 0.01
#: Least share of its mouth's width times its depth that a dead end fills; a pointed corner fills less.
_DEAD_END_FILL = 0.65


@dataclass(frozen=True, eq=False)
class Narrow:
    """A place where walkable ground is narrower than the least width.

    Attributes
    ----------
    shape : shapely.Geometry
        The narrow stretch; for a gap between two corners the circle about it. [m]
    width : float
        At its narrowest. [m]
    across : shapely.LineString
        From side to side at its narrowest; empty if it has no sides (a room too small for a person). [m]
    """

    shape: shapely.Geometry
    width: float
    across: shapely.LineString


def narrow_places(paths: shapely.Geometry, least: float) -> tuple[Narrow, ...]:
    """Find the places that are narrower than a least width, the narrowest first.

    Corners of wide ground that a disc of that width cannot sweep do not count.

    Parameters
    ----------
    paths : shapely.Geometry
        Walkable ground; see :func:`planner.ground.paths.walkable`. [m]
    least : float
        Least width. [m]
    """
    if paths.is_empty or least <= 0:
        return ()
    straits, flat = _straits(paths, least - 2 * _ROUNDING)
    half = least / 2 - _ROUNDING
    swept = paths.buffer(-half, quad_segs=_QUARTER).buffer(half + _ROUNDING / 4, quad_segs=_QUARTER)
    wide = swept.buffer(_ROUNDING)
    shapely.prepare(wide)
    parts = [
        part
        for part in shapely.get_parts(polygons_of(shapely.difference(paths, swept)))
        if part.area > _SPECK and not _is_corner(part, wide, least)
    ]
    found = _stretches(parts, straits)
    gaps = straits[~flat]
    covered = shapely.union_all([place.shape for place in found]).buffer(_NEAR)
    shapely.prepare(covered)
    used: list[shapely.Point] = []
    for gap in gaps[~shapely.intersects(covered, gaps)]:
        middle = shapely.line_interpolate_point(gap, 0.5, normalized=True)
        if all(middle.distance(other) > least for other in used):
            used.append(middle)
            about = polygons_of(middle.buffer(gap.length / 2).intersection(paths))
            found.append(Narrow(about, float(gap.length), gap))
    return tuple(sorted(found, key=lambda place: place.width))


def _stretches(parts: Sequence[shapely.Polygon], straits: NDArray[np.object_]) -> list[Narrow]:
    """The pieces with their least width: that of the shortest strait in each, else of its largest inscribed circle."""
    best: dict[int, int] = {}
    if len(parts) and len(straits):
        shapes = np.array(parts, dtype=object)
        piece, strait = shapely.STRtree(straits).query(shapes, predicate="dwithin", distance=_NEAR)
        ends = shapely.get_coordinates(straits).reshape(-1, 2, 2)
        near = [shapely.distance(shapes[piece], shapely.points(ends[strait, end])) <= _NEAR for end in (0, 1)]
        both = near[0] & near[1]
        for one, other in zip(piece[both].tolist(), strait[both].tolist(), strict=True):
            best[one] = min(best.get(one, other), other)
    found = []
    for number, part in enumerate(parts):
        if number in best:
            across = straits[best[number]]
            found.append(Narrow(part, float(across.length), across))
        else:
            radius = shapely.maximum_inscribed_circle(part, tolerance=_ROUNDING).length
            found.append(Narrow(part, 2 * float(radius), shapely.LineString()))
    return found


def _is_corner(part: shapely.Polygon, wide: shapely.Geometry, least: float) -> bool:
    """Whether a piece is the part of a wide corner that a disc cannot sweep."""
    touching = shapely.intersection(part.boundary, wide)
    runs = [run for run in shapely.get_parts(touching) if run.length > 0]
    mouths = shapely.get_parts(shapely.line_merge(shapely.union_all(runs))) if runs else []
    if len(mouths) != 1 or mouths[0].is_closed:
        return False
    depth = part.hausdorff_distance(mouths[0])
    ends = shapely.get_coordinates(mouths[0])[[0, -1]]
    across = float(np.hypot(*(ends[1] - ends[0])))
    return bool(depth <= least / 2 or part.area < _DEAD_END_FILL * across * depth)


# -- straits ------------------------------------------------------------------------------------


def _straits(paths: shapely.Geometry, least: float) -> tuple[NDArray[np.object_], NDArray[np.bool_]]:
    """Straight lines across walkable ground, from rim to rim, that are shorter than their neighbours.

    Parameters
    ----------
    paths : shapely.Geometry
    least : float
        Only shorter ones are found. [m]

    Returns
    -------
    lines, flat : ndarray
        The shortest first; flat are those along the rim, at the end of a dead end.
    """
    begin, end, before, after = _rim(paths)
    edges = shapely.linestrings(np.stack([begin, end], axis=1))
    tree = shapely.STRtree(edges)
    one, other = tree.query(edges, predicate="dwithin", distance=least)
    apart = one < other
    one, other = one[apart], other[apart]
    lines = shapely.shortest_line(edges[one], edges[other])
    length = shapely.length(lines)
    narrow = (length > 1e-6) & (length < least)
    lines, one, other = lines[narrow], one[narrow], other[narrow]
    points = shapely.get_coordinates(lines).reshape(-1, 2, 2)
    first, last = points[:, 0], points[:, 1]
    shortest = _does_not_shorten(first, last, (begin, end, before, after), one)
    shortest &= _does_not_shorten(last, first, (begin, end, before, after), other)
    lines, one, other, points = lines[shortest], one[shortest], other[shortest], points[shortest]
    around = paths.buffer(1e-7)
    shapely.prepare(around)
    middles = points.mean(axis=1)
    flat = shapely.distance(paths.boundary, shapely.points(middles)) < 1e-7
    used = shapely.covers(around, lines)
    used &= ~flat | _ends_dead_end(paths, points, middles, (begin[one], end[one], begin[other], end[other]))
    order = np.flatnonzero(used)
    order = order[np.argsort(shapely.length(lines[order]), kind="stable")]
    return lines[order], flat[order]


def _ends_dead_end(
    paths: shapely.Geometry,
    points: NDArray[np.float64],
    middles: NDArray[np.float64],
    edges: tuple[NDArray[np.float64], ...],
) -> NDArray[np.bool_]:
    """Whether a line along the rim is the flat end of a dead end: both neighbouring edges run inward."""
    inward = np.zeros_like(middles)
    square = np.ones(len(points), dtype=bool)
    along = points[:, 1] - points[:, 0]
    for side, sign in ((0, 1), (1, -1)):
        here = points[:, side]
        one, other = edges[2 * side] - here, edges[2 * side + 1] - here
        longer = np.hypot(*one.T) > np.hypot(*other.T)
        away = np.where(longer[:, None], one, other)
        size = np.maximum(np.hypot(*away.T) * np.hypot(*along.T), 1e-12)
        square &= np.abs((away * along).sum(axis=1) * sign / size) < 0.5
        inward += away / np.maximum(np.hypot(*away.T), 1e-12)[:, None]
    inside: NDArray[np.bool_] = shapely.contains_xy(paths, middles + 1e-4 * inward)
    return square & inside


def _rim(paths: shapely.Geometry) -> tuple[NDArray[np.float64], ...]:
    """Edges of all rings: their ends, and the corners before and after them."""
    begins, ends, befores, afters = [], [], [], []
    for polygon in shapely.get_parts(shapely.normalize(paths)):
        for ring in (polygon.exterior, *polygon.interiors):
            corners = shapely.get_coordinates(shapely.remove_repeated_points(ring, 1e-6))[:-1]
            begins.append(corners)
            ends.append(np.roll(corners, -1, axis=0))
            befores.append(np.roll(corners, 1, axis=0))
            afters.append(np.roll(corners, -2, axis=0))
    return tuple(np.concatenate(part) for part in (begins, ends, befores, afters))


def _does_not_shorten(
    here: NDArray[np.float64],
    there: NDArray[np.float64],
    rim: tuple[NDArray[np.float64], ...],
    edge: NDArray[np.intp],
) -> NDArray[np.bool_]:
    """Whether no step along the rim from one end of a line brings it nearer to the other end.

    A step along the line itself does not count, because the flat end of a dead end is narrow.
    """
    begin, end, before, after = (part[edge] for part in rim)
    line = there - here
    far = np.hypot(line[:, 0], line[:, 1])

    def nearer(to: NDArray[np.float64]) -> NDArray[np.bool_]:
        step = to - here
        size = np.hypot(step[:, 0], step[:, 1])
        with np.errstate(invalid="ignore", divide="ignore"):
            toward = (step * line).sum(axis=1) / (size * far)
        found: NDArray[np.bool_] = (size > 1e-9) & (toward > 1e-6) & (toward < 1 - 1e-9)
        return found

    def at(corner: NDArray[np.float64]) -> NDArray[np.bool_]:
        found: NDArray[np.bool_] = np.hypot(*(corner - here).T) < 1e-9
        return found

    shortens = nearer(begin) | nearer(end)
    shortens |= at(begin) & nearer(before)
    shortens |= at(end) & nearer(after)
    return ~shortens
