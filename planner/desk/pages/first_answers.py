"""The four answers with which a garden begins: where, units, frost, first beds."""

from __future__ import annotations

import dataclasses
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms import fields
from planner.desk.forms.fields import ChoiceField, TypedField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.background_jobs import JobQueue
from planner.desk.model.preferences import usual_units
from planner.desk.pages.start_picture import Pictured
from planner.desk.pages.town_field import FEET_COUNTRIES, TownField, Where
from planner.desk.theme.palette import letters
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden.edits import BedRange, Beginning, begin_garden
from planner.garden.edits.beginning import FIRST_BEDS, FirstBeds
from planner.garden.gazetteer import CREDIT
from planner.garden.site import Risk, UnitSystem
from planner.garden.units import month_first
from planner.words import later, say
from planner.words.dates import day_of_year_words
from planner.words.typed_days import day_of_year_as_typed

#: Most beds that begin a garden; more are drawn as a range.
MOST_FIRST_BEDS = 100
_UNITS: dict[UnitSystem, str] = {
    "metric": later("metres and centimetres"),
    "feet_inches": later("feet and inches"),
}
#: How sure a frost day is; None where there is no frost.
_RISKS: dict[Risk | None, str] = {
    50: later("in every second year frost comes beyond them"),
    10: later("in one year of ten frost comes beyond them"),
    90: later("in nine years of ten frost comes beyond them"),
    None: later("there is never any frost here"),
}
_BEDS: dict[FirstBeds, str] = {
    "boxes": later("&Three boxes"),
    "range": later("A &row of beds"),
    "drawn": later("One bed, &drawn by hand"),
}


class FirstAnswers(QWidget):
    """A form whose answers can all be left out.

    Parameters
    ----------
    jobs : JobQueue
    units : str, optional
        The units at first; the usual ones of the system's country where not given.

    Signals
    -------
    changed
        An answer is another one.
    """

    changed = Signal()

    def __init__(self, jobs: JobQueue, units: UnitSystem | None = None) -> None:
        super().__init__()
        self._units: UnitSystem = units or usual_units()
        self._units_chosen = False
        self._frost: dict[str, str | None] = {"last_frost": None, "first_frost": None}
        self._ranges = dict(FIRST_BEDS[self._units])
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(4)
        self._make_where(jobs)
        self._make_units()
        self._make_frost()
        self._make_beds()
        self._column.addStretch(1)
        self._follow_beds()

    # -- making -----------------------------------------------------------------------------

    def _title(self, words: str, buddy: QWidget | None = None) -> None:
        label = QLabel(words)
        label.setFont(letters(10, bold=True))
        label.setContentsMargins(0, 8, 0, 0)
        if buddy is not None:
            label.setBuddy(buddy)
        self._column.addWidget(label)

    def _note(self, words: str = "") -> QLabel:
        label = QLabel(words)
        label.setWordWrap(True)
        label.setTextFormat(Qt.TextFormat.PlainText)
        label.setProperty("second", True)
        self._column.addWidget(label)
        return label

    def _warning(self) -> QLabel:
        """A line for what is wrong with the fields above it; hidden while nothing is."""
        label = self._note()
        label.setProperty("second", False)
        label.setProperty("warn", True)
        label.setAccessibleDescription(say("What is wrong"))
        label.hide()
        return label

    def _make_where(self, jobs: JobQueue) -> None:
        self.where = TownField(jobs)
        self._title(say("&Where is the garden?"), self.where)
        self._column.addWidget(self.where)
        self.place_note = self._note()
        self._say_place("")
        self.where.answered.connect(self._follow_where)
        self.where.wrong.connect(self._say_place)
        self.where.waiting.connect(lambda: self.place_note.setText(say("The list of towns is being read…")))

    def _make_units(self) -> None:
        self.units = ChoiceField(say("Units"), [(key, say(_UNITS[key])) for key in _UNITS])
        self.units.show_value(self._units)
        self._title(say("&In which units do you measure?"), self.units)
        self._column.addWidget(self.units, 0, Qt.AlignmentFlag.AlignLeft)
        self.units.chosen.connect(self._choose_units)

    def _make_frost(self) -> None:
        self._title(say("When is the last frost of spring, and the first of autumn?"))
        self.last_frost = self._frost_field(say("Last frost of spring"), "last_frost")
        self.first_frost = self._frost_field(say("First frost of autumn"), "first_frost")
        row = QHBoxLayout()
        for words, field in ((say("last"), self.last_frost), (say("first"), self.first_frost)):
            label = QLabel(words)
            label.setBuddy(field)
            row.addWidget(label)
            row.addWidget(field)
        row.addStretch(1)
        self._column.addLayout(row)
        self.frost_wrong = self._warning()
        self.risk = ChoiceField(
            say("How sure the frost days are"), [(key, say(_RISKS[key])) for key in _RISKS]
        )
        self._column.addWidget(self.risk)
        self.risk.chosen.connect(lambda _risk: self._follow_frost())
        self.frost_note = self._note(
            say(
                "No frost days come with the program. Your national weather service has them for the station next to you; "
                "neighbours with gardens know how yours differs. They may stay empty."
            )
        )

    def _frost_field(self, name: str, key: str) -> TypedField:
        field = TypedField(
            name,
            lambda text: day_of_year_as_typed(text, month_first=month_first(self._units)),
            day_of_year_words,
            may_be_empty=True,
        )
        field.setMinimumWidth(fields.LEAST_DATE_WIDTH)
        field.setPlaceholderText(say("day and month"))

        def take(day: str | None) -> None:
            self._frost[key] = day
            field.show_value(day, say("day and month"))
            self._say_frost()
            self._follow_frost()

        field.typed.connect(take)
        field.wrong.connect(self._say_frost)
        field.righted.connect(self._say_frost)
        return field

    def _make_beds(self) -> None:
        self._title(say("Which beds do you begin with?"))
        self.beds: dict[FirstBeds, QRadioButton] = {}
        group = QButtonGroup(self)
        line = QWidget()
        flow = FlowLayout(spacing=12)
        line.setLayout(flow)
        for key in _BEDS:
            button = QRadioButton(say(_BEDS[key]))
            group.addButton(button)
            flow.addWidget(button)
            self.beds[key] = button
        self.beds["boxes"].setChecked(True)
        self._column.addWidget(line)
        self.number = fields.whole_field(say("Number of beds"))
        self.length = fields.length_field(say("Length of a bed"), lambda: self._units)
        self.width_ = fields.length_field(say("Width of a bed"), lambda: self._units)
        self.path = fields.length_field(say("Path between them"), lambda: self._units)
        self._sizes = QWidget()
        grid = QGridLayout(self._sizes)
        grid.setContentsMargins(0, 0, 0, 0)
        shown = (
            (say("number"), self.number, "number"),
            (say("length"), self.length, "length"),
            (say("width"), self.width_, "width"),
            (say("path between"), self.path, "path"),
        )
        for column, (words, field, name) in enumerate(shown):
            label = QLabel(words)
            label.setBuddy(field)
            grid.addWidget(label, 0, column)
            grid.addWidget(field, 1, column)
            field.typed.connect(lambda value, name=name: self._set_size(name, value))
            field.wrong.connect(self.say_wrong)
            field.righted.connect(lambda: self.say_wrong(""))
        self._column.addWidget(self._sizes)
        self.wrong = self._warning()
        group.buttonToggled.connect(lambda _button, on: self._follow_beds() if on else None)

    # -- following --------------------------------------------------------------------------

    def say_wrong(self, text: str) -> None:
        """Say below the sizes of the beds what cannot be; nothing where it is well again."""
        _show(self.wrong, text)

    def _say_frost(self, _text: str = "") -> None:
        """Say below the frost days what cannot be read of them."""
        fields_here = (self.last_frost, self.first_frost)
        reasons = (field.why_wrong for field in fields_here if field.isEnabled())
        _show(self.frost_wrong, "\n".join(filter(None, reasons)))

    def _say_place(self, text: str) -> None:
        """Below the place: what is wrong with it, else where the towns come from."""
        self.place_note.setText(text or say(CREDIT))
        self.place_note.setProperty("warn", bool(text))
        self.place_note.style().polish(self.place_note)

    def _follow_where(self, where: Where | None) -> None:
        if where is not None and where.country_code and not self._units_chosen:
            self._take_units("feet_inches" if where.country_code in FEET_COUNTRIES else "metric")
        self.changed.emit()

    def _choose_units(self, units: UnitSystem) -> None:
        self._units_chosen = True
        self._take_units(units)

    def _take_units(self, units: UnitSystem) -> None:
        if units == self._units:
            return
        proposed = FIRST_BEDS[self._units]
        self._ranges = {
            key: FIRST_BEDS[units][key] if beds == proposed[key] else beds
            for key, beds in self._ranges.items()
        }
        self._units = units
        self.units.show_value(units)
        self._follow_beds()

    def _follow_frost(self) -> None:
        never = self.risk.value is None
        for field in (self.last_frost, self.first_frost):
            field.setEnabled(not never)
        self._say_frost()
        self.changed.emit()

    @property
    def _chosen(self) -> FirstBeds:
        return next(key for key, button in self.beds.items() if button.isChecked())

    @property
    def _range(self) -> BedRange | None:
        return self._ranges.get(self._chosen)

    def _follow_beds(self) -> None:
        beds = self._range
        self._sizes.setEnabled(beds is not None)
        if beds is not None:
            for field in (self.number, self.length, self.width_, self.path):
                field.accept()
            self.number.show_value(beds.number)
            self.length.show_value(beds.length)
            self.width_.show_value(beds.width)
            self.path.show_value(beds.path_across if self._chosen == "boxes" else beds.path_up)
        self.say_wrong("")
        self.changed.emit()

    def _set_size(self, name: str, value: float) -> None:
        beds = self._range
        if beds is None:
            return
        along = ("across", "path_across") if self._chosen == "boxes" else ("up", "path_up")
        changes: dict[str, Any] = {{"number": along[0], "path": along[1]}.get(name, name): value}
        new = dataclasses.replace(beds, **changes)
        try:
            if not 1 <= new.number <= MOST_FIRST_BEDS:
                raise BedwrightError(
                    say("A garden begins with 1 to {most} beds here", most=MOST_FIRST_BEDS),
                    fix=say("Add more of them afterwards, with Draw, New beds by size"),
                )
            if min(new.path_across, new.path_up) < 0:
                raise BedwrightError(
                    say("A path cannot be narrower than nothing"), fix=say("Give its width, from 0")
                )
            begin_garden(Garden(), Beginning(beds=new))
        except BedwrightError as error:
            self._follow_beds()
            self.say_wrong(str(error))
            return
        self._ranges[self._chosen] = new
        self._follow_beds()

    # -- the answers ------------------------------------------------------------------------

    @property
    def is_wrong(self) -> bool:
        """Whether a field holds what cannot be read."""
        typed = (
            self.where,
            self.last_frost,
            self.first_frost,
            self.number,
            self.length,
            self.width_,
            self.path,
        )
        return any(field.is_wrong and field.isEnabled() for field in typed)

    def first_wrong(self) -> QWidget:
        """The first field that holds what cannot be read."""
        typed = (
            self.where,
            self.last_frost,
            self.first_frost,
            self.number,
            self.length,
            self.width_,
            self.path,
        )
        return next(field for field in typed if field.is_wrong and field.isEnabled())

    def answers(self) -> Beginning:
        """The answers as they are now."""
        where, risk = self.where.where, self.risk.value
        return Beginning(
            latitude=where.latitude if where is not None else None,
            longitude=where.longitude if where is not None else None,
            time_zone=where.time_zone if where is not None else "",
            units=self._units,
            last_frost=self._frost["last_frost"],
            first_frost=self._frost["first_frost"],
            risk=risk if risk in (10, 50, 90) else 50,
            frost_free=risk is None,
            beds=self._range,
            boxed=self._chosen == "boxes",
        )

    def pictured(self) -> Pictured:
        """What is drawn of the answers."""
        now = self.answers()
        return Pictured(now.latitude, now.units, now.last_frost, now.first_frost, now.frost_free, now.beds)


def _show(label: QLabel, text: str) -> None:
    """Show a text where there is one."""
    label.setText(text)
    label.setVisible(bool(text))
