"""The dialog for a series of one planting."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import QDate
from PySide6.QtWidgets import (
    QDateEdit,
    QDialog,
    QDialogButtonBox,
    QGridLayout,
    QLabel,
    QRadioButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import date_of
from planner.plan import Plan
from planner.season.succession import Series, all_season, every

#: Days from start to start that are shown at first, and the most that can be given.
USUAL_DAYS, MOST_DAYS = 21, 365


class SeriesDialog(QDialog):
    """Describes how a planting is followed by others of its kind.

    Parameters
    ----------
    parent : QWidget
    name : str
        Of the planting.
    first, last : date
        Days of the harvest that are shown at first.
    """

    def __init__(self, parent: QWidget, name: str, first: dt.date, last: dt.date) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"A series of {name}")
        self.every = QRadioButton("Start again every")
        self.every.setChecked(True)
        self.days = QSpinBox()
        self.days.setRange(1, MOST_DAYS)
        self.days.setValue(USUAL_DAYS)
        self.days.setSuffix(" days")
        self.days.setAccessibleName("Days from start to start")
        self.until = _date_field("Last start", last)
        self.keep = QRadioButton("Keep it to be picked from")
        self.first, self.last = _date_field("Picked from", first), _date_field("Picked until", last)
        form = QGridLayout()
        for column, widget in enumerate((self.every, self.days, QLabel("until"), self.until)):
            form.addWidget(widget, 0, column)
        for column, widget in enumerate((self.keep, self.first, QLabel("to"), self.last)):
            form.addWidget(widget, 1, column)
        words = QLabel(
            "Each takes the next free stretch of its bed, or of another; what would not ripen is left out."
        )
        words.setWordWrap(True)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(words)
        layout.addWidget(buttons)

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
            return every(plan, key, self.days.value(), date_of(self.until), beds)
        return all_season(plan, key, date_of(self.first), date_of(self.last), beds)


def _date_field(name: str, day: dt.date) -> QDateEdit:
    field = QDateEdit(QDate(day.year, day.month, day.day))
    field.setAccessibleName(name)
    field.setDisplayFormat("d MMM yyyy")
    field.setCalendarPopup(True)
    return field
