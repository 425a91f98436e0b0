"""Handles: resizing and turning beds and structures, stretching plots, moving corners."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PySide6.QtCore import Qt
from typing_extensions import override

from planner.desk.gestures.base import Drag, Pointer
from planner.garden import Bed, Garden, Outline, Structure, Whole, edits
from planner.garden.edits.common import checked
from planner.garden.model import LEAST_SIDE
from planner.ground import shapes
from planner.ground.dropping import plot_box, plot_of_box


@dataclass(frozen=True)
class Handle:
    """Something to take hold of.

    Attributes
    ----------
    key : str
        Id of the bed, structure or planting.
    kind : str
        ``side``, ``corner``, ``turn``, ``radius`` of an outline; ``plot`` of a planting's plot.
    which : tuple of float
        For sides: the signs of own x and y it moves; for corners: the index.
    plan : tuple of float
        Where it is. [m]
    """

    key: str
    kind: str
    which: tuple[float, ...]
    plan: tuple[float, float]


#: The turning handle stands off by this. [pixels]
TURN_OFF = 26.0


def outline_handles(key: str, outline: Outline, pixels_per_metre: float) -> list[Handle]:
    """Handles of a bed's or structure's outline."""
    own: list[tuple[str, tuple[float, ...], tuple[float, float]]] = []
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
        own += [("corner", (i,), point) for i, point in enumerate(outline.points)]
        top = max(y for _, y in outline.points)
    if outline.shape != "circle":
        own.append(("turn", (), (0.0, top + TURN_OFF / pixels_per_metre)))
    places = shapes.to_plan(outline, [place for _, _, place in own])
    return [
        Handle(key, kind, which, (float(x), float(y)))
        for (kind, which, _), (x, y) in zip(own, places, strict=True)
    ]


def plot_handles(bed: Bed, key: str, plot) -> list[Handle]:
    """Handles of a planting's plot: one at the middle of each side of its extent."""
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


class ResizeOutline(Drag):
    """Drags a handle of an outline."""

    hint = "Alt holds the snapping off, Escape puts back"

    def __init__(self, view, handle: Handle) -> None:
        super().__init__(view)
        self.handle = handle
        garden = self.document.garden
        self.thing: Bed | Structure = garden.beds_by_id.get(handle.key) or garden.structures_by_id[handle.key]
        self._edges = view.snap_edges(leaving_out=(handle.key,))
        self.cursor = Qt.CursorShape.CrossCursor

    def _outline(self, at: Pointer) -> Outline:
        outline = self.thing.outline
        plan = at.plan
        if not at.held(Qt.KeyboardModifier.AltModifier) and self.handle.kind != "turn":
            straight = outline.turn % 90 == 0
            edges = self._edges if straight else ((), ())
            caught = self.view.snap(*plan, *edges)
            plan = (caught.x, caught.y)
        ((x, y),) = shapes.to_own(outline, [plan])
        x, y = float(x), float(y)
        if self.handle.kind == "radius":
            radius = math.hypot(x, y)
            step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
            return outline.with_(radius=max(round(radius / step) * step if step else radius, LEAST_SIDE))
        if self.handle.kind == "corner":
            index = int(self.handle.which[0])
            points = list(outline.points)
            points[index] = (round(x, 6), round(y, 6))
            return outline.with_(points=tuple(points))
        if self.handle.kind == "turn":
            degrees = math.degrees(math.atan2(y, x)) - 90 + outline.turn
            step = 0.1 if at.held(Qt.KeyboardModifier.AltModifier) else 5.0
            return outline.with_(turn=round(round(degrees / step) * step, 3) % 360.0)
        return _resized(outline, self.handle.which, x, y, at.held(Qt.KeyboardModifier.ControlModifier))

    @override
    def step(self) -> str:
        word = "Turn" if self.handle.kind == "turn" else "Resize"
        return f"{word} {self.view.named((self.thing.id,))}"

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        outline = checked(lambda: self._outline(at), self.thing.name)
        if self.handle.kind == "turn":
            return edits.turn_things(garden, [self.thing.id], outline.turn - self.thing.outline.turn)
        return edits.resize_bed(garden, self.thing.id, outline)


def _resized(outline: Outline, signs: tuple[float, ...], x: float, y: float, both: bool) -> Outline:
    """A rectangle with a side or corner moved to own x, y; ``both`` moves the opposite one too."""
    sx, sy = signs
    length, width = outline.length, outline.width
    cx = cy = 0.0
    if sx:
        half = length / 2
        new = max(abs(x) * 2 if both else sx * x + half, LEAST_SIDE)
        cx = 0.0 if both else sx * (new - length) / 2
        length = new
    if sy:
        half = width / 2
        new = max(abs(y) * 2 if both else sy * y + half, LEAST_SIDE)
        cy = 0.0 if both else sy * (new - width) / 2
        width = new
    ((px, py),) = shapes.to_plan(outline, [(cx, cy)])
    return outline.with_(
        length=round(length, 6), width=round(width, 6), center=(round(float(px), 6), round(float(py), 6))
    )


class ResizePlot(Drag):
    """Drags a side of a planting's plot."""

    hint = "Alt holds the snapping off, Escape puts back"
    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view, handle: Handle) -> None:
        super().__init__(view)
        self.handle = handle
        planting = self.document.garden.plantings_by_id[handle.key]
        self.bed = self.document.garden.beds_by_id[planting.bed]
        self.box = plot_box(self.bed, planting.plot)

    @override
    def step(self) -> str:
        return f"Resize {self.view.named((self.handle.key,))}"

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        ((x, y),) = shapes.to_own(self.bed.outline, [at.plan])
        axis = math.radians(-shapes.bed_axis(self.bed.outline))
        along = math.cos(axis) * x - math.sin(axis) * y
        across = math.sin(axis) * x + math.cos(axis) * y
        whole = plot_box(self.bed, Whole())
        if not at.held(Qt.KeyboardModifier.AltModifier):
            step = self.view.fine_step
            along = whole[0] + round((along - whole[0]) / step) * step
            across = whole[1] + round((across - whole[1]) / step) * step
        left, low, right, high = self.box
        sx, sy = self.handle.which
        left = along if sx < 0 else left
        right = along if sx > 0 else right
        low = across if sy < 0 else low
        high = across if sy > 0 else high
        plot = plot_of_box(self.bed, left, low, right, high)
        if plot is None:
            return garden
        return edits.change_planting(garden, self.handle.key, plot=plot)
