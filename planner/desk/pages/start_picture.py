"""The picture beside the first answers: the beds to scale, and the year at that latitude between its frosts."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QAccessible, QColor, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget
from typing_extensions import override

from planner.desk.theme.palette import LookSwitch, letters
from planner.garden.edits import BedRange
from planner.garden.site import UnitSystem
from planner.garden.units import show_length
from planner.sun import day_lengths
from planner.words import number_words, say
from planner.words.dates import day_of_year_words, month_words

#: Around the picture, and the height of the year below the beds. [pixels]
_MARGIN, _YEAR = 18, 118
#: Longest line from a bed to its measure. [pixels]
_TICK = 5.0
_DAYS = 366


@dataclass(frozen=True)
class Pictured:
    """What the answers say so far.

    Attributes
    ----------
    latitude : float or None
    units : {"metric", "feet_inches"}
    last_frost, first_frost : str or None
        MM-DD.
    frost_free : bool
    beds : BedRange or None
        None: drawn by hand.
    """

    latitude: float | None
    units: UnitSystem
    last_frost: str | None
    first_frost: str | None
    frost_free: bool
    beds: BedRange | None

    @property
    def words(self) -> str:
        """The picture in sentences."""
        return " ".join(part for part in (self.bed_words, self.day_words, self.frost_words) if part)

    @property
    def bed_words(self) -> str:
        """Number and size of the beds."""
        if self.beds is None:
            return say("You draw the first bed by hand.")
        length, width = (show_length(side, self.units) for side in (self.beds.length, self.beds.width))
        return say("{number} of {length} by {width}.", number=self.beds.number, length=length, width=width)

    @property
    def day_words(self) -> str:
        """The longest and the shortest day."""
        if self.latitude is None:
            return ""
        hours = day_lengths(self.latitude)
        return say(
            "Longest day {longest} h, shortest {shortest} h.",
            longest=number_words(float(hours.max()), 1),
            shortest=number_words(float(hours.min()), 1),
        )

    @property
    def frost_words(self) -> str:
        """How long there is no frost."""
        if self.frost_free:
            return say("No frost all year.")
        if self.last_frost is None or self.first_frost is None:
            return ""
        days = (_day(self.first_frost) - _day(self.last_frost)) % _DAYS
        return say("{days} days without frost.", days=days)


def _day(day: str) -> int:
    return dt.date(2000, int(day[:2]), int(day[3:])).timetuple().tm_yday - 1


class StartPicture(QWidget):
    """Draws what the answers say, in ink on the paper of the sheet."""

    heard_as = QAccessible.Role.Graphic

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self._look = look
        self.shown = Pictured(None, "metric", None, None, False, None)
        self.setAccessibleName(say("What your answers make"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        look.changed.connect(self.update)

    @override
    def sizeHint(self) -> QSize:
        return QSize(400, 380)

    @override
    def minimumSizeHint(self) -> QSize:
        return QSize(260, 300)

    def show_answers(self, pictured: Pictured) -> None:
        """Draw other answers."""
        self.shown = pictured
        self.setAccessibleDescription(pictured.words)
        self.update()

    @override
    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        look = self._look.now
        painter.fillRect(self.rect(), look.sheet)
        painter.setPen(QPen(look.grid_major, 1))
        painter.drawRect(QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5))
        painter.setFont(letters(9))
        inside = QRectF(self.rect()).adjusted(_MARGIN, _MARGIN, -_MARGIN, -_MARGIN)
        ground = QRectF(inside.left(), inside.top(), inside.width(), inside.height() - _YEAR - _MARGIN)
        self._paint_beds(painter, ground)
        self._paint_year(painter, QRectF(inside.left(), inside.bottom() - _YEAR, inside.width(), _YEAR))

    # -- the beds ---------------------------------------------------------------------------

    def _paint_beds(self, painter: QPainter, room: QRectF) -> None:
        look, beds = self._look.now, self.shown.beds
        if beds is None:
            box = QRectF(0, 0, room.width() * 0.6, room.height() * 0.5)
            box.moveCenter(room.center())
            painter.setPen(QPen(look.accent, 1.5, Qt.PenStyle.DashLine))
            painter.drawRect(box)
            painter.setPen(QPen(look.accent, 1.5))
            for corner in (box.topLeft(), box.bottomRight()):
                painter.drawLine(corner - QPointF(6, 0), corner + QPointF(6, 0))
                painter.drawLine(corner - QPointF(0, 6), corner + QPointF(0, 6))
            painter.setPen(look.pencil)
            painter.drawText(
                box,
                Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap,
                say("Drag from corner to corner"),
            )
            return
        text = painter.fontMetrics()
        left = text.horizontalAdvance(show_length(beds.width, self.shown.units)) + 2 * _TICK + 6
        below = text.height() + 2 * _TICK + 2
        wide = beds.across * beds.length + (beds.across - 1) * beds.path_across
        high = beds.up * beds.width + (beds.up - 1) * beds.path_up
        scale = min((room.width() - left) / wide, (room.height() - below) / high)
        x0 = room.left() + left + (room.width() - left - wide * scale) / 2
        y0 = room.top() + (room.height() - below - high * scale) / 2
        painter.setPen(QPen(look.ink, 1.4))
        painter.setBrush(look.soil)
        for x, y in beds.centers(0.0, 0.0):
            box = QRectF(0, 0, beds.length * scale, beds.width * scale)
            box.moveCenter(QPointF(x0 + x * scale, y0 - y * scale))
            painter.drawRect(box)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        self._measure(painter, QPointF(x0, y0 + high * scale + 2 * _TICK), beds.length * scale, beds.length)
        painter.save()
        painter.translate(x0 - 2 * _TICK, y0 + beds.width * scale)
        painter.setPen(QPen(look.pencil, 1))
        tall = beds.width * scale
        painter.drawLine(QPointF(0, 0), QPointF(0, -tall))
        for y in (0.0, -tall):
            painter.drawLine(QPointF(-_TICK / 2, y), QPointF(_TICK / 2, y))
        words = show_length(beds.width, self.shown.units)
        painter.drawText(
            QPointF(-_TICK - text.horizontalAdvance(words), -tall / 2 + text.ascent() / 2 - 1), words
        )
        painter.restore()

    def _measure(self, painter: QPainter, start: QPointF, pixels: float, metres: float) -> None:
        """A dimension line below the beds, with its length."""
        painter.setPen(QPen(self._look.now.pencil, 1))
        end = start + QPointF(pixels, 0)
        painter.drawLine(start, end)
        for at in (start, end):
            painter.drawLine(at - QPointF(0, _TICK / 2), at + QPointF(0, _TICK / 2))
        words, text = show_length(metres, self.shown.units), painter.fontMetrics()
        middle = (start + end) / 2
        painter.drawText(middle + QPointF(-text.horizontalAdvance(words) / 2, text.ascent() + 2), words)

    # -- the year ---------------------------------------------------------------------------

    def _paint_year(self, painter: QPainter, room: QRectF) -> None:
        look, shown, text = self._look.now, self.shown, painter.fontMetrics()
        line = text.height()
        chart = QRectF(room.left(), room.top() + line + 4, room.width(), room.height() - 2 * line - 8)
        first = 181 if shown.latitude is not None and shown.latitude < 0 else 0

        def x(day: float) -> float:
            return chart.left() + chart.width() * ((day - first) % _DAYS) / _DAYS

        self._paint_growing(painter, chart, first)
        painter.setPen(look.pencil)
        words = text.elidedText(self._year_words(), Qt.TextElideMode.ElideRight, int(room.width()))
        painter.drawText(QPointF(room.left(), room.top() + text.ascent()), words)
        if shown.latitude is not None:
            hours = day_lengths(shown.latitude)
            points = [
                QPointF(
                    chart.left() + chart.width() * k / (_DAYS - 1),
                    chart.bottom() - chart.height() * float(hours[(first + k) % _DAYS]) / 24,
                )
                for k in range(_DAYS)
            ]
            painter.setPen(QPen(look.ink, 1.4))
            painter.drawPolyline(QPolygonF(points))
        painter.setPen(QPen(look.pencil, 1))
        painter.drawLine(chart.bottomLeft(), chart.bottomRight())
        for month in range(1, 13):
            at = x(dt.date(2000, month, 1).timetuple().tm_yday - 1)
            painter.drawLine(QPointF(at, chart.bottom()), QPointF(at, chart.bottom() + _TICK))
            name = month_words(month, short=True)[: 3 if chart.width() > 330 else 1]
            painter.drawText(QPointF(at + 3, chart.bottom() + text.ascent() + 3), name)

    def _paint_growing(self, painter: QPainter, chart: QRectF, first: int) -> None:
        """The days without frost as a band, with its ends."""
        look, shown = self._look.now, self.shown
        wash = QColor(look.accent)
        wash.setAlphaF(0.18)
        if shown.frost_free:
            painter.fillRect(chart, wash)
            return
        ends = [
            ((_day(day) - first) % _DAYS, day)
            for day in (shown.last_frost, shown.first_frost)
            if day is not None
        ]
        places = [(chart.left() + chart.width() * at / _DAYS, day) for at, day in ends]
        if len(places) == 2:
            (begins, _), (over, _) = places
            bands = [(begins, over)] if begins <= over else [(chart.left(), over), (begins, chart.right())]
            path = QPainterPath()
            for start, end in bands:
                path.addRect(QRectF(QPointF(start, chart.top()), QPointF(end, chart.bottom())))
            painter.fillPath(path, wash)
        text = painter.fontMetrics()
        for at, day in places:
            painter.setPen(QPen(look.accent, 1.4))
            painter.drawLine(QPointF(at, chart.top()), QPointF(at, chart.bottom()))
            words = day_of_year_words(day)
            wide = text.horizontalAdvance(words)
            beside = at + 4 if at + 4 + wide < chart.right() else at - 4 - wide
            painter.drawText(QPointF(beside, chart.top() + text.ascent() + 2), words)

    def _year_words(self) -> str:
        shown = self.shown
        words = " ".join(part for part in (shown.day_words, shown.frost_words) if part)
        return words or say("The year: length of the days, and the days without frost")
