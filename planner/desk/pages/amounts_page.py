"""Amounts as a table: each planting, and totals by variety."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QVBoxLayout, QWidget
from typing_extensions import override

from planner.amounts import Amount, Total, amounts, begun_before, begun_in_year, totals
from planner.desk.model.document import Document
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.theme.choice_names import name_choice
from planner.garden.site import UnitSystem
from planner.garden.units import show_area
from planner.listings.phrases import start_words
from planner.words import later, say, say_count, short_number

_HEADS = (
    later("Crop"),
    later("Variety"),
    later("Bed"),
    later("Plants"),
    later("Rows"),
    later("Area"),
    later("Start"),
    later("Seeds"),
    later("Seed, g"),
    later("Plants to raise"),
    later("Sets and plants needed"),
    later("Remark"),
)
#: Columns of numbers.
_NUMBERS = (3, 4, 5, 7, 8, 9, 10)


def grams(value: float | None) -> str:
    """Grams of seed, to two figures."""
    if value is None:
        return "?"
    return "" if not value else short_number(value, 2) if value < 10 else f"{value:.0f}"


def _count(value: int | None) -> str:
    return "?" if value is None else "" if not value else f"{value}"


def _amount_row(part: Amount, units: UnitSystem) -> Row:
    """A planting's line."""
    remark = " ".join(dict.fromkeys(text for text in (part.problem, *part.missing) if text))
    start = start_words(part.start)
    cells = (
        part.crop,
        part.variety,
        part.bed.name,
        f"{part.plants}",
        f"{part.rows}",
        show_area(part.area, units),
        start,
    )
    return _row(part, part.planting.id, cells, remark, part.rows, shows=part.planting.id)


def _total_row(total: Total, units: UnitSystem) -> Row:
    """A variety's line, which opens to its plantings."""
    parts = tuple(_amount_row(part, units) for part in total.parts)
    only = total.parts[0].bed.name if total.plantings == 1 else ""
    beds = only or say_count("{count} planting", "{count} plantings", total.plantings)
    cells = (total.crop, total.variety, beds, f"{total.plants}", "", show_area(total.area, units), "")
    return _row(total, f"{total.crop}/{total.variety}", cells, "", 0, parts=parts)


def _row(
    of: Amount | Total,
    key: str,
    cells: tuple[str, ...],
    remark: str,
    rows: int,
    *,
    shows: str = "",
    parts: tuple[Row, ...] = (),
) -> Row:
    tail = (_count(of.seeds), grams(of.seed_grams), _count(of.raise_), _count(of.acquire), remark)
    sorts: list[str | float] = [cell.casefold() for cell in (*cells, *tail)]
    values = (of.plants, rows, of.area, of.seeds, of.seed_grams, of.raise_, of.acquire)
    for column, value in zip(_NUMBERS, values, strict=True):
        sorts[column] = -1.0 if value is None else float(value)
    return Row((*cells, *tail), key, shows, parts, tuple(sorts))


class AmountsPage(QWidget):
    """Plants and seed of the growing year, by planting or in total.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    """

    planting_wanted = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Quantities"))
        self.choice = QComboBox()
        self.choice.addItems([say("Totals by variety"), say("Each planting")])
        name_choice(self.choice, say("What is listed"))
        self.choice.activated.connect(lambda _i: self.refresh())
        self.sum = QLabel()
        self.sum.setTextFormat(Qt.TextFormat.PlainText)
        self.sum.setWordWrap(True)
        self.table = OpeningTable(
            [say(_HEADS[n]) for n in range(len(_HEADS))], say("Table of quantities"), _NUMBERS
        )
        self.table.sort_rows(0)
        self.table.shown.connect(self.planting_wanted)
        head = QHBoxLayout()
        head.addWidget(self.choice)
        head.addWidget(self.sum, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.table)
        document.garden_settled.connect(self.refresh)
        document.year_changed.connect(self.refresh)

    def refresh(self) -> None:
        """Show the amounts as they are now (only while the page can be seen)."""
        if not self.isVisible():
            return
        plan = self.document.plan
        parts, units = amounts(plan), plan.garden.site.units
        if self.choice.currentIndex() == 0:
            self.table.show_rows([_total_row(total, units) for total in totals(parts)])
        else:
            self.table.show_rows([_amount_row(part, units) for part in parts])
        plants = sum(part.plants for part in parts)
        begun, before = len(begun_in_year(plan)), len(begun_before(plan))
        words = say_count(
            "{count} planting is begun in {year}, with {plants} plants.",
            "{count} plantings are begun in {year}, with {plants} plants.",
            begun,
            year=plan.year,
            plants=plants,
        )
        if before:
            words += " " + say_count(
                "{count} was begun before and is not counted.",
                "{count} were begun before and are not counted.",
                before,
            )
        self.sum.setText(words)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()
