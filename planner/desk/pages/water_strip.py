"""A table of the beds' water: a strip of warmth over the weeks, and the year in numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem, QWidget
from typing_extensions import override

from planner.desk.pages.tables import HeadedModel
from planner.desk.theme.palette import LookSwitch
from planner.words import later, say

Index = QModelIndex | QPersistentModelIndex

HEADS = (
    later("Bed"),
    later("Weeks"),
    later("Week marked"),
    later("A year"),
    later("Dry year"),
    later("Thirstiest week"),
    later("In it, when dry"),
    later("Water"),
)
#: Column of the strip, and of the week that is marked.
STRIP, WEEK = 1, 2
#: Least size of a strip. [pixels]
LEAST_STRIP, _STRIP_HEIGHT = 220, 22
#: Depth from which a week is painted at its darkest. [mm]
DEEPEST = 30.0


class WaterRow(NamedTuple):
    """A bed in the table.

    Attributes
    ----------
    bed : str
        Its id.
    cells : tuple of str
        Its name, the strip in words, the watering of the week that is marked, and what follows.
    depths : tuple of float
        Water of each week over the ground of its plants. [mm]
    """

    bed: str
    cells: tuple[str, ...]
    depths: tuple[float, ...]


class WaterModel(HeadedModel):
    """The beds, a row each."""

    def __init__(self) -> None:
        super().__init__()
        self.heads = tuple(say(HEADS[place]) for place in range(len(HEADS)))
        self.rows: tuple[WaterRow, ...] = ()
        self.marked = -1

    def show(self, rows: Sequence[WaterRow]) -> None:
        """Take other rows."""
        self.beginResetModel()
        self.rows = tuple(rows)
        self.endResetModel()

    def mark(self, week: int, waterings: Mapping[str, str]) -> None:
        """Mark a week in all strips, with the watering of each bed in it; none where below 0.

        Parameters
        ----------
        week : int
        waterings : mapping of str to str
            In words, by the bed's id.
        """
        self.marked = week
        self.rows = tuple(
            row._replace(cells=(*row.cells[:WEEK], waterings.get(row.bed, ""), *row.cells[WEEK + 1 :]))
            for row in self.rows
        )
        if self.rows:
            self.dataChanged.emit(self.index(0, STRIP), self.index(len(self.rows) - 1, WEEK))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid():
            return None
        words = self.rows[index.row()].cells[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return "" if index.column() == STRIP else words
        if role in (Qt.ItemDataRole.AccessibleTextRole, Qt.ItemDataRole.ToolTipRole):
            return words
        return None


class StripPainter(QStyledItemDelegate):
    """Paints the weeks of a bed side by side, the darker the more water.

    Parameters
    ----------
    look : LookSwitch
    parent : QWidget
    """

    def __init__(self, look: LookSwitch, parent: QWidget) -> None:
        super().__init__(parent)
        self.look = look

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        hint = super().sizeHint(option, index)
        if index.column() != STRIP:
            return hint
        return QSize(max(hint.width(), LEAST_STRIP), max(hint.height(), _STRIP_HEIGHT))

    @override
    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        super().paint(painter, option, index)
        model = index.model()
        if index.column() != STRIP or not isinstance(model, WaterModel):
            return
        depths = model.rows[index.row()].depths
        if not depths:
            return
        look = self.look.now
        area = QRectF(option.rect).adjusted(4, 4, -4, -4)
        wide = area.width() / len(depths)
        painter.save()
        for week, depth in enumerate(depths):
            cell = QRectF(area.left() + week * wide, area.top(), wide, area.height())
            painter.fillRect(cell, week_colour(depth, look.field, look.accent))
        if 0 <= model.marked < len(depths):
            cell = QRectF(area.left() + model.marked * wide, area.top(), max(wide, 2.0), area.height())
            painter.setPen(look.ink)
            painter.drawRect(cell)
        painter.setPen(look.edge)
        painter.drawRect(area)
        painter.restore()


def week_colour(depth: float, ground: QColor, ink: QColor) -> QColor:
    """Colour of a week: the ground of the table where nothing is needed, towards an ink the more is.

    Parameters
    ----------
    depth : float
        [mm]
    ground, ink : QColor
    """
    share = min(max(depth / DEEPEST, 0.0), 1.0) ** 0.8
    mixed = (
        round(one + (other - one) * share) for one, other in zip(_parts(ground), _parts(ink), strict=True)
    )
    return QColor(*mixed)


def _parts(colour: QColor) -> tuple[int, int, int]:
    return colour.red(), colour.green(), colour.blue()
