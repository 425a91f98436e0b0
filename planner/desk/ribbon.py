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
from planner.errors import BedwrightError
from planner.garden import Garden, Planting, edits
from planner.light import day_of_sun
from planner.light.days import DayOfSun
from planner.season.days import Dated, Dates
from planner.season.spans import Span

#: Height of the months' line, and of a bar's row. [pixels]
HEAD, ROW = 24, 19
#: Room for the names at the left. [pixels]
NAMES = 190
#: Height of the hours' strip. [pixels]
HOURS = 26
#: How near the end of a bar takes hold of it. [pixels]
GRIP = 5.0
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Line:
    """One row of the ribbon: a planting, or the name of a bed."""

    text: str
    planting: Planting | None = None
    family: str = ""


@dataclass
class _Hold:
    """A bar in the hand."""

    key: str
    part: str
    x: float
    span: Span
    going: bool = False


#: What is said of where a date comes from.
MARKS = {"worked out": "", "by hand": ", pinned", "done": ", done"}

_STEPS = (
    ("sow", "sow"),
    ("prick_out", "prick out"),
    ("harden_off", "harden off"),
    ("set_out", "set out"),
    ("thin", "thin"),
    ("first_harvest", "pick from"),
    ("last_harvest", "pick until"),
    ("clear", "clear"),
)


def steps_of(dates: Dates) -> list[tuple[str, Dated]]:
    """The dates of a planting with their words, in order."""
    found = [(words, getattr(dates, name)) for name, words in _STEPS]
    return [(words, dated) for words, dated in found if dated is not None]


def paint_bar(
    painter: QPainter, scale, look, planting: Planting, top: float, height: float, *, chosen: bool = False
) -> None:
    """A planting as a bar over the year: raised indoors, growing, picked, standing.

    ``scale`` has ``document`` and ``x_of(day)``.
    """
    plan = scale.document.plan
    crop = scale.document.catalogue.get(planting.crop)
    family = crop.family if crop else ""
    ink = stamps.family_ink(family, dark=look.dark)
    year, span = plan.span, plan.span_of(planting)

    def rect(first: dt.date, last: dt.date) -> QRectF | None:
        if last < year.first or first > year.last:
            return None
        left, right = scale.x_of(max(first, year.first)), scale.x_of(min(last, year.last) + _DAY)
        return QRectF(left, top + 4, max(right - left, 2.0), height - 8)

    line = stamps.colour(ink.line_rgb)
    whole = rect(span.first, span.last)
    stages = plan.dates(planting).stages()
    for stage in stages:
        bench = rect(stage.first, stage.last)
        if stage.name == "indoors" and bench is not None:
            painter.setPen(QPen(line, 1.0, Qt.PenStyle.DashLine))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(bench.adjusted(0, 2, 0, -2))
    if whole is None:
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(stamps.hatch_brush(family, look.dark, 0.4, 1.0))
    painter.drawRect(whole)
    for stage in stages:
        picked = rect(max(stage.first, span.first), min(stage.last, span.last))
        if stage.name == "picking" and picked is not None:
            painter.setBrush(line)
            painter.drawRect(picked)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(look.accent if chosen else line, 1.8 if chosen else 1.0))
    painter.drawRect(whole)
    painter.setBrush(look.ink)
    painter.setPen(Qt.PenStyle.NoPen)
    for day, side in ((planting.first, -1), (planting.last, 1)):  # a pin on each day given by hand
        if day is not None and year.holds(day):
            x = whole.left() if side < 0 else whole.right()
            painter.drawEllipse(QPointF(x, whole.center().y()), 2.4, 2.4)


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
        self._hold: _Hold | None = None
        self._hours = False
        self._turning = False
        self._sun_key: tuple[object, ...] = ()
        self._sun: DayOfSun | None = None
        document.garden_settled.connect(self.follow)
        document.selection_changed.connect(self.follow)
        document.year_changed.connect(self.follow)
        document.day_changed.connect(self.update)
        document.hour_changed.connect(self.update)
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

    def show_hours(self, shown: bool) -> None:
        """Show the hours of the day below the year, with a handle of their own."""
        self._hours = shown
        self.update()

    def _x_of_hour(self, hour: float) -> float:
        return NAMES + hour / 24 * self._breadth()

    def _over_hours(self, position: QPointF) -> bool:
        return self._hours and position.y() >= self.height() - HOURS and position.x() >= NAMES - 10

    def _turn_to(self, x: float) -> None:
        hour = (x - NAMES) / self._breadth() * 24
        self.document.show_hour(round(hour * 12) / 12)

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
        if self._over_hours(position):
            self._turning = True
            self._turn_to(position.x())
            return
        line = self._line_at(position.y())
        if position.x() < NAMES and position.y() > HEAD:
            if line is not None and line.planting is not None:
                self.document.select((line.planting.id,))
            return
        if position.x() < NAMES:
            return
        part = self._part_at(position)
        if part and line is not None and line.planting is not None:
            self._hold = _Hold(
                line.planting.id, part, position.x(), self.document.plan.span_of(line.planting)
            )
            self.setFocus()
            return
        self._dragging = True
        self.document.show_day(self.day_at(position.x()))

    def _line_at(self, y: float) -> Line | None:
        index = int((y - HEAD + self._top) // ROW)
        return self._lines[index] if y >= HEAD and 0 <= index < len(self._lines) else None

    def _part_at(self, position: QPointF) -> str:
        """The part of a bar at a place: its ``start``, ``end``, ``middle``; empty for none."""
        line = self._line_at(position.y())
        if line is None or line.planting is None:
            return ""
        span, year = self.document.plan.span_of(line.planting), self.document.plan.span
        left, right = self.x_of(max(span.first, year.first)), self.x_of(min(span.last, year.last) + _DAY)
        x = position.x()
        if not left - GRIP <= x <= right + GRIP:
            return ""
        # A short bar is all middle but for what lies beyond its ends.
        grip = GRIP if right - left > 4 * GRIP else 0.0
        if x <= left + grip:
            return "start" if span.first >= year.first else "middle"
        if x >= right - grip:
            return "end" if span.last <= year.last else "middle"
        return "middle"

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        position = event.position()
        if self._turning:
            self._turn_to(position.x())
            return
        if self._hold is not None:
            hold = self._hold
            if abs(position.x() - hold.x) > 3 or hold.going:
                hold.going = True
                self.document.preview(lambda garden: self._pinned(garden, hold, position.x()))
                self.follow()
            return
        if self._dragging:
            self.document.show_day(self.day_at(position.x()))
            return
        part = self._part_at(position)
        shapes = {"start": Qt.CursorShape.SizeHorCursor, "end": Qt.CursorShape.SizeHorCursor}
        self.setCursor(
            shapes.get(part, Qt.CursorShape.OpenHandCursor if part else Qt.CursorShape.ArrowCursor)
        )
        line = self._line_at(position.y())
        self.setToolTip(self._tip(line.planting) if line is not None and line.planting is not None else "")

    def _tip(self, planting: Planting) -> str:
        plan = self.document.plan
        span, dates = plan.span_of(planting), plan.dates(planting)
        lines = [f"{words} {dated.day:%d %b %Y}{MARKS[dated.origin]}" for words, dated in steps_of(dates)]
        head = f"On its plot from {span.first:%d %b %Y} to {span.last:%d %b %Y}"
        return "\n".join([head, *lines, "Drag the bar or its ends to pin its days"])

    def _pinned(self, garden: Garden, hold: _Hold, x: float) -> Garden:
        """The garden with the days that a dragged bar pins."""
        days = round((x - hold.x) / self._breadth() * self.document.plan.span.days)
        planting, span = garden.plantings_by_id[hold.key], hold.span
        by = _DAY * days
        if hold.part == "end":
            return edits.change_planting(garden, hold.key, last=max(span.last + by, span.first + _DAY))
        if hold.part == "start":
            first = min(span.first + by, span.last - _DAY)
            return edits.change_planting(garden, hold.key, first=first)
        fields: dict[str, object] = {"first": span.first + by}
        if planting.last is not None:
            fields["last"] = planting.last + by
        pins = planting.pinned_dates
        moved = {n: d + by for n in type(pins).model_fields if (d := getattr(pins, n)) is not None}
        if moved:
            fields["pinned_dates"] = pins.with_(**moved)
        return edits.change_planting(garden, hold.key, **fields)

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._dragging = self._turning = False
        hold, self._hold = self._hold, None
        if hold is None:
            return
        if not hold.going:
            self.document.select((hold.key,))
            self.document.show_day(self.day_at(event.position().x()))
            return
        words = {"start": "Pin the first day", "end": "Pin the last day", "middle": "Move in the year"}[
            hold.part
        ]
        x = event.position().x()
        self.document.edit(words, lambda garden: self._pinned(garden, hold, x))

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        self._top = min(max(0, self._top - event.angleDelta().y() // 3), self._most_top())
        self.update()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        document = self.document
        if event.key() == Qt.Key.Key_Escape and self._hold is not None:
            self._hold = None
            document.put_back()
            self.follow()
            return
        day = document.day or document.plan.span.first
        if self._hours and event.modifiers() & Qt.KeyboardModifier.AltModifier:
            turn = {Qt.Key.Key_Left: -0.25, Qt.Key.Key_Right: 0.25}.get(Qt.Key(event.key()))
            if turn is not None:
                document.show_hour(document.hour + turn)
                return
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
