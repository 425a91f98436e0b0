"""Figures and words of an own variety or crop beside those of the crop it goes by, as a table; edited in place."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from typing_extensions import override

from planner.crops import Crop
from planner.crops.figures import Flag, Origin, Words
from planner.desk.model.document import Document
from planner.desk.pages.tables import HeadedModel, Index
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.garden import Garden, OwnCrop, OwnFigure, OwnWord, Variety, edits
from planner.garden.edits.common import checked
from planner.garden.site import UnitSystem
from planner.garden.varieties import OWN_FIELDS, OWN_WORDS
from planner.importing.own_figures import read_own_figure, read_own_word, source_named
from planner.listings.figure_words import FIELD_NAMES, entry_words, field_words, number_words
from planner.words import say

#: Fields of the table, in the order of the crop's page.
ROWS: tuple[str, ...] = tuple(field for field in FIELD_NAMES if field in OWN_FIELDS or field in OWN_WORDS)
#: Columns of the table.
NAME, CROP, OWN, SOURCE, NOTE = range(5)


class FigureModel(HeadedModel):
    """What one variety or own crop says of itself, a figure a row.

    Signals
    -------
    wrong : str
        What was typed is not possible; one line says why.
    """

    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.heads = (say("Figure"), say("The crop"), say("Own"), say("Source"), say("Note"))
        self.document = document
        self.crop: Crop | None = None
        self.thing: Variety | OwnCrop | None = None

    @property
    def _units(self) -> UnitSystem:
        return self.document.garden.site.units

    def show_thing(self, crop: Crop | None, thing: Variety | OwnCrop | None) -> None:
        """Show another variety or own crop, beside the crop it goes by."""
        if (thing is None) != (self.thing is None):
            self.beginResetModel()
            self.crop, self.thing = crop, thing
            self.endResetModel()
            return
        self.crop, self.thing = crop, thing
        if thing is not None:  # cells that are being edited stay open
            self.dataChanged.emit(self.index(0, 0), self.index(len(ROWS) - 1, NOTE))

    @override
    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: B008  # Qt's own default
        return 0 if parent.isValid() or self.thing is None else len(ROWS)

    @override
    def is_editable(self, column: int) -> bool:
        return column in (OWN, SOURCE, NOTE)

    # -- showing ----------------------------------------------------------------------------

    def _own(self, field: str) -> OwnFigure | OwnWord | None:
        """What it says itself of a field."""
        if self.thing is None:
            return None
        told: tuple[OwnFigure | OwnWord, ...] = (*self.thing.figures, *self.thing.words)
        return next((own for own in told if own.field == field), None)

    def _published(self, field: str) -> Origin | None:
        entry: Origin | None = getattr(self.crop, field) if self.crop is not None else None
        return entry

    @override
    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or self.thing is None:
            return None
        field, column = ROWS[index.row()], index.column()
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            return self._text(field, column)
        if role == Qt.ItemDataRole.ToolTipRole:
            published = self._published(field)
            if column == OWN and may_be(field):
                return may_be(field)
            return (
                self.document.catalogue.source_line(published.source)
                if published and published.source
                else None
            )
        if role == Qt.ItemDataRole.FontRole and column == OWN and self._own(field) is not None:
            return letters(10, bold=True)
        return None

    def _text(self, field: str, column: int) -> str:
        """The text of a cell."""
        if column == NAME:
            return field_words(field)
        if column == CROP:
            published = self._published(field)
            if published is None:
                return say("not known")
            return entry_words(field, published, self._units) if published.applies else say("does not apply")
        own = self._own(field)
        if own is None:
            return ""
        if column == NOTE:
            return own.note
        if column == SOURCE:
            return self.source_title(own.source)
        return own_figure_words(own, self._units) if isinstance(own, OwnFigure) else ", ".join(own.words)

    def source_title(self, key: str) -> str:
        """Title of an own source, or a shipped one in a few words; empty where none is named."""
        if not key:
            return ""
        own = next((source.title for source in self.document.garden.sources if source.key == key), None)
        return own if own is not None else self.document.catalogue.source_in_brief(key) or key

    # -- editing ----------------------------------------------------------------------------

    @override
    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        thing = self.thing
        if thing is None or role != Qt.ItemDataRole.EditRole:
            return False
        field, text, column = ROWS[index.row()], str(value).strip(), index.column()
        old = self._own(field)
        if column != OWN and old is None:
            if text:
                self.wrong.emit(say("Type its own figure first, then where it comes from."))
            return False
        if text == self._text(field, column):
            return False
        try:
            garden, new = self._read(self.document.stable, field, text, old, column)
        except BedwrightError as error:
            self.wrong.emit(str(error))
            return False
        return self.document.edit(
            say("Change figures of {name}", name=thing.name), lambda _garden: _put(garden, thing, field, new)
        )

    def _read(
        self, garden: Garden, field: str, text: str, old: OwnFigure | OwnWord | None, column: int
    ) -> tuple[Garden, OwnFigure | OwnWord | None]:
        """The garden with a source that was named first, and what the typed cell makes; None where it was emptied."""
        if column == SOURCE and old is not None:
            garden, key = source_named(garden, text)
            return garden, checked(lambda: old.with_(source=key), field_words(field))
        if column == NOTE and old is not None:
            return garden, checked(lambda: old.with_(note=text), field_words(field))
        if not text:
            return garden, None
        if field in OWN_FIELDS:
            return garden, read_own_figure(
                field, text, self._units, old if isinstance(old, OwnFigure) else None, field_words(field)
            )
        return garden, read_own_word(
            field, text, old if isinstance(old, OwnWord) else None, field_words(field)
        )


def _put(garden: Garden, thing: Variety | OwnCrop, field: str, new: OwnFigure | OwnWord | None) -> Garden:
    """Put what a variety or own crop says of a field in the place of what it said before."""
    figures = [own for own in thing.figures if own.field != field]
    words = [own for own in thing.words if own.field != field]
    if isinstance(new, OwnFigure):
        figures.append(new)
    elif new is not None:
        words.append(new)
    fields = {
        "figures": tuple(sorted(figures, key=lambda own: ROWS.index(own.field))),
        "words": tuple(sorted(words, key=lambda own: ROWS.index(own.field))),
    }
    if isinstance(thing, Variety):
        return edits.put_variety(garden, thing.id, **fields)[0]
    return edits.put_crop(garden, thing.key, **fields)[0]


def own_figure_words(own: OwnFigure, units: UnitSystem) -> str:
    """An own figure as it is typed, its range in brackets."""
    shown = number_words(own.field, own.value, units)
    if own.low is None or own.high is None:
        return shown
    low, high = (number_words(own.field, value, units) for value in (own.low, own.high))
    return say("{value} ({low} to {high})", value=shown, low=low, high=high)


def may_be(field: str) -> str:
    """What may be typed for a field, in a sentence for its tool tip; empty for a number."""
    if field not in OWN_WORDS:
        return ""
    if OWN_WORDS[field] is Flag:
        return say("Type yes or no.")
    return say("Type words, parted by commas.") if OWN_WORDS[field] is Words else say("Type one word.")
