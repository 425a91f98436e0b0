"""Outlines and handles of what is selected."""

from __future__ import annotations

from collections.abc import Collection, Iterable

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPainterPath, QPen

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.handles import Handle, outline_of
from planner.desk.canvas.lock_sign import paint_lock
from planner.desk.model.document import PLOT_EDGE
from planner.desk.model.thing_words import name_of
from planner.desk.theme.palette import letters
from planner.garden import Planting
from planner.ground import shapes
from planner.words import day_words, say

#: Handles of rows.
_ROW_SIGNS = ("rows", "in_row", "between", "row_turn")
#: Half the size of such a handle. [pixels]
ROW_SIGN = 8.0
#: Distance of the days below the plot of what does not grow on the day shown. [pixels]
BELOW = 7.0


def paint_selection(
    painter: QPainter, camera: Camera, handles: Iterable[Handle], picked: Collection[int] = ()
) -> None:
    """Paint the outlines of what is selected, and its handles; single plants that are picked are filled."""
    look = camera.look.now
    for key in camera.document.selection:
        path = _outline(camera, key)
        if path is None:
            continue
        planting = camera.document.garden.plantings_by_id.get(key)
        if planting is not None and not camera.document.is_growing_on_day_shown(planting):
            _paint_faintly(painter, camera, planting, path)
            continue
        painter.strokePath(path, QPen(look.sheet, 4.5))
        painter.strokePath(path, QPen(look.accent, 2.2))
        if camera.document.is_locked(key):
            paint_lock(painter, look, path.boundingRect().topRight())
    for handle in handles:
        if handle.kind == "place":
            if handle.which[0] in picked:
                painter.setPen(QPen(look.sheet, 1.5))
                painter.setBrush(look.accent)
                painter.drawEllipse(camera.to_view(handle.plan), 7, 7)
            continue
        _paint_handle(painter, camera, handle)


def _paint_faintly(painter: QPainter, camera: Camera, planting: Planting, path: QPainterPath) -> None:
    """Paint the plot of a planting that does not grow on the day shown, with the days on which it does."""
    look, plan = camera.look.now, camera.document.plan
    wash = QColor(look.accent)
    wash.setAlpha(22)
    painter.fillPath(path, wash)
    painter.strokePath(path, QPen(look.accent, 1.4, Qt.PenStyle.DashLine))
    span, year = plan.span_of(planting), plan.span.first.year
    first = day_words(span.first, year)
    days = say("{first} to {last}", first=first, last=day_words(span.last, year))
    if span.open:
        days = say("from {day} on", day=first)
    font = letters(9)
    metrics = QFontMetricsF(font)
    text = f"{name_of(plan, (planting.id,))} · {days}"
    box = QRectF(0, 0, metrics.horizontalAdvance(text) + 10, metrics.height() + 2)
    plot = path.boundingRect()
    box.moveCenter(QPointF(plot.center().x(), plot.bottom() + BELOW + box.height() / 2))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.sheet)
    painter.drawRoundedRect(box, 3, 3)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setFont(font)
    painter.setPen(look.pencil)
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def _outline(camera: Camera, key: str) -> QPainterPath | None:
    """Outline of a bed, structure or planting in the viewport; None where there is none."""
    garden = camera.document.garden
    drawn = camera.sheet.beds.get(key)
    if drawn is not None:  # of hundreds of beds the drawn outlines are at hand
        return camera.viewportTransform().map(drawn.shape())
    thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
    if thing is not None:
        return camera.view_path(shapes.plan_polygon(thing.outline))
    if key == PLOT_EDGE and garden.site.outline is not None:
        return camera.view_path(shapes.plan_polygon(garden.site.outline))
    planting = garden.plantings_by_id.get(key)
    return _planting_outline(camera, planting) if planting is not None else None


def _planting_outline(camera: Camera, planting: Planting) -> QPainterPath:
    bed = camera.document.garden.beds_by_id[planting.bed]
    placed = camera.document.plan.placed(planting)
    if planting.arrangement.kind == "places":
        return _rings(camera, shapes.to_plan(bed.outline, placed.layout.points))
    return camera.view_path(shapes.shape_to_plan(bed.outline, placed.plot))


def _rings(camera: Camera, points: NDArray[np.float64]) -> QPainterPath:
    path = QPainterPath()
    for x, y in camera.to_view_all(points):
        path.addEllipse(QPointF(x, y), 9, 9)
    return path


def _paint_handle(painter: QPainter, camera: Camera, handle: Handle) -> None:
    look, garden = camera.look.now, camera.document.garden
    at = camera.to_view(handle.plan)
    painter.setPen(QPen(look.accent, 1.4))
    painter.setBrush(look.sheet)
    if handle.kind == "turn":
        outline = outline_of(garden, handle.key)
        if outline is not None and handle.key != PLOT_EDGE:  # across the whole garden it would be in the way
            painter.drawLine(at, camera.to_view(outline.center))
        painter.drawEllipse(at, 5.5, 5.5)
    elif handle.kind in _ROW_SIGNS:
        _paint_row_handle(painter, camera, handle, at)
    else:
        painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8))


def _paint_row_handle(painter: QPainter, camera: Camera, handle: Handle, at: QPointF) -> None:
    """A round handle with a sign: how many rows, a double arrow along or across them, or a turn."""
    look, plan = camera.look.now, camera.document.plan
    planting = camera.document.garden.plantings_by_id[handle.key]
    painter.drawEllipse(at, ROW_SIGN, ROW_SIGN)
    painter.save()
    painter.translate(at)
    if handle.kind == "rows":
        painter.setFont(letters(9))
        painter.setPen(look.accent)
        size = 2.4 * ROW_SIGN
        painter.drawText(
            QRectF(-size / 2, -size / 2, size, size), Qt.AlignmentFlag.AlignCenter, f"{handle.which[0]:.0f}"
        )
    elif handle.kind == "row_turn":
        painter.drawArc(QRectF(-4, -4, 8, 8), 30 * 16, 250 * 16)
    else:
        bed = plan.bed_of(planting)
        painter.rotate(-plan.placed(planting).layout.direction - bed.outline.turn)
        if handle.kind == "between":
            painter.rotate(90)
        painter.drawLine(QPointF(-5, 0), QPointF(5, 0))
        for side in (-1, 1):
            painter.drawLine(QPointF(5 * side, 0), QPointF(2.5 * side, -2.5))
            painter.drawLine(QPointF(5 * side, 0), QPointF(2.5 * side, 2.5))
    painter.restore()
