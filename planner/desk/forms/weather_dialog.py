"""The dialog that reads weather tables: how they were read, where their station lies, and what comes into the garden."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QFileDialog,
    QFormLayout,
    QLineEdit,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from planner.desk.forms.fields import ChoiceField
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Climate, Garden, WeatherYears
from planner.garden.coordinates import show_latitude, show_longitude
from planner.garden.units import parse_length
from planner.importing.weather_cells import DEPTH_UNITS, UNITS, DepthUnit, Unit
from planner.importing.weather_place import placed
from planner.listings.weather_read import height_words, unit_words
from planner.words import later, say

if TYPE_CHECKING:
    from planner.importing.weather_columns import Choice
    from planner.importing.weather_table import WeatherTable

_SIZE = QSize(720, 640)
#: What of a table may be named by its heading.
_HEADINGS = {
    "date": later("Day"),
    "minimum": later("Minimum"),
    "maximum": later("Maximum"),
    "rain": later("Rain"),
}


def choose_tables(parent: QWidget) -> list[Path]:
    """Ask for the files of a station; empty where none is chosen."""
    names, _ = QFileDialog.getOpenFileNames(
        parent,
        say("Daily weather tables of one station"),
        "",
        say("Tables (*.csv *.txt *.dly *.wth *.WTH *.tsv *.dat *.gz);;All files (*)"),
    )
    return [Path(name) for name in names]


class WeatherDialog(QDialog):
    """Reads files of a station and takes frost dates, means and years into the garden, as one step.

    Parameters
    ----------
    parent : QWidget
    document : Document
    paths : sequence of Path

    Attributes
    ----------
    report : QPlainTextEdit
        How the files were read, what they lack, where the station lies; or why they cannot be read.
    notes : tuple of str
        What is to be known of the weather taken.
    """

    def __init__(self, parent: QWidget, document: Document, paths: Sequence[Path]) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Weather of a station"))
        self._document, self._paths = document, list(paths)
        self._climate: Climate | None = None
        self._kept: WeatherYears | None = None
        self.notes: tuple[str, ...] = ()
        self.report = QPlainTextEdit()
        self.report.setReadOnly(True)
        self.report.setTabChangesFocus(True)
        self.report.setAccessibleName(say("How the tables were read"))
        self.station = ChoiceField(say("Station whose days are taken"), [(None, say("the only one"))])
        self.headings = {
            name: ChoiceField(
                say("Heading of the {text}", text=say(_HEADINGS[name])), [(None, say("as it looks"))]
            )
            for name in _HEADINGS
        }
        self.unit = ChoiceField(
            say("Unit of the temperatures"),
            [(None, say("as it looks")), *((unit, unit_words(unit)) for unit in UNITS)],
        )
        self.rain_unit = ChoiceField(
            say("Unit of the rain"),
            [(None, say("as it looks")), *((unit, unit_words(unit)) for unit in DEPTH_UNITS)],
        )
        self.place = QLineEdit()
        self.place.setAccessibleName(say("Latitude and longitude of the station"))
        self.height_ = QLineEdit()
        self.height_.setAccessibleName(say("Height of the station above the sea"))
        self.keep = QCheckBox(say("Keep the years in the garden file (about 2 kB each)"))
        self.keep.setChecked(True)
        self.buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setText(say("Take it"))
        self.buttons.accepted.connect(self._accept)
        self.buttons.rejected.connect(self.reject)
        self._lay_out()
        self._offer_headings()
        for field in (self.station, self.unit, self.rain_unit, *self.headings.values()):
            field.chosen.connect(lambda _value: self._read())
        self.place.editingFinished.connect(self._read)
        self.height_.editingFinished.connect(self._read)
        self._read()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.addRow(say("Station"), self.station)
        for name, field in self.headings.items():
            form.addRow(say(_HEADINGS[name]), field)
        form.addRow(say("Temperatures in"), self.unit)
        form.addRow(say("Rain in"), self.rain_unit)
        form.addRow(say("Place of the station"), self.place)
        form.addRow(say("Its height"), self.height_)
        self._form = form
        column = QVBoxLayout(self)
        column.addWidget(self.report, 1)
        column.addLayout(form)
        column.addWidget(self.keep)
        column.addWidget(self.buttons)
        room = self.screen().availableSize()
        self.resize(_SIZE.boundedTo(QSize(room.width() - 40, room.height() - 60)))

    def _offer_headings(self) -> None:
        from planner.importing.weather_table import headings_of

        names = headings_of(self._paths[0]) if self._paths else ()
        for field in self.headings.values():
            field.offer([(None, say("as it looks")), *((name, name) for name in names)])
            field.show_value(None)
            self._form.setRowVisible(field, bool(names))

    # -- reading ----------------------------------------------------------------------------

    def _choice(self) -> Choice:
        from planner.importing.weather_columns import Choice

        def text_of(field: ChoiceField) -> str | None:
            value = field.value
            return value if isinstance(value, str) else None

        units: dict[object, Unit] = {unit: unit for unit in UNITS}
        depths: dict[object, DepthUnit] = {unit: unit for unit in DEPTH_UNITS}
        return Choice(
            **{name: text_of(field) for name, field in self.headings.items()},
            unit=units.get(self.unit.value),
            rain_unit=depths.get(self.rain_unit.value),
            station=text_of(self.station),
        )

    def _read(self) -> None:
        """Read the files anew and show what came of it."""
        from planner.importing.weather_readings import SeveralStationsError
        from planner.importing.weather_table import read_tables

        self._climate = self._kept = None
        try:
            table = read_tables(self._paths, self._choice())
            lines = self._take(table)
        except SeveralStationsError as error:
            offered = [(None, say("choose one")), *((one, one) for one in error.stations)]
            if [value for value, _ in offered] != list(self.station.values):
                self.station.offer(offered)
                self.station.show_value(None)
            lines = [str(error)]
        except (BedwrightError, ValueError) as error:
            lines = [str(error)]
        self.report.setPlainText("\n".join(lines))
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(self._climate is not None)

    def _take(self, table: WeatherTable) -> list[str]:
        """Work out what would come into the garden, and say it."""
        from planner.listings.phrases import day
        from planner.listings.weather_read import file_lines, gap_lines, kept_line, station_lines
        from planner.season.climate_from_weather import weather_statistics
        from planner.season.weather_years import height_correction, warmed

        garden = self._document.stable
        kept = self._placed(table.kept())
        weather = warmed(table.weather, height_correction(kept, garden.site))
        found = weather_statistics(weather, garden.site.southern)
        self._kept, self._climate = kept, found.climate(garden.climate, origin=table.name[:100])
        self.notes = found.notes
        span = say("{first} to {last}", first=day(weather.first), last=day(weather.last))
        return [
            f"{table.name}: {span}",
            *file_lines(table.files),
            *(gap_lines(weather) or [say("no gaps")]),
            *station_lines(kept, garden.site),
            kept_line(kept),
            *found.notes,
        ]

    def _placed(self, kept: WeatherYears) -> WeatherYears:
        """The years with the place of the station as it is typed, and that of the table as a hint."""
        if kept.latitude is not None and kept.longitude is not None:
            where = f"{show_latitude(kept.latitude)}, {show_longitude(kept.longitude)}"
            self.place.setPlaceholderText(where)
        else:
            self.place.setPlaceholderText(say("not known; as 52.2, 0.12"))
        units = self._document.stable.site.units
        height = height_words(kept.elevation, units) if kept.elevation is not None else say("not known")
        self.height_.setPlaceholderText(height)
        height_typed = self.height_.text().strip()
        return placed(kept, self.place.text(), parse_length(height_typed, units) if height_typed else None)

    # -- taking -----------------------------------------------------------------------------

    def _accept(self) -> None:
        climate, kept = self._climate, self._kept
        if climate is None or kept is None:
            return

        def change(garden: Garden) -> Garden:
            changed = garden.with_(climate=climate)
            return changed.with_(weather=kept) if self.keep.isChecked() else changed

        if self._document.edit(say("Take the weather of a station"), change):
            self.accept()
