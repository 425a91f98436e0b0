"""Drawing the line that a planting's support stands along."""

from __future__ import annotations

import math

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QPainter
from typing_extensions import override

from planner.desk.canvas.measure_box import paint_measures
from planner.desk.gestures.base import GestureView, Pointer
from planner.desk.gestures.drawing import BOX_OFF
from planner.desk.gestures.keys import direction_of_key
from planner.desk.gestures.measured_gesture import MeasuredGesture
from planner.desk.gestures.typed_measures import Measured, TypedMeasures
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, edits
from planner.ground import shapes
from planner.ground.drawing import is_a_line, own_place
from planner.ground.measured import direction_of, side_end
from planner.words import say


class DrawSupport(MeasuredGesture):
    """Draws the line that a planting's support stands along; its plants follow at once."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, key: str, first: Pointer) -> None:
        super().__init__(view)
        self.hint = say(
            "Drag the line the support stands along, or type its length; Shift plants one side of it only, Alt without snapping"
        )
        self.planting_id = key
        planting = self.document.garden.plantings_by_id[key]
        self.bed = self.document.garden.beds_by_id[planting.bed]
        self.first = self.last = self._caught(first)
        self._sides = 2
        self.measures = TypedMeasures(
            Measured("length", say("Length")),
            Measured("direction", say("Direction"), "angle"),
            units=lambda: self.document.garden.site.units,
        )

    def _caught(self, at: Pointer) -> tuple[float, float]:
        """The pointer in the bed's coordinates, on its fine steps from the bed's middle. [m]"""
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        return own_place(self.bed.outline, at.plan, step)

    def _end(self) -> tuple[float, float]:
        """The far end in the bed's coordinates: at the pointer, as far as it is not typed. [m]"""
        length, degrees = self.measures.value("length"), self.measures.value("direction")
        # Typed directions are of the plan.
        own = None if degrees is None else degrees - self.bed.outline.turn
        return side_end(self.first, self.last, length, own)

    def _change(self, garden: Garden) -> Garden:
        line = (self.first, self._end())
        return edits.draw_support(garden, self.planting_id, line, sides=self._sides)

    @override
    def _show(self) -> None:
        if is_a_line(self.first, self._end()):
            self.document.preview(self._change)
        self.repaint()

    def _follow(self, at: Pointer) -> None:
        self.last = self._caught(at)
        self._sides = 1 if at.held(Qt.KeyboardModifier.ShiftModifier) else 2

    @override
    def move(self, at: Pointer) -> None:
        self._follow(at)
        self._show()

    @override
    def finish(self, at: Pointer) -> bool:
        self._follow(at)
        return self._done() or True

    def _done(self) -> bool:
        """Make it one step; whether there was a line to draw."""
        if not is_a_line(self.first, self._end()) or self.measures.fault():
            self.document.cancel_preview()
            self.view.say(self.measures.fault() or say("Drag from one end of the support to the other"))
            return False
        name = name_of(self.document.plan, (self.planting_id,))
        self.document.edit(say("Draw a support for {planting}", planting=name), self._change)
        self.view.take_tool("select")
        return True

    # -- keys -------------------------------------------------------------------------------

    @override
    def _enter(self) -> None:
        self._done()

    @override
    def _steer_by_key(self, event: QKeyEvent) -> bool:
        direction = direction_of_key(event.key())
        if direction is None:
            return False
        turn = math.radians(-self.bed.outline.turn)
        step = self.view.fine_step
        dx, dy = direction[0] * step, direction[1] * step
        x = self.last[0] + math.cos(turn) * dx - math.sin(turn) * dy
        y = self.last[1] + math.sin(turn) * dx + math.cos(turn) * dy
        self.last = round(x, 6), round(y, 6)
        self._show()
        return True

    @override
    def paint(self, painter: QPainter) -> None:
        ends = shapes.to_plan(self.bed.outline, [self.first, self._end()])
        a, b = ((float(x), float(y)) for x, y in ends)
        now = {"length": math.dist(a, b), "direction": direction_of(a, b)}
        at = self.view.to_view(b) + BOX_OFF
        paint_measures(painter, self.view.area, self.view.look.now, at, self.measures.rows(now))
