"""The odds of the plan's plantings over the recorded years, the weakest first, and what would help the one that is chosen."""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Callable

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QHideEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QBoxLayout, QFrame, QHBoxLayout, QScrollArea, QSplitter, QVBoxLayout, QWidget
from typing_extensions import override

from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.desk.model.when_seen import WhenSeen
from planner.desk.pages.day_curve_view import DayCurveView
from planner.desk.pages.harvest_page import wrapped_label
from planner.desk.pages.opening_table import OpeningTable, Row
from planner.desk.theme.palette import LookSwitch
from planner.garden import Planting, edits
from planner.garden.edits.shifts import started_on
from planner.listings.learned import crop_name
from planner.listings.odds import lost_words
from planner.listings.odds_line import assumption_line, odds_lines
from planner.listings.other_days import curve_words, tried_words, way_cells
from planner.plan import Plan
from planner.plan.lived import weakest_first, weather_in
from planner.plan.lived_otherwise import (
    CurveBegun,
    DayCurve,
    begin_curve,
    compared_shelters,
    compared_sorts,
)
from planner.season.lived.odds import Odds
from planner.season.lived.other_days import TriedDay
from planner.sheets.chart_marks import Chart, Room
from planner.sheets.day_curve_chart import losses_chart, picking_chart
from planner.words import capital, day_words, later, say

#: The window goes on with its own work after so long. [s]
_SLICE = 0.015
#: From this width on the two charts stand side by side. [pixels]
_TWO = 600
_NO_YEARS = later(
    "The garden keeps no years of daily weather yet, so nothing can be lived through. Read the table of a weather station on the Weather page."
)


class OddsPage(QWidget):
    """Plantings with their odds above; below it the curve over its possible days, other sorts and shelter.

    The curve is worked out a few days at a time, while the page is seen.

    Signals
    -------
    planting_wanted : str
        Id of a planting to show on the sheet.
    said : str
        What was changed.

    Attributes
    ----------
    table, sorts, shelters : OpeningTable
    losses, picking : DayCurveView
    odds, gain : QLabel
        The odds of the chosen planting, and what its best day would gain.
    start : WrappedButton
        Starts it on that day.
    """

    planting_wanted = Signal(str)
    said = Signal(str)

    def __init__(self, document: Document, look: LookSwitch) -> None:
        super().__init__()
        self.document = document
        self.setAccessibleName(say("Odds"))
        self.curve: DayCurve | None = None
        self._plan: Plan | None = None
        self._found: dict[str, tuple[Planting, Odds]] = {}
        self._begun: CurveBegun | None = None
        self._tried: list[TriedDay] = []
        self._left: list[dt.date] = []
        self._work = QTimer(self)
        self._work.setInterval(0)
        self._work.timeout.connect(self._go_on)
        self.state = wrapped_label()
        self.table = OpeningTable(
            (say("Planting"), say("Bed"), say("Picked in"), say("Lost to"), say("First picking")),
            say("Plantings by their odds"),
        )
        self.table.setRootIsDecorated(False)
        self.table.shown.connect(self.planting_wanted)
        self.table.selectionModel().selectionChanged.connect(lambda *_: self._choose())
        self.odds, self.gain = wrapped_label(), wrapped_label()
        self.losses = DayCurveView(
            look,
            say("Years in which nothing is picked, by the day of the start"),
            lambda room: self._chart(losses_chart, room),
            self._words_of,
        )
        self.picking = DayCurveView(
            look,
            say("First picking, by the day of the start"),
            lambda room: self._chart(picking_chart, room),
            self._words_of,
        )
        for view in (self.losses, self.picking):
            view.day_wanted.connect(self._start_at)
        self.start = WrappedButton(say("Start on that day"))
        self.start.clicked.connect(self._start_best)
        heads = (say("Grown as"), say("Picked in"), say("First picking"), say("Change"))
        self.sorts = OpeningTable(heads, say("Early, usual and late sorts"))
        self.shelters = OpeningTable(heads, say("Covers and glass"))
        for table in (self.sorts, self.shelters):
            table.setRootIsDecorated(False)
        self._lay_out()
        self.seen = seen = WhenSeen(self, self.refresh)
        seen.follow()
        document.garden_settled.connect(seen.follow)
        document.year_changed.connect(seen.follow)

    def _lay_out(self) -> None:
        inside = QWidget()
        below = QVBoxLayout(inside)
        below.setContentsMargins(0, 6, 0, 0)
        below.addWidget(self.odds)
        self._charts = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._charts.addWidget(self.losses, 1)
        self._charts.addWidget(self.picking, 1)
        below.addLayout(self._charts, 3)
        last = QHBoxLayout()
        last.addWidget(self.gain, 1)
        last.addWidget(self.start)
        below.addLayout(last)
        below.addWidget(self.sorts)
        below.addWidget(self.shelters)
        self.area = QScrollArea()
        self.area.setWidgetResizable(True)
        self.area.setFrameShape(QFrame.Shape.NoFrame)
        self.area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.area.setWidget(inside)
        self.parts = QSplitter(Qt.Orientation.Vertical)
        self.parts.setChildrenCollapsible(False)
        self.parts.addWidget(self.table)
        self.parts.addWidget(self.area)
        self.parts.setSizes([210, 560])
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 12, 14, 12)
        column.addWidget(self.state)
        column.addWidget(self.parts, 1)

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        beside = self.width() >= _TWO
        self._charts.setDirection(
            QBoxLayout.Direction.LeftToRight if beside else QBoxLayout.Direction.TopToBottom
        )

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the odds as they are now; the planting that was chosen stays chosen."""
        plan = self._plan = self.document.plan
        there = weather_in(plan) is not None
        self.parts.setVisible(there)
        found = weakest_first(plan) if there else []
        self._found = {planting.id: (planting, odds) for planting, odds in found}
        if not there:
            self.state.setText(say(_NO_YEARS))
            self._stop()
            return
        self.state.setText(
            " ".join(
                one
                for one in (
                    say("The weakest first, over the recorded years of the garden's weather station."),
                    say("Pests, care and the soil are not in the odds."),
                    assumption_line(plan) and say("{sentence}.", sentence=assumption_line(plan)),
                )
                if one
            )
        )
        chosen = self.table.selected_keys()
        self.table.show_rows([self._row(plan, planting, odds) for planting, odds in found])
        if chosen and chosen[0] in self._found:
            self.table.choose(chosen[0])
        elif found:
            self.table.choose(found[0][0].id)
        self._choose()

    def _row(self, plan: Plan, planting: Planting, odds: Odds) -> Row:
        name = capital(f"{crop_name(plan, planting.crop)} {planting.variety}".strip())
        first = odds.first.middle if odds.first is not None else None
        picked = say("{picked} of {years}", picked=odds.picked, years=odds.years) if odds.years else ""
        bed = plan.bed_of(planting).name
        return Row(
            (name, bed, picked, lost_words(odds), day_words(first, plan.year) if first is not None else ""),
            planting.id,
            planting.id,
            (),
            (
                name.casefold(),
                bed.casefold(),
                -odds.share_lost,
                float(odds.lost),
                float(first.toordinal()) if first is not None else 0.0,
            ),
        )

    @property
    def chosen(self) -> Planting | None:
        """The planting that is chosen; None where none is."""
        rows = self.table.selected_rows()
        found = self._found.get(rows[0].key) if rows else None
        return found[0] if found is not None else None

    def _choose(self) -> None:
        """Begin the curve of the planting that is chosen."""
        self._stop()
        planting, plan = self.chosen, self._plan
        self.area.setVisible(planting is not None)
        if planting is None or plan is None:
            return
        self.odds.setText("\n".join(odds_lines(plan, planting)))
        planned = self._found[planting.id][1]
        for table, ways in (
            (self.sorts, compared_sorts(plan, planting)),
            (self.shelters, compared_shelters(plan, planting)),
        ):
            table.show_rows([Row(way_cells(plan, one, planned), one.way) for one in ways])
            table.setVisible(len(ways) > 1)
            _fit_height(table, len(ways))
        self._begun = begin_curve(plan, planting)
        if self._begun is None:
            self.gain.setText(say("It stays for years: no other day to start is compared."))
            return
        self._left = list(self._begun.days)
        self.gain.setText(say("Other days are being worked out."))
        self._work.start()

    def _stop(self) -> None:
        """Leave the curve, and forget what was worked out of it."""
        self._work.stop()
        self.curve, self._begun, self._tried, self._left = None, None, [], []
        self._show_curve()

    def _go_on(self) -> None:
        """Try some more days."""
        begun, since = self._begun, time.monotonic()
        if begun is None or self._plan is not self.document.plan:
            self._work.stop()
            return
        while self._left and time.monotonic() - since < _SLICE:
            one = begun.try_day(self._left.pop(0))
            if one is not None:
                self._tried.append(one)
        if not self._left:
            self._work.stop()
            self.curve = begun.curve(self._tried)
            self._show_curve()

    def _show_curve(self) -> None:
        curve, plan = self.curve, self._plan
        days = [one.day for one in curve.tried] if curve is not None else []
        planned = curve.planned if curve is not None else None
        words = curve_words(plan, curve) if curve is not None and plan is not None else ""
        for view in (self.losses, self.picking):
            view.planned = days.index(planned.day) if planned is not None else -1
            view.describe(words)
        self.losses.setVisible(curve is not None)
        self.picking.setVisible(curve is not None and self.picking.chart is not None)
        self.start.setVisible(False)
        if curve is None or plan is None:
            return
        self.gain.setText(words)
        best = curve.best
        if best is not None and (planned is None or best.day != planned.day):
            self.start.set_words(say("Start on {day}", day=day_words(best.day, plan.year)))
            self.start.setVisible(True)

    def _chart(self, draw: Callable[[DayCurve, Room], Chart | None], room: Room) -> Chart | None:
        return draw(self.curve, room) if self.curve is not None else None

    def _words_of(self, step: int) -> str:
        curve, plan = self.curve, self._plan
        if curve is None or plan is None or not 0 <= step < len(curve.tried):
            return ""
        return tried_words(plan, curve.tried[step])

    # -- changing ---------------------------------------------------------------------------

    def _start_best(self) -> None:
        if self.curve is not None and self.curve.best is not None:
            self._start_on(self.curve.best.day)

    def _start_at(self, step: int) -> None:
        if self.curve is not None and 0 <= step < len(self.curve.tried):
            self._start_on(self.curve.tried[step].day)

    def _start_on(self, day: dt.date) -> None:
        """Start the chosen planting on another day; days of its start that were set by hand move along."""
        planting, begun, plan = self.chosen, self._begun, self._plan
        if planting is None or begun is None or plan is None:
            return
        fields = started_on(planting, day, (day - begun.planned).days)
        crop, when = crop_name(plan, planting.crop), day_words(day, plan.year)
        if self.document.edit(
            say("Start {crop} on {day}", crop=crop, day=when),
            lambda garden: edits.change_planting(garden, planting.id, **fields),
        ):
            self.said.emit(say("{crop} starts on {day}", crop=capital(crop), day=when))

    @override
    def hideEvent(self, event: QHideEvent) -> None:
        self._work.stop()
        super().hideEvent(event)

    @override
    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._left:
            self._work.start()


def _fit_height(table: OpeningTable, rows: int) -> None:
    """Make a table as high as its lines."""
    line = max(table.sizeHintForRow(0), table.fontMetrics().height())
    bar = table.horizontalScrollBar().sizeHint().height()
    head = max(table.header().sizeHint().height(), 2 * table.fontMetrics().height() + 12)
    table.setFixedHeight(head + rows * line + bar + 2 * table.frameWidth() + 2)
