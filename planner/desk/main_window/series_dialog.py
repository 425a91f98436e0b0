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
from planner.garden.edits import EditError
from planner.garden.units import month_first
from planner.listings.other_days import series_words
from planner.plan import Plan
from planner.plan.lived_otherwise import CurveBegun
from planner.season.lived.even_series import Series as EvenSeries
from planner.season.lived.other_days import TriedDay
from planner.season.succession import Series, all_season, every, on_days
from planner.words import later, say, say_in_context
from planner.words.typed_days import date_as_typed

#: Days from start to start that are shown at first, and the most that can be given.
USUAL_DAYS, MOST_DAYS = 21, 365
#: Starts of an even series that are shown at first, and the most that can be asked for.
USUAL_STARTS, MOST_STARTS = 4, 20
_NO_EVEN = later("The recorded years do not tell of so many days: take fewer, or another series.")


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
    begun : CurveBegun, optional
        Days to be tried of the planting in the recorded years; without it no even harvest is offered.
    """

    def __init__(
        self,
        parent: QWidget,
        name: str,
        plan: Plan,
        first: dt.date,
        last: dt.date,
        begun: CurveBegun | None = None,
    ) -> None:
        super().__init__(parent)
        self._plan, self._begun = plan, begun
        self._tried: list[TriedDay] | None = None
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
        self._offer_even(form)
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
        layout.addWidget(self.picked)
        layout.addWidget(words)
        layout.addWidget(self.wrong)
        layout.addWidget(buttons)

    def _offer_even(self, form: QGridLayout) -> None:
        """A line for an even harvest over the recorded years, with what comes of it in words."""
        self.even = QRadioButton(say("Even harvest in most recorded years, begun"))
        self.number = QSpinBox()
        self.number.setRange(1, MOST_STARTS)
        self.number.setValue(USUAL_STARTS)
        self.number.setSuffix(say_in_context("of a series", " times"))
        self.number.setAccessibleName(say("Number of starts"))
        self.picked = QLabel()
        self.picked.setWordWrap(True)
        self.picked.setTextFormat(Qt.TextFormat.PlainText)
        self.picked.setAccessibleDescription(say("What comes of an even harvest"))
        form.addWidget(self.even, 2, 0)
        form.addWidget(self.number, 2, 1)
        for widget in (self.even, self.number):
            widget.setVisible(self._begun is not None)
        self.picked.hide()
        self.even.toggled.connect(self._show_even)
        self.number.valueChanged.connect(self._show_even)

    def _show_even(self) -> None:
        """Say what an even harvest would be, as long as that is chosen."""
        self.picked.setVisible(self.even.isChecked())
        if not self.even.isChecked():
            return
        series = self._even_series(self.number.value())
        fewer = self._even_series(self.number.value() - 1)
        self.picked.setText(series_words(self._plan, series, fewer) if series is not None else say(_NO_EVEN))
        layout = self.layout()
        if layout is not None:  # a dialog that is open does not grow by itself with the lines of a label
            layout.invalidate()
            layout.activate()
            self.resize(self.width(), max(self.height(), layout.totalHeightForWidth(self.width())))

    def _even_series(self, number: int) -> EvenSeries | None:
        """The days are tried when they are first asked for."""
        if self._begun is None:
            return None
        if self._tried is None:
            tried = (self._begun.try_day(day) for day in self._begun.days)
            self._tried = [one for one in tried if one is not None]
        return self._begun.even_series(self._tried, number)

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
        if self.even.isChecked():
            if self._even_series(self.number.value()) is not None:
                self.accept()
            return  # the line below it says why not
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
        if self.even.isChecked():
            even = self._even_series(self.number.value())
            if even is None:
                raise EditError(say(_NO_EVEN))
            return on_days(plan, key, even.days, beds)
        return all_season(plan, key, self.first.day, self.last.day, beds)
