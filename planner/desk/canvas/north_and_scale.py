"""North arrow and scale bar, in the corners of the window."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QGuiApplication, QPainter, QPen, QPolygonF

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.scale_steps import scale_steps
from planner.desk.theme.palette import Look, letters
from planner.garden.units import INCH, show_length
from planner.words import say, say_in_context

#: Where no screen is known. [dots per metre]
USUAL_DENSITY = 3780.0


def paint_north_and_scale(painter: QPainter, camera: Camera) -> None:
    """Paint the north arrow at the upper right and the scale bar at the lower left."""
    look, area = camera.look.now, camera.area
    site = camera.document.garden.site
    _paint_north(painter, QPointF(area.right() - 34, area.top() + 44), site.bearing_up, look)
    _, step = scale_steps(camera.pixels_per_metre / 1.2, metric=site.units == "metric")
    length = show_length(step, site.units)
    words = say("{length}   ·   1 : {scale} on this screen", length=length, scale=f"{_scale(camera):.0f}")
    corner = QPointF(area.left() + 18, area.bottom() - 30)
    width = step * camera.pixels_per_metre
    room = area.right() - corner.x() - width - 20
    if QFontMetricsF(letters(9)).horizontalAdvance(words) > room:
        words = length
    _paint_bar(painter, corner, width, words, look)


def _scale(camera: Camera) -> float:
    """How many times the garden is larger than it is seen on this screen."""
    screen = camera.screen() or QGuiApplication.primaryScreen()
    per_metre = screen.physicalDotsPerInch() / INCH if screen is not None else USUAL_DENSITY
    return per_metre / camera.pixels_per_metre


def _paint_bar(painter: QPainter, corner: QPointF, width: float, words: str, look: Look) -> None:
    left, top = corner.x(), corner.y()
    painter.setFont(letters(9))
    extent = QFontMetricsF(painter.font()).horizontalAdvance(words)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.chip)
    painter.drawRoundedRect(QRectF(left - 8, top - 7, width + extent + 28, 25), 4, 4)
    painter.setPen(QPen(look.ink, 1))
    painter.setBrush(look.sheet)
    painter.drawRect(QRectF(left, top, width, 6))
    painter.fillRect(QRectF(left, top, width / 2, 6), look.ink)
    painter.setPen(look.pencil)
    painter.drawText(QPointF(left + width + 10, top + 9), words)


def _paint_north(painter: QPainter, at: QPointF, bearing_up: float, look: Look) -> None:
    painter.save()
    painter.translate(at)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.chip)
    painter.drawEllipse(QPointF(0, 0), 27, 27)
    painter.rotate(-bearing_up)
    painter.setPen(QPen(look.ink, 1.4))
    painter.drawLine(QPointF(0, 17), QPointF(0, -10))
    painter.setBrush(look.ink)
    painter.drawPolygon(QPolygonF([QPointF(-4.5, -6), QPointF(0, -17), QPointF(4.5, -6)]))
    painter.drawLine(QPointF(-5, 12), QPointF(5, 12))
    painter.restore()
    painter.setFont(letters(9, bold=True))
    painter.setPen(look.ink)
    angle = math.radians(-bearing_up)
    tip = at + QPointF(math.sin(angle) * 35, -math.cos(angle) * 35)
    painter.drawText(
        QRectF(tip.x() - 10, tip.y() - 9, 20, 18),
        Qt.AlignmentFlag.AlignCenter,
        say_in_context("letter at the north arrow", "N"),
    )
