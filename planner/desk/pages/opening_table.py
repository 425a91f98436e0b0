"""A table whose totals open to what they come from."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Sequence
from typing import NamedTuple

from PySide6.QtCore import (
    QAbstractItemModel,
    QModelIndex,
    QPersistentModelIndex,
    QSortFilterProxyModel,
    Qt,
    Signal,
)
from PySide6.QtWidgets import QAbstractItemView, QTreeView
from typing_extensions import override

from planner.desk.pages.tables import LONGEST_HEAD
from planner.desk.theme.plain_tips import plain_tip

Index = QModelIndex | QPersistentModelIndex
#: Widest column that its words make. [pixels]
_WIDEST = 420


class Row(NamedTuple):
    """A line of the table.

    Attributes
    ----------
    cells : tuple of str
        As many as there are headings.
    key : str
        Tells it from the other lines of its level; by it an open line stays open. The first cell where empty.
    shows : str
        Id of the planting, bed or structure that it comes from; empty for none.
    parts : tuple of Row
        What a total comes from; these have no parts.
    sorts : tuple of str or float
        What each cell is sorted by; the texts where empty.
    """

    cells: tuple[str, ...]
    key: str = ""
    shows: str = ""
    parts: tuple[Row, ...] = ()
    sorts: tuple[str | float, ...] = ()


class _RowModel(QAbstractItemModel):
    """Rows in two levels; an index of a part holds the number of its total, counted from 1."""

    def __init__(self, heads: Sequence[str], right: Sequence[int]) -> None:
        super().__init__()
        self.heads, self.right = tuple(heads), frozenset(right)
        self.rows: tuple[Row, ...] = ()

    def show(self, rows: Sequence[Row]) -> None:
        """Take other rows."""
        self.beginResetModel()
        self.rows = tuple(rows)
        self.endResetModel()

    def row_of(self, index: Index) -> Row:
        """The row of a valid index."""
        total = index.internalId()
        return self.rows[total - 1].parts[index.row()] if total else self.rows[index.row()]

    @override
    def index(self, row: int, column: int, parent: Index = QModelIndex()) -> QModelIndex:  # noqa: B008  # Qt's own default
        if not self.hasIndex(row, column, parent):
            return QModelIndex()
        return self.createIndex(row, column, parent.row() + 1 if parent.isValid() else 0)

    @override
    def parent(self, child: Index = QModelIndex()) -> QModelIndex:  # type: ignore[override]  # noqa: B008  # Qt's own default
        total = child.internalId() if child.isValid() else 0
        return self.createIndex(total - 1, 0, 0) if total else QModelIndex()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        if not parent.isValid():
            return len(self.rows)
        return 0 if parent.internalId() or parent.column() else len(self.rows[parent.row()].parts)

    @override
    def columnCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return len(self.heads)

    @override
    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> object:
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return "\n".join(textwrap.wrap(self.heads[section], LONGEST_HEAD))
        if role == Qt.ItemDataRole.TextAlignmentRole and section in self.right:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        row, column = self.row_of(index), index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return row.cells[column]
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(row.cells[column])
        if role == Qt.ItemDataRole.TextAlignmentRole and column in self.right:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        if role == Qt.ItemDataRole.UserRole:
            return row.sorts[column] if row.sorts else row.cells[column].casefold()
        return None


class OpeningTable(QTreeView):
    """Totals in lines; each opens to the plantings, beds or pieces it comes from.

    Signals
    -------
    shown : str
        Id of what a line comes from: that line was double-clicked, or Enter was pressed on it.
    """

    shown = Signal(str)

    def __init__(self, heads: Sequence[str], name: str, right: Sequence[int] = ()) -> None:
        """A table without rows.

        Parameters
        ----------
        heads : sequence of str
            Headings; long ones are broken.
        name : str
            What it is called to a screen reader.
        right : sequence of int
            Columns that are set to the right, counted from 0.
        """
        super().__init__()
        self._model = _RowModel(heads, right)
        self._sorted = QSortFilterProxyModel()
        self._sorted.setSourceModel(self._model)
        self._sorted.setSortRole(Qt.ItemDataRole.UserRole)
        self.setModel(self._sorted)
        self.setAccessibleName(name)
        self.setAlternatingRowColors(True)
        self.setAllColumnsShowFocus(True)
        self.setUniformRowHeights(True)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.header().setStretchLastSection(True)
        self.header().setSectionsMovable(False)
        self.activated.connect(self._activate)

    def sort_rows(self, column: int | None = None) -> None:
        """Let its headings sort it, by a column at first; in the order given where there is none."""
        self.setSortingEnabled(True)
        self.sortByColumn(-1 if column is None else column, Qt.SortOrder.AscendingOrder)

    @property
    def rows(self) -> tuple[Row, ...]:
        """Its totals, in the order given."""
        return self._model.rows

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Take other rows; what was open and chosen stays so, where it is still there."""
        if tuple(rows) == self._model.rows:
            return
        opened, chosen = (
            self._keys(self.isExpanded),
            self._keys(lambda i: i == self._top(self.currentIndex())),
        )
        at = self.verticalScrollBar().value()
        self._model.show(rows)
        for number in range(self._sorted.rowCount()):
            index = self._sorted.index(number, 0)
            key = self._key(index)
            self.setExpanded(index, key in opened)
            if key in chosen:
                self.setCurrentIndex(index)
        self._fit_columns()
        self.verticalScrollBar().setValue(at)

    def selected_rows(self) -> list[Row]:
        """The lines chosen, from top to bottom."""
        found = self.selectionModel().selectedRows()
        return [self._model.row_of(self._sorted.mapToSource(index)) for index in found]

    def selected_keys(self) -> list[str]:
        """Keys of the totals chosen, and of those of which a part is chosen."""
        found = (self._top(index) for index in self.selectionModel().selectedRows())
        return list(dict.fromkeys(self._key(index) for index in found))

    def _keys(self, holds: Callable[[QModelIndex], bool]) -> set[str]:
        tops = [self._sorted.index(number, 0) for number in range(self._sorted.rowCount())]
        return {self._key(index) for index in tops if holds(index)}

    def _key(self, index: QModelIndex) -> str:
        row = self._model.row_of(self._sorted.mapToSource(index))
        return row.key or row.cells[0]

    @staticmethod
    def _top(index: QModelIndex) -> QModelIndex:
        top = index.parent() if index.parent().isValid() else index
        return top.siblingAtColumn(0)

    def _fit_columns(self) -> None:
        for column in range(self._model.columnCount()):
            self.resizeColumnToContents(column)
            if self.columnWidth(column) > _WIDEST:
                self.setColumnWidth(column, _WIDEST)

    def _activate(self, index: QModelIndex) -> None:
        row = self._model.row_of(self._sorted.mapToSource(index))
        if row.shows:
            self.shown.emit(row.shows)
