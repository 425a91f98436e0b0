"""The walk sheet: the beds in walking order, with what stands there, what is to be done, and room to note what is seen."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Collection
from dataclasses import dataclass
from functools import cached_property
from typing import BinaryIO

from planner.garden import Bed, Planting
from planner.listings.phrases import day, days_in_short
from planner.listings.tasks import task_words
from planner.listings.walk import WalkStop, standing_words, walk_stops
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from planner.season.tasks import Task
from planner.sheets import fonts
from planner.sheets.flow import Block, Page, paginate
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_pages, paper_named
from planner.sheets.pen import FAINT, INK, PENCIL, Pen
from planner.sheets.tagging_pen import ROW_HEAD
from planner.sheets.text_blocks import tick
from planner.words import say

#: Widths of the columns for the bed, what stands there and its work; what is seen takes what is left. [mm]
_BED, _STANDS, _WORK = 26.0, 46.0, 46.0
_GAP = 3.0
#: Size of text, of a bed's name, and of the heads. [points]
_SIZE, _NAME, _HEADS = 9.0, 10.0, 8.0
#: What the table is known by.
_TABLE = "walk"
#: Lines to write on are so far apart, and a bed has so many at the least. [mm]
_LINE, _LEAST_LINES = 7.0, 2
_BOX = 3.0


def write_walk_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    on: dt.date,
    paper: str = "a4",
    beds: Collection[str] | None = None,
    printed: dt.date | None = None,
) -> None:
    """Write the walk sheet of a day as PDF.

    The same plan, day and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    on : date
        Day of the walk; its week's work is named.
    paper : {"a4", "a3", "letter"}
    beds : collection of str, optional
        Ids of beds; all in use by default.
    printed : date, optional
        Day of printing; the present day by default.

    Raises
    ------
    SheetError
        Where there is no bed to walk to, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    chosen = [bed for bed in beds_in_walking_order(plan) if beds is None or bed.id in beds]
    if not chosen:
        raise SheetError(
            say("no bed is in use in {year}", year=plan.year), plan.garden.site.name, say("Draw a bed first")
        )
    sheet = WalkSheet(plan, on, tuple(chosen), paper_named(paper), printed or dt.date.today())
    stream = io.BytesIO()
    title = say("{garden}: walk of {day}", garden=plan.garden.site.name, day=day(on))
    with new_canvas(stream, sheet.paper, title) as canvas:
        draw_pages(canvas, Pen(canvas), sheet.paper, sheet.pages, sheet.foot)
    write_pdf(target, stream.getvalue())


@dataclass(frozen=True)
class WalkSheet:
    """The pages of a walk.

    Attributes
    ----------
    plan : Plan
    on : date
    beds : tuple of Bed
        In walking order.
    paper : Paper
    printed : date
    """

    plan: Plan
    on: dt.date
    beds: tuple[Bed, ...]
    paper: Paper
    printed: dt.date

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        words = say("{garden}, walk of {day}", garden=self.plan.garden.site.name, day=day(self.on))
        return Foot.of(self.paper, words, self.printed, check=False)

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, the heads included."""
        room = self.paper.height - self.paper.top - self.paper.bottom - self.foot.height
        first, further = self._head(16.0), self._head(10.0)
        stops = walk_stops(self.plan, self.on, {bed.id for bed in self.beds})
        blocks = [self._bed(number, stop) for number, stop in enumerate(stops, 1)]
        pages = paginate(blocks, room - first.height, room - further.height)
        return [[first, *pages[0]], *([further, *page] for page in pages[1:])]

    def _columns(self) -> tuple[float, float, float, float]:
        """Where the columns begin: bed, what stands there, work, what is seen. [mm]"""
        left = self.paper.left
        return (
            left,
            left + _BED + _GAP,
            left + _BED + _STANDS + 2 * _GAP,
            left + _BED + _STANDS + _WORK + 3 * _GAP,
        )

    def _head(self, size: float) -> Block:
        title = say(
            "Walk of {day} · {garden}",
            day=day(self.on),
            garden=self.plan.garden.site.name,
        )
        lines = fonts.wrap(title, self.paper.room, size, "bold")
        height = len(lines) * fonts.line_height(size) + 7.0
        heads = (say("Bed"), say("What stands there"), say("Work of this week"), say("Seen"))

        def draw(pen: Pen, top: float) -> None:
            with pen.heading_of_table("H1", _TABLE):
                pen.lines(self.paper.left, top, lines, size, "bold")
            at = top - height + 1.5
            with pen.heads(_TABLE):
                for x, words in zip(self._columns(), heads, strict=True):
                    with pen.head_cell():
                        pen.text(x, at + 1.0, words, _HEADS, rgb=PENCIL)
            pen.line(self.paper.left, at, self.paper.left + self.paper.room, at, INK, 0.35)

        return Block(height, draw)

    def _bed(self, number: int, stop: WalkStop) -> Block:
        name = fonts.wrap(say("{number}. {bed}", number=number, bed=stop.bed.name), _BED, _NAME, "bold")
        stands = self._stands(stop)
        tasks = [
            (fonts.wrap(_task_line(number, task), _WORK - _BOX - 1.5, _SIZE), not task.is_open)
            for number, task in enumerate(stop.work, 1)
        ]
        high = fonts.line_height(_SIZE)
        tall = max(
            len(name) * fonts.line_height(_NAME),
            len(stands) * high,
            sum(len(lines) * high + 0.8 for lines, _done in tasks),
        )
        rows = max(_LEAST_LINES, -int(-tall // _LINE))
        height = max(tall + 3.0, rows * _LINE + 2.0)

        def draw(pen: Pen, top: float) -> None:
            at_bed, at_stands, at_work, at_seen = self._columns()
            below = top - 1.2
            pen.bookmark(stop.bed.name, top)
            with pen.row(_TABLE):
                with pen.tagged("TH", attributes=ROW_HEAD):
                    pen.lines(at_bed, below, name, _NAME, "bold")
                with pen.cell():
                    pen.lines(at_stands, below, stands, _SIZE)
                line = below
                with pen.cell():
                    for lines, done in tasks:
                        base = line - high + 0.6
                        pen.box(at_work, base, _BOX, _BOX)
                        if done:
                            tick(pen, at_work, base, _BOX)
                        line = pen.lines(at_work + _BOX + 1.5, line, lines, _SIZE) - 0.8
                pen.empty_cell()
            end = self.paper.left + self.paper.room
            for row in range(1, rows + 1):
                y = top - row * _LINE
                pen.line(at_seen, y, end, y, FAINT, 0.2)
            pen.line(self.paper.left, top - height, end, top - height, PENCIL, 0.2)

        return Block(height, draw)

    def _stands(self, stop: WalkStop) -> tuple[str, ...]:
        if not stop.plantings:
            return fonts.wrap(say("nothing"), _STANDS, _SIZE, "regular")
        return tuple(
            line
            for letter, one in stop.plantings
            for line in fonts.wrap(self._standing(letter, one), _STANDS, _SIZE)
        )

    def _standing(self, letter: str, planting: Planting) -> str:
        """A planting under the letter by which what was seen is written down, and how far it is."""
        words = standing_words(self.plan, planting, self.on)
        return say("{letter}  {planting}", letter=letter, planting=words) if letter else words


def _task_line(number: int, task: Task) -> str:
    """A task under its number, with its days and its amount, without its bed."""
    words, amount = task_words(task)
    days = days_in_short(task.date, task.until)
    return (
        say("{number}  {days}: {work}, {amount}", number=number, days=days, work=words, amount=amount)
        if amount
        else say("{number}  {days}: {work}", number=number, days=days, work=words)
    )
