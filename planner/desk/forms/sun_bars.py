"""Direct sun of a bed or planting: hours on the day, over the months, and what shades it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from PySide6.QtCore import QRectF, Qt, QTimer
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QShowEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.light import AreaSunHours
from planner.plan.sun_year import SunYear, sun_year
from planner.words import day_words, month_words, number_words, say, short_number

#: Hours at the full height of a bar. [h]
FULL = 16.0
#: Wait before the sun is measured, so that a running gesture does not start it at every move. [ms]
DELAY = 150
#: Sources of less shade are not named. [h]
LEAST_SHADE = 0.05


class SunBars(QWidget):
    """A few lines on the direct sun of one bed or planting, and a bar for each month.

    The hours are measured in the background, on a plan of their own.
    """

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.sun: SunYear | None = None
        self._key = ""
        self._measured: tuple[object, ...] = ()
        self._jobs = JobQueue(self)
        self.words = QLabel()
        self.words.setTextFormat(Qt.TextFormat.PlainText)
        self.words.setWordWrap(True)
        self.bars = _Bars()
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        column.addWidget(self.words)
        column.addWidget(self.bars)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(DELAY)
        self._timer.timeout.connect(self._measure)
        document.day_changed.connect(lambda: self.show_thing(self._key))

    def show_thing(self, key: str) -> None:
        """Show another bed or planting, by its id; its hours follow in a moment."""
        self._key = key
        self._jobs.cancel()
        if self.sun is not None and self.sun.key != key:
            self.sun = None
            self.words.setText("…")
            self.bars.show_months((), self.document.plan.span.first)
        if key and self.isVisible():
            self._timer.start()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.show_thing(self._key)

    def _measure(self) -> None:
        plan, garden = self.document.plan, self.document.garden
        thing = garden.beds_by_id.get(self._key) or garden.plantings_by_id.get(self._key)
        day = self.document.moment.date()
        if thing is None:
            return
        inputs = (plan, thing, day)
        if inputs == self._measured and self.sun is not None and self.sun.key == thing.id:
            return
        self._measured = inputs
        try:
            _ = plan.place
        except BedwrightError as error:
            self._show(SunYear(thing.id), str(error))
            return
        own_plan = plan.after(garden)

        def work(cancelled: Cancelled) -> Iterator[SunYear]:
            found = sun_year(own_plan, thing, day, cancelled)
            if found is not None:
                yield found

        self._jobs.start(work, lambda sun: self._show(sun, self._words(sun)))

    def _show(self, sun: SunYear, words: str) -> None:
        self.sun = sun
        self.words.setText(words)
        self.bars.setAccessibleDescription(
            ", ".join(
                say("{month} {hours} hours", month=month_words(day.month), hours=number_words(light.mean, 1))
                for day, light in sun.months
            )
        )
        self.bars.setVisible(bool(sun.months))
        self.bars.show_months(sun.months, self.document.plan.span.first)

    def _words(self, sun: SunYear) -> str:
        lines = []
        if sun.on_day is not None:
            light = sun.on_day
            lines.append(
                say(
                    "{hours} h of direct sun on {day} ({least} to {best}; {unshaded} unshaded)",
                    hours=number_words(light.mean, 1),
                    day=day_words(self.document.moment),
                    least=number_words(light.least, 1),
                    best=number_words(light.best, 1),
                    unshaded=number_words(light.unshaded, 1),
                )
            )
        if sun.over_span is not None:
            planting = self.document.garden.plantings_by_id.get(sun.key)
            need = self.document.plan.figures_of(planting).number("sun_hours") if planting else None
            hours = number_words(sun.over_span.mean, 1)
            lines.append(
                say(
                    "{hours} h a day over its days; it wants {wanted} h",
                    hours=hours,
                    wanted=short_number(need),
                )
                if need
                else say("{hours} h a day over its days", hours=hours)
            )
        sources = [
            say("{name} {hours} h", name=shade.name, hours=number_words(shade.hours, 1))
            for shade in sun.sources
            if shade.hours >= LEAST_SHADE
        ]
        if sources:
            lines.append(say("Taken by {sources}", sources=", ".join(sources)))
        return "\n".join(lines)


class _Bars(QWidget):
    """A bar for each month of the growing year: hours of direct sun, before those without any shade."""

    def __init__(self) -> None:
        super().__init__()
        self._months: tuple[tuple[dt.date, AreaSunHours], ...] = ()
        self._begins = dt.date.min
        self.setFixedHeight(62)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(say("Hours of direct sun by month"))

    def show_months(self, months: tuple[tuple[dt.date, AreaSunHours], ...], begins: dt.date) -> None:
        """Show a day of each month, of a growing year that begins on a day."""
        self._months, self._begins = months, begins
        self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        if not self._months:
            return
        painter = QPainter(self)
        painter.setFont(letters(9))
        for day, light in self._months:
            column = ((day.year - self._begins.year) * 12 + day.month - self._begins.month) % 12
            self._paint_month(painter, column * self.width() / 12, day, light)
        painter.end()

    def _paint_month(self, painter: QPainter, x: float, day: dt.date, light: AreaSunHours) -> None:
        palette = self.palette()
        width, height = self.width() / 12, self.height() - 17.0
        for hours, brush in ((light.unshaded, palette.mid()), (light.mean, palette.highlight())):
            high = min(hours / FULL, 1.0) * (height - 12)
            painter.fillRect(QRectF(x + 3, height - high, width - 6, high), brush)
        painter.setPen(QPen(palette.windowText().color(), 1))
        top = height - min(light.unshaded / FULL, 1.0) * (height - 12)
        painter.drawText(QRectF(x, top - 15, width, 14), Qt.AlignmentFlag.AlignCenter, f"{light.mean:.0f}")
        painter.drawText(
            QRectF(x, height + 1, width, 15), Qt.AlignmentFlag.AlignCenter, month_words(day.month)[:1]
        )
