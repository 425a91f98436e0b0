"""The lines of the list of crops: how they are drawn, and what keys and pointer do on them."""

from __future__ import annotations

import math

from PySide6.QtCore import (
    QEvent,
    QItemSelection,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QPointF,
    QRect,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import (
    QColor,
    QContextMenuEvent,
    QDrag,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QListView, QMenu, QStyle, QStyledItemDelegate, QStyleOptionViewItem
from typing_extensions import override

from planner.crops import Crop
from planner.desk.panels.crop_model import (
    CROP_ROLE,
    FAVOURITE_ROLE,
    SUMMARY_ROLE,
    SUN_ROLE,
    VARIETY_ROLE,
    WHY_ROLE,
    Index,
)
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plant_symbols import crop_picture
from planner.words import say

#: Side of a crop's picture in the list, and under the pointer while it is dragged. [pixels]
PICTURE, DRAGGED_PICTURE = 24, 26
#: By how much varieties are set in. [pixels]
INDENT = 14
#: Side of the star of a favourite. [pixels]
STAR = 20
#: Between the figures of a crop and its hours of sun. [pixels]
GAP = 6
#: Darker windows count as dark.
DARK_LIGHTNESS = 0.5


class CropPainter(QStyledItemDelegate):
    """Draws a crop: its mark, its name, what one chooses by."""

    def __init__(self, look: LookSwitch) -> None:
        super().__init__()
        self.look = look

    @override
    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:
        name, summary = QFontMetricsF(letters(10)), QFontMetricsF(letters(9))
        return QSize(160, round(name.height() + summary.height() + 9))

    @override
    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        look, rect = self.look.now, option.rect
        crop: Crop = index.data(CROP_ROLE)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if chosen:
            painter.fillRect(rect, look.accent)
        indent = INDENT if index.data(VARIETY_ROLE) else 0
        picture = crop_picture(crop, PICTURE, look.dark, painter.device().devicePixelRatioF())
        painter.drawPixmap(picture_rect(rect, indent).topLeft(), picture)
        left = rect.left() + 40 + indent
        width = rect.right() - left - 6
        unfit = bool(index.data(WHY_ROLE))
        ink = look.on_accent if chosen else look.pencil if unfit else look.panel_ink
        hovered = bool(option.state & QStyle.StateFlag.State_MouseOver)
        favourite = bool(index.data(FAVOURITE_ROLE))
        if favourite or ((hovered or chosen) and not index.data(VARIETY_ROLE)):
            self._paint_star(painter, star_rect(rect), ink, filled=favourite)
        if unfit:
            painter.setOpacity(0.45)
            painter.fillRect(picture_rect(rect, indent), look.accent if chosen else look.field)
            painter.setOpacity(1.0)
        painter.setPen(ink)
        top = rect.top() + 3
        top += _paint_line(painter, QPoint(left, top), width - STAR, index.data(), 10)
        painter.setPen(ink if chosen else look.pencil)
        if sun := index.data(SUN_ROLE):  # at the right, and whole: what is before it is shortened
            needed = math.ceil(QFontMetricsF(letters(9)).horizontalAdvance(sun)) + 1
            width -= needed + GAP
            _paint_line(painter, QPoint(left + width + GAP, top), needed, sun, 9)
        _paint_line(painter, QPoint(left, top), width, index.data(SUMMARY_ROLE), 9)
        painter.restore()

    def _paint_star(self, painter: QPainter, rect: QRect, ink: QColor, *, filled: bool) -> None:
        points = QPolygonF()
        middle, outer = QPointF(rect.center()) + QPointF(0.5, 0.5), STAR * 0.34
        for corner in range(10):
            reach = outer if corner % 2 == 0 else outer * 0.42
            angle = math.radians(36 * corner - 90)
            points.append(middle + QPointF(reach * math.cos(angle), reach * math.sin(angle)))
        painter.setPen(QPen(ink, 1.1))
        painter.setBrush(ink if filled else Qt.BrushStyle.NoBrush)
        painter.drawPolygon(points)


def star_rect(row: QRect) -> QRect:
    """Where the star of a line is: a press there marks the crop as a favourite."""
    return QRect(row.right() - STAR - 2, row.top() + 2, STAR, STAR)


def picture_rect(row: QRect, indent: int) -> QRect:
    """Where the picture of a line is."""
    return QRect(row.left() + 7 + indent, row.center().y() - PICTURE // 2, PICTURE, PICTURE)


def _paint_line(painter: QPainter, at: QPoint, width: int, text: str, points: float) -> int:
    """Write a line, elided to a width; returns its height. [pixels]"""
    metrics = QFontMetricsF(letters(points))
    height = round(metrics.height())
    painter.setFont(letters(points))
    shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, width)
    painter.drawText(QRect(at.x(), at.y(), width, height), 0, shown)
    return height


class CropView(QListView):
    """The list itself.

    Signals
    -------
    taken
        Enter was pressed on a crop.
    star_pressed : QModelIndex
        A crop is to be a favourite, or no longer.
    """

    taken = Signal()
    star_pressed = Signal(QModelIndex)

    def __init__(self) -> None:
        super().__init__()
        self._chosen: list[QPersistentModelIndex] = []

    @override
    def selectionChanged(self, selected: QItemSelection, deselected: QItemSelection) -> None:
        super().selectionChanged(selected, deselected)
        now = self.selectedIndexes()
        kept = [index for index in self.chosen() if index in now]
        kept += [index for index in now if index not in kept]
        self._chosen = [QPersistentModelIndex(index) for index in kept]

    def chosen(self) -> list[QModelIndex]:
        """What is chosen, in the order in which it was."""
        model = self.model()
        return [model.index(index.row(), index.column()) for index in self._chosen if index.isValid()]

    @override
    def event(self, event: QEvent) -> bool:
        # A letter goes to the crop that begins with it, not to the tool whose key it is.
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and event.text().strip()
            and event.modifiers() in (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier)
        ):
            event.accept()
            return True
        return super().event(event)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken.emit()
            return
        if event.text() == "*" and self.currentIndex().isValid():
            self.star_pressed.emit(self.currentIndex())
            return
        super().keyPressEvent(event)

    @override
    def mousePressEvent(self, event: QMouseEvent) -> None:
        index = self.indexAt(event.position().toPoint())
        on_star = index.isValid() and star_rect(self.visualRect(index)).contains(event.position().toPoint())
        if on_star and event.button() == Qt.MouseButton.LeftButton and not index.data(VARIETY_ROLE):
            self.star_pressed.emit(index)
            return
        super().mousePressEvent(event)

    @override
    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        index = self.currentIndex()
        if not index.isValid():
            return
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        text = say("No longer a favourite") if index.data(FAVOURITE_ROLE) else say("Make it a favourite")
        action = menu.addAction(text)
        action.triggered.connect(lambda: self.star_pressed.emit(index))
        menu.popup(event.globalPos())

    @override
    def startDrag(self, actions: Qt.DropAction) -> None:
        indexes = self.chosen()
        if not indexes:
            return
        drag = QDrag(self)
        drag.setMimeData(self.model().mimeData(indexes))
        crop: Crop = indexes[0].data(CROP_ROLE)
        dark = self.palette().window().color().lightnessF() < DARK_LIGHTNESS
        drag.setPixmap(crop_picture(crop, DRAGGED_PICTURE, dark, self.devicePixelRatioF()))
        drag.setHotSpot(QPoint(DRAGGED_PICTURE // 2, DRAGGED_PICTURE // 2))
        drag.exec(Qt.DropAction.CopyAction)
