"""The year below the sheet: plantings as bars that can be dragged, and the day that is shown."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy
from typing_extensions import override

from planner.desk.canvas.planting_bar import MARKS, steps_of
from planner.desk.model.document import Document
from planner.desk.panels.ribbon_drawing import HEAD, HOURS, NAMES, ROW, Line, RibbonSheet
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden, Planting, edits
from planner.season.spans import Span

#: How near the end of a bar takes hold of it. [pixels]
GRIP = 5.0
_DAY = dt.timedelta(days=1)


@dataclass
class _Hold:
    """A bar in the hand."""

    key: str
    part: str
    x: float
    span: Span
    going: bool = False


class Ribbon(RibbonSheet):
    """Shows the growing year of the selected beds, or of all; a day can be dragged along it."""

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__(document, look)
        self.setAccessibleName("Year")
        self.setAccessibleDescription(
            "Left and Right move the day shown; Home and End go to the ends of the year"
        )
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumHeight(HEAD + 3 * ROW)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._dragging = False
        self._hold: _Hold | None = None
        self._turning = False
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

    def _over_hours(self, position: QPointF) -> bool:
        return self._hours and position.y() >= self.height() - HOURS and position.x() >= NAMES - 10

    def _turn_to(self, x: float) -> None:
        hour = (x - NAMES) / self._breadth() * 24
        self.document.show_hour(round(hour * 12) / 12)

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
            document.cancel_preview()
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
