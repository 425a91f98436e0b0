"""The curve of a planting over the days on which it may start, with the planned day as a line that can be moved."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent
from typing_extensions import override

from planner.desk.pages.chart_view import MARGIN, ChartView
from planner.desk.theme.palette import LookSwitch
from planner.sheets.chart_marks import Chart, Room

#: So near the planned day the pointer takes hold of it. [pixels]
_REACH = 9.0


class DayCurveView(ChartView):
    """A chart over days; the planned one can be dragged, and Enter starts the planting on the day that is marked.

    Signals
    -------
    day_wanted : int
        Number of the day on which the planting is to start.
    """

    day_wanted = Signal(int)

    def __init__(
        self,
        look: LookSwitch,
        name: str,
        make: Callable[[Room], Chart | None],
        words: Callable[[int], str],
    ) -> None:
        super().__init__(look, name, make, words)
        self.planned = -1
        self._held = False
        self.setMouseTracking(True)

    def _over_handle(self, place: QPointF) -> bool:
        if self.chart is None or self.planned < 0:
            return False
        (x, _), _ = self.chart.line_of(self.planned)
        inside = self.chart.top - _REACH <= place.y() - MARGIN <= self.chart.bottom
        return inside and abs(place.x() - MARGIN - x) <= _REACH

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._held = event.button() == Qt.MouseButton.LeftButton and self._over_handle(event.position())
        if self._held:
            self.mark(self.planned)
        else:
            super().mousePressEvent(event)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if not self._held or self.chart is None:
            over = self._over_handle(event.position())
            self.setCursor(Qt.CursorShape.SizeHorCursor if over else Qt.CursorShape.ArrowCursor)
            return
        share = (event.position().x() - MARGIN - self.chart.left) / (self.chart.right - self.chart.left)
        self.mark(min(max(int(share * self.chart.steps), 0), self.chart.steps - 1))

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        held, self._held = self._held, False
        if held and self.marked not in (-1, self.planned):
            self.day_wanted.emit(self.marked)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._held:
            self._held = False
            self.mark(self.planned)
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.marked not in (-1, self.planned):
            self.day_wanted.emit(self.marked)
        else:
            super().keyPressEvent(event)
