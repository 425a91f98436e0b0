"""Moving the sheet under the pointer: with the middle button, or with Space held down."""

from __future__ import annotations

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent

from planner.desk.canvas.camera import Camera


class Panning:
    """Whether the sheet is being moved, or would be by a press; each handler returns whether the event was its own."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self._from: QPointF | None = None
        self._space = False

    @property
    def cursor(self) -> Qt.CursorShape | None:
        """The hand that moves the sheet; None while nothing is moved."""
        if self._from is not None:
            return Qt.CursorShape.ClosedHandCursor
        return Qt.CursorShape.OpenHandCursor if self._space else None

    def press(self, event: QMouseEvent) -> bool:
        """Begin with the middle button, or the left one while Space is down."""
        left_with_space = self._space and event.button() == Qt.MouseButton.LeftButton
        if event.button() != Qt.MouseButton.MiddleButton and not left_with_space:
            return False
        self._from = event.position()
        return True

    def move(self, event: QMouseEvent) -> bool:
        """Move the sheet by as much as the pointer moved."""
        if self._from is None:
            return False
        self._camera.scroll_by(event.position() - self._from)
        self._from = event.position()
        return True

    def release(self, event: QMouseEvent) -> bool:
        """End with the button."""
        if self._from is None or event.button() not in (
            Qt.MouseButton.MiddleButton,
            Qt.MouseButton.LeftButton,
        ):
            return False
        self._from = None
        return True

    def key_down(self, event: QKeyEvent) -> bool:
        """Space: the next press moves the sheet."""
        if event.key() != Qt.Key.Key_Space or event.isAutoRepeat():
            return False
        self._space = True
        return True

    def key_up(self, event: QKeyEvent) -> bool:
        """Space was let go."""
        if event.key() != Qt.Key.Key_Space or event.isAutoRepeat():
            return False
        self._space = False
        return True

    def lose_focus(self) -> bool:
        """The keys go to another window, and the release of Space with them."""
        was_down, self._space = self._space, False
        return was_down
