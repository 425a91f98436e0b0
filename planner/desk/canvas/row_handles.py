"""Handles of a planting's rows: their number, their direction, the spacings; and of single plants."""

from __future__ import annotations

import math

import numpy as np
import shapely

from planner.desk.canvas.handles import Handle, HandleKind
from planner.desk.model.document import Document
from planner.garden import Bed, Planting, Rows, StaggeredRows
from planner.ground import shapes
from planner.ground.place import Placed
from planner.ground.splitting import level_points, row_lines

#: Least distance of a handle from the plant that it measures from. [pixels]
LEAST_PULL = 26.0
#: How far the handle that turns the rows is off their end, and that of their number off the last row. [pixels]
OFF = 20.0
#: Most single plants that have handles.
MOST_PLACES = 400


def planting_handles(document: Document, pixels_per_metre: float) -> list[Handle]:
    """Handles of the rows or the single plants of the one selected planting."""
    planting = (
        document.garden.plantings_by_id.get(document.selection[0]) if len(document.selection) == 1 else None
    )
    if planting is None or not document.is_growing_on_day_shown(planting):
        return []
    plan = document.plan
    bed = plan.bed_of(planting)
    return [
        *place_handles(bed, planting),
        *row_handles(bed, planting, plan.placed(planting), pixels_per_metre),
    ]


def row_handles(bed: Bed, planting: Planting, placed: Placed, pixels_per_metre: float) -> list[Handle]:
    """Handles of the rows of a planting; none where it is so small on the screen that they would hide it.

    Parameters
    ----------
    bed : Bed
    planting : Planting
    placed : Placed
        As it is placed now.
    pixels_per_metre : float
    """
    if not isinstance(planting.arrangement, (Rows, StaggeredRows)):
        return []
    if planting.support is not None and planting.support.line:
        return []
    lines, layout = row_lines(placed), placed.layout
    if not lines:
        return []
    left, low, right, high = shapely.bounds(shapes.turned(placed.plot, -layout.direction))
    least = LEAST_PULL / pixels_per_metre
    if right - left < 2 * least or high - low < 1.6 * least:
        return []
    off = OFF / pixels_per_metre
    middle = float(left + right) / 2
    own: list[tuple[HandleKind, tuple[float, ...], tuple[float, float]]] = [
        ("rows", (len(lines),), (middle - least, float(high) + off)),
        ("row_turn", (), (float(right) + off, float(low + high) / 2 + least / 2)),
    ]
    first = lines[0]
    if layout.in_row_spacing and first.plants > 1:
        steps = min(max(1, math.ceil(least / layout.in_row_spacing)), first.plants - 1)
        if steps * layout.in_row_spacing >= least:
            own.append(("in_row", (steps,), (first.first + steps * layout.in_row_spacing, first.across)))
    if layout.row_spacing and len(lines) > 1:
        steps = min(max(1, math.ceil(least / layout.row_spacing)), len(lines) - 1)
        if steps * layout.row_spacing >= least:
            own.append(("between", (steps,), (first.first, first.across + steps * layout.row_spacing)))
    return _on_plan(bed, planting.id, own, layout.direction)


def place_handles(bed: Bed, planting: Planting) -> list[Handle]:
    """A handle for each single plant; none of very many."""
    if planting.arrangement.kind != "places" or len(planting.arrangement.points) > MOST_PLACES:
        return []
    own: list[tuple[HandleKind, tuple[float, ...], tuple[float, float]]] = [
        ("place", (number,), point) for number, point in enumerate(planting.arrangement.points)
    ]
    return _on_plan(bed, planting.id, own, 0.0)


def _on_plan(
    bed: Bed,
    key: str,
    own: list[tuple[HandleKind, tuple[float, ...], tuple[float, float]]],
    direction: float,
) -> list[Handle]:
    angle = math.radians(direction)
    turn = np.array(((math.cos(angle), math.sin(angle)), (-math.sin(angle), math.cos(angle))))
    places = shapes.to_plan(bed.outline, np.array([place for _, _, place in own]) @ turn)
    return [
        Handle(key, kind, which, (float(x), float(y)))
        for (kind, which, _), (x, y) in zip(own, places, strict=True)
    ]


def pulled(
    bed: Bed, placed: Placed, first: tuple[float, float], now: tuple[float, float]
) -> tuple[float, float]:
    """How far the pointer went along the rows and across them, from one place of the plan to another. [m]"""
    level = level_points(placed, shapes.to_own(bed.outline, [first, now]))
    return float(level[1][0] - level[0][0]), float(level[1][1] - level[0][1])
