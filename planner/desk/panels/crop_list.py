"""The crops at the left: a list that can be searched and dragged from."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QModelIndex, QObject, QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QDrag, QFontMetricsF, QKeyEvent, QPainter
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QLineEdit,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.crops import Crop
from planner.desk.model.document import Document
from planner.desk.panels.crop_model import CROP_ROLE, SUMMARY_ROLE, VARIETY_ROLE, CropFilter, CropModel, Index
from planner.desk.theme.palette import LookSwitch, letters
from planner.desk.theme.plant_symbols import crop_picture
from planner.words import say

#: Side of a crop's picture in the list, and under the pointer while it is dragged. [pixels]
PICTURE, DRAGGED_PICTURE = 24, 26
#: By how much own varieties are set in. [pixels]
INDENT = 14
#: Darker windows count as dark.
DARK_LIGHTNESS = 0.5


class _CropPainter(QStyledItemDelegate):
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
        painter.drawPixmap(QPoint(rect.left() + 7 + indent, rect.center().y() - PICTURE // 2), picture)
        left = rect.left() + 40 + indent
        width = rect.right() - left - 6
        ink = look.on_accent if chosen else look.panel_ink
        painter.setPen(ink)
        height = _paint_line(painter, QPoint(left, rect.top() + 3), width, index.data(), 10)
        painter.setPen(ink if chosen else look.pencil)
        _paint_line(painter, QPoint(left, rect.top() + 3 + height), width, index.data(SUMMARY_ROLE), 9)
        painter.restore()


def _paint_line(painter: QPainter, at: QPoint, width: int, text: str, points: float) -> int:
    """Write a line, elided to a width; returns its height. [pixels]"""
    metrics = QFontMetricsF(letters(points))
    height = round(metrics.height())
    painter.setFont(letters(points))
    shown = metrics.elidedText(text, Qt.TextElideMode.ElideRight, width)
    painter.drawText(QRect(at.x(), at.y(), width, height), 0, shown)
    return height


class _CropView(QListView):
    """The list itself.

    Signals
    -------
    taken
        Enter was pressed on a crop.
    """

    taken = Signal()

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
        super().keyPressEvent(event)

    @override
    def startDrag(self, actions: Qt.DropAction) -> None:
        indexes = self.selectedIndexes()
        if not indexes:
            return
        drag = QDrag(self)
        drag.setMimeData(self.model().mimeData(indexes))
        crop: Crop = indexes[0].data(CROP_ROLE)
        dark = self.palette().window().color().lightnessF() < DARK_LIGHTNESS
        drag.setPixmap(crop_picture(crop, DRAGGED_PICTURE, dark, self.devicePixelRatioF()))
        drag.setHotSpot(QPoint(DRAGGED_PICTURE // 2, DRAGGED_PICTURE // 2))
        drag.exec(Qt.DropAction.CopyAction)


class CropList(QWidget):
    """Search field and list.

    Signals
    -------
    crop_taken : object, str, bool
        Crop, variety, and whether it was taken with the keyboard.
    crop_shown : object
        The crop under the list's cursor changed.
    """

    crop_taken = Signal(object, str, bool)
    crop_shown = Signal(object)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.model = CropModel(document)
        self._filter = CropFilter(self.model)
        self._make_search()
        self._make_list(look)
        self.none = QLabel(say("No crop fits these words."))
        self.none.setWordWrap(True)
        self.none.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.addWidget(self.search)
        layout.addWidget(self.none)
        layout.addWidget(self.list)
        look.changed.connect(self.list.viewport().update)

    def _make_search(self) -> None:
        self.search = QLineEdit()
        self.search.setPlaceholderText(say("Find a crop"))
        self.search.setClearButtonEnabled(True)
        self.search.setAccessibleName(say("Find a crop"))
        self.search.textChanged.connect(self._look_for)
        self.search.returnPressed.connect(lambda: self.take(by_key=True))
        self.search.installEventFilter(self)

    def _make_list(self, look: LookSwitch) -> None:
        self.list = _CropView()
        self.list.setAccessibleName(say("Crops"))
        self.list.setModel(self._filter)
        self._delegate = _CropPainter(look)
        self.list.setItemDelegate(self._delegate)
        self.list.setUniformItemSizes(True)
        self.list.setDragEnabled(True)
        self.list.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.doubleClicked.connect(lambda _index: self.take(by_key=False))
        self.list.taken.connect(lambda: self.take(by_key=True))
        self.list.selectionModel().currentChanged.connect(self._show)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self.search and isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            if event.key() == Qt.Key.Key_Down:
                self.list.setFocus(Qt.FocusReason.TabFocusReason)
                if not self.list.currentIndex().isValid():
                    self.list.setCurrentIndex(self._filter.index(0, 0))
                return True
            if event.key() == Qt.Key.Key_Escape and self.search.text():
                self.search.clear()
                return True
        return super().eventFilter(watched, event)

    def _look_for(self, words: str) -> None:
        self._filter.look_for(words)
        empty = self._filter.rowCount() == 0
        self.none.setVisible(empty)
        if not empty:
            self.list.setCurrentIndex(self._filter.index(0, 0))
            self.list.scrollToTop()

    def _show(self, index: QModelIndex, _before: QModelIndex) -> None:
        if index.isValid():
            self.crop_shown.emit(index.data(CROP_ROLE))

    def take(self, *, by_key: bool) -> None:
        """Take the crop under the list's cursor, or the first one."""
        index = self.list.currentIndex()
        if not index.isValid() and self._filter.rowCount():
            index = self._filter.index(0, 0)
        if index.isValid():
            self.crop_taken.emit(index.data(CROP_ROLE), index.data(VARIETY_ROLE), by_key)
