"""Amounts as a table: each planting, and totals by variety."""

from __future__ import annotations

from PySide6.QtCore import (
    QModelIndex,
    QSortFilterProxyModel,
    Qt,
    Signal,
)
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.amounts import Amount, Total, amounts, begun_before, begun_in_year, totals
from planner.desk.model.document import Document
from planner.desk.pages.tables import HeadedModel, Index, plain_table
from planner.desk.theme.plain_tips import plain_tip
from planner.garden.units import show_area
from planner.listings.phrases import start_words
from planner.words import say_count

_RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter

TOTAL_HEADS: tuple[str, ...] = (
    "Crop",
    "Variety",
    "Plantings",
    "Plants",
    "Area",
    "Seeds",
    "Seed, g",
    "Plants to raise",
    "Sets and plants needed",
)
EACH_HEADS: tuple[str, ...] = (
    "Bed",
    "Crop",
    "Variety",
    "Plants",
    "Rows",
    "Area",
    "Start",
    "Seeds",
    "Seed, g",
    "Plants to raise",
    "Sets and plants needed",
    "Remark",
)
#: Columns of words; the others are of numbers.
_WORDS = ("Crop", "Variety", "Bed", "Start", "Remark")


def grams(value: float | None) -> str:
    """Grams of seed, to two figures."""
    if value is None:
        return "?"
    return "" if not value else f"{value:.2g}" if value < 10 else f"{value:.0f}"


def _count(value: int | None) -> str:
    return "?" if value is None else "" if not value else f"{value}"


class _AmountModel(HeadedModel):
    """Each planting's amounts, or totals by variety, one a row."""

    heads = TOTAL_HEADS

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.parts: list[Amount | Total] = []

    def refresh(self, by_variety: bool) -> None:
        """Work the rows out again."""
        self.beginResetModel()
        self.heads = TOTAL_HEADS if by_variety else EACH_HEADS
        parts = amounts(self.document.plan)
        self.parts = list(totals(parts)) if by_variety else list(parts)
        self.endResetModel()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.parts)

    def cells(self, row: int) -> tuple[str, ...]:
        """The texts of a row."""
        part, units = self.parts[row], self.document.garden.site.units
        area = show_area(part.area, units)
        tail = (_count(part.seeds), grams(part.seed_grams), _count(part.raise_), _count(part.acquire))
        if isinstance(part, Total):
            return (part.crop, part.variety, f"{part.plantings}", f"{part.plants}", area, *tail)
        remark = " ".join(dict.fromkeys(text for text in (part.problem, *part.missing) if text))
        return (
            part.bed.name,
            part.crop,
            part.variety,
            f"{part.plants}",
            f"{part.rows}",
            area,
            start_words(part.start),
            *tail,
            remark,
        )

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return self.cells(index.row())[index.column()]
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(self.cells(index.row())[index.column()])
        header = self.heads[index.column()]
        if role == Qt.ItemDataRole.TextAlignmentRole and header not in _WORDS:
            return _RIGHT
        if role == Qt.ItemDataRole.UserRole:
            return _sorted_by(header, self.cells(index.row())[index.column()])
        return None


def _sorted_by(header: str, text: str) -> str | float:
    """What a cell is sorted by: words without their capitals, numbers by their value, unknown ones first."""
    if header in _WORDS:
        return text.casefold()
    try:
        return float(text.split()[0])
    except (ValueError, IndexError):
        return -1.0


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
        self.setAccessibleName("Quantities")
        self.choice = QComboBox()
        self.choice.addItems(["Totals by variety", "Each planting"])
        self.choice.setAccessibleName("What is listed")
        self.choice.activated.connect(lambda _i: self.refresh())
        self.sum = QLabel()
        self.sum.setTextFormat(Qt.TextFormat.PlainText)
        self.sum.setWordWrap(True)
        self.model = _AmountModel(document)
        self.sorted = QSortFilterProxyModel()
        self.sorted.setSourceModel(self.model)
        self.sorted.setSortRole(Qt.ItemDataRole.UserRole)
        self.table = plain_table(self.sorted, "Table of quantities")
        self.table.setSortingEnabled(True)
        self.table.sortByColumn(0, Qt.SortOrder.AscendingOrder)
        self.table.doubleClicked.connect(self._show_on_sheet)
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
        self.model.refresh(self.choice.currentIndex() == 0)
        self.table.resizeColumnsToContents()
        plants = sum(part.plants for part in self.model.parts)
        plan = self.document.plan
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

    def _show_on_sheet(self, index: QModelIndex) -> None:
        part = self.model.parts[self.sorted.mapToSource(index).row()]
        if isinstance(part, Amount):
            self.planting_wanted.emit(part.planting.id)
