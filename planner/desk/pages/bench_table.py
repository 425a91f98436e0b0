"""The benches of a garden as a table in which they are changed, added and removed."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from planner.amounts.bench import capacity
from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.pages.choice_cells import ChoiceCells
from planner.desk.pages.tables import HeadedModel, Index, plain_table, set_widths
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.garden.raising import Bench
from planner.garden.units import FOOT, parse_length, show_length
from planner.listings.raising import KINDS
from planner.words import say, say_count

#: Field of a bench in each column; the trays that it holds are worked out.
_FIELDS = ("name", "kind", "length", "width", "", "notes")
_NUMBERS = ("length", "width", "")
_KIND = 1
#: Column of the length.
LENGTH = 2
#: Widths of the columns but the last. [pixels]
_WIDTHS = (220, 110, 90, 90, 90)
#: Length and width of a new bench: 4 ft x 2 ft, or near to it. [m]
_NEW = {"metric": (1.2, 0.6), "feet_inches": (4 * FOOT, 2 * FOOT)}


class BenchModel(HeadedModel):
    """Benches, one a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.heads = (
            say("Name"), say("Kind"), say("Length"), say("Width"), say("Room for trays"), say("Notes"),
        )  # fmt: skip
        self.benches: tuple[Bench, ...] = ()
        self._units = ""

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new, units = self.document.garden.benches, self.document.garden.site.units
        if new is self.benches and units == self._units:
            return
        self._units = units
        if [bench.id for bench in new] != [bench.id for bench in self.benches]:
            self.beginResetModel()
            self.benches = new
            self.endResetModel()
        elif new:
            self.benches = new
            self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(_FIELDS) - 1))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.benches)

    @override
    def is_editable(self, column: int) -> bool:
        return _FIELDS[column] != ""

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.benches):
            return None
        field = _FIELDS[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(self.benches[index.row()], field)
        if role == Qt.ItemDataRole.TextAlignmentRole and field in _NUMBERS:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _text(self, bench: Bench, field: str) -> str:
        """The cell of a field of a bench."""
        if not field:
            return f"{capacity(bench)}"
        if field == "kind":
            return say(KINDS[bench.kind])
        if field in ("length", "width"):
            return show_length(getattr(bench, field), self.document.garden.site.units)
        return str(getattr(bench, field))

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or not index.isValid():
            return False
        bench, field = self.benches[index.row()], _FIELDS[index.column()]
        text = str(value).strip()
        if text == self._text(bench, field):
            return False
        new: object = text
        if field in ("length", "width"):
            try:
                new = parse_length(text, self.document.garden.site.units)
            except BedwrightError as error:
                self.wrong.emit(str(BedwrightError(error.what, self.heads[index.column()], error.fix)))
                return False
        elif field == "kind":
            new = next((kind for kind in KINDS if say(KINDS[kind]) == text), text)
        return self.document.edit(
            say("Change a bench"), lambda garden: edits.put_bench(garden, bench.id, **{field: new})[0]
        )


class BenchTable(QWidget):
    """The benches, with buttons to add and remove them.

    Signals
    -------
    wrong : str
        Something is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.model = BenchModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, say("Benches"))
        self.table.setItemDelegateForColumn(
            _KIND, ChoiceCells(self.table, [say(KINDS[kind]) for kind in KINDS])
        )
        set_widths(self.table, _WIDTHS)
        self.kind = ChoiceField(say("Kind of a new bench"), [(kind, say(KINDS[kind])) for kind in KINDS])
        self.add, self.remove = QPushButton(say("New bench")), QPushButton(say("Remove"))
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.table.delete_pressed.connect(self._remove)
        head = FlowLayout()
        head.add_group(self.add, self.kind)
        head.addWidget(self.remove)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addLayout(head)
        layout.addWidget(self.table, 1)

    def refresh(self) -> None:
        """Bring the table in step with the garden."""
        self.model.refresh()
        self.remove.setEnabled(bool(self.model.benches))

    def _add(self) -> None:
        kind = list(KINDS)[self.kind.currentIndex()]
        length, width = _NEW[self.document.garden.site.units]
        if self.document.edit(
            say("Add a bench"), lambda g: edits.put_bench(g, kind=kind, length=length, width=width)[0]
        ):
            self.refresh()
            row = self.model.rowCount() - 1
            self.table.selectRow(row)
            self.table.edit(self.model.index(row, LENGTH))

    def _remove(self) -> None:
        keys = [self.model.benches[i.row()].id for i in self.table.selectionModel().selectedRows()]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_bench(garden, key)
            return garden

        if keys:
            self.document.edit(say_count("Remove {count} bench", "Remove {count} benches", len(keys)), change)
        else:
            self.wrong.emit(say("Choose a bench in the table, then remove it"))
