"""A picture of amounts week by week over a year: one above the other, with a line of what there is room for or what is wanted."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QColor,
    QFocusEvent,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.canvas.year_axis import YearAxis, paint_months
from planner.desk.pages.stack_lines import (
    STRIP,
    Mark,
    line_pieces,
    paint_lines,
    paint_marks,
    paint_name,
    paint_strokes,
    runs,
)
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plant_symbols import hatch_brush
from planner.season.spans import Span
from planner.sheets.family_inks import family_ink
from planner.words import short_number

#: Room for the numbers at the left, what is left free at the right, the months' line, and what is free at the foot. [pixels]
NUMBERS, RIGHT, HEAD, FOOT = 56, 14, 24, 8
#: Marks on the scale: about so many.
_MARKS = 4
_WEEK = dt.timedelta(days=7)
_DAY = dt.timedelta(days=1)


@dataclass(frozen=True)
class Band:
    """One thing's amounts, week by week.

    Attributes
    ----------
    key : str
        By which it is told from others.
    name : str
        Written into it where there is room.
    family : str
        Botanical family, which gives ink and hatch; empty where there is none.
    values : tuple of float
        One for each week; 0 for none.
    """

    key: str
    name: str
    family: str
    values: tuple[float, ...]


@dataclass(frozen=True)
class Stack:
    """What a picture shows.

    Attributes
    ----------
    mondays : tuple of date
        The weeks, without a gap.
    span : Span
        The days along the axis.
    bands : tuple of Band
        From below upwards.
    limit : tuple of float or None
        The line across each week, None in weeks without it; no line where empty.
    limit_name : str
        What the line is; empty where there is none.
    unit : str
        Of the values, above the scale.
    limits_below : bool
        Whether the line is one that the bands should stay below, so that what is above it is marked.
    least_step : float
        Marks of the scale are no nearer to each other: 1 for what is counted.
    second : tuple of float or None
        A second line, dashed; none where empty.
    marks : tuple of Mark
        Weeks that are marked, in a strip above the bands.
    spread : tuple of (float, float) or None
        Between which sums a week lies in most years, None in weeks without; none where empty.
    """

    mondays: tuple[dt.date, ...]
    span: Span
    bands: tuple[Band, ...]
    limit: tuple[float | None, ...] = ()
    limit_name: str = ""
    unit: str = ""
    limits_below: bool = False
    least_step: float = 0.0
    second: tuple[float | None, ...] = ()
    marks: tuple[Mark, ...] = ()
    spread: tuple[tuple[float, float] | None, ...] = ()

    def sum_of(self, week: int) -> float:
        """All bands of a week together."""
        return sum(band.values[week] for band in self.bands)

    @property
    def highest(self) -> float:
        """The highest sum or limit of a week."""
        sums = [self.sum_of(week) for week in range(len(self.mondays))]
        lines = (value for value in (*self.limit, *self.second) if value is not None)
        return max((*sums, *lines, *(both[1] for both in self.spread if both is not None)), default=0.0)


def scale_step(highest: float, marks: int = _MARKS) -> float:
    """The distance of the marks of a scale that reaches a value: 1, 2 or 5 times a power of ten.

    Parameters
    ----------
    highest : float
        Above 0.
    marks : int
        As many marks are aimed at.
    """
    power = math.floor(math.log10(highest / marks))
    return next(
        (step * 10.0**power for step in (1, 2, 5) if highest / (step * 10.0**power) <= marks),
        10.0 ** (power + 1),
    )


def number_cell(value: float) -> str:
    """A number of a scale, without an end of zeros."""
    return short_number(value, 10)


class StackedWeeks(QWidget):
    """The picture; a week is marked by a click or by the arrow keys.

    Signals
    -------
    week_marked : int
        Number of the week that is marked now, -1 for none.
    band_picked : str
        Key of a band that was clicked.
    """

    week_marked = Signal(int)
    band_picked = Signal(str)

    heard_as = QAccessible.Role.Chart

    def __init__(self, look: LookSwitch, name: str, words: Callable[[int], str]) -> None:
        """An empty picture.

        Parameters
        ----------
        look : LookSwitch
        name : str
            What it is called to a screen reader.
        words : callable
            A week in words, by its number: what a tip and a screen reader say.
        """
        super().__init__()
        self.look, self._words = look, words
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setMinimumHeight(150)
        self.stack: Stack | None = None
        self.marked = -1
        self.picked = ""
        look.changed.connect(self.update)

    def show_stack(self, stack: Stack) -> None:
        """Show other amounts; a mark stays at its week where that is still there."""
        if stack == self.stack:
            return
        before = self.stack.mondays[self.marked] if self.stack and self.marked >= 0 else None
        self.stack = stack
        self.marked = stack.mondays.index(before) if before in stack.mondays else -1
        self.update()

    def mark(self, week: int) -> None:
        """Mark a week by its number, -1 for none."""
        if self.stack is None or week == self.marked or not -1 <= week < len(self.stack.mondays):
            return
        self.marked = week
        self.setAccessibleDescription(self._words(week) if week >= 0 else "")
        self.update()
        self.week_marked.emit(week)

    def pick(self, key: str) -> None:
        """Outline a band by its key, none where empty."""
        if key != self.picked:
            self.picked = key
            self.update()

    # -- places -----------------------------------------------------------------------------

    def _axis(self, stack: Stack) -> YearAxis:
        return YearAxis(stack.span, NUMBERS, max(1.0, self.width() - NUMBERS - RIGHT))

    def _top(self, stack: Stack) -> float:
        """The value at the upper end of the scale."""
        highest = stack.highest or 1.0
        step = max(scale_step(highest), stack.least_step)
        return math.ceil(highest / step - 1e-9) * step

    def _y_of(self, value: float, top: float) -> float:
        return self.height() - FOOT - value / top * (self.height() - FOOT - self._head)

    @property
    def _head(self) -> float:
        """Where the scale ends: below the months, and the strip of marks where there are any. [pixels]"""
        return HEAD + (STRIP + 6 if self.stack is not None and self.stack.marks else 0)

    def _edges(self, stack: Stack, week: int) -> tuple[float, float]:
        """Left and right end of a week, within the axis. [pixels]"""
        axis, monday = self._axis(stack), stack.mondays[week]
        left = axis.x_of(max(monday, stack.span.first))
        return left, axis.x_of(min(monday + _WEEK, stack.span.last + _DAY))

    def week_at(self, x: float) -> int:
        """Number of the week at a place, -1 beside the axis. [pixels]"""
        stack = self.stack
        if stack is None:
            return -1
        found = (
            week
            for week in range(len(stack.mondays))
            if self._edges(stack, week)[0] <= x < self._edges(stack, week)[1]
        )
        return next(found, -1)

    def band_at(self, place: QPointF) -> Band | None:
        """The band at a place. [pixels]"""
        stack, week = self.stack, self.week_at(place.x())
        if stack is None or week < 0:
            return None
        below, top = 0.0, self._top(stack)
        for band in stack.bands:
            above = below + band.values[week]
            if self._y_of(above, top) <= place.y() < self._y_of(below, top):
                return band
            below = above
        return None

    # -- pointer and keys -------------------------------------------------------------------

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.mark(self.week_at(event.position().x()))
        if (band := self.band_at(event.position())) is not None:
            self.band_picked.emit(band.key)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        last = len(self.stack.mondays) - 1 if self.stack else -1
        targets = {
            Qt.Key.Key_Left: max(0, self.marked - 1),
            Qt.Key.Key_Right: min(last, self.marked + 1),
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: last,
        }
        if last >= 0 and event.key() in targets:
            self.mark(targets[Qt.Key(event.key())])
        else:
            super().keyPressEvent(event)

    @override
    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip:
            week = self.week_at(event.pos().x())  # type: ignore[attr-defined]
            self.setToolTip(self._words(week) if week >= 0 else "")
        return super().event(event)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    # -- painting ---------------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter, look = QPainter(self), self.look.now
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.sheet)
        if self.stack is not None:
            self._paint_stack(painter, self.stack)
        if self.hasFocus():
            painter.setPen(QPen(look.accent, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_stack(self, painter: QPainter, stack: Stack) -> None:
        top = self._top(stack)
        self._paint_scale(painter, stack, top)
        look = self.look.now
        paint_months(painter, self._axis(stack), look, 4, self.height() - FOOT, (4, 16))
        below = [0.0] * len(stack.mondays)
        names: list[tuple[QRectF, str]] = []
        for band in stack.bands:
            above = [low + value for low, value in zip(below, band.values, strict=True)]
            self._paint_band(painter, stack, band, below, above, top)
            if (place := self._room_for_name(painter, stack, band, below, above, top)) is not None:
                names.append((place, band.name))
            below = above
        if stack.limit or stack.second:
            self._paint_lines(painter, stack, below, top)
        self._outline_picked(painter, stack, top)
        self._paint_spread(painter, stack, top)
        self._paint_marks(painter, stack)
        painter.setFont(letters(9))
        for place, name in names:
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(look.chip)
            painter.drawRoundedRect(place, 2, 2)
            painter.setPen(look.ink)
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter, name)
        if self.marked >= 0:
            left, right = self._edges(stack, self.marked)
            painter.setPen(QPen(look.accent, 1.6))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(left, HEAD - 2, right - left, self.height() - FOOT - HEAD + 3))

    def _paint_spread(self, painter: QPainter, stack: Stack, top: float) -> None:
        """A stroke in each week between the sums of most years."""
        strokes = []
        for week, both in enumerate(stack.spread):
            if both is not None:
                left, right = self._edges(stack, week)
                strokes.append(
                    (
                        (left + right) / 2,
                        self._y_of(both[0], top),
                        self._y_of(both[1], top),
                        (right - left) / 5,
                    )
                )
        paint_strokes(painter, self.look.now, strokes)

    def _paint_scale(self, painter: QPainter, stack: Stack, top: float) -> None:
        look, step = self.look.now, max(scale_step(top), stack.least_step)
        painter.setFont(letters(9))
        for mark in range(round(top / step) + 1):
            y = round(self._y_of(mark * step, top)) + 0.5
            painter.setPen(QPen(look.grid_major, 1))
            painter.drawLine(QPointF(NUMBERS, y), QPointF(self.width() - RIGHT, y))
            painter.setPen(look.pencil)
            place = QRectF(0, y - 8, NUMBERS - 6, 16)
            painter.drawText(
                place, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, number_cell(mark * step)
            )
        painter.drawText(QRectF(4, 2, NUMBERS, 16), Qt.AlignmentFlag.AlignLeft, stack.unit)

    def _paint_band(
        self,
        painter: QPainter,
        stack: Stack,
        band: Band,
        below: Sequence[float],
        above: Sequence[float],
        top: float,
    ) -> None:
        look = self.look.now
        ink = family_ink(band.family, dark=look.dark)
        painter.setPen(QPen(QColor.fromRgbF(*ink.line_rgb), 1))
        painter.setBrush(hatch_brush(band.family, look.dark, 0.4, 1.0))
        for shape in self._shapes(stack, band, below, above, top):
            painter.drawPolygon(shape)

    def _shapes(
        self, stack: Stack, band: Band, below: Sequence[float], above: Sequence[float], top: float
    ) -> list[QPolygonF]:
        """The pieces of a band, one for each run of weeks."""
        found = []
        for first, last in runs(band.values):
            upper, lower = [], []
            for week in range(first, last + 1):
                left, right = self._edges(stack, week)
                upper += [
                    QPointF(left, self._y_of(above[week], top)),
                    QPointF(right, self._y_of(above[week], top)),
                ]
                lower += [
                    QPointF(left, self._y_of(below[week], top)),
                    QPointF(right, self._y_of(below[week], top)),
                ]
            found.append(QPolygonF([*upper, *reversed(lower)]))
        return found

    def _outline_picked(self, painter: QPainter, stack: Stack, top: float) -> None:
        below = [0.0] * len(stack.mondays)
        painter.setPen(QPen(self.look.now.accent, 2.4))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for band in stack.bands:
            above = [low + value for low, value in zip(below, band.values, strict=True)]
            if band.key == self.picked:
                for shape in self._shapes(stack, band, below, above, top):
                    painter.drawPolygon(shape)
            below = above

    def _room_for_name(
        self,
        painter: QPainter,
        stack: Stack,
        band: Band,
        below: Sequence[float],
        above: Sequence[float],
        top: float,
    ) -> QRectF | None:
        """Where the name lies wholly within its band, at its highest; None where it does not."""
        painter.setFont(letters(9))
        metrics = QFontMetricsF(painter.font())
        wide, high = metrics.horizontalAdvance(band.name) + 6, metrics.height()
        best: tuple[float, QRectF] | None = None
        for first, last in runs(band.values):
            for begin in range(first, last + 1):
                left = self._edges(stack, begin)[0]
                end = next(
                    (w for w in range(begin, last + 1) if self._edges(stack, w)[1] - left >= wide), None
                )
                if end is None:
                    break
                under = self._y_of(max(below[begin : end + 1]), top)
                over = self._y_of(min(above[begin : end + 1]), top)
                room = under - over
                if room >= high and (best is None or room > best[0]):
                    best = room, QRectF(left, (under + over - high) / 2, wide, high)
        return best[1] if best else None

    def _paint_lines(self, painter: QPainter, stack: Stack, sums: Sequence[float], top: float) -> None:
        look, weeks = self.look.now, range(len(stack.mondays))
        edges = [self._edges(stack, week) for week in weeks]
        if stack.limits_below:
            painter.setPen(QPen(look.warn, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            for week in weeks:
                limit, (left, right) = stack.limit[week], edges[week]
                if limit is not None and sums[week] > limit + 1e-9:
                    high = self._y_of(sums[week], top)
                    painter.drawRect(QRectF(left, high, right - left, self._y_of(limit, top) - high))
        for values, dashed in ((stack.second, True), (stack.limit, False)):
            heights = [self._y_of(value or 0.0, top) for value in values]
            pieces = line_pieces(values, edges, heights) if values else []
            paint_lines(painter, pieces, look, dashed=dashed)
        if stack.limit_name and pieces:
            last = pieces[-1].last()
            paint_name(painter, look, stack.limit_name, last, self._head)

    def _paint_marks(self, painter: QPainter, stack: Stack) -> None:
        places = []
        for mark in stack.marks:
            left, right = self._edges(stack, mark.first)[0], self._edges(stack, mark.last)[1]
            places.append((mark, QRectF(left, HEAD + 1, right - left, STRIP)))
        paint_marks(painter, self.look.now, places)
