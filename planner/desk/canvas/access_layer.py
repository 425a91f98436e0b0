"""Access over the sheet: ground out of reach, and paths that are too narrow."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import shapely
from PySide6.QtCore import QObject, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen

from planner.desk.canvas import transform
from planner.desk.canvas.camera import Camera
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.theme.palette import letters
from planner.garden.units import show_length
from planner.ground.narrow_places import Narrow, narrow_places
from planner.ground.paths import garden_paths
from planner.ground.reach import ground_to_stand_on, reach_on_plan
from planner.words import say, say_count

_Found = tuple[list[shapely.Geometry], Sequence[Narrow]]


class AccessLayer(QObject):
    """Shapes of one plan, worked out beside the window when they are shown: narrow paths of many beds take a second.

    Signals
    -------
    said : str
        What was found, in words.
    """

    said = Signal(str)

    def __init__(self, camera: Camera) -> None:
        super().__init__(camera)
        self._camera = camera
        self._jobs = JobQueue(camera)
        self.shown = False
        self._plan: object = None
        self._tell = False
        self._far: list[QPainterPath] = []
        self._narrow: list[tuple[Narrow, QPainterPath]] = []

    def show(self, shown: bool) -> None:
        """Switch on or off; what is found is said when it is known."""
        self.shown = shown
        self._camera.viewport().update()
        if not shown:
            self._jobs.cancel()
            self._plan = None
            self._far, self._narrow = [], []
            self.said.emit("")
            return
        self._tell = True
        self.said.emit(say("Looking at reach and paths…"))
        self._follow_plan()

    def _words(self) -> str:
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
        garden, year, beds = plan.garden, plan.year, tuple(plan.beds)

        def work(cancelled: Cancelled) -> Iterator[_Found]:
            stood_on = ground_to_stand_on(garden.structures, year)
            far = [reach_on_plan(bed, garden.site.reach, stood_on=stood_on) for bed in beds]
            if not cancelled():
                yield far, narrow_places(garden_paths(garden, year), garden.site.path_width)

        self._jobs.start(work, self._receive)

    def _receive(self, found: _Found) -> None:
        far, narrow = found
        self._far = [transform.path(shape) for shape in far if not shape.is_empty]
        self._narrow = [(one, transform.path(one.shape)) for one in narrow]
        self._camera.viewport().update()
        if self._tell:
            self._tell = False
            self.said.emit(self._words())

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
