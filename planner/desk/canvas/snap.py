"""Snapping: plain coordinates in, plain coordinates out, and what they were caught by."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

import shapely

from planner.garden import Bed, Structure
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, INCH
from planner.ground import shapes
from planner.plan import Plan

#: Coordinates of edges that catch: along x, and along y. [m]
Edges = tuple[list[float], list[float]]


@dataclass(frozen=True)
class Snapped:
    """A point after snapping; x and y are caught apart.

    Attributes
    ----------
    x, y : float
        [m]
    by_x, by_y : str
        ``edge``, ``grid`` or empty.
    """

    x: float
    y: float
    by_x: str = ""
    by_y: str = ""


def grid_step(units: UnitSystem) -> float:
    """Width of the grid that catches. [m]"""
    return 0.10 if units == "metric" else FOOT / 2


def fine_step(units: UnitSystem) -> float:
    """Fine step: plots are rounded to it, and arrow keys with Shift move by a part of it. [m]"""
    return 0.05 if units == "metric" else INCH


def edges_of(plan: Plan, leaving_out: Iterable[str] = ()) -> Edges:
    """Edges of beds and structures that catch: x and y coordinates on the plan.

    Parameters
    ----------
    plan : Plan
    leaving_out : iterable of str
        Ids of things that do not catch (those being moved).
    """
    out = set(leaving_out)
    xs: list[float] = []
    ys: list[float] = []
    things: tuple[Bed | Structure, ...] = (*plan.beds, *plan.garden.structures)
    for thing in things:
        if thing.id not in out:
            left, low, right, high = shapely.bounds(shapes.plan_polygon(thing.outline))
            xs += [float(left), float(right)]
            ys += [float(low), float(high)]
    return xs, ys


def snap(
    x: float,
    y: float,
    *,
    grid: float = 0.0,
    xs: Iterable[float] = (),
    ys: Iterable[float] = (),
    reach: float = 0.0,
) -> Snapped:
    """Catch a point by the edges of other things, else by the grid.

    Parameters
    ----------
    x, y : float
        [m]
    grid : float
        Width of the grid, 0 for none. [m]
    xs, ys : iterable of float
        Coordinates of edges. [m]
    reach : float
        How near an edge catches. [m]
    """
    new_x, by_x = _one(x, xs, grid, reach)
    new_y, by_y = _one(y, ys, grid, reach)
    return Snapped(new_x, new_y, by_x, by_y)


def _one(value: float, edges: Iterable[float], grid: float, reach: float) -> tuple[float, str]:
    near = [edge for edge in edges if abs(edge - value) <= reach]
    if near:
        return min(near, key=lambda edge: abs(edge - value)), "edge"
    if grid > 0:
        return round(round(value / grid) * grid, 9), "grid"
    return value, ""


@dataclass(frozen=True)
class SnappedSide:
    """The side of a box that catches best, along one axis.

    Attributes
    ----------
    by : float
        What is to be added to the box's coordinates. [m]
    line : float
        Coordinate that has caught. [m]
    by_edge : bool
        Whether that is the edge of another thing, not a line of the grid.
    """

    by: float
    line: float
    by_edge: bool


def snap_side(low: float, high: float, catch: Callable[[float], tuple[float, str]]) -> SnappedSide:
    """Catch a box by that of its two sides which needs the least move; edges go before the grid.

    Parameters
    ----------
    low, high : float
        Least and greatest coordinate of the box along one axis. [m]
    catch : callable
        The coordinate that catches one side [m], and by what (as in :class:`Snapped`).
    """
    found = []
    for side in (low, high):
        line, by = catch(side)
        found.append((by != "edge", abs(line - side), line - side, line))
    by_grid, _, correction, line = min(found)
    return SnappedSide(correction, line, not by_grid)
