"""A day that is always there: typed, or chosen from a calendar."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

from PySide6.QtCore import QDate
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QCalendarWidget, QLineEdit, QMenu, QStyle, QWidgetAction

from planner.desk.forms.fields import LEAST_DATE_WIDTH, TypedField
from planner.words import say

#: Room for the sign that opens the calendar. [pixels]
_SIGN = 26


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
        super().__init__(name, read, lambda value: f"{value:%d %b %Y}")
        self.day = day
        self.setMinimumWidth(LEAST_DATE_WIDTH + _SIGN)
        sign = self.style().standardIcon(QStyle.StandardPixmap.SP_ArrowDown)
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

    def _open_calendar(self) -> None:
        menu = QMenu(self)
        calendar, action = QCalendarWidget(), QWidgetAction(menu)
        calendar.setSelectedDate(QDate(self.day.year, self.day.month, self.day.day))
        calendar.clicked.connect(lambda day: self._choose(day, menu))
        action.setDefaultWidget(calendar)
        menu.addAction(action)
        menu.aboutToHide.connect(menu.deleteLater)
        menu.popup(self.mapToGlobal(self.rect().bottomLeft()))

    def _choose(self, day: QDate, menu: QMenu) -> None:
        self.typed.emit(dt.date(day.year(), day.month(), day.day()))
        menu.close()
