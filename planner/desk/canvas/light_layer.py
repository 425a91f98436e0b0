"""Light over the sheet: the shadows of an hour, and a map of the hours of direct sun."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import QObject, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetricsF, QImage, QPainter

from planner.desk.canvas.camera import Camera
from planner.desk.canvas.light_scale import paint_light_scale, sun_colours
from planner.desk.canvas.shadow_paths import ShadowPaths
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.light import LightMap, garden_extent, light_maps, on_day, sample_days
from planner.words import day_words, say

#: The map is made again so long after the last change. [ms]
DELAY = 60


class LightLayer(QObject):
    """Shadows and map over one camera's sheet, in step with plan, day and hour.

    Signals
    -------
    said : str
        Why there is nothing to show.
    """

    said = Signal(str)

    def __init__(self, camera: Camera) -> None:
        super().__init__(camera)
        self._camera, self.document = camera, camera.document
        self.shadow_shown = self.map_shown = False
        self.over_span = False
        self.map: LightMap | None = None
        self.shadows = ShadowPaths()
        self._image: QImage | None = None
        self._jobs = JobQueue(self)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(DELAY)
        self._later.timeout.connect(self.work)
        self.document.garden_changed.connect(self.follow)
        self.document.day_changed.connect(self.follow)
        self.document.hour_changed.connect(camera.viewport().update)

    def show(
        self, *, shadow: bool | None = None, light_map: bool | None = None, span: bool | None = None
    ) -> None:
        """Switch shadows, the map, or the map's span; None leaves each as it is.

        Parameters
        ----------
        shadow : bool, optional
        light_map : bool, optional
        span : bool, optional
            Whether the map shows the mean of the year's growing days instead of the day.
        """
        self.shadow_shown = self.shadow_shown if shadow is None else shadow
        self.map_shown = self.map_shown if light_map is None else light_map
        self.over_span = self.over_span if span is None else span
        if not self.map_shown:
            self.map = self._image = None
        if self.shadow_shown or self.map_shown:
            try:
                _ = self.document.plan.place
            except BedwrightError as error:
                self.said.emit(str(error))
        self.follow()
        self._camera.viewport().update()

    def follow(self) -> None:
        """The plan or the day has changed: the map is made again, a moment later."""
        self._jobs.cancel()
        if self.map_shown:
            self._later.start()

    def work(self) -> None:
        """Begin the map of what is shown now, beside the window."""
        plan = self.document.plan
        extent = garden_extent(plan.garden)
        try:
            place = plan.place
        except BedwrightError:
            return
        if extent is None:
            return
        day = self.document.day
        days = sample_days(plan.span) if self.over_span or day is None else on_day(day)
        # Everything of the plan is worked out here: the job gets plain values.
        casters = {each: plan.casters(each) for each, _ in days}
        surfaces = [plan.ground_of(bed) for bed in plan.beds]

        def maps(cancelled: Cancelled) -> Iterator[LightMap]:
            return light_maps(extent, place, days, casters.__getitem__, surfaces, cancelled=cancelled)

        self._jobs.start(maps, self._show_map)

    def _show_map(self, found: LightMap) -> None:
        if not self.map_shown:
            return
        self.map = found
        pixels = np.ascontiguousarray(sun_colours(found.hours)[::-1])
        rows, columns = found.hours.shape
        self._image = QImage(pixels.data, columns, rows, columns * 4, QImage.Format.Format_RGBA8888).copy()
        self._camera.viewport().update()

    def wait(self) -> None:
        """Stop what runs, and wait until it has stopped (the window closes)."""
        self._later.stop()
        self._jobs.stop()

    def hours_at(self, place: tuple[float, float]) -> float | None:
        """Hours of the map at a place of the plan; None where none is shown. [h]"""
        return self.map.at(*place) if self.map is not None and self.map_shown else None

    # -- painting ---------------------------------------------------------------------------

    def paint(self, painter: QPainter) -> None:
        """Draw map and shadows over the items, in pixels of the viewport."""
        if self.map_shown and self._image is not None and self.map is not None:
            self._paint_map(painter, self.map, self._image)
        if self.shadow_shown:
            self.shadows.paint(painter, self._camera)

    def _paint_map(self, painter: QPainter, found: LightMap, image: QImage) -> None:
        corner = self._camera.to_view((found.left, found.low + found.hours.shape[0] * found.cell))
        scale = found.cell * self._camera.pixels_per_metre
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, found.finished)
        painter.drawImage(
            QRectF(corner, corner + QPointF(image.width() * scale, image.height() * scale)), image
        )

    def paint_legend(self, painter: QPainter) -> None:
        """The map's scale in hours, and the moment of the shadows, at the lower right."""
        area, look = self._camera.area, self._camera.look.now
        painter.setFont(letters(9))
        top = area.bottom() - 34
        if self.shadow_shown:
            moment = self.document.moment
            words = say("shadows of {day}, {time}", day=day_words(moment.date()), time=f"{moment:%H:%M}")
            width = QFontMetricsF(painter.font()).horizontalAdvance(words) + 16
            place = QRectF(area.right() - width - 14, top, width, 22)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.chip)
            painter.drawRoundedRect(place, 4, 4)
            painter.setPen(look.ink)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)
            top -= 30
        if self.map_shown and self.map is not None:
            whole_year = self.over_span or self.document.day is None
            words = (
                say("hours of direct sun a day, mean of the year")
                if whole_year
                else say("hours of direct sun on this day")
            )
            paint_light_scale(painter, area.right(), top, words, look)
