"""The watering sheet: the beds of a week in walking order, how much and how often, in a dry year too, with boxes for the days."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Collection
from dataclasses import dataclass
from functools import cached_property
from typing import BinaryIO

from planner.amounts.drip import drip_zones
from planner.amounts.watering import BedWatering, watering_of_week
from planner.garden.volumes import show_depth_of_water, show_water
from planner.listings.phrases import days_in_short
from planner.listings.water import basis_words, drip_lines_words, every_words, rain_words, run_time
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from planner.plan.water import GardenWater, garden_water
from planner.season.tasks import monday
from planner.sheets import fonts
from planner.sheets.flow import Block, Page, paginate
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_pages, paper_named
from planner.sheets.pen import INK, PENCIL, Pen
from planner.sheets.tagging_pen import ROW_HEAD
from planner.words import say, weekday_words

#: Widths of the columns for the bed, its water, how often, and a dry year; the days take what is left. [mm]
_BED, _WATER, _OFTEN, _DRY = 36.0, 30.0, 46.0, 20.0
_GAP = 2.0
#: Size of text, of a bed's name, and of the heads. [points]
_SIZE, _NAME, _HEADS = 9.0, 10.0, 8.0
#: What the table is known by.
_TABLE = "water"
_BOX, _ROW = 4.0, 8.0


def write_water_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    on: dt.date,
    paper: str = "a4",
    beds: Collection[str] | None = None,
    printed: dt.date | None = None,
) -> None:
    """Write the watering of the week of a day as PDF.

    The same plan, day and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    on : date
        A day of the week; of the next week in which anything is watered where nothing is in its own.
    paper : {"a4", "a3", "letter"}
    beds : collection of str, optional
        Ids of beds; all by default.
    printed : date, optional
        Day of printing; the present day by default.

    Raises
    ------
    SheetError
        Where nothing is to be watered, nothing is known of the climate, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    name, week = plan.garden.site.name, monday(on)
    water = garden_water(plan)
    if water is None:
        raise SheetError(
            say("nothing is known of the climate, so nothing can be told of water"),
            name,
            say("Read a daily weather table, or give monthly means"),
        )
    # A day before the first watering of the year means the week of that.
    week = next((day for day in water.weeks if day >= week and watering_of_week(plan, day, water)), week)
    by_bed = {
        one.bed.id: one for one in watering_of_week(plan, week, water) if beds is None or one.bed.id in beds
    }
    found = tuple(by_bed[bed.id] for bed in beds_in_walking_order(plan) if bed.id in by_bed)
    if not found:
        raise SheetError(
            say("nothing is to be watered in the week of {day}", day=days_in_short(week, week)),
            name,
            say("Ask for another day"),
        )
    sheet = WaterSheet(plan, water, week, found, paper_named(paper), printed or dt.date.today())
    stream = io.BytesIO()
    title = say("{garden}: watering {days}", garden=name, days=sheet.days)
    with new_canvas(stream, sheet.paper, title) as canvas:
        draw_pages(canvas, Pen(canvas), sheet.paper, sheet.pages, sheet.foot)
    write_pdf(target, stream.getvalue())


@dataclass(frozen=True)
class WaterSheet:
    """The pages of a week's watering.

    Attributes
    ----------
    plan : Plan
    water : GardenWater
    monday : date
    beds : tuple of BedWatering
        In walking order.
    paper : Paper
    printed : date
    """

    plan: Plan
    water: GardenWater
    monday: dt.date
    beds: tuple[BedWatering, ...]
    paper: Paper
    printed: dt.date

    @property
    def days(self) -> str:
        """The days of the week."""
        return days_in_short(self.monday, self.monday + dt.timedelta(days=6))

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        words = say("{garden}, watering {days}", garden=self.plan.garden.site.name, days=self.days)
        return Foot.of(self.paper, words, self.printed, check=False)

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, the heads included."""
        room = self.paper.height - self.paper.top - self.paper.bottom - self.foot.height
        first, further = self._head(16.0), self._head(10.0)
        blocks = [
            *(self._row(one) for one in self.beds),
            self._sum(),
            *(self._words(text) for text in self._notes()),
        ]
        pages = paginate(blocks, room - first.height, room - further.height)
        return [[first, *pages[0]], *([further, *page] for page in pages[1:])]

    def _columns(self) -> tuple[float, ...]:
        """Where the columns begin: bed, water, how often, dry year, days. [mm]"""
        at, found = self.paper.left, []
        for width in (_BED, _WATER, _OFTEN, _DRY, 0.0):
            found.append(at)
            at += width + _GAP
        return tuple(found)

    def _box_step(self) -> float:
        return (self.paper.left + self.paper.room - self._columns()[-1]) / 7

    def _head(self, size: float) -> Block:
        title = say("Watering {days} · {garden}", days=self.days, garden=self.plan.garden.site.name)
        lines = fonts.wrap(title, self.paper.room, size, "bold")
        height = len(lines) * fonts.line_height(size) + 7.0
        heads = (say("Bed"), say("In the week"), say("How often"), say("Dry year"))

        def draw(pen: Pen, top: float) -> None:
            with pen.heading_of_table("H1", _TABLE):
                pen.lines(self.paper.left, top, lines, size, "bold")
            at = top - height + 1.5
            with pen.heads(_TABLE):
                for x, words in zip(self._columns()[:-1], heads, strict=True):
                    with pen.head_cell():
                        pen.text(x, at + 1.0, words, _HEADS, rgb=PENCIL)
                with pen.head_cell():
                    for number in range(7):
                        day = weekday_words(self.monday + dt.timedelta(days=number))[:2]
                        x = self._columns()[-1] + number * self._box_step()
                        pen.text(x, at + 1.0, day, _HEADS, rgb=PENCIL)
            pen.line(self.paper.left, at, self.paper.left + self.paper.room, at, INK, 0.35)

        return Block(height, draw)

    def _row(self, one: BedWatering) -> Block:
        units = self.plan.garden.site.units
        name = fonts.wrap(one.bed.name, _BED, _NAME, "bold")
        water = fonts.wrap(
            say(
                "{volume}, {depth}",
                volume=show_water(one.litres, units),
                depth=show_depth_of_water(one.millimetres, units),
            ),
            _WATER,
            _SIZE,
        )
        often = every_words(one.every)
        if one.hours is not None:
            often = say("{often}, lines {time}", often=often, time=run_time(one.hours))
        times = fonts.wrap(often, _OFTEN, _SIZE)
        dry = fonts.wrap(show_water(one.dry_litres, units), _DRY, _SIZE)
        tall = max(
            len(name) * fonts.line_height(_NAME), max(len(water), len(times)) * fonts.line_height(_SIZE)
        )
        height = max(_ROW, tall + 3.0)

        def draw(pen: Pen, top: float) -> None:
            columns, below = self._columns(), top - 1.4
            pen.bookmark(one.bed.name, top)
            with pen.row(_TABLE):
                with pen.tagged("TH", attributes=ROW_HEAD):
                    pen.lines(columns[0], below, name, _NAME, "bold")
                for x, lines in zip(columns[1:4], (water, times, dry), strict=True):
                    with pen.cell():
                        pen.lines(x, below, lines, _SIZE)
                pen.empty_cell()
            for number in range(7):
                pen.box(columns[4] + number * self._box_step(), top - height / 2 - _BOX / 2, _BOX, _BOX)
            end = self.paper.left + self.paper.room
            pen.line(self.paper.left, top - height, end, top - height, PENCIL, 0.2)

        return Block(height, draw)

    def _sum(self) -> Block:
        units = self.plan.garden.site.units
        words = say(
            "In all {volume}, in a dry year {dry}.",
            volume=show_water(sum(one.litres for one in self.beds), units),
            dry=show_water(sum(one.dry_litres for one in self.beds), units),
        )
        return self._words(words, bold=True)

    def _notes(self) -> list[str]:
        notes = [rain_words(self.plan, self.beds), " ".join(basis_words(self.water))]
        if drip_zones(self.plan):
            notes += drip_lines_words(self.plan)
        return notes

    def _words(self, text: str, *, bold: bool = False) -> Block:
        style: fonts.Style = "bold" if bold else "regular"
        lines = fonts.wrap(text, self.paper.room, _SIZE, style)
        height = len(lines) * fonts.line_height(_SIZE) + 2.0

        def draw(pen: Pen, top: float) -> None:
            with pen.tagged("P"):
                pen.lines(self.paper.left, top - 1.6, lines, _SIZE, style)

        return Block(height, draw)
