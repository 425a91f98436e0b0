"""Marks on the sheet where findings lie."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from planner.checks import Finding
from planner.desk.canvas.camera import Camera
from planner.desk.theme.palette import letters

#: Farther from its place than this no mark reaches. [pixels]
REACH = 12.0
_TRIANGLE = QPolygonF([QPointF(0, -8), QPointF(8, 6), QPointF(-8, 6)])


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
    marked = [
        (finding.severity == "stop", finding.spot)
        for finding in findings
        if finding.severity != "note" and finding.spot is not None
    ]
    if not marked:
        return
    places = camera.to_view_all(np.array([spot for _, spot in marked]))
    area = camera.area.adjusted(-REACH, -REACH, REACH, REACH)
    rim, letter = QPen(look.sheet, 1.5), QPen(look.sheet)
    painter.setBrush(look.warn)
    painter.setFont(letters(9, bold=True))
    for (stop, _), (x, y) in zip(marked, places.tolist(), strict=True):
        if not area.contains(x, y):
            continue
        painter.setPen(rim)
        if stop:
            painter.drawRect(round(x) - 6, round(y) - 6, 12, 12)
        else:
            painter.drawPolygon(_TRIANGLE.translated(x, y))
        painter.setPen(letter)
        painter.drawText(QPointF(x - 1.5, y + 5), "!")
