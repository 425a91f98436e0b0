"""The shopping list in the window: what to get by when, for which plantings, and what has been ordered and has arrived."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QComboBox, QLabel, QLineEdit, QPushButton, QVBoxLayout, QWidget

from planner.amounts.ordering import order, ordered_of
from planner.amounts.shopping import Shopping, shopping
from planner.amounts.shopping_items import Item, Served
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.theme.choice_names import name_choice
from planner.garden import Garden, edits
from planner.listings.materials import day_cell
from planner.listings.shopping_words import (
    GROUP_WORDS,
    STATUS_WORDS,
    amount_words,
    hints,
    item_words,
    packs_words,
    price_words,
    served_place,
    shops_words,
    sum_words,
    to_buy_words,
)
from planner.plan import Plan
from planner.words import capital, later, say

HEADS = (
    later("What"),
    later("Needed by"),
    later("To buy"),
    later("Get"),
    later("Price"),
    later("Where"),
    later("Needed"),
    later("On hand"),
    later("Ordered"),
    later("Part"),
)
#: Columns of numbers: to buy, price, needed, on hand, ordered.
_NUMBERS = (2, 4, 6, 7, 8)
#: What is listed, by its words.
_SHOWN = {
    "open": later("To buy and on its way"),
    "all": later("Everything that is needed"),
    "ordered": later("Ordered"),
}


def shopping_rows(plan: Plan, found: Shopping, items: Iterable[Item]) -> list[Row]:
    """The lines of a shopping list; each opens to what it is for."""
    return [_row(plan, found, one) for one in items]


def _row(plan: Plan, found: Shopping, one: Item) -> Row:
    amounts = (one.needed, one.on_hand, one.ordered)
    cells = (
        capital(item_words(plan, one)),
        day_cell(one.by, plan) if one.by is not None else "",
        to_buy_words(plan, one) if one.status == "to buy" else say(STATUS_WORDS[one.status]),
        packs_words(plan, one) if one.to_buy else "",
        price_words(one.price, found.currency) if one.to_buy else "",
        shops_words(one),
        *(amount_words(plan, one, amount) for amount in amounts),
        say(GROUP_WORDS[one.group]),
    )
    sorts: list[str | float] = [cell.casefold() for cell in cells]
    sorts[1] = float((one.by or dt.date.max).toordinal())
    for column, value in zip(_NUMBERS, (one.to_buy, one.price, *amounts), strict=True):
        sorts[column] = -1.0 if value is None else float(value)
    parts = tuple(_served(plan, one, served) for served in one.serves)
    return Row(cells, one.key, "", parts, tuple(sorts))


def _served(plan: Plan, one: Item, served: Served) -> Row:
    day = day_cell(served.day, plan) if served.day is not None else ""
    amount = amount_words(plan, one, served.amount) if served.amount else say("used again")
    state = say("done") if served.done else ""
    where = served_place(plan, one, served.key)
    cells = (where, day, state, "", "", "", amount, "", "", "")
    key = (
        served.key
        if served.key in plan.garden.plantings_by_id or served.key in plan.garden.beds_by_id
        else ""
    )
    return Row(cells, f"{served.key} {day}", key)


class ShoppingPage(QWidget):
    """The shopping list of the growing year.

    Signals
    -------
    planting_wanted : str
        Id of a planting or bed to show on the sheet.
    wrong : str
        Something is not possible; one line says why.
    save_wanted, table_wanted
        The list is to be written as PDF, or as a table.
    """

    planting_wanted = Signal(str)
    wrong = Signal(str)
    save_wanted = Signal()
    table_wanted = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Shopping"))
        self.items: dict[str, Item] = {}
        self.choice = QComboBox()
        name_choice(self.choice, say("What is listed"))
        for key in _SHOWN:
            self.choice.addItem(say(_SHOWN[key]), key)
        self.choice.activated.connect(lambda _index: self.refresh())
        self.currency = QLineEdit()
        self.currency.setAccessibleName(say("Currency of prices"))
        self.currency.setMaximumWidth(70)
        self.currency.editingFinished.connect(self._take_currency)
        self.order = QPushButton(say("Selected are ordered"))
        self.order.setToolTip(say("Enters what is to be bought of the selected lines as ordered"))
        self.order.clicked.connect(self._order)
        self.arrive = QPushButton(say("Selected have arrived"))
        self.arrive.setToolTip(say("What is ordered of the selected lines is on hand from today"))
        self.arrive.clicked.connect(self._arrive)
        save, table = QPushButton(say("Save as PDF…")), QPushButton(say("Export as table…"))
        save.clicked.connect(self.save_wanted)
        table.clicked.connect(self.table_wanted)
        self.sum = _plain_label()
        self.hint = _plain_label()
        self.hint.setProperty("second", True)
        self.table = OpeningTable(
            [say(HEADS[number]) for number in range(len(HEADS))], say("Shopping list"), _NUMBERS
        )
        self.table.setSelectionMode(OpeningTable.SelectionMode.ExtendedSelection)
        self.table.sort_rows()
        self.table.shown.connect(self.planting_wanted)
        head = FlowLayout()
        for widget in (self.choice, self.order, self.arrive, save, table):
            head.addWidget(widget)
        head.add_group(QLabel(say("Prices in")), self.currency)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.sum)
        column.addWidget(self.table, 1)
        column.addWidget(self.hint)
        self._when_seen = WhenSeen(self, self.refresh)
        document.garden_settled.connect(self._when_seen.follow)
        document.year_changed.connect(self._when_seen.follow)
        self._when_seen.follow()

    def refresh(self) -> None:
        """Show the list as it is now."""
        plan = self.document.plan
        found = shopping(plan)
        shown = self.choice.currentData()
        items = {
            "open": [one for one in found.items if one.status != "on hand"],
            "all": list(found.items),
            "ordered": [one for one in found.items if one.ordered],
        }[shown]
        self.items = {one.key: one for one in items}
        self.table.show_rows(shopping_rows(plan, found, items))
        self.sum.setText(self._sum_words(found))
        lines = [
            *hints(plan, found.to_buy),
            *dict.fromkeys(line for one in found.to_buy for line in one.missing),
        ]
        self.hint.setText("  ".join(say("{sentence}.", sentence=line) for line in lines))
        self.hint.setVisible(bool(lines))
        if not self.currency.hasFocus():
            self.currency.setText(plan.garden.site.currency)

    def _sum_words(self, found: Shopping) -> str:
        if not found.items:
            return say("Nothing is needed in {year}.", year=self.document.year)
        if not found.to_buy and not found.awaited:
            return say("Everything for {year} is on hand.", year=self.document.year)
        return sum_words(found)

    def _selected(self) -> list[Item]:
        """The lines chosen; of a chosen part its line."""
        keys = self.table.selected_keys()
        return [self.items[key] for key in keys if key in self.items]

    def _order(self) -> None:
        wanted = [one for one in self._selected() if one.to_buy]
        if not wanted:
            self.wrong.emit(say("Select lines of which something is to be bought first"))
            return
        plan = self.document.plan
        self.document.edit(say("Enter as ordered"), lambda _garden: order(plan, wanted))

    def _arrive(self) -> None:
        wanted = [one for one in self._selected() if one.ordered]
        keys = ordered_of(self.document.plan, wanted)
        if not keys:
            self.wrong.emit(say("Select lines of which something is ordered first"))
            return
        today = dt.date.today()

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.arrived(garden, key, today)
            return garden

        self.document.edit(say("Enter as arrived"), change)

    def _take_currency(self) -> None:
        text = self.currency.text().strip()
        if text != self.document.garden.site.currency:
            self.document.edit(say("Change the currency"), lambda g: edits.change_site(g, currency=text))


def _plain_label() -> QLabel:
    label = QLabel()
    label.setTextFormat(Qt.TextFormat.PlainText)
    label.setWordWrap(True)
    label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
    return label
