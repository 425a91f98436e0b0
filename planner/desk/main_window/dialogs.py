"""The few questions that need a window of their own."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from itertools import count

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QDateEdit,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QGridLayout,
    QLabel,
    QRadioButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import TypedField, length_field, text_field
from planner.errors import BedwrightError
from planner.garden import Bed, Garden, Rectangle, edits
from planner.garden.site import UnitSystem
from planner.garden.units import FOOT, show_length
from planner.plan import Plan
from planner.season.succession import Series, all_season, every


@dataclass(frozen=True)
class BedWish:
    """One bed, or a range of them: size, numbers, paths between. [m]"""

    name: str
    length: float
    width: float
    across: int = 1
    up: int = 1
    path_across: float = 0.6
    path_up: float = 0.6


def add_beds(garden: Garden, wish: BedWish, left: float, top: float) -> tuple[Garden, tuple[str, ...]]:
    """Add a range of beds, its upper left corner at a place of the plan, row by row from the top."""
    made: list[Bed] = []
    names = {bed.name.casefold() for bed in garden.beds}
    keys = count(int(edits.fresh_id(garden, "b")[1:]))
    numbers = count(1 if wish.name else len(garden.beds) + 1)
    for j in range(wish.up):
        for i in range(wish.across):
            center = (
                round(left + wish.length / 2 + i * (wish.length + wish.path_across), 6),
                round(top - wish.width / 2 - j * (wish.width + wish.path_up), 6),
            )
            outline = edits.checked(
                lambda center=center: Rectangle(center=center, length=wish.length, width=wish.width),
                wish.name or "bed",
            )
            if wish.name and wish.across * wish.up == 1:
                name = edits.fresh_name(names, wish.name)
            else:
                free = (f"{wish.name or 'Bed'} {number}" for number in numbers)
                name = next(name for name in free if name.casefold() not in names)
            names.add(name.casefold())
            key = f"b{next(keys)}"
            made.append(edits.checked(lambda k=key, n=name, o=outline: Bed(id=k, name=n, outline=o), name))
    return edits.checked(lambda: garden.with_(beds=(*garden.beds, *made)), "garden"), tuple(
        bed.id for bed in made
    )


class BedDialog(QDialog):
    """Asks for a bed by its size, or for a whole range of beds with paths between."""

    def __init__(self, parent: QWidget, units: UnitSystem) -> None:
        super().__init__(parent)
        self.setWindowTitle("New beds")
        metric = units == "metric"
        first = BedWish("", 4.8 if metric else 12 * FOOT, 1.2 if metric else 4 * FOOT)
        self.name = text_field("Name", may_be_empty=True)
        self.name.show_value(None, "numbered if left empty")
        self.wrong = QLabel()
        self.wrong.setWordWrap(True)
        self.wrong.setTextFormat(Qt.TextFormat.PlainText)
        self.wrong.setAccessibleName("What is wrong")
        self.wrong.setProperty("warn", True)
        self._lengths: dict[str, TypedField] = {}
        self._values = {
            "length": first.length,
            "width": first.width,
            "path_across": 0.6 if metric else 2 * FOOT,
            "path_up": 0.6 if metric else 2 * FOOT,
        }
        form = QFormLayout()
        form.addRow("Name", self.name)
        for key, words in (("length", "Length"), ("width", "Width")):
            form.addRow(words, self._length(key, words, units))
        self.across, self.up = QSpinBox(), QSpinBox()
        for spin, words in ((self.across, "Beds side by side"), (self.up, "Beds one below the other")):
            spin.setRange(1, 100)
            spin.setAccessibleName(words)
            form.addRow(words, spin)
        for key, words in (("path_across", "Path between, across"), ("path_up", "Path between, down")):
            form.addRow(words, self._length(key, words, units))
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self._accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(self.wrong)
        layout.addWidget(buttons)
        self._units = units

    def _length(self, key: str, words: str, units: UnitSystem) -> TypedField:
        field = length_field(words, lambda: units)
        field.show_value(self._values[key])

        def take(value: object) -> None:
            self._values[key] = float(value)  # type: ignore[arg-type]
            field.show_value(value)
            self.wrong.clear()

        field.typed.connect(take)
        field.wrong.connect(self.wrong.setText)
        field.righted.connect(self.wrong.clear)
        self._lengths[key] = field
        return field

    def _accept(self) -> None:
        if any(field.is_wrong for field in self._lengths.values()):
            return
        if min(self._values["path_across"], self._values["path_up"]) < 0:
            self.wrong.setText("A path cannot be narrower than nothing. Give its width, from 0.")
            return
        if min(self._values["width"], self._values["length"]) < 0.02:
            self.wrong.setText(f"A bed needs a length and a width above {show_length(0.02, self._units)}.")
            return
        try:
            add_beds(Garden(), self.wish(), 0.0, 0.0)
        except BedwrightError as error:
            self.wrong.setText(str(error))
            return
        self.accept()

    def wish(self) -> BedWish:
        """What was asked for."""
        return BedWish(
            self.name.text().strip(), across=self.across.value(), up=self.up.value(), **self._values
        )


class SeriesDialog(QDialog):
    """Asks how a planting is to be followed by others of its kind."""

    def __init__(self, parent: QWidget, name: str, first: dt.date, last: dt.date) -> None:
        super().__init__(parent)
        self.setWindowTitle(f"A series of {name}")
        self.every = QRadioButton("Start again every")
        self.every.setChecked(True)
        self.days = QSpinBox()
        self.days.setRange(1, 365)
        self.days.setValue(21)
        self.days.setSuffix(" days")
        self.days.setAccessibleName("Days from start to start")
        self.until = QDateEdit(last)
        self.until.setAccessibleName("Last start")
        self.keep = QRadioButton("Keep it to be picked from")
        self.first, self.last = QDateEdit(first), QDateEdit(last)
        self.first.setAccessibleName("Picked from")
        self.last.setAccessibleName("Picked until")
        for field in (self.until, self.first, self.last):
            field.setDisplayFormat("d MMM yyyy")
            field.setCalendarPopup(True)
        form = QGridLayout()
        form.addWidget(self.every, 0, 0)
        form.addWidget(self.days, 0, 1)
        form.addWidget(QLabel("until"), 0, 2)
        form.addWidget(self.until, 0, 3)
        form.addWidget(self.keep, 1, 0)
        form.addWidget(self.first, 1, 1)
        form.addWidget(QLabel("to"), 1, 2)
        form.addWidget(self.last, 1, 3)
        words = QLabel(
            "Each takes the next free stretch of its bed, or of another; what would not ripen is left out."
        )
        words.setWordWrap(True)
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addLayout(form)
        layout.addWidget(words)
        layout.addWidget(buttons)

    def make(self, plan: Plan, key: str) -> Series:
        """The series asked for.

        Raises
        ------
        BedwrightError
            Where it cannot be made at all.
        """
        beds = [bed.id for bed in plan.beds]
        if self.every.isChecked():
            return every(plan, key, self.days.value(), self.until.date().toPython(), beds)
        return all_season(plan, key, self.first.date().toPython(), self.last.date().toPython(), beds)
