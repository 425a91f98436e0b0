"""Lines of a tree that take the height they need."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF
from PySide6.QtWidgets import QHeaderView, QStyledItemDelegate, QTreeWidget
from typing_extensions import override


class WrappedItems(QStyledItemDelegate):
    """Wraps the words of a one-column tree at its breadth."""

    def __init__(self, tree: QTreeWidget, beside: int = 30) -> None:
        super().__init__(tree)
        self.tree, self.beside = tree, beside
        tree.setTextElideMode(Qt.TextElideMode.ElideNone)
        tree.header().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        tree.header().sectionResized.connect(lambda *_sizes: tree.scheduleDelayedItemsLayout())

    @override
    def sizeHint(self, option, index) -> QSize:
        inset = self.beside if index.parent().isValid() else 10
        width = max(self.tree.viewport().width() - inset, 60)
        metrics = QFontMetricsF(self.tree.font())
        rect = metrics.boundingRect(QRectF(0, 0, width, 10_000), Qt.TextFlag.TextWordWrap, str(index.data()))
        return QSize(width, round(rect.height()) + 6)
