"""The year below the sheet: plantings as bars that can be dragged, and the day shown."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QAccessible, QKeyEvent, QMouseEvent, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.forms.planting_words import step_lines
from planner.desk.model.document import Document
from planner.desk.model.heard_drawings import HeardPart
from planner.desk.model.per_bed import PerBed
from planner.desk.model.phrases import with_variety
from planner.desk.panels.ribbon_drawing import HEAD, HOURS, ROW, Line, RibbonSheet
from planner.desk.theme.palette import LookSwitch
from planner.desk.theme.plain_tips import plain_tip
from planner.garden import Bed, Garden, Planting, edits
from planner.garden.edits.shifts import ShiftedPart
from planner.listings.odds_line import odds_lines
from planner.plan import Plan
from planner.season.spans import Span
from planner.words import capital, full_day_words, later, say

#: How near the end of a bar a press takes that end. [pixels]
GRIP = 5.0
#: How far the pointer goes before a press on a bar becomes a drag. [pixels]
SLACK = 3.0
#: Steps to which the dragged hour is rounded. [per hour]
HOUR_STEPS = 12
_DAY = dt.timedelta(days=1)
#: Names of the step in the Edit menu.
_STEPS: dict[ShiftedPart, str] = {
    "start": later("Set the first day"),
    "end": later("Set the last day"),
    "all": later("Move in the year"),
}
#: What the arrow and page keys add to the day shown. [days]
_KEY_DAYS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_PageUp: -30, Qt.Key.Key_PageDown: 30}
#: What the arrow keys add to the hour shown, while Alt is held. [h]
_KEY_HOURS = {Qt.Key.Key_Left: -0.25, Qt.Key.Key_Right: 0.25}


@dataclass
class _BarDrag:
    """A bar that was pressed.

    Attributes
    ----------
    key : str
        Id of its planting.
    part : str
        What of it is dragged.
    x : float
        Where it was pressed. [pixels]
    span : Span
        The days it took then.
    moved : bool
        Whether the pointer has moved far enough for a drag.
    """

    key: str
    part: ShiftedPart
    x: float
    span: Span
    moved: bool = False


def _lines_of_bed(plan: Plan, bed: Bed) -> tuple[Line, ...]:
    """The lines of a bed, in the order in which its plantings take their plots."""
    plantings = sorted(plan.in_bed(bed), key=lambda p: (plan.span_of(p).first, plan.span_of(p).last))
    lines = []
    for number, planting in enumerate(plantings):
        name = with_variety(plan.catalogue.name_of(planting.crop), planting.variety)
        lines.append(Line(bed.name if number == 0 else "", name, planting))
    return tuple(lines)


class Ribbon(RibbonSheet):
    """The growing year of the selected beds, or of all.

    Dragging a bar, or an end of it, pins the days of its planting; dragging beside the bars moves the day
    shown, and in the strip below the hour of the shadows.
    """

    heard_as = QAccessible.Role.List

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__(document, look)
        self.setAccessibleName(say("Year"))
        self.setAccessibleDescription(
            say("Left and Right move the day shown; Home and End go to the ends of the year")
        )
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumHeight(HEAD + 3 * ROW)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._drag: Literal["", "day", "hour"] = ""
        self._bar: _BarDrag | None = None
        self._corner: QWidget | None = None
        self._lines_of_beds = PerBed(_lines_of_bed)
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
        lines = self._lines_of_beds.of(plan)
        self._lines = [line for key, own in lines.items() if not chosen or key in chosen for line in own]
        self._top = min(self._top, self._most_top())
        self.update()

    def show_hours(self, shown: bool) -> None:
        """Show the hours of the day below the year, with a handle of their own."""
        self._hours = shown
        self.update()

    def hold_in_corner(self, widget: QWidget) -> None:
        """Hold a small widget over the names, beside the months."""
        self._corner = widget
        widget.setParent(self)
        self._lay_corner()

    def _lay_corner(self) -> None:
        if self._corner is not None:
            self._corner.setGeometry(2, 1, int(self.names) - 8, HEAD - 2)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_corner()

    # -- for a screen reader ----------------------------------------------------------------

    def heard_count(self) -> int:
        """How many plantings are listed."""
        return len(self._lines)

    def heard_part(self, number: int) -> HeardPart | None:
        """A planting of the list, with its bed and days."""
        document = self.document
        planting = self._lines[number].planting
        bed = document.garden.beds_by_id.get(planting.bed)
        if bed is None:
            return None
        days = self._days_words(planting)
        words = say("{crop} in {bed}. {days}", crop=self._lines[number].crop, bed=bed.name, days=days)
        place = QRect(0, round(HEAD + number * ROW - self._top), self.width(), round(ROW))
        return HeardPart(words, place, planting.id in document.selection)

    # -- pointer ----------------------------------------------------------------------------

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            return
        position = event.position()
        line = self._line_at(position.y())
        if self._over_hours(position):
            self._drag = "hour"
            self._drag_hour(position.x())
        elif position.x() < self.names:
            if position.y() > HEAD and line is not None:
                self.document.select((line.planting.id,))
        elif line is not None and (part := self._part_at(position)) is not None:
            span = self.document.plan.span_of(line.planting)
            self._bar = _BarDrag(line.planting.id, part, position.x(), span)
            self.setFocus()
        else:
            self._drag = "day"
            self.document.show_day(self.day_at(position.x()))

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        position = event.position()
        if self._drag == "hour":
            self._drag_hour(position.x())
        elif self._bar is not None:
            self._drag_bar(self._bar, position.x())
        elif self._drag == "day":
            self.document.show_day(self.day_at(position.x()))
        else:
            self._show_what_is_at(position)

    def _drag_bar(self, bar: _BarDrag, x: float) -> None:
        if abs(x - bar.x) > SLACK or bar.moved:
            bar.moved = True
            self.document.preview(lambda garden: self._shifted(garden, bar, x))
            self.follow()

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._drag = ""
        bar, self._bar = self._bar, None
        if bar is None:
            return
        x = event.position().x()
        if bar.moved:
            self.document.edit(say(_STEPS[bar.part]), lambda garden: self._shifted(garden, bar, x))
        else:
            self.document.select((bar.key,))
            self.document.show_day(self.day_at(x))

    def _shifted(self, garden: Garden, bar: _BarDrag, x: float) -> Garden:
        """The garden with a bar dragged to a place. [pixels]"""
        days = round((x - bar.x) / self._breadth() * self.document.plan.span.days)
        return edits.shift_planting(garden, bar.key, bar.part, days, bar.span.first, bar.span.last)

    @override
    def wheelEvent(self, event: QWheelEvent) -> None:
        self._scroll_by(-(event.angleDelta().y() // 3))

    # -- what lies at a place ---------------------------------------------------------------

    def _over_hours(self, position: QPointF) -> bool:
        return self._hours and position.y() >= self.height() - HOURS and position.x() >= self.names - 10

    def _drag_hour(self, x: float) -> None:
        hour = (x - self.names) / self._breadth() * 24
        self.document.show_hour(round(hour * HOUR_STEPS) / HOUR_STEPS)

    def _line_at(self, y: float) -> Line | None:
        index = int((y - HEAD + self._top) // ROW)
        return self._lines[index] if y >= HEAD and 0 <= index < len(self._lines) else None

    def _part_at(self, position: QPointF) -> ShiftedPart | None:
        """The part of a bar at a place that would be dragged; None beside the bars."""
        line = self._line_at(position.y())
        if line is None:
            return None
        span, year = self.document.plan.span_of(line.planting), self.document.plan.span
        left, right = self.x_of(max(span.first, year.first)), self.x_of(min(span.last, year.last) + _DAY)
        x = position.x()
        if not left - GRIP <= x <= right + GRIP:
            return None
        # A short bar is dragged as a whole but for what lies beyond its ends.
        grip = GRIP if right - left > 4 * GRIP else 0.0
        if x <= left + grip:
            return "start" if span.first >= year.first else "all"
        if x >= right - grip:
            return "end" if span.last <= year.last else "all"
        return "all"

    def _show_what_is_at(self, position: QPointF) -> None:
        """Let pointer and tool tip say what lies at a place."""
        part = self._part_at(position)
        shape = Qt.CursorShape.SizeHorCursor
        if part not in ("start", "end"):
            shape = Qt.CursorShape.OpenHandCursor if part else Qt.CursorShape.ArrowCursor
        self.setCursor(shape)
        line = self._line_at(position.y())
        self.setToolTip(plain_tip(self._tip(line.planting)) if line is not None else "")

    def _days_words(self, planting: Planting) -> str:
        span = self.document.plan.span_of(planting)
        first = full_day_words(span.first)
        if span.open:
            return say("On its plot from {first}, without an end", first=first)
        return say("On its plot from {first} to {last}", first=first, last=full_day_words(span.last))

    def _tip(self, planting: Planting) -> str:
        head = self._days_words(planting)
        steps = step_lines(self.document.plan.dates(planting))
        name = with_variety(capital(self.document.catalogue.name_of(planting.crop)), planting.variety)
        odds = odds_lines(self.document.plan, planting)
        return "\n".join([name, head, *steps, *odds, say("Drag the bar or its ends to set its days by hand")])

    # -- keys -------------------------------------------------------------------------------

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        document, key = self.document, Qt.Key(event.key())
        held = event.modifiers()
        if key == Qt.Key.Key_Escape and self._bar is not None:
            self._bar = None
            document.cancel_preview()
            self.follow()
        elif self._hours and held & Qt.KeyboardModifier.AltModifier and key in _KEY_HOURS:
            document.show_hour(document.hour + _KEY_HOURS[key])
        elif key in _KEY_DAYS:
            arrow = key in (Qt.Key.Key_Left, Qt.Key.Key_Right)
            times = 7 if arrow and held & Qt.KeyboardModifier.ControlModifier else 1
            day = document.day or document.plan.span.first
            document.show_day(day + _DAY * _KEY_DAYS[key] * times)
        elif key == Qt.Key.Key_Home:
            document.show_day(document.plan.span.first)
        elif key == Qt.Key.Key_End:
            document.show_day(document.plan.span.last)
        elif key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            self._scroll_by(ROW if key == Qt.Key.Key_Down else -ROW)
        else:
            super().keyPressEvent(event)

    def _scroll_by(self, pixels: int) -> None:
        self._top = min(max(0, self._top + pixels), self._most_top())
        self.update()
