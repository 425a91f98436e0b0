"""Dressings of beds in the growing year as a table model; its cells are edited in place."""

from __future__ import annotations

from typing import Any, NamedTuple, get_args

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.amounts.spread import dressings_of_year
from planner.desk.model.document import Document
from planner.desk.model.dressing_words import unknown_rate
from planner.desk.pages.tables import HeadedModel, Index
from planner.errors import BedwrightError
from planner.garden import Dressing, edits
from planner.garden.materials import BY_MASS, SpreadKind
from planner.garden.typed_amounts import parse_measure, show_measure
from planner.garden.units import month_first
from planner.listings.materials import crop_words
from planner.plan import Plan
from planner.words import full_day_words, key_words, later, say
from planner.words.typed_days import date_as_typed

SPREAD_KINDS: tuple[SpreadKind, ...] = get_args(SpreadKind)
#: Head of each column, and its field of a dressing; how much is depth or rate.
_COLUMNS = (
    (later("Where"), "bed"),
    (later("What"), "kind"),
    (later("Day"), "day"),
    (later("How much"), "measure"),
    (later("Done on"), "done"),
    (later("Notes"), "notes"),
)
_CHOSEN = ("bed", "kind")


class Place(NamedTuple):
    """Where something can be spread: a bed, or one planting's plot in it."""

    words: str
    bed: str
    planting: str | None


def places(plan: Plan) -> tuple[Place, ...]:
    """The beds, each with its plantings of the growing year."""
    found = []
    for bed in plan.garden.beds:
        found.append(Place(bed.name, bed.id, None))
        found += [
            Place(crop_words(plan, one.crop, one.variety, [bed.name]), bed.id, one.id)
            for one in plan.in_bed(bed)
        ]
    return tuple(found)


class DressingModel(HeadedModel):
    """Dressings of the growing year, one a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.heads = tuple(say(_COLUMNS[n][0]) for n in range(len(_COLUMNS)))
        self.dressings: tuple[Dressing, ...] = ()

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new = tuple(dressings_of_year(self.document.plan))
        if [one.id for one in new] != [one.id for one in self.dressings]:
            self.beginResetModel()
            self.dressings = new
            self.endResetModel()
            return
        self.dressings = new
        if new:
            self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(_COLUMNS) - 1))

    @staticmethod
    def column_of(field: str) -> int:
        """Number of the column of a field."""
        return next(n for n, (_, name) in enumerate(_COLUMNS) if name == field)

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.dressings)

    @override
    def is_editable(self, column: int) -> bool:
        return True

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.dressings):
            return None
        field = _COLUMNS[index.column()][1]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(self.dressings[index.row()], field)
        if role == Qt.ItemDataRole.TextAlignmentRole and field == "measure":
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    def _text(self, one: Dressing, field: str) -> str:
        """The cell of a field of a dressing."""
        plan = self.document.plan
        if field == "bed":
            bed = plan.garden.beds_by_id[one.bed]
            planting = plan.garden.plantings_by_id.get(one.planting or "")
            return crop_words(plan, planting.crop, planting.variety, [bed.name]) if planting else bed.name
        if field == "measure":
            return show_measure(one.depth, one.rate, plan.garden.site.units)
        if field in ("day", "done"):
            day = getattr(one, field)
            return full_day_words(day) if day is not None else ""
        if field == "kind":
            return key_words(one.kind)
        return str(getattr(one, field))

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.row() >= len(self.dressings):
            return False
        one, field = self.dressings[index.row()], _COLUMNS[index.column()][1]
        text = str(value).strip()
        if text == self._text(one, field):
            return False
        try:
            fields = self._read(one, field, text)
        except BedwrightError as error:
            where = error.where or self.heads[index.column()]
            self.wrong.emit(str(BedwrightError(error.what, where, error.fix)))
            return False
        return self.document.edit(
            say("Change what is spread"), lambda garden: edits.put_dressing(garden, one.id, **fields)[0]
        )

    def _read(self, one: Dressing, field: str, text: str) -> dict[str, Any]:
        """Changed fields from a typed cell."""
        plan = self.document.plan
        if field == "bed":
            place = next((place for place in places(plan) if place.words == text), None)
            if place is None:
                raise BedwrightError(
                    say("there is no bed '{text}'", text=text), fix=say("Choose one of the list")
                )
            return {"bed": place.bed, "planting": place.planting}
        if field == "kind":
            return self._read_kind(one, text)
        if field == "notes":
            return {"notes": text}
        if field == "measure":
            return parse_measure(text, plan.garden.site.units, by_mass=one.kind in BY_MASS)
        if field == "done" and not text:
            return {"done": None}
        habit = month_first(plan.garden.site.units)
        return {field: date_as_typed(text, plan.span.first, month_first=habit)}

    @staticmethod
    def _read_kind(one: Dressing, text: str) -> dict[str, Any]:
        kind = next((one for one in SPREAD_KINDS if text in (one, key_words(one))), None)
        if kind is None:
            raise BedwrightError(
                say("'{text}' is nothing that is spread here", text=text), fix=say("Choose one of the list")
            )
        if kind in BY_MASS and one.rate is None:
            raise unknown_rate(kind)
        return {"kind": kind}
