"""Lots of seed as a table model; its cells are edited in place."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.amounts import lot_state
from planner.desk.model.document import Document
from planner.desk.pages.tables import HeadedModel, Index
from planner.errors import BedwrightError
from planner.garden import Lot, edits
from planner.garden.units import month_first
from planner.importing.stock_cells import row_fields
from planner.words import later, number_words, percent, say, short_number
from planner.words.typed_days import date_as_typed

#: Head of each column, and its field of a lot; the age is worked out.
_COLUMNS = (
    (later("Crop"), "crop"),
    (later("Variety"), "variety"),
    (later("Seeds"), "seeds"),
    (later("Grams"), "grams"),
    (later("Packed"), "packed"),
    (later("Germination"), "germination"),
    (later("Counted"), "counted"),
    (later("Ordered"), "ordered"),
    (later("Age"), ""),
    (later("Notes"), "notes"),
)
_NUMBERS = ("seeds", "grams", "packed", "germination")


class LotModel(HeadedModel):
    """Lots of seed, one a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.heads = tuple(say(_COLUMNS[n][0]) for n in range(len(_COLUMNS)))
        self.document = document
        self.lots: tuple[Lot, ...] = document.garden.stock

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new = self.document.garden.stock
        if len(new) != len(self.lots):
            self.beginResetModel()
            self.lots = new
            self.endResetModel()
        elif new is not self.lots:
            self.lots = new
        if self.lots:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.lots) - 1, len(_COLUMNS) - 1))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.lots)

    @override
    def is_editable(self, column: int) -> bool:
        return _COLUMNS[column][1] != ""

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.lots):
            return None
        field = _COLUMNS[index.column()][1]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(self.lots[index.row()], field)
        if role == Qt.ItemDataRole.TextAlignmentRole and field in _NUMBERS:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _text(self, lot: Lot, field: str) -> str:
        """The cell of a field of a lot."""
        garden, catalogue = self.document.garden, self.document.catalogue
        if field == "crop":
            return catalogue.name_of(lot.crop)
        if not field:
            return lot_state(garden, catalogue, lot, self.document.year).age_words
        value = getattr(lot, field)
        if value is None:
            return ""
        if field == "ordered":
            return say("yes") if value else ""
        if field == "germination":
            return (
                percent(value)
                if value >= 0.01 or not value
                else say("{number} %", number=number_words(100 * value, 1))
            )
        return short_number(value) if field == "grams" else f"{value}"

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole:
            return False
        lot, field = self.lots[index.row()], _COLUMNS[index.column()][1]
        text = str(value).strip()
        if text == self._text(lot, field):
            return False
        try:
            new = self._read(lot, field, text)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        return self.document.edit(
            say("Change a lot of seed"), lambda garden: edits.put_lot(garden, lot.id, **{field: new})[0]
        )

    def _read(self, lot: Lot, field: str, text: str) -> object:
        """A typed cell as a field of a lot."""
        if field in ("variety", "notes"):
            return text
        if not text and field != "crop":
            return False if field == "ordered" else None
        if field == "counted":
            plan = self.document.plan
            habit = month_first(plan.garden.site.units)
            return date_as_typed(text, plan.span.first, month_first=habit)
        heading = {"germination": "germination %"}.get(field, field)
        fields, _ = row_fields({"crop": lot.crop, heading: text}, self.document.catalogue)
        return fields[field]
