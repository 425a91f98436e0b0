"""A ring around what the keys go to, as long as the focus is moved by keys."""

from __future__ import annotations

import shiboken6
from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPalette, QPen
from PySide6.QtWidgets import QApplication, QFocusFrame, QMenuBar, QWidget
from typing_extensions import override

#: Of a ring. [pixels]
BREADTH = 2


class FocusRing(QObject):
    """Follows the focus through all windows; a press of the mouse takes the ring away.

    Many kinds of widgets show their focus themselves, but not all do, and the sheet and the charts do not.

    Attributes
    ----------
    frame : QWidget or None
        The ring while it is shown.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.frame: QFocusFrame | _InnerRing | None = None
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._follow)

    def _follow(self, _old: QWidget | None, now: QWidget | None) -> None:
        frame, self.frame = self.frame, None
        if frame is not None and shiboken6.isValid(frame):
            frame.hide()
            frame.deleteLater()
        # Qt marks a window whose focus went on by Tab or a shortcut, until the mouse is pressed in it.
        parent = now.parentWidget() if now is not None else None
        if now is None or parent is None or isinstance(now, QMenuBar):
            return
        if not now.window().testAttribute(Qt.WidgetAttribute.WA_KeyboardFocusChange):
            return
        if parent.rect().contains(now.geometry().adjusted(-BREADTH, -BREADTH, BREADTH, BREADTH)):
            self.frame = QFocusFrame(parent)
            self.frame.setWidget(now)
        else:
            self.frame = _InnerRing(now)


class _InnerRing(QWidget):
    """A ring within the edge of a widget around which there is no room."""

    def __init__(self, widget: QWidget) -> None:
        super().__init__(widget)
        self._widget = widget
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        widget.installEventFilter(self)
        self.setGeometry(widget.rect())
        self.show()
        self.raise_()

    def widget(self) -> QWidget:
        """What the ring is around."""
        return self._widget

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize:
            self.setGeometry(self._widget.rect())
        return super().eventFilter(watched, event)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        pen = QPen(self.palette().color(QPalette.ColorRole.Accent), BREADTH)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        painter.setPen(pen)
        half = BREADTH // 2
        painter.drawRect(self.rect().adjusted(half, half, -half, -half))
