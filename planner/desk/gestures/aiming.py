"""Beginning to draw with the keys: the arrows move a cross, Enter begins at it."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent, QPainter, QPen
from typing_extensions import override

from planner.desk.canvas.measure_box import MeasureRow, paint_measures
from planner.desk.canvas.transform import to_scene
from planner.desk.gestures.base import Gesture, GestureView, Pointer, Tool
from planner.desk.gestures.keys import direction_of_key
from planner.garden.units import show_length
from planner.words import say

#: Arm of the cross. [pixels]
ARM = 14.0
_TOOLS = ("rectangle", "circle", "polygon", "support", "plot edge")


def can_aim(tool: Tool) -> bool:
    """Whether what a tool draws can be begun with the keys."""
    return tool in _TOOLS or tool.startswith("structure:")


class Aim(Gesture):
    """A cross that the arrow keys move; Enter, or a press of the button, begins to draw.

    Parameters
    ----------
    view : GestureView
    place : tuple of float
        Where the cross is at first. [m]
    start : callable
        Begins the drawing at a place, in this gesture's stead.
    """

    lasting = True
    cursor = Qt.CursorShape.CrossCursor

    def __init__(
        self, view: GestureView, place: tuple[float, float], start: Callable[[Pointer], None]
    ) -> None:
        super().__init__(view)
        self.hint = say("Arrow keys move the cross; Enter begins there, then arrows or typed measures draw")
        caught = view.snap(*place)
        self.place = caught.x, caught.y
        self._start = start

    @override
    def press(self, at: Pointer) -> None:
        self._start(at)

    @override
    def finish(self, at: Pointer) -> bool:
        return False

    @override
    def key(self, event: QKeyEvent) -> bool:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._start(Pointer(self.place, to_scene(*self.place), self.view.to_view(self.place)))
            return True
        direction = direction_of_key(event.key())
        if direction is None:
            return False
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        step = self.view.fine_step if fine else self.view.grid_step
        x, y = self.place[0] + direction[0] * step, self.place[1] + direction[1] * step
        self.place = round(x, 6), round(y, 6)
        self.view.show_place(self.place)
        self.repaint()
        return True

    @override
    def paint(self, painter: QPainter) -> None:
        at, units = self.view.to_view(self.place), self.document.garden.site.units
        painter.setPen(QPen(self.view.look.now.accent, 1.6))
        painter.drawLine(at - QPointF(ARM, 0), at + QPointF(ARM, 0))
        painter.drawLine(at - QPointF(0, ARM), at + QPointF(0, ARM))
        rows = [
            MeasureRow(say("Across"), show_length(self.place[0], units)),
            MeasureRow(say("Up"), show_length(self.place[1], units)),
        ]
        paint_measures(painter, self.view.area, self.view.look.now, at + QPointF(14, 14), rows)
