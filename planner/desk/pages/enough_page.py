"""How much of a crop to plant so that some people have enough until a day, and a button that plants it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout, QWidget

from planner.amounts.eating import STORED
from planner.amounts.enough import Spot
from planner.amounts.enough_for import Enough, enough_for, first_day_eaten
from planner.checks.unfit_ground import unfit_ground
from planner.crops import Crop
from planner.desk.forms import fields
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.pages.tables import CropChoice
from planner.errors import BedwrightError
from planner.garden.site import UnitSystem
from planner.garden.units import month_first, show_area, show_length
from planner.listings.enough import need_lines, room_words
from planner.listings.harvest import refused_words
from planner.listings.weights import parse_weight, weight_cell, weight_head, weight_words
from planner.plan import Plan
from planner.words import capital, join_list, say, short_number
from planner.words.typed_days import date_as_typed

#: The crop that is asked first.
FIRST_CROP = "potato"
#: Last day of eating what is stored, where none was typed: the end of winter (practice).
WINTER_ENDS = (3, 31)
#: Days of eating what is not stored, where no day was typed (practice). [days]
FRESH_DAYS = 28
#: No field above is wider. [pixels]
_FIELD_WIDTH = 110
#: Fewest and most persons that may be typed.
_PERSONS = (0.0, 100_000.0)


def spot_heads(units: UnitSystem) -> tuple[str, ...]:
    """Headings of the table of stretches."""
    unit = weight_head(units)
    return (say("Bed"), say("From"), say("To"), say("Plants"), say("Area"), say("Harvest, {unit}", unit=unit))


class EnoughPage(QWidget):
    """How much to plant.

    It is worked out beside the window, only while the page is seen.

    Signals
    -------
    said : str
        What was planted.
    """

    said = Signal(str)

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("How much to plant"))
        self.jobs = JobQueue(self)
        self.found: Enough | None = None
        self._plan: Plan | None = None
        self._persons: float | None = None
        self._until: dt.date | None = None
        self._weekly: float | None = None
        self._make_fields()
        self.words = wrapped_label()
        self.table = OpeningTable(
            spot_heads(document.garden.site.units), say("Ground for it"), right=(1, 2, 3, 4, 5)
        )
        self.table.setRootIsDecorated(False)
        self.plant = QPushButton(say("Plant it there"))
        self.plant.setEnabled(False)
        self.plant.clicked.connect(self._plant)
        for widget in (self.table, self.plant):
            widget.hide()
        foot = FlowLayout()
        foot.addWidget(self.plant)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(self._head())
        column.addWidget(self.words)
        column.addWidget(self.table, 1000)
        column.addLayout(foot)
        column.addStretch(1)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)
        document.opened.connect(self._forget)
        document.garden_changed.connect(self._follow_change)

    def _make_fields(self) -> None:
        document = self.document
        self.crop = CropChoice(document, say("Crop to have enough of"))
        self.crop.setCurrentIndex(max(0, self.crop.findData(FIRST_CROP)))
        self.crop.activated.connect(lambda _index: self._take_crop())
        self.persons = fields.TypedField(
            say("Persons who eat of it"), _persons, short_number, may_be_empty=True
        )
        self.until = fields.date_field(say("Last day on which it is eaten"), self._read_day)
        self.weekly = fields.TypedField(
            say("What a person eats of it in a week"),
            lambda text: parse_weight(text, document.garden.site.units) / 1000,
            lambda value: weight_words(value * 1000, document.garden.site.units),
            may_be_empty=True,
        )
        self.place = fields.ChoiceField(say("Where it is kept"), (("", ""),))
        self.place.chosen.connect(lambda _place: self.refresh())
        self.persons.typed.connect(lambda value: self._take("_persons", value))
        self.until.typed.connect(lambda value: self._take("_until", value))
        self.weekly.typed.connect(lambda value: self._take("_weekly", value))
        for field in (self.persons, self.until, self.weekly):
            field.wrong.connect(self._show_fault)
            field.righted.connect(self.refresh)

    def _head(self) -> FlowLayout:
        head = FlowLayout()
        for field in (self.persons, self.until, self.weekly):
            field.setMaximumWidth(_FIELD_WIDTH)
        head.addWidget(self.crop)
        head.add_group(QLabel(say("for")), self.persons, QLabel(say("persons")))
        head.add_group(QLabel(say("until")), self.until)
        head.add_group(QLabel(say("each")), self.weekly, QLabel(say("a week")))
        head.add_group(QLabel(say("kept in")), self.place)
        return head

    # -- what is asked ------------------------------------------------------------------------

    def _forget(self) -> None:
        """Another garden: nothing that was typed is of it."""
        self._persons = self._until = self._weekly = None
        for field in (self.persons, self.until, self.weekly):
            field.accept()

    def _take_crop(self) -> None:
        self._until = self._weekly = None
        self.refresh()

    def _take(self, name: str, value: object) -> None:
        setattr(self, name, value)
        self.refresh()

    def _crop(self) -> Crop | None:
        return self.document.catalogue.get(str(self.crop.currentData()))

    def _read_day(self, text: str) -> dt.date:
        plan, crop = self.document.plan, self._crop()
        first = first_day_eaten(plan, crop) if crop is not None else plan.span.first
        return date_as_typed(text, first, month_first=month_first(plan.garden.site.units))

    def _usual_day(self, crop: Crop) -> dt.date:
        first = first_day_eaten(self.document.plan, crop)
        if (crop.number("store_days") or 0) < STORED:
            return first + dt.timedelta(days=FRESH_DAYS)
        spring = dt.date(first.year, *WINTER_ENDS)
        return spring if spring > first else dt.date(first.year + 1, *WINTER_ENDS)

    # -- showing ----------------------------------------------------------------------------

    def _follow_change(self) -> None:
        """Forget what is of a garden of before; an edit that is settled at once was begun to be worked out already."""
        if self._plan is not self.document.plan:
            self._outdated()

    def _outdated(self) -> None:
        """What was found is of a garden of before: it may not be planted any more."""
        self.jobs.cancel()
        self.found = None
        self.plant.setEnabled(False)

    def refresh(self) -> None:
        """Begin to work out what is asked, of the garden as it is now."""
        self._outdated()
        self._plan = plan = self.document.plan
        crop = self._crop()
        household = plan.garden.household.persons
        self._offer_places()
        self.table.set_heads(spot_heads(plan.garden.site.units))
        with QSignalBlocker(self.persons):
            self.persons.show_value(self._persons if self._persons is not None else household or None)
        many = self._persons if self._persons is not None else household
        self.weekly.show_value(self._weekly, say("as usual"))
        if crop is None or any(field.is_wrong for field in (self.persons, self.until, self.weekly)):
            return
        try:
            until = self._until if self._until is not None else self._usual_day(crop)
        except BedwrightError as error:
            self._show_fault(str(error))
            return
        self.until.show_value(until)
        if not many:
            self._show_fault(say("How many eat of it is not known: type a number of persons."))
            return
        weekly, key = self._weekly, self.place.value
        place = next((one for one in plan.garden.store_places if one.id == key), None)

        def work(_cancelled: Cancelled) -> Iterator[Enough | str]:
            try:
                yield enough_for(plan, crop, many, until, weekly, place, unfit_ground(plan))
            except BedwrightError as error:
                yield str(error)

        self.words.setText(say("Being worked out"))
        self.jobs.start(work, self._receive)

    def _offer_places(self) -> None:
        now = self.place.value
        places = self.document.garden.store_places
        offered = [("", say("the best place")), *((place.id, place.name) for place in places)]
        self.place.offer(offered)
        self.place.show_value(now if now in [key for key, _ in offered] else "")
        self.place.setEnabled(bool(places))

    def _show_fault(self, words: str) -> None:
        self._outdated()
        self.words.setText(capital(words))
        self._show_spots(())

    def _receive(self, found: Enough | str) -> None:
        if isinstance(found, str):
            self._show_fault(found)
            return
        plan = self.document.plan
        self.found = found
        lines = need_lines(plan, found)
        if found.spots and found.refused:
            lines.append(say("{sentence}.", sentence=capital(refused_words(found.refused))))
        lines.append(room_words(found))
        self.words.setText("\n".join(lines))
        self._show_spots(found.spots)
        self.plant.setEnabled(bool(found.spots))

    def _show_spots(self, spots: tuple[Spot, ...]) -> None:
        units = self.document.garden.site.units
        rows = [
            Row(
                (
                    spot.bed.name,
                    show_length(getattr(spot.planting.plot, "start", 0.0), units),
                    show_length(getattr(spot.planting.plot, "end", 0.0), units),
                    str(spot.plants),
                    show_area(spot.area, units),
                    weight_cell(spot.grams, units),
                ),
                f"{spot.bed.id} {number}",
            )
            for number, spot in enumerate(spots)
        ]
        self.table.show_rows(rows)
        self.table.setVisible(bool(rows))
        self.plant.setVisible(bool(rows))

    def _plant(self) -> None:
        found = self.found
        if found is None or not found.spots:
            return
        beds = join_list(list(dict.fromkeys(spot.bed.name for spot in found.spots)))
        text = say("{crop} planted in {beds}", crop=capital(found.crop.name), beds=beds)
        if self.document.edit(say("Plant enough {crop}", crop=found.crop.name), found.edit):
            self.said.emit(text)


def _persons(text: str) -> float:
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = -1.0
    if not _PERSONS[0] < value <= _PERSONS[1]:
        raise BedwrightError(
            say("'{text}' is no number of persons", text=text), fix=say("Type one like 2 or 2.5")
        )
    return value
