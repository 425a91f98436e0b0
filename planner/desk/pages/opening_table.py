"""A table whose totals open to what they come from."""

from __future__ import annotations

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
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QAbstractItemView, QTreeView
from typing_extensions import override

from planner.desk.pages.tables import broken_head
from planner.desk.theme.plain_tips import plain_tip

Index = QModelIndex | QPersistentModelIndex
#: Ground beside the words of a cell. [pixels]
_BESIDE = 9
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

    def set_heads(self, heads: Sequence[str]) -> None:
        """Take other headings, as many as before."""
        self.heads = tuple(heads)
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(self.heads) - 1)

    def show(self, rows: Sequence[Row]) -> None:
        """Take other rows."""
        self.beginResetModel()
        self.rows = tuple(rows)
        self.endResetModel()

    def replace(self, rows: Sequence[Row]) -> None:
        """Take rows with the same keys as before, in their places: views are told only of those that differ."""
        old, self.rows = self.rows, tuple(rows)
        for number, (before, after) in enumerate(zip(old, self.rows, strict=True)):
            if before == after:
                continue
            self._tell(number, QModelIndex())
            top = self.index(number, 0)
            for part, (one, other) in enumerate(zip(before.parts, after.parts, strict=True)):
                if one != other:
                    self._tell(part, top)

    def _tell(self, row: int, parent: QModelIndex) -> None:
        last = len(self.heads) - 1
        self.dataChanged.emit(self.index(row, 0, parent), self.index(row, last, parent))

    def row_of(self, index: Index) -> Row:
        """The row of a valid index."""
        total = index.internalId()
        return self.rows[total - 1].parts[index.row()] if total else self.rows[index.row()]

    def longest(self) -> tuple[int, ...]:
        """Letters in the longest cell of each column, closed totals included."""
        lines = [line.cells for row in self.rows for line in (row, *row.parts)]
        return tuple(max(map(len, cells)) for cells in zip(*lines, strict=True))

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
            return broken_head(self.heads[section])
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
        self._longest: tuple[int, ...] | None = None
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
        self.expanded.connect(lambda _index: self._widen_columns())

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
        if _keys_of(rows) == _keys_of(self._model.rows):
            self._model.replace(rows)
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

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fit_columns()  # a table without rows has headings too

    def set_heads(self, heads: Sequence[str]) -> None:
        """Take other headings, as many as before: in a garden in feet they name other units."""
        if tuple(heads) != self._model.heads:
            self._model.set_heads(heads)

    def choose_from(self, shows: str) -> bool:
        """Choose the first total that comes from a thing; whether there is one.

        Parameters
        ----------
        shows : str
            Id.
        """
        for number in range(self._sorted.rowCount()):
            index = self._sorted.index(number, 0)
            if self._model.row_of(self._sorted.mapToSource(index)).shows == shows:
                self.setCurrentIndex(index)
                return True
        return False

    def choose(self, key: str) -> None:
        """Choose the line with a key, a total or a part of one, and open what it is in."""
        tops = [self._sorted.index(number, 0) for number in range(self._sorted.rowCount())]
        parts = [self._sorted.index(n, 0, top) for top in tops for n in range(self._sorted.rowCount(top))]
        found = next((index for index in (*tops, *parts) if self._key(index) == key), None)
        if found is not None:
            self.setCurrentIndex(found)
            self.scrollTo(found)

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
        """Make columns as wide as their words; not again while the longest of them are as long as they were."""
        longest = self._model.longest()
        if longest == self._longest:
            return
        self._longest = longest
        self._widen_columns()

    def _widen_columns(self) -> None:
        """Make columns as wide as their words; by the words alone, since Qt asks for each cell several times."""
        tops = self._model.rows
        opened = self._keys(self.isExpanded)
        parts = [part for row in tops if (row.key or row.cells[0]) in opened for part in row.parts]
        step = self.indentation()
        first = step if self.rootIsDecorated() else 0
        for column in range(self._model.columnCount()):
            inset = (first, first + step) if column == 0 else (0, 0)
            widths = (
                self._widest({row.cells[column] for row in rows}) + more
                for rows, more in ((tops, inset[0]), (parts, inset[1]))
            )
            width = max(self.header().sectionSizeHint(column), *widths)
            self.setColumnWidth(column, min(width, _WIDEST))

    def _widest(self, texts: set[str]) -> int:
        metrics = self.fontMetrics()
        return max((metrics.horizontalAdvance(text) for text in texts), default=0) + _BESIDE

    def _activate(self, index: QModelIndex) -> None:
        row = self._model.row_of(self._sorted.mapToSource(index))
        if row.shows:
            self.shown.emit(row.shows)


def _keys_of(rows: Sequence[Row]) -> list[tuple[str, ...]]:
    """By what the lines of a table are told from each other, each with its parts."""
    return [(row.key or row.cells[0], *(part.key or part.cells[0] for part in row.parts)) for row in rows]
