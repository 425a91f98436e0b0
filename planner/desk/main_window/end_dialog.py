"""The dialog for the end of plantings: the day, and why; or the day on which one is sown anew."""

from __future__ import annotations

import datetime as dt

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QVBoxLayout, QWidget

from planner.desk.forms.day_field import DayField
from planner.desk.forms.fields import ChoiceField
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.garden.harm_words import WHY_WORDS
from planner.garden.records import ENDED_WHY
from planner.garden.units import month_first
from planner.plan import Plan
from planner.words import capital, say
from planner.words.typed_days import date_as_typed


class EndDialog(QDialog):
    """Asks when and why plantings ended, or when one that failed is sown anew.

    Parameters
    ----------
    parent : QWidget
    title, words : str
        What is asked, and what it does.
    plan : Plan
        A day typed without a year is one of its growing year.
    day : date
        Shown at first.
    asks_why : bool
        Whether it is asked why; else it failed.

    Attributes
    ----------
    why : ChoiceField
    day : DayField
    wrong : QLabel
        Why it is not possible.
    """

    def __init__(
        self, parent: QWidget, title: str, words: str, plan: Plan, day: dt.date, *, asks_why: bool
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(title)
        self._begins, self._month_first = plan.span.first, month_first(plan.garden.site.units)
        told = QLabel(words)
        self.wrong = QLabel()
        for label in (told, self.wrong):
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setWordWrap(True)
        self.wrong.setAccessibleDescription(say("What is wrong"))
        self.wrong.setProperty("warn", True)
        self.why = ChoiceField(
            say("Why"), [(one, capital(say(WHY_WORDS[one]))) for one in ENDED_WHY if one != "resown"]
        )
        self.day = DayField(say("Day"), day, self._read_day)
        self.day.marked.connect(self.wrong.setText)
        form = QFormLayout()
        if asks_why:
            form.addRow(say("Why"), self.why)
        form.addRow(say("On"), self.day)
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(told)
        layout.addLayout(form)
        layout.addWidget(self.wrong)
        layout.addWidget(buttons)
        if not asks_why:
            self.why.hide()

    def _read_day(self, text: str) -> dt.date:
        return date_as_typed(text, self._begins, month_first=self._month_first)

    def _accept(self) -> None:
        """Close the dialog, unless its day cannot be read."""
        if not self.day.is_wrong:
            self.accept()
