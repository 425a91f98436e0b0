"""Wishes: what this growing year, or the next one, should bring."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QPushButton, QSplitter, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.forms.scrolling import scrolling
from planner.desk.forms.wish_form import WishForm
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.own_plan import own_plan
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.wish_table import WishTable
from planner.desk.pages.wish_years import WishYear
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.garden.wishes import Wish
from planner.proposal.wishes import wishes_from, wishes_to_eat
from planner.words import later, say, say_count

_NONE = later(
    "No wishes for {year} yet. Make some from what was planted in {before} or from what the household eats, or add them one by one; "
    "the turn of the year (Edit, Turn the year) makes them too."
)
_USUAL = later(
    "New wishes: food should be met, for the store too; flowers, green manure and trials could be. Change it under Matters."
)
#: Table and form lie side by side from this width on; the form's width then. [pixels]
BESIDE, FORM = 900, 330
#: Least heights of table and form. [pixels]
LEAST_TABLE, LEAST_FORM = 130, 150


class WishesPage(QWidget):
    """The garden's wishes of the growing year shown or of the next one.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    said : str
        What was made.
    layout_wanted
        A layout is to be proposed for the wishes.
    """

    wrong = Signal(str)
    said = Signal(str)
    layout_wanted = Signal()

    def __init__(self, document: Document, wish_year: WishYear) -> None:
        super().__init__()
        self.document, self.wish_year = document, wish_year
        self.setAccessibleName(say("Wishes"))
        self.jobs = JobQueue(self)
        self.year = ChoiceField(say("Growing year of the wishes"), ())
        self.year.chosen.connect(wish_year.choose)
        self.wishes = WishTable(document, document, self._year_shown)
        self.wishes.wrong.connect(self.wrong)
        self.wishes.table.setMinimumHeight(LEAST_TABLE)
        self.wishes.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_choice())
        self.wishes.model.modelReset.connect(self._follow_choice)
        self.form = WishForm(document)
        self.form.wrong.connect(self.wrong)
        self.none = wrapped_label(second=True)
        self.usual = wrapped_label(second=True)
        self.usual.setText(say(_USUAL))
        self.planted, self.eaten = (
            QPushButton(say("From plantings")),
            QPushButton(say("From what the household eats")),
        )
        self.layout_button = QPushButton(say("Propose a layout"))
        self.layout_button.setToolTip(say("Searches for a layout of these wishes and shows it"))
        self.planted.clicked.connect(self._from_plantings)
        self.eaten.clicked.connect(self._from_household)
        self.layout_button.clicked.connect(self.layout_wanted)
        head = FlowLayout()
        head.add_group(QLabel(say("Wishes for")), self.year)
        for button in (self.planted, self.eaten, self.layout_button):
            head.addWidget(button)
        self.below = scrolling(self.form)
        self.below.setMinimumHeight(LEAST_FORM)
        self.body = QSplitter(Qt.Orientation.Vertical)
        self.body.setChildrenCollapsible(False)
        self.body.addWidget(self.wishes)
        self.body.addWidget(self.below)
        self.body.setStretchFactor(0, 1)
        inner = QWidget()
        column = QVBoxLayout(inner)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.none)
        column.addWidget(self.usual)
        column.addWidget(self.body, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(scrolling(inner))
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)
        wish_year.changed.connect(seen.follow)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        way = Qt.Orientation.Horizontal if self.width() >= BESIDE else Qt.Orientation.Vertical
        if self.body.orientation() != way:
            self.body.setOrientation(way)
            if way == Qt.Orientation.Horizontal:
                self.body.setSizes([max(self.width() - FORM, 1), FORM])

    def _year_shown(self) -> int:
        return self.wish_year.year

    def refresh(self) -> None:
        """Show the wishes as they are now."""
        shown = self._year_shown()
        self.wish_year.offer(self.year)
        self.wishes.refresh()
        there = bool(self.wishes.model.records)
        self.none.setVisible(not there)
        self.usual.setVisible(there)
        self.none.setText(say(_NONE, year=shown, before=shown - 1))
        self.planted.setText(say("From the plantings of {year}", year=shown - 1))
        self.layout_button.setEnabled(there)
        self._follow_choice()

    def _follow_choice(self) -> None:
        """Show the wish of the current row in the form."""
        rows = self.wishes.table.selectionModel().selectedRows()
        records = self.wishes.model.records
        key = records[rows[0].row()].id if rows and rows[0].row() < len(records) else ""
        self.below.setVisible(bool(key))
        self.form.show_thing(key)

    # -- making wishes ----------------------------------------------------------------------

    def _from_plantings(self) -> None:
        year, plan = self._year_shown(), self.document.plan
        self._make(
            say("Wishes from the plantings of {year}", year=year - 1),
            lambda: wishes_from(own_plan(plan, year - 1)),
        )

    def _from_household(self) -> None:
        year, plan = self._year_shown(), self.document.plan
        self._make(
            say("Wishes from what the household eats"),
            lambda: wishes_to_eat(own_plan(plan, year)),
        )

    def _make(self, text: str, make: Callable[[], tuple[Wish, ...]]) -> None:
        """Work wishes out beside the window, and add those that are not there yet as one step."""
        garden = self.document.stable
        self._enable(False)

        def work(_cancelled: Cancelled) -> Iterator[tuple[Wish, ...] | str]:
            try:
                yield make()
            except BedwrightError as error:
                yield str(error)

        self.jobs.start(work, lambda made: self._add(text, garden, made))

    def _enable(self, on: bool) -> None:
        self.planted.setEnabled(on)
        self.eaten.setEnabled(on)

    def _add(self, text: str, garden: Garden, made: tuple[Wish, ...] | str) -> None:
        self._enable(True)
        if isinstance(made, str):
            self.wrong.emit(made)
            return
        if garden is not self.document.stable:
            self.wrong.emit(say("The garden was changed meanwhile: no wishes were made."))
            return
        before = len(garden.wishes)
        self.document.edit(text, lambda one: edits.add_wishes(one, made))
        added = len(self.document.stable.wishes) - before
        self.said.emit(
            say_count("{count} wish made.", "{count} wishes made.", added)
            if added
            else say("There is nothing more to wish: all of it is wished already.")
        )
