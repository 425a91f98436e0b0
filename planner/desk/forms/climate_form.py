"""The climate as a form: frost dates by risk, zone, or a weather table to work them out from."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

from planner.desk.forms import fields
from planner.desk.forms.fields import TypedField
from planner.desk.forms.form import Form
from planner.desk.forms.monthly_means import MonthlyMeans
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import FrostDates, edits
from planner.garden.edits.frost_days import FrostKind
from planner.garden.site import RISKS, Risk
from planner.garden.units import month_first
from planner.words import later, say, say_count
from planner.words.dates import day_of_year_words
from planner.words.typed_days import day_of_year_as_typed

if TYPE_CHECKING:
    from planner.desk.forms.weather_dialog import WeatherDialog

_RISKS: dict[Risk, str] = {
    10: later("10 %: careful"),
    50: later("50 %: even chance"),
    90: later("90 %: daring"),
}
#: Title of each kind of frost, and its risks from the earliest day to the latest.
_TITLES: dict[FrostKind, str] = {
    "last_frost": later("Last frost of spring"),
    "first_frost": later("First frost of autumn"),
}
_FROSTS: tuple[tuple[FrostKind, tuple[Risk, ...]], ...] = (
    ("last_frost", (90, 50, 10)),
    ("first_frost", (10, 50, 90)),
)


class ClimateForm(Form):
    """Frost, zone and warmth of the place."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.heading.setText(say("Climate"))
        self._notes: tuple[str, ...] = ()
        self._make_frosts()
        self._make_place()
        self.table = WrappedButton(say("Work it out from weather tables…"))
        self.table.clicked.connect(self._choose_table)
        self.widget(self.table)
        self.found = self.words()
        self.back = WrappedButton(say("Back to the garden"))
        self.widget(self.back)
        self.finish()

    def _make_frosts(self) -> None:
        self.section(say("Plan with"))
        self.risk = fields.ChoiceField(
            say("Risk of frost planned with"), [(risk, say(_RISKS[risk])) for risk in _RISKS]
        )
        self.row(say("Risk of frost"), self.risk)
        self.risk.chosen.connect(lambda risk: self._change(say("Change the risk of frost"), risk=risk))
        self.days: dict[tuple[FrostKind, Risk], TypedField] = {}
        for kind, risks in _FROSTS:
            title = say(_TITLES[kind])
            self.section(title)
            for risk in risks:
                name = say("{frost}, {risk} % risk", frost=title, risk=risk)
                field = TypedField(name, self._read_day, day_of_year_words, may_be_empty=True)
                self.days[kind, risk] = field
                self.row(say("{risk} % risk", risk=risk), field)
                field.typed.connect(lambda day, kind=kind, risk=risk: self._set_frost_day(kind, risk, day))
        self.one_is_enough = self.words()

    def _make_place(self) -> None:
        self.section(say("Place"))
        self.zone = fields.text_field(say("Hardiness zone"), may_be_empty=True)
        self.row(say("Zone"), self.zone)
        self.zone.typed.connect(lambda text: self._change(say("Set the zone"), zone=text or ""))
        self.section(say("Monthly means of the temperature"))
        self.means = MonthlyMeans(self.document)
        self.means.wrong.connect(self.wrong)
        self.widget(self.means)

    # -- edits ------------------------------------------------------------------------------

    def _change(self, text: str, **changes: Any) -> None:
        self.edit(text, lambda garden, _key, **new: edits.change_climate(garden, **new), **changes)

    def _read_day(self, text: str) -> str:
        return day_of_year_as_typed(text, month_first=month_first(self.units))

    def _set_frost_day(self, kind: FrostKind, risk: Risk, day: str | None) -> None:
        """Set a frost date together with those that were refused before, as many of them as fit."""
        waiting = {one: typed for one in RISKS if one != risk and (typed := self._waiting_day(kind, one))}
        for number in range(len(waiting), 0, -1):
            for others in itertools.combinations(waiting, number):
                together = {risk: day, **{one: waiting[one] for one in others}}
                try:
                    edits.set_frost_days(self.document.stable, kind, together)
                except BedwrightError:
                    continue
                for one in others:
                    self.days[kind, one].accept()
                self._set_frost_days(kind, together)
                return
        self._set_frost_days(kind, {risk: day})

    def _set_frost_days(self, kind: FrostKind, days: dict[Risk, str | None]) -> None:
        self.edit(say("Set frost dates"), lambda garden, _key: edits.set_frost_days(garden, kind, days))

    def _waiting_day(self, kind: FrostKind, risk: Risk) -> str:
        """The day that a field holds and that was refused; empty without one."""
        field = self.days[kind, risk]
        if not field.is_wrong:
            return ""
        try:
            return self._read_day(field.text())
        except BedwrightError:
            return ""

    def _choose_table(self) -> None:
        from planner.desk.forms.weather_dialog import WeatherDialog, choose_tables

        paths = choose_tables(self)
        if paths:
            self.read_tables(WeatherDialog(self, self.document, paths))

    def read_tables(self, dialog: WeatherDialog) -> None:
        """Let a person look over how weather tables are read, and take from them what comes into the garden."""
        if dialog.exec():
            self._notes = dialog.notes
            self.refresh()

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the climate as it is now."""
        from planner.season.frosts import climate_doubts

        garden = self.document.garden
        climate = garden.climate
        origin = climate.origin
        if climate.years:
            origin = say_count(
                "{origin}, from {count} year", "{origin}, from {count} years", climate.years, origin=origin
            )
        self.under.setText(origin or say("Frost dates by hand"))
        self.risk.show_value(climate.risk)
        for (kind, risk), field in self.days.items():
            dates: FrostDates | None = getattr(climate, kind)
            usual = say("as at another risk") if dates is not None else say("unknown")
            field.show_value(dates.given.get(risk) if dates is not None else None, usual)
        self.one_is_enough.setVisible(climate.last_frost is None or climate.first_frost is None)
        self.one_is_enough.setText(
            say("One date of each is enough: type it beside its risk, and it stands for the other risks too.")
        )
        self.zone.show_value(climate.zone or None, say("unknown"))
        self.means.refresh()
        self.found.setText("\n".join(dict.fromkeys((*self._notes, *climate_doubts(garden.site, climate)))))
