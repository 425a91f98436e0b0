"""The year below the sheet: plantings as bars, frost as bands, and the day that is shown."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk import stamps
from planner.desk.document import Document
from planner.desk.look import LookSwitch, letters
from planner.garden import Planting

#: Height of the months' line, and of a bar's row. [pixels]
HEAD, ROW = 24, 19
#: Room for the names at the left. [pixels]
NAMES = 190
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Line:
    """One row of the ribbon: a planting, or the name of a bed."""

    text: str
    planting: Planting | None = None
    family: str = ""


class Ribbon(QWidget):
    """Shows the growing year of the selected beds, or of all; a day can be dragged along it."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.setAccessibleName("Year")
        self.setAccessibleDescription(
            "Left and Right move the day shown; Home and End go to the ends of the year"
        )
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumHeight(HEAD + 3 * ROW)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._top = 0
        self._dragging = False
        self._lines: list[Line] = []
        document.garden_settled.connect(self.follow)
        document.selection_changed.connect(self.follow)
        document.year_changed.connect(self.follow)
        document.day_changed.connect(self.update)
        look.changed.connect(self.update)
        self.follow()

    # -- what is shown ----------------------------------------------------------------------

    def follow(self) -> None:
        """Bring the rows in step with the document."""
        plan, document = self.document.plan, self.document
        chosen = set(document.selected_beds)
        chosen |= {document.garden.plantings_by_id[k].bed for k in document.selected_plantings}
        self._lines = []
        for bed in plan.beds:
            if chosen and bed.id not in chosen:
                continue
            plantings = sorted(plan.in_bed(bed), key=lambda p: (plan.span_of(p).first, plan.span_of(p).last))
            for i, planting in enumerate(plantings):
                crop = document.catalogue.get(planting.crop)
                name = crop.name if crop else planting.crop
                head = bed.name if i == 0 else ""
                self._lines.append(Line(f"{head}\n{name}", planting, crop.family if crop else ""))
        self._top = min(self._top, self._most_top())
        self.update()

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

    # -- hand -------------------------------------------------------------------------------

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            return
        position = event.position()
        line = self._line_at(position.y())
        if position.x() < NAMES and position.y() > HEAD:
            if line is not None and line.planting is not None:
                self.document.select((line.planting.id,))
            return
        if position.x() >= NAMES:
            self._dragging = True
            self.document.show_day(self.day_at(position.x()))

    def _line_at(self, y: float) -> Line | None:
        index = int((y - HEAD + self._top) // ROW)
        return self._lines[index] if y >= HEAD and 0 <= index < len(self._lines) else None

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragging:
            self.document.show_day(self.day_at(event.position().x()))
            return
        line = self._line_at(event.position().y())
        if line is not None and line.planting is not None:
            span = self.document.plan.span_of(line.planting)
            name = line.text.split("\n")[1]
            self.setToolTip(f"{name}: {span.first:%d %b %Y} to {span.last:%d %b %Y}")
        else:
            self.setToolTip("")

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._dragging = False

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        self._top = min(max(0, self._top - event.angleDelta().y() // 3), self._most_top())
        self.update()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        document = self.document
        day = document.day or document.plan.span.first
        week = 7 if event.modifiers() & Qt.KeyboardModifier.ControlModifier else 1
        steps = {
            Qt.Key.Key_Left: -week,
            Qt.Key.Key_Right: week,
            Qt.Key.Key_PageUp: -30,
            Qt.Key.Key_PageDown: 30,
        }
        key = Qt.Key(event.key())
        if key in steps:
            document.show_day(day + _DAY * steps[key])
        elif key == Qt.Key.Key_Home:
            document.show_day(document.plan.span.first)
        elif key == Qt.Key.Key_End:
            document.show_day(document.plan.span.last)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._top = min(max(0, self._top + (ROW if key == Qt.Key.Key_Down else -ROW)), self._most_top())
            self.update()
        else:
            super().keyPressEvent(event)

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
        span, year = self.document.plan.span_of(planting), self.document.plan.span
        left, right = self.x_of(max(span.first, year.first)), self.x_of(min(span.last, year.last) + _DAY)
        ink = stamps.family_ink(line.family, dark=look.dark)
        bar = QRectF(left, top + 4, max(right - left, 2), ROW - 8)
        painter.setPen(QPen(look.accent if chosen else stamps.colour(ink.line_rgb), 1.8 if chosen else 1.0))
        painter.setBrush(stamps.colour(ink.tint_rgb))
        painter.drawRect(bar)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(stamps.hatch_brush(line.family, look.dark, 0.5))
        painter.drawRect(bar)

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
