"""Weeks with too much and with too little of a crop, and what closes a gap: a planting that is made by a button."""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Iterator

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from planner.amounts.closing import Closing, closings, gaps_of
from planner.amounts.harvest import Harvest
from planner.amounts.larder import LotCourse
from planner.amounts.supply_year import CropYear, Gap, Glut, crop_years
from planner.checks.unfit_ground import unfit_ground
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.garden.site import UnitSystem
from planner.listings.harvest import closing_words, left_over, refused_words
from planner.listings.phrases import day_in, days_in_short
from planner.listings.weights import weight_cell, weight_head, weight_words
from planner.plan import Plan
from planner.words import capital, day_words, join_list, later, say, say_count

#: The button is no wider. [pixels]
_BUTTON_WIDTH = 420
#: What was worked out is shown so often: each time all lines are looked through. [s]
SHOWN_EVERY = 0.3
#: Column of the amounts.
_NUMBERS = (3,)
_NO_HOUSEHOLD = later(
    "How many eat from the garden is not known, so there is no telling what is too much or too little."
)
#: A gap of a crop, with what closes it; None where nothing does.
_Found = tuple[str, Gap, Closing | None]


def gap_heads(units: UnitSystem) -> tuple[str, ...]:
    """Headings of the table."""
    return (
        say("Crop"),
        say("Weeks"),
        say("There is"),
        say("By, {unit}", unit=weight_head(units)),
        say("What would close it"),
    )


class GapsPage(QWidget):
    """Gluts and gaps of the year.

    What closes a gap is worked out beside the window, only while the page is seen.

    Signals
    -------
    household_wanted
        Who eats from the garden is to be entered.
    planting_wanted : str
        Id of a planting to show on the sheet.
    said : str
        What was planted.
    """

    household_wanted = Signal()
    planting_wanted = Signal(str)
    said = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Gluts and gaps"))
        self.jobs = JobQueue(self)
        self._found: list[tuple[CropYear, tuple[Gap, ...]]] = []
        self._closings: dict[str, Closing | None] = {}
        self._plan: Plan | None = None
        self.sum = wrapped_label()
        self.household = QPushButton(say("Say who eats…"))
        self.household.clicked.connect(self.household_wanted)
        self.table = OpeningTable(
            gap_heads(document.garden.site.units), say("Gluts, gaps and what is left over, by crop"), _NUMBERS
        )
        self.table.sort_rows(0)
        self.table.setRootIsDecorated(False)
        self.table.shown.connect(self.planting_wanted)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._follow_choice())
        self.mend = wrapped_label()
        self.plant = WrappedButton(say("Plant it there"))
        self.plant.setMaximumWidth(_BUTTON_WIDTH)
        self.plant.clicked.connect(self._plant)
        self.plant.setEnabled(False)
        head = FlowLayout()
        head.addWidget(self.household)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addWidget(self.sum)
        column.addLayout(head)
        column.addWidget(self.table, 1000)
        column.addWidget(self.mend)
        column.addWidget(self.plant)
        column.addStretch(1)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)
        document.garden_changed.connect(self._follow_change)

    # -- showing ----------------------------------------------------------------------------

    def _follow_change(self) -> None:
        """Forget what is of a garden of before; an edit that is settled at once was begun to be worked out already."""
        if self._plan is not self.document.plan:
            self._forget()

    def _forget(self) -> None:
        """What was worked out is of a garden of before: nothing of it may be planted any more."""
        self.jobs.cancel()
        self._closings = {}
        self.plant.setEnabled(False)

    def refresh(self) -> None:
        """Name the gluts and gaps as they are now, and begin to work out what closes the gaps."""
        plan = self._plan = self.document.plan
        self._forget()
        years = (year for year in crop_years(plan) if year.course is not None and year.harvests)
        self._found = [(year, gaps_of(plan, year)) for year in years]
        self.household.setVisible(not plan.garden.household.persons)
        self.table.set_heads(gap_heads(plan.garden.site.units))
        self._show_rows()
        self.sum.setText(self._sum_words())
        with_gaps = [year for year, gaps in self._found if gaps]
        if not with_gaps:
            return

        def work(cancelled: Cancelled) -> Iterator[tuple[Plan, list[_Found]]]:
            why, found, since = unfit_ground(plan), list[_Found](), time.monotonic()
            for year in with_gaps:
                if cancelled():
                    return
                found += [(year.appetite.key, *one) for one in closings(plan, year, why)]
                if time.monotonic() - since >= SHOWN_EVERY:
                    yield plan, found
                    found, since = [], time.monotonic()
            yield plan, found

        self.jobs.start(work, self._receive)

    def _sum_words(self) -> str:
        if not self.document.garden.household.persons:
            return say(_NO_HOUSEHOLD)
        if not self._found:
            return say(
                "Nothing is harvested in {year} of which it is known how much is eaten.",
                year=self.document.year,
            )
        if not self.table.rows:
            return say("Of no crop there is too much or too little, and nothing is left over.")
        return say(
            "Choose a line to read what would close the gap. Ground that rotation or light is against is passed over."
        )

    def _receive(self, result: tuple[Plan, list[_Found]]) -> None:
        plan, found = result
        if plan is not self.document.plan:
            return
        for crop, gap, closing in found:
            self._closings[_key(crop, gap)] = closing
        self._show_rows()

    def _show_rows(self) -> None:
        rows: list[Row] = []
        for year, gaps in self._found:
            rows += [self._row(year, glut, say("too much")) for glut in year.gluts]
            rows += [self._row(year, gap, say("too little")) for gap in gaps]
            rows += [self._left_row(one, course) for one, course in left_over(self.document.plan, year)]
        self.table.show_rows(rows)
        self.table.setVisible(bool(rows))
        self.plant.setVisible(bool(rows))
        self._follow_choice()

    def _row(self, year: CropYear, run: Glut | Gap, words: str) -> Row:
        units, key = self.document.garden.site.units, _key(year.appetite.key, run)
        days = self._days(run.first, run.last)
        mend = self._short_words(key) if isinstance(run, Gap) else ""
        return Row(
            (capital(year.name), days, words, weight_cell(run.grams, units), mend),
            key,
            "",
            (),
            (
                f"{year.name.casefold()} {run.first}",
                float(run.first.toordinal()),
                words,
                float(run.grams),
                mend,
            ),
        )

    def _days(self, first: dt.date, last: dt.date) -> str:
        """Days, with their years where they are not all of the growing year."""
        span = self.document.plan.span
        if span.holds(first) and span.holds(last):
            return days_in_short(first, last)
        return say("{first} – {last}", first=day_in(first, span), last=day_in(last, span))

    def _left_row(self, one: Harvest, course: LotCourse) -> Row:
        """What waited in the ground or in store, and is not eaten before it is over."""
        lot, units = course.lot, self.document.garden.site.units
        words = say("left over")
        where = say("in {bed}, of {whole}", bed=one.bed.name, whole=weight_words(lot.grams, units))
        return Row(
            (
                capital(one.crop),
                self._days(lot.first, lot.last),
                words,
                weight_cell(course.spoilt, units),
                where,
            ),
            f"{one.planting.id} {lot.first}",
            one.planting.id,
            (),
            (
                f"{one.crop.casefold()} {lot.first}",
                float(lot.first.toordinal()),
                words,
                float(course.spoilt),
                where,
            ),
        )

    def _short_words(self, key: str) -> str:
        if key not in self._closings:
            return say("being worked out")
        closing = self._closings[key]
        if closing is None:
            return say("nothing that is begun this year")
        if not closing.spots:
            return say("no ground for it")
        return _there(closing)

    # -- what closes the chosen gap -----------------------------------------------------------

    @property
    def chosen(self) -> Closing | None:
        """What closes the gap that is chosen; None where nothing does, or it is not known yet."""
        rows = self.table.selected_rows()
        return self._closings.get(rows[0].key) if rows else None

    def _follow_choice(self) -> None:
        closing = self.chosen
        self.mend.setText(self._mend_words(closing) if closing is not None else "")
        self.mend.setVisible(closing is not None)
        where = _there(closing) if closing is not None and closing.spots else ""
        self.plant.set_words(say("Plant it there: {where}", where=where) if where else say("Plant it there"))
        self.plant.setEnabled(bool(where))

    def _mend_words(self, closing: Closing) -> str:
        words = [say("{sentence}.", sentence=closing_words(self.document.plan, closing))]
        if closing.spots and closing.refused:
            words.append(say("{sentence}.", sentence=capital(refused_words(closing.refused))))
        return " ".join(words)

    def _plant(self) -> None:
        closing = self.chosen
        if closing is None or not closing.spots:
            return
        words = say("Plant {crop} to close a gap", crop=closing.crop.name)
        text = say("{crop} planted in {beds}", crop=capital(closing.crop.name), beds=_beds(closing))
        if self.document.edit(words, closing.edit):
            self.said.emit(text)


def _key(crop: str, run: Glut | Gap) -> str:
    return f"{crop} {type(run).__name__} {run.first}"


def _beds(closing: Closing) -> str:
    return join_list(list(dict.fromkeys(spot.bed.name for spot in closing.spots)))


def _there(closing: Closing) -> str:
    """How many plants, when and where, in a few words."""
    day = closing.dates.on_plot
    assert day is not None
    return say_count(
        "{count} plant on {day} in {beds}",
        "{count} plants on {day} in {beds}",
        sum(spot.plants for spot in closing.spots),
        day=day_words(day.day),
        beds=_beds(closing),
    )
