"""What every gesture can do."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent, QPainter
from typing_extensions import override

from planner.garden import Garden

if TYPE_CHECKING:
    from planner.desk.main_window.sheet_view import SheetView


#: How far the pointer goes before a press becomes a drag. [pixels]
SLACK = 4.0


@dataclass(frozen=True)
class Pointer:
    """Where the pointer is, and what is held down.

    Attributes
    ----------
    plan : tuple of float
        On the plan. [m]
    scene : QPointF
    view : QPointF
        In the viewport. [pixels]
    """

    plan: tuple[float, float]
    scene: QPointF
    view: QPointF
    modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier

    def held(self, modifier: Qt.KeyboardModifier) -> bool:
        """Whether a modifier key is down."""
        return bool(self.modifiers & modifier)


def guarded(handler: Callable[..., Any]) -> Callable[..., Any]:
    """Keep a fault in one of the view's handlers from ending the program.

    The fault is reported as any other, what was going on is put back, and the person is told.

    WORKAROUND: with PySide6 up to 6.11.3 on Python 3.11, an exception raised by C code (a division by
    zero, a date out of range) that leaves an override called from within another override
    (``viewportEvent`` calls ``mousePressEvent``) is a segmentation fault.
    """

    @wraps(handler)
    def handle(view: SheetView, *args: Any) -> Any:
        try:
            return handler(view, *args)
        except Exception:
            sys.excepthook(*sys.exc_info())
            if not handler.__name__.startswith(("draw", "paint")):  # painting changes nothing
                view.give_up()
            return None

    return handle


def dragged(first: Pointer, now: Pointer) -> bool:
    """Whether the pointer went so far from a press that it is meant as a drag."""
    offset = now.view - first.view
    return abs(offset.x()) + abs(offset.y()) > SLACK


class Gesture:
    """One action of the hand; at most one is active at a time.

    ``move`` may preview through the document, ``finish`` commits one step, ``cancel`` puts
    everything back.
    """

    #: Said in the status line while it runs.
    hint = ""
    #: Whether it goes on after the button is let go (polygons, placing with the keys).
    lasting = False
    cursor = Qt.CursorShape.ArrowCursor
    #: Keys it takes before any menu does.
    keys: tuple[Qt.Key, ...] = ()

    def __init__(self, view: SheetView) -> None:
        self.view = view
        self.document = view.document

    def press(self, at: Pointer) -> None:
        """A button went down (again, in a lasting gesture)."""

    def move(self, at: Pointer) -> None:
        """The pointer moved."""

    def finish(self, at: Pointer) -> bool:
        """The button was let go; returns whether the gesture is over."""
        return True

    def cancel(self) -> None:
        """Put everything back."""
        self.document.cancel_preview()

    def key(self, event: QKeyEvent) -> bool:
        """A key went down; returns whether it was meant for the gesture."""
        return False

    def paint(self, painter: QPainter) -> None:
        """Draw over the sheet, in pixels of the viewport."""


class Drag(Gesture):
    """Drags something that is there: each move previews the change, letting go makes it one step.

    A press that is let go where it was is a click and changes nothing.
    """

    def __init__(self, view: SheetView) -> None:
        super().__init__(view)
        self.first: Pointer | None = None
        self._going = False

    def step(self) -> str:
        """What the step is called."""
        raise NotImplementedError

    def change(self, garden: Garden, first: Pointer, at: Pointer) -> Garden:
        """The garden with the pointer dragged from where it was pressed to another place."""
        raise NotImplementedError

    def clicked(self, at: Pointer) -> None:
        """It was let go where it was pressed."""

    @override
    def press(self, at: Pointer) -> None:
        self.first = at

    @override
    def move(self, at: Pointer) -> None:
        first = self.first
        if first is None:
            return
        self._going = self._going or dragged(first, at)
        if self._going:
            self.document.preview(lambda garden: self.change(garden, first, at))

    @override
    def finish(self, at: Pointer) -> bool:
        first = self.first
        if first is not None and self._going:
            self.document.edit(self.step(), lambda garden: self.change(garden, first, at))
        else:
            self.clicked(at)
        return True
