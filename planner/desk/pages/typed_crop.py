"""A crop that is typed: a few letters list those that have them."""

from __future__ import annotations

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtWidgets import QComboBox, QCompleter, QLineEdit
from typing_extensions import override

from planner.desk.model.document import Document
from planner.desk.pages.tables import CropChoice
from planner.errors import BedwrightError
from planner.importing.stock_cells import crop_of_cell
from planner.words import say


class TypedCrop(CropChoice):
    """A choice among all crops that is typed: a few letters from anywhere in the name list those that have them.

    Signals
    -------
    entered
        The crop typed, or chosen from those listed, is meant.
    """

    entered = Signal()

    def __init__(self, document: Document, name: str) -> None:
        super().__init__(document, name)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        line = QLineEdit(self)
        self.setLineEdit(line)
        self._completer = completer = QCompleter(self.model(), self)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setMaxVisibleItems(12)
        self.setCompleter(completer)
        line.setAccessibleName(name)
        line.setPlaceholderText(say("type a crop"))
        line.returnPressed.connect(self._enter)
        self.setMinimumWidth(line.fontMetrics().horizontalAdvance("m" * 16))
        self.clear_typed()

    def _enter(self) -> None:
        listed = self._completer.popup()
        was_listed = listed is not None and listed.isVisible()
        if listed is not None:
            listed.hide()
        self.entered.emit()
        if was_listed and not self.currentText():
            # The list still completes after the line has been told of Return: by then it lists all crops, and takes the first.
            QTimer.singleShot(0, self, self.clear_typed)

    def clear_typed(self) -> None:
        """Empty it for the next crop."""
        self.setCurrentIndex(-1)
        self.clearEditText()

    @override
    def _follow(self) -> None:
        if self._document.catalogue is not self._catalogue:
            super()._follow()
            self.clear_typed()

    def crop(self) -> str:
        """Key of the crop that is typed: by its name, by another name of it, or by the only one that has these letters.

        Raises
        ------
        BedwrightError
            Where no crop, or more than one, is called so.
        """
        text = " ".join(self.currentText().split())
        if not text:
            raise BedwrightError(
                say("no crop is named"), fix=say("Type the name of one, or choose it from the list")
            )
        number = self.findText(text, Qt.MatchFlag.MatchFixedString)
        if number < 0:
            within = [at for at in range(self.count()) if text.casefold() in self.itemText(at).casefold()]
            number = within[0] if len(within) == 1 else -1
        return str(self.itemData(number)) if number >= 0 else crop_of_cell(text, self._catalogue, [])
