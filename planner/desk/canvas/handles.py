"""Handles of what is selected: sides and corners to drag, and the handle that turns it."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QPointF

from planner.desk.canvas.camera import Camera
from planner.desk.model.document import PLOT_EDGE, Document
from planner.garden import Bed, Garden, Outline, Plot
from planner.ground import shapes
from planner.ground.dropping import plot_box

#: How far the turning handle is off its outline. [pixels]
TURN_OFF = 26.0
#: How near the pointer must be to a handle. [pixels]
HANDLE_REACH = 9.0

HandleKind = Literal[
    "side", "radius", "corner", "turn", "plot", "rows", "in_row", "between", "row_turn", "place"
]


@dataclass(frozen=True)
class Handle:
    """Something to drag.

    Attributes
    ----------
    key : str
        Id of the bed, structure or planting.
    kind : str
        Of an outline the first four; ``plot`` of a planting's plot; of its rows the next four; ``place`` of a single plant.
    which : tuple of float
        For sides: the signs of own x and y it moves; for corners and plants: the index; for spacings: how many of them it
        is off.
    plan : tuple of float
        Where it is. [m]
    """

    key: str
    kind: HandleKind
    which: tuple[float, ...]
    plan: tuple[float, float]


def selection_handles(document: Document, pixels_per_metre: float) -> list[Handle]:
    """Handles of what is selected, where it is one thing."""
    if len(document.selection) != 1 or document.is_locked(document.selection[0]):
        return []
    (key,) = document.selection
    garden = document.garden
    outline = outline_of(garden, key)
    if outline is not None:
        return outline_handles(key, outline, pixels_per_metre)
    planting = garden.plantings_by_id.get(key)
    if planting is None or planting.arrangement.kind == "places":
        return []
    return plot_handles(garden.beds_by_id[planting.bed], key, planting.plot)


def outline_of(garden: Garden, key: str) -> Outline | None:
    """The outline of a bed, a structure or the plot; None where there is none of that id."""
    if key == PLOT_EDGE:
        return garden.site.outline
    thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
    return thing.outline if thing is not None else None


def handle_at(camera: Camera, handles: Iterable[Handle], point: QPointF) -> Handle | None:
    """The handle under a point of the viewport."""
    for handle in handles:
        offset = camera.to_view(handle.plan) - point
        if math.hypot(offset.x(), offset.y()) <= HANDLE_REACH:
            return handle
    return None


def outline_handles(key: str, outline: Outline, pixels_per_metre: float) -> list[Handle]:
    """Handles of a bed's or structure's outline.

    Parameters
    ----------
    key : str
        Id of the bed or structure.
    outline : Outline
    pixels_per_metre : float
        Zoom: the turning handle is off the outline by a fixed distance on the screen.
    """
    own: list[tuple[HandleKind, tuple[float, ...], tuple[float, float]]] = []
    if outline.shape == "rectangle":
        half_length, half_width = outline.length / 2, outline.width / 2
        own += [
            ("side", (sx, sy), (sx * half_length, sy * half_width))
            for sx in (-1, 0, 1)
            for sy in (-1, 0, 1)
            if (sx, sy) != (0, 0)
        ]
        top = half_width
    elif outline.shape == "circle":
        own += [
            ("radius", (), (outline.radius * x, outline.radius * y))
            for x, y in ((1, 0), (0, 1), (-1, 0), (0, -1))
        ]
        top = outline.radius
    else:
        corners = outline.line if outline.shape == "band" else outline.points
        own += [("corner", (i,), point) for i, point in enumerate(corners)]
        top = max(y for _, y in outline.points)
    if outline.shape != "circle":
        own.append(("turn", (), (0.0, top + TURN_OFF / pixels_per_metre)))
    places = shapes.to_plan(outline, [place for _, _, place in own])
    return [
        Handle(key, kind, which, (float(x), float(y)))
        for (kind, which, _), (x, y) in zip(own, places, strict=True)
    ]


def plot_handles(bed: Bed, key: str, plot: Plot) -> list[Handle]:
    """Handles of a planting's plot: one at the middle of each side of its extent.

    Parameters
    ----------
    bed : Bed
    key : str
        Id of the planting.
    plot : Plot
    """
    if shapes.plot_polygon(bed, plot).is_empty:
        return []
    left, low, right, high = plot_box(bed, plot)
    own = [
        ((-1.0, 0.0), (left, (low + high) / 2)),
        ((1.0, 0.0), (right, (low + high) / 2)),
        ((0.0, -1.0), ((left + right) / 2, low)),
        ((0.0, 1.0), ((left + right) / 2, high)),
    ]
    axis = math.radians(shapes.bed_axis(bed.outline))
    cos, sin = math.cos(axis), math.sin(axis)
    points = [(cos * x - sin * y, sin * x + cos * y) for _, (x, y) in own]
    places = shapes.to_plan(bed.outline, points)
    return [
        Handle(key, "plot", which, (float(x), float(y)))
        for (which, _), (x, y) in zip(own, places, strict=True)
    ]
