"""What every gesture can do, and what it needs of the view it works on."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

import numpy as np
import shapely
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPainterPath
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas.chip import paint_chip
from planner.desk.canvas.scene import SheetScene
from planner.desk.canvas.snap import NO_TARGETS, Catch, Snapped, SnapTargets, catch_of
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden

#: How far the pointer goes before a press becomes a drag. [pixels]
SLACK = 4.0

Tool = str  # select, rectangle, polygon, circle, measure, walk, support, plot edge, or structure:KIND


@dataclass(frozen=True)
class Pointer:
    """Where the pointer is, and which modifier keys are down.

    Attributes
    ----------
    plan : tuple of float
        On the plan. [m]
    scene : QPointF
    view : QPointF
        In the viewport. [pixels]
    modifiers : Qt.KeyboardModifier
    """

    plan: tuple[float, float]
    scene: QPointF
    view: QPointF
    modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier

    def held(self, modifier: Qt.KeyboardModifier) -> bool:
        """Whether a modifier key is down."""
        return bool(self.modifiers & modifier)


def dragged(first: Pointer, now: Pointer) -> bool:
    """Whether the pointer went so far from a press that it is meant as a drag."""
    offset = now.view - first.view
    return abs(offset.x()) + abs(offset.y()) > SLACK


class GestureView(Protocol):
    """What a gesture needs of the view it works on: a camera that can say something and end the gesture."""

    document: Document
    look: LookSwitch
    sheet: SheetScene

    # -- the camera -------------------------------------------------------------------------

    @property
    def pixels_per_metre(self) -> float:
        """Zoom in force."""
        ...

    @property
    def fine_step(self) -> float:
        """Step to which plots are rounded while they are dragged. [m]"""
        ...

    @property
    def grid_step(self) -> float:
        """Width of the grid that catches. [m]"""
        ...

    @property
    def area(self) -> QRectF:
        """The viewport's rectangle. [pixels]"""
        ...

    def viewport(self) -> QWidget:
        """The widget that is painted on."""
        ...

    def to_view(self, place: tuple[float, float]) -> QPointF:
        """A place of the plan in the viewport. [pixels]"""
        ...

    def to_view_all(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Places (n, 2) of the plan in the viewport. [pixels]"""
        ...

    def view_path(self, geometry: shapely.Geometry) -> QPainterPath:
        """A shape of the plan in the viewport. [pixels]"""
        ...

    def show_place(self, place: tuple[float, float]) -> None:
        """Scroll so that a place of the plan can be seen."""
        ...

    def snap_targets(self, leaving_out: Iterable[str] = ()) -> SnapTargets:
        """What catches of other beds and structures."""
        ...

    def snap(
        self, x: float, y: float, targets: SnapTargets = NO_TARGETS, *, only_edges: bool = False
    ) -> Snapped:
        """Catch a place of the plan by other things, else by the grid."""
        ...

    @property
    def snap_reach(self) -> float:
        """How near something must be to catch; 0 where nothing catches. [m]"""
        ...

    # -- the hand ---------------------------------------------------------------------------

    def show_snap(self, catch: Catch | None) -> None:
        """Show what has caught, and where."""
        ...

    def say(self, text: str) -> None:
        """Put a line into the status bar."""
        ...

    def take_tool(self, tool: Tool) -> None:
        """Take another tool in hand."""
        ...

    def end_gesture(self) -> None:
        """The gesture is over and done."""
        ...


def caught_place(view: GestureView, at: Pointer, targets: SnapTargets) -> tuple[float, float]:
    """Where the pointer is caught, which the view shows; with Alt, where it is. [m]"""
    if at.held(Qt.KeyboardModifier.AltModifier):
        view.show_snap(None)
        return at.plan
    caught = view.snap(*at.plan, targets)
    view.show_snap(catch_of(caught, targets))
    return caught.x, caught.y


class Gesture:
    """One action of the hand; at most one is active at a time.

    ``move`` may preview through the document, ``finish`` commits one step, ``cancel`` puts
    everything back.
    """

    #: Written in the status line while it runs.
    hint = ""
    #: Whether it goes on after the button is let go (polygons, placing with the keys).
    lasting = False
    cursor = Qt.CursorShape.ArrowCursor
    #: Keys it takes before any menu does.
    keys: tuple[Qt.Key, ...] = ()

    def __init__(self, view: GestureView) -> None:
        self.view = view
        self.document = view.document

    def press(self, at: Pointer) -> None:
        """A button went down (again, in a lasting gesture)."""

    def move(self, at: Pointer) -> None:
        """The pointer moved."""

    def finish(self, at: Pointer) -> bool:
        """The button was let go; returns whether the gesture is over."""
        return True

    def cancel(self) -> None:
        """Put everything back."""
        self.document.cancel_preview()

    def key(self, event: QKeyEvent) -> bool:
        """A key went down; returns whether it was meant for the gesture."""
        return False

    def takes(self, event: QKeyEvent) -> bool:
        """Whether a key is the gesture's own, before any menu's."""
        return event.key() in self.keys

    def paint(self, painter: QPainter) -> None:
        """Draw over the sheet, in pixels of the viewport."""

    def repaint(self) -> None:
        """Have the view painted anew, with the gesture over it."""
        self.view.viewport().update()

    def paint_chip(
        self,
        painter: QPainter,
        at: QPointF,
        lines: Sequence[str],
        *,
        warn: bool = False,
        off: QRectF | None = None,
    ) -> None:
        """Draw a small sign of a few lines, inside the viewport and off what it speaks of."""
        paint_chip(painter, self.view.area, self.view.look.now, at, lines, warn=warn, off=off)


class Drag(Gesture):
    """Drags something that is there: each move previews the change, letting go makes it one step.

    A press that is let go where it was is a click and changes nothing.
    """

    def __init__(self, view: GestureView) -> None:
        super().__init__(view)
        self.first: Pointer | None = None
        self._going = False

    @property
    def is_going(self) -> bool:
        """Whether the pointer went far enough for a drag."""
        return self._going

    def step(self) -> str:
        """What the step is called."""
        raise NotImplementedError

    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        """The garden with the pointer dragged from where it was pressed to another place."""
        raise NotImplementedError

    def clicked(self, at: Pointer) -> None:
        """It was let go where it was pressed."""

    @override
    def press(self, at: Pointer) -> None:
        self.first = at

    @override
    def move(self, at: Pointer) -> None:
        first = self.first
        if first is None:
            return
        self._going = self._going or dragged(first, at)
        if self._going:
            self.document.preview(lambda garden: self.change(garden, first, at))

    @override
    def finish(self, at: Pointer) -> bool:
        first = self.first
        if first is not None and self._going:
            self.document.edit(self.step(), lambda garden: self.change(garden, first, at))
        else:
            self.clicked(at)
        return True
