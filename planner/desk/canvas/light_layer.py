"""Light over the sheet: the shadows of an hour, and a map of the hours of direct sun."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import numpy as np
import shapely
from PySide6.QtCore import QObject, QPointF, QRectF, QRunnable, Qt, QThreadPool, QTimer, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter, QPen

from planner.desk.canvas import transform
from planner.desk.theme.palette import Look, letters
from planner.errors import BedwrightError
from planner.light import LightMap, beam_at, garden_extent, light_maps, on_day, sample_days, shadows
from planner.light.beams import LEAST_ALTITUDE

if TYPE_CHECKING:
    from planner.desk.main_window.sheet_view import SheetView

#: Ends and middle of the map's colours, dark for shade: they differ in lightness first, so that
#: eyes that do not tell hues apart read them too.
RAMP = ((0.0, (46, 52, 92)), (0.35, (97, 110, 141)), (0.7, (214, 178, 102)), (1.0, (255, 240, 170)))
#: Hours at the bright end of the scale.
FULL = 10.0
#: Thinner shadows (a bare stake's, a wire's) are not drawn.
FAINT = 0.12


def ramp(hours: np.ndarray) -> np.ndarray:
    """Colours (..., 4) of uint8, red green blue and opacity, for hours of sun."""
    share = np.clip(hours / FULL, 0, 1)
    stops = np.array([stop for stop, _ in RAMP])
    found = np.empty((*hours.shape, 4), np.uint8)
    for channel in range(3):
        values = np.array([rgb[channel] for _, rgb in RAMP], float)
        found[..., channel] = np.interp(share, stops, values).round()
    found[..., 3] = 165
    return found


class _Job(QRunnable):
    """Works a map out beside the window; what it needs of the plan was taken from it before."""

    def __init__(self, layer: LightLayer, number: int, work) -> None:
        super().__init__()
        self.layer, self.number, self.work = layer, number, work
        self.stop = threading.Event()

    def run(self) -> None:
        """Give each map back as it comes, rough ones first."""
        try:
            for found in self.work(self.stop.is_set):
                if self.stop.is_set():
                    return
                self.layer.arrived.emit(self.number, found)
        except RuntimeError:  # the window went while the map was made
            return


class LightLayer(QObject):
    """Shadows and map of one view, brought in step with plan, day and hour.

    Signals
    -------
    arrived : int, object
        A map from the worker, with the number of its job.
    said : str
        Why there is nothing to show.
    """

    arrived = Signal(int, object)
    said = Signal(str)

    def __init__(self, view: SheetView) -> None:
        super().__init__(view)
        self.view, self.document = view, view.document
        self.shadow_shown = self.map_shown = False
        self.over_span = False
        self.map: LightMap | None = None
        self._image: QImage | None = None
        self._job: _Job | None = None
        self._number = 0
        self._shadow_key: tuple[object, ...] = ()
        self._shadow: list[tuple[float, object]] = []
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(60)
        self._later.timeout.connect(self.work)
        self.arrived.connect(self._take)
        self.document.garden_changed.connect(self.follow)
        self.document.day_changed.connect(self.follow)
        self.document.hour_changed.connect(view.viewport().update)

    def show(
        self, *, shadow: bool | None = None, light_map: bool | None = None, span: bool | None = None
    ) -> None:
        """Switch shadows, the map, or the map's span (the year's growing days instead of the day)."""
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
        self.view.viewport().update()

    def follow(self) -> None:
        """The plan or the day has changed: the map is made again, a moment later."""
        if self._job is not None:
            self._job.stop.set()
            self._job = None
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
        # Everything of the plan is asked for here: the worker gets plain values.
        casters = {each: plan.casters(each) for each, _ in days}
        surfaces = [plan.ground_of(bed) for bed in plan.beds]
        self._number += 1
        job = _Job(
            self,
            self._number,
            lambda cancelled: light_maps(
                extent, place, days, casters.__getitem__, surfaces, cancelled=cancelled
            ),
        )
        self._job = job
        QThreadPool.globalInstance().start(job)

    def _take(self, number: int, found: LightMap) -> None:
        if number != self._number or not self.map_shown:
            return
        self.map = found
        pixels = np.ascontiguousarray(ramp(found.hours)[::-1])
        rows, columns = found.hours.shape
        self._image = QImage(pixels.data, columns, rows, columns * 4, QImage.Format.Format_RGBA8888).copy()
        if found.finished:
            self._job = None
        self.view.viewport().update()

    def wait(self) -> None:
        """Stop what runs, and wait until it has stopped (the window closes)."""
        self._later.stop()
        if self._job is not None:
            self._job.stop.set()
        QThreadPool.globalInstance().waitForDone(3000)

    def hours_at(self, place: tuple[float, float]) -> float | None:
        """Hours of the map at a place; None where none is shown."""
        return self.map.at(*place) if self.map is not None and self.map_shown else None

    # -- painting ---------------------------------------------------------------------------

    def paint(self, painter: QPainter) -> None:
        """Draw map and shadows over the items, in pixels of the viewport."""
        if self.map_shown and self._image is not None and self.map is not None:
            found, image = self.map, self._image
            top = found.low + found.hours.shape[0] * found.cell
            corner = self.view.to_view((found.left, top))
            scale = found.cell * self.view.pixels_per_metre
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform, found.finished)
            painter.drawImage(
                QRectF(corner, corner + QPointF(image.width() * scale, image.height() * scale)), image
            )
        if self.shadow_shown:
            self._paint_shadows(painter)

    def _paint_shadows(self, painter: QPainter) -> None:
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # its edge is soft outdoors too
        for opacity, path in self._shadows():
            # On a dark sheet a shadow is a cool veil: black on black would not be seen.
            shade = QColor(120, 150, 235) if self.view.look.now.dark else QColor(20, 24, 40)
            shade.setAlphaF(0.08 + 0.22 * opacity)
            painter.fillPath(self.view.viewportTransform().map(path), shade)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)

    def _shadows(self) -> list[tuple[float, object]]:
        """Shadows of the moment as paths of the scene, those of one density together."""
        plan, moment = self.document.plan, self.document.moment
        key = (plan, moment)
        if key == self._shadow_key:
            return self._shadow
        self._shadow_key, self._shadow = key, []
        try:
            beam = beam_at(plan.place, moment)
        except BedwrightError:
            return self._shadow
        if not len(beam.hours) or beam.altitude[0] < LEAST_ALTITUDE:
            return self._shadow
        cast = [
            (caster, shape)
            for caster, shape in shadows(plan.casters(moment.date()), beam)
            if caster.opacity >= FAINT
        ]
        if not cast:
            return self._shadow
        # What casts is not darkened itself: its leaves or roof are in the light.
        fallen = shapely.difference([shape for _, shape in cast], [caster.shape for caster, _ in cast])
        # Three densities are told apart; more would not be seen, and each costs a frame.
        density = np.array([max(1, round(caster.opacity * 3)) / 3 for caster, _ in cast])
        for opacity in np.unique(density):
            shape = shapely.simplify(shapely.union_all(fallen[density == opacity]), 0.01)
            self._shadow.append((float(opacity), transform.path(shape)))
        return self._shadow

    def paint_legend(self, painter: QPainter, look: Look) -> None:
        """The map's scale in hours, and the moment of the shadows, at the lower right."""
        rect = QRectF(self.view.viewport().rect())
        painter.setFont(letters(9))
        metrics = QFontMetricsF(painter.font())
        top = rect.bottom() - 34
        if self.shadow_shown:
            words = f"shadows of {self.document.moment:%d %b, %H:%M}"
            width = metrics.horizontalAdvance(words) + 16
            place = QRectF(rect.right() - width - 14, top, width, 22)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.chip)
            painter.drawRoundedRect(place, 4, 4)
            painter.setPen(look.ink)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, words)
            top -= 30
        if not self.map_shown or self.map is None:
            return
        width = 200.0
        place = QRectF(rect.right() - width - 34, top - 24, width + 20, 48)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRoundedRect(place, 4, 4)
        left = place.left() + 10
        steps = ramp(np.linspace(0, FULL, 11))
        for i in range(10):
            painter.fillRect(
                QRectF(left + i * width / 10, place.top() + 18, width / 10, 10),
                QColor(*steps[i + 1][:3].tolist()),
            )
        painter.setPen(QPen(look.ink, 1))
        span = "a day, mean of the year" if self.over_span or self.document.day is None else "on this day"
        painter.drawText(QPointF(left, place.top() + 13), f"hours of direct sun {span}")
        for hours in (0, 2, 4, 6, 8, 10):
            text = f"{hours}" if hours < FULL else f"{hours}+"
            painter.drawText(QPointF(left + hours / FULL * width - 4, place.top() + 42), text)
