"""Cells of a table that are chosen from a list instead of typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QComboBox, QStyledItemDelegate, QStyleOptionViewItem, QTableView, QWidget
from typing_extensions import override

Index = QModelIndex | QPersistentModelIndex


class ChoiceCells(QStyledItemDelegate):
    """Offers the words of a list in the cells of a column.

    Parameters
    ----------
    table : QTableView
        Keeps the delegate.
    choices : sequence of str, or callable
        The words that may be chosen, or what gives them.
    """

    def __init__(self, table: QTableView, choices: Sequence[str] | Callable[[], Sequence[str]]) -> None:
        super().__init__(table)
        self._choices = choices

    @override
    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        box = QComboBox(parent)
        box.addItems(list(self._choices() if callable(self._choices) else self._choices))
        box.setAccessibleName(str(index.model().headerData(index.column(), Qt.Orientation.Horizontal)))
        box.activated.connect(lambda _number: self._take(box))
        return box

    def _take(self, box: QComboBox) -> None:
        """What is chosen holds at once, without a further key."""
        self.commitData.emit(box)
        self.closeEditor.emit(box)

    @override
    def setEditorData(self, editor: QWidget, index: Index) -> None:
        if isinstance(editor, QComboBox):
            editor.setCurrentIndex(max(0, editor.findText(str(index.data()))))

    @override
    def setModelData(self, editor: QWidget, model: QAbstractItemModel, index: Index) -> None:
        if isinstance(editor, QComboBox):
            model.setData(index, editor.currentText())
