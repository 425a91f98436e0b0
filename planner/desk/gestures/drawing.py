"""Drawing the outlines of beds and structures, with the pointer, by typed measures, or with the keys alone."""

from __future__ import annotations

import math
from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPen, QPolygonF
from typing_extensions import override

from planner.desk.canvas.measure_box import paint_measures
from planner.desk.canvas.snap import Catch
from planner.desk.gestures.base import GestureView, Pointer, caught_place, dragged
from planner.desk.gestures.distances import NeighbourDistances
from planner.desk.gestures.keys import direction_of_key
from planner.desk.gestures.measured_gesture import ENTER, MeasuredGesture
from planner.desk.gestures.typed_measures import Measured, TypedMeasures
from planner.garden import Outline
from planner.garden.angles import show_angle
from planner.garden.edits import EditError
from planner.garden.units import show_length
from planner.ground.drawing import (
    dragged_box,
    drawn_circle,
    drawn_polygon,
    drawn_rectangle,
    straight_from,
)
from planner.ground.measured import (
    box_corner,
    corner_angle,
    direction_of,
    rounded_end,
    side_end,
    square_end,
)
from planner.words import say

#: What is done with a drawn outline.
Make = Callable[[Outline], None]

#: A click this near to the first corner of a polygon closes it. [pixels]
CLOSING = 12.0
#: Corners that follow each other are farther apart than this. [m]
LEAST_SIDE = 1e-6
LEAST_CORNERS = 3
#: The box of measures is off the pointer by this. [pixels]
BOX_OFF = QPointF(14, 14)


class _Draw(MeasuredGesture):
    """Begins at a snapped place, shows the edges that have caught, and takes typed measures."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, make: Make, *measures: Measured, one_of: bool = False) -> None:
        super().__init__(view)
        self.make = make
        self._targets = view.snap_targets()
        self._neighbours = NeighbourDistances(view)
        self.measures = TypedMeasures(*measures, units=lambda: self.document.garden.site.units, one_of=one_of)

    @property
    def _pen(self) -> QPen:
        return QPen(self.view.look.now.accent, 1.6)

    def _length(self, metres: float) -> str:
        return show_length(metres, self.document.garden.site.units)

    def _key_step(self, event: QKeyEvent) -> tuple[float, float] | None:
        """How far an arrow key moves what follows the pointer, on the plan [m]; None of another key."""
        direction = direction_of_key(event.key())
        if direction is None:
            return None
        fine = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        step = self.view.fine_step if fine else self.view.grid_step
        return direction[0] * step, direction[1] * step


class DrawRectangle(_Draw):
    """Draws a rectangle from corner to corner; Ctrl draws it from its centre. Its length is the longer side."""

    def __init__(
        self,
        view: GestureView,
        make: Make,
        first: Pointer,
        usual: Outline | None = None,
        measures: tuple[Measured, ...] = (),
    ) -> None:
        one_of = bool(measures)
        measures = measures or (Measured("length", say("Length")), Measured("width", say("Width")))
        super().__init__(view, make, *measures, one_of=one_of)
        self.hint = say(
            "Drag from corner to corner, or type the measures; Ctrl from the centre, Shift for a square, Alt without snapping"
        )
        self._pressed, self._usual = first, usual
        self.first = self._caught(first)
        self.last, self._modifiers = self.first, first.modifiers
        self._upright = False

    def _caught(self, at: Pointer) -> tuple[float, float]:
        return caught_place(self.view, at, self._targets)

    @property
    def _is_square(self) -> bool:
        return bool(self._modifiers & Qt.KeyboardModifier.ShiftModifier)

    @property
    def _is_upright(self) -> bool:
        """Whether its length goes up the plan: as the pointer lay when the first measure was typed."""
        if self.measures.any_typed:
            return self._upright
        return abs(self.last[1] - self.first[1]) > abs(self.last[0] - self.first[0])

    def _box(self) -> tuple[float, float, float, float]:
        length, width = self.measures.value("length"), self.measures.value("width")
        across, up = (width, length) if self._is_upright else (length, width)
        from_centre = bool(self._modifiers & Qt.KeyboardModifier.ControlModifier)
        corner = box_corner(
            self.first, self.last, across, up, square=self._is_square, from_centre=from_centre
        )
        square = self._is_square and across is None and up is None
        return dragged_box(self.first, corner, square=square, from_centre=from_centre)

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
        if not self._is_readable():
            return True
        is_drawn = dragged(self._pressed, at) or self.measures.any_typed
        outline = self._outline() if is_drawn else self._clicked()
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
    def key(self, event: QKeyEvent) -> bool:
        upright = self._is_upright
        if self.measures.key(event):
            self._upright = upright
        elif event.key() in ENTER:
            self._enter()
        else:
            step = self._key_step(event)
            if step is None:
                return False
            self._steer(*step)
        self.repaint()
        return True

    def _steer(self, dx: float, dy: float) -> None:
        """An arrow key moves the corner; once a length is typed, it says where that goes."""
        self.view.show_snap(None)
        self._upright = dx == 0
        self.last = (round(self.last[0] + dx, 6), round(self.last[1] + dy, 6))

    @override
    def _enter(self) -> None:
        """Finish with the measures that are typed."""
        if not self._is_readable():
            return
        is_drawn = self.measures.any_typed or self.last != self.first
        outline = self._outline() if is_drawn else self._clicked()
        if outline is None:
            missing = next((m for m in self.measures.measures if self.measures.value(m.key) is None), None)
            if missing is not None:
                self.measures.go_to(missing.key)
            self.view.say(say("Type its measures; Tab goes from one to the next"))
            return
        self.view.show_snap(None)
        self.make(outline)
        self.view.end_gesture()

    def _measures_now(self) -> dict[str, float]:
        left, low, right, high = self._box()
        length, width = (high - low, right - left) if self._is_upright else (right - left, high - low)
        return {"length": length, "width": width}

    @override
    def paint(self, painter: QPainter) -> None:
        left, low, right, high = self._box()
        rect = QRectF(self.view.to_view((left, high)), self.view.to_view((right, low)))
        painter.setPen(self._pen)
        painter.drawRect(rect)
        outline = self._outline()
        if outline is not None:
            self._neighbours.paint_around(painter, [outline])
        self._paint_box(painter, rect.bottomRight())

    def _paint_box(self, painter: QPainter, at: QPointF, note: str = "") -> None:
        rows = self.measures.rows(self._measures_now())
        paint_measures(painter, self.view.area, self.view.look.now, at + BOX_OFF, rows, note)


class DrawCircle(DrawRectangle):
    """Draws a circle from its centre, by its radius or its diameter."""

    def __init__(self, view: GestureView, make: Make, first: Pointer) -> None:
        measures = Measured("radius", say("Radius")), Measured("diameter", say("Diameter"))
        super().__init__(view, make, first, measures=measures)
        self.hint = say("Drag from the centre outwards, or type the radius or diameter; Alt without snapping")

    def _radius(self) -> float:
        radius, diameter = self.measures.value("radius"), self.measures.value("diameter")
        if diameter is not None:
            radius = diameter / 2
        return math.dist(self.first, self.last) if radius is None else radius

    @override
    def _outline(self) -> Outline | None:
        return drawn_circle(self.first, (self.first[0] + self._radius(), self.first[1]))

    @override
    def _measures_now(self) -> dict[str, float]:
        return {"radius": self._radius(), "diameter": 2 * self._radius()}

    @override
    def paint(self, painter: QPainter) -> None:
        centre = self.view.to_view(self.first)
        pixels = self._radius() * self.view.pixels_per_metre
        painter.setPen(self._pen)
        painter.drawEllipse(centre, pixels, pixels)
        self._paint_box(painter, centre + QPointF(pixels, 0))


class DrawPolygon(_Draw):
    """Draws a polygon corner by corner, or side by side as their lengths and directions are typed."""

    lasting = True

    def __init__(self, view: GestureView, make: Make, first: Pointer, *more: Measured) -> None:
        side = Measured("length", say("Side")), Measured("direction", say("Direction"), "angle")
        super().__init__(view, make, *more, *side)
        self.hint = say(
            "Click each corner, or type each side with Enter; Enter again closes, Backspace takes the last back"
        )
        self.corners: list[tuple[float, float]] = []
        self.last = first.plan
        self._over = False
        self._steered = False

    def _caught(self, at: Pointer) -> tuple[float, float]:
        place = caught_place(self.view, at, self._targets)
        if at.held(Qt.KeyboardModifier.AltModifier) or not self.corners:
            return place
        if at.held(Qt.KeyboardModifier.ShiftModifier):
            return straight_from(self.corners[-1], place)
        if len(self.corners) < 2 or place in self._targets.corners:
            return place
        square = square_end(self.corners[-2], self.corners[-1], at.plan, self.view.snap_reach)
        if square is None:
            return place
        step = self.view.fine_step
        square = rounded_end(self.corners[-1], square, step)
        self.view.show_snap(Catch(square, "square"))
        return square

    @property
    def _is_side_typed(self) -> bool:
        return self.measures.is_typed("length") or self.measures.is_typed("direction")

    def _end(self) -> tuple[float, float]:
        """Where the side that is drawn ends: at the pointer, as far as it is not typed."""
        if not self.corners:
            return self.last
        length, degrees = self.measures.value("length"), self.measures.value("direction")
        return side_end(self.corners[-1], self.last, length, degrees)

    @override
    def press(self, at: Pointer) -> None:
        self.last, self._steered = self._caught(at), False
        if len(self.corners) >= LEAST_CORNERS and not self._is_side_typed and self._near_first(at):
            self._close()
            return
        if self._is_readable():
            self._add_corner()
        self.repaint()

    def _add_corner(self) -> None:
        point = self._end()
        if not self.corners or math.dist(point, self.corners[-1]) > LEAST_SIDE:
            self.corners.append(point)
        self.last = point
        if self._is_side_typed:
            self.measures.go_to("length")
        self._steered = False
        self.measures.clear(("length", "direction"))

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
        self.view.show_snap(None)
        self.make(outline)

    @override
    def move(self, at: Pointer) -> None:
        self.last, self._steered = self._caught(at), False
        self.repaint()

    @override
    def finish(self, at: Pointer) -> bool:
        return self._over

    @override
    def cancel(self) -> None:
        self.view.show_snap(None)
        super().cancel()

    @override
    def _steer_by_key(self, event: QKeyEvent) -> bool:
        if event.key() == Qt.Key.Key_Backspace and self.corners:
            self.corners.pop()
            self.repaint()
            return True
        step = self._key_step(event)
        if step is None:
            return False
        self.last, self._steered = (round(self.last[0] + step[0], 6), round(self.last[1] + step[1], 6)), True
        self.repaint()
        return True

    @override
    def _enter(self) -> None:
        """Add the side that is typed, or that the arrow keys have drawn; else close."""
        if self._is_side_typed or self._steered:
            if self._is_readable():
                self._add_corner()
                self.view.say(self.hint)
                self.repaint()
            return
        self._close()
        if self._over:
            self.view.end_gesture()

    @override
    def paint(self, painter: QPainter) -> None:
        end = self._end()
        painter.setPen(self._pen)
        points = [self.view.to_view(p) for p in (*self.corners, end)]
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
            self._paint_box(painter, points[-1], end)

    def _measures_now(self, end: tuple[float, float]) -> dict[str, float]:
        last = self.corners[-1]
        return {"length": math.dist(last, end), "direction": direction_of(last, end)}

    def _paint_box(self, painter: QPainter, at: QPointF, end: tuple[float, float]) -> None:
        rows = self.measures.rows(self._measures_now(end))
        look, words = self.view.look.now, self._corner_words(end)
        paint_measures(painter, self.view.area, look, at + BOX_OFF, rows, words)

    def _corner_words(self, end: tuple[float, float]) -> str:
        """The angle at the last corner."""
        if len(self.corners) < 2 or math.dist(self.corners[-1], end) <= LEAST_SIDE:
            return ""
        return say(
            "Corner of {angle}", angle=show_angle(corner_angle(self.corners[-2], self.corners[-1], end))
        )
