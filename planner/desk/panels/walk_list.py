"""The beds in the order in which one walks to them, to be put in another order by dragging or with the keys."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDropEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.gestures.walking import walk_by_itself, walk_to
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.plan.walking import beds_in_walking_order
from planner.words import say

_KEY = Qt.ItemDataRole.UserRole


class _OrderedList(QListWidget):
    """A list whose lines are dragged, or moved with Alt and an arrow.

    Signals
    -------
    moved : int, int
        A line is to go from one place to another, both counted from 0.
    """

    moved = Signal(int, int)

    def __init__(self) -> None:
        super().__init__()
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        step = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
        if step is not None and event.modifiers() & Qt.KeyboardModifier.AltModifier:
            self.move_current(step)
            return
        super().keyPressEvent(event)

    def move_current(self, step: int) -> None:
        """Move the chosen line up or down."""
        row = self.currentRow()
        if row >= 0 and 0 <= row + step < self.count():
            self.moved.emit(row, row + step)

    @override
    def dropEvent(self, event: QDropEvent) -> None:
        """The list is filled from the garden: what is dropped only says where the line is to go."""
        row, at = self.currentRow(), event.position().toPoint()
        over = self.indexAt(at)
        place = over.row() if over.isValid() else self.count()
        below = over.isValid() and at.y() > self.visualRect(over).center().y()
        place += int(below)
        event.setDropAction(Qt.DropAction.IgnoreAction)
        event.accept()
        self.setState(QAbstractItemView.State.NoState)
        if row >= 0:
            self.moved.emit(row, place - (place > row))


class WalkList(QWidget):
    """The walking order as a list.

    Signals
    -------
    shown
        The list is seen: the walk is to be drawn on the sheet.

    Attributes
    ----------
    list : QListWidget
    earlier, later, by_itself : QPushButton
    """

    shown = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Walking order"))
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.list = _OrderedList()
        self.list.setAccessibleName(say("Beds in walking order"))
        self.list.setToolTip(say("Drag a line, or move it with Alt and an arrow key"))
        self.earlier, self.later = QPushButton(say("Earlier")), QPushButton(say("Later"))
        self.by_itself = QPushButton(say("By itself"))
        self.by_itself.setToolTip(say("Take back the order by hand: a short round from the gate is found"))
        self.earlier.clicked.connect(lambda: self.list.move_current(-1))
        self.later.clicked.connect(lambda: self.list.move_current(1))
        self.by_itself.clicked.connect(lambda: walk_by_itself(document))
        buttons = FlowLayout()
        for button in (self.earlier, self.later, self.by_itself):
            buttons.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(6, 6, 6, 6)
        layout.addWidget(self.words)
        layout.addWidget(self.list, 1)
        layout.addLayout(buttons)
        self.list.moved.connect(self._move)
        self.list.currentRowChanged.connect(self._choose)
        self._when_seen = WhenSeen(self, self.follow)
        document.garden_settled.connect(self._when_seen.follow)
        document.year_changed.connect(self._when_seen.follow)
        document.selection_changed.connect(self._follow_selection)
        self._when_seen.follow()

    @property
    def order(self) -> tuple[str, ...]:
        """Ids of the beds as they are listed."""
        return tuple(self.list.item(row).data(_KEY) for row in range(self.list.count()))

    def follow(self) -> None:
        """Bring the list in step with the plan."""
        beds = beds_in_walking_order(self.document.plan)
        wanted = [
            (bed.id, say("{number}  {bed}", number=number, bed=bed.name))
            for number, bed in enumerate(beds, 1)
        ]
        if [(key, self.list.item(row).text()) for row, key in enumerate(self.order)] != wanted:
            blocked, at = self.list.blockSignals(True), self.list.verticalScrollBar().value()
            self.list.clear()
            for key, words in wanted:
                item = QListWidgetItem(words)
                item.setData(_KEY, key)
                self.list.addItem(item)
            self.list.verticalScrollBar().setValue(at)
            self.list.blockSignals(blocked)
            self._follow_selection()
        by_hand = bool(self.document.garden.site.walk)
        self.words.setText(
            say("In the order given by hand.") if by_hand else say("A short round, found by itself.")
        )
        self.by_itself.setEnabled(by_hand)
        self._enable()

    def _enable(self) -> None:
        row = self.list.currentRow()
        self.earlier.setEnabled(row > 0)
        self.later.setEnabled(0 <= row < self.list.count() - 1)

    def _move(self, row: int, place: int) -> None:
        """Move a bed in the order; the list follows the garden at once, so that keys can go on."""
        order = self.order
        if walk_to(self.document, order, order[row], place):
            self.follow()
            self.list.setCurrentRow(place)

    def _choose(self, row: int) -> None:
        self._enable()
        if row >= 0:
            self.document.select((self.order[row],))

    def _follow_selection(self) -> None:
        chosen, order = self.document.selected_beds, self.order
        row = order.index(chosen[0]) if len(chosen) == 1 and chosen[0] in order else -1
        if row != self.list.currentRow():
            blocked = self.list.blockSignals(True)
            self.list.setCurrentRow(row)
            self.list.blockSignals(blocked)
            self._enable()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.shown.emit()
