"""Tabs whose titles lie closer to each other where not all of them have room."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QTabBar, QTabWidget
from typing_extensions import override

#: Ground at either side of a title in a small window. [pixels]
TIGHT, TIGHTEST = 5, 2
_TITLES = """
    QTabBar::tab { padding: 5px %dpx; border: 1px solid palette(mid); border-bottom: 0; background: palette(button); }
    QTabBar::tab:selected { background: palette(base); border-top: 2px solid palette(highlight); padding-top: 4px; }
    """


def lay_titles(bar: QTabBar, ground: int) -> None:
    """Lay the titles of a bar with so much ground at either side; 0 for the usual. [pixels]"""
    sheet = _TITLES % ground if ground else ""
    if bar.styleSheet() != sheet:
        bar.setStyleSheet(sheet)


class TightTabs(QTabWidget):
    """Tabs that keep all of their titles in sight for as long as they can."""

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        # Later: this may come while the window's style sheet is being set, and titles may get one of their own.
        QTimer.singleShot(0, self, self.fit_titles)

    def fit_titles(self) -> None:
        """Let the titles lie closer where not all of them have room."""
        for ground in (0, TIGHT, TIGHTEST):
            lay_titles(self.tabBar(), ground)
            if self.tabBar().sizeHint().width() <= self.width():
                break
