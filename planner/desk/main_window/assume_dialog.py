"""What a view assumes of the recorded years: that they were warmer, or those of another garden's station."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from planner.desk.forms.fields import number_field
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.pages.harvest_page import wrapped_label
from planner.errors import BedwrightError
from planner.season.lived.assumed import AS_RECORDED, Assumed, assumed_words, checked_warmer
from planner.storage.station_of import station_of
from planner.words import capital, later, say

_HINT = later(
    "Odds, bands, findings and harvests are shown as if all recorded days had been so much warmer. Dates of the plan and the garden "
    "file stay as they are."
)
_NO_YEARS = later("The garden keeps no recorded years of weather: nothing can be assumed of them.")


class AssumeDialog(QDialog):
    """Shows and changes what is assumed of the recorded years; it is not modal, and every change shows at once.

    Parameters
    ----------
    parent : QWidget
    document : Document
    choose : callable
        Asks for the file of another garden; empty for none.
    """

    def __init__(self, parent: QWidget, document: Document, choose: Callable[[], str]) -> None:
        super().__init__(parent)
        self.document, self._choose = document, choose
        self.setWindowTitle(say("As if it were warmer"))
        self.warmer = number_field(say("Warmer by, in °C"), after=" °C", may_be_empty=True)
        self.warmer.typed.connect(self._take_warmer)
        self.other, self.plain = QPushButton(say("Years of another garden…")), QPushButton(say("As recorded"))
        self.other.clicked.connect(self._take_station)
        self.plain.clicked.connect(lambda: document.assume(AS_RECORDED))
        self.shut = QPushButton(say("Close"))
        self.shut.clicked.connect(self.reject)
        hint = wrapped_label(second=True)
        hint.setText(say(_HINT))
        self.state = wrapped_label()
        head, foot = FlowLayout(), QHBoxLayout()
        head.add_group(QLabel(say("Warmer by")), self.warmer)
        head.addWidget(self.other)
        head.addWidget(self.plain)
        foot.addWidget(self.state, 1)
        foot.addWidget(self.shut)
        column = QVBoxLayout(self)
        column.addLayout(head)
        column.addWidget(hint)
        column.addLayout(foot)
        for button in (self.other, self.plain, self.shut):
            button.setAutoDefault(False)
        self.warmer.marked.connect(self._complain)
        document.assumed_changed.connect(self._follow)
        document.garden_settled.connect(self._follow)
        self.setMinimumWidth(420)
        self._follow()

    def begin(self) -> None:
        """Show what is assumed now."""
        self._follow()
        self.show()
        self.raise_()
        self.activateWindow()
        self.warmer.setFocus()
        self.warmer.selectAll()

    def _follow(self) -> None:
        plan = self.document.plan
        assumed = plan.assumed
        known = bool(plan.garden.weather.years) or assumed.station is not None
        self.warmer.setEnabled(known)
        self.plain.setEnabled(bool(assumed))
        self.warmer.show_value(assumed.warmer or None)
        if plan.recorded is None:
            self._complain(say(_NO_YEARS))
        else:
            self._complain("")
            self.state.setText(capital(assumed_words(assumed, plan.garden.site.units)) or say("As recorded"))

    def _take_warmer(self, warmer: float | None) -> None:
        try:
            wanted = checked_warmer(warmer or 0.0)
        except BedwrightError as error:
            self._complain(str(error))
            return
        self.document.assume(self.document.plan.assumed._replace(warmer=wanted))

    def _take_station(self) -> None:
        path = self._choose()
        if not path:
            return
        try:
            station = station_of(Path(path))
        except BedwrightError as error:
            self._complain(str(error))
            return
        self.document.assume(Assumed(self.document.plan.assumed.warmer, station))

    def _complain(self, why: str) -> None:
        if bool(self.state.property("warn")) != bool(why):
            self.state.setProperty("warn", bool(why))
            self.state.style().unpolish(self.state)
            self.state.style().polish(self.state)
        self.state.setText(why)
