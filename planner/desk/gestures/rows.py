"""Dragging the handles of a planting's rows, with the count live, and its single plants."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter
from typing_extensions import override

from planner.desk.canvas.handles import Handle
from planner.desk.canvas.row_handles import pulled
from planner.desk.gestures.base import Drag, GestureView, Pointer
from planner.desk.gestures.picking import changes_selection
from planner.desk.model.document import Document
from planner.desk.model.picked_plants import PickedPlants
from planner.desk.model.row_words import row_lines_words
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, edits
from planner.ground import shapes
from planner.ground.row_changes import change_rows
from planner.words import later, say

#: Degrees to which the rows are turned, and with Alt. [degrees]
TURN_STEP, FINE_TURN_STEP = 5.0, 1.0
#: The pointer goes at least so far for one row more. [pixels]
LEAST_ROW = 12.0
#: Names of the steps, by the handle.
ROW_STEPS: dict[str, str] = {
    "rows": later("Change the number of rows of {planting}"),
    "in_row": later("Change the spacing in the row of {planting}"),
    "between": later("Change the spacing between rows of {planting}"),
    "row_turn": later("Turn the rows of {planting}"),
}


class DragRows(Drag):
    """Drags a handle of the rows of a planting: their number, their direction, or a spacing."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, handle: Handle) -> None:
        super().__init__(view)
        self.hint = say("The count follows the handle; Alt turns in fine steps, Escape puts back")
        self.handle = handle
        plan = self.document.plan
        self.planting = self.document.garden.plantings_by_id[handle.key]
        self.bed, self.placed = plan.bed_of(self.planting), plan.placed(self.planting)
        self._at = QPointF()

    @override
    def step(self) -> str:
        return say(ROW_STEPS[self.handle.kind], planting=name_of(self.document.plan, (self.handle.key,)))

    @override
    def move(self, at: Pointer) -> None:
        self._at = at.view
        super().move(at)
        self.repaint()

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        along, across = pulled(self.bed, self.placed, first.plan, at.plan)
        key, placed, step = self.handle.key, self.placed, self._spacing_step()
        if self.handle.kind == "rows":
            unit = max(placed.layout.row_spacing or 0.0, LEAST_ROW / self.view.pixels_per_metre)
            return change_rows(garden, key, placed, number=round(across / unit))
        if self.handle.kind == "in_row":
            return change_rows(garden, key, placed, in_row=along / self.handle.which[0], step=step)
        if self.handle.kind == "between":
            return change_rows(garden, key, placed, between=across / self.handle.which[0], step=step)
        fine = at.held(Qt.KeyboardModifier.AltModifier)
        return change_rows(
            garden, key, placed, turn=self._turn(first, at, FINE_TURN_STEP if fine else TURN_STEP)
        )

    def _spacing_step(self) -> float:
        """[m]"""
        return self.view.fine_step / (5 if self.document.garden.site.units == "metric" else 2)

    def _turn(self, first: Pointer, at: Pointer, step: float) -> float:
        """Degrees by which the rows turn, so that they end at whole steps."""
        middle = self.placed.plot.centroid
        (x0, y0), (x1, y1) = shapes.to_own(self.bed.outline, [first.plan, at.plan])
        before = math.atan2(float(y0) - middle.y, float(x0) - middle.x)
        now = math.atan2(float(y1) - middle.y, float(x1) - middle.x)
        old = getattr(self.planting.arrangement, "turn", 0.0)
        return round((old + math.degrees(now - before)) / step) * step - float(old)

    @override
    def finish(self, at: Pointer) -> bool:
        over = super().finish(at)
        lines = self._lines()
        if lines:
            words = "; ".join(lines)
            self.view.say(words)
        return over

    def _lines(self) -> list[str]:
        planting = self.document.garden.plantings_by_id.get(self.handle.key)
        return row_lines_words(self.document.plan, planting) if planting is not None else []

    @override
    def paint(self, painter: QPainter) -> None:
        if not self._at.isNull():
            self.paint_chip(painter, self._at + QPointF(18, 18), self._lines())


class MovePlant(Drag):
    """Drags a single plant, or all that are picked; a click picks it."""

    cursor = Qt.CursorShape.ClosedHandCursor

    def __init__(self, view: GestureView, handle: Handle, picked: PickedPlants) -> None:
        super().__init__(view)
        self.hint = say("Shift adds to what is picked; Delete removes it; Escape puts back")
        self.planting_id, self.index, self.picked = handle.key, int(handle.which[0]), picked
        self.bed = self.document.plan.bed_of(self.document.garden.plantings_by_id[handle.key])

    @property
    def _together(self) -> frozenset[int]:
        return self.picked.indices if self.index in self.picked.indices else frozenset({self.index})

    @override
    def step(self) -> str:
        return say(
            "Move single plants of {planting}", planting=name_of(self.document.plan, (self.planting_id,))
        )

    @override
    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        (x0, y0), (x1, y1) = shapes.to_own(self.bed.outline, [first.plan, at.plan])
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        dx, dy = float(x1 - x0), float(y1 - y0)
        if step:
            dx, dy = round(dx / step) * step, round(dy / step) * step
        return edits.move_places(garden, self.planting_id, self._together, dx, dy)

    @override
    def clicked(self, at: Pointer) -> None:
        if changes_selection(at):
            self.picked.pick(self.picked.indices ^ {self.index})
        else:
            self.picked.pick({self.index})


def nudge_plants(document: Document, picked: PickedPlants, dx: float, dy: float) -> None:
    """Move the picked plants by an offset on the plan [m]; nudges that follow each other are one step."""
    key, indices = picked.key, picked.indices
    bed = document.plan.bed_of(document.garden.plantings_by_id[key])
    (x0, y0), (x1, y1) = shapes.to_own(bed.outline, [(0.0, 0.0), (dx, dy)])
    document.edit(
        say("Move single plants of {planting}", planting=name_of(document.plan, (key,))),
        lambda garden: edits.move_places(garden, key, indices, float(x1 - x0), float(y1 - y0)),
        merge=f"nudge {key} {sorted(indices)}",
    )
