"""Move plantings within their bed, or to another bed."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

import shapely

from planner.garden import Bed, Garden, Places, Planting, Plot, Stretch, Whole, edits
from planner.garden.edits.common import changed, checked
from planner.garden.model import Point
from planner.ground.dropping import Landing, carried, plot_box, shifted_plot
from planner.ground.shapes import bed_axis, extent_along_axis, to_own, turned


def move_within_bed(garden: Garden, key: str, dx: float, dy: float, step: float = 0.0) -> Garden:
    """Move a planting within its bed, the line of its support along with it.

    Parameters
    ----------
    garden : Garden
    key : str
        Id of the planting.
    dx, dy : float
        Offset in the bed's coordinates. [m]
    step : float
        The offset is rounded to whole steps; 0 for none. [m]
    """
    if step > 0:
        dx, dy = round(dx / step) * step, round(dy / step) * step
    planting = garden.plantings_by_id[key]
    where = garden.beds_by_id[planting.bed].name
    changes: dict[str, Any] = {}
    if isinstance(planting.arrangement, Places):
        points = _shifted(planting.arrangement.points, dx, dy)
        changes["arrangement"] = checked(lambda: Places(points=points), where)
    else:
        changes["plot"] = checked(
            lambda: shifted_plot(planting.plot, garden.beds_by_id[planting.bed], dx, dy), where
        )
    if planting.support is not None and planting.support.line:
        line = _shifted(planting.support.line, dx, dy)
        changes["support"] = changed(planting.support, where, {"line": line})
    return edits.change_planting(garden, key, **changes)


def move_on_plan(garden: Garden, ids: Iterable[str], dx: float, dy: float, step: float = 0.0) -> Garden:
    """Move plantings within their beds by an offset on the plan, however the beds are turned.

    Those of one bed keep their distances: where one of them reaches the end of the bed, all of them stop.

    Parameters
    ----------
    garden : Garden
    ids : iterable of str
    dx, dy : float
        On the plan. [m]
    step : float
        In each bed the offset is rounded to whole steps; 0 for none. [m]
    """
    by_bed: dict[str, list[str]] = {}
    for key in ids:
        by_bed.setdefault(garden.plantings_by_id[key].bed, []).append(key)
    for bed_id, keys in by_bed.items():
        bed = garden.beds_by_id[bed_id]
        (x0, y0), (x1, y1) = to_own(bed.outline, [(0.0, 0.0), (dx, dy)])
        x, y = float(x1 - x0), float(y1 - y0)
        if step > 0:
            x, y = round(x / step) * step, round(y / step) * step
        x, y = _held_in_bed(bed, [garden.plantings_by_id[key].plot for key in keys], x, y)
        for key in keys:
            garden = move_within_bed(garden, key, x, y)
    return garden


def _held_in_bed(bed: Bed, plots: Iterable[Plot], dx: float, dy: float) -> Point:
    """An offset in a bed's coordinates, as far as none of the stretches among some plots leaves the bed. [m]"""
    stretches = [plot for plot in plots if isinstance(plot, Stretch)]
    if not stretches:
        return dx, dy
    axis = bed_axis(bed.outline)
    begin, end = extent_along_axis(bed.outline)
    ((along, across),) = shapely.get_coordinates(turned(shapely.Point(dx, dy), -axis))
    back = -min(plot.start for plot in stretches)
    on = max(end - begin - max(plot.end for plot in stretches), 0.0)
    held = shapely.Point(min(max(float(along), back), on), float(across))
    ((x, y),) = shapely.get_coordinates(turned(held, axis))
    return float(x), float(y)


def landing_in_other_bed(
    planting: Planting, home: Bed, bed: Bed, at: Point, free: Callable[[], shapely.Geometry]
) -> Landing:
    """Plot and arrangement of a planting that is moved to another bed.

    Single plants keep their distances to each other, with the first one at the pointer.  Any other planting gets a
    stretch of the free ground there, of the length of its plot.

    Parameters
    ----------
    planting : Planting
    home, bed : Bed
        The planting's bed, and the bed it is moved to.
    at : tuple of float
        The pointer, in the coordinates of the bed it is moved to. [m]
    free : callable
        Returns the free ground of that bed during the planting's days, in its own coordinates. [m]
    """
    if isinstance(planting.arrangement, Places):
        points = planting.arrangement.points
        first_x, first_y = points[0]
        moved = tuple((round(x - first_x + at[0], 6), round(y - first_y + at[1], 6)) for x, y in points)
        return Landing(Whole(), Places(points=moved))
    left, _, right, _ = plot_box(home, planting.plot)
    found = carried(bed, free(), at, right - left)
    return Landing(found.plot, planting.arrangement, found.why)


def _shifted(points: tuple[Point, ...], dx: float, dy: float) -> tuple[Point, ...]:
    """Points moved by an offset. [m]"""
    return tuple((round(x + dx, 6), round(y + dy, 6)) for x, y in points)
