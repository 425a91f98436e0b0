"""What is eaten of each crop as a table model: published amounts beside own ones, which are typed in place."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.amounts.eating import appetite
from planner.crops.per_person import per_person
from planner.desk.model.document import Document
from planner.desk.pages.tables import HeadedModel, Index
from planner.desk.theme.plain_tips import plain_tip
from planner.errors import BedwrightError
from planner.garden import Garden, edits
from planner.listings.weights import parse_weight, weight_cell, weight_head
from planner.words import capital, join_list, say

#: Columns that are typed, and what they are of.
_OWN = {3: "year", 4: "week"}
_NUMBERS = (1, 3, 4, 5)


class EatenRow(NamedTuple):
    """A crop, or crops with one amount, and what is eaten of it.

    Attributes
    ----------
    crop : str
        Key under which an own amount stands.
    cells : tuple of str
    """

    crop: str
    cells: tuple[str, ...]


class EatenModel(HeadedModel):
    """Amounts eaten, one crop a row: of crops that are grown this year, and of those with an own amount.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.rows: tuple[EatenRow, ...] = ()
        self.heads = self._heads()

    def _heads(self) -> tuple[str, ...]:
        unit = weight_head(self.document.garden.site.units)
        return (
            say("Crop"),
            say("Published, a person in a year, {unit}", unit=unit),
            say("Published by"),
            say("Own amount, a person in a year, {unit}", unit=unit),
            say("or in a week, {unit}", unit=unit),
            say("All of you, in a week, {unit}", unit=unit),
        )

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new, heads = self._made(), self._heads()
        if heads != self.heads or [row.crop for row in new] != [row.crop for row in self.rows]:
            self.beginResetModel()
            self.rows, self.heads = new, heads
            self.endResetModel()
        elif new != self.rows:
            self.rows = new
            self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(heads) - 1))

    def _made(self) -> tuple[EatenRow, ...]:
        plan = self.document.plan
        own = {one.crop for one in plan.garden.household.eats}
        grown = {planting.crop for planting in plan.plantings}
        keys: dict[str, None] = {}
        for crop in sorted(own | grown):
            found = plan.catalogue.get(crop)
            product = found.product.value if found is not None and found.product is not None else None
            if crop in own or (found is not None and product not in (None, "green manure", "flowers")):
                keys[appetite(plan.garden, plan.catalogue, crop).key] = None
        rows = (self._row(plan.garden, key, grown | own) for key in keys)
        return tuple(sorted(rows, key=lambda row: row.cells[0].casefold()))

    def _row(self, garden: Garden, key: str, known: set[str]) -> EatenRow:
        catalogue, units = self.document.catalogue, garden.site.units
        eats, person = appetite(garden, catalogue, key), per_person().get(key)
        published = person.kilograms if person is not None else None
        own = next((one for one in garden.household.eats if one.crop == key), None)
        names = [catalogue.name_of(crop) for crop in eats.crops if crop in known or crop == key]
        typed = {"year": "", "week": ""}
        if own is not None:
            typed[own.per] = weight_cell(own.kilograms * 1000, units) if own.kilograms else "0"
        return EatenRow(
            key,
            (
                capital(join_list(names)),
                weight_cell((published.value or 0) * 1000, units) if published else "",
                catalogue.source_in_brief(published.source or "") if published else say("not known"),
                typed["year"],
                typed["week"],
                weight_cell(eats.weekly, units) if eats.weekly is not None else "",
            ),
        )

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.rows)

    @override
    def is_editable(self, column: int) -> bool:
        return column in _OWN

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.rows):
            return None
        text = self.rows[index.row()].cells[index.column()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return text
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(text)
        if role == Qt.ItemDataRole.TextAlignmentRole and index.column() in _NUMBERS:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.column() not in _OWN:
            return False
        row, text = self.rows[index.row()], str(value).strip()
        if text == row.cells[index.column()]:
            return False
        name = row.cells[0]
        try:
            grams = parse_weight(text, self.document.garden.site.units) if text else None
        except BedwrightError as error:
            self.wrong.emit(str(BedwrightError(error.what, name, error.fix)))
            return False
        kilograms, per = grams / 1000 if grams is not None else None, _OWN[index.column()]
        return self.document.edit(
            say("Change what is eaten of {crop}", crop=name),
            lambda garden: edits.set_eaten(garden, row.crop, kilograms, per),
        )
