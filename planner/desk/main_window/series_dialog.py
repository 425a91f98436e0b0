"""The dialog for a series of one planting."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QRadioButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.day_field import DayField
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.garden.units import month_first
from planner.plan import Plan
from planner.season.succession import Series, all_season, every
from planner.words import say
from planner.words.typed_days import date_as_typed

#: Days from start to start that are shown at first, and the most that can be given.
USUAL_DAYS, MOST_DAYS = 21, 365


class SeriesDialog(QDialog):
    """Describes how a planting is followed by others of its kind.

    Parameters
    ----------
    parent : QWidget
    name : str
        Of the planting.
    plan : Plan
        A day typed without a year is one of its growing year.
    first, last : date
        Days of the harvest that are shown at first.
    """

    def __init__(self, parent: QWidget, name: str, plan: Plan, first: dt.date, last: dt.date) -> None:
        super().__init__(parent)
        self._begins, self._month_first = plan.span.first, month_first(plan.garden.site.units)
        self.wrong = QLabel()
        self.wrong.setWordWrap(True)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.setAccessibleDescription(say("What is wrong"))
        self.wrong.setProperty("warn", True)
        self.setWindowTitle(say("A series of {planting}", planting=name))
        self.every = QRadioButton(say("Start again every"))
        self.every.setChecked(True)
        self.days = QSpinBox()
        self.days.setRange(1, MOST_DAYS)
        self.days.setValue(USUAL_DAYS)
        self.days.setSuffix(say(" days"))
        self.days.setAccessibleName(say("Days from start to start"))
        self.until = self._day_field(say("Last start"), last)
        self.keep = QRadioButton(say("Keep it to be picked from"))
        self.first, self.last = (
            self._day_field(say("Picked from"), first),
            self._day_field(say("Picked until"), last),
        )
        form = QGridLayout()
        for column, widget in enumerate((self.every, self.days, QLabel(say("until")), self.until)):
            form.addWidget(widget, 0, column)
        for column, widget in enumerate((self.keep, self.first, QLabel(say("to")), self.last)):
            form.addWidget(widget, 1, column)
        words = QLabel(
            say(
                "Each takes the next free stretch of its bed, or of another; what would not ripen is left out."
            )
        )
        words.setWordWrap(True)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(words)
        layout.addWidget(self.wrong)
        layout.addWidget(buttons)

    def _day_field(self, name: str, day: dt.date) -> DayField:
        field = DayField(name, day, self._read_day)
        field.wrong.connect(self.wrong.setText)
        field.typed.connect(lambda _day: self.wrong.clear())
        field.righted.connect(self.wrong.clear)
        return field

    def _read_day(self, text: str) -> dt.date:
        return date_as_typed(text, self._begins, month_first=self._month_first)

    def _accept(self) -> None:
        """Close the dialog, unless a day that counts cannot be read."""
        counting = (self.until,) if self.every.isChecked() else (self.first, self.last)
        if not any(field.is_wrong for field in counting):
            self.accept()

    def make(self, plan: Plan, key: str) -> Series:
        """Make the series described.

        Parameters
        ----------
        plan : Plan
        key : str
            Id of the planting it begins with.

        Raises
        ------
        BedwrightError
            Where it cannot be made at all.
        """
        beds = [bed.id for bed in plan.beds]
        if self.every.isChecked():
            return every(plan, key, self.days.value(), self.until.day, beds)
        return all_season(plan, key, self.first.day, self.last.day, beds)
