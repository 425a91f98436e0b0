"""Week sheets: a PDF of the work week by week, with boxes to tick and room for a remark."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Callable, Collection, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, replace
from functools import cached_property
from typing import BinaryIO

from planner.amounts.watering import BedWatering, beds_tended, listed_waterings
from planner.amounts.work import work_between
from planner.listings.phrases import BY_HAND, day, span
from planner.listings.water import rain_words, watering_words
from planner.listings.weeks import Week, weeks, weeks_with
from planner.plan import Plan
from planner.plan.walking import beds_in_walking_order
from planner.season.spans import growing_year
from planner.sheets import fonts
from planner.sheets.bed_remarks import caution_blocks, listed_blocks
from planner.sheets.cautions import work_cautions
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_page, paper_named
from planner.sheets.pen import FAINT, INK, Pen
from planner.sheets.sheet_sources import SheetSources
from planner.sheets.text_blocks import BOX_SIDE, SIZE, tick
from planner.sheets.week_work import PersonWork, WeekLine, WeekWork, heading_words, tasks_of
from planner.words import capital, join_list, say, say_in_context

#: Widths of the columns for box, days, plot and work; the remark takes what is left. [mm]
_COLUMNS = (6.0, 27.0, 8.0, 111.0)
#: Size of a week's days, of persons and of beds. [points]
_WEEK_SIZE, _PERSON_SIZE, _BED_SIZE = 16.0, 11.0, 10.0
#: What the table of a week is known by.
_TABLE = "work"
#: Space between columns. [mm]
_CELL_PAD = 1.5
#: Least height of a row. [mm]
_LEAST_ROW = 5.4


def write_week_sheets(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    first: dt.date | None = None,
    last: dt.date | None = None,
    paper: str = "a4",
    today: dt.date | None = None,
    beds: Collection[str] | None = None,
    tended_by: Collection[str] | None = None,
    progress: Callable[[int, int], None] | None = None,
) -> None:
    """Write the work of a span of days as one PDF, a page a week or more; weeks without work are left out.

    The same plan, days and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    first, last : date, optional
        First and last day; the growing year's by default.
    paper : {"a4", "a3", "letter"}
    today : date, optional
        Day of printing, on every page; the present day by default.
    beds : collection of str, optional
        Ids of beds; all by default.
    tended_by : collection of str, optional
        Who tends the plantings, as entered; named in the head.
    progress : callable, optional
        Called as ``progress(done, all)`` after each page; may raise to stop the work, and nothing is
        written then.

    Raises
    ------
    SheetError
        Where no work falls in the span, or a path cannot be written.
    WorkError
        For a span that ends before it begins or is too long.
    UnknownPaperError
        For an unknown paper.
    """
    sheet = paper_named(paper)
    begin, end = first or plan.span.first, last or plan.span.last
    found = weeks(work_between(plan, begin, end, beds, tended_by), begin, end, going_on_too=True)
    found = WeekWork(plan, beds=beds, tended_by=tended_by).with_moves(found, begin, end)
    found = weeks_with(found, listed_waterings(plan, begin, end, beds_tended(plan, beds, tended_by)))
    if not found:
        raise SheetError(
            say("no work falls on {span}", span=span(begin, end)),
            plan.garden.site.name,
            say(
                "Give the frost dates of the garden, or the first days of its plantings; or ask for other days"
            ),
        )
    whose = join_list(sorted(tended_by)) if tended_by else ""
    sheets = WeekSheets(plan, found, begin, end, sheet, today or dt.date.today(), whose, beds, tended_by)
    stream = io.BytesIO()
    title = say("{garden}: work {days}", garden=plan.garden.site.name, days=span(begin, end))
    with new_canvas(stream, sheet, title) as canvas:
        pen = Pen(canvas)
        for number in range(len(sheets.pages)):
            if number in sheets.begins:
                canvas.bookmark(sheets.begins[number])
            sheets.draw(pen, number)
            canvas.showPage()
            if progress is not None:
                progress(number + 1, len(sheets.pages))
    write_pdf(target, stream.getvalue())


@dataclass(frozen=True)
class WeekSheets:
    """The pages of some weeks.

    Attributes
    ----------
    plan : Plan
    weeks : sequence of Week
    first, last : date
        First and last day asked for.
    paper : Paper
    today : date
        Day of printing.
    tended_by : str
        Whose work it is, in words; empty for everybody's.
    beds, persons : collection of str or None
        Ids of the beds, and those who tend, whose work it is; all by default.
    """

    plan: Plan
    weeks: Sequence[Week]
    first: dt.date
    last: dt.date
    paper: Paper
    today: dt.date
    tended_by: str = ""
    beds: Collection[str] | None = None
    persons: Collection[str] | None = None

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        words = say(
            "{garden} · work {days}", garden=self.plan.garden.site.name, days=span(self.first, self.last)
        )
        return Foot.of(self.paper, words, self.today, check=False)

    @cached_property
    def _weeks(self) -> list[tuple[str, list[Page]]]:
        """Title and pages of each week, and at the end those of the sources."""
        room = self.paper.height - self.paper.top - self.paper.bottom - self.foot.height
        work, sources = WeekWork(self.plan, beds=self.beds, tended_by=self.persons), SheetSources(self.plan)
        meant = beds_tended(self.plan, self.beds, self.persons)
        watered = listed_waterings(self.plan, self.first, self.last, meant)
        found = []
        for week in self.weeks:
            year = growing_year(self.plan.garden.site, max(week.monday, self.first))
            persons = work.of_week(week, year)
            cautions = work_cautions(self.plan, tasks_of(persons))
            sources.add_cautions(cautions)
            first, further = (
                self._head(week.title),
                self._head(say("{week}, continued", week=week.title), again=True),
            )
            blocks = [*self._work(persons)]
            if week.monday in watered:
                blocks += self._watering(watered[week.monday])
            blocks += caution_blocks(cautions, self.paper)
            pages = paginate(blocks, room - first.height, room - further.height)
            found.append((week.title, [[first, *pages[0]], *([further, *page] for page in pages[1:])]))
        closing = sources.blocks(self.paper)
        if closing:
            last = found[-1][1][-1]
            if sum(block.height for block in (*last, *closing)) <= room:
                last += closing
            else:
                found.append((say("Sources"), paginate(closing, room, room)))
        return found

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, their heads included."""
        return [page for _, pages in self._weeks for page in pages]

    @cached_property
    def begins(self) -> dict[int, str]:
        """Titles of weeks by the number of the page on which they begin, counted from 0."""
        found, number = {}, 0
        for title, pages in self._weeks:
            found[number] = title
            number += len(pages)
        return found

    def draw(self, pen: Pen, number: int) -> None:
        """Draw one page.

        Parameters
        ----------
        pen : Pen
        number : int
            Counted from 0.
        """
        draw_page(pen, self.paper, self.pages, number, self.foot)

    # -- a page -----------------------------------------------------------------------------

    def _head(self, title: str, *, again: bool = False) -> Block:
        """The week, the garden, and the heads of the columns; again on a further page."""
        paper, name = self.paper, self.plan.garden.site.name
        under = say("{garden} · days are those planned, {mark} set by hand", garden=name, mark=BY_HAND)
        if self.tended_by:
            under = say("{line} · tended by {names}", line=under, names=self.tended_by)
        size = fonts.fitted_size(title, paper.room, _WEEK_SIZE, "bold", least=10.0)
        lines = fonts.wrap(under, paper.room, SIZE)
        height = fonts.line_height(size) + len(lines) * fonts.line_height(SIZE) + 7.5
        heads = (say("Days"), say_in_context("narrow column", "Plot"), say("Work"), say("Remark"))

        def draw(pen: Pen, top: float) -> None:
            with nullcontext() if again else pen.tagged("H1"):
                below = pen.lines(paper.left, top, [title], size, "bold")
            with nullcontext() if again else pen.tagged("P"):
                pen.lines(paper.left, below, lines, SIZE)
            x, at = paper.left + _COLUMNS[0], top - height + 1.5
            with pen.heads(_TABLE):
                for words, width in zip(heads, (*_COLUMNS[1:], 0.0), strict=True):
                    with pen.head_cell():
                        pen.text(x, at + 1.0, words, 8.0, "bold")
                    x += width
            pen.line(paper.left, at, paper.left + paper.room, at, INK, 0.4)

        return Block(height, draw)

    def _work(self, persons: Sequence[PersonWork]) -> list[Block]:
        """Work by person and bed; who does it is not said where nobody is named."""
        blocks: list[Block] = []
        for person in persons:
            if len(persons) > 1 or person.person:
                blocks.append(self._heading(heading_words(person.person), _PERSON_SIZE, 2.0))
            for bed in person.beds:
                title = self._heading(bed.bed, _BED_SIZE, 0.9)
                rows = [self._row(line) for line in bed.lines]
                again = self._heading(say("{bed}, continued", bed=bed.bed), _BED_SIZE, 0.9, again=True)
                blocks += [title, *(replace(row, repeat=again) for row in rows)]
        return [*blocks, gap(3.0)]

    def _watering(self, found: Sequence[BedWatering]) -> list[Block]:
        """Watering of a week, a line a bed in walking order, and what of the rain is reckoned."""
        units, by_bed = self.plan.garden.site.units, {one.bed.id: one for one in found}
        lines = [
            say("{bed}: {water}", bed=bed.name, water=watering_words(by_bed[bed.id], units))
            for bed in beds_in_walking_order(self.plan)
            if bed.id in by_bed
        ]
        return listed_blocks(self.paper, say("Water"), [*lines, rain_words(self.plan, found)])

    def _heading(self, words: str, size: float, above: float, *, again: bool = False) -> Block:
        paper = self.paper
        lines = fonts.wrap(words, paper.room, size, "bold")

        def draw(pen: Pen, top: float) -> None:
            if again:
                pen.lines(paper.left, top - above, lines, size, "bold")
            else:
                with pen.row(_TABLE), pen.tagged("TH", attributes="/Scope/Row/ColSpan 4"):
                    pen.lines(paper.left, top - above, lines, size, "bold")
            if size == _PERSON_SIZE:
                at = top - height + 0.3
                pen.line(paper.left, at, paper.left + paper.room, at, INK, 0.4)

        height = len(lines) * fonts.line_height(size) + above + (0.6 if size == _PERSON_SIZE else 0.0)
        return Block(height, draw, with_next=True)

    def _row(self, line: WeekLine) -> Block:
        """A piece of work: its box, days, plot, what is done and with what, and room for a remark."""
        paper, task = self.paper, line.task
        days = fonts.wrap(line.days, _COLUMNS[1] - _CELL_PAD, SIZE)
        room = _COLUMNS[3] - _CELL_PAD
        style: fonts.Style = "italic" if line.told else "bold"
        words = capital(line.details)
        first = fonts.width(line.work, SIZE, style) + 3.0
        beside = bool(words) and first + fonts.width(words, SIZE) <= room
        work = fonts.wrap(line.work, room, SIZE, style)
        details = () if beside else fonts.wrap(words, room, SIZE)
        done_on = task.done if task is not None else None
        before = task is not None and task.done_before
        done = say("done {day}", day=day(done_on)) if done_on else say("done before") if before else ""
        tall = fonts.line_height(SIZE)
        height = max(_LEAST_ROW, max(len(days), len(work) + len(details)) * tall + 1.4)

        def draw(pen: Pen, top: float) -> None:
            if not line.told:
                pen.box(paper.left + 0.4, top - 4.2, BOX_SIDE, BOX_SIDE, weight=0.25)
                if done:
                    tick(pen, paper.left + 0.4, top - 4.2, BOX_SIDE)
            x = paper.left + _COLUMNS[0]
            with pen.row(_TABLE):
                with pen.cell():
                    pen.lines(x, top - 0.9, days, SIZE)
                x += _COLUMNS[1]
                with pen.cell():
                    pen.lines(x, top - 0.9, [line.letter], SIZE, "bold")
                x += _COLUMNS[2]
                with pen.cell():
                    below = pen.lines(x, top - 0.9, work, SIZE, style)
                    pen.lines(x, below, details, SIZE)
                    if beside:
                        pen.lines(x + first, top - 0.9, [words], SIZE)
                with pen.cell():
                    pen.lines(x + _COLUMNS[3], top - 0.9, [done], SIZE)
            at = top - height
            pen.line(paper.left + _COLUMNS[0], at, paper.left + paper.room, at, FAINT, 0.15)

        return Block(height, draw)
