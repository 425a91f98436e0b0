"""The weather of the garden's place: charts of its recorded years with what they say, and the tables they come from."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QGridLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.chart_view import ChartView
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.theme.palette import LookSwitch
from planner.garden import edits
from planner.garden.units import show_temperature
from planner.listings.place_weather import (
    day_of_place_words,
    dry_words,
    frost_words,
    heat_of_day_words,
    heat_words,
    month_of_place_words,
    rain_year_words,
    trend_words,
    warmth_words,
    year_of_place_words,
)
from planner.listings.weather_read import kept_line, station_lines
from planner.season.place_weather import USUAL_BASE, Heat, PlaceWeather, heat_of, place_weather
from planner.sheets.chart_marks import Chart, Room
from planner.sheets.weather_charts import CHARTS, ChartName, draw_chart
from planner.words import capital, later, say

#: Bases of degree-days that are offered. [deg C]
BASES = (0.0, 4.0, 5.0, 8.0, 10.0)
#: From this width on two charts stand side by side. [pixels]
_TWO = 860
_NAMES: dict[ChartName, str] = {
    "frosts": later("Last and first frost of each year"),
    "warmth": later("Warmth over the year"),
    "heat": later("Degree-days by date"),
    "rain": later("Rain by month"),
    "dry": later("Dry spells by year"),
    "trend": later("Mean temperature by year"),
}
_EMPTY = later(
    "No daily weather yet. Read the table of a station near the garden: your national weather service gives daily minimum, maximum and rain, most often free."
)


class WeatherPage(QWidget):
    """The charts, two beside each other where there is room.

    Signals
    -------
    sheet_wanted
        The picture of the year is to be printed.

    Attributes
    ----------
    charts : dict of str to ChartView
    sentences : dict of str to QLabel
    """

    sheet_wanted = Signal()

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Weather"))
        self.place: PlaceWeather | None = None
        self._heat: Heat | None = None
        self._made_from: tuple[object, ...] = ()
        self._year: int | None = None
        self.read = QPushButton(say("Read weather tables…"))
        self.read.clicked.connect(self.choose)
        self.forget = QPushButton(say("Take the years out of the garden"))
        self.forget.clicked.connect(self._forget)
        self.sheet = QPushButton(say("Print as a picture…"))
        self.sheet.clicked.connect(self.sheet_wanted)
        self.year = ChoiceField(say("Year drawn apart"), [(None, say("no year apart"))])
        self.year.chosen.connect(self._choose_year)
        self.base = ChoiceField(say("Base of the degree-days"), [(base, str(base)) for base in BASES])
        self.base.show_value(USUAL_BASE)
        self.base.chosen.connect(lambda _base: self._show(anew=True))
        self.state = wrapped_label()
        self.state.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.charts = {name: self._chart(name, look) for name in CHARTS}
        self.sentences = {name: wrapped_label() for name in CHARTS}
        self._lay_out()
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def _chart(self, name: ChartName, look: LookSwitch) -> ChartView:
        def make(room: Room) -> Chart | None:
            if self.place is None or self._heat is None:
                return None
            return draw_chart(name, self.place, self._heat, room, self.document.garden.site.units, self._year)

        return ChartView(look, say(_NAMES[name]), make, lambda step: self._words_of(name, step))

    def _lay_out(self) -> None:
        head = FlowLayout()
        for widget in (self.read, self.sheet, self.forget, self.year, self.base):
            head.addWidget(widget)
        inside = QWidget()
        self._grid = QGridLayout(inside)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._cells = {name: self._cell(name) for name in CHARTS}
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setWidget(inside)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.state)
        column.addWidget(self.area, 1)
        self._columns = 0
        self._arrange()

    def _cell(self, name: ChartName) -> QWidget:
        cell = QWidget()
        column = QVBoxLayout(cell)
        column.setContentsMargins(0, 0, 0, 6)
        column.addWidget(self.charts[name], 1)
        column.addWidget(self.sentences[name])
        return cell

    def _arrange(self) -> None:
        columns = 2 if self.width() >= _TWO else 1
        if columns == self._columns:
            return
        self._columns = columns
        for number, cell in enumerate(self._cells.values()):
            self._grid.addWidget(cell, number // columns, number % columns)
        for column in range(2):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the weather as the garden keeps it now."""
        garden = self.document.garden
        made_from = (garden.weather, garden.site)
        if made_from == self._made_from and self.place is not None:
            return
        self._made_from = made_from
        self.place = place_weather(garden.weather, garden.site)
        years = self.place.table.years if self.place is not None else ()
        self._year = self._year if self._year in years else None
        self.year.offer([(None, say("no year apart")), *((year, str(year)) for year in reversed(years))])
        self.year.show_value(self._year)
        chosen = self.base.value
        self.base.offer(
            [(base, say("over {base}", base=show_temperature(base, garden.site.units))) for base in BASES]
        )
        self.base.show_value(chosen)
        self._show(anew=True)

    def _choose_year(self, year: object) -> None:
        self._year = year if isinstance(year, int) else None
        self._show(anew=False)

    def _show(self, *, anew: bool) -> None:
        place, site = self.place, self.document.garden.site
        there = place is not None
        for widget in (self.area, self.forget, self.sheet, self.year, self.base):
            widget.setVisible(there)
        if place is None:
            self.state.setText(say(_EMPTY))
            return
        kept = self.document.garden.weather
        said = [kept_line(kept), *station_lines(kept, site)]
        self.state.setText(" · ".join(capital(line) for line in said))
        base = self.base.value
        if anew or self._heat is None:
            self._heat = heat_of(place.table, base if isinstance(base, float) else USUAL_BASE)
        heat = self._heat
        sentences: dict[ChartName, Callable[[], str]] = {
            "frosts": lambda: frost_words(place),
            "warmth": lambda: warmth_words(place, site),
            "heat": lambda: heat_words(heat, site),
            "rain": lambda: rain_year_words(place, site),
            "dry": lambda: dry_words(place),
            "trend": lambda: trend_words(place.trend, site),
        }
        for name, words in sentences.items():
            text = words()
            self.sentences[name].setText(text)
            self.charts[name].describe(text)
            self.charts[name].setVisible(self.charts[name].chart is not None)

    def _words_of(self, name: ChartName, step: int) -> str:
        """A day, month or year of a chart in words."""
        place, heat, site = self.place, self._heat, self.document.garden.site
        if place is None or heat is None:
            return ""
        if name == "warmth":
            return day_of_place_words(place, site, step)
        if name == "heat":
            return heat_of_day_words(place, heat, site, step, self._year)
        if name == "rain":
            return month_of_place_words(place, site, step)
        if name == "trend" and place.trend is not None:
            year = place.trend.years[0] + step
            step = place.table.years.index(year) if year in place.table.years else -1
        return year_of_place_words(place, site, step) if step >= 0 else ""

    # -- reading ----------------------------------------------------------------------------

    def choose(self) -> None:
        """Ask for the files of a station, and show what is in them."""
        from planner.desk.forms.weather_dialog import WeatherDialog, choose_tables

        paths = choose_tables(self)
        if paths:
            WeatherDialog(self, self.document, paths).exec()

    def _forget(self) -> None:
        self.document.edit(
            say("Take the years of weather out"), lambda garden: edits.change_weather(garden, years=())
        )
