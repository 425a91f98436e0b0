"""Figures of an own variety beside those of its crop, as a table model; they are edited in place."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.crops import Crop
from planner.crops.figures import Figure
from planner.desk.model.document import Document
from planner.desk.pages.figure_words import FIELD_NAMES, LENGTHS, SHARES, SPACINGS, number_words
from planner.desk.pages.tables import HeadedModel, Index
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.garden import OwnFigure, Variety, edits
from planner.garden.edits.common import checked
from planner.garden.site import UnitSystem
from planner.garden.units import parse_length
from planner.garden.varieties import OWN_FIELDS

#: Columns of the table.
_NAME, _CROP, _OWN, _NOTE = range(4)


def read_figure(field: str, text: str, units: UnitSystem) -> float:
    """A typed figure of a field, in SI units.

    Parameters
    ----------
    field : str
        A field of a crop.
    text : str
        A number, with its unit or without.
    units : str
        How lengths and temperatures are meant that have no unit.

    Raises
    ------
    BedwrightError
        When it is no number.
    """
    if field in SPACINGS or field in LENGTHS:
        return parse_length(text, units, small=field in SPACINGS)
    plain = text.strip().replace(",", ".").rstrip("°CF ").rstrip()
    percent = plain.endswith("%")
    words = plain.rstrip("% ").split()
    try:
        value = float(words[0])
    except (ValueError, IndexError):
        raise BedwrightError(f"'{text.strip()}' is no number", fix="Type one like 1.5") from None
    if field in SHARES and (percent or value > 1):
        return value / 100
    if field.startswith("soil_") or "temperature" in field:
        return value if units == "metric" else (value - 32) / 1.8
    return value


class FigureModel(HeadedModel):
    """Figures of one variety beside its crop's, one a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)
    heads = ("Figure", "The crop", "This variety", "Where it comes from")

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.crop: Crop | None = None
        self.variety: Variety | None = None

    @property
    def _units(self) -> UnitSystem:
        return self.document.garden.site.units

    def show_variety(self, crop: Crop | None, variety: Variety | None) -> None:
        """Show another variety."""
        self.beginResetModel()
        self.crop, self.variety = crop, variety
        self.endResetModel()

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() or self.variety is None else len(OWN_FIELDS)

    @override
    def is_editable(self, column: int) -> bool:
        return column in (_OWN, _NOTE)

    # -- showing ----------------------------------------------------------------------------

    def _own(self, field: str) -> OwnFigure | None:
        """The variety's own figure of a field."""
        if self.variety is None:
            return None
        return next((own for own in self.variety.figures if own.field == field), None)

    def _published(self, field: str) -> Figure | None:
        """The crop's figure of a field."""
        entry = getattr(self.crop, field) if self.crop is not None else None
        return entry if isinstance(entry, Figure) else None

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or self.variety is None:
            return None
        field, column = OWN_FIELDS[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(field, column)
        published = self._published(field)
        if role == Qt.ItemDataRole.ToolTipRole and published is not None and published.source:
            return self.document.catalogue.source_line(published.source)
        if role == Qt.ItemDataRole.FontRole and column == _OWN and self._own(field) is not None:
            return letters(10, bold=True)
        return None

    def _text(self, field: str, column: int) -> str:
        """The text of a cell."""
        if column == _NAME:
            return FIELD_NAMES.get(field, field)
        if column == _CROP:
            published = self._published(field)
            if published is None:
                return "not known"
            if not published.applies or published.value is None:
                return "does not apply"
            return number_words(field, published.value, self._units)
        own = self._own(field)
        if own is None:
            return ""
        return number_words(field, own.value, self._units) if column == _OWN else own.note

    # -- editing ----------------------------------------------------------------------------

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        variety = self.variety
        if variety is None or role != Qt.ItemDataRole.EditRole:
            return False
        field, text = OWN_FIELDS[index.row()], str(value).strip()
        old = self._own(field)
        if index.column() == _NOTE and old is None:
            self.wrong.emit("Type this variety's own figure first, then where it comes from.")
            return False
        if index.column() == _OWN and text and old is not None and text == self._text(field, _OWN):
            return False
        try:
            new = self._read(field, text, old, is_note=index.column() == _NOTE)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        rest = [own for own in variety.figures if own.field != field]
        figures = tuple(sorted([*rest, *new], key=lambda own: OWN_FIELDS.index(own.field)))
        return self.document.edit(
            f"Change figures of {variety.name}",
            lambda garden: edits.put_variety(garden, variety.id, figures=figures)[0],
        )

    def _read(self, field: str, text: str, old: OwnFigure | None, *, is_note: bool) -> list[OwnFigure]:
        """The own figure that a typed cell makes; none where it was emptied."""
        where = FIELD_NAMES.get(field, field)
        if is_note and old is not None:
            return [checked(lambda: old.with_(note=text), where)]
        if not text:
            return []
        number = read_figure(field, text, self._units)
        note = old.note if old is not None else ""
        return [checked(lambda: OwnFigure(field=field, value=number, note=note), where)]
