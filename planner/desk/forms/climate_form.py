"""The climate as a form: frost dates by risk, zone, or a weather table to work them out from."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

from PySide6.QtWidgets import QFileDialog, QPushButton

from planner.desk.forms import fields
from planner.desk.forms.fields import TypedField
from planner.desk.forms.form import Form
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import edits
from planner.garden.site import Risk
from planner.words import SHORT_MONTHS

FrostKind = Literal["last_frost", "first_frost"]

_RISKS: tuple[tuple[Risk, str], ...] = (
    (10, "10 %: careful"),
    (50, "50 %: even chance"),
    (90, "90 %: daring"),
)
#: Title of each kind of frost, and its risks from the earliest day to the latest.
_FROSTS: tuple[tuple[FrostKind, str, tuple[Risk, ...]], ...] = (
    ("last_frost", "Last frost of spring", (90, 50, 10)),
    ("first_frost", "First frost of autumn", (10, 50, 90)),
)
#: Months as they are typed.
_TYPED_MONTHS = tuple(name.casefold() for name in SHORT_MONTHS)


def read_day(text: str) -> str:
    """A day of the year as typed (``9 May``, ``May 9``, ``05-09``), as MM-DD.

    Raises
    ------
    BedwrightError
        When it is none.
    """
    words = text.strip().casefold().replace(".", " ").replace(",", " ").split()
    if len(words) == 2:
        for day, month in (words, words[::-1]):
            if day.isdigit() and month[:3] in _TYPED_MONTHS:
                return f"{_TYPED_MONTHS.index(month[:3]) + 1:02d}-{int(day):02d}"
    plain = text.strip()
    if len(plain) == 5 and plain[2] == "-" and plain.replace("-", "").isdigit():
        return plain
    raise BedwrightError(f"'{text.strip()}' is no day of the year", fix="Type one like 9 May")


def show_day(day: str) -> str:
    """A day MM-DD as ``9 May``."""
    return f"{int(day[3:])} {SHORT_MONTHS[int(day[:2]) - 1]}"


class ClimateForm(Form):
    """Frost, zone and warmth of the place."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.heading.setText("Climate")
        self._notes: tuple[str, ...] = ()
        self._make_frosts()
        self._make_place()
        self.table = QPushButton("Work it out from a weather table…")
        self.table.clicked.connect(self._choose_table)
        self.widget(self.table)
        self.found = self.words()
        self.back = QPushButton("Back to the garden")
        self.widget(self.back)
        self.finish()

    def _make_frosts(self) -> None:
        self.section("Plan with")
        self.risk = fields.ChoiceField("Risk of frost planned with", _RISKS)
        self.row("Risk of frost", self.risk)
        self.risk.chosen.connect(lambda risk: self._change("Change the risk of frost", risk=risk))
        self.days: dict[tuple[FrostKind, Risk], TypedField] = {}
        for kind, title, risks in _FROSTS:
            self.section(title)
            for risk in risks:
                field = TypedField(f"{title}, {risk} % risk", read_day, show_day)
                self.days[kind, risk] = field
                self.row(f"{risk} % risk", field)
                field.typed.connect(lambda day, kind=kind, risk=risk: self._set_frost_day(kind, risk, day))

    def _make_place(self) -> None:
        self.section("Place")
        self.zone = fields.text_field("Hardiness zone", may_be_empty=True)
        self.row("Zone", self.zone)
        self.zone.typed.connect(lambda text: self._change("Set the zone", zone=text or ""))
        self.heat = fields.ChoiceField(
            "Days to maturity", ((False, "by the calendar"), (True, "by warmth, from monthly means"))
        )
        self.row("Ripening", self.heat)
        self.heat.chosen.connect(lambda on: self._change("Change how ripening is reckoned", by_heat=on))

    # -- edits ------------------------------------------------------------------------------

    def _change(self, text: str, **changes: Any) -> None:
        self.edit(text, lambda garden, _key, **new: edits.change_climate(garden, **new), **changes)

    def _set_frost_day(self, kind: FrostKind, risk: Risk, day: str) -> None:
        self.edit("Set frost dates", lambda garden, _key: edits.set_frost_day(garden, kind, risk, day))

    def _choose_table(self) -> None:
        path = QFileDialog.getOpenFileName(
            self, "A daily weather table", "", "Tables (*.csv *.txt *.gz);;All files (*)"
        )[0]
        if path:
            self.read_table(Path(path))

    def read_table(self, path: Path) -> None:
        """Work the climate out from a daily weather table, as one step."""
        from planner.importing.weather_table import read_weather
        from planner.season.climate_from_weather import weather_statistics

        garden = self.document.stable
        try:
            found = weather_statistics(read_weather(path), garden.site.southern)
            climate = found.climate(garden.climate, origin=path.name[:100])
        except (BedwrightError, ValueError) as error:
            self.wrong.emit(str(error))
            return
        self._notes = found.notes
        self.document.edit("Take the climate from a weather table", lambda g: g.with_(climate=climate))
        self.refresh()

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the climate as it is now."""
        from planner.season.frosts import climate_doubts

        garden = self.document.garden
        climate = garden.climate
        years = f", from {climate.years} years" if climate.years else ""
        self.under.setText(f"{climate.origin}{years}" if climate.origin or years else "Frost dates by hand")
        self.risk.show_value(climate.risk)
        for (kind, risk), field in self.days.items():
            dates = getattr(climate, kind)
            field.show_value(getattr(dates, f"risk_{risk}") if dates is not None else None, "unknown")
        self.zone.show_value(climate.zone or None, "unknown")
        self.heat.show_value(climate.by_heat)
        self.heat.setEnabled(climate.monthly_minimum is not None and climate.monthly_maximum is not None)
        self.found.setText("\n".join(dict.fromkeys((*self._notes, *climate_doubts(garden.site, climate)))))
