"""What is in the shed, and sizes that are sold, as a table model; its cells are edited in place."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, get_args

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.amounts.sold_sizes import usual_size
from planner.desk.model.document import Document
from planner.desk.pages.tables import HeadedModel, Index
from planner.errors import BedwrightError
from planner.garden import ShedItem, edits
from planner.garden.materials import BarKind, MaterialKind, SheetKind, SpreadKind
from planner.garden.site import UnitSystem
from planner.garden.typed_amounts import (
    parse_load,
    parse_mesh,
    parse_rate,
    parse_volume,
    show_mesh,
    show_rate,
)
from planner.garden.units import parse_length, show_length
from planner.garden.volumes import show_load, show_volume
from planner.words import key_words, later, number_words, say, say_in_context

KINDS: tuple[MaterialKind, ...] = get_args(MaterialKind)
_SHEETS, _BARS, _SPREAD = get_args(SheetKind), get_args(BarKind), get_args(SpreadKind)
#: What an item of the shed is: on hand, ordered, or a size that can be bought; with its fields.
_STATES = {"there": later("in the shed"), "ordered": later("ordered"), "sold": later("size that is sold")}
_STATE_FIELDS = {
    "there": {"sold": False, "ordered": False},
    "ordered": {"sold": False, "ordered": True},
    "sold": {"sold": True, "ordered": False},
}


class Column(NamedTuple):
    """A column: its head, and how its cells are shown and read.

    Attributes
    ----------
    head : str
    field : str
        Of an item of the shed.
    show : callable
        The text of an item in the garden's units.
    read : callable
        Changed fields from a text, which is not empty, of an item.
    fits : callable
        Whether an item has such a cell.
    may_be_empty : bool
        An emptied cell means that nothing is said.
    right : bool
        Its cells are numbers.
    """

    head: str
    field: str
    show: Callable[[ShedItem, UnitSystem], str]
    read: Callable[[str, ShedItem, UnitSystem], dict[str, Any]]
    fits: Callable[[ShedItem], bool] = lambda _item: True
    may_be_empty: bool = False
    right: bool = False


def _length(field: str) -> tuple[Callable[..., str], Callable[..., dict[str, Any]]]:
    def show(item: ShedItem, units: UnitSystem) -> str:
        value = getattr(item, field)
        return show_length(value, units) if value is not None else ""

    def read(text: str, _item: ShedItem, units: UnitSystem) -> dict[str, Any]:
        return {field: parse_length(text, units)}

    return show, read


def _read_kind(text: str, item: ShedItem, units: UnitSystem) -> dict[str, Any]:
    """Another kind: what that kind has no use for goes, what it needs becomes a usual size."""
    typed = text.strip().casefold()
    kind = next((one for one in KINDS if typed in (one, key_words(one).casefold())), None)
    if kind is None:
        raise BedwrightError(
            say("'{text}' is no material that a shed holds here", text=text),
            fix=say("Choose one of the list"),
        )
    needed = usual_size(kind, units)
    kept = {name: getattr(item, name) for name in needed if getattr(item, name) is not None}
    none = dict.fromkeys(("length", "width", "litres", "grams", "weight", "mesh", "cells"))
    return {"kind": kind, **none, **needed, **kept}


def _read_number(text: str, _item: ShedItem, _units: UnitSystem) -> dict[str, Any]:
    if not text.strip().isdecimal():
        raise BedwrightError(say("'{text}' is no whole number", text=text), fix=say("Type one like 3"))
    return {"number": int(text)}


def _show_holds(item: ShedItem, units: UnitSystem) -> str:
    if item.litres is not None:
        return show_volume(item.litres, units)
    return show_load(item.grams, units) if item.grams is not None else ""


def _read_holds(text: str, _item: ShedItem, units: UnitSystem) -> dict[str, Any]:
    """Litres or a mass, whichever the unit says."""
    try:
        return (
            {"litres": None, "grams": parse_load(text, units)}
            if _is_mass(text)
            else {
                "litres": parse_volume(text, units),
                "grams": None,
            }
        )
    except BedwrightError:
        raise BedwrightError(
            say("'{text}' is neither a volume nor a mass", text=text),
            fix=say("Type one like 50 l or 5 kg")
            if units == "metric"
            else say("Type one like 2 cu ft or 10 lb"),
        ) from None


def _is_mass(text: str) -> bool:
    unit = text.strip().casefold().lstrip("0123456789., ")
    return unit in ("g", "kg", "t", "oz", "lb", "lbs", "gram", "grams", "pound", "pounds", "ounce", "ounces")


def _show_sort(item: ShedItem, units: UnitSystem) -> str:
    if item.weight is not None:
        return show_rate(item.weight, units)
    return show_mesh(item.mesh, units) if item.mesh is not None else ""


def _read_sort(text: str, item: ShedItem, units: UnitSystem) -> dict[str, Any]:
    if item.kind == "fleece":
        return {"weight": parse_rate(text, units)}
    return {"mesh": parse_mesh(text, units)}


def _read_sold(text: str, _item: ShedItem, _units: UnitSystem) -> dict[str, Any]:
    found = next((state for state in _STATES if say(_STATES[state]) == text.strip()), None)
    if found is None:
        raise BedwrightError(
            say("'{text}' says neither that it is there or ordered nor that it is sold", text=text),
            fix=say("Choose one of the list"),
        )
    return dict(_STATE_FIELDS[found])


def _state_words(item: ShedItem) -> str:
    state = "sold" if item.sold else "ordered" if item.ordered else "there"
    return say(_STATES[state])


def _read_price(text: str, _item: ShedItem, _units: UnitSystem) -> dict[str, Any]:
    try:
        return {"price": float(text.replace(",", "."))}
    except ValueError:
        raise BedwrightError(say("'{text}' is no price", text=text), fix=say("Type one like 2.40")) from None


def _read_cells(text: str, _item: ShedItem, _units: UnitSystem) -> dict[str, Any]:
    return {"cells": _read_number(text, _item, _units)["number"]}


def _columns() -> tuple[Column, ...]:
    return (
        Column(say("Material"), "kind", lambda item, _u: key_words(item.kind), _read_kind),
        Column(say("Is"), "sold", lambda item, _u: _state_words(item), _read_sold),
        Column(
            say_in_context("how many", "Number"),
            "number",
            lambda item, _u: f"{item.number}",
            _read_number,
            right=True,
        ),
        Column(
            say("Length"),
            "length",
            *_length("length"),
            lambda item: item.kind in _SHEETS or item.kind in _BARS,
            right=True,
        ),
        Column(
            say("Width"),
            "width",
            *_length("width"),
            lambda item: item.kind in _SHEETS or item.kind == "pot",
            right=True,
        ),
        Column(
            say("Cells"),
            "cells",
            lambda item, _u: f"{item.cells}" if item.cells else "",
            _read_cells,
            lambda item: item.kind == "cell tray",
            right=True,
        ),
        Column(
            say("Weight or mesh"),
            "weight",
            _show_sort,
            _read_sort,
            lambda item: item.kind in ("fleece", "netting"),
            may_be_empty=True,
            right=True,
        ),
        Column(
            say("Each holds"),
            "litres",
            _show_holds,
            _read_holds,
            lambda item: item.kind in _SPREAD or item.kind == "potting mix",
            right=True,
        ),
        Column(
            say("Price"),
            "price",
            lambda item, _u: "" if item.price is None else number_words(item.price, 2),
            _read_price,
            lambda item: item.sold,
            may_be_empty=True,
            right=True,
        ),
        Column(
            say("Where"),
            "shop",
            lambda item, _u: item.shop,
            lambda text, _i, _u: {"shop": text},
            lambda item: item.sold,
            may_be_empty=True,
        ),
        Column(
            say("Name"),
            "name",
            lambda item, _u: item.name,
            lambda text, _i, _u: {"name": text},
            may_be_empty=True,
        ),
        Column(
            say("Notes"),
            "notes",
            lambda item, _u: item.notes,
            lambda text, _i, _u: {"notes": text},
            may_be_empty=True,
        ),
    )


#: Fields that an emptied cell takes away, by the field of its column.
_EMPTIED: dict[str, dict[str, Any]] = {
    "weight": {"weight": None, "mesh": None},
    "price": {"price": None},
    "shop": {"shop": ""},
    "name": {"name": ""},
    "notes": {"notes": ""},
}


class ShedModel(HeadedModel):
    """Items of the shed, one a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.columns = _columns()
        self.heads = tuple(column.head for column in self.columns)
        self.items: tuple[ShedItem, ...] = document.garden.shed
        self._units = document.garden.site.units

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new, units = self.document.garden.shed, self.document.garden.site.units
        if new is self.items and units == self._units:
            return
        self._units = units
        if len(new) != len(self.items):
            self.beginResetModel()
            self.items = new
            self.endResetModel()
            return
        self.items = new
        if new:
            self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(self.columns) - 1))

    def column_of(self, field: str) -> int:
        """Number of the column of a field."""
        return next(n for n, column in enumerate(self.columns) if column.field == field)

    def sold_words(self) -> tuple[str, ...]:
        """What the cells say of whether something is there."""
        return tuple(say(_STATES[state]) for state in _STATES)

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.items)

    @override
    def flags(self, index: Index) -> Qt.ItemFlag:
        base = super().flags(index)
        fits = index.isValid() and self.columns[index.column()].fits(self.items[index.row()])
        return base | Qt.ItemFlag.ItemIsEditable if fits else base

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.items):
            return None
        column, item = self.columns[index.column()], self.items[index.row()]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return column.show(item, self._units)
        if role == Qt.ItemDataRole.TextAlignmentRole and column.right:
            return Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        return None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.row() >= len(self.items):
            return False
        column, item = self.columns[index.column()], self.items[index.row()]
        text = str(value).strip()
        if text == column.show(item, self._units):
            return False
        try:
            fields = self._read(column, item, text)
        except BedwrightError as error:
            self.wrong.emit(str(BedwrightError(error.what, error.where or column.head, error.fix)))
            return False
        return self.document.edit(
            say("Change what is in the shed"),
            lambda garden: edits.put_shed_item(garden, item.id, **fields)[0],
        )

    def _read(self, column: Column, item: ShedItem, text: str) -> dict[str, Any]:
        if text:
            return column.read(text, item, self._units)
        if not column.may_be_empty:
            raise BedwrightError(
                say("{kind} needs it", kind=item.kind), fix=say("Type a size, or remove the whole line")
            )
        return _EMPTIED[column.field]
