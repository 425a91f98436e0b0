"""A small lock at the corner of what is locked and selected."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen

from planner.desk.theme.palette import Look


def paint_lock(painter: QPainter, look: Look, corner: QPointF) -> None:
    """Paint a closed lock with its middle at a point of the viewport."""
    ground = QRectF(corner.x() - 9, corner.y() - 9, 18, 18)
    painter.setPen(QPen(look.accent, 1.2))
    painter.setBrush(look.sheet)
    painter.drawRoundedRect(ground, 4, 4)
    body = QRectF(corner.x() - 5, corner.y() - 1, 10, 7)
    bow = QPainterPath(QPointF(corner.x() - 3, corner.y() - 1))
    bow.lineTo(corner.x() - 3, corner.y() - 3)
    bow.arcTo(QRectF(corner.x() - 3, corner.y() - 6, 6, 6), 180, -180)
    bow.lineTo(corner.x() + 3, corner.y() - 1)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(look.accent, 1.6))
    painter.drawPath(bow)
    painter.fillRect(body, look.accent)
