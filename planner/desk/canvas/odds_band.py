"""Between which days a planting is first and last picked in the recorded years, as bands over its bar."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from planner.desk.theme.palette import Look

#: Height of the box of half of the years, and how far above the bar its middle lies. [pixels]
BOX, ABOVE = 3.0, 2.2


def paint_spread(
    painter: QPainter, look: Look, places: tuple[float, float, float, float, float], y: float, *, first: bool
) -> None:
    """Paint a band: a line over eight years in ten, a box over half of them, a stroke in the middle.

    The box of the first picking is filled, that of the last is open.

    Parameters
    ----------
    painter : QPainter
    look : Look
    places : tuple of float
        Of 10, 25, 50, 75 and 90 % of the years. [pixels]
    y : float
        Its middle. [pixels]
    first : bool
    """
    low, quarter, middle, most, high = places
    painter.setPen(QPen(look.ink, 1.0))
    painter.drawLine(QLineF(low, y, high, y))
    for end in (low, high):
        painter.drawLine(QLineF(end, y - 1.5, end, y + 1.5))
    box = QRectF(quarter, y - BOX / 2, max(most - quarter, 2.0), BOX)
    painter.setBrush(look.ink if first else look.sheet)
    painter.drawRect(box)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawLine(QPointF(middle, y - 2.5), QPointF(middle, y + 2.5))
