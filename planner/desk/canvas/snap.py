"""Snapping: plain coordinates in, plain coordinates out, and what they were caught by."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import shapely

from planner.garden import Bed, Structure
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, INCH
from planner.ground import shapes
from planner.plan import Plan

Point = tuple[float, float]
#: By what something is caught, from the strongest to the weakest.
SnapKind = Literal["corner", "edge", "extension", "centre", "square", "grid", ""]


@dataclass(frozen=True)
class SnapTargets:
    """What catches: sides, corners and middles of beds and structures.

    Attributes
    ----------
    boxes : tuple of (left, low, right, high)
        Extents of each. [m]
    corners : tuple of (x, y)
        Those that are not corners of its extents: of what is turned, and of polygons. [m]
    """

    boxes: tuple[tuple[float, float, float, float], ...] = ()
    corners: tuple[Point, ...] = ()

    @cached_property
    def xs(self) -> list[float]:
        """Coordinates of the edges that go up the plan. [m]"""
        return [x for box in self.boxes for x in (box[0], box[2])]

    @cached_property
    def ys(self) -> list[float]:
        """Coordinates of the edges that go across the plan. [m]"""
        return [y for box in self.boxes for y in (box[1], box[3])]

    @cached_property
    def middle_xs(self) -> list[float]:
        """Coordinates of the middles, across. [m]"""
        return [(box[0] + box[2]) / 2 for box in self.boxes]

    @cached_property
    def middle_ys(self) -> list[float]:
        """Coordinates of the middles, up. [m]"""
        return [(box[1] + box[3]) / 2 for box in self.boxes]


#: Nothing but the grid catches.
NO_TARGETS = SnapTargets()


@dataclass(frozen=True)
class Snapped:
    """A point after snapping; x and y are caught apart.

    Attributes
    ----------
    x, y : float
        [m]
    by_x, by_y : str
        ``corner``, ``edge``, ``centre``, ``grid`` or empty.
    """

    x: float
    y: float
    by_x: str = ""
    by_y: str = ""


@dataclass(frozen=True)
class Catch:
    """What the sheet shows of a place that was caught.

    Attributes
    ----------
    place : tuple of float
        [m]
    kind : str
    x, y : float or None
        Coordinates of the edges or middles that caught. [m]
    """

    place: Point
    kind: SnapKind
    x: float | None = None
    y: float | None = None


def grid_step(units: UnitSystem) -> float:
    """Width of the grid that catches. [m]"""
    return 0.10 if units == "metric" else FOOT / 2


def fine_step(units: UnitSystem) -> float:
    """Fine step: plots are rounded to it, and arrow keys with Shift move by a part of it. [m]"""
    return 0.05 if units == "metric" else INCH


def targets_of(plan: Plan, leaving_out: Iterable[str] = ()) -> SnapTargets:
    """What catches of the beds and structures on the plan.

    Parameters
    ----------
    plan : Plan
    leaving_out : iterable of str
        Ids of things that do not catch (those being moved).
    """
    out = set(leaving_out)
    things: tuple[Bed | Structure, ...] = (*plan.beds, *plan.garden.structures)
    outlines = [thing.outline for thing in things if thing.id not in out]
    polygons = [shapes.plan_polygon(outline) for outline in outlines]
    corners: list[Point] = []
    for outline, polygon in zip(outlines, polygons, strict=True):
        if outline.shape in ("polygon", "band") or (outline.shape == "rectangle" and outline.turn % 90):
            corners += [(float(x), float(y)) for x, y in shapely.get_coordinates(polygon)[:-1]]
    boxes = tuple((float(a), float(b), float(c), float(d)) for a, b, c, d in shapely.bounds(polygons))
    return SnapTargets(boxes, tuple(corners))


def snap(
    x: float,
    y: float,
    *,
    grid: float = 0.0,
    targets: SnapTargets = NO_TARGETS,
    reach: float = 0.0,
    only_edges: bool = False,
) -> Snapped:
    """Catch a point by corners, edges and middles of other things, else by the grid.

    Parameters
    ----------
    x, y : float
        [m]
    grid : float
        Width of the grid, 0 for none. [m]
    targets : SnapTargets
    reach : float
        How near something must be to catch. [m]
    only_edges : bool
        Whether corners and middles catch nothing.
    """
    corners = () if only_edges else targets.corners
    near = [corner for corner in corners if math.dist(corner, (x, y)) <= reach]
    if near:
        return Snapped(*min(near, key=lambda corner: math.dist(corner, (x, y))), "corner", "corner")
    new_x, by_x = _one(x, targets.xs, () if only_edges else targets.middle_xs, grid, reach)
    new_y, by_y = _one(y, targets.ys, () if only_edges else targets.middle_ys, grid, reach)
    return Snapped(new_x, new_y, by_x, by_y)


def _one(
    value: float, edges: Iterable[float], middles: Iterable[float], grid: float, reach: float
) -> tuple[float, str]:
    for lines, kind in ((edges, "edge"), (middles, "centre")):
        line, by = nearest_line(value, lines, reach, kind)
        if by:
            return line, by
    if grid > 0:
        return round(round(value / grid) * grid, 9), "grid"
    return value, ""


def nearest_line(value: float, lines: Iterable[float], reach: float, kind: str) -> tuple[float, str]:
    """The line nearest to a coordinate and its kind; the coordinate, and nothing, where none is within reach. [m]"""
    near = [line for line in lines if abs(line - value) <= reach]
    return (min(near, key=lambda line: abs(line - value)), kind) if near and reach > 0 else (value, "")


def catch_of(snapped: Snapped, targets: SnapTargets) -> Catch | None:
    """What is shown of a place that was caught; None where nothing caught it.

    Parameters
    ----------
    snapped : Snapped
    targets : SnapTargets
        By which it was caught.
    """
    place = snapped.x, snapped.y
    by = {snapped.by_x, snapped.by_y}
    x = snapped.x if snapped.by_x in ("edge", "centre") else None
    y = snapped.y if snapped.by_y in ("edge", "centre") else None
    if "corner" in by:
        return Catch(place, "corner")
    if "edge" in by:
        on_x = [b for b in targets.boxes if snapped.by_x == "edge" and snapped.x in (b[0], b[2])]
        on_y = [b for b in targets.boxes if snapped.by_y == "edge" and snapped.y in (b[1], b[3])]
        if any(box in on_y for box in on_x):
            return Catch(place, "corner", x, y)
        beside = any(b[1] <= snapped.y <= b[3] for b in on_x) or any(b[0] <= snapped.x <= b[2] for b in on_y)
        return Catch(place, "edge" if beside else "extension", x, y)
    if "centre" in by:
        return Catch(place, "centre", x, y)
    return Catch(place, "grid") if "grid" in by else None


@dataclass(frozen=True)
class SnappedSide:
    """The side or the middle of a box that catches best, along one axis.

    Attributes
    ----------
    by : float
        What is to be added to the box's coordinates. [m]
    line : float
        Coordinate that has caught. [m]
    kind : str
        ``edge``, ``centre``, ``grid`` or empty.
    """

    by: float
    line: float
    kind: str


def snap_side(
    low: float,
    high: float,
    catch: Callable[[float], tuple[float, str]],
    catch_middle: Callable[[float], tuple[float, str]] | None = None,
) -> SnappedSide:
    """Catch a box by that of its two sides which needs the least move, else by its middle.

    Edges go before middles, and these before the grid.

    Parameters
    ----------
    low, high : float
        Least and greatest coordinate of the box along one axis. [m]
    catch : callable
        The coordinate that catches one side [m], and by what (as in :class:`Snapped`).
    catch_middle : callable, optional
        The same for the middle of the box; only a middle catches it.
    """
    found = []
    for side in (low, high):
        line, kind = catch(side)
        found.append((kind != "edge", abs(line - side), line - side, line, kind))
    by_grid, _, correction, line, kind = min(found)
    if by_grid and catch_middle is not None:
        middle = (low + high) / 2
        caught, by = catch_middle(middle)
        if by == "centre":
            return SnappedSide(caught - middle, caught, by)
    return SnappedSide(correction, line, kind)
