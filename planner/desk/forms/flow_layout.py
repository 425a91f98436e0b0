"""A row of widgets that goes on in a further line where it is too long."""

from __future__ import annotations

from PySide6.QtCore import QMargins, QRect, QSize, Qt
from PySide6.QtWidgets import QHBoxLayout, QLayout, QLayoutItem, QWidget
from typing_extensions import override


class FlowLayout(QLayout):
    """Lays widgets side by side over as many lines as they take.

    Parameters
    ----------
    spacing : int
        Between widgets and between lines. [pixels]
    filling : bool
        Whether widgets share the width of their line, each at its least; else each is as wide as its hint.
    """

    def __init__(self, spacing: int = 6, *, filling: bool = False) -> None:
        super().__init__()
        self._filling = filling
        self._items: list[QLayoutItem] = []
        self.setSpacing(spacing)
        self.setContentsMargins(QMargins())

    def add_group(self, *widgets: QWidget) -> None:
        """Add widgets that belong together: they are never parted by the end of a line.

        Parameters
        ----------
        *widgets : QWidget
            A label, say, and its field.
        """
        group = QHBoxLayout()
        group.setSpacing(self.spacing())
        for widget in widgets:
            group.addWidget(widget)
        self.addItem(group)
        self.addChildLayout(group)

    @override
    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    @override
    def count(self) -> int:
        return len(self._items)

    @override
    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    @override
    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    @override
    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    @override
    def hasHeightForWidth(self) -> bool:
        return True

    @override
    def heightForWidth(self, width: int) -> int:
        return self._lay_out(QRect(0, 0, width, 0), move=False)

    @override
    def sizeHint(self) -> QSize:
        sizes = [item.sizeHint() for item in self._shown()]
        width = sum(size.width() + self.spacing() for size in sizes) - self.spacing()
        return QSize(max(width, 0), max((size.height() for size in sizes), default=0))

    @override
    def minimumSize(self) -> QSize:
        """The widest item in one line."""
        size = QSize()
        for item in self._shown():
            size = size.expandedTo(item.minimumSize())
        return size

    @override
    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._lay_out(rect, move=True)

    def _shown(self) -> list[QLayoutItem]:
        return [item for item in self._items if not item.isEmpty()]

    def _lay_out(self, rect: QRect, *, move: bool) -> int:
        """Find the height that the items take in a width, and put them there."""
        y = rect.y()
        for line in self._lines(rect.width()):
            height = max(item.sizeHint().height() for item, _ in line)
            if move:
                self._place(line, QRect(rect.x(), y, rect.width(), height))
            y += height + self.spacing()
        return max(y - self.spacing() - rect.y(), 0)

    def _lines(self, room: int) -> list[list[tuple[QLayoutItem, int]]]:
        """The items of each line, with their widths."""
        lines: list[list[tuple[QLayoutItem, int]]] = []
        used = 0
        for item in self._shown():
            least, wish = item.minimumSize().width(), item.sizeHint().width()
            width = least if self._filling else max(min(wish, room), least)
            if not lines or used + width > room:
                lines.append([])
                used = 0
            lines[-1].append((item, width))
            used += width + self.spacing()
        return lines

    def _place(self, line: list[tuple[QLayoutItem, int]], rect: QRect) -> None:
        left = rect.width() - sum(width for _, width in line) - self.spacing() * (len(line) - 1)
        x = rect.x()
        for number, (item, width) in enumerate(line):
            more = left // (len(line) - number) if self._filling else 0
            left -= more
            item.setGeometry(QRect(x, rect.y(), max(width + more, 0), rect.height()))
            x += width + more + self.spacing()
