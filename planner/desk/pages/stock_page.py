"""Seed on hand: lots, their age, what they cover, and import and export of the stock as a table."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFileDialog, QLabel, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from planner.amounts import needs
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.phrases import cannot_be_written
from planner.desk.pages.import_preview import ImportPreview
from planner.desk.pages.lot_model import LotModel
from planner.desk.pages.tables import CropChoice, plain_table, set_widths
from planner.desk.theme.plain_tips import plain_tip
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.importing import stock_table, table_text
from planner.listings.export_files import table_kind, write_export
from planner.listings.stock import STOCK_COLUMNS, ordered_words, short_words, stock_csv
from planner.plain_file import open_plain
from planner.words import say, say_count

#: Widths of the columns but the last. [pixels]
_WIDTHS = (110, 105, 55, 55, 60, 85, 80, 60, 130)
#: Most crops that are named as short.
MOST_NAMED = 12
#: Column of the number of seeds.
_SEEDS = 2


class StockPage(QWidget):
    """The stock of seed.

    Signals
    -------
    wrong : str
        Something is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Stock of seed"))
        self.model = LotModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, say("Lots of seed"))
        set_widths(self.table, _WIDTHS)
        self.short = QLabel()
        self.short.setTextFormat(Qt.TextFormat.PlainText)
        self.short.setWordWrap(True)
        self.short.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(14, 12, 14, 12)
        layout.addLayout(self._make_head())
        layout.addWidget(self.table, 1)
        layout.addWidget(self.short)
        document.garden_settled.connect(self.refresh)
        document.year_changed.connect(self.refresh)

    def _make_head(self) -> FlowLayout:
        self.crop = CropChoice(self.document, say("Crop of a new lot"))
        add, remove = QPushButton(say("New lot of")), QPushButton(say("Remove"))
        add.clicked.connect(self._add)
        remove.clicked.connect(self._remove)
        self.table.delete_pressed.connect(self._remove)
        take, give = QPushButton(say("Import a table…")), QPushButton(say("Export as table…"))
        take.clicked.connect(self._choose_import)
        give.clicked.connect(self._export)
        head = FlowLayout()
        head.add_group(add, self.crop)
        for widget in (remove, take, give):
            head.addWidget(widget)
        return head

    def refresh(self) -> None:
        """Show the stock as it is now."""
        self.model.refresh()
        if self.isVisible():
            short, ordered = self._shortages()
            self.short.setText(self._short_words(short, ordered))
            self.short.setToolTip(plain_tip("\n".join((*short, *ordered))))

    def _shortages(self) -> tuple[list[str], list[str]]:
        """Sorts of which the growing year needs more seed than there is, and those that are ordered; a line each.

        Nothing where no seed is entered.
        """
        if not self.document.garden.stock:
            return [], []
        of_year = needs(self.document.plan)
        return (
            [short_words(need) for need in of_year if need.short is None or need.short],
            [ordered_words(need) for need in of_year if need.ordered and not need.short],
        )

    def _short_words(self, short: list[str], ordered: list[str]) -> str:
        plan = self.document.plan
        if not plan.garden.stock:
            return ""
        head = (
            say("Short for what is begun in {year}:", year=plan.year)
            if short
            else say("Nothing is short for what is begun in {year}.", year=plan.year)
        )
        return "  ".join([head, _first_few(short), *([_first_few(ordered)] if ordered else [])]).strip()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()

    # -- lots -------------------------------------------------------------------------------

    def _add(self) -> None:
        crop, year = self.crop.currentData(), min(self.document.year, dt.date.today().year)
        words = say("Add a lot of {crop}", crop=self.document.catalogue.name_of(crop))
        if self.document.edit(words, lambda g: edits.put_lot(g, crop=crop, packed=year)[0]):
            row = self.model.rowCount() - 1
            self.table.selectRow(row)
            self.table.edit(self.model.index(row, _SEEDS))

    def _remove(self) -> None:
        keys = [self.model.lots[i.row()].id for i in self.table.selectionModel().selectedRows()]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_part(garden, key)
            return garden

        if keys:
            self.document.edit(say_count("Remove {count} lot", "Remove {count} lots", len(keys)), change)

    # -- tables -----------------------------------------------------------------------------

    def _choose_import(self) -> None:
        path = QFileDialog.getOpenFileName(
            self, say("Import a table of seed"), "", say("Tables (*.csv *.tsv *.txt);;All files (*)")
        )[0]
        if path:
            self.import_table(Path(path))

    def import_table(self, path: Path) -> None:
        """Show what a table holds, row by row, before anything of it is added."""
        try:
            with open_plain(path) as file:
                data = file.read(table_text.MOST_BYTES + 1)
            preview = stock_table.preview(data, self.document.catalogue, self.document.garden)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return
        except OSError as error:
            self.wrong.emit(
                say(
                    "{file} cannot be read: {why}. Check the name and the folder.",
                    file=str(path),
                    why=error.strerror,
                )
            )
            return
        dialog = ImportPreview(self, say("Import a table of seed"), say("Rows of the table"))
        dialog.show_file(
            _summary(len(preview.good), len(preview.bad)),
            map(_row_words, preview.rows),
            say_count("Import {count} lot", "Import {count} lots", len(preview.good)),
            can_be_taken=bool(preview.good),
        )
        dialog.accepted.connect(lambda: self.add_lots(preview))
        dialog.open()

    def add_lots(self, preview: stock_table.Preview) -> bool:
        """Add the rows of a preview that could be read, as one step."""
        words = say_count("Import {count} lot", "Import {count} lots", len(preview.good))
        return self.document.edit(words, lambda g: stock_table.import_lots(g, preview))

    def _export(self) -> None:
        path = QFileDialog.getSaveFileName(self, say("Export the stock"), "stock.csv", say("Table (*.csv)"))[
            0
        ]
        if path:
            table = stock_csv(self.document.garden.stock, self.document.catalogue)
            try:
                write_export(table, path, table_kind(STOCK_COLUMNS))
            except BedwrightError as error:
                self.wrong.emit(str(error))
            except OSError as error:
                self.wrong.emit(cannot_be_written(path, error))


def _first_few(lines: list[str]) -> str:
    """Some lines after one another; of many the first, and how many more there are."""
    more = len(lines) - MOST_NAMED
    rest = [say_count("and {count} more", "and {count} more", more)] if more > 0 else []
    return "; ".join([*lines[:MOST_NAMED], *rest]) + ("." if lines else "")


def _summary(good: int, bad: int) -> str:
    """How many rows of a table can be taken over, and how many cannot."""
    words = say_count("{count} row can be taken over.", "{count} rows can be taken over.", good)
    lost = say_count("{count} row cannot.", "{count} rows cannot.", bad) if bad else ""
    return f"{words} {lost}".strip()


def _row_words(row: stock_table.Row) -> str:
    if row.lot is None:
        return say("✗ line {line}: {error}. {mend}.", line=row.line, error=row.error, mend=row.mend)
    notes = f"  ({'; '.join(row.notes)})" if row.notes else ""
    cells = ", ".join(cell for cell in row.cells if cell)
    return say("✓ line {line}: {cells}{notes}", line=row.line, cells=cells, notes=notes)
