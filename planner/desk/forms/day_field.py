"""A day that is always there: typed, or chosen from a calendar."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtCore import QDate, QEvent, QPointF, Qt
from PySide6.QtGui import QAction, QColor, QIcon, QPainter, QPen, QPixmap, QPolygonF, QTextCharFormat
from PySide6.QtWidgets import QCalendarWidget, QLineEdit, QMenu, QWidgetAction
from typing_extensions import override

from planner.desk.forms.fields import LEAST_DATE_WIDTH, TypedField
from planner.words import full_day_words, say

#: Room for the sign that opens the calendar. [pixels]
_SIGN = 26


def down_sign(ink: QColor) -> QIcon:
    """An arrow that points down, as at the end of every choice."""
    picture = QPixmap(32, 32)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    round_end, round_joint = Qt.PenCapStyle.RoundCap, Qt.PenJoinStyle.RoundJoin
    painter.setPen(QPen(ink, 3.0, Qt.PenStyle.SolidLine, round_end, round_joint))
    painter.drawPolyline(QPolygonF([QPointF(9.8, 13), QPointF(16, 19.4), QPointF(22.2, 13)]))
    painter.end()
    return QIcon(picture)


class DayField(TypedField):
    """A line for a day, with a calendar to choose it from.

    Parameters
    ----------
    name : str
        Accessible name.
    day : date
        Shown at first.
    read : callable
        The day of a text; raises a BedwrightError where it is none.

    Attributes
    ----------
    day : date
        The day typed or chosen last.
    """

    def __init__(self, name: str, day: dt.date, read: Callable[[str], dt.date]) -> None:
        super().__init__(name, read, full_day_words)
        self.day = day
        self.setMinimumWidth(LEAST_DATE_WIDTH + _SIGN)
        sign = down_sign(self.palette().windowText().color())
        self.calendar: QAction = self.addAction(sign, QLineEdit.ActionPosition.TrailingPosition)
        self.calendar.setText(say("Choose a day"))
        self.calendar.setToolTip(say("Choose a day"))
        self.calendar.triggered.connect(self._open_calendar)
        self.typed.connect(self.show_day)
        self.show_value(day)

    def show_day(self, day: dt.date) -> None:
        """Take another day."""
        self.day = day
        self.accept()
        self.show_value(day)

    @override
    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.PaletteChange:
            self.calendar.setIcon(down_sign(self.palette().windowText().color()))

    def _open_calendar(self) -> None:
        menu = QMenu(self)
        calendar, action = QCalendarWidget(), QWidgetAction(menu)
        calendar.setSelectedDate(QDate(self.day.year, self.day.month, self.day.day))
        plain = QTextCharFormat()  # Qt writes Saturday and Sunday in a red that is hard to read
        plain.setForeground(self.palette().windowText())
        for day in (Qt.DayOfWeek.Saturday, Qt.DayOfWeek.Sunday):
            calendar.setWeekdayTextFormat(day, plain)
        calendar.clicked.connect(lambda day: self._choose(day, menu))
        action.setDefaultWidget(calendar)
        menu.addAction(action)
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self.mapToGlobal(self.rect().bottomLeft()))

    def _choose(self, day: QDate, menu: QMenu) -> None:
        self.typed.emit(dt.date(day.year(), day.month(), day.day()))
        menu.close()
