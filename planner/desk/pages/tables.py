"""The base of the tables on the pages, and the choice of a crop above them."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from PySide6.QtCore import (
    QAbstractItemModel,
    QAbstractTableModel,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QComboBox, QHeaderView, QTableView
from typing_extensions import override

from planner.desk.model.crop_names import crop_title, crops_by_name
from planner.desk.model.document import Document
from planner.desk.theme.choice_names import name_choice

Index = QModelIndex | QPersistentModelIndex


#: Longest line of a heading; longer ones are broken. [characters]
LONGEST_HEAD = 14


def broken_head(text: str) -> str:
    """A heading in lines; no word is broken."""
    return "\n".join(textwrap.wrap(text, LONGEST_HEAD, break_long_words=False, break_on_hyphens=False))


class HeadedModel(QAbstractTableModel):
    """A table with fixed heads; the cells of some columns can be edited."""

    #: Heads of the columns.
    heads: tuple[str, ...] = ()

    def is_editable(self, column: int) -> bool:
        """Whether the cells of a column can be edited."""
        return False

    @override
    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.heads)

    @override
    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        shown = role == Qt.ItemDataRole.DisplayRole and orientation == Qt.Orientation.Horizontal
        return broken_head(self.heads[section]) if shown else None

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        base = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        return base | Qt.ItemFlag.ItemIsEditable if self.is_editable(index.column()) else base


class PlainTable(QTableView):
    """A table in which Delete is its own.

    Signals
    -------
    delete_pressed
        Delete was pressed while no cell is typed into: the rows chosen are to go.
    """

    delete_pressed = Signal()

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.matches(QKeySequence.StandardKey.Delete):
            self.delete_pressed.emit()
            return
        super().keyPressEvent(event)


def plain_table(model: QAbstractItemModel, name: str, *, whole_rows: bool = True) -> PlainTable:
    """A table without lines, its last column as wide as there is room."""
    table = PlainTable()
    table.setModel(model)
    table.setAccessibleName(name)
    table.verticalHeader().hide()
    table.setShowGrid(False)
    table.setAlternatingRowColors(True)
    if whole_rows:
        table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
    table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
    table.horizontalHeader().setStretchLastSection(True)
    return table


def set_widths(table: QTableView, widths: Sequence[int]) -> None:
    """Give the columns of a table their widths, and more where a heading needs it. [pixels]"""
    head = table.horizontalHeader()
    for column, width in enumerate(widths):
        table.setColumnWidth(column, max(width, head.sectionSizeHint(column)))


class CropChoice(QComboBox):
    """A choice among all crops by name, in the garden's English; its data are their keys."""

    def __init__(self, document: Document, name: str) -> None:
        super().__init__()
        self._document, self._catalogue = document, document.catalogue
        name_choice(self, name)
        self._fill()
        document.garden_settled.connect(self._follow)

    def _fill(self) -> None:
        self._catalogue = self._document.catalogue
        for crop in crops_by_name(self._catalogue):
            self.addItem(crop_title(crop), crop.key)

    def _follow(self) -> None:
        if self._document.catalogue is self._catalogue:
            return
        blocked, key = self.blockSignals(True), self.currentData()
        self.clear()
        self._fill()
        self.setCurrentIndex(self.findData(key))
        self.blockSignals(blocked)
