"""Measuring distances on the sheet."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPen
from typing_extensions import override

from planner.desk.gestures.base import Gesture, GestureView, Pointer, caught_place
from planner.garden.units import show_length
from planner.words import say


class Measure(Gesture):
    """Measures a distance; nothing is changed."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, first: Pointer) -> None:
        super().__init__(view)
        self.hint = say("Drag to measure")
        self._targets = view.snap_targets()
        self.first = self.last = caught_place(view, first, self._targets)

    @override
    def move(self, at: Pointer) -> None:
        self.last = caught_place(self.view, at, self._targets)
        self.repaint()

    @override
    def cancel(self) -> None:
        self.view.show_snap(None)
        super().cancel()

    @override
    def finish(self, at: Pointer) -> bool:
        self.view.show_snap(None)
        self.view.say(say("Measured {distance}", distance=self._words()))
        return True

    def _words(self) -> str:
        units = self.document.garden.site.units
        dx, dy = abs(self.last[0] - self.first[0]), abs(self.last[1] - self.first[1])
        return say(
            "{distance} ({across} across, {up} up)",
            distance=show_length(math.dist(self.first, self.last), units),
            across=show_length(dx, units),
            up=show_length(dy, units),
        )

    @override
    def paint(self, painter: QPainter) -> None:
        a, b = self.view.to_view(self.first), self.view.to_view(self.last)
        painter.setPen(QPen(self.view.look.now.accent, 1.6))
        painter.drawLine(a, b)
        self.paint_chip(painter, b + QPointF(10, 10), [self._words()])
