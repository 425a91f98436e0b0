"""Places in which a harvest is kept as a table model; its cells are edited in place."""

from __future__ import annotations

from typing import get_args

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import QComboBox, QStyledItemDelegate, QStyleOptionViewItem, QWidget
from typing_extensions import override

from planner.amounts.store_places import USUAL
from planner.desk.forms.fields import degree_sign
from planner.desk.model.document import Document
from planner.desk.pages.tables import HeadedModel, Index
from planner.desk.theme.plain_tips import plain_tip
from planner.errors import BedwrightError
from planner.garden import edits
from planner.garden.household import StoreKind, StorePlace
from planner.garden.units import parse_temperature, show_mean_temperature
from planner.words import capital, join_list, later, percent, say

_FIELDS = ("name", "kind", "temperature", "humidity", "crops", "notes")
_KIND_WORDS: dict[StoreKind, str] = {
    "cellar": later("cellar"),
    "fridge": later("fridge"),
    "clamp": later("clamp in the ground"),
    "dry room": later("dry room"),
    "shed": later("shed"),
}


class PlaceModel(HeadedModel):
    """Store places, one a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.places: tuple[StorePlace, ...] = ()
        self.heads = (
            say("Place"),
            say("Kind"),
            say("Temperature in winter"),
            say("Humidity"),
            say("Only for"),
            say("Notes"),
        )

    def refresh(self) -> None:
        """Bring the rows in step with the garden."""
        new = self.document.garden.store_places
        if len(new) != len(self.places):
            self.beginResetModel()
            self.places = new
            self.endResetModel()
        elif new:
            self.places = new
            self.dataChanged.emit(self.index(0, 0), self.index(len(new) - 1, len(_FIELDS) - 1))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() else len(self.places)

    @override
    def is_editable(self, column: int) -> bool:
        return True

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.places):
            return None
        place, field = self.places[index.row()], _FIELDS[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return self._shown(place, field)
        if role == Qt.ItemDataRole.EditRole:
            return place.kind if field == "kind" else self._typed(place, field)
        if role == Qt.ItemDataRole.ToolTipRole:
            return plain_tip(self._shown(place, field))
        return None

    def _typed(self, place: StorePlace, field: str) -> str:
        """A field as it is typed; empty where nothing is given."""
        if field == "temperature":
            return self._degrees(place.temperature) if place.temperature is not None else ""
        if field == "humidity":
            return percent(place.humidity) if place.humidity is not None else ""
        if field == "crops":
            return ", ".join(self.document.catalogue.name_of(crop) for crop in place.crops)
        return str(getattr(place, field))

    def _shown(self, place: StorePlace, field: str) -> str:
        """A field as it is shown; what is usual of its kind where nothing is given."""
        temperature, humidity = USUAL[place.kind]
        if field == "kind":
            return capital(say(_KIND_WORDS[place.kind]))
        if field == "temperature" and place.temperature is None:
            return say("usual: {value}", value=self._degrees(temperature))
        if field == "humidity" and place.humidity is None:
            return say("usual: {value}", value=percent(humidity))
        if field == "crops" and not place.crops:
            return say("all that others are not for")
        if field == "crops":
            return join_list([self.document.catalogue.name_of(crop) for crop in place.crops])
        return self._typed(place, field)

    def _degrees(self, celsius: float) -> str:
        units = self.document.garden.site.units
        return say("{number} {unit}", number=show_mean_temperature(celsius, units), unit=degree_sign(units))

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole:
            return False
        place, field = self.places[index.row()], _FIELDS[index.column()]
        text = str(value).strip()
        if text == (place.kind if field == "kind" else self._typed(place, field)):
            return False
        try:
            new = self._read(field, text)
        except BedwrightError as error:
            self.wrong.emit(str(BedwrightError(error.what, error.where or place.name, error.fix)))
            return False
        return self.document.edit(
            say("Change {place}", place=place.name),
            lambda garden: edits.put_store_place(garden, place.id, **{field: new})[0],
        )

    def _read(self, field: str, text: str) -> object:
        """A typed cell as a field of a place."""
        if field == "temperature":
            return parse_temperature(text, self.document.garden.site.units) if text else None
        if field == "humidity":
            return _share(text) if text else None
        if field == "crops":
            return tuple(dict.fromkeys(self._crop(name.strip()) for name in text.split(",") if name.strip()))
        return text

    def _crop(self, name: str) -> str:
        crop = self.document.catalogue.named(name)
        if crop is None:
            raise BedwrightError(
                say("there is no crop '{name}'", name=name),
                fix=say("Name crops as in the list of crops, with commas between them"),
            )
        return crop.key


def _share(text: str) -> float:
    try:
        value = float(text.replace(",", ".").rstrip("%").strip()) / 100
    except ValueError:
        value = -1.0
    if not 0 <= value <= 1:
        raise BedwrightError(
            say("'{text}' is no share of a whole", text=text), fix=say("Type a number from 0 to 100")
        )
    return value


class KindDelegate(QStyledItemDelegate):
    """Chooses the kind of a place from a list."""

    @override
    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: Index) -> QWidget:
        box = QComboBox(parent)
        box.setAccessibleName(say("Kind of place"))
        for kind in get_args(StoreKind):
            box.addItem(capital(say(_KIND_WORDS[kind])), kind)
        box.activated.connect(lambda _index: self._finish(box))
        return box

    def _finish(self, box: QComboBox) -> None:
        self.commitData.emit(box)
        self.closeEditor.emit(box)

    @override
    def setEditorData(self, editor: QWidget, index: Index) -> None:
        assert isinstance(editor, QComboBox)
        editor.setCurrentIndex(editor.findData(index.data(Qt.ItemDataRole.EditRole)))

    @override
    def setModelData(self, editor: QWidget, model: object, index: Index) -> None:
        assert isinstance(editor, QComboBox)
        assert isinstance(model, PlaceModel)
        model.setData(index, editor.currentData())
