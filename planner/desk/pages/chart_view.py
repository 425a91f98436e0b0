"""A chart on the desk: drawn from its marks, read day by day, month by month or year by year."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QFontMetricsF,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget
from typing_extensions import override

from planner.desk.theme.palette import Look, LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.sheets.chart_marks import Area, Chart, ChartInk, Dot, Line, Mark, Room, Words

#: Around a chart. [pixels]
MARGIN = 10.0
#: A key with Shift goes on by so many parts.
_LEAP = 10


class ChartView(QWidget):
    """Shows one chart; the part under the pointer, or that the arrow keys reach, is told in words.

    Parameters
    ----------
    look : LookSwitch
    name : str
        What it is called to a screen reader.
    make : callable
        The chart in a room; None where there is none.
    words : callable
        A part in words, by its number.
    """

    def __init__(
        self,
        look: LookSwitch,
        name: str,
        make: Callable[[Room], Chart | None],
        words: Callable[[int], str],
    ) -> None:
        super().__init__()
        self.look, self._make, self._words = look, make, words
        self.chart: Chart | None = None
        self.marked = -1
        self._whole = ""
        self.setAccessibleName(name)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(240, 230)
        look.changed.connect(self.update)

    def describe(self, text: str) -> None:
        """Set what the chart says in all, for a screen reader, and draw it anew."""
        self._whole = text
        self.marked = -1
        self.setAccessibleDescription(text)
        self.redraw()

    def redraw(self) -> None:
        """Make the chart anew."""
        metrics = QFontMetricsF(letters(9))
        width, height = self.width() - 2 * MARGIN, self.height() - 2 * MARGIN
        room = Room(max(width, 50.0), max(height, 50.0), metrics.height(), metrics.horizontalAdvance)
        self.chart = self._make(room)
        self.update()

    # -- reading ----------------------------------------------------------------------------

    def mark(self, step: int) -> None:
        """Mark a part by its number, -1 for none."""
        if self.chart is None or step == self.marked or not -1 <= step < self.chart.steps:
            return
        self.marked = step
        self.setAccessibleDescription(self._words(step) if step >= 0 else self._whole)
        self.update()

    def step_at(self, place: QPointF) -> int:
        """The part at a place of the widget; -1 beside the chart."""
        if self.chart is None:
            return -1
        return self.chart.step_at(place.x() - MARGIN, place.y() - MARGIN)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.mark(self.step_at(event.position()))

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        last = self.chart.steps - 1 if self.chart is not None else -1
        by = _LEAP if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
        before, after = max(0, self.marked - by), min(last, self.marked + by)
        targets = {
            Qt.Key.Key_Left: before,
            Qt.Key.Key_Up: before,
            Qt.Key.Key_Right: after,
            Qt.Key.Key_Down: after,
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: last,
        }
        if last >= 0 and event.key() in targets:
            self.mark(targets[Qt.Key(event.key())])
        else:
            super().keyPressEvent(event)

    @override
    def event(self, event: QEvent) -> bool:
        if isinstance(event, QHelpEvent) and event.type() == QEvent.Type.ToolTip:
            step = self.step_at(QPointF(event.pos()))
            self.setToolTip(plain_tip(self._words(step)) if step >= 0 else "")
        return super().event(event)

    @override
    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    @override
    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.redraw()

    # -- painting ---------------------------------------------------------------------------

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter, look = QPainter(self), self.look.now
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.sheet)
        chart = self.chart
        if chart is not None:
            painter.save()
            painter.translate(MARGIN, MARGIN)
            line = QFontMetricsF(letters(9)).height()
            for mark in chart.marks:
                _paint(painter, mark, look, line)
            if self.marked >= 0:
                (x0, y0), (x1, y1) = chart.line_of(self.marked)
                painter.setPen(QPen(look.ink, 1, Qt.PenStyle.DotLine))
                painter.drawLine(QPointF(x0, y0), QPointF(x1, y1))
                self._paint_words(painter, chart, look)
            painter.restore()
        if self.hasFocus():
            painter.setPen(QPen(look.accent, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_words(self, painter: QPainter, chart: Chart, look: Look) -> None:
        """The marked part in words, on a ground of their own inside the frame, away from a part that lies across it."""
        painter.setFont(letters(9))
        box = QRectF(
            chart.left + 6, chart.top + 4, chart.right - chart.left - 12, chart.bottom - chart.top - 8
        )
        below = chart.down and self.marked < chart.steps / 2
        upright = Qt.AlignmentFlag.AlignBottom if below else Qt.AlignmentFlag.AlignTop
        flags = int(Qt.AlignmentFlag.AlignLeft | upright) | int(Qt.TextFlag.TextWordWrap)
        words = self._words(self.marked)
        ground = painter.boundingRect(box, flags, words).adjusted(-4, -2, 4, 2)
        painter.setPen(QPen(look.pencil, 1))
        painter.setBrush(look.field)
        painter.drawRoundedRect(ground, 2, 2)
        painter.setPen(look.ink)
        painter.drawText(box, flags, words)


def _colour(ink: ChartInk, look: Look) -> QColor:
    colours: dict[ChartInk, QColor] = {
        "ink": look.ink,
        "pencil": look.pencil,
        "faint": look.grid_major,
        "warm": look.warn,
        "cold": look.accent,
        "wet": look.accent,
    }
    return colours[ink]


def _paint(painter: QPainter, mark: Mark, look: Look, line: float) -> None:
    colour = _colour(mark.ink, look)
    if isinstance(mark, Line):
        pen = QPen(colour, mark.weight)
        if mark.dash:
            pen.setDashPattern([part * line / mark.weight for part in mark.dash])
        painter.setPen(pen)
        painter.drawPolyline(QPolygonF([QPointF(x, y) for x, y in mark.places]))
    elif isinstance(mark, Area):
        wash = QColor(colour)
        wash.setAlphaF(mark.share)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(wash)
        painter.drawPolygon(QPolygonF([QPointF(x, y) for x, y in mark.corners]))
        painter.setBrush(Qt.BrushStyle.NoBrush)
    elif isinstance(mark, Dot):
        painter.setPen(QPen(colour, 1.3))
        painter.setBrush(colour if mark.filled else look.sheet)
        painter.drawEllipse(QPointF(mark.x, mark.y), mark.radius, mark.radius)
        painter.setBrush(Qt.BrushStyle.NoBrush)
    elif isinstance(mark, Words):
        font = letters(9, bold=mark.bold)
        painter.setFont(font)
        painter.setPen(colour)
        width = QFontMetricsF(font).horizontalAdvance(mark.text)
        shift = {"left": 0.0, "middle": width / 2, "right": width}[mark.anchor]
        painter.drawText(QPointF(mark.x - shift, mark.y), mark.text)
