"""The garden itself as a form: name, place, units."""

from __future__ import annotations

from typing import Any, NamedTuple

from planner.desk.forms import fields
from planner.desk.forms.fields import TypedField
from planner.desk.forms.form import Form
from planner.desk.forms.soil_rows import SoilRows
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.desk.model.per_bed import PerBed
from planner.desk.model.phrases import beds_words, plantings_words, plants_words
from planner.garden import Bed, Soil, edits
from planner.garden.coordinates import (
    parse_latitude,
    parse_longitude,
    parse_place,
    show_latitude,
    show_longitude,
)
from planner.garden.edits.year_notes import year_note
from planner.garden.units import show_area
from planner.listings.record_words import lesson_lines
from planner.plan import Plan
from planner.plan.recorded import lessons_in_plan
from planner.words import full_day_words, later, month_words, say, spoken_language

_UNITS = {"metric": later("metres and centimetres"), "feet_inches": later("feet and inches")}
_NAMES = {"british": later("British (courgette)"), "american": later("American (zucchini)")}
#: English as a word of its own.
_ENGLISH = {"british": later("British"), "american": later("American")}


def _latitude_or_place(text: str) -> float | tuple[float, float]:
    """A latitude, or a place as maps write it: a latitude with its longitude."""
    return parse_place(text) or parse_latitude(text)


class _Held(NamedTuple):
    """What a bed adds to the sums of the garden; its area in square metres."""

    area: float
    plantings: int
    plants: int


def _held_by(plan: Plan, bed: Bed) -> _Held:
    plantings = plan.in_bed(bed)
    return _Held(plan.area(bed), len(plantings), sum(plan.placed(one).plants for one in plantings))


class GardenForm(Form):
    """Shown while nothing is selected."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self._held = PerBed(_held_by)
        self.totals = self.words()
        self.section(say("Garden"))
        self.name = fields.text_field(say("Name of the garden"))
        self.row(say("Name"), self.name)
        self.name.typed.connect(lambda text: self._site(say("Rename the garden"), name=text))
        self.unit = fields.ChoiceField(say("Units"), [(key, say(_UNITS[key])) for key in _UNITS])
        self.row(say("Units"), self.unit)
        self.unit.chosen.connect(lambda unit: self._site(say("Change the units"), units=unit))
        self.names = fields.ChoiceField(
            say("Names of crops"), [(None, ""), *((key, say(_NAMES[key])) for key in _NAMES)]
        )
        for widget in (self.row(say("Names of crops"), self.names), self.names):
            widget.setVisible(
                spoken_language() in ("en", "en-GB", "en-US")
            )  # there are none in other languages
        self.names.chosen.connect(
            lambda names: self._site(say("Change the names of crops"), crop_names=names)
        )
        self._notes_head = self.section(say("Notes on the year"))
        self.notes = fields.NotesField(say("Notes on the growing year"))
        self.widget(self.notes)
        self.notes.typed.connect(self._write_notes)
        self._lessons_head = self.section(say("Lessons"))
        self.lessons = self.words()
        self.section(say("Place"))
        self.latitude = TypedField(say("Latitude"), _latitude_or_place, show_latitude, may_be_empty=True)
        self.longitude = TypedField(say("Longitude"), parse_longitude, show_longitude, may_be_empty=True)
        self.row(say("Latitude"), self.latitude)
        self.row(say("Longitude"), self.longitude)
        self.latitude.typed.connect(self._set_latitude)
        self.longitude.typed.connect(lambda value: self._site(say("Set the longitude"), longitude=value))
        self.bearing = fields.number_field(say("Top of the plan faces"), after="°")
        self.row(say("Top of the plan faces"), self.bearing)
        self.bearing.setToolTip(
            say("As a compass bearing, clockwise from true north: 0° is north, 90° is east")
        )
        self.bearing.typed.connect(lambda value: self._site(say("Turn north"), bearing_up=value))
        self.month = fields.ChoiceField(
            say("First month of the growing year"),
            [(None, ""), *((month, month_words(month)) for month in range(1, 13))],
        )
        self.row(say("Year begins"), self.month)
        self.month.chosen.connect(lambda month: self._site(say("Set the first month"), first_month=month))
        self.section(say("Reach and paths"))
        self.reach = fields.length_field(say("Reach into a bed"), lambda: self.units)
        self.path = fields.length_field(say("Narrowest path"), lambda: self.units)
        self.row(say("Reach"), self.reach)
        self.row(say("Narrowest path"), self.path)
        self.reach.typed.connect(lambda value: self._site(say("Set the reach"), reach=value))
        self.path.typed.connect(lambda value: self._site(say("Set the narrowest path"), path_width=value))
        self.soil = SoilRows(self, lambda soil: self._site(say("Change the soil"), soil=soil))
        self.climate_button = WrappedButton(say("Climate and frost dates…"))
        self.widget(self.climate_button)
        self.hint = self.words()
        self.finish()

    def _site(self, text: str, **changes: Any) -> None:
        self.edit(text, lambda garden, _key, **new: edits.change_site(garden, **new), **changes)

    def _write_notes(self, text: str) -> None:
        year = self.document.year
        self.edit(
            say("Note on {year}", year=year), lambda garden, _key: edits.put_year_note(garden, year, text)
        )

    def _set_latitude(self, value: float | tuple[float, float] | None) -> None:
        if isinstance(value, tuple):
            self._site(say("Set the place"), latitude=value[0], longitude=value[1])
        else:
            self._site(say("Set the latitude"), latitude=value)

    def refresh(self) -> None:
        """Show the garden as it is now."""
        garden, plan = self.document.garden, self.document.plan
        site = garden.site
        self.heading.setText(site.name)
        self.under.setText(
            say(
                "Growing year {year}, {first} to {last}",
                year=plan.year,
                first=full_day_words(plan.span.first),
                last=full_day_words(plan.span.last),
            )
        )
        self.totals.setText(self._sums(plan))
        self.name.show_value(site.name)
        self.unit.show_value(site.units)
        english = say(_ENGLISH[site.with_(crop_names=None).english])
        self.names.setItemText(0, say("by the units: {english}", english=english))
        self.names.show_value(site.crop_names)
        self._notes_head.setText(say("Notes on {year}", year=plan.year))
        self.notes.show_value(year_note(garden, plan.year))
        lessons = lesson_lines(lessons_in_plan(plan))
        self.lessons.setText("\n".join(lessons))
        for widget in (self._lessons_head, self.lessons):
            widget.setVisible(bool(lessons))
        self.latitude.show_value(site.latitude, say("unknown"))
        self.longitude.show_value(site.longitude, say("unknown"))
        self.bearing.show_value(site.bearing_up)
        usual = month_words(site.with_(first_month=None).year_begins)
        self.month.setItemText(0, say("{month}, as usual here", month=usual))
        self.month.show_value(site.first_month)
        self.reach.show_value(site.reach)
        self.path.show_value(site.path_width)
        self.soil.show(site.soil, Soil())
        self.hint.setText(
            say("Draw a bed with the tools above, then drag a crop onto it.") if not plan.beds else ""
        )

    def _sums(self, plan: Plan) -> str:
        """How many beds, plantings and plants there are; no plants while they are still being placed."""
        if self.document.unplaced:
            area = sum(plan.area(bed) for bed in plan.beds)
            return (
                f"{beds_words(len(plan.beds))}, {show_area(area, self.units)}\n"
                f"{plantings_words(len(plan.plantings))}"
            )
        held = self._held.of(plan).values()
        area = sum(bed.area for bed in held)
        plantings, plants = sum(bed.plantings for bed in held), sum(bed.plants for bed in held)
        return (
            f"{beds_words(len(held))}, {show_area(area, self.units)}\n"
            f"{plantings_words(plantings)}, {plants_words(plants)}"
        )
