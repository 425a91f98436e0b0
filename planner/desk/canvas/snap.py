"""Snapping: plain coordinates in, plain coordinates out, and what they were caught by."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


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
