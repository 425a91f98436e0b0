"""Moving the picture under the plan, and scaling it by two points whose distance is typed."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen
from typing_extensions import override

from planner.desk.canvas.measure_box import paint_measures
from planner.desk.gestures.base import Drag, GestureView, Pointer
from planner.desk.gestures.measured_gesture import MeasuredGesture
from planner.desk.gestures.typed_measures import Measured, TypedMeasures
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.words import say


class MoveUnderlay(Drag):
    """Drags the picture over the plan."""

    cursor = Qt.CursorShape.SizeAllCursor

    def __init__(self, view: GestureView) -> None:
        super().__init__(view)
        self.hint = say("Drag the picture to its place; Escape puts back")

    @override
    def step(self) -> str:
        return say("Move the underlay")

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        x, y = garden.underlay.center
        dx, dy = at.plan[0] - first.plan[0], at.plan[1] - first.plan[1]
        return edits.change_underlay(garden, center=(round(x + dx, 6), round(y + dy, 6)))


class ScaleUnderlay(MeasuredGesture):
    """Takes two points of the picture, and how far apart they are outside."""

    lasting = True
    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView) -> None:
        super().__init__(view)
        self.hint = say("Click two points whose distance you know, type it, and press Enter")
        self.points: list[tuple[float, float]] = []
        self.last = (0.0, 0.0)
        units = view.document.garden.site.units
        self.measures = TypedMeasures(Measured("distance", say("Distance in truth")), units=lambda: units)

    @override
    def press(self, at: Pointer) -> None:
        self.last = at.plan
        if len(self.points) == 2:
            self.points.pop()
        self.points.append(at.plan)
        if len(self.points) == 2:
            self.view.say(say("Type how far apart the two points are, and press Enter"))
        self.repaint()

    @override
    def move(self, at: Pointer) -> None:
        self.last = at.plan
        self.repaint()

    @override
    def finish(self, at: Pointer) -> bool:
        return False

    @override
    def _enter(self) -> None:
        distance, fault = self.measures.value("distance"), self.measures.fault()
        if fault or distance is None or len(self.points) < 2:
            self.view.say(fault or self.hint)
            return
        first, second = self.points
        try:
            edits.scale_underlay(self.document.garden, first, second, distance)
        except BedwrightError as error:
            self.view.say(str(error))
            return
        self.document.edit(
            say("Scale the underlay"), lambda garden: edits.scale_underlay(garden, first, second, distance)
        )
        self.view.take_tool("select")

    @override
    def paint(self, painter: QPainter) -> None:
        ends = [*self.points, *([self.last] if len(self.points) == 1 else [])]
        places = [self.view.to_view(end) for end in ends]
        look = self.view.look.now
        painter.setPen(QPen(look.accent, 1.6))
        for place in places[: len(self.points)]:
            painter.drawEllipse(place, 5, 5)
            painter.fillRect(QRectF(place.x() - 1, place.y() - 1, 2, 2), look.accent)
        if len(places) == 2:
            painter.drawLine(*places)
            rows = self.measures.rows({"distance": math.dist(*ends)})
            paint_measures(painter, self.view.area, look, places[1] + QPointF(14, 14), rows)
