"""Outlines and handles of what is selected."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPainterPath, QPen

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.handles import Handle
from planner.garden import Planting
from planner.ground import shapes


def paint_selection(painter: QPainter, camera: Camera, handles: Iterable[Handle]) -> None:
    """Paint the outlines of what is selected, and its handles."""
    look = camera.look.now
    for key in camera.document.selection:
        path = _outline(camera, key)
        if path is not None:
            painter.strokePath(path, QPen(look.sheet, 4.5))
            painter.strokePath(path, QPen(look.accent, 2.2))
    for handle in handles:
        _paint_handle(painter, camera, handle)


def _outline(camera: Camera, key: str) -> QPainterPath | None:
    """Outline of a bed, structure or planting in the viewport; None where there is none."""
    garden = camera.document.garden
    thing = garden.beds_by_id.get(key) or garden.structures_by_id.get(key)
    if thing is not None:
        return camera.view_path(shapes.plan_polygon(thing.outline))
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
        thing = garden.beds_by_id.get(handle.key) or garden.structures_by_id[handle.key]
        painter.drawLine(at, camera.to_view(thing.outline.center))
        painter.drawEllipse(at, 5.5, 5.5)
    else:
        painter.drawRect(QRectF(at.x() - 4, at.y() - 4, 8, 8))
