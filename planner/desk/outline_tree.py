"""Everything on the sheet as a tree, in step with the selection: for screen readers and for finding."""

from __future__ import annotations

from PySide6.QtCore import QItemSelectionModel, Qt
from PySide6.QtWidgets import QAbstractItemView, QTreeWidget, QTreeWidgetItem

from planner.desk.document import Document
from planner.desk.overlay import planting_words, size_words

KEY_ROLE = Qt.ItemDataRole.UserRole


class OutlineTree(QTreeWidget):
    """Beds with their plantings, then structures."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName("Outline of the garden")
        self.setHeaderHidden(True)
        self.setColumnCount(1)
        self.setUniformRowHeights(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self._items: dict[str, QTreeWidgetItem] = {}
        self._shown: tuple[object, ...] = ()
        self.itemSelectionChanged.connect(self._choose)
        document.garden_settled.connect(self.follow)
        document.selection_changed.connect(self._follow_selection)
        self.follow()

    def follow(self) -> None:
        """Bring the tree in step with the plan; only words change where the things are the same."""
        plan = self.document.plan
        order: list[tuple[str, str | None]] = []
        for bed in plan.beds:
            order.append((bed.id, None))
            order += [(planting.id, bed.id) for planting in plan.in_bed(bed)]
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
        self.blockSignals(False)
        self._follow_selection()

    def _words(self, key: str) -> str:
        garden = self.document.garden
        if key in garden.beds_by_id:
            bed = garden.beds_by_id[key]
            return f"{bed.name}  {size_words(bed, garden.site.units)}"
        if key in garden.plantings_by_id:
            return planting_words(self.document, garden.plantings_by_id[key])
        structure = garden.structures_by_id[key]
        return f"{structure.name} ({structure.kind})" if structure.name else structure.kind

    def _choose(self) -> None:
        self.document.select(item.data(0, KEY_ROLE) for item in self.selectedItems())

    def _follow_selection(self) -> None:
        wanted = set(self.document.selection)
        now = {item.data(0, KEY_ROLE) for item in self.selectedItems()}
        if wanted == now:
            return
        self.blockSignals(True)
        self.clearSelection()
        for key in self.document.selection:
            item = self._items.get(key)
            if item is not None:
                item.setSelected(True)
                self.scrollToItem(item)
                self.setCurrentItem(item, 0, QItemSelectionModel.SelectionFlag.NoUpdate)
        self.blockSignals(False)
        self.viewport().update()
