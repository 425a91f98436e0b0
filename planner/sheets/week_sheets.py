"""Week sheets: a PDF of the work week by week, with boxes to tick and room for a remark."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import BinaryIO

from planner.amounts.work import work_between
from planner.listings.phrases import BY_HAND, day, span
from planner.listings.tasks import task_days, task_words
from planner.listings.weeks import Week, going_on, weeks
from planner.plan import Plan
from planner.season.tasks import Task
from planner.sheets import fonts
from planner.sheets.cautions import caution_words, work_cautions
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_page, paper_named
from planner.sheets.pen import FAINT, INK, PENCIL, Pen
from planner.sheets.text_blocks import SIZE, kept_with_next, paragraph, tick
from planner.words import join_list

#: Widths of the columns for box, days, bed, work and amount; the remark takes what is left. [mm]
_COLUMNS = (6.0, 25.0, 25.0, 52.0, 40.0)
_HEADS = ("Days", "Bed", "Work", "How much", "Remark")
#: Space between columns. [mm]
_CELL_PAD = 1.5
#: Least height of a row, and the side of its box. [mm]
_LEAST_ROW, _BOX_SIDE = 6.0, 3.2
#: Rows kept with a week's heading where the week is longer than a page.
_ROWS_WITH_HEADING = 3
#: Size of what goes on, and of cautions. [points]
_SMALL = 7.0


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
    """Write the work of a span of days as one PDF, a block a week; weeks without work are left out.

    The same plan, days and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    first, last : date, optional
        First and last day; the growing year's by default.
    paper : {"a4", "letter"}
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
    found = weeks(work_between(plan, begin, end, beds, tended_by), begin, end)
    if not found:
        raise SheetError(
            f"no work falls on {span(begin, end)}",
            plan.garden.site.name,
            "Give the frost dates of the garden, or the first days of its plantings; or ask for other days",
        )
    whose = join_list(sorted(tended_by)) if tended_by else ""
    pages = WeekSheets(plan, found, begin, end, sheet, today or dt.date.today(), whose)
    stream = io.BytesIO()
    with new_canvas(stream, sheet, f"{plan.garden.site.name}: work {span(begin, end)}") as canvas:
        pen = Pen(canvas)
        for number in range(len(pages.pages)):
            pages.draw(pen, number)
            canvas.showPage()
            if progress is not None:
                progress(number + 1, len(pages.pages))
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
    """

    plan: Plan
    weeks: Sequence[Week]
    first: dt.date
    last: dt.date
    paper: Paper
    today: dt.date
    tended_by: str = ""

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        words = f"{self.plan.garden.site.name} · work {span(self.first, self.last)}"
        return Foot.of(self.paper, words, self.today, check=False)

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, their heads included."""
        first, further = self._head(16.0, "Work by week"), self._head(9.0, "")
        room = self.paper.height - self.paper.top - self.paper.bottom - self.foot.height
        printed: set[str] = set()
        blocks: list[Block] = []
        for number, week in enumerate(self.weeks):
            head = further if number else first
            blocks += self._week(week, room - head.height, self._cautions(week, printed))
        pages = paginate(blocks, room - first.height, room - further.height)
        return [[first, *pages[0]], *([further, *page] for page in pages[1:])]

    def draw(self, pen: Pen, number: int) -> None:
        """Draw one page.

        Parameters
        ----------
        pen : Pen
        number : int
            Counted from 0.
        """
        draw_page(pen, self.paper, self.pages, number, self.foot)

    def _head(self, size: float, title: str) -> Block:
        """Garden and span; on the first page with a title."""
        paper, name = self.paper, self.plan.garden.site.name
        whose = f" · tended by {self.tended_by}" if self.tended_by else ""
        days = f"{span(self.first, self.last)}"
        lines = fonts.wrap(
            f"{title} · {name}{whose}" if title else f"Work by week · {name}{whose} · {days}",
            paper.room,
            size,
            "bold",
        )
        under = (
            fonts.wrap(f"{days} · days are those planned, {BY_HAND} set by hand", paper.room, 9.5)
            if title
            else ()
        )
        height = len(lines) * fonts.line_height(size) + len(under) * fonts.line_height(9.5) + 9.0

        def draw(pen: Pen, top: float) -> None:
            below = pen.lines(paper.left, top, lines, size, "bold")
            pen.lines(paper.left, below, under, 9.5)
            x, at = paper.left + _COLUMNS[0], top - height + 2.5
            for words, width in zip(_HEADS, (*_COLUMNS[1:], 0.0), strict=True):
                pen.text(x, at + 1.0, words, 7.0, rgb=PENCIL)
                x += width
            pen.line(paper.left, at, paper.left + paper.room, at, INK, 0.35)

        return Block(height, draw)

    # -- a week -----------------------------------------------------------------------------

    def _week(self, week: Week, room: float, cautions: list[Block]) -> list[Block]:
        """A week's blocks: all on one page where they fit on one."""
        title = self._title(week.title)
        rows = [self._row(task) for task in week.begins]
        below = [*self._going_on(week), *cautions]
        whole = [title, *rows, *below]
        if sum(block.height for block in whole) <= room:
            return [*(kept_with_next(block) for block in whole[:-1]), whole[-1], gap(4.0)]
        again = self._title(f"{week.title}, continued")
        rows = [
            replace(row, repeat=again, with_next=number < _ROWS_WITH_HEADING - 1 or number == len(rows) - 2)
            for number, row in enumerate(rows)
        ]
        return [title if not rows else kept_with_next(title), *rows, *below, gap(4.0)]

    def _title(self, words: str) -> Block:
        paper, size = self.paper, 9.5

        def draw(pen: Pen, top: float) -> None:
            pen.lines(paper.left, top, [words], size, "bold")
            at = top - height + 0.6
            pen.line(paper.left, at, paper.left + paper.room, at, INK, 0.2)

        height = fonts.line_height(size) + 1.2
        return Block(height, draw)

    def _row(self, task: Task) -> Block:
        paper = self.paper
        work, amounts = task_words(task)
        cells = (task_days(task), task.bed_name, work, amounts, f"done {day(task.done)}" if task.done else "")
        widths = (*_COLUMNS[1:], paper.room - sum(_COLUMNS))
        wrapped = [
            fonts.wrap(cell, width - _CELL_PAD, SIZE, "bold" if column == 1 else "regular")
            for column, (cell, width) in enumerate(zip(cells, widths, strict=True))
        ]
        line = fonts.line_height(SIZE)
        height = max(_LEAST_ROW, max(map(len, wrapped)) * line + 2.2)

        def draw(pen: Pen, top: float) -> None:
            pen.box(paper.left + 0.4, top - 4.4, _BOX_SIDE, _BOX_SIDE, weight=0.2)
            if task.done is not None:
                tick(pen, paper.left + 0.4, top - 4.4, _BOX_SIDE)
            x = paper.left + _COLUMNS[0]
            for column, (lines, width) in enumerate(zip(wrapped, widths, strict=True)):
                style: fonts.Style = "bold" if column == 1 else "regular"
                pen.lines(x, top - 1.2, lines, SIZE, style, PENCIL if column == 4 else INK)
                x += width
            at = top - height
            pen.line(paper.left, at, paper.left + paper.room, at, FAINT, 0.15)

        return Block(height, draw)

    def _going_on(self, week: Week) -> list[Block]:
        if not week.goes_on:
            return []
        space = Block(0.8, lambda pen, top: None, with_next=True)
        return [space, *paragraph(self.paper, going_on(week), style="italic", size=_SMALL, together=True)]

    def _cautions(self, week: Week, printed: set[str]) -> list[Block]:
        """Cautions of a week's work: in full the first time, later by their names.

        ``printed`` holds the keys of those printed in weeks before, and gets those of this one.
        """
        found = work_cautions(self.plan, week.begins)
        new = [caution for caution in found if caution.key not in printed]
        printed.update(caution.key for caution in new)
        texts = [f"Take care: {caution_words(self.plan.catalogue, caution)}" for caution in new]
        names = [caution.key.replace("_", " ") for caution in found if caution not in new]
        if names:
            texts.append(f"Take care, as said before: {'; '.join(names)}.")
        space = [Block(0.8, lambda pen, top: None, with_next=True)] if texts else []
        lines = [block for text in texts for block in paragraph(self.paper, text, size=_SMALL, together=True)]
        return [*space, *lines]
