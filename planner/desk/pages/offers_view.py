"""What can be bought of crops, and planting stock: sets, tubers, cloves, crowns and plants on hand or ordered."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, get_args

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.record_model import (
    RecordColumn,
    RecordModel,
    decimal_number,
    plain_text,
    record_table,
    whole_number,
    yes_or_no,
)
from planner.desk.pages.tables import CropChoice
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.garden.offers import StockKind
from planner.garden.typed_amounts import parse_seed_mass
from planner.garden.units import show_mass
from planner.words import key_words, later, number_words, say, say_count, say_in_context

OFFER_KINDS: tuple[str, ...] = ("seed", *get_args(StockKind))
#: What a new offer holds until it is said.
_SIZES: dict[str, dict[str, Any]] = {"seed": {"seeds": 100}} | {
    kind: {"pieces": 10} for kind in get_args(StockKind)
}
_CROP = later("Crop")


def _crop_column(document: Document) -> RecordColumn:
    """The crop of a record by its name; it is changed by removing the line and adding another."""

    def refuse(_text: str, _record: Any) -> dict[str, Any]:
        raise BedwrightError(
            say("the crop of a line stays"), fix=say("Remove the line and add one of the other crop")
        )

    return RecordColumn(say(_CROP), lambda record: document.catalogue.name_of(record.crop), refuse)


def offer_columns(document: Document) -> tuple[RecordColumn, ...]:
    """Columns of what can be bought."""

    def price(value: float) -> str:
        return number_words(value, 2)

    def weight(record: Any) -> str:
        return "" if record.grams is None else show_mass(record.grams, document.garden.site.units)

    def read_weight(text: str, _record: Any) -> dict[str, Any]:
        return {"grams": parse_seed_mass(text, document.garden.site.units) if text else None}

    by_words = {key_words(kind): kind for kind in OFFER_KINDS}

    def kind(text: str, _record: Any) -> dict[str, Any]:
        chosen = by_words[text]
        return {"kind": chosen, "seeds": None, "grams": None, "pieces": None} | _SIZES[chosen]

    return (
        _crop_column(document),
        plain_text(say("Variety"), "variety"),
        RecordColumn(say("Kind"), lambda record: key_words(record.kind), kind, choices=tuple(by_words)),
        whole_number(say("Seeds in a packet"), "seeds"),
        RecordColumn(say("Weight of a packet"), weight, read_weight, right=True),
        whole_number(say("Pieces in a pack"), "pieces"),
        decimal_number(say("Price of one"), "price", price, "2.40"),
        plain_text(say("Where"), "shop"),
        plain_text(say("Notes"), "notes"),
    )


def stock_columns(document: Document) -> tuple[RecordColumn, ...]:
    """Columns of planting stock."""
    kinds = get_args(StockKind)
    return (
        _crop_column(document),
        plain_text(say("Variety"), "variety"),
        RecordColumn(
            say("Kind"), lambda record: record.kind, lambda text, _record: {"kind": text}, choices=kinds
        ),
        whole_number(say_in_context("how many", "Number"), "number", needed=True),
        whole_number(say("For the year"), "year"),
        yes_or_no(say("Ordered"), "ordered"),
        plain_text(say("Notes"), "notes"),
    )


class _RecordsView(QWidget):
    """A table of records, with a line of what it is for and buttons above it.

    Signals
    -------
    wrong : str
        Something is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(
        self,
        document: Document,
        model: RecordModel,
        name: str,
        hint: str,
        kinds: Mapping[str, int],
        new: Callable[[Garden, str, str], Garden],
    ) -> None:
        """A table of records.

        Parameters
        ----------
        document : Document
        model : RecordModel
        name : str
            What it is called to a screen reader.
        hint : str
            What it is for.
        kinds : mapping of str to int
            Kinds of a new line, and the column that is typed first in it.
        new : callable
            A garden with a new line of a crop and kind.
        """
        super().__init__()
        self.document, self.model, self.kinds = document, model, tuple(kinds)
        self._typed_first, self._new = kinds, new
        self.setAccessibleName(name)
        model.wrong.connect(self.wrong)
        self.table = record_table(model, name)
        self.crop = CropChoice(document, say("Crop of a new line"))
        self.kind = ChoiceField(say("Kind of a new line"), [(kind, key_words(kind)) for kind in self.kinds])
        self.add = QPushButton(say("Add"))
        self.remove = QPushButton(say("Remove"))
        self.add.clicked.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.table.delete_pressed.connect(self._remove)
        head = FlowLayout()
        head.add_group(self.add, self.kind, QLabel(say("of")), self.crop)
        head.addWidget(self.remove)
        words = QLabel(hint)
        words.setWordWrap(True)
        words.setProperty("second", True)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(words)
        column.addWidget(self.table, 1)
        self._when_seen = WhenSeen(self, self.refresh)
        document.garden_settled.connect(self._when_seen.follow)
        document.opened.connect(self._when_seen.follow)
        self._when_seen.follow()

    def refresh(self) -> None:
        """Show the records as they are now."""
        self.model.refresh()

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.table.resizeColumnsToContents()

    def _add(self) -> None:
        crop, kind = self.crop.currentData(), self.kinds[self.kind.currentIndex()]
        words = say("Add a line of {crop}", crop=self.document.catalogue.name_of(crop))
        if self.document.edit(words, lambda garden: self._new(garden, crop, kind)):
            self.refresh()
            row = self.model.rowCount() - 1
            self.table.selectRow(row)
            index = self.model.index(row, self._typed_first[kind])
            self.table.setCurrentIndex(index)  # from which Tab goes on
            self.table.edit(index)

    def _remove(self) -> None:
        keys = [self.model.records[index.row()].id for index in self.table.selectionModel().selectedRows()]

        def change(garden: Garden) -> Garden:
            for key in keys:
                garden = edits.remove_offer(garden, key)
            return garden

        if keys:
            self.document.edit(say_count("Remove {count} line", "Remove {count} lines", len(keys)), change)


class OffersView(_RecordsView):
    """Packets and packs that can be bought."""

    def __init__(self, document: Document) -> None:
        model = RecordModel(
            document,
            offer_columns(document),
            lambda garden: garden.offers,
            lambda garden, key, fields: edits.put_offer(garden, key, **fields)[0],
            say("Change what can be bought"),
        )
        hint = say(
            "Packets and packs that you can buy, with their price and where: the shopping list counts in them."
        )
        super().__init__(
            document,
            model,
            say("What can be bought"),
            hint,
            {kind: 3 if kind == "seed" else 5 for kind in OFFER_KINDS},
            lambda garden, crop, kind: edits.put_offer(garden, crop=crop, kind=kind, **_SIZES[kind])[0],
        )


class PlantingStockView(_RecordsView):
    """Sets, tubers, cloves, crowns and plants."""

    def __init__(self, document: Document) -> None:
        model = RecordModel(
            document,
            stock_columns(document),
            lambda garden: garden.planting_stock,
            lambda garden, key, fields: edits.put_planting_stock(garden, key, **fields)[0],
            say("Change planting stock"),
        )
        hint = say(
            "Sets, tubers, cloves, crowns and plants that are here or ordered for a year, what is planted of them already included."
        )
        super().__init__(
            document,
            model,
            say("Sets and plants"),
            hint,
            dict.fromkeys(get_args(StockKind), 3),
            lambda garden, crop, kind: edits.put_planting_stock(
                garden, crop=crop, kind=kind, number=10, year=document.year
            )[0],
        )
