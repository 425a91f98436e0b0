"""What is in store over the months, the day it runs out, and what must be eaten first."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPlainTextEdit, QPushButton, QVBoxLayout, QWidget

from planner.amounts.supply_year import CropYear, crop_years
from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import LEAST_PICTURE, LEAST_TABLE, wrapped_label
from planner.desk.pages.harvest_rows import STORE_NUMBERS, Stored, store_heads, store_rows, stored_lots
from planner.desk.pages.opening_table import OpeningTable
from planner.desk.pages.stacked_weeks import StackedWeeks
from planner.desk.pages.store_levels import level_words, store_stack
from planner.desk.theme.palette import LookSwitch
from planner.listings.harvest_years import worst_year_lines
from planner.listings.household import persons_words
from planner.listings.store import first_lines
from planner.words import capital, later, say

_NO_HOUSEHOLD = later("How many eat from the garden is not known, so it is not known how long a store lasts.")
_NO_PLACES = later(
    "No place to keep a harvest is given: each crop is taken to keep as its figures want it. Places are entered under Household."
)
#: Height of what is to be eaten first, more of it scrolls; what is added where the worst year is told there too. [pixels]
FIRST_HEIGHT, MORE_HEIGHT = 96, 60


class StorePage(QWidget):
    """The stores of the garden.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    household_wanted
        Who eats from the garden, or where it is kept, is to be entered.
    """

    planting_wanted = Signal(str)
    household_wanted = Signal()

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("In store"))
        self._years: tuple[CropYear, ...] = ()
        self._all: list[Stored] = []
        self._found: list[Stored] = []
        self._wish = ""
        self._now = ""
        self.choice = ChoiceField(say("Stores shown"), (("", say("All stores")),))
        self.choice.chosen.connect(self._choose)
        self.household = QPushButton(say("Persons and places…"))
        self.household.clicked.connect(self.household_wanted)
        self.sum = wrapped_label()
        self.picture = StackedWeeks(look, say("Level of the stores"), self._words_of)
        self.picture.setMinimumHeight(LEAST_PICTURE)
        self.picture.week_marked.connect(lambda _week: self._show_week())
        self.week = wrapped_label()
        self.table = OpeningTable(
            store_heads(document.garden.site.units), say("Stores by crop"), STORE_NUMBERS
        )
        self.table.sort_rows(0)
        self.picture.band_picked.connect(self.table.choose)
        self.table.shown.connect(self.planting_wanted)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.first_head = wrapped_label()
        self.first_head.setText(say("To be eaten first, or more of it:"))
        self.first = QPlainTextEdit()
        self.first.setReadOnly(True)
        self.first.setTabChangesFocus(True)
        self.first.setMaximumHeight(FIRST_HEIGHT)
        self.first.setAccessibleName(say("To be eaten first"))
        self._lay_out()
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def _lay_out(self) -> None:
        head = FlowLayout()
        head.addWidget(self.choice)
        head.addWidget(self.household)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.sum)
        column.addWidget(self.picture, 500)
        column.addWidget(self.week)
        column.addWidget(self.table, 500)
        column.addWidget(self.first_head)
        column.addWidget(self.first)
        column.addStretch(1)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the stores as they are now."""
        plan = self.document.plan
        self._years = crop_years(plan)
        self._all = stored_lots(plan, self._years)
        there = {year.appetite.key: year for year, *_ in self._all}
        offered = [("", say("All stores"))]
        offered += [(key, capital(year.name)) for key, year in there.items()]
        if [words for _, words in offered] != [
            self.choice.itemText(number) for number in range(self.choice.count())
        ]:
            self.choice.offer(offered)
        self._now = self._wish if self._wish in there else ""
        self.choice.show_value(self._now)
        self._show()

    def _choose(self, key: object) -> None:
        self._wish = self._now = str(key)
        self._show()

    def _show(self) -> None:
        plan = self.document.plan
        self._found = [one for one in self._all if self._now in ("", one[0].appetite.key)]
        self.sum.setText(self._sum_words())
        self.picture.show_stack(store_stack(plan, self._found, single=bool(self._now)))
        self._show_week()
        for part in (self.picture, self.week, self.table):
            part.setVisible(bool(self._found))
        self.table.set_heads(store_heads(plan.garden.site.units))
        self.table.show_rows(store_rows(plan, self._found))
        first = self._first_words()
        if first != self.first.toPlainText():
            self.first.setPlainText(first)
        for widget in (self.first_head, self.first):
            widget.setVisible(bool(first))

    def _sum_words(self) -> str:
        plan, persons = self.document.plan, self.document.garden.household.persons
        if not persons:
            return say(_NO_HOUSEHOLD)
        words = [say("For {persons}.", persons=persons_words(persons))]
        if not self._found:
            words.append(say("Nothing is kept for months in {year}.", year=plan.year))
        if not plan.garden.store_places:
            words.append(say(_NO_PLACES))
        return " ".join(words)

    def _first_words(self) -> str:
        plan = self.document.plan
        years = [year for year in self._years if self._now in ("", year.appetite.key)]
        first = [say("{sentence}.", sentence=capital(line)) for line in first_lines(plan, years)]
        worst = [_ended(line) for line in worst_year_lines(plan, tuple(years))]
        self.first_head.setText(
            say("To be eaten first, or more of it:") if first else say("In the worst of the recorded years:")
        )
        self.first.setMaximumHeight(FIRST_HEIGHT + (MORE_HEIGHT if first and worst else 0))
        if first and worst:
            worst.insert(0, say("In the worst of the recorded years:"))
        return "\n".join((*first, *worst))

    def _words_of(self, week: int) -> str:
        stack = self.picture.stack
        if stack is None or not self._found:
            return ""
        return level_words(self.document.plan, self._found, stack.mondays[week], single=bool(self._now))

    def _show_week(self) -> None:
        words = self._words_of(self.picture.marked) if self.picture.marked >= 0 else ""
        hint = say("Click a week, or go through them with the arrow keys, to read what is in store.")
        self.week.setText(words or hint)


def _ended(line: str) -> str:
    return line if line.endswith(".") else say("{sentence}.", sentence=line)
