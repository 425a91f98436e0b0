"""Own varieties: the crop's figures, and those in which a variety differs."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QVBoxLayout,
    QWidget,
)
from typing_extensions import override

from planner.crops import Crop
from planner.crops.figures import Figure
from planner.desk.forms.fields import NotesField
from planner.desk.model.document import Document
from planner.desk.pages.figure_words import GROUPS, number_words
from planner.desk.pages.tables import HeadedModel, Index, crop_choice, plain_table
from planner.desk.panels.crop_list import name_of
from planner.errors import BedwrightError
from planner.garden import OwnFigure, Variety, edits
from planner.garden.edits import EditError
from planner.garden.edits.common import checked
from planner.garden.site import UnitSystem
from planner.garden.units import parse_length
from planner.garden.varieties import OWN_FIELDS

_NAMES = {field: words for _, fields in GROUPS for field, words in fields}
_SMALL = {
    "in_row_spacing", "row_spacing", "bed_spacing", "bed_row_spacing", "sowing_spacing", "sowing_depth",
}  # fmt: skip
_LENGTHS = {"height", "spread", "isolation"}
_SHARES = {"germination", "store_humidity"}
_HEADS = ("Figure", "The crop", "This variety", "Where it comes from")


def read_figure(field: str, text: str, units: UnitSystem) -> float:
    """A typed figure of a field, in SI units.

    Raises
    ------
    BedwrightError
        When it is no number.
    """
    if field in _SMALL or field in _LENGTHS:
        return parse_length(text, units, small=field in _SMALL)
    plain = text.strip().replace(",", ".").rstrip("°CF ").rstrip()
    percent = plain.endswith("%")
    words = plain.rstrip("% ").split()
    try:
        value = float(words[0])
    except (ValueError, IndexError):
        raise BedwrightError(f"'{text.strip()}' is no number", mend="Type one like 1.5") from None
    if field in _SHARES and (percent or value > 1):
        return value / 100
    if field.startswith("soil_") or "temperature" in field:
        return value if units == "metric" else (value - 32) / 1.8
    return value


class FigureModel(HeadedModel):
    """Figures of one variety beside its crop's.

    Signals
    -------
    wrong : str
    """

    wrong = Signal(str)
    heads = _HEADS

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.crop: Crop | None = None
        self.variety: Variety | None = None

    def show_variety(self, crop: Crop | None, variety: Variety | None) -> None:
        """Take another variety."""
        self.beginResetModel()
        self.crop, self.variety = crop, variety
        self.endResetModel()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() or self.variety is None else len(OWN_FIELDS)

    @override
    def typed_into(self, column: int) -> bool:
        return column in (2, 3)

    def _own(self, field: str) -> OwnFigure | None:
        if self.variety is None:
            return None
        return next((own for own in self.variety.figures if own.field == field), None)

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or self.variety is None:
            return None
        field = OWN_FIELDS[index.row()]
        entry = getattr(self.crop, field) if self.crop is not None else None
        own, units = self._own(field), self.document.garden.site.units
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            if index.column() == 0:
                return _NAMES.get(field, field)
            if index.column() == 1:
                if entry is None:
                    return "not known"
                return number_words(field, entry.value, units) if entry.applies else "does not apply"
            if own is None:
                return ""
            return number_words(field, own.value, units) if index.column() == 2 else own.note
        if role == Qt.ItemDataRole.ToolTipRole and isinstance(entry, Figure) and entry.source:
            return self.document.catalogue.source_line(entry.source)
        if role == Qt.ItemDataRole.FontRole and index.column() == 2 and own is not None:
            from planner.desk.theme.palette import letters

            return letters(10, bold=True)
        return None

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        variety = self.variety
        if variety is None or role != Qt.ItemDataRole.EditRole:
            return False
        field, text = OWN_FIELDS[index.row()], str(value).strip()
        old = self._own(field)
        rest = [own for own in variety.figures if own.field != field]
        try:
            if index.column() == 3:
                if old is None:
                    self.wrong.emit("Type this variety's own figure first, then where it comes from.")
                    return False
                new = [checked(lambda: old.with_(note=text), _NAMES.get(field, field))]
            elif not text:
                new = []
            else:
                if old is not None and text == number_words(
                    field, old.value, self.document.garden.site.units
                ):
                    return False
                number = read_figure(field, text, self.document.garden.site.units)
                note = old.note if old is not None else ""
                new = [
                    checked(lambda: OwnFigure(field=field, value=number, note=note), _NAMES.get(field, field))
                ]
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        figures = tuple(sorted([*rest, *new], key=lambda own: OWN_FIELDS.index(own.field)))
        name = variety.name
        return self.document.edit(
            f"Change figures of {name}",
            lambda garden: edits.put_variety(garden, variety.id, figures=figures)[0],
        )


class VarietyEditor(QWidget):
    """Chooses, names and edits the garden's own varieties.

    Signals
    -------
    wrong : str
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.key = ""
        self.setAccessibleName("Own varieties")
        self.choice = QComboBox()
        self.choice.setAccessibleName("Own variety")
        self.choice.setMinimumWidth(200)
        self.choice.activated.connect(lambda _i: self.show_variety(self.choice.currentData()))
        self.crop = crop_choice(document, "Crop of a new variety")
        self.add = QPushButton("New variety of")
        self.add.clicked.connect(lambda: self.new(self.crop.currentData()))
        self.remove = QPushButton("Remove")
        self.remove.clicked.connect(self._remove)
        self.name = QLineEdit()
        self.name.setAccessibleName("Name of the variety")
        self.name.editingFinished.connect(self._rename)
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.words.setProperty("second", True)
        self.model = FigureModel(document)
        self.model.wrong.connect(self.wrong)
        self.table = plain_table(self.model, "Figures of the variety", whole_rows=False)
        for column, width in enumerate((190, 150, 150)):
            self.table.setColumnWidth(column, width)
        self.notes = NotesField("Notes on the variety")
        self.notes.typed.connect(self._note)
        head, name = QHBoxLayout(), QHBoxLayout()
        head.addWidget(self.choice)
        head.addStretch(1)
        head.addWidget(self.add)
        head.addWidget(self.crop)
        name.addWidget(QLabel("Name"))
        name.addWidget(self.name, 1)
        name.addWidget(self.remove)
        column_ = QVBoxLayout(self)
        column_.setContentsMargins(0, 6, 0, 0)
        column_.addLayout(head)
        column_.addLayout(name)
        column_.addWidget(self.words)
        column_.addWidget(self.table, 1)
        column_.addWidget(self.notes)
        document.garden_settled.connect(self.refresh)
        self.refresh()

    @property
    def variety(self) -> Variety | None:
        """The variety shown."""
        return next((own for own in self.document.garden.varieties if own.id == self.key), None)

    def show_variety(self, key: str) -> None:
        """Show another variety."""
        self.key = key
        self.refresh()

    def new(self, crop: str) -> None:
        """Begin a variety of a crop; it starts with the crop's figures."""
        made: list[str] = []
        taken = [own.name for own in self.document.garden.varieties if own.crop == crop]
        name = edits.fresh_name(taken, "New variety")

        def change(garden):
            garden, key = edits.put_variety(garden, crop=crop, name=name)
            made.append(key)
            return garden

        if self.document.edit(f"Add a variety of {crop}", change):
            self.show_variety(made[0])
            self.name.setFocus()
            self.name.selectAll()

    def _rename(self) -> None:
        variety, text = self.variety, self.name.text().strip()
        if variety is None or not text or text == variety.name:
            if variety is not None:
                self.name.setText(variety.name)
            return
        try:
            new = edits.put_variety(self.document.stable, variety.id, name=text)[0]
        except EditError as error:
            self.wrong.emit(str(error))
            self.name.setText(variety.name)
            return
        self.document.commit(f"Rename {variety.name}", new)

    def _note(self, text: str) -> None:
        variety = self.variety
        if variety is not None:
            self.document.edit(
                f"Note on {variety.name}", lambda g: edits.put_variety(g, variety.id, notes=text)[0]
            )

    def _remove(self) -> None:
        variety = self.variety
        if variety is not None:
            self.document.edit(f"Remove {variety.name}", lambda garden: edits.remove_part(garden, variety.id))

    def refresh(self) -> None:
        """Show what holds now."""
        garden = self.document.garden
        if self.variety is None:
            self.key = garden.varieties[0].id if garden.varieties else ""
        self.choice.clear()
        for own in garden.varieties:
            crop = self.document.catalogue.get(own.crop)
            self.choice.addItem(f"{name_of(crop) if crop else own.crop} ‘{own.name}’", own.id)
        self.choice.setCurrentIndex(max(0, self.choice.findData(self.key)))
        variety = self.variety
        for widget in (self.choice, self.name, self.remove, self.table, self.notes):
            widget.setEnabled(variety is not None)
        crop = self.document.catalogue.get(variety.crop) if variety is not None else None
        self.model.show_variety(crop, variety)
        if not self.name.hasFocus() or variety is None or not self.name.isModified():
            self.name.setText(variety.name if variety else "")
        self.notes.show_value(variety.notes if variety else "")
        if variety is None:
            self.words.setText(
                "A variety of your own begins with its crop's figures; type only what differs."
            )
        else:
            used = sum(garden.own_variety(p) is variety for p in garden.plantings)
            self.words.setText(
                f"Used by {used} plantings of all years. An empty figure is the crop's; hover over it for its source."
            )
