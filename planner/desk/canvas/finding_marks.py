"""Marks on the sheet where findings lie."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from planner.desk.canvas.camera import Camera
from planner.desk.theme.palette import letters

if TYPE_CHECKING:
    from planner.checks import Finding

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
    ratio = painter.device().devicePixelRatio()
    pictures = {stop: _mark(stop, look.warn.rgba(), look.sheet.rgba(), ratio) for stop in (True, False)}
    inside = (
        (places[:, 0] >= area.left())
        & (places[:, 0] <= area.right())
        & (places[:, 1] >= area.top())
        & (places[:, 1] <= area.bottom())
    )
    for number in np.flatnonzero(inside).tolist():
        x, y = places[number].tolist()
        painter.drawPixmap(QPointF(round(x) - REACH, round(y) - REACH), pictures[marked[number][0]])


@lru_cache(maxsize=16)
def _mark(stop: bool, warn: int, sheet: int, ratio: float) -> QPixmap:
    """The picture of a mark, drawn once: a thousand may be seen at a time.

    Parameters
    ----------
    stop : bool
    warn, sheet : int
        Colours of the mark and of its rim.
    ratio : float
        Device pixels of a pixel.
    """
    side = math.ceil(2 * REACH * ratio)
    picture = QPixmap(side, side)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    rim = QColor.fromRgba(sheet)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.translate(REACH, REACH)
    painter.setBrush(QColor.fromRgba(warn))
    painter.setFont(letters(9, bold=True))
    painter.setPen(QPen(rim, 1.5))
    if stop:
        painter.drawRect(-6, -6, 12, 12)
    else:
        painter.drawPolygon(_TRIANGLE)
    painter.setPen(QPen(rim))
    painter.drawText(QPointF(-1.5, 5), "!")
    painter.end()
    return picture
