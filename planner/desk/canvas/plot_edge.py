"""The edge of the plot on the sheet: a quiet line under everything, and whether the pointer is on it."""

from __future__ import annotations

import shapely
from PySide6.QtGui import QPainter, QPen

from planner.desk.canvas.camera import Camera
from planner.ground import shapes

#: Strokes and gaps of the line, in its widths.
_PATTERN = [9.0, 3.0, 1.5, 3.0]
#: How near the pointer must be to it. [pixels]
REACH = 6.0


def paint_plot_edge(painter: QPainter, camera: Camera) -> None:
    """Paint the edge of the plot, where it is drawn."""
    outline = camera.document.garden.site.outline
    if outline is None:
        return
    pen = QPen(camera.look.now.pencil, 1.3)
    pen.setDashPattern(_PATTERN)
    painter.strokePath(camera.view_path(shapes.plan_polygon(outline)), pen)


def is_on_plot_edge(camera: Camera, place: tuple[float, float]) -> bool:
    """Whether a place of the plan is on the edge of the plot, as near as a pointer can be."""
    outline = camera.document.garden.site.outline
    if outline is None:
        return False
    rim = shapes.plan_polygon(outline).exterior
    return float(shapely.distance(rim, shapely.Point(place))) * camera.pixels_per_metre <= REACH
