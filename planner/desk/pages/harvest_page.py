"""The harvest of the year week by week, against what the household eats, and a table of it by crop."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from planner.amounts.harvest import not_eaten
from planner.amounts.supply_year import CropYear, crop_years
from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_choice import ALL, Choice, choices, chosen
from planner.desk.pages.harvest_rows import HARVEST_NUMBERS, harvest_heads, harvest_rows
from planner.desk.pages.harvest_weeks import Chosen, harvest_stack, week_words, year_words
from planner.desk.pages.opening_table import OpeningTable
from planner.desk.pages.stacked_weeks import StackedWeeks
from planner.desk.theme.palette import LookSwitch
from planner.listings.harvest import uncounted_name
from planner.listings.harvest_years import stroke_words
from planner.listings.household import persons_words
from planner.words import join_list, later, say

#: A table below a picture is no lower. [pixels]
LEAST_TABLE = 70
#: The picture above it is no lower: the page must fit the screen of a notebook at 200 %. [pixels]
LEAST_PICTURE = 110
_OWN = later(
    "Yields of your own are entered under Seed, Own varieties and crops; what a planting is for, in its details."
)
_NO_HOUSEHOLD = later("How many eat from the garden is not known, so nothing is held against the harvest.")


def wrapped_label(*, second: bool = False) -> QLabel:
    """A label of plain wrapped words, which can be copied; in the second ink where they are."""
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    if second:
        label.setProperty("second", True)
    return label


class HarvestPage(QWidget):
    """What is picked week by week.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    household_wanted
        Who eats from the garden is to be entered.
    """

    planting_wanted = Signal(str)
    household_wanted = Signal()

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Harvest by week"))
        self._years: tuple[CropYear, ...] = ()
        self._chosen: Chosen = ()
        self._wish: Choice = ALL
        self.choice = ChoiceField(say("Crops shown"), ((ALL, say("All crops")),))
        self.choice.chosen.connect(self._choose)
        self.sum = wrapped_label()
        self.household = QPushButton(say("Say who eats…"))
        self.household.clicked.connect(self.household_wanted)
        self.picture = StackedWeeks(look, say("Harvest by week"), self._words_of)
        self.picture.setMinimumHeight(LEAST_PICTURE)
        self.picture.week_marked.connect(lambda _week: self._show_week())
        self.lines = wrapped_label(second=True)
        self.week = wrapped_label()
        self.table = OpeningTable(
            harvest_heads(document.garden.site.units), say("Harvest by crop"), HARVEST_NUMBERS
        )
        self.table.sort_rows(0)
        self.picture.band_picked.connect(self.table.choose)
        self.table.shown.connect(self.planting_wanted)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.own = wrapped_label(second=True)
        self.own.setText(say(_OWN))
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
        column.addWidget(self.lines)
        column.addWidget(self.week)
        column.addWidget(self.table, 500)
        column.addWidget(self.own)
        column.addStretch(1)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the harvest as it is now."""
        plan = self.document.plan
        self._years = crop_years(plan)
        offered = choices(plan, self._years)
        if [words for _, words in offered] != [
            self.choice.itemText(number) for number in range(self.choice.count())
        ]:
            self.choice.offer(offered)
        now = self._wish if self._wish in [choice for choice, _ in offered] else ALL
        self.choice.show_value(now)
        self._show(now)

    def _choose(self, choice: object) -> None:
        assert isinstance(choice, Choice)
        self._wish = choice
        self._show(choice)

    def _show(self, choice: Choice) -> None:
        plan = self.document.plan
        self._chosen = chosen(plan, self._years, choice)
        persons = plan.garden.household.persons
        self.sum.setText(self._sum_words())
        self.household.setVisible(not persons and bool(self._chosen))
        stack = harvest_stack(plan, self._chosen)
        self.picture.show_stack(stack)
        lines = _line_words(persons, bool(stack.limit), bool(stack.second))
        strokes = stroke_words(plan) if any(stack.spread) else ""
        self.lines.setText(" ".join(part for part in (lines, strokes) if part))
        self.lines.setVisible(bool(self.lines.text()))
        self._show_week()
        for part in (self.picture, self.week, self.table, self.own):
            part.setVisible(bool(self._chosen))
        self.table.set_heads(harvest_heads(plan.garden.site.units))
        self.table.show_rows(harvest_rows(plan, self._chosen))

    def _sum_words(self) -> str:
        plan, persons = self.document.plan, self.document.garden.household.persons
        if not any(year.harvests for year in self._years):
            return say(
                "Nothing is harvested in {year}: what is planted in it, and ripens, is listed here week by week.",
                year=plan.year,
            )
        words = [year_words(plan, self._years, persons_words(persons) if persons else "")]
        if not persons:
            words.append(say(_NO_HOUSEHOLD))
        unknown = dict.fromkeys(
            one.crop for year in self._years for one in year.harvests if not one.picks and one.missing
        )
        if unknown:
            words.append(
                say("Not counted, since their harvest is not known: {crops}.", crops=join_list(unknown))
            )
        counted = {one.planting.crop for year in self._years for one in year.harvests if one.picks}
        apart = dict.fromkeys(uncounted_name(plan, one, counted) for one in not_eaten(plan))
        if apart:
            words.append(
                say("Grown for seed or for cutting, and not counted: {crops}.", crops=join_list(apart))
            )
        return " ".join(words)

    def _words_of(self, week: int) -> str:
        stack = self.picture.stack
        if stack is None or not self._chosen:
            return ""
        return week_words(self.document.plan, self._chosen, stack.mondays[week])

    def _show_week(self) -> None:
        week = self.picture.marked
        words = self._words_of(week) if week >= 0 else ""
        hint = say("Click a week, or go through them with the arrow keys, to read what is picked in it.")
        self.week.setText(words or hint)


def _line_words(persons: float, wanted: bool, second: bool) -> str:
    """What the lines over the picture are."""
    if not persons or not wanted:
        return ""
    if second:
        return say(
            "Line: what {persons} would eat in a week. Dashed: what they get to eat, from the store too.",
            persons=persons_words(persons),
        )
    return say(
        "Line: what {persons} would eat in a week of the crops shown, while they may be had.",
        persons=persons_words(persons),
    )
