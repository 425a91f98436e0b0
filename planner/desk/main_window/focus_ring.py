"""A ring around what the keys go to, as long as the focus is moved by keys."""

from __future__ import annotations

import shiboken6
from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QApplication, QFocusFrame, QMenuBar, QWidget


class FocusRing(QObject):
    """Follows the focus through all windows; a press of the mouse takes the ring away.

    Many kinds of widgets show their focus themselves, but not all do, and the sheet and the charts do not.

    Attributes
    ----------
    frame : QFocusFrame or None
        The ring while it is shown.
    """

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.frame: QFocusFrame | None = None
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        app.focusChanged.connect(self._follow)

    def _follow(self, _old: QWidget | None, now: QWidget | None) -> None:
        frame, self.frame = self.frame, None
        if frame is not None and shiboken6.isValid(frame):
            frame.setWidget(None)  # type: ignore[arg-type]  # Qt takes none
            frame.deleteLater()
        # Qt marks a window whose focus went on by Tab or a shortcut, until the mouse is pressed in it.
        if now is None or isinstance(now, QMenuBar) or now.parentWidget() is None:
            return
        if now.window().testAttribute(Qt.WidgetAttribute.WA_KeyboardFocusChange):
            self.frame = QFocusFrame(now.parentWidget())
            self.frame.setWidget(now)
