"""Fingers on a touch screen: one draws and drags as the mouse does, held still it asks for the menu, two zoom and move the sheet."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPointF, Qt, QTimer
from PySide6.QtGui import QContextMenuEvent, QEventPoint, QMouseEvent, QTouchEvent
from PySide6.QtWidgets import QApplication, QWidget

#: A finger that moves no farther is held still. [pixels]
STILL = 12.0
#: So long a finger is held still for the menu. [ms]
HELD = 600


class Touch(QObject):
    """Turns touches of a viewport into what the mouse would do, and into zoom and scrolling.

    A press is handed on only when the finger moves or is lifted: until then it may become a menu, or a second finger may come.

    Parameters
    ----------
    viewport : QWidget
    zoom : callable
        Zooms by a factor about a point of the viewport.
    scroll : callable
        Moves the sheet under the viewport. [pixels]
    cancel : callable
        Puts back what the one finger has begun, when a second one comes.
    """

    def __init__(
        self,
        viewport: QWidget,
        zoom: Callable[[float, QPointF], None],
        scroll: Callable[[QPointF], None],
        cancel: Callable[[], object],
    ) -> None:
        super().__init__(viewport)
        self._viewport, self._zoom, self._scroll, self._cancel = viewport, zoom, scroll, cancel
        viewport.setAttribute(Qt.WidgetAttribute.WA_AcceptTouchEvents)
        self._start = QPointF()
        self._pressed = False
        # Whether this touch is over for one finger: the menu was opened, or a second finger came.
        self._done = False
        self._hold = QTimer(self, singleShot=True, interval=HELD)
        self._hold.timeout.connect(self._open_menu)

    def handle(self, event: QTouchEvent) -> bool:
        """Follow the fingers; returns whether the event is taken, as it is on a touch screen."""
        device = event.pointingDevice()
        if device is None or device.type() != device.DeviceType.TouchScreen:
            return False  # a pad moves the pointer
        points = [point for point in event.points() if point.state() != QEventPoint.State.Released]
        kind = event.type()
        if kind == QEvent.Type.TouchCancel:
            self._stop()
            if self._pressed:
                self._cancel()
            self._pressed = False
        elif len(points) >= 2:
            self._two_fingers(points[0], points[1])
        elif kind == QEvent.Type.TouchBegin and points:
            self._start, self._pressed, self._done = points[0].position(), False, False
            self._hold.start()
        elif kind == QEvent.Type.TouchUpdate and points:
            self._one_finger(points[0].position())
        elif kind == QEvent.Type.TouchEnd:
            self._lift(event.points()[0].position() if event.points() else self._start)
        event.accept()
        return True

    def _two_fingers(self, one: QEventPoint, other: QEventPoint) -> None:
        if self._pressed:
            self._cancel()
        self._stop()
        self._pressed, self._done = False, True
        before = (one.lastPosition(), other.lastPosition())
        now = (one.position(), other.position())
        middle_before, middle = ((a + b) / 2 for a, b in (before, now))
        apart_before, apart = (_length(a - b) for a, b in (before, now))
        if middle != middle_before:
            self._scroll(middle - middle_before)
        if apart_before > 0 and apart > 0 and apart != apart_before:
            self._zoom(apart / apart_before, middle)

    def _one_finger(self, at: QPointF) -> None:
        if self._done:
            return
        if not self._pressed:
            if _length(at - self._start) <= STILL:
                return
            self._stop()
            self._pressed = True
            self._send(QEvent.Type.MouseButtonPress, self._start)
        self._send(QEvent.Type.MouseMove, at)

    def _lift(self, at: QPointF) -> None:
        self._stop()
        if self._done:
            return
        if not self._pressed:
            self._send(QEvent.Type.MouseMove, at)
            self._send(QEvent.Type.MouseButtonPress, at)
        self._pressed = False
        self._send(QEvent.Type.MouseButtonRelease, at)

    def _stop(self) -> None:
        self._hold.stop()

    def _open_menu(self) -> None:
        self._done = True
        at = self._start.toPoint()
        asked = QContextMenuEvent(
            QContextMenuEvent.Reason.Mouse,
            at,
            self._viewport.mapToGlobal(at),
            Qt.KeyboardModifier.NoModifier,
        )
        QApplication.sendEvent(self._viewport, asked)

    def _send(self, kind: QEvent.Type, at: QPointF) -> None:
        none, left = Qt.MouseButton.NoButton, Qt.MouseButton.LeftButton
        button = none if kind == QEvent.Type.MouseMove else left
        down = left if self._pressed or kind == QEvent.Type.MouseButtonPress else none
        event = QMouseEvent(
            kind, at, self._viewport.mapToGlobal(at), button, down, QApplication.keyboardModifiers()
        )
        QApplication.sendEvent(self._viewport, event)


def _length(by: QPointF) -> float:
    return float((by.x() ** 2 + by.y() ** 2) ** 0.5)
