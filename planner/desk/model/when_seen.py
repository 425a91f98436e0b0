"""Bringing a panel in step with the document only while it is seen."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QWidget
from typing_extensions import override


class WhenSeen(QObject):
    """Calls a panel's refresh: at once while the panel is seen, else when it is shown again.

    A panel behind a tab must not cost anything at each edit.

    Parameters
    ----------
    panel : QWidget
    refresh : callable
    """

    def __init__(self, panel: QWidget, refresh: Callable[[], None]) -> None:
        super().__init__(panel)
        self._panel, self._refresh = panel, refresh
        self._stale = False
        panel.installEventFilter(self)

    def follow(self) -> None:
        """Something has changed that the panel shows."""
        if self._panel.isVisible():
            self._stale = False
            self._refresh()
        else:
            self._stale = True

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if self._stale and event.type() == QEvent.Type.Show:
            self._stale = False
            self._refresh()
        return False
