"""The sheet's paper and its grid."""

from __future__ import annotations

import math

from PySide6.QtCore import QLineF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen

from planner.desk.canvas.camera import Camera
from planner.garden.units import FOOT

#: Lines of the grid are at least this far apart, else only every tenth is drawn. [pixels]
LEAST_GAP = 7.0
#: A grid of a wider step than this is not drawn. [pixels]
WIDEST_GAP = 4_000.0


def paint_paper(painter: QPainter, camera: Camera, *, grid: bool) -> None:
    """Paint the paper and, over it, the fine and the coarse grid."""
    look, area = camera.look.now, camera.area
    painter.fillRect(area, look.sheet)
    if not grid:
        return
    metric = camera.document.garden.site.units == "metric"
    _paint_grid(painter, camera, area, 0.1 if metric else FOOT / 2, look.grid)
    _paint_grid(painter, camera, area, 1.0 if metric else 5 * FOOT, look.grid_major)


def _paint_grid(painter: QPainter, camera: Camera, area: QRectF, step: float, colour: QColor) -> None:
    pixels = step * camera.pixels_per_metre
    while pixels < LEAST_GAP:
        step, pixels = step * 10, pixels * 10
    if pixels > WIDEST_GAP:
        return
    left, top = camera.plan_at(area.topLeft())
    right, bottom = camera.plan_at(area.bottomRight())
    painter.setPen(QPen(colour, 1))
    lines = []
    for i in range(math.floor(left / step), math.ceil(right / step) + 1):
        x = round(camera.to_view((i * step, 0)).x()) + 0.5
        lines.append(QLineF(x, 0, x, area.height()))
    for i in range(math.floor(bottom / step), math.ceil(top / step) + 1):
        y = round(camera.to_view((0, i * step)).y()) + 0.5
        lines.append(QLineF(0, y, area.width(), y))
    painter.drawLines(lines)
