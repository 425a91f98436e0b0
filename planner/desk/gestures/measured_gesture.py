"""A gesture whose measures can be typed while it runs."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent
from typing_extensions import override

from planner.desk.gestures.base import Gesture
from planner.desk.gestures.typed_measures import TypedMeasures

ENTER = (Qt.Key.Key_Return, Qt.Key.Key_Enter)


class MeasuredGesture(Gesture):
    """Takes digits and Tab for its measures, and Enter for what is typed.

    Attributes
    ----------
    measures : TypedMeasures
        Set by the gesture when it begins.
    """

    measures: TypedMeasures

    @override
    def takes(self, event: QKeyEvent) -> bool:
        return self.measures.takes(event)

    @override
    def key(self, event: QKeyEvent) -> bool:
        if self.measures.key(event):
            self._show()
            return True
        if event.key() in ENTER:
            self._enter()
            return True
        return self._steer_by_key(event)

    def _show(self) -> None:
        """A measure was typed: show what it makes."""
        self.repaint()

    def _enter(self) -> None:
        """Enter was pressed."""
        raise NotImplementedError

    def _steer_by_key(self, _event: QKeyEvent) -> bool:
        """Take any other key; False where it is none of the gesture's."""
        return False

    def _is_readable(self) -> bool:
        """Whether all that was typed can be read; says what cannot."""
        fault = self.measures.fault()
        if fault:
            self.view.say(fault)
        return not fault
