"""The list of a proposed layout: each planting with a tick, what stays, and what is not met."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.desk.pages.tables import HeadedModel, Index
from planner.desk.theme.plain_tips import plain_tip
from planner.listings.found_layout import FoundLayout, LayoutRow
from planner.words import say


class LayoutRows(HeadedModel):
    """Rows of a proposed layout, those that can be taken over with a tick each.

    Signals
    -------
    ticks_changed
        Others are ticked.
    """

    ticks_changed = Signal()
    #: The columns.
    CROP, BED, WHERE, AMOUNT, DAYS, STATE = range(6)

    def __init__(self) -> None:
        super().__init__()
        self.heads = (say("Crop"), say("Bed"), say("From and to"), say("How many"), say("Days"), say("State"))
        self.rows: tuple[LayoutRow, ...] = ()
        self._unticked: set[str] = set()

    def show_layout(self, found: FoundLayout | None) -> None:
        """Show another layout; what was not ticked stays so."""
        rows = found.rows if found is not None else ()
        if len(rows) != len(self.rows):
            self.beginResetModel()
            self.rows = rows
            self.endResetModel()
        elif rows:
            self.rows = rows
            self._redraw()

    def tick_all(self, *, on: bool) -> None:
        """Tick all that can be taken over, or nothing."""
        self._unticked = set() if on else {one.wish for one in self.rows}
        self._redraw()
        self.ticks_changed.emit()

    def _redraw(self) -> None:
        if self.rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.rows) - 1, self.STATE))

    @property
    def placed(self) -> set[str]:
        """Ids of the wishes for which something is proposed."""
        return {one.wish for one in self.rows if one.is_proposed}

    @property
    def ticked(self) -> set[str]:
        """Ids of the wishes whose plantings are ticked."""
        return self.placed - self._unticked

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        flags = super().flags(index)
        if index.isValid() and index.column() == 0 and self.rows[index.row()].is_proposed:
            return flags | Qt.ItemFlag.ItemIsUserCheckable
        return flags

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.rows):
            return None
        row = self.rows[index.row()]
        if role == Qt.ItemDataRole.CheckStateRole and index.column() == 0 and row.is_proposed:
            return Qt.CheckState.Checked if row.wish not in self._unticked else Qt.CheckState.Unchecked
        if role == Qt.ItemDataRole.DisplayRole:
            return self._words(row, index.column())
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(self._words(row, index.column()))
        return None

    def _words(self, row: LayoutRow, column: int) -> str:
        if row.planting is None and column == self.BED:
            return say("met in part") if row.in_part else say("not met")
        if column < self.STATE:
            return row.cells[column]
        if row.planting is not None and row.planting.pinned:
            return say("pinned")
        return say("stays") if row.stays else ""

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.CheckStateRole or index.column() != 0:
            return False
        wish = self.rows[index.row()].wish
        if Qt.CheckState(value) == Qt.CheckState.Checked:
            self._unticked.discard(wish)
        else:
            self._unticked.add(wish)
        self._redraw()
        self.ticks_changed.emit()
        return True
