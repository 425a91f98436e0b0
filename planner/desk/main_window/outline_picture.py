"""Outlines of a file drawn small, beside those of the garden that they would come to."""

from __future__ import annotations

from collections.abc import Sequence

import shapely
from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QColor, QPainter, QPainterPath, QPaintEvent, QPen, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.theme.palette import LookSwitch, letters

#: Free ground around the outlines. [pixels]
_MARGIN = 14
#: Of more outlines than this none is named.
_MOST_NAMED = 80


class OutlinePicture(QWidget):
    """Draws outlines of the garden in pencil, and those that would come in the colour of what is about to happen.

    Parameters
    ----------
    look : LookSwitch
    """

    heard_as = QAccessible.Role.Graphic

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self._look = look
        self._there = QPainterPath()
        self.new: list[tuple[str, QPainterPath]] = []
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        look.changed.connect(self.update)

    @override
    def sizeHint(self) -> QSize:
        return QSize(340, 260)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(160, 120)

    def show_outlines(
        self, there: Sequence[shapely.Geometry], new: Sequence[tuple[str, shapely.Geometry]]
    ) -> None:
        """Draw other outlines.

        Parameters
        ----------
        there : sequence of shapely.Polygon
            Of the garden.
        new : sequence of (str, shapely.Polygon)
            Those that would come, each with its name.
        """
        self._there = QPainterPath()
        for shape in there:
            self._there.addPath(transform.path(shape))
        self.new = [(name, transform.path(shape)) for name, shape in new]
        self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        look = self._look.now
        painter.fillRect(self.rect(), look.sheet)
        painter.setPen(QPen(look.grid_major, 1))
        painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        extent = self._there.boundingRect()
        for _, shape in self.new:
            extent = extent.united(shape.boundingRect())
        if extent.isEmpty():
            return
        to_view = _fitted(extent, QRectF(self.rect()).adjusted(_MARGIN, _MARGIN, -_MARGIN, -_MARGIN))
        painter.setBrush(look.soil)
        painter.setPen(QPen(look.pencil, 1))
        painter.drawPath(to_view.map(self._there))
        wash = QColor(look.accent)
        wash.setAlphaF(0.2)
        painter.setFont(letters(9))
        for name, shape in self.new:
            path = to_view.map(shape)
            painter.setBrush(wash)
            painter.setPen(QPen(look.accent, 1.6))
            painter.drawPath(path)
            if len(self.new) <= _MOST_NAMED:
                self._paint_name(painter, path.boundingRect(), name)

    def _paint_name(self, painter: QPainter, place: QRectF, name: str) -> None:
        """Name an outline that has room for it."""
        metrics = painter.fontMetrics()
        if metrics.horizontalAdvance(name) + 6 > place.width() or metrics.height() > place.height():
            return
        painter.setPen(self._look.now.ink)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, name)


def _fitted(extent: QRectF, room: QRectF) -> QTransform:
    """What lays an extent of the scene into the middle of a room, as large as it can be."""
    scale = min(room.width() / max(extent.width(), 1.0), room.height() / max(extent.height(), 1.0))
    middle = QPointF(extent.center())
    return (
        QTransform.fromTranslate(-middle.x(), -middle.y())
        * QTransform.fromScale(scale, scale)
        * QTransform.fromTranslate(room.center().x(), room.center().y())
    )
