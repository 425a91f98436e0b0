"""Marks on the sheet where findings lie."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from planner.desk.canvas.camera import Camera
from planner.desk.theme.palette import letters

if TYPE_CHECKING:
    from planner.checks import Finding

#: Farther from its place than this no mark reaches. [pixels]
REACH = 12.0
#: Half the side of a mark: so far beside words it covers none of them. [pixels]
HALF = 7.0
_TRIANGLE = QPolygonF([QPointF(0, -8), QPointF(8, 6), QPointF(-8, 6)])


def paint_finding_marks(
    painter: QPainter,
    camera: Camera,
    findings: Iterable[Finding],
    chosen: Finding | None,
    labels: Sequence[QRectF] = (),
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
    labels : sequence of QRectF
        What is written on the sheet: marks step aside from it. [pixels of the viewport]
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
    if labels:
        _step_aside(places, inside, labels)
    for number in np.flatnonzero(inside).tolist():
        x, y = places[number].tolist()
        painter.drawPixmap(QPointF(round(x) - REACH, round(y) - REACH), pictures[marked[number][0]])


def _step_aside(places: NDArray[np.float64], seen: NDArray[np.bool_], labels: Sequence[QRectF]) -> None:
    """Move marks that would lie on words to the nearest edge of those. [pixels]

    Parameters
    ----------
    places : ndarray (n, 2)
        Changed in place.
    seen : ndarray (n,)
        Which of them are seen.
    labels : sequence of QRectF
    """
    rooms = [one.adjusted(-HALF, -HALF, HALF, HALF) for one in labels]
    sides = np.array([(one.left(), one.top(), one.right(), one.bottom()) for one in rooms])
    x, y = places[:, 0, None], places[:, 1, None]
    hits = (x > sides[:, 0]) & (x < sides[:, 2]) & (y > sides[:, 1]) & (y < sides[:, 3])
    for number in np.flatnonzero(seen & hits.any(axis=1)).tolist():
        at = QPointF(*places[number].tolist())
        room = rooms[int(np.flatnonzero(hits[number])[0])]
        ways = (
            QPointF(room.left(), at.y()),
            QPointF(room.right(), at.y()),
            QPointF(at.x(), room.top()),
            QPointF(at.x(), room.bottom()),
        )
        near = sorted(ways, key=lambda way: abs(way.x() - at.x()) + abs(way.y() - at.y()))
        free = (way for way in near if not any(one.adjusted(1, 1, -1, -1).contains(way) for one in rooms))
        best = next(free, near[0])
        places[number] = best.x(), best.y()


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
