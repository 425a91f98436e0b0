"""Access over the sheet: ground out of reach, and paths that are too narrow."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen

from planner.desk.canvas import transform
from planner.desk.canvas.camera import Camera
from planner.desk.theme.palette import letters
from planner.garden.units import show_length
from planner.ground.narrow_places import Narrow, narrow_places
from planner.ground.paths import garden_paths
from planner.ground.reach import ground_to_stand_on, reach_on_plan
from planner.words import say_count


class AccessLayer:
    """Shapes of one plan, worked out when they are shown."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self.shown = False
        self._plan: object = None
        self._far: list[QPainterPath] = []
        self._narrow: list[tuple[Narrow, QPainterPath]] = []

    def show(self, shown: bool) -> str:
        """Switch on or off; returns what was found, in words."""
        self.shown = shown
        self._camera.viewport().update()
        if not shown:
            return ""
        self._follow_plan()
        site = self._camera.document.garden.site
        far = say_count(
            "{count} bed has ground farther than {reach} from a side",
            "{count} beds have ground farther than {reach} from a side",
            len(self._far),
            reach=show_length(site.reach, site.units),
        )
        near = say_count(
            "{count} place is narrower than {width}",
            "{count} places are narrower than {width}",
            len(self._narrow),
            width=show_length(site.path_width, site.units),
        )
        return f"{far}; {near}"

    def _follow_plan(self) -> None:
        plan = self._camera.document.plan
        if plan is self._plan:
            return
        self._plan = plan
        site = plan.garden.site
        stood_on = ground_to_stand_on(plan.garden.structures, plan.year)
        shapes = (reach_on_plan(bed, site.reach, stood_on=stood_on) for bed in plan.beds)
        self._far = [transform.path(shape) for shape in shapes if not shape.is_empty]
        found = narrow_places(garden_paths(plan.garden, plan.year), site.path_width)
        self._narrow = [(narrow, transform.path(narrow.shape)) for narrow in found]

    def paint(self, painter: QPainter) -> None:
        """Draw in pixels of the viewport: far ground hatched, narrow paths ringed with their width."""
        if not self.shown:
            return
        self._follow_plan()
        to_view = self._camera.viewportTransform()
        for path in self._far:
            self._paint_far(painter, to_view.map(path))
        painter.setFont(letters(9, bold=True))
        units = self._camera.document.garden.site.units
        for narrow, path in self._narrow:
            self._paint_narrow(painter, to_view.map(path), show_length(narrow.width, units))

    def _paint_far(self, painter: QPainter, shape: QPainterPath) -> None:
        warn = QColor(self._camera.look.now.warn)
        painter.fillPath(shape, QBrush(warn, Qt.BrushStyle.FDiagPattern))
        painter.strokePath(shape, QPen(warn, 1, Qt.PenStyle.DashLine))

    def _paint_narrow(self, painter: QPainter, shape: QPainterPath, width: str) -> None:
        look = self._camera.look.now
        warn, wash = QColor(look.warn), QColor(look.warn)
        wash.setAlphaF(0.25)
        painter.fillPath(shape, wash)
        painter.strokePath(shape, QPen(warn, 1.6))
        at = shape.boundingRect().center()
        extent = painter.fontMetrics().horizontalAdvance(width) + 8
        place = QRectF(at + QPointF(-extent / 2, -9), at + QPointF(extent / 2, 9))
        painter.fillRect(place, look.chip)
        painter.setPen(warn)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, width)
