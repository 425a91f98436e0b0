"""The dialog for copies of beds and structures along a line or an arc."""

from __future__ import annotations

import math

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QLabel,
    QRadioButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import TypedField, length_field
from planner.desk.theme.dialog_buttons import DialogButtons
from planner.garden import Garden, edits
from planner.garden.angles import parse_angle, show_angle
from planner.garden.edits.ordering import MOST_COPIES
from planner.garden.site import UnitSystem
from planner.ground.extents import Extent
from planner.words import say

#: Way left between the copies at first. [m]
USUAL_WAY = 0.6
#: Angle between copies on an arc at first. [degrees]
USUAL_ANGLE = 30.0


class ArrayDialog(QDialog):
    """Describes copies: how many, how far apart and where to, or on which arc.

    Parameters
    ----------
    parent : QWidget
    units : UnitSystem
    extent : tuple of float
        Of what is copied: least x and y, greatest x and y on the plan. [m]

    Signals
    -------
    changed
        Something else is described.
    """

    changed = Signal()

    def __init__(self, parent: QWidget, units: UnitSystem, extent: Extent) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Array along a line or an arc"))
        self._extent = extent
        left, low, right, high = extent
        # Side by side where it is taller than wide, else one below the other.
        is_tall = high - low > right - left
        along = (right - left if is_tall else high - low) + USUAL_WAY
        self._values = {
            "distance": round(along, 3),
            "direction": 0.0 if is_tall else 270.0,
            "radius": round(2 * max(right - left, high - low), 2),
            "angle": USUAL_ANGLE,
        }
        self._fields: dict[str, TypedField] = {}
        self.copies = QSpinBox()
        self.copies.setRange(1, MOST_COPIES)
        self.copies.setValue(3)
        self.copies.setAccessibleName(say("Copies"))
        self.copies.valueChanged.connect(lambda _: self.changed.emit())
        self.line = QRadioButton(say("Along a line"))
        self.arc = QRadioButton(say("Along an arc"))
        self.line.setChecked(True)
        self.line.toggled.connect(self._follow)
        self.wrong = QLabel()
        self.wrong.setWordWrap(True)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.setAccessibleName(say("What is wrong"))
        self.wrong.setProperty("warn", True)
        form = QFormLayout()
        form.addRow(say("Copies"), self.copies)
        form.addRow(self.line)
        self._add(form, "distance", length_field(say("From one to the next"), lambda: units))
        self._add(
            form,
            "direction",
            TypedField(say("Direction, anticlockwise from the right"), parse_angle, show_angle),
        )
        form.addRow(self.arc)
        self._add(form, "radius", length_field(say("Radius; the centre lies below"), lambda: units))
        self._add(form, "angle", TypedField(say("Angle from one to the next"), parse_angle, show_angle))
        buttons = DialogButtons(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        buttons.accepted.connect(self._accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(self.wrong)
        layout.addWidget(buttons)
        self._follow()

    def _add(self, form: QFormLayout, key: str, field: TypedField) -> None:
        field.show_value(self._values[key])

        def on_typed(value: float) -> None:
            self._values[key] = float(value)
            field.accept()
            field.show_value(value)
            self.wrong.clear()
            self.changed.emit()

        field.typed.connect(on_typed)
        field.wrong.connect(self.wrong.setText)
        field.righted.connect(self.wrong.clear)
        self._fields[key] = field
        form.addRow(field.accessibleName(), field)

    def _follow(self) -> None:
        """Offer the fields of the way that is chosen."""
        for key, field in self._fields.items():
            field.setEnabled((key in ("distance", "direction")) == self.line.isChecked())
        self.changed.emit()

    def _accept(self) -> None:
        if not any(field.is_wrong for field in self._fields.values() if field.isEnabled()):
            self.accept()

    def make(self, garden: Garden, ids: tuple[str, ...]) -> tuple[Garden, tuple[str, ...]]:
        """The garden with the copies described, and their ids.

        Parameters
        ----------
        garden : Garden
        ids : tuple of str
            What is copied.

        Raises
        ------
        EditError
            Where they cannot be made.
        """
        values, copies = self._values, self.copies.value()
        if self.line.isChecked():
            turn = math.radians(values["direction"])
            step = values["distance"] * math.cos(turn), values["distance"] * math.sin(turn)
            return edits.array_things(garden, ids, copies, (round(step[0], 9), round(step[1], 9)))
        left, low, right, high = self._extent
        about = (left + right) / 2, (low + high) / 2 - values["radius"]
        return edits.array_things(garden, ids, copies, degrees=values["angle"], about=about)
