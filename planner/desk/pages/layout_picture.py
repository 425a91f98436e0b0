"""A drawing of a proposed layout: the beds, what is proposed and what stays in them, on a day or over the whole year."""

from __future__ import annotations

import datetime as dt

import shapely
from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QHelpEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget
from typing_extensions import override

from planner.desk.pages.map_painting import MappedPlot, draw_ground, paint_map
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plain_tips import plain_tip
from planner.listings.found_layout import FoundLayout, LayoutRow
from planner.words import join_list, say, say_count

#: Ground around the beds, least size, and the size it likes. [pixels]
AROUND, LEAST, USUAL = 6, QSize(200, 150), QSize(460, 360)
#: How narrow letters are made, in hundredths, until a name is whole; over two lines where it has two words and there is room.
NARROW = (100, 87, 75)
#: Words are written into a plot where that is so high, and so much of them has room. [pixels]
LEAST_HEIGHT, LEAST_WORDS = 11, 24
#: Words are written into plots that fill so much of the box around them: a round one, but none with a corner missing.
FULL = 0.75


class LayoutPicture(QWidget):
    """The proposed layout as a small plan.

    Signals
    -------
    picked : object
        The LayoutRow of the planting that was clicked.
    """

    picked = Signal(object)

    heard_as = QAccessible.Role.Graphic

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look
        self.day: dt.date | None = None
        self.found: FoundLayout | None = None
        self.chosen: frozenset[str] = frozenset()
        self._bounds = (0.0, 0.0, 1.0, 1.0)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(LEAST)
        self.setAccessibleName(say("Drawing of the proposed layout"))
        look.changed.connect(self.update)

    @override
    def sizeHint(self) -> QSize:
        return USUAL

    def show_layout(self, found: FoundLayout | None) -> None:
        """Show another layout."""
        self.found = found
        if found is not None and found.beds:
            left, low, right, high = (float(value) for value in shapely.total_bounds(found.beds))
            self._bounds = left, low, max(right, left + 0.1), max(high, low + 0.1)
        self._describe()
        self.update()

    def show_day(self, day: dt.date | None) -> None:
        """Show what grows on a day, or (None) all of the year, the later above."""
        self.day = day
        self._describe()
        self.update()

    def choose(self, wishes: frozenset[str]) -> None:
        """Mark what is planted for some wishes, by their ids."""
        self.chosen = wishes
        self.update()

    def _describe(self) -> None:
        there = self._shown()
        self.setAccessibleDescription(say_count("{count} planting", "{count} plantings", len(there)))

    def _shown(self) -> list[LayoutRow]:
        """What is drawn, the later above."""
        if self.found is None:
            return []
        rows = [one for one in (*self.found.standing, *self.found.rows) if one.span is not None]
        if self.day is not None:
            rows = [one for one in rows if one.span is not None and one.span.holds(self.day)]
        return sorted(rows, key=lambda one: one.span.first if one.span is not None else dt.date.min)

    def _scale(self) -> float:
        left, low, right, high = self._bounds
        return min((self.width() - 2 * AROUND) / (right - left), (self.height() - 2 * AROUND) / (high - low))

    def place(self, x: float, y: float) -> QPointF:
        """A place of the plan [m] in the drawing. [pixels]"""
        left, low, right, high = self._bounds
        scale = self._scale()
        aside = (self.width() - (right - left) * scale) / 2
        above = (self.height() - (high - low) * scale) / 2
        return QPointF(aside + (x - left) * scale, above + (high - y) * scale)

    def row_at(self, point: QPointF) -> LayoutRow | None:
        """What is drawn at a point, the uppermost."""
        left, low, right, high = self._bounds
        scale = self._scale()
        aside = (self.width() - (right - left) * scale) / 2
        above = (self.height() - (high - low) * scale) / 2
        there = shapely.Point(left + (point.x() - aside) / scale, high - (point.y() - above) / scale)
        return next((one for one in reversed(self._shown()) if shapely.intersects(one.ground, there)), None)

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        look = self.look.now
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), look.sheet)
        if self.found is not None:
            rows = self._shown()
            plots = [MappedPlot(one.ground, one.family, one.cells[0]) for one in rows]
            paint_map(painter, look, self.found.beds, plots, self.place)
            written: list[QRectF] = []
            for one in reversed(rows):
                self._write(painter, one, written)
            painter.setPen(QPen(look.accent, 3))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            for one in rows:
                if one.wish in self.chosen:
                    draw_ground(painter, one.ground, self.place)
        painter.end()

    def _write(self, painter: QPainter, one: LayoutRow, written: list[QRectF]) -> None:
        """Write its crop into a plot, along it, where there is room for some of it and nothing is written there yet."""
        if one.ground.is_empty:
            return
        left, low, right, high = one.ground.bounds
        if one.ground.area < FULL * (right - left) * (high - low):
            return
        box = QRectF(self.place(left, high), self.place(right, low))
        upright = box.height() > box.width()
        long, short = max(box.width(), box.height()) - 2, min(box.width(), box.height())
        if short < LEAST_HEIGHT or long < LEAST_WORDS:
            return
        if any(box.intersects(other) for other in written):
            return
        written.append(box)
        words = fitted(painter, one.name or one.cells[0], long, short)
        painter.setPen(self.look.now.ink)
        painter.save()
        painter.translate(box.center())
        if upright:
            painter.rotate(-90)
        painter.drawText(QRectF(-long / 2, -short / 2, long, short), Qt.AlignmentFlag.AlignCenter, words)
        painter.restore()

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = self.row_at(event.position())
        if row is not None and event.button() == Qt.MouseButton.LeftButton:
            self.picked.emit(row)

    @override
    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            row = self.row_at(QPointF(event.pos()))
            words = join_list([cell for cell in row.cells if cell]) if row is not None else ""
            QToolTip.showText(event.globalPos(), plain_tip(words) if words else "", self)
            return True
        return super().event(event)


def fitted(painter: QPainter, name: str, long: float, short: float) -> str:
    """A name as it is written into a plot: whole in the widest letters that have room, in two lines where it has words; else cut.

    Parameters
    ----------
    painter : QPainter
        Gets the letters.
    name : str
    long, short : float
        Room along the name and across it. [pixels]
    """
    parts = name.split()
    ways = [name, *("\n".join((" ".join(parts[:n]), " ".join(parts[n:]))) for n in range(1, len(parts)))]
    for narrow in NARROW:
        font = letters(9)
        font.setStretch(narrow)
        painter.setFont(font)
        metrics = painter.fontMetrics()
        for words in ways:
            lines = words.split("\n")
            width = max(metrics.horizontalAdvance(line) for line in lines)
            if width <= long and (len(lines) == 1 or len(lines) * metrics.height() <= short):
                return words
    return painter.fontMetrics().elidedText(name, Qt.TextElideMode.ElideRight, int(long))
