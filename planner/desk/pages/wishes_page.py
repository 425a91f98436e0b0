"""Wishes: what this growing year, or the next one, should bring."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.wish_table import WishTable
from planner.words import later, say

_NONE = later(
    "No wishes for {year} yet. The turn of the year (Edit, Turn the year) makes some of what was grown, eaten and lacking; more are "
    "added here."
)


class WishesPage(QWidget):
    """The garden's wishes of the growing year shown or of the next one.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Wishes"))
        self._chosen: int | None = None
        self.year = ChoiceField(say("Growing year of the wishes"), ())
        self.year.chosen.connect(self._choose)
        self.wishes = WishTable(document, document, self._year_shown)
        self.wishes.wrong.connect(self.wrong)
        self.none = wrapped_label(second=True)
        head = FlowLayout()
        head.add_group(QLabel(say("Wishes for")), self.year)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.none)
        column.addWidget(self.wishes, 1)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(self._follow_year)

    def _year_shown(self) -> int:
        """The year chosen; else the one shown on the plan where it has wishes, else the next."""
        if self._chosen is not None:
            return self._chosen
        now = self.document.year
        return now if any(one.year == now for one in self.document.garden.wishes) else now + 1

    def _choose(self, year: object) -> None:
        self._chosen = int(str(year))
        self.refresh()

    def _follow_year(self) -> None:
        self._chosen = None
        self.seen.follow()

    def refresh(self) -> None:
        """Show the wishes as they are now."""
        now, shown = self.document.year, self._year_shown()
        if self.year.values != (now, now + 1):
            self.year.offer([(one, f"{one}") for one in (now, now + 1)])
        self.year.show_value(shown)
        self.wishes.refresh()
        self.none.setVisible(not self.wishes.model.records)
        self.none.setText(say(_NONE, year=shown))
