"""Dragging handles: resizing and turning beds and structures, stretching plots, moving corners."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter
from typing_extensions import override

from planner.desk.canvas.handles import Handle, outline_of
from planner.desk.canvas.snap import NO_TARGETS
from planner.desk.gestures.base import Drag, GestureView, Pointer, caught_place
from planner.desk.gestures.distances import NeighbourDistances
from planner.desk.model.document import PLOT_EDGE
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, Outline, edits
from planner.garden.edits.common import checked
from planner.ground import shapes
from planner.ground.dropping import plot_box
from planner.ground.resizing import (
    move_along,
    move_corner,
    resize_circle,
    resize_plot,
    resize_rectangle,
    turn_towards,
)
from planner.words import say


class ResizeOutline(Drag):
    """Drags a side or corner of an outline, or turns it."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, handle: Handle) -> None:
        super().__init__(view)
        self.hint = say("Alt holds the snapping off, Escape puts back")
        self.handle = handle
        garden = self.document.garden
        outline = outline_of(garden, handle.key)
        assert outline is not None, "a handle is of something"
        self.outline: Outline = outline
        self._targets = view.snap_targets(leaving_out=(handle.key,))
        self._neighbours = NeighbourDistances(view, (handle.key,))

    @override
    def step(self) -> str:
        name = name_of(self.document.plan, (self.handle.key,))
        if self.handle.kind == "turn":
            return say("Turn {things}", things=name)
        return say("Resize {thing}", thing=name)

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        old, key = self.outline, self.handle.key
        free = at.held(Qt.KeyboardModifier.AltModifier)
        if self.handle.kind == "turn":
            turn = turn_towards(old, self._own(at.plan), fine=free)
            if key == PLOT_EDGE:
                return edits.change_site(garden, outline=old.with_(turn=turn))
            return edits.turn_things(garden, [key], turn - old.turn)
        to = self._own(self._caught(at))
        both = at.held(Qt.KeyboardModifier.ControlModifier)
        outline = checked(
            lambda: self._resized(to, free=free, both=both), name_of(self.document.plan, (key,))
        )
        if key == PLOT_EDGE:
            return edits.change_site(garden, outline=outline)
        return edits.resize_bed(garden, key, outline)

    def _caught(self, at: Pointer) -> tuple[float, float]:
        straight = self.outline.turn % 90 == 0
        return caught_place(self.view, at, self._targets if straight else NO_TARGETS)

    @override
    def finish(self, at: Pointer) -> bool:
        over = super().finish(at)
        self.view.show_snap(None)
        return over

    @override
    def cancel(self) -> None:
        self.view.show_snap(None)
        super().cancel()

    @override
    def paint(self, painter: QPainter) -> None:
        if self.is_going and self.handle.kind != "turn":
            self._neighbours.paint(painter, (self.handle.key,))

    def _own(self, place: tuple[float, float]) -> tuple[float, float]:
        ((x, y),) = shapes.to_own(self.outline, [place])
        return float(x), float(y)

    def _resized(self, to: tuple[float, float], *, free: bool, both: bool) -> Outline:
        outline = self.outline
        if outline.shape == "circle":
            return resize_circle(outline, to, 0.0 if free else self.view.fine_step)
        if outline.shape == "polygon":
            return move_corner(outline, int(self.handle.which[0]), to)
        if outline.shape == "band":
            return move_along(outline, int(self.handle.which[0]), to)
        across, up = self.handle.which
        return resize_rectangle(outline, (across, up), to, both=both)


class ResizePlot(Drag):
    """Drags a side of a planting's plot."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, handle: Handle) -> None:
        super().__init__(view)
        self.hint = say("Alt holds the snapping off, Escape puts back")
        self.handle = handle
        planting = self.document.garden.plantings_by_id[handle.key]
        self.bed = self.document.garden.beds_by_id[planting.bed]
        self.box = plot_box(self.bed, planting.plot)

    @override
    def step(self) -> str:
        return say("Resize {thing}", thing=name_of(self.document.plan, (self.handle.key,)))

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        along, across = self.handle.which
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        plot = resize_plot(self.bed, self.box, (along, across), at.plan, step)
        return garden if plot is None else edits.change_planting(garden, self.handle.key, plot=plot)
