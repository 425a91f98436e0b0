"""What is chosen of sheets before they are printed: beds, days, people, paper, labels."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QComboBox, QLabel, QLineEdit, QSpinBox, QVBoxLayout, QWidget

from planner.desk.forms.day_field import DayField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.theme.choice_names import name_choice
from planner.errors import BedwrightError
from planner.garden.units import month_first
from planner.words import say
from planner.words.typed_days import date_as_typed

if TYPE_CHECKING:
    from planner.sheets.kinds import SheetKind, SheetWish
    from planner.sheets.label_sheets import Shift

#: Week sheets are of so many days at first, less one.
_FOUR_WEEKS = dt.timedelta(days=27)


class SheetChoices(QWidget):
    """Choices in lines; those that mean nothing for a kind are not shown.

    Signals
    -------
    changed
        Something else was chosen.
    wrong : str
        What was typed is not possible; one line says why.
    """

    changed = Signal()
    wrong = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.kind: SheetKind = "bed"
        self.bed = _combo(say("Beds"))
        self.who = _combo(say("Tended by"))
        self.first = self._day_field(say("First day"))
        self.last = self._day_field(say("Last day"))
        self.day = self._day_field(say("Day of the walk, watering or map"))
        self.paper = _combo(say("Paper size"))
        for name, words in (("a4", "A4"), ("a3", "A3"), ("letter", say("Letter"))):
            self.paper.addItem(words, name)
        self.map_form = _combo(say("Form of the map"))
        for form, words in (
            ("", say("one day")),
            ("strip", say("four days of the year")),
            ("poster", say("poster")),
        ):
            self.map_form.addItem(words, form)
        self.poster = QLineEdit("2x2")
        self.poster.setAccessibleName(say("Pages of the poster across and down, or its scale"))
        self.poster.setToolTip(say("Pages across and down, as 2x3, or a scale, as 1:25"))
        self.poster.setMaximumWidth(80)
        self.labels = _combo(say("Sheet of labels"))
        self.own_labels = QLineEdit()
        self.labels.setEditable(True)
        self.labels.setLineEdit(self.own_labels)
        self.labels.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.used = QSpinBox()
        self.used.setAccessibleName(say("Labels used already"))
        self.used.setMaximum(500)
        self.shift = QLineEdit("0, 0")
        self.shift.setAccessibleName(say("Shift of labels to the right and up, in millimetres"))
        self.shift.setMaximumWidth(80)
        self.codes = QCheckBox(say("with codes"))
        self.per_row = QCheckBox(say("one a row"))
        self._groups = self._make_groups()
        for combo in (self.bed, self.who, self.paper, self.map_form):
            combo.activated.connect(lambda _index: self.changed.emit())
        self.poster.editingFinished.connect(self.changed)
        self.labels.activated.connect(lambda _index: self.changed.emit())
        self.own_labels.editingFinished.connect(self.changed)
        self.shift.editingFinished.connect(self.changed)
        self.used.valueChanged.connect(lambda _number: self.changed.emit())
        for box in (self.codes, self.per_row):
            box.toggled.connect(lambda _on: self.changed.emit())

    def _make_groups(self) -> dict[str, list[QWidget]]:
        flow = FlowLayout()
        groups: dict[str, list[QWidget]] = {
            "beds": [QLabel(say("Beds")), self.bed],
            "days": [QLabel(say("from")), self.first, QLabel(say("to")), self.last],
            "people": [QLabel(say("tended by")), self.who],
            "map form": [QLabel(say("as")), self.map_form],
            "poster": [QLabel(say("pages or scale")), self.poster],
            "day": [QLabel(say("on")), self.day],
            "paper": [QLabel(say("Paper size")), self.paper],
            "labels": [QLabel(say("Sheet of labels")), self.labels],
            "used": [QLabel(say("used already")), self.used],
            "shift": [QLabel(say("shift, mm")), self.shift],
            "boxes": [self.codes, self.per_row],
        }
        for widgets in groups.values():
            flow.add_group(*widgets)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(flow)
        return groups

    def _day_field(self, name: str) -> DayField:
        field = DayField(name, self.document.plan.span.first, self._read_day)
        field.typed.connect(lambda _day: self.changed.emit())
        field.wrong.connect(self.wrong)
        return field

    def _read_day(self, text: str) -> dt.date:
        plan = self.document.plan
        return date_as_typed(text, plan.span.first, month_first=month_first(plan.garden.site.units))

    def follow(self, *, fresh: bool) -> None:
        """Bring the lists in step with the garden.

        Parameters
        ----------
        fresh : bool
            Another garden or year: the days and the paper are its usual ones again.
        """
        from planner.sheets.label_formats import label_formats

        plan = self.document.plan
        _fill(self.bed, [("", say("all beds")), *((bed.id, bed.name) for bed in plan.beds)])
        people = sorted({one.tended_by for one in plan.plantings if one.tended_by})
        _fill(self.who, [("", say("everybody")), *((name, name) for name in people)])
        _fill(self.labels, [(name, form.words) for name, form in label_formats().items()])
        if fresh:
            feet = plan.garden.site.units == "feet_inches"
            self.paper.setCurrentIndex(self.paper.findData("letter" if feet else "a4"))
            self.labels.setCurrentIndex(self.labels.findData("letter-3x10" if feet else "a4-3x8"))
            today = dt.date.today()
            begin = today if plan.span.holds(today) else plan.span.first
            self.first.show_day(begin)
            self.last.show_day(min(begin + _FOUR_WEEKS, plan.span.last))
            self.day.show_day(begin)

    def show_kind(self, kind: SheetKind) -> None:
        """Show the choices of a kind of sheets."""
        from planner.sheets import kinds

        self.kind, form = kind, self.map_form.currentData()
        shown = {
            "beds": kind in kinds.OF_BEDS,
            "days": kind in kinds.OF_DAYS,
            "people": kind in kinds.OF_PEOPLE and self.who.count() > 1,
            "day": kind in kinds.OF_A_DAY and not (kind == "map" and form == "strip"),
            "map form": kind == "map",
            "poster": kind == "map" and form == "poster",
            "paper": kind != "labels",
        }
        for name, widgets in self._groups.items():
            for widget in widgets:
                widget.setVisible(shown.get(name, kind == "labels"))

    def wish(self) -> SheetWish:
        """What is chosen.

        Raises
        ------
        BedwrightError
            Where what was typed is not possible.
        """
        from planner.sheets import kinds
        from planner.sheets.poster import poster_wish

        form = self.map_form.currentData() if self.kind == "map" else ""
        bed, who, kind = self.bed.currentData(), self.who.currentData(), self.kind
        return kinds.SheetWish(
            kind=kind,
            beds=(bed,) if bed and kind in kinds.OF_BEDS else None,
            first=self.first.day if kind in kinds.OF_DAYS else None,
            last=self.last.day if kind in kinds.OF_DAYS else None,
            tended_by=(who,) if who and kind in kinds.OF_PEOPLE else None,
            day=self.day.day if kind in kinds.OF_A_DAY else None,
            strip=form == "strip",
            poster=poster_wish(self.poster.text()) if form == "poster" else None,
            paper=self.paper.currentData(),
            labels=self._labels() if kind == "labels" else "",
            used=self.used.value(),
            shift=self._shift(),
            codes=self.codes.isChecked(),
            per_row=self.per_row.isChecked(),
        )

    def _labels(self) -> str:
        """The sheet of labels that is chosen, or whose measures are typed."""
        text = self.labels.currentText()
        at = self.labels.findText(text)
        return str(self.labels.itemData(at)) if at >= 0 else text

    def _shift(self) -> Shift:
        from planner.sheets.label_sheets import Shift

        text = self.shift.text()
        try:
            right, up = (float(part) for part in text.split(","))
        except ValueError:
            raise BedwrightError(
                say("the shift '{text}' is no pair of numbers", text=text),
                fix=say("Type millimetres to the right and up, as 1, -0.5"),
            ) from None
        return Shift(right, up)


def _combo(name: str) -> QComboBox:
    combo = QComboBox()
    name_choice(combo, name)
    combo.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
    return combo


def _fill(combo: QComboBox, entries: list[tuple[str, str]]) -> None:
    """Fill a list anew where it has changed; what was chosen stays chosen."""
    if [(combo.itemData(i), combo.itemText(i)) for i in range(combo.count())] == entries:
        return
    now = combo.currentData()
    combo.clear()
    for key, words in entries:
        combo.addItem(words, key)
    combo.setCurrentIndex(max(0, combo.findData(now)))
