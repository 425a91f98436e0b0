"""The shed: what is on hand and what sizes are sold, to be added, changed and removed."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from planner.amounts.sold_sizes import usual_size
from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.pages.choice_cells import ChoiceCells
from planner.desk.pages.shed_model import KINDS, ShedModel
from planner.desk.pages.tables import plain_table, set_widths
from planner.garden import Garden, edits
from planner.words import key_words, say, say_count

#: Widths of the columns but the last. [pixels]
_WIDTHS = (100, 122, 64, 84, 84, 56, 108, 84, 64, 100, 70)


class ShedView(QWidget):
    """A table of the shed, with buttons above it.

    Signals
    -------
    wrong : str
        Something is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.model = ShedModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, say("The shed"))
        set_widths(self.table, _WIDTHS)
        for field, words in (
            ("kind", tuple(key_words(kind) for kind in KINDS)),
            ("sold", self.model.sold_words()),
        ):
            self.table.setItemDelegateForColumn(self.model.column_of(field), ChoiceCells(self.table, words))
        self.kind = ChoiceField(say("Material to add"), [(kind, key_words(kind)) for kind in KINDS])
        self.kind.setMinimumWidth(120)  # the longest of them is wider than a narrow window
        self.add = QPushButton(say("Add to the shed"))
        self.add_sold = QPushButton(say("Add a size that is sold"))
        self.remove = QPushButton(say("Remove"))
        self.add.clicked.connect(lambda: self._add(sold=False))
        self.add_sold.clicked.connect(lambda: self._add(sold=True))
        self.remove.clicked.connect(self._remove)
        self.table.delete_pressed.connect(self._remove)
        head = FlowLayout()
        head.add_group(self.kind, self.add)
        head.addWidget(self.add_sold)
        head.addWidget(self.remove)
        hint = QLabel(
            say(
                "What is in the shed is taken first. Sizes that are sold are those that the shopping list and cut lists count with; their number is what is in a pack."
            )
        )
        hint.setWordWrap(True)
        hint.setProperty("second", True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 6, 0, 0)
        column.addLayout(head)
        column.addWidget(hint)
        column.addWidget(self.table, 1)

    def refresh(self) -> None:
        """Show the shed as it is now."""
        self.model.refresh()

    def _add(self, *, sold: bool) -> None:
        kind = KINDS[self.kind.currentIndex()]
        size: dict[str, Any] = usual_size(kind, self.document.garden.site.units)
        words = say("Add {material} to the shed", material=kind)
        if self.document.edit(words, lambda g: edits.put_shed_item(g, kind=kind, sold=sold, **size)[0]):
            self.refresh()
            row = self.model.rowCount() - 1
            self.table.selectRow(row)
            field = "length" if sold and "length" in size else "litres" if sold and size else "number"
            index = self.model.index(row, self.model.column_of(field))
            self.table.scrollTo(index)
            self.table.edit(index)

    def _remove(self) -> None:
        rows = self.table.selectionModel().selectedRows()
        keys = [self.model.items[index.row()].id for index in rows]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_material(garden, key)
            return garden

        if keys:
            words = say_count(
                "Remove {count} line of the shed", "Remove {count} lines of the shed", len(keys)
            )
            self.document.edit(words, change)
