"""The ribbon as it is drawn: months, frost as bands, bars, the hours of the day and the day shown."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas.planting_bar import paint_bar
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch, letters
from planner.errors import BedwrightError
from planner.garden import Planting
from planner.light import day_of_sun
from planner.light.day_of_sun import DayOfSun

#: Height of the months' line, and of a bar's row. [pixels]
HEAD, ROW = 24, 19
#: Room for the names at the left. [pixels]
NAMES = 190
#: Height of the hours' strip. [pixels]
HOURS = 26
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Line:
    """One row of the ribbon: a planting, or the name of a bed."""

    text: str
    planting: Planting | None = None
    family: str = ""


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

    def _x_of_hour(self, hour: float) -> float:
        return NAMES + hour / 24 * self._breadth()

    def _most_top(self) -> int:
        return max(0, len(self._lines) * ROW - (self.height() - HEAD - 6))

    def x_of(self, day: dt.date) -> float:
        """Place of a day's beginning. [pixels]"""
        span = self.document.plan.span
        return NAMES + (day - span.first).days / span.days * self._breadth()

    def _breadth(self) -> float:
        return max(self.width() - NAMES - 14, 60)

    def day_at(self, x: float) -> dt.date:
        """The day at a place. [pixels]"""
        span = self.document.plan.span
        days = int((x - NAMES) / self._breadth() * span.days)
        return span.first + _DAY * min(max(days, 0), span.days - 1)

    # -- painting ---------------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look = self.look.now
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.panel)
        self._paint_frost(painter)
        self._paint_months(painter)
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
            painter.drawText(QPointF(12, HEAD + 16), "Nothing is planted here this year")
        self._paint_day(painter)
        if self._hours:
            self._paint_hours(painter)
        painter.end()

    def _paint_months(self, painter: QPainter) -> None:
        look, span = self.look.now, self.document.plan.span
        painter.setFont(letters(9))
        day = span.first
        while day <= span.last:
            x = round(self.x_of(day)) + 0.5
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x, 4), QPointF(x, self.height()))
            painter.setPen(look.pencil)
            painter.drawText(QPointF(x + 4, 16), f"{day:%b}")
            day = (day.replace(day=1) + _DAY * 32).replace(day=1)

    def _paint_frost(self, painter: QPainter) -> None:
        """Bands from where frost is likely to where it is not, by risk."""
        plan = self.document.plan
        climate, look = plan.garden.climate, self.look.now
        for dates, spring in ((climate.last_frost, True), (climate.first_frost, False)):
            if dates is None:
                continue
            days = [self._in_year(text) for text in (dates.risk_10, dates.risk_50, dates.risk_90)]
            for day in days:
                if day is None:
                    continue
                shade = QColor(look.glass)
                shade.setAlphaF(0.13)
                x = self.x_of(day)
                rect = (
                    QRectF(self._from(day, spring), HEAD - 2, x - self._from(day, spring), self.height())
                    if spring
                    else QRectF(x, HEAD - 2, self._from(day, spring) - x, self.height())
                )
                painter.fillRect(rect, shade)

    def _from(self, day: dt.date, spring: bool) -> float:
        """Where the cold half begins or ends: the year's end, or midway between the frosts."""
        span = self.document.plan.span
        edge = day - _DAY * 120 if spring else day + _DAY * 120
        return self.x_of(min(max(edge, span.first), span.last + _DAY))

    def _in_year(self, text: str) -> dt.date | None:
        span = self.document.plan.span
        month, number = int(text[:2]), int(text[3:])
        for year in (span.first.year, span.last.year):
            try:
                day = dt.date(year, month, number)
            except ValueError:  # 29 February in a common year
                day = dt.date(year, 3, 1)
            if span.holds(day):
                return day
        return None

    def _paint_line(self, painter: QPainter, line: Line, top: float) -> None:
        look, planting = self.look.now, line.planting
        head, _, name = line.text.partition("\n")
        chosen = planting is not None and planting.id in self.document.selection
        painter.setFont(letters(9, bold=bool(head)))
        painter.setPen(look.ink)
        metrics = QFontMetricsF(painter.font())
        shown = metrics.elidedText(head, Qt.TextElideMode.ElideRight, 84)
        painter.drawText(QPointF(10, top + 14), shown)
        painter.setFont(letters(9, bold=chosen))
        painter.setPen(look.accent if chosen else look.ink)
        metrics = QFontMetricsF(painter.font())
        painter.drawText(
            QPointF(98, top + 14), metrics.elidedText(name, Qt.TextElideMode.ElideRight, NAMES - 104)
        )
        if planting is None:
            return
        paint_bar(painter, self, look, planting, top, ROW, chosen=chosen)

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
        look, document = self.look.now, self.document
        top = self.height() - HOURS
        painter.fillRect(QRectF(0, top, self.width(), HOURS), look.panel)
        night = QColor(look.glass)
        night.setAlphaF(0.35)
        painter.fillRect(QRectF(NAMES, top + 3, self._breadth(), HOURS - 6), night)
        moment = document.moment
        words = "hour"
        sun = self._sun_of(moment.date())
        if sun is not None and sun.sunrise is not None and sun.sunset is not None:
            begin, end = (t.hour + t.minute / 60 for t in (sun.sunrise, sun.sunset))
            rect = QRectF(
                self._x_of_hour(begin), top + 3, self._x_of_hour(end) - self._x_of_hour(begin), HOURS - 6
            )
            if end > begin:
                painter.fillRect(rect, look.field)
            words = f"sun {sun.sunrise:%H:%M} to {sun.sunset:%H:%M}"
        elif sun is not None:
            words = "the sun does not set" if sun.length > 12 else "the sun does not rise"
        painter.setFont(letters(9))
        painter.setPen(look.ink)
        painter.drawText(QPointF(10, top + 17), words)
        for hour in range(0, 25, 2):
            x = round(self._x_of_hour(hour)) + 0.5
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(x, top + 3), QPointF(x, top + HOURS - 3))
            painter.setPen(look.pencil)
            if hour < 24:
                painter.drawText(QPointF(x + 3, top + 17), f"{hour}")
        x = self._x_of_hour(document.hour)
        text = f"{moment:%H:%M}"
        painter.setFont(letters(9, bold=True))
        width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 14
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.accent)
        painter.drawRoundedRect(QRectF(x - width / 2, top + 3, width, HOURS - 6), 3, 3)
        painter.setPen(QColor("#ffffff") if not look.dark else QColor("#101010"))
        painter.drawText(QRectF(x - width / 2, top + 3, width, HOURS - 6), Qt.AlignmentFlag.AlignCenter, text)

    def _paint_day(self, painter: QPainter) -> None:
        day, look = self.document.day, self.look.now
        if day is None:
            return
        x = self.x_of(day) + self._breadth() / self.document.plan.span.days / 2
        painter.setPen(QPen(look.accent, 1.6))
        painter.drawLine(QPointF(x, 14), QPointF(x, self.height()))
        text = f"{day.day} {day:%b}"
        painter.setFont(letters(9, bold=True))
        width = QFontMetricsF(painter.font()).horizontalAdvance(text) + 14
        left = min(max(x - width / 2, NAMES - 10), self.width() - width - 2)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.accent)
        painter.drawRoundedRect(QRectF(left, 2, width, 18), 3, 3)
        painter.drawPolygon(QPolygonF([QPointF(x - 4, 20), QPointF(x + 4, 20), QPointF(x, 25)]))
        painter.setPen(QColor("#ffffff") if not look.dark else QColor("#101010"))
        painter.drawText(QRectF(left, 2, width, 18), Qt.AlignmentFlag.AlignCenter, text)
