"""Ways over the sheet: ground out of reach, and paths that are too narrow."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen

from planner.desk.canvas import transform
from planner.desk.theme.palette import Look, letters
from planner.garden.units import show_length
from planner.ground.narrow_places import Narrow, narrow_places
from planner.ground.paths import garden_paths
from planner.ground.reach import reach_on_plan

if TYPE_CHECKING:
    from planner.desk.main_window.sheet_view import SheetView


class AccessLayer:
    """Shapes of one plan, worked out when they are shown."""

    def __init__(self, view: SheetView) -> None:
        self.view = view
        self.shown = False
        self._plan: object = None
        self._far: list[QPainterPath] = []
        self._narrow: list[tuple[Narrow, QPainterPath]] = []

    def show(self, shown: bool) -> str:
        """Switch on or off; returns what was found, in words."""
        self.shown = shown
        self.view.viewport().update()
        if not shown:
            return ""
        self._work()
        site = self.view.document.garden.site
        far = f"{len(self._far)} beds have ground farther than {show_length(site.reach, site.units)} from a side"
        near = f"{len(self._narrow)} places are narrower than {show_length(site.path_width, site.units)}"
        return f"{far}; {near}"

    def _work(self) -> None:
        plan = self.view.document.plan
        if plan is self._plan:
            return
        self._plan = plan
        site = plan.garden.site
        shapes = (reach_on_plan(bed, site.reach) for bed in plan.beds)
        self._far = [transform.path(shape) for shape in shapes if not shape.is_empty]
        found = narrow_places(garden_paths(plan.garden, plan.year), site.path_width)
        self._narrow = [(narrow, transform.path(narrow.shape)) for narrow in found]

    def paint(self, painter: QPainter, look: Look) -> None:
        """Draw in pixels of the viewport: far ground hatched, narrow paths ringed with their width."""
        if not self.shown:
            return
        self._work()
        transform = self.view.viewportTransform()
        warn = QColor(look.warn)
        hatch = QBrush(warn, Qt.BrushStyle.FDiagPattern)
        for path in self._far:
            shape = transform.map(path)
            painter.fillPath(shape, hatch)
            painter.strokePath(shape, QPen(warn, 1, Qt.PenStyle.DashLine))
        painter.setFont(letters(9, bold=True))
        units = self.view.document.garden.site.units
        for narrow, path in self._narrow:
            shape = transform.map(path)
            wash = QColor(warn)
            wash.setAlphaF(0.25)
            painter.fillPath(shape, wash)
            painter.strokePath(shape, QPen(warn, 1.6))
            text = show_length(narrow.width, units)
            at = shape.boundingRect().center()
            width = painter.fontMetrics().horizontalAdvance(text) + 8
            place = QRectF(at + QPointF(-width / 2, -9), at + QPointF(width / 2, 9))
            painter.fillRect(place, look.chip)
            painter.setPen(warn)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)
