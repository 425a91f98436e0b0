"""Drawing beds and structures, and measuring."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen, QPolygonF
from typing_extensions import override

from planner.desk.gestures.base import Gesture, Pointer, dragged
from planner.garden import Circle, Garden, Outline, Polygon, Rectangle, edits
from planner.garden.edits.common import checked
from planner.garden.units import show_length
from planner.ground import shapes

Make = Callable[[Outline], None]

#: Smaller drags draw nothing. [m]
LEAST_DRAG = 0.05


def _pen(gesture: Gesture) -> QPen:
    return QPen(gesture.view.look.now.accent, 1.6)


class DrawRectangle(Gesture):
    """Draws a rectangle from corner to corner; Ctrl draws it from its centre."""

    hint = "Drag from corner to corner; Ctrl from the centre, Shift for a square, Alt without snapping"
    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view, make: Make, first: Pointer) -> None:
        super().__init__(view)
        self.make = make
        self._edges = view.snap_edges()
        self._pressed = first
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
        (x0, y0), (x1, y1) = self.first, self.last
        if self._modifiers & Qt.KeyboardModifier.ShiftModifier:
            side = max(abs(x1 - x0), abs(y1 - y0))
            x1, y1 = x0 + math.copysign(side, x1 - x0), y0 + math.copysign(side, y1 - y0)
        if self._modifiers & Qt.KeyboardModifier.ControlModifier:
            x0, y0 = 2 * x0 - x1, 2 * y0 - y1
        return min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)

    def _outline(self) -> Outline | None:
        left, low, right, high = self._box()
        length, width = right - left, high - low
        if length < LEAST_DRAG or width < LEAST_DRAG:
            return None
        center = (round((left + right) / 2, 6), round((low + high) / 2, 6))
        return Rectangle(center=center, length=round(length, 6), width=round(width, 6))

    @override
    def move(self, at: Pointer) -> None:
        self.last, self._modifiers = self._caught(at), at.modifiers
        self.view.viewport().update()

    @override
    def finish(self, at: Pointer) -> bool:
        self.move(at)
        self.view.show_snap(None)
        outline = self._outline() if dragged(self._pressed, at) else None
        if outline is None:
            self.view.say("Drag from one corner to the other to draw")
        else:
            self.make(outline)
        return True

    @override
    def cancel(self) -> None:
        self.view.show_snap(None)
        super().cancel()

    @override
    def paint(self, painter: QPainter) -> None:
        left, low, right, high = self._box()
        rect = QRectF(self.view.to_view((left, high)), self.view.to_view((right, low)))
        painter.setPen(_pen(self))
        painter.drawRect(rect)
        units = self.document.garden.site.units
        text = f"{show_length(right - left, units)} × {show_length(high - low, units)}"
        self.view.chip(painter, rect.bottomRight() + QPointF(8, 8), [text])


class DrawCircle(DrawRectangle):
    """Draws a circle from its centre."""

    hint = "Drag from the centre outwards; Alt without snapping"

    def _radius(self) -> float:
        return math.dist(self.first, self.last)

    @override
    def _outline(self) -> Outline | None:
        radius = self._radius()
        return Circle(center=self.first, radius=round(radius, 6)) if radius >= LEAST_DRAG else None

    @override
    def paint(self, painter: QPainter) -> None:
        centre = self.view.to_view(self.first)
        radius = self._radius() * self.view.pixels_per_metre
        painter.setPen(_pen(self))
        painter.drawEllipse(centre, radius, radius)
        text = f"radius {show_length(self._radius(), self.document.garden.site.units)}"
        self.view.chip(painter, centre + QPointF(radius + 8, 0), [text])


class DrawPolygon(Gesture):
    """Draws a polygon corner by corner."""

    hint = "Click each corner; Enter or a click on the first closes, Backspace takes the last back"
    lasting = True
    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view, make: Make, first: Pointer) -> None:
        super().__init__(view)
        self.make = make
        self._edges = view.snap_edges()
        self.corners: list[tuple[float, float]] = []
        self.last = first.plan
        self._over = False

    def _caught(self, at: Pointer) -> tuple[float, float]:
        if at.held(Qt.KeyboardModifier.AltModifier):
            return at.plan
        caught = self.view.snap(*at.plan, *self._edges)
        x, y = caught.x, caught.y
        if self.corners and at.held(Qt.KeyboardModifier.ShiftModifier):
            px, py = self.corners[-1]
            x, y = (x, py) if abs(x - px) >= abs(y - py) else (px, y)
        return x, y

    @override
    def press(self, at: Pointer) -> None:
        point = self._caught(at)
        if len(self.corners) >= 3 and self._near_first(at):
            self._close()
            return
        if not self.corners or math.dist(point, self.corners[-1]) > 1e-6:
            self.corners.append(point)
        self.last = point
        self.view.viewport().update()

    def _near_first(self, at: Pointer) -> bool:
        offset = self.view.to_view(self.corners[0]) - at.view
        return abs(offset.x()) + abs(offset.y()) <= 12

    def _close(self) -> None:
        if len(self.corners) < 3:
            self.view.say("A bed needs at least three corners")
            return
        xs, ys = [p[0] for p in self.corners], [p[1] for p in self.corners]
        cx, cy = round((min(xs) + max(xs)) / 2, 6), round((min(ys) + max(ys)) / 2, 6)
        points = tuple((round(x - cx, 6), round(y - cy, 6)) for x, y in self.corners)
        self._over = True
        from planner.garden.edits import EditError

        try:
            outline = checked(lambda: Polygon(center=(cx, cy), points=points), "the drawn bed")
        except EditError as error:
            self._over = False
            self.view.say(str(error))
            return
        self.make(outline)

    @override
    def move(self, at: Pointer) -> None:
        self.last = self._caught(at)
        self.view.viewport().update()

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
            self.view.viewport().update()
            return True
        return False

    @override
    def paint(self, painter: QPainter) -> None:
        painter.setPen(_pen(self))
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
            self.view.chip(
                painter, points[-1] + QPointF(10, 10), [show_length(side, self.document.garden.site.units)]
            )


class Measure(Gesture):
    """Measures a distance; nothing is changed."""

    hint = "Drag to measure"
    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view, first: Pointer) -> None:
        super().__init__(view)
        self._edges = view.snap_edges()
        self.first = self.last = self._caught(first)

    def _caught(self, at: Pointer) -> tuple[float, float]:
        if at.held(Qt.KeyboardModifier.AltModifier):
            return at.plan
        caught = self.view.snap(*at.plan, *self._edges)
        return caught.x, caught.y

    @override
    def move(self, at: Pointer) -> None:
        self.last = self._caught(at)
        self.view.viewport().update()

    @override
    def finish(self, at: Pointer) -> bool:
        self.view.say(f"Measured {self._words()}")
        return True

    def _words(self) -> str:
        units = self.document.garden.site.units
        dx, dy = abs(self.last[0] - self.first[0]), abs(self.last[1] - self.first[1])
        return (
            f"{show_length(math.dist(self.first, self.last), units)} "
            f"({show_length(dx, units)} across, {show_length(dy, units)} up)"
        )

    @override
    def paint(self, painter: QPainter) -> None:
        a, b = self.view.to_view(self.first), self.view.to_view(self.last)
        painter.setPen(_pen(self))
        painter.drawLine(a, b)
        self.view.chip(painter, b + QPointF(10, 10), [self._words()])


class DrawSupport(Gesture):
    """Draws the line that a planting's support stands along; its plants follow at once."""

    hint = "Drag the line the support stands along; Shift plants one side of it only, Alt without snapping"
    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view, key: str, first: Pointer) -> None:
        super().__init__(view)
        self.planting_id = key
        planting = self.document.garden.plantings_by_id[key]
        self.bed = self.document.garden.beds_by_id[planting.bed]
        self.first = self._caught(first)
        self.last = self.first

    def _caught(self, at: Pointer) -> tuple[float, float]:
        """The pointer in the bed's coordinates, on its fine steps from the bed's middle."""
        ((x, y),) = shapes.to_own(self.bed.outline, [at.plan])
        if at.held(Qt.KeyboardModifier.AltModifier):
            return float(x), float(y)
        step = self.view.fine_step
        return round(float(x) / step) * step, round(float(y) / step) * step

    def _change(self, garden: Garden, at: Pointer) -> Garden:
        sides = 1 if at.held(Qt.KeyboardModifier.ShiftModifier) else 2
        return edits.draw_support(garden, self.planting_id, (self.first, self._caught(at)), sides=sides)

    def _far_enough(self, at: Pointer) -> bool:
        return math.dist(self.first, self._caught(at)) >= LEAST_DRAG

    @override
    def move(self, at: Pointer) -> None:
        if self._far_enough(at):
            self.document.preview(lambda garden: self._change(garden, at))

    @override
    def finish(self, at: Pointer) -> bool:
        if not self._far_enough(at):
            self.document.cancel_preview()
            self.view.say("Drag from one end of the support to the other")
            return True
        name = self.view.named((self.planting_id,))
        self.document.edit(f"Draw a support for {name}", lambda garden: self._change(garden, at))
        self.view.take_tool("select")
        return True
