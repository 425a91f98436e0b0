"""Seed on hand: lots, their age, what they cover, and import and export of the box as a table."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QHBoxLayout,
    QLabel,
    QPlainTextEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.amounts import amounts, stock
from planner.desk.model.document import Document
from planner.desk.model.phrases import cannot_be_written
from planner.desk.pages.tables import HeadedModel, Index, crop_choice, plain_table
from planner.errors import BedwrightError
from planner.garden import Garden, Lot, edits
from planner.importing import stock_table
from planner.importing.stock_cells import row_fields

_HEADS = ("Crop", "Variety", "Seeds", "Grams", "Packed", "Germination", "Age", "Notes")
_FIELDS = ("crop", "variety", "seeds", "grams", "packed", "germination", "", "notes")


class LotModel(HeadedModel):
    """Lots of seed, one a row; cells are typed into.

    Signals
    -------
    wrong : str
    """

    wrong = Signal(str)
    heads = _HEADS

    def __init__(self, document: Document) -> None:
        super().__init__()
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
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.lots) - 1, len(_HEADS) - 1))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.lots)

    @override
    def typed_into(self, column: int) -> bool:
        return _FIELDS[column] != ""

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.lots):
            return None
        lot, field = self.lots[index.row()], _FIELDS[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            if field == "crop":
                crop = self.document.catalogue.get(lot.crop)
                return crop.name if crop else lot.crop
            if not field:
                return stock.lot_state(
                    self.document.garden, self.document.catalogue, lot, self.document.year
                ).age_words
            value = getattr(lot, field)
            if value is None:
                return ""
            return (
                f"{value:.0%}" if field == "germination" else f"{value:g}" if field == "grams" else f"{value}"
            )
        if role == Qt.ItemDataRole.TextAlignmentRole and field in ("seeds", "grams", "packed", "germination"):
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole:
            return False
        lot, field, text = self.lots[index.row()], _FIELDS[index.column()], str(value).strip()
        if text == str(self.data(index)):
            return False
        try:
            new = self._read(lot, field, text)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        return self.document.edit(
            "Change a lot of seed", lambda g: edits.put_lot(g, lot.id, **{field: new})[0]
        )

    def _read(self, lot: Lot, field: str, text: str) -> object:
        """A typed cell as a field of a lot."""
        if field in ("variety", "notes"):
            return text
        if not text and field != "crop":
            return None
        heading = {"germination": "germination %"}.get(field, field)
        fields, _ = row_fields({"crop": lot.crop, heading: text}, self.document.catalogue)
        return fields[field]


class StockPage(QWidget):
    """The seed box.

    Signals
    -------
    wrong : str
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName("Stock of seed")
        self.model = LotModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, "Lots of seed")
        for column, width in enumerate((120, 130, 65, 65, 65, 90, 190)):
            self.table.setColumnWidth(column, width)
        self.crop = crop_choice(document, "Crop of a new lot")
        add, remove = QPushButton("New lot of"), QPushButton("Remove")
        add.clicked.connect(self._add)
        remove.clicked.connect(self._remove)
        take, give = QPushButton("Import a table…"), QPushButton("Export as table…")
        take.clicked.connect(self._import)
        give.clicked.connect(self._export)
        head = QHBoxLayout()
        for widget in (add, self.crop, remove):
            head.addWidget(widget)
        head.addStretch(1)
        head.addWidget(take)
        head.addWidget(give)
        self.short = QLabel()
        self.short.setWordWrap(True)
        self.short.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        column_ = QVBoxLayout(self)
        column_.setContentsMargins(0, 6, 0, 0)
        column_.addLayout(head)
        column_.addWidget(self.table, 1)
        column_.addWidget(self.short)
        document.garden_settled.connect(self.refresh)
        document.year_changed.connect(self.refresh)

    def refresh(self) -> None:
        """Show what holds now."""
        self.model.refresh()
        if not self.isVisible():
            return
        plan = self.document.plan
        lines = []
        for need in stock.shortages(plan, amounts(plan)):
            name = f"{need.name} ‘{need.variety}’" if need.variety else need.name
            lines.append(
                f"{name} {need.short} seeds" if need.short is not None else f"{name} (cannot be counted)"
            )
        head = f"Short in {self.document.year}: " if lines else f"Nothing is short in {self.document.year}."
        more = f"; and {len(lines) - 12} more" if len(lines) > 12 else ""
        self.short.setText(head + "; ".join(lines[:12]) + more)

    @override
    def showEvent(self, event) -> None:
        super().showEvent(event)
        self.refresh()

    def _add(self) -> None:
        crop = self.crop.currentData()
        year = self.document.year
        if self.document.edit(f"Add a lot of {crop}", lambda g: edits.put_lot(g, crop=crop, packed=year)[0]):
            row = self.model.rowCount() - 1
            self.table.selectRow(row)
            self.table.edit(self.model.index(row, 2))

    def _remove(self) -> None:
        keys = [self.model.lots[i.row()].id for i in self.table.selectionModel().selectedRows()]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_part(garden, key)
            return garden

        if keys:
            self.document.edit(f"Remove {len(keys)} lots" if len(keys) > 1 else "Remove a lot", change)

    def _import(self) -> None:
        path = QFileDialog.getOpenFileName(
            self, "Import a table of seed", "", "Tables (*.csv *.tsv *.txt);;All files (*)"
        )[0]
        if path:
            self.import_table(Path(path))

    def import_table(self, path: Path) -> None:
        """Show what a table holds, row by row, before anything is taken over."""
        try:
            preview = stock_table.preview(path.read_bytes(), self.document.catalogue, self.document.garden)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return
        except OSError as error:
            self.wrong.emit(f"{path} cannot be read: {error.strerror}. Check the name and the folder.")
            return
        dialog = _Preview(self, preview)
        dialog.accepted.connect(lambda: self.take_over(preview))
        dialog.open()

    def take_over(self, preview: stock_table.Preview) -> bool:
        """Add the rows of a preview that could be read, as one step."""
        return self.document.edit(
            f"Import {len(preview.good)} lots", lambda g: stock_table.import_lots(g, preview)
        )

    def _export(self) -> None:
        path = QFileDialog.getSaveFileName(self, "Export the stock", "stock.csv", "Table (*.csv)")[0]
        if path:
            try:
                Path(path).write_text(
                    stock_table.stock_csv(self.document.garden.stock, self.document.catalogue),
                    "utf-8",
                    newline="",
                )
            except OSError as error:
                self.wrong.emit(cannot_be_written(path, error))


class _Preview(QDialog):
    """What would be imported, and what cannot be."""

    def __init__(self, parent: QWidget, preview: stock_table.Preview) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Import a table of seed")
        self.resize(640, 420)
        words = f"{len(preview.good)} rows can be taken over"
        words += f", {len(preview.bad)} cannot." if preview.bad else "."
        lines = []
        for row in preview.rows:
            if row.lot is None:
                lines.append(f"✗ line {row.line}: {row.error}. {row.mend}.")
            else:
                notes = f"  ({'; '.join(row.notes)})" if row.notes else ""
                lines.append(f"✓ line {row.line}: {', '.join(cell for cell in row.cells if cell)}{notes}")
        text = QPlainTextEdit("\n".join(lines))
        text.setReadOnly(True)
        text.setAccessibleName("Rows of the table")
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.button(QDialogButtonBox.StandardButton.Ok).setText(f"Import {len(preview.good)} lots")
        buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(bool(preview.good))
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(QLabel(words))
        column.addWidget(text, 1)
        column.addWidget(buttons)
