"""Areas that scroll up and down where there is too little room, and never sideways."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QScrollArea, QWidget

from planner.words import say


def scrolling(inner: QWidget) -> QScrollArea:
    """An area in which a widget scrolls up and down; it is as wide as the area.

    Parameters
    ----------
    inner : QWidget
    """
    area = QScrollArea()
    area.setAccessibleName(say("Part of the page that scrolls"))
    area.setWidget(inner)
    area.setWidgetResizable(True)
    area.setFrameShape(QScrollArea.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    return area
