"""Lines of a tree, and buttons, that are as high as their wrapped words."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QResizeEvent
from PySide6.QtWidgets import (
    QHeaderView,
    QPushButton,
    QSizePolicy,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
)
from typing_extensions import override

from planner.desk.theme.plain_tips import wrapped_tip


class WrappedItems(QStyledItemDelegate):
    """Wraps the words of a one-column tree at its width.

    Parameters
    ----------
    tree : QTreeWidget
    beside : int
        Width of what lies beside the words of an inner line, besides its indentation: margins and a box. [pixels]
    """

    def __init__(self, tree: QTreeWidget, beside: int = 10) -> None:
        super().__init__(tree)
        self.tree, self.beside = tree, beside
        tree.setTextElideMode(Qt.TextElideMode.ElideNone)
        tree.header().setSectionResizeMode(QHeaderView.ResizeMode.Stretch)
        tree.header().sectionResized.connect(lambda *_sizes: tree.scheduleDelayedItemsLayout())

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        inset = self._indentation(index) + (self.beside if index.parent().isValid() else 10)
        width = max(self.tree.viewport().width() - inset, 60)
        metrics = QFontMetricsF(self.tree.font())
        rect = metrics.boundingRect(QRectF(0, 0, width, 10_000), Qt.TextFlag.TextWordWrap, str(index.data()))
        return QSize(width, round(rect.height()) + 6)

    def _indentation(self, index: QModelIndex | QPersistentModelIndex) -> int:
        """Width of the steps at the left of a line. [pixels]"""
        steps = int(self.tree.rootIsDecorated())
        above = index.parent()
        while above.isValid():
            steps, above = steps + 1, above.parent()
        return steps * self.tree.indentation()


class WrappedButton(QPushButton):
    """A button that wraps its words at the width it is given."""

    def __init__(self, words: str) -> None:
        super().__init__()
        self.words = words
        self.setAccessibleName(words)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        self._wrap(10_000)

    def explain(self, text: str) -> None:
        """Say what it does, on hover and to a screen reader."""
        self.setToolTip(wrapped_tip(text))
        self.setAccessibleDescription(text)

    def set_words(self, words: str) -> None:
        """Show other words."""
        self.words = words
        self.setAccessibleName(words)
        self._wrap(self.width() - 24)

    def _wrap(self, width: int) -> None:
        metrics, lines = self.fontMetrics(), [""]
        for word in self.words.split():
            longer = f"{lines[-1]} {word}".strip()
            if lines[-1] and metrics.horizontalAdvance(longer) > width:
                lines.append(word)
            else:
                lines[-1] = longer
        text = "\n".join(lines).replace("&", "&&")
        if text != self.text():
            self.setText(text)
            self.updateGeometry()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._wrap(self.width() - 24)
