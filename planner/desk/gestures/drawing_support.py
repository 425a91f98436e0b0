"""Drawing the line that a planting's support stands along."""

from __future__ import annotations

from PySide6.QtCore import Qt
from typing_extensions import override

from planner.desk.gestures.base import Gesture, GestureView, Pointer
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, edits
from planner.ground.drawing import is_a_line, own_place
from planner.words import say


class DrawSupport(Gesture):
    """Draws the line that a planting's support stands along; its plants follow at once."""

    cursor = Qt.CursorShape.CrossCursor

    def __init__(self, view: GestureView, key: str, first: Pointer) -> None:
        super().__init__(view)
        self.hint = say(
            "Drag the line the support stands along; Shift plants one side of it only, Alt without snapping"
        )
        self.planting_id = key
        planting = self.document.garden.plantings_by_id[key]
        self.bed = self.document.garden.beds_by_id[planting.bed]
        self.first = self._caught(first)

    def _caught(self, at: Pointer) -> tuple[float, float]:
        """The pointer in the bed's coordinates, on its fine steps from the bed's middle. [m]"""
        step = 0.0 if at.held(Qt.KeyboardModifier.AltModifier) else self.view.fine_step
        return own_place(self.bed.outline, at.plan, step)

    def _change(self, garden: Garden, at: Pointer) -> Garden:
        sides = 1 if at.held(Qt.KeyboardModifier.ShiftModifier) else 2
        return edits.draw_support(garden, self.planting_id, (self.first, self._caught(at)), sides=sides)

    @override
    def move(self, at: Pointer) -> None:
        if is_a_line(self.first, self._caught(at)):
            self.document.preview(lambda garden: self._change(garden, at))

    @override
    def finish(self, at: Pointer) -> bool:
        if not is_a_line(self.first, self._caught(at)):
            self.document.cancel_preview()
            self.view.say(say("Drag from one end of the support to the other"))
            return True
        name = name_of(self.document.plan, (self.planting_id,))
        words = say("Draw a support for {planting}", planting=name)
        self.document.edit(words, lambda garden: self._change(garden, at))
        self.view.take_tool("select")
        return True
