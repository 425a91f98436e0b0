"""The dialog for new beds by their size."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QSpinBox, QVBoxLayout, QWidget

from planner.desk.forms.fields import TypedField, length_field, text_field
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden.edits import BedRange, add_bed_range
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, show_length
from planner.words import say

#: Lengths shown at first, by unit system. [m]
_FIRST: dict[UnitSystem, dict[str, float]] = {
    "metric": {"length": 4.8, "width": 1.2, "path_across": 0.6, "path_up": 0.6},
    "feet_inches": {"length": 12 * FOOT, "width": 4 * FOOT, "path_across": 2 * FOOT, "path_up": 2 * FOOT},
}
#: Shortest side of a bed. [m]
LEAST_SIDE = 0.02
#: Most beds side by side, and one below the other.
MOST_BEDS = 100


class BedDialog(QDialog):
    """Describes a bed by its size, or a whole range of beds with paths between."""

    def __init__(self, parent: QWidget, units: UnitSystem) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("New beds"))
        self._units = units
        self._values = dict(_FIRST[units])
        self._lengths: dict[str, TypedField] = {}
        self.name = text_field(say("Name"), may_be_empty=True)
        empty = say("numbered if left empty")
        self.name.show_value(None, empty)
        # Wide enough for what it says while it is empty, within the field's own margins.
        self.name.setMinimumWidth(self.name.fontMetrics().horizontalAdvance(empty) + 24)
        self.wrong = QLabel()
        self.wrong.setWordWrap(True)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.setAccessibleDescription(say("What is wrong"))
        self.wrong.setProperty("warn", True)
        self.across, self.up = QSpinBox(), QSpinBox()
        form = QFormLayout()
        form.addRow(say("Name"), self.name)
        self._add_length(form, "length", say("Length"))
        self._add_length(form, "width", say("Width"))
        for spin, words in (
            (self.across, say("Beds side by side")),
            (self.up, say("Beds one below the other")),
        ):
            spin.setRange(1, MOST_BEDS)
            spin.setAccessibleName(words)
            form.addRow(words, spin)
        self._add_length(form, "path_across", say("Path between, across"))
        self._add_length(form, "path_up", say("Path between, down"))
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(self.wrong)
        layout.addWidget(buttons)

    def _add_length(self, form: QFormLayout, key: str, words: str) -> None:
        field = length_field(words, lambda: self._units)
        field.show_value(self._values[key])

        def on_typed(value: float) -> None:
            self._values[key] = float(value)
            field.show_value(value)
            self.wrong.clear()

        field.typed.connect(on_typed)
        field.wrong.connect(self.wrong.setText)
        field.righted.connect(self.wrong.clear)
        self._lengths[key] = field
        form.addRow(words, field)

    def _accept(self) -> None:
        if any(field.is_wrong for field in self._lengths.values()):
            return
        if min(self._values["path_across"], self._values["path_up"]) < 0:
            self.wrong.setText(say("A path cannot be narrower than nothing. Give its width, from 0."))
            return
        if min(self._values["width"], self._values["length"]) < LEAST_SIDE:
            least = show_length(LEAST_SIDE, self._units)
            self.wrong.setText(say("A bed needs a length and a width above {least}.", least=least))
            return
        try:
            add_bed_range(Garden(), self.beds(), 0.0, 0.0)
        except BedwrightError as error:
            self.wrong.setText(str(error))
            return
        self.accept()

    def beds(self) -> BedRange:
        """The beds described."""
        return BedRange(
            self.name.text().strip(), across=self.across.value(), up=self.up.value(), **self._values
        )
