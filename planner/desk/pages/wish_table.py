"""Wishes of a growing year as a table that is edited in place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, get_args

from PySide6.QtCore import QPersistentModelIndex, QTimer, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.pages.choice_cells import ChoiceCells
from planner.desk.pages.record_model import Edited, RecordColumn, RecordModel, plain_text, record_table
from planner.desk.pages.tables import set_widths
from planner.desk.pages.typed_crop import TypedCrop
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT
from planner.garden.volumes import POUND
from planner.garden.wishes import Wish, WishUnit
from planner.importing.stock_cells import crop_of_cell
from planner.listings.phrases import PURPOSE_WORDS
from planner.listings.wish_words import IMPORTANCE_WORDS
from planner.proposal.wishes import usual_importance
from planner.words import capital, later, say, short_number

#: Widths of the columns but the last. [pixels]
_WIDTHS = (140, 90, 62, 82, 95, 112)
_AMOUNT, _UNIT = 2, 3
#: What wishes are counted in, in metres and in feet.
_IN_METRES: dict[WishUnit, str] = {
    "plants": later("plants"),
    "m": later("m of row"),
    "m2": later("m²"),
    "g": later("kg"),
    "people": later("people"),
}
_IN_FEET: dict[WishUnit, str] = {
    "plants": later("plants"),
    "m": later("ft of row"),
    "m2": later("sq ft"),
    "g": later("lb"),
    "people": later("people"),
}
#: How much of the garden's own unit one of these is.
_ONE: dict[UnitSystem, dict[WishUnit, float]] = {
    "metric": {"plants": 1.0, "m": 1.0, "m2": 1.0, "g": 1000.0, "people": 1.0},
    "feet_inches": {"plants": 1.0, "m": FOOT, "m2": FOOT**2, "g": POUND, "people": 1.0},
}


class WishTable(QWidget):
    """A table of wishes, with rows added and removed.

    Parameters
    ----------
    document : Document
        Its catalogue and units hold.
    held : Edited
        Whose wishes these are: the document, or a garden that is only made ready.
    year : callable
        The growing year whose wishes are shown.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document, held: Edited, year: Callable[[], int]) -> None:
        super().__init__()
        self.document, self.held, self._year = document, held, year
        self.model = RecordModel(held, self._columns(), self._wishes, _changed, say("Change a wish"))
        self.model.wrong.connect(self.wrong)
        self.table = record_table(self.model, say("Wishes"))
        self.table.setItemDelegateForColumn(_UNIT, ChoiceCells(self.table, self._unit_words))
        set_widths(self.table, _WIDTHS)
        self.crop = TypedCrop(document, say("Crop of a new wish"))
        self.add, self.remove = QPushButton(say("New wish for")), QPushButton(say("Remove"))
        for button in (self.add, self.remove):
            button.setAutoDefault(False)
        self.add.clicked.connect(self._add)
        self.crop.entered.connect(self._add)
        self.remove.clicked.connect(self._remove)
        self.table.delete_pressed.connect(self._remove)
        head = FlowLayout()
        head.add_group(self.add, self.crop)
        head.addWidget(self.remove)
        column_of_all = QVBoxLayout(self)
        column_of_all.setContentsMargins(0, 0, 0, 0)
        column_of_all.addLayout(head)
        column_of_all.addWidget(self.table, 1)

    def refresh(self) -> None:
        """Bring the rows in step."""
        self.model.refresh()

    def _wishes(self, garden: Garden) -> Sequence[Wish]:
        return [one for one in garden.wishes if one.year == self._year()]

    # -- columns ----------------------------------------------------------------------------

    def _columns(self) -> tuple[RecordColumn, ...]:
        purposes = {key: capital(say(PURPOSE_WORDS[key])) for key in PURPOSE_WORDS}
        by_words = {words: key for key, words in purposes.items()}
        matters = {key: say(IMPORTANCE_WORDS[key]) for key in IMPORTANCE_WORDS}
        by_matter = {words: key for key, words in matters.items()}
        return (
            RecordColumn(
                say("Crop"),
                lambda wish: capital(self.document.catalogue.name_of(wish.crop)),
                lambda text, _wish: {"crop": crop_of_cell(text, self.document.catalogue, [])},
            ),
            plain_text(say("Variety"), "variety"),
            RecordColumn(say("Amount"), self._amount, self._read_amount, right=True),
            RecordColumn(say("In"), self._unit, self._read_unit),
            RecordColumn(
                say("For"),
                lambda wish: purposes[wish.purpose],
                lambda text, _wish: {"purpose": by_words[text]},
                choices=tuple(by_words),
            ),
            RecordColumn(
                say("Matters"),
                lambda wish: matters[wish.importance],
                lambda text, _wish: {"importance": by_matter[text]},
                choices=tuple(by_matter),
            ),
            plain_text(say("Why"), "reason"),
        )

    def _one(self, unit: WishUnit) -> float:
        return _ONE[self.document.garden.site.units][unit]

    def _words_of(self, unit: WishUnit) -> str:
        if self.document.garden.site.units == "metric":
            return say(_IN_METRES[unit])
        return say(_IN_FEET[unit])

    def _unit_words(self) -> list[str]:
        return [self._words_of(unit) for unit in get_args(WishUnit)]

    def _amount(self, wish: Wish) -> str:
        if wish.amount is None:
            return ""
        shown = wish.amount / self._one(wish.unit)
        return short_number(round(shown, 2)) if shown < 1e5 else f"{shown:.0f}"

    def _read_amount(self, text: str, wish: Wish) -> dict[str, Any]:
        if not text:
            return {"amount": None}
        try:
            return {"amount": float(text.replace(",", ".")) * self._one(wish.unit)}
        except ValueError:
            raise BedwrightError(
                say("'{text}' is no number", text=text),
                fix=say("Type one like 12.5; empty for as much as there was of what it is like"),
            ) from None

    def _unit(self, wish: Wish) -> str:
        return self._words_of(wish.unit)

    def _read_unit(self, text: str, wish: Wish) -> dict[str, Any]:
        """Another unit keeps the number that is shown."""
        unit = next(one for one in get_args(WishUnit) if self._words_of(one) == text)
        factor = self._one(unit) / self._one(wish.unit)
        return {"unit": unit, "amount": wish.amount * factor if wish.amount is not None else None}

    # -- rows -------------------------------------------------------------------------------

    def _add(self) -> None:
        year = self._year()
        try:
            crop = self.crop.crop()
        except BedwrightError as error:
            self.crop.setFocus()
            self.wrong.emit(str(error))
            return
        matters = usual_importance("kitchen", self.document.catalogue.get(crop))
        added = self.held.edit(
            say("Add a wish"),
            lambda garden: edits.put_wish(garden, year=year, crop=crop, importance=matters)[0],
        )
        if added:
            self.crop.clear_typed()
            row = self.model.rowCount() - 1
            self.table.selectRow(row)
            there = QPersistentModelIndex(self.model.index(row, _AMOUNT))
            self.table.edit(there)
            QTimer.singleShot(
                0, self.table, lambda: self.table.scrollTo(there)
            )  # the form has taken its room by then

    def _remove(self) -> None:
        keys = [self.model.records[i.row()].id for i in self.table.selectionModel().selectedRows()]
        if keys:
            self.held.edit(say("Remove wishes"), lambda garden: edits.remove_wishes(garden, keys))


def _changed(garden: Garden, key: str, fields: dict[str, Any]) -> Garden:
    return edits.put_wish(garden, key, **fields)[0]
