"""Marks on the sheet where findings lie."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from planner.checks import Finding
from planner.desk.canvas.camera import Camera
from planner.desk.theme.palette import letters


def paint_finding_marks(
    painter: QPainter, camera: Camera, findings: Iterable[Finding], chosen: Finding | None
) -> None:
    """Mark where findings lie: a square for stop, a triangle for mind; notes have no mark.

    Parameters
    ----------
    painter : QPainter
    camera : Camera
    findings : iterable of Finding
        Those that are not waived.
    chosen : Finding or None
        The one whose place is hatched.
    """
    look = camera.look.now
    if chosen is not None and not chosen.place.is_empty:
        path = camera.view_path(chosen.place.buffer(0.02))
        wash = QColor(look.warn)
        wash.setAlphaF(0.9)
        painter.fillPath(path, Qt.BrushStyle.BDiagPattern)
        painter.strokePath(path, QPen(wash, 2.2))
    for finding in findings:
        if finding.severity == "note" or finding.place.is_empty:
            continue
        point = finding.place.representative_point()
        _paint_mark(painter, camera, camera.to_view((point.x, point.y)), stop=finding.severity == "stop")


def _paint_mark(painter: QPainter, camera: Camera, at: QPointF, *, stop: bool) -> None:
    look = camera.look.now
    painter.setPen(QPen(look.sheet, 1.5))
    painter.setBrush(look.warn)
    if stop:
        painter.drawRect(round(at.x()) - 6, round(at.y()) - 6, 12, 12)
    else:
        corners = (QPointF(0, -8), QPointF(8, 6), QPointF(-8, 6))
        painter.drawPolygon(QPolygonF([at + corner for corner in corners]))
    painter.setPen(look.sheet)
    painter.setFont(letters(9, bold=True))
    painter.drawText(QPointF(at.x() - 1.5, at.y() + 5), "!")
