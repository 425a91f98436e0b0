"""Drawing areas, and bands along a line: lawns, the edge of the plot, paths."""

from __future__ import annotations

import math
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF
from typing_extensions import override

from planner.desk.gestures.base import GestureView, Pointer, dragged
from planner.desk.gestures.drawing import DrawPolygon, Make
from planner.desk.gestures.typed_measures import Measured
from planner.garden import Band
from planner.garden.edits import EditError
from planner.ground.drawing import dragged_box, drawn_band, drawn_rectangle
from planner.words import say

#: Width of a path that is drawn, until another is typed (``practice``: a barrow needs 0.60). [m]
USUAL_WIDTH = 0.6


class DrawArea(DrawPolygon):
    """Draws a polygon corner by corner, or a rectangle where the first press is dragged."""

    def __init__(self, view: GestureView, make: Make, first: Pointer) -> None:
        super().__init__(view, make, first)
        self.hint = say(
            "Drag from corner to corner, or click each corner; Enter or a click on the first closes, Backspace takes the last back"
        )
        self._pressed: Pointer | None = None

    @override
    def press(self, at: Pointer) -> None:
        self._pressed = at if not self.corners else None
        super().press(at)

    def _box(self) -> tuple[float, float, float, float]:
        return dragged_box(self.corners[0], self.last)

    @property
    def _is_dragging(self) -> bool:
        return self._pressed is not None and len(self.corners) == 1

    @override
    def finish(self, at: Pointer) -> bool:
        pressed, self._pressed = self._pressed, None
        if pressed is not None and dragged(pressed, at):
            self.last = self._caught(at)
            outline = drawn_rectangle(self._box())
            if outline is not None:
                self._over = True
                self.make(outline)
        return super().finish(at)

    @override
    def paint(self, painter: QPainter) -> None:
        if not self._is_dragging:
            super().paint(painter)
            return
        left, low, right, high = self._box()
        rect = QRectF(self.view.to_view((left, high)), self.view.to_view((right, low)))
        painter.setPen(self._pen)
        painter.drawRect(rect)
        text = say("{one} × {other}", one=self._length(right - left), other=self._length(high - low))
        self.paint_chip(painter, rect.bottomRight() + QPointF(8, 8), [text])


class DrawBand(DrawPolygon):
    """Draws the middle line of a band corner by corner; a drag draws a straight one. Its width is typed meanwhile."""

    def __init__(self, view: GestureView, make: Make, first: Pointer) -> None:
        super().__init__(view, make, first, Measured("width", say("Width")))
        self.hint = say(
            "Drag, or click each corner of the middle line; type the width; Enter ends, Backspace takes back"
        )
        self._pressed: Pointer | None = None
        self._width = max(USUAL_WIDTH, self.document.garden.site.path_width)

    @property
    def width(self) -> float:
        """As it was typed, else the usual one. [m]"""
        typed = self.measures.value("width")
        return self._width if typed is None else max(typed, 0.02)

    @override
    def press(self, at: Pointer) -> None:
        self._pressed = at if not self.corners else None
        if len(self.corners) > 1 and self._near_last(at) and not self._is_side_typed:
            self._close()
            return
        super().press(at)

    @override
    def _near_first(self, at: Pointer) -> bool:
        return False  # a band is no ring

    def _near_last(self, at: Pointer) -> bool:
        offset = self.view.to_view(self.corners[-1]) - at.view
        return abs(offset.x()) + abs(offset.y()) <= 4

    @override
    def _close(self) -> None:
        if not self._is_readable():
            return
        if len(self.corners) < 2:
            self.view.say(say("A path needs two ends at least"))
            return
        try:
            outline = drawn_band(self.corners, self.width)
        except EditError as error:
            self.view.say(str(error))
            return
        self._over = True
        self.view.show_snap(None)
        self.make(outline)

    @override
    def finish(self, at: Pointer) -> bool:
        pressed, self._pressed = self._pressed, None
        if pressed is not None and dragged(pressed, at):
            self.last = self._caught(at)
            self.corners.append(self._end())
            self._close()
            if not self._over:
                self.corners.pop()
        return super().finish(at)

    @override
    def _measures_now(self, end: tuple[float, float]) -> dict[str, float]:
        return {**super()._measures_now(end), "width": self.width}

    @override
    def paint(self, painter: QPainter) -> None:
        points = [*self.corners, self._end()]
        look, band = self.view.look.now, self._band(points)
        if band is not None:
            rim = [self.view.to_view((band.center[0] + x, band.center[1] + y)) for x, y in band.points]
            fill = QColor(look.accent)
            fill.setAlpha(26)
            painter.setBrush(fill)
            painter.setPen(self._pen)
            painter.drawPolygon(QPolygonF(rim))
            painter.setBrush(Qt.BrushStyle.NoBrush)
        places = [self.view.to_view(point) for point in points]
        painter.setPen(QPen(look.accent, 1, Qt.PenStyle.DashLine))
        painter.drawPolyline(QPolygonF(places))
        if self.corners:
            self._paint_box(painter, places[-1], points[-1])

    @override
    def _corner_words(self, end: tuple[float, float]) -> str:
        """How long the whole line is."""
        if len(self.corners) < 2:
            return ""
        points = [*self.corners, end]
        return say("{length} in all", length=self._length(sum(math.dist(*pair) for pair in pairwise(points))))

    def _band(self, points: list[tuple[float, float]]) -> Band | None:
        try:
            return drawn_band(points, self.width)
        except EditError:
            return None  # it crosses itself as it is now
