"""The preview of a drop, as it is painted on the sheet: its plot and the real stations."""

from __future__ import annotations

import numpy as np
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPainter, QPen

from planner.desk.gestures.base import GestureView
from planner.desk.model.drop_preview import DropPreview
from planner.desk.theme import plant_symbols
from planner.garden import Bed
from planner.ground import shapes
from planner.ground.layout import Layout

#: Stations nearer to each other than this are not drawn. [pixels]
LEAST_APART = 1.5
#: Distance of rows or stations that have no spacing of their own, for the size of their marks. [m]
USUAL_APART = 0.1


def paint_drop(painter: QPainter, view: GestureView, preview: DropPreview) -> None:
    """Paint plot and stations of a drop, or (where it may not land) the outline of the bed as a warning.

    Parameters
    ----------
    painter : QPainter
    view : GestureView
    preview : DropPreview
    """
    look, outline = view.look.now, preview.bed.outline
    if preview.placed is None:
        bed = view.view_path(shapes.plan_polygon(outline))
        painter.strokePath(bed, QPen(look.warn, 1.6, Qt.PenStyle.DashLine))
        return
    plot = view.view_path(shapes.shape_to_plan(outline, preview.placed.plot))
    fill = QColor(look.accent)
    fill.setAlpha(28)
    painter.fillPath(plot, fill)
    painter.strokePath(plot, QPen(look.accent, 1.4, Qt.PenStyle.DashLine))
    _paint_stations(painter, view, preview.bed, preview.placed.layout)


def _paint_stations(painter: QPainter, view: GestureView, bed: Bed, layout: Layout) -> None:
    points = shapes.to_plan(bed.outline, layout.points)
    if not len(points):
        return
    places = view.to_view_all(points)
    area = view.area
    seen = (
        (places[:, 0] >= -8)
        & (places[:, 0] <= area.width() + 8)
        & (places[:, 1] >= -8)
        & (places[:, 1] <= area.height() + 8)
    )
    nearest = min(layout.in_row_spacing or USUAL_APART, layout.row_spacing or USUAL_APART)
    apart = nearest * view.pixels_per_metre
    if apart < LEAST_APART:
        return
    stamp = plant_symbols.ghost_stamp(int(np.clip(apart * 0.7, 3, 13)), view.look.now.accent.rgba())
    plant_symbols.put_down(painter, stamp, places[seen])
