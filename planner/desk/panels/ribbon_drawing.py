"""The ribbon as it is drawn: months, frost as bands, bars, the hours of the day and the day shown."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas.planting_bar import paint_bar
from planner.desk.canvas.year_axis import YearAxis, paint_frost, paint_months
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch, letters
from planner.errors import BedwrightError
from planner.garden import Planting
from planner.light import day_of_sun
from planner.light.day_of_sun import DayOfSun
from planner.words import day_words, say

#: Height of the months' line, and of a bar's row. [pixels]
HEAD, ROW = 24, 19
#: Room for the names at the left, and its greatest share of the width. [pixels]
NAMES, NAMES_SHARE = 226, 0.38
#: Share of the names' room for those of beds, and where those of plantings begin.
_BED_NAMES, _PLANTING_NAMES = 0.37, 0.434
#: Height of the hours' strip. [pixels]
HOURS = 26
#: Height of the marks that the day and the hour shown are written on. [pixels]
MARK = 18
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Line:
    """One row of the ribbon.

    Attributes
    ----------
    bed, crop : str
        Names as shown; that of the bed is empty but for its first planting.
    planting : Planting
    """

    bed: str
    crop: str
    planting: Planting


class RibbonSheet(QWidget):
    """Rows of plantings over the growing year, drawn to the scale of its days."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self._top = 0
        self._lines: list[Line] = []
        self._hours = False
        self._sun_key: tuple[object, ...] = ()
        self._sun: DayOfSun | None = None

    # -- scale ------------------------------------------------------------------------------

    @property
    def names(self) -> float:
        """Room for the names at the left. [pixels]"""
        return min(NAMES, NAMES_SHARE * self.width())

    def _x_of_hour(self, hour: float) -> float:
        return self.names + hour / 24 * self._breadth()

    def _most_top(self) -> int:
        return max(0, len(self._lines) * ROW - (self.height() - HEAD - 6))

    def x_of(self, day: dt.date) -> float:
        """Where a day begins. [pixels]"""
        return self._axis().x_of(day)

    def _breadth(self) -> float:
        return max(self.width() - self.names - 14, 60)

    def _axis(self) -> YearAxis:
        return YearAxis(self.document.plan.span, self.names, self._breadth())

    def day_at(self, x: float) -> dt.date:
        """The day at a place. [pixels]"""
        return self._axis().day_at(x)

    # -- painting ---------------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look = self.look.now
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.panel)
        self._paint_frost(painter)
        paint_months(painter, self._axis(), look, 4, self.height(), (4, 16))
        painter.save()
        painter.setClipRect(QRectF(0, HEAD, self.width(), self.height() - HEAD))
        for index, line in enumerate(self._lines):
            top = HEAD + index * ROW - self._top
            if HEAD - ROW <= top <= self.height():
                self._paint_line(painter, line, top)
        painter.restore()
        if not self._lines:
            painter.setPen(look.pencil)
            painter.setFont(letters(9))
            painter.drawText(QPointF(12, HEAD + 16), say("Nothing is planted here this year"))
        self._paint_day(painter)
        if self._hours:
            self._paint_hours(painter)
        painter.end()

    def _paint_frost(self, painter: QPainter) -> None:
        paint_frost(painter, self._axis(), self.document.plan, self.look.now, HEAD - 2, self.height())

    def _paint_line(self, painter: QPainter, line: Line, top: float) -> None:
        look = self.look.now
        chosen = line.planting.id in self.document.selection
        painter.setFont(letters(9, bold=bool(line.bed)))
        painter.setPen(look.ink)
        _write(painter, QPointF(10, top + 14), line.bed, _BED_NAMES * self.names)
        painter.setFont(letters(9, bold=chosen))
        painter.setPen(look.accent if chosen else look.ink)
        at = _PLANTING_NAMES * self.names
        _write(painter, QPointF(at, top + 14), line.crop, self.names - at - 6)
        paint_bar(painter, self, look, line.planting, top, ROW, chosen=chosen)

    def _paint_day(self, painter: QPainter) -> None:
        day, look = self.document.day, self.look.now
        if day is None:
            return
        x = self.x_of(day) + self._breadth() / self.document.plan.span.days / 2
        painter.setPen(QPen(look.accent, 1.6))
        painter.drawLine(QPointF(x, 14), QPointF(x, self.height()))
        text = day_words(day)
        painter.setFont(letters(9, bold=True))
        width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 14
        left = min(max(x - width / 2, self.names - 10), self.width() - width - 2)
        rect = QRectF(left, 2, width, MARK)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.accent)
        painter.drawRoundedRect(rect, 3, 3)
        painter.drawPolygon(QPolygonF([QPointF(x - 4, 20), QPointF(x + 4, 20), QPointF(x, 25)]))
        self._write_on_accent(painter, rect, text)

    def _write_on_accent(self, painter: QPainter, rect: QRectF, text: str) -> None:
        painter.setPen(self.look.now.on_accent)
        painter.drawText(rect, Qt.AlignmentFlag.AlignCenter, text)

    # -- hours ------------------------------------------------------------------------------

    def _sun_of(self, day: dt.date) -> DayOfSun | None:
        """Sunrise and sunset of a day, worked out once for each; None where the place is not known."""
        key = (self.document.garden.site, day)
        if key != self._sun_key:
            self._sun_key = key
            try:
                self._sun = day_of_sun(self.document.plan.place, day)
            except BedwrightError:
                self._sun = None
        return self._sun

    def _paint_hours(self, painter: QPainter) -> None:
        """The hours of the day shown, night darker, with the handle of the hour."""
        look, moment = self.look.now, self.document.moment
        top, height = self.height() - HOURS, HOURS - 6
        painter.fillRect(QRectF(0, top, self.width(), HOURS), look.panel)
        sun = self._sun_of(moment.date())
        self._paint_night(painter, sun, top + 3, height)
        painter.setFont(letters(9))
        painter.setPen(look.ink)
        painter.drawText(QPointF(10, top + 17), _sun_words(sun))
        for hour in range(0, 25, 2):
            x = round(self._x_of_hour(hour)) + 0.5
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x, top + 3), QPointF(x, top + HOURS - 3))
            painter.setPen(look.pencil)
            if hour < 24:
                painter.drawText(QPointF(x + 3, top + 17), f"{hour}")
        self._paint_hour(painter, f"{moment:%H:%M}", top + 3, height)

    def _paint_night(self, painter: QPainter, sun: DayOfSun | None, top: float, height: float) -> None:
        night = QColor(self.look.now.glass)
        night.setAlphaF(0.35)
        painter.fillRect(QRectF(self.names, top, self._breadth(), height), night)
        if sun is None or sun.sunrise is None or sun.sunset is None:
            return
        begin, end = (time.hour + time.minute / 60 for time in (sun.sunrise, sun.sunset))
        if end > begin:
            left, right = self._x_of_hour(begin), self._x_of_hour(end)
            painter.fillRect(QRectF(left, top, right - left, height), self.look.now.field)

    def _paint_hour(self, painter: QPainter, text: str, top: float, height: float) -> None:
        x = self._x_of_hour(self.document.hour)
        painter.setFont(letters(9, bold=True))
        width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 14
        rect = QRectF(x - width / 2, top, width, height)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self.look.now.accent)
        painter.drawRoundedRect(rect, 3, 3)
        self._write_on_accent(painter, rect, text)


def _write(painter: QPainter, at: QPointF, text: str, width: float) -> None:
    """Write a line, elided to a width. [pixels]"""
    shown = QFontMetricsF(painter.font()).elidedText(text, Qt.TextElideMode.ElideRight, width)
    painter.drawText(at, shown)


def _sun_words(sun: DayOfSun | None) -> str:
    if sun is None:
        return say("hour")
    if sun.sunrise is not None and sun.sunset is not None:
        return say("sun {rise} to {set}", rise=f"{sun.sunrise:%H:%M}", set=f"{sun.sunset:%H:%M}")
    return say("the sun does not set") if sun.length > 12 else say("the sun does not rise")
