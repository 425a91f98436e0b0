"""Drawing the outlines of beds and structures."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen, QPolygonF
from typing_extensions import override

from planner.desk.gestures.base import Gesture, GestureView, Pointer, dragged
from planner.garden import Outline
from planner.garden.edits import EditError
from planner.garden.units import show_length
from planner.ground.drawing import (
    dragged_box,
    drawn_circle,
    drawn_polygon,
    drawn_rectangle,
    straight_from,
)
from planner.words import say

#: What is done with a drawn outline.
Make = Callable[[Outline], None]

#: A click this near to the first corner of a polygon closes it. [pixels]
CLOSING = 12.0
#: Corners that follow each other are farther apart than this. [m]
LEAST_SIDE = 1e-6
LEAST_CORNERS = 3


class _Draw(Gesture):
    """Begins at a snapped place, and shows the edges that have caught."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, make: Make) -> None:
        super().__init__(view)
        self.make = make
        self._edges = view.snap_edges()

    @property
    def _pen(self) -> QPen:
        return QPen(self.view.look.now.accent, 1.6)

    def _length(self, metres: float) -> str:
        return show_length(metres, self.document.garden.site.units)


class DrawRectangle(_Draw):
    """Draws a rectangle from corner to corner; Ctrl draws it from its centre."""

    def __init__(self, view: GestureView, make: Make, first: Pointer, usual: Outline | None = None) -> None:
        super().__init__(view, make)
        self.hint = say(
            "Drag from corner to corner; Ctrl from the centre, Shift for a square, Alt without snapping"
        )
        self._pressed, self._usual = first, usual
        self.first = self._caught(first)
        self.last, self._modifiers = self.first, first.modifiers

    def _caught(self, at: Pointer) -> tuple[float, float]:
        if at.held(Qt.KeyboardModifier.AltModifier):
            return at.plan
        caught = self.view.snap(*at.plan, *self._edges)
        self.view.show_snap(
            (caught.x if caught.by_x == "edge" else None, caught.y if caught.by_y == "edge" else None)
        )
        return caught.x, caught.y

    def _box(self) -> tuple[float, float, float, float]:
        return dragged_box(
            self.first,
            self.last,
            square=bool(self._modifiers & Qt.KeyboardModifier.ShiftModifier),
            from_centre=bool(self._modifiers & Qt.KeyboardModifier.ControlModifier),
        )

    def _outline(self) -> Outline | None:
        return drawn_rectangle(self._box())

    @override
    def move(self, at: Pointer) -> None:
        self.last, self._modifiers = self._caught(at), at.modifiers
        self.repaint()

    @override
    def finish(self, at: Pointer) -> bool:
        self.move(at)
        self.view.show_snap(None)
        outline = self._outline() if dragged(self._pressed, at) else self._clicked()
        if outline is None:
            self.view.say(say("Drag from one corner to the other to draw"))
        else:
            self.make(outline)
        return True

    def _clicked(self) -> Outline | None:
        """What a click puts down where it was pressed; None where something must be dragged."""
        return self._usual.with_(center=self.first) if self._usual is not None else None

    @override
    def cancel(self) -> None:
        self.view.show_snap(None)
        super().cancel()

    @override
    def paint(self, painter: QPainter) -> None:
        left, low, right, high = self._box()
        rect = QRectF(self.view.to_view((left, high)), self.view.to_view((right, low)))
        painter.setPen(self._pen)
        painter.drawRect(rect)
        text = f"{self._length(right - left)} × {self._length(high - low)}"
        self.paint_chip(painter, rect.bottomRight() + QPointF(8, 8), [text])


class DrawCircle(DrawRectangle):
    """Draws a circle from its centre."""

    def __init__(self, view: GestureView, make: Make, first: Pointer) -> None:
        super().__init__(view, make, first)
        self.hint = say("Drag from the centre outwards; Alt without snapping")

    @override
    def _outline(self) -> Outline | None:
        return drawn_circle(self.first, self.last)

    @override
    def paint(self, painter: QPainter) -> None:
        centre, radius = self.view.to_view(self.first), math.dist(self.first, self.last)
        pixels = radius * self.view.pixels_per_metre
        painter.setPen(self._pen)
        painter.drawEllipse(centre, pixels, pixels)
        self.paint_chip(
            painter, centre + QPointF(pixels + 8, 0), [say("radius {length}", length=self._length(radius))]
        )


class DrawPolygon(_Draw):
    """Draws a polygon corner by corner."""

    lasting = True

    def __init__(self, view: GestureView, make: Make, first: Pointer) -> None:
        super().__init__(view, make)
        self.hint = say(
            "Click each corner; Enter or a click on the first closes, Backspace takes the last back"
        )
        self.corners: list[tuple[float, float]] = []
        self.last = first.plan
        self._over = False

    def _caught(self, at: Pointer) -> tuple[float, float]:
        if at.held(Qt.KeyboardModifier.AltModifier):
            return at.plan
        caught = self.view.snap(*at.plan, *self._edges)
        if self.corners and at.held(Qt.KeyboardModifier.ShiftModifier):
            return straight_from(self.corners[-1], (caught.x, caught.y))
        return caught.x, caught.y

    @override
    def press(self, at: Pointer) -> None:
        point = self._caught(at)
        if len(self.corners) >= LEAST_CORNERS and self._near_first(at):
            self._close()
            return
        if not self.corners or math.dist(point, self.corners[-1]) > LEAST_SIDE:
            self.corners.append(point)
        self.last = point
        self.repaint()

    def _near_first(self, at: Pointer) -> bool:
        offset = self.view.to_view(self.corners[0]) - at.view
        return abs(offset.x()) + abs(offset.y()) <= CLOSING

    def _close(self) -> None:
        if len(self.corners) < LEAST_CORNERS:
            self.view.say(say("A bed needs at least three corners"))
            return
        try:
            outline = drawn_polygon(self.corners)
        except EditError as error:
            self.view.say(str(error))
            return
        self._over = True
        self.make(outline)

    @override
    def move(self, at: Pointer) -> None:
        self.last = self._caught(at)
        self.repaint()

    @override
    def finish(self, at: Pointer) -> bool:
        return self._over

    @override
    def key(self, event: QKeyEvent) -> bool:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._close()
            if self._over:
                self.view.end_gesture()
            return True
        if event.key() == Qt.Key.Key_Backspace and self.corners:
            self.corners.pop()
            self.repaint()
            return True
        return False

    @override
    def paint(self, painter: QPainter) -> None:
        painter.setPen(self._pen)
        points = [self.view.to_view(p) for p in (*self.corners, self.last)]
        if len(points) > 2:
            fill = QColor(self.view.look.now.accent)
            fill.setAlpha(26)
            painter.setBrush(fill)
            painter.drawPolygon(QPolygonF(points))
            painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawPolyline(QPolygonF(points))
        for point in points[:-1]:
            painter.fillRect(QRectF(point.x() - 3, point.y() - 3, 6, 6), self.view.look.now.accent)
        if self.corners:
            side = math.dist(self.corners[-1], self.last)
            self.paint_chip(painter, points[-1] + QPointF(10, 10), [self._length(side)])
