"""Water of the year: what the beds need week by week in the median and the dry year, a week in words, a tank, drip lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

import numpy as np
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QAbstractItemView, QTableView, QVBoxLayout, QWidget

from planner.amounts.tank import Tank, tank_of
from planner.amounts.watering import watering_of_week
from planner.desk.forms.fields import ChoiceField
from planner.desk.forms.flow_layout import FlowLayout
from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.harvest_page import LEAST_PICTURE, LEAST_TABLE, wrapped_label
from planner.desk.pages.stacked_weeks import Band, Stack, StackedWeeks
from planner.desk.pages.water_strip import LEAST_STRIP, STRIP, StripPainter, WaterModel, WaterRow
from planner.desk.theme.palette import LookSwitch
from planner.garden.volumes import GALLON, show_depth_of_water, show_water
from planner.listings.phrases import days_in_short
from planner.listings.water import (
    basis_words,
    bed_rows,
    drip_lines_words,
    tank_words,
    watering_words,
    week_lines,
)
from planner.plan import Plan
from planner.plan.water import GardenWater, Numbers, garden_water
from planner.words import say

#: What is shown: half of the years, eight of ten, or the recorded year that is as dry as a dry one.
_MEDIAN, _DRY, _DROUGHT = "median", "dry", "drought"


class WaterPage(QWidget):
    """What the beds need of water.

    Signals
    -------
    bed_wanted : str
        Id of a bed to show on the sheet.
    """

    bed_wanted = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Water by week"))
        self._water: GardenWater | None = None
        self._plan: Plan | None = None
        self._tank: Tank | None = None
        self._wish = _MEDIAN
        self._jobs = JobQueue(self)
        self.choice = ChoiceField(say("Year shown"), ((_MEDIAN, say("Median year")),))
        self.choice.chosen.connect(self._choose)
        self.basis = wrapped_label()
        self.picture = StackedWeeks(look, say("Water by week"), self._words_of)
        self.picture.setMinimumHeight(LEAST_PICTURE)
        self.picture.week_marked.connect(self._show_week)
        self.week = wrapped_label()
        self.model = WaterModel()
        self.table = QTableView()
        self.table.setAccessibleName(say("Water by bed"))
        self.table.setModel(self.model)
        self.table.setItemDelegate(StripPainter(look, self.table))
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.table.verticalHeader().setVisible(False)
        self.table.setShowGrid(False)
        self.table.setTabKeyNavigation(False)
        self.table.setMinimumHeight(LEAST_TABLE)
        self.table.doubleClicked.connect(lambda index: self.bed_wanted.emit(self.model.rows[index.row()].bed))
        self.more = wrapped_label(second=True)
        self._lay_out()
        look.changed.connect(self.table.viewport().update)
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def _lay_out(self) -> None:
        head = FlowLayout()
        head.addWidget(self.choice)
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addLayout(head)
        column.addWidget(self.basis)
        column.addWidget(self.picture, 400)
        column.addWidget(self.week)
        column.addWidget(self.table, 500)
        column.addWidget(self.more)
        column.addStretch(1)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Work the water out beside the window, and show it."""
        plan = self.document.plan

        def work(cancelled: Cancelled) -> Iterator[tuple[Plan, GardenWater | None, Tank | None]]:
            water = garden_water(plan)
            if not cancelled():
                yield plan, water, tank_of(plan, water) if water is not None else None

        self._jobs.start(work, self.show_water)

    def show_water(self, found: tuple[Plan, GardenWater | None, Tank | None]) -> None:
        """Show what was worked out.

        Parameters
        ----------
        found : tuple of Plan, GardenWater or None, Tank or None
        """
        self._plan, self._water, self._tank = found
        water = self._water
        grown = water is not None and bool(water.beds)
        for part in (self.choice, self.picture, self.week, self.table, self.more):
            part.setVisible(grown)
        if water is None:
            self.basis.setText(
                say(
                    "Nothing is known of the climate, so nothing can be told of water. Give monthly means or read a daily weather table in the details of the garden."
                )
            )
            return
        if not water.beds:
            self.basis.setText(say("Nothing grows in {year}.", year=str(self._plan.year)))
            return
        choices = [(_MEDIAN, say("Median year")), (_DRY, say("Dry year: eight of ten need less"))]
        if not water.weather.rough:
            choices.append(
                (_DROUGHT, say("{year}, a dry year", year=str(water.weather.years[water.drought])))
            )
        else:
            choices = choices[:1]
        self.choice.offer(tuple(choices))
        if self._wish not in dict(choices):
            self._wish = _MEDIAN
        self.choice.show_value(self._wish)
        self._show()

    def _choose(self, choice: object) -> None:
        self._wish = str(choice)
        self._show()

    def _show(self) -> None:
        plan, water, tank = self._plan, self._water, self._tank
        if plan is None or water is None or tank is None:
            return
        units = plan.garden.site.units
        weeks = self._weeks(water.litres)
        total = say("In all {volume} in this year.", volume=show_water(self._year(water), units))
        self.basis.setText(" ".join((*basis_words(water), total)))
        factor, unit = (1 / GALLON, "gal") if units == "feet_inches" else (1.0, "l")
        second = self._dry_line(water) if self._wish == _MEDIAN and not water.weather.rough else ()
        self.picture.show_stack(
            Stack(
                water.weeks,
                plan.span,
                (Band("garden", say("all beds"), "", tuple(float(v) * factor for v in weeks)),),
                unit=unit,
                second=tuple(value * factor for value in second),
            )
        )
        rows = bed_rows(water, water.beds, units)
        self.model.show(
            [
                WaterRow(
                    one.bed.id, (row[0], self._strip_words(depths, water, plan), "", *row[1:]), tuple(depths)
                )
                for one, row in zip(water.beds, rows, strict=True)
                for depths in [[float(value) for value in self._weeks(one.millimetres)]]
            ]
        )
        words = [tank_words(tank, units), *drip_lines_words(plan)]
        if second:
            words.insert(0, say("The dashed line is a dry year: eight of ten need less in that week."))
        self.more.setText("\n".join(words))
        self._show_week(self.picture.marked)

    def _weeks(self, values: Numbers) -> Numbers:
        """Of values by week and recorded year those of the year that is shown."""
        water = self._water
        if self._wish == _DROUGHT and water is not None:
            return values[:, water.drought]
        found: Numbers = np.quantile(values, 0.8, axis=1) if self._wish == _DRY else np.median(values, axis=1)
        return found

    def _year(self, water: GardenWater) -> float:
        """Water of the whole year that is shown: of the years' sums, which is not the sum of their weeks. [l]"""
        sums = water.litres.sum(axis=0)
        if self._wish == _DROUGHT:
            return float(sums[water.drought])
        return float(np.quantile(sums, 0.8) if self._wish == _DRY else np.median(sums))

    def _dry_line(self, water: GardenWater) -> tuple[float, ...]:
        return tuple(float(value) for value in np.quantile(water.litres, 0.8, axis=1))

    def _strip_words(self, depths: list[float], water: GardenWater, plan: Plan) -> str:
        """A strip in words: its first and last week with water, and its deepest."""
        wet = [week for week, depth in enumerate(depths) if depth >= 1.0]
        if not wet:
            return say("no watering")
        most = int(np.argmax(depths))
        return say(
            "{first} to {last}, most in the week of {day}: {depth}",
            first=_day(water.weeks[wet[0]]),
            last=_day(water.weeks[wet[-1]]),
            day=_day(water.weeks[most]),
            depth=show_depth_of_water(depths[most], plan.garden.site.units),
        )

    def _words_of(self, week: int) -> str:
        plan, water = self._plan, self._water
        if plan is None or water is None or not 0 <= week < len(water.weeks):
            return ""
        monday = water.weeks[week]
        place, year = self._recorded(water)
        return "\n".join(week_lines(plan, monday, watering_of_week(plan, monday, water, place), year))

    def _recorded(self, water: GardenWater) -> tuple[int | None, int | None]:
        """Place and calendar year of the recorded year that is shown; None where it is none."""
        if self._wish != _DROUGHT or water.weather.rough:
            return None, None
        return water.drought, water.weather.years[water.drought]

    def _show_week(self, week: int) -> None:
        plan, water = self._plan, self._water
        if plan is None or water is None or not 0 <= week < len(water.weeks):
            self.model.mark(-1, {})
            self.week.setText(say("Click a week, or go there with the arrow keys, for its watering."))
        else:
            found = watering_of_week(plan, water.weeks[week], water, self._recorded(water)[0])
            units = plan.garden.site.units
            self.model.mark(week, {one.bed.id: watering_words(one, units) for one in found})
            lines = week_lines(plan, water.weeks[week], found, self._recorded(water)[1])
            self.week.setText(". ".join((lines[0], *lines[-1:])) if found else lines[0])
        self.table.resizeColumnsToContents()
        self.table.setColumnWidth(STRIP, max(self.table.columnWidth(STRIP), LEAST_STRIP))
        self.table.resizeRowsToContents()


def _day(day: dt.date) -> str:
    return days_in_short(day, day)
