"""The year of the whole garden: beds down, months across."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QAccessible, QFontMetricsF, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QScrollArea, QWidget
from typing_extensions import override

from planner.desk.canvas.planting_bar import paint_bar
from planner.desk.canvas.year_axis import YearAxis, paint_frost, paint_months
from planner.desk.model.document import Document
from planner.desk.model.per_bed import PerBed
from planner.desk.model.phrases import with_variety
from planner.desk.model.when_seen import WhenSeen
from planner.desk.theme.palette import LookSwitch, letters
from planner.garden import Bed, Planting
from planner.plan import Plan
from planner.season.lanes import lanes_of
from planner.words import say

#: Height of the months' line; least height of a bed's row; height of a lane in it. [pixels]
HEAD, ROW, LANE = 24, 24, 17
#: Room for the names of beds at the left, and what is left free at the right. [pixels]
NAMES, RIGHT = 130, 12
#: Fewer letters of a planting's name are not written.
LEAST_LETTERS = 3
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class _BedRow:
    """A bed with its plantings, each in a lane.

    Attributes
    ----------
    top, height : float
        [pixels]
    """

    bed: Bed
    top: float
    height: float
    plantings: tuple[tuple[Planting, int], ...]

    def top_of(self, lane: int) -> float:
        """Top of a lane. [pixels]"""
        return self.top + 3 + lane * LANE


def _lanes_of_bed(plan: Plan, bed: Bed) -> tuple[tuple[tuple[Planting, int], ...], int]:
    """The plantings of a bed with their lanes, and the number of lanes."""
    plantings = plan.in_bed(bed)
    lanes = lanes_of([(plan.span_of(p).first, plan.span_of(p).last) for p in plantings])
    return tuple(zip(plantings, lanes, strict=True)), max(lanes, default=0) + 1


def fitting_name(metrics: QFontMetricsF, crop: str, variety: str, room: float) -> str:
    """As much of a planting's name as fits: of crop and variety, where there is room for one, the variety.

    Parameters
    ----------
    metrics : QFontMetricsF
    crop, variety : str
        The variety may be empty.
    room : float
        [pixels]
    """
    name = with_variety(crop, variety)
    if variety and metrics.horizontalAdvance(name) > room >= metrics.horizontalAdvance(variety):
        return variety  # it tells the planting from others of its crop
    return metrics.elidedText(name, Qt.TextElideMode.ElideRight, room)


class YearChart(QWidget):
    """All beds over the year; bare ground shows as bare.

    Signals
    -------
    picked : str
        Id of a planting or bed that was clicked.
    """

    picked = Signal(str)

    heard_as = QAccessible.Role.Chart

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document, self.look = document, look
        self.today = dt.date.today()
        self.setAccessibleName(say("All beds over the year"))
        self._rows: list[_BedRow] = []
        self._lanes = PerBed(_lanes_of_bed)
        self._dragging = False
        self._when_seen = WhenSeen(self, self.follow)
        document.garden_settled.connect(self._when_seen.follow)
        document.year_changed.connect(self._when_seen.follow)
        document.day_changed.connect(self.update)
        document.selection_changed.connect(self.update)
        look.changed.connect(self.update)
        self._when_seen.follow()

    def follow(self) -> None:
        """Bring the rows in step with the plan."""
        plan = self.document.plan
        self._rows, top = [], float(HEAD)
        lanes = self._lanes.of(plan)
        for bed in plan.beds:
            plantings, count = lanes[bed.id]
            height = max(ROW, count * LANE + 7)
            self._rows.append(_BedRow(bed, top, height, plantings))
            top += height
        self.setMinimumHeight(round(top) + 8)
        self.setMinimumWidth(560)
        self.update()

    def _axis(self) -> YearAxis:
        return YearAxis(self.document.plan.span, NAMES, self.width() - NAMES - RIGHT)

    def x_of(self, day: dt.date) -> float:
        """Where a day begins. [pixels]"""
        return self._axis().x_of(day)

    def day_at(self, x: float) -> dt.date:
        """The day at a place. [pixels]"""
        return self._axis().day_at(x)

    # -- pointer ----------------------------------------------------------------------------

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        position = event.position()
        corner = self._seen_from()
        if position.x() >= corner.x() + NAMES:
            self._dragging = True
            self.document.show_day(self.day_at(position.x()))
        for row in self._rows if position.y() >= corner.y() + HEAD else ():
            if row.top <= position.y() < row.top + row.height:
                self.picked.emit(self._planting_at(row, position) or row.bed.id)

    def _planting_at(self, row: _BedRow, position: QPointF) -> str | None:
        """Id of the planting of a row at a place."""
        if position.x() < self._seen_from().x() + NAMES:
            return None
        plan, day = self.document.plan, self.day_at(position.x())
        lane = int((position.y() - row.top_of(0)) // LANE)
        return next((p.id for p, at in row.plantings if at == lane and plan.span_of(p).holds(day)), None)

    @override
    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragging:
            self.document.show_day(self.day_at(event.position().x()))

    @override
    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._dragging = False

    # -- painting ---------------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look = self.look.now
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.sheet)
        seen = event.rect()
        rows = [
            row
            for row in self._rows
            if row.top - LANE <= seen.bottom() and row.top + row.height >= seen.top()
        ]
        for row in rows:
            self._paint_ground(painter, row)
        paint_frost(painter, self._axis(), self.document.plan, look, HEAD, self.height())
        paint_months(painter, self._axis(), look, HEAD, self.height(), None)
        for row in rows:
            for planting, lane in row.plantings:
                chosen = planting.id in self.document.selection
                paint_bar(painter, self, look, planting, row.top_of(lane), LANE + 3, chosen=chosen)
                self._paint_name(painter, planting, row.top_of(lane))
        self._paint_days(painter)
        self._paint_frozen(painter, rows)
        painter.end()

    def _seen_from(self) -> QPointF:
        """The corner from which the chart is seen: names of beds and months stay there while it is scrolled."""
        return QPointF(self.visibleRegion().boundingRect().topLeft())

    def follow_scrolling(self, area: QScrollArea) -> None:
        """Keep the names of beds and the months in sight while an area scrolls the chart."""
        for bar in (area.horizontalScrollBar(), area.verticalScrollBar()):
            bar.valueChanged.connect(lambda _value: self.update())

    def _paint_days(self, painter: QPainter) -> None:
        """The day shown, and today with dashes."""
        look, span = self.look.now, self.document.plan.span
        for day, pen in (
            (self.today if span.holds(self.today) else None, QPen(look.pencil, 1.2, Qt.PenStyle.DashLine)),
            (self.document.day, QPen(look.accent, 1.6)),
        ):
            if day is not None:
                painter.setPen(pen)
                x = self.x_of(day)
                painter.drawLine(QPointF(x, HEAD), QPointF(x, self.height()))

    def _paint_frozen(self, painter: QPainter, rows: list[_BedRow]) -> None:
        """The names of beds at the left and the months at the top of what is seen."""
        look, corner = self.look.now, self._seen_from()
        painter.fillRect(QRectF(corner.x(), 0, NAMES, self.height()), look.sheet)
        for row in rows:
            self._paint_bed(painter, row, corner.x())
        painter.fillRect(QRectF(0, corner.y(), self.width(), HEAD), look.sheet)
        painter.save()
        painter.setClipRect(QRectF(corner.x() + NAMES, corner.y(), self.width(), HEAD))
        painter.translate(0, corner.y())
        paint_months(painter, self._axis(), look, 4, HEAD, (4, 16))
        if self.document.day is not None:
            painter.setPen(QPen(look.accent, 1.6))
            x = self.x_of(self.document.day)
            painter.drawLine(QPointF(x, 4), QPointF(x, HEAD))
        painter.restore()

    def _paint_ground(self, painter: QPainter, row: _BedRow) -> None:
        width = self.width() - RIGHT - NAMES
        painter.fillRect(QRectF(NAMES, row.top + 2, width, row.height - 4), self.look.now.soil)

    def _paint_bed(self, painter: QPainter, row: _BedRow, left: float) -> None:
        look = self.look.now
        painter.setPen(look.accent if row.bed.id in self.document.selection else look.ink)
        painter.setFont(letters(9, bold=True))
        metrics = QFontMetricsF(painter.font())
        text = metrics.elidedText(row.bed.name, Qt.TextElideMode.ElideRight, NAMES - 16)
        painter.drawText(
            QRectF(left + 8, row.top, NAMES - 12, row.height), Qt.AlignmentFlag.AlignVCenter, text
        )

    def _paint_name(self, painter: QPainter, planting: Planting, top: float) -> None:
        look, plan = self.look.now, self.document.plan
        span, year = plan.span_of(planting), plan.span
        left, right = self.x_of(max(span.first, year.first)), self.x_of(min(span.last, year.last) + _DAY)
        name = self.document.catalogue.name_of(planting.crop)
        painter.setFont(letters(9))
        metrics = QFontMetricsF(painter.font())
        text = fitting_name(metrics, name, planting.variety, right - left - 10)
        if len(text) < LEAST_LETTERS:
            return
        place = QRectF(left + 3, top + 3, metrics.horizontalAdvance(text) + 5, LANE - 3)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRoundedRect(place, 2, 2)
        painter.setPen(look.ink)
        painter.drawText(place, Qt.AlignmentFlag.AlignCenter, text)
