"""Everything on the sheet as a tree, in step with the selection: for screen readers and for finding."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import QItemSelection, QItemSelectionModel, QItemSelectionRange, QModelIndex, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem
from typing_extensions import override

from planner.desk.model.document import PLOT_EDGE, Document
from planner.desk.model.thing_words import planting_words, size_words, thing_words
from planner.desk.model.when_seen import WhenSeen
from planner.words import day_words, key_words, say

KEY_ROLE = Qt.ItemDataRole.UserRole


class ContentsTree(QTreeWidget):
    """Beds with their plantings, then the edge of the plot and the structures.

    A planting that is chosen is shown on a day on which it grows.

    Signals
    -------
    said : str
        A line for the status bar.
    menu_wanted : QPoint
        The menu of what is chosen is to be shown at a point of the screen.
    details_wanted
        The details of what is chosen are to be shown.
    """

    said = Signal(str)
    menu_wanted = Signal(object)
    details_wanted = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Contents of the garden"))
        self.setAccessibleDescription(
            say("Everything on the sheet. Enter opens its form, the menu key lists what can be done with it.")
        )
        self.setHeaderHidden(True)
        self.setColumnCount(1)
        self.setUniformRowHeights(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self._items: dict[str, QTreeWidgetItem] = {}
        self._shown: tuple[object, ...] = ()
        self.itemSelectionChanged.connect(self._choose)
        self._when_seen = WhenSeen(self, self.follow)
        document.garden_settled.connect(self._when_seen.follow)
        document.selection_changed.connect(self._follow_selection)
        self.follow()

    def follow(self) -> None:
        """Bring the tree in step with the plan; only words change where the things are the same."""
        plan = self.document.plan
        order: list[tuple[str, str | None]] = []
        for bed in plan.beds:
            order.append((bed.id, None))
            order += [(planting.id, bed.id) for planting in plan.in_bed(bed)]
        if plan.garden.site.outline is not None:
            order.append((PLOT_EDGE, None))
        order += [(structure.id, None) for structure in plan.garden.structures]
        if tuple(order) != self._shown:
            self._rebuild(order)
        for key, item in self._items.items():
            words = self._words(key)
            if item.text(0) != words:
                item.setText(0, words)

    def _rebuild(self, order: list[tuple[str, str | None]]) -> None:
        self.blockSignals(True)
        closed = {key for key, item in self._items.items() if item.childCount() and not item.isExpanded()}
        current = self.currentItem()
        at = list(self._items).index(current.data(0, KEY_ROLE)) if current is not None else None
        self.clear()
        self._items = {}
        for key, parent in order:
            item = QTreeWidgetItem()
            item.setData(0, KEY_ROLE, key)
            self._items[key] = item
            if parent is None:
                self.addTopLevelItem(item)
            else:
                self._items[parent].addChild(item)
        for key, item in self._items.items():
            item.setExpanded(key not in closed and len(order) < 400)
        self._shown = tuple(order)
        if at is not None and order:
            # The keys go on where they were, also where that line is gone.
            self.setCurrentItem(
                self._items[order[min(at, len(order) - 1)][0]], 0, QItemSelectionModel.SelectionFlag.NoUpdate
            )
        self.blockSignals(False)
        self._follow_selection()

    def _words(self, key: str) -> str:
        garden = self.document.garden
        if key in garden.beds_by_id:
            bed = garden.beds_by_id[key]
            return f"{bed.name}  {size_words(bed, garden.site.units)}"
        if key in garden.plantings_by_id:
            return planting_words(self.document.plan, garden.plantings_by_id[key])
        if key == PLOT_EDGE:
            return thing_words(self.document.plan, key)
        structure = garden.structures_by_id[key]
        kind = key_words(structure.kind)
        named = kind.casefold() in structure.name.casefold().split()
        return f"{structure.name} ({kind})" if structure.name and not named else structure.name or kind

    @override
    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        """Ask for the menu: of the line under the pointer, by key of the current one."""
        at = event.globalPos()
        current = self.currentItem()
        if event.reason() == QContextMenuEvent.Reason.Keyboard and current is not None:
            current.setSelected(True)
            at = self.viewport().mapToGlobal(self.visualItemRect(current).center())
        if self.document.selection:
            self.menu_wanted.emit(at)

    @override
    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter opens the form of what is chosen."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.document.selection:
            self.details_wanted.emit()
            return
        super().keyPressEvent(event)

    def _choose(self) -> None:
        keys = [item.data(0, KEY_ROLE) for item in self.selectedItems()]
        bed = any(key in self.document.garden.beds_by_id for key in keys)  # it can be seen on every day
        day = None if bed else self.document.show_growing(keys)
        self.document.select(keys)
        if day is not None:
            self.said.emit(say("The day shown is {day}, when it grows there", day=day_words(day)))

    def _follow_selection(self) -> None:
        wanted = set(self.document.selection)
        now = {item.data(0, KEY_ROLE) for item in self.selectedItems()}
        if wanted == now:
            return
        self.blockSignals(True)
        # As few ranges as can be: one by one, ten thousand take seconds.
        found = [self._items[key] for key in self.document.selection if key in self._items]
        chosen = QItemSelection()
        rows: dict[str, list[int]] = {}
        for item in found:
            parent = item.parent()
            owner = parent.data(0, KEY_ROLE) if parent is not None else ""
            rows.setdefault(owner, []).append(self.indexFromItem(item).row())
        for owner, numbers in rows.items():
            under = self.indexFromItem(self._items[owner]) if owner else QModelIndex()
            for first, last in _runs(numbers):
                model = self.model()
                chosen.append(QItemSelectionRange(model.index(first, 0, under), model.index(last, 0, under)))
        self.selectionModel().select(chosen, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        if found:
            self.scrollToItem(found[-1])
            self.setCurrentItem(found[-1], 0, QItemSelectionModel.SelectionFlag.NoUpdate)
        self.blockSignals(False)
        self.viewport().update()


def _runs(numbers: list[int]) -> Iterator[tuple[int, int]]:
    """First and last of each unbroken run."""
    ordered = sorted(numbers)
    first = ordered[0]
    for number, after in pairwise([*ordered, ordered[-1] + 2]):
        if after != number + 1:
            yield first, number
            first = after
