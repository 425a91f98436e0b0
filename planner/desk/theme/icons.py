"""Icons of our own, drawn in the palette's ink at any size."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QIconEngine, QPainter, QPainterPath, QPen, QPixmap, QPolygonF
from typing_extensions import override

from planner.desk.theme.palette import LookSwitch


def _polyline(*points: tuple[float, float], close: bool = False) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in points]))
    if close:
        path.closeSubpath()
    return path


def _rect(x: float, y: float, w: float, h: float) -> QPainterPath:
    path = QPainterPath()
    path.addRect(QRectF(x, y, w, h))
    return path


def _ellipse(x: float, y: float, rx: float, ry: float) -> QPainterPath:
    path = QPainterPath()
    path.addEllipse(QPointF(x, y), rx, ry)
    return path


def _joined(*paths: QPainterPath) -> QPainterPath:
    whole = QPainterPath()
    for path in paths:
        whole.addPath(path)
    return whole


def _arc(left: bool) -> QPainterPath:
    path = QPainterPath()
    if left:
        path.moveTo(19, 17)
        path.cubicTo(19, 9, 12, 7, 6, 9.5)
        path.addPath(_polyline((10.5, 5), (5.5, 9.6), (11.5, 12.6)))
    else:
        path.moveTo(5, 17)
        path.cubicTo(5, 9, 12, 7, 18, 9.5)
        path.addPath(_polyline((13.5, 5), (18.5, 9.6), (12.5, 12.6)))
    return path


#: Lines of each icon in a square of 24.
_DRAWN: dict[str, Callable[[], QPainterPath]] = {
    "select": lambda: _polyline((6, 4), (6, 19), (10, 15), (13, 21), (15.5, 19.8), (12.7, 14), (18, 13.5), close=True),
    "rectangle": lambda: _joined(_rect(4, 7, 16, 10), _polyline((4, 20), (20, 20)), _polyline((4, 18.8), (4, 21.2)), _polyline((20, 18.8), (20, 21.2))),
    "polygon": lambda: _polyline((4, 18), (6, 7), (14, 4.5), (20, 10), (13, 13), (17, 19), close=True),
    "circle": lambda: _joined(_ellipse(12, 12, 8, 8), _polyline((12, 12), (20, 12))),
    "structure": lambda: _joined(_polyline((4, 20), (4, 11), (12, 4.5), (20, 11), (20, 20), close=True), _rect(10, 13, 4, 7)),
    "measure": lambda: _joined(_polyline((4, 16), (20, 16)), *(_polyline((x, 16), (x, 16 - h)) for x, h in ((4, 6), (8, 3), (12, 6), (16, 3), (20, 6)))),
    "walk": lambda: _joined(_ellipse(6, 18, 2.5, 2.5), _polyline((8.5, 18), (18, 18), (18, 12), (6, 12), (6, 6), (15.5, 6)), _ellipse(18, 6, 2.5, 2.5)),
    "shadow": lambda: _joined(_rect(4, 9, 6, 8), _polyline((10, 9), (20, 13.5), (20, 20), (10, 17)), _polyline((4, 17), (10, 17))),
    "sun": lambda: _joined(_ellipse(12, 12, 4, 4), *(_polyline((12 + 6.3 * x, 12 + 6.3 * y), (12 + 9 * x, 12 + 9 * y)) for x, y in ((1, 0), (0.71, 0.71), (0, 1), (-0.71, 0.71), (-1, 0), (-0.71, -0.71), (0, -1), (0.71, -0.71)))),
    "undo": lambda: _arc(True),
    "redo": lambda: _arc(False),
    "all": lambda: _joined(*(_polyline(*points) for points in (((4, 9), (4, 4), (9, 4)), ((15, 4), (20, 4), (20, 9)), ((20, 15), (20, 20), (15, 20)), ((9, 20), (4, 20), (4, 15)))), _rect(8.5, 9.5, 7, 5)),
    "paper": lambda: _joined(_polyline((6, 3.5), (15, 3.5), (19, 7.5), (19, 20.5), (6, 20.5), close=True), _polyline((9, 11), (16, 11)), _polyline((9, 14), (16, 14)), _polyline((9, 17), (13, 17))),
    "grid": lambda: _joined(*(_polyline((x, 4), (x, 20)) for x in (6, 12, 18)), *(_polyline((4, y), (20, y)) for y in (6, 12, 18))),
    "snap": lambda: _joined(_polyline((12, 3.5), (12, 9.5)), _polyline((12, 14.5), (12, 20.5)), _polyline((3.5, 12), (9.5, 12)), _polyline((14.5, 12), (20.5, 12)), _ellipse(12, 12, 2.5, 2.5)),
    "beds": lambda: _joined(*(_rect(x, y, 6.5, 4) for x in (4, 13.5) for y in (4, 10, 16))),
}  # fmt: skip


class _Engine(QIconEngine):
    """Paints an icon each time in the ink of the look."""

    def __init__(self, name: str, look: LookSwitch) -> None:
        super().__init__()
        self.name, self.look = name, look

    @override
    def paint(self, painter: QPainter, rect: QRect, mode: QIcon.Mode, state: QIcon.State) -> None:
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        ink = QColor(self.look.now.pencil if mode == QIcon.Mode.Disabled else self.look.now.panel_ink)
        if mode == QIcon.Mode.Disabled:
            ink.setAlphaF(0.5)
        painter.translate(rect.x(), rect.y())
        painter.scale(rect.width() / 24, rect.height() / 24)
        pen = QPen(ink, 1.5)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        painter.strokePath(_DRAWN[self.name](), pen)
        painter.restore()

    @override
    def pixmap(self, size: QSize, mode: QIcon.Mode, state: QIcon.State) -> QPixmap:
        picture = QPixmap(size)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        self.paint(painter, picture.rect(), mode, state)
        painter.end()
        return picture

    @override
    def clone(self) -> QIconEngine:
        return _Engine(self.name, self.look)


def icon(name: str, look: LookSwitch) -> QIcon:
    """An icon by its name; it follows the look when it is drawn again."""
    return QIcon(_Engine(name, look))
