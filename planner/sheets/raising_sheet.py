"""The raising sheet: what is done on the benches week by week, with boxes to tick, and what stands on each bench when."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, nullcontext
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from typing import BinaryIO

from planner.amounts.bench import BenchDays, BenchWeek
from planner.amounts.raising import Standing, raisings
from planner.amounts.trays_in_use import container_totals
from planner.garden.volumes import show_volume
from planner.listings.phrases import BY_HAND, day, days_in_short, season
from planner.listings.raising import (
    TRAYS_SHARED,
    TRAYS_USED_AGAIN,
    bench_words,
    mix_line,
    nursery_beds,
    sort_of,
)
from planner.plan import Plan
from planner.season.container_words import filled_words, number_in_use_words
from planner.season.frosts import shift
from planner.sheets import fonts
from planner.sheets.bed_remarks import caution_blocks, listed_blocks
from planner.sheets.cautions import work_cautions
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_page, paper_named
from planner.sheets.pen import FAINT, INK, PENCIL, Pen
from planner.sheets.raising_work import RaisingLine, RaisingWeek, RaisingWork
from planner.sheets.sheet_sources import SheetSources
from planner.sheets.tagging_pen import ROW_HEAD
from planner.sheets.text_blocks import BOX_SIDE, SIZE, kept_with_next, paragraph, tick
from planner.words import capital, day_words, join_list, month_words, say, say_count

#: Widths of the columns for box, day, work, crop, number; how it is done takes what is left. [mm]
_COLUMNS = (5.5, 14.5, 24.0, 37.0, 39.0)
#: Widths of a bench's columns for week, trays, what comes and what stays; what leaves takes what is left. [mm]
_BENCH_COLUMNS = (26.0, 21.0, 60.0, 36.0)
#: Size of titles, of months and of weeks. [points]
_TITLE, _MONTH, _WEEK = 16.0, 13.0, 10.0
#: Room for the heads of the columns. [mm]
_HEADS = 6.0
#: Space between columns, and least height of a row. [mm]
_PAD, _LEAST_ROW = 2.0, 5.4
#: From the Monday of a week to its Sunday. [days]
_SIX_DAYS = 6


def write_raising_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    paper: str = "a4",
    today: dt.date | None = None,
) -> None:
    """Write what is raised in a growing year as PDF: its work month by month, then a page or more for each bench.

    The same plan, day and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    paper : {"a4", "a3", "letter"}
    today : date, optional
        Day of printing; the present day by default.

    Raises
    ------
    SheetError
        Where nothing is raised, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    sheet = paper_named(paper)
    work = RaisingWork(plan)
    if not work.weeks:
        raise SheetError(
            say("nothing is raised in {year}", year=plan.year),
            plan.garden.site.name,
            say("Let a planting start raised and set out, or ask for another year"),
        )
    pages = RaisingSheet(work, sheet, today or dt.date.today())
    stream = io.BytesIO()
    with new_canvas(stream, sheet, pages.title) as canvas:
        pen = Pen(canvas)
        for number in range(len(pages.pages)):
            for words in pages.begins.get(number, ()):
                canvas.bookmark(words)
            draw_page(pen, sheet, pages.pages, number, pages.foot)
            canvas.showPage()
    write_pdf(target, stream.getvalue())


@dataclass(frozen=True)
class RaisingSheet:
    """The pages of a raising sheet.

    Attributes
    ----------
    work : RaisingWork
    paper : Paper
    today : date
        Day of printing.
    """

    work: RaisingWork
    paper: Paper
    today: dt.date

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.work.plan

    @property
    def title(self) -> str:
        """Of the document."""
        site = self.plan.garden.site
        return say("{garden}: raising {season}", garden=site.name, season=season(site, self.plan.year))

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        return Foot.of(self.paper, self.title, self.today, check=False)

    @property
    def _room(self) -> float:
        return self.paper.height - self.paper.top - self.paper.bottom - self.foot.height

    @cached_property
    def _parts(self) -> list[tuple[str, list[Block]]]:
        """Title and blocks of each part that is kept on a page of its own where it can be: months, then benches."""
        months = [
            (_month_words(month), self._month(list(weeks)))
            for month, weeks in groupby(self.work.weeks, key=lambda week: _month_of(week.monday, self.plan))
        ]
        first = months[0]
        months[0] = (first[0], [*self._opening(), *first[1]])
        last = months[-1]
        months[-1] = (last[0], [*last[1], *self._closing()])
        return months

    @cached_property
    def _laid(self) -> tuple[list[Page], dict[int, list[str]]]:
        """All pages, and the titles of what begins on each, by its number from 0."""
        room = self._room
        pages: list[Page] = []
        begins: dict[int, list[str]] = {}
        free = 0.0
        benches = [
            (self.work.bench_name(one.bench.id), self._bench(one)) for one in self.work.benches.benches
        ]
        for number, (title, blocks) in enumerate([*self._parts, *(one for one in benches if one[1])]):
            tall = sum(block.height for block in blocks)
            if tall <= free and number != len(self._parts):
                begins.setdefault(len(pages) - 1, []).append(title)
                pages[-1] += [gap(6.0), *blocks]
                free -= tall + 6.0
                continue
            begins.setdefault(len(pages), []).append(title)
            pages += paginate(blocks, room, room)
            free = room - sum(block.height for block in pages[-1]) - 6.0
        return pages, begins

    @property
    def pages(self) -> list[Page]:
        """Blocks of each page."""
        return self._laid[0]

    @property
    def begins(self) -> dict[int, list[str]]:
        """Titles of months and benches by the number of the page on which they begin, counted from 0."""
        return self._laid[1]

    # -- the beginning and the end ------------------------------------------------------------

    def _opening(self) -> Iterator[Block]:
        """Title, all containers and the mix of the year, and what marks mean."""
        paper, units = self.paper, self.plan.garden.site.units
        lines = fonts.wrap(self.title, paper.room, _TITLE, "bold")

        def draw(pen: Pen, top: float) -> None:
            with pen.tagged("H1"):
                pen.lines(paper.left, top, lines, _TITLE, "bold")

        yield Block(len(lines) * fonts.line_height(_TITLE) + 1.0, draw, with_next=True)
        parts = raisings(self.plan)
        totals = container_totals(self.plan)
        if totals:
            trays = join_list(number_in_use_words(one.container, one.trays, units) for one in totals)
            yield from paragraph(paper, say("Trays to have: {trays}.", trays=trays))
            yield from paragraph(paper, say(TRAYS_SHARED), style="italic")
            yield from paragraph(paper, say(TRAYS_USED_AGAIN), style="italic")
            yield from paragraph(paper, say("{line}.", line=mix_line(parts, units)))
        for line in nursery_beds(self.plan, parts, units):
            yield from paragraph(paper, say("{line}.", line=line))
        words = say(
            "Days are those planned, {mark} set by hand. Seeds are counted with those that do not come up.",
            mark=BY_HAND,
        )
        yield from paragraph(paper, words, style="italic")
        yield gap(4.0)

    def _closing(self) -> Iterator[Block]:
        """What is not known, cautions and sources."""
        lines = [line for week in self.work.weeks for line in week.lines]
        known = self.plan.garden.plantings_by_id
        parts = raisings(self.plan, [known[key] for key in dict.fromkeys(line.planting for line in lines)])
        missing = dict.fromkeys(
            say("{crop} for {bed}: {line}.", crop=sort_of(part), bed=part.amount.bed.name, line=line)
            for part in parts
            for line in part.missing
        )
        cautions = work_cautions(self.plan, [line.task for line in lines if line.task is not None])
        sources = SheetSources(self.plan)
        sources.add_cautions(cautions)
        for part in parts:
            sources.add_raising(part.planting)
        yield gap(3.0)
        yield from listed_blocks(self.paper, say("Not known"), list(missing))
        yield from caution_blocks(cautions, self.paper)
        yield from sources.blocks(self.paper)

    # -- a month -------------------------------------------------------------------------------

    def _month(self, weeks: Sequence[RaisingWeek]) -> list[Block]:
        words = _month_words(_month_of(weeks[0].monday, self.plan))
        blocks = [self._heading(words)]
        for week in weeks:
            head = self._week_head(week, words)
            rows = [self._row(line, words) for line in week.lines]
            there = self.work.bench_lines(week.monday)
            blocks.append(head)
            blocks += self._rows(self._week_head(week, words, again=True), rows)
            if there:
                benches = say("On the benches, at most: {benches}.", benches="; ".join(there))
                blocks += paragraph(self.paper, benches, inset=_COLUMNS[0], size=SIZE, together=True)
            blocks.append(gap(3.0))
        return blocks

    def _rows(self, head: Block, rows: Sequence[Block]) -> list[Block]:
        """Rows, with the head that they have where they go on on a further page; the last stays with what is said of the benches."""
        repeated = [replace(row, repeat=head) for row in rows]
        return [*repeated[:-1], kept_with_next(repeated[-1])]

    def _heading(self, words: str) -> Block:
        paper = self.paper
        height = fonts.line_height(_MONTH) + _HEADS

        def draw(pen: Pen, top: float) -> None:
            with pen.heading_of_table("H2", words):
                pen.lines(paper.left, top, [words], _MONTH, "bold")
            with pen.heads(words):
                self._draw_heads(pen, top - height + 1.0, told=True)

        return Block(height, draw, with_next=True)

    def _draw_heads(self, pen: Pen, at: float, *, told: bool) -> None:
        """Heads of the columns above a line; those of a further page are not read aloud again."""
        heads = (say("Day"), say("Work"), say("Crop"), say("How many, in what"), say("How"))
        x = self.paper.left + _COLUMNS[0]
        for head, wide in zip(heads, (*_COLUMNS[1:], 0.0), strict=True):
            with pen.head_cell() if told else nullcontext():
                pen.text(x, at + 1.1, head, 8.0, rgb=PENCIL)
            x += wide
        pen.line(self.paper.left, at, self.paper.left + self.paper.room, at, INK, 0.4)

    def _week_head(self, week: RaisingWeek, table: str, *, again: bool = False) -> Block:
        """A week's days, and the mix for it; on a further page that it goes on, with the heads of the columns."""
        paper, sunday = self.paper, shift(week.monday, _SIX_DAYS)
        words = say(
            "{days} · week {number}",
            days=days_in_short(week.monday, sunday),
            number=week.monday.isocalendar().week,
        )
        if again:
            words = say("{week}, continued", week=words)
        mix = show_volume(week.litres, self.plan.garden.site.units)
        right = say("{volume} of mix to fill", volume=mix) if week.litres and not again else ""
        height = fonts.line_height(_WEEK) + 1.6 + (_HEADS if again else 0.0)

        def draw(pen: Pen, top: float) -> None:
            bottom = top - height
            if again:
                top -= _HEADS
                self._draw_heads(pen, top + 1.0, told=False)
            with ExitStack() as told:  # repeated on a further page it is passed over
                if not again:
                    told.enter_context(pen.row(table))
                    told.enter_context(pen.tagged("TH", attributes=f"{ROW_HEAD}/ColSpan 5"))
                pen.lines(paper.left, top - 0.6, [words], _WEEK, "bold")
                pen.lines(paper.left + paper.room, top - 0.6, [right], _WEEK, "bold", align="right")
            pen.line(paper.left, bottom + 0.3, paper.left + paper.room, bottom + 0.3, INK, 0.2)

        return Block(height, draw, with_next=True)

    def _row(self, line: RaisingLine, table: str) -> Block:
        paper = self.paper
        edges = _edges(paper.left, paper.room, _COLUMNS)[1:]
        crop = fonts.wrap(line.crop, edges[2][1] - edges[2][0] - _PAD, SIZE, "bold")
        for_bed = (
            () if line.kind == "set out" else fonts.wrap(line.bed, edges[2][1] - edges[2][0] - _PAD, SIZE)
        )
        before = line.task is not None and line.task.done_before
        done = say("done {day}", day=day(line.done)) if line.done else say("done before") if before else ""
        how = join_done(line.how, done)
        cells = [
            fonts.wrap(words, right - left - _PAD, SIZE, style)
            for (left, right), words, style in zip(
                (edges[0], edges[1], edges[3], edges[4]),
                (line.day_text, capital(line.work), line.number, how),
                ("regular", "bold", "regular", "regular"),
                strict=True,
            )
        ]
        tall = max(len(crop) + len(for_bed), *map(len, cells)) * fonts.line_height(SIZE)
        height = max(_LEAST_ROW, tall + 1.4)

        def draw(pen: Pen, top: float) -> None:
            pen.box(paper.left + 0.4, top - 4.2, BOX_SIDE, BOX_SIDE, weight=0.25)
            if done:
                tick(pen, paper.left + 0.4, top - 4.2, BOX_SIDE)
            with pen.row(table):
                with pen.cell():
                    pen.lines(edges[0][0], top - 0.9, cells[0], SIZE)
                with pen.cell():
                    pen.lines(edges[1][0], top - 0.9, cells[1], SIZE, "bold")
                with pen.cell():
                    below = pen.lines(edges[2][0], top - 0.9, crop, SIZE, "bold")
                    pen.lines(edges[2][0], below, for_bed, SIZE)
                with pen.cell():
                    pen.lines(edges[3][0], top - 0.9, cells[2], SIZE)
                with pen.cell():
                    pen.lines(edges[4][0], top - 0.9, cells[3], SIZE)
            at = top - height
            pen.line(paper.left + _COLUMNS[0], at, paper.left + paper.room, at, FAINT, 0.15)

        return Block(height, draw)

    # -- a bench -------------------------------------------------------------------------------

    def _bench(self, there: BenchDays) -> list[Block]:
        """A bench week by week; nothing where it stays empty."""
        weeks = [week for week in self.work.benches.weeks() if week.bench.id == there.bench.id]
        if not weeks:
            return []
        head = self._bench_head(there.bench.id)
        rows = [replace(self._bench_row(week), repeat=head) for week in weeks]
        return [self._bench_title(there), head, *rows]

    def _bench_title(self, there: BenchDays) -> Block:
        paper = self.paper
        units = self.plan.garden.site.units
        words = capital(self.work.bench_name(there.bench.id))
        under = (
            bench_words(there.bench, units)
            if self.work.entered
            else say("No benches are entered: this is what one would have to hold")
        )
        lines = fonts.wrap(under, paper.room, SIZE)
        height = fonts.line_height(_MONTH) + len(lines) * fonts.line_height(SIZE) + 0.5

        def draw(pen: Pen, top: float) -> None:
            with pen.tagged("H2"):
                below = pen.lines(
                    paper.left, top, fonts.wrap(words, paper.room, _MONTH, "bold")[:1], _MONTH, "bold"
                )
            with pen.tagged("P"):
                pen.lines(paper.left, below, lines, SIZE)

        return Block(height, draw, with_next=True)

    def _bench_head(self, table: str) -> Block:
        paper = self.paper
        heads = (say("Week"), say("Trays, at most"), say("Comes"), say("Stays"), say("Leaves"))

        def draw(pen: Pen, top: float) -> None:
            with pen.heads(table):
                for (left, _), words in zip(_bench_edges(paper), heads, strict=True):
                    with pen.head_cell():
                        pen.text(left, top - 4.2, words, 8.0, rgb=PENCIL)
            pen.line(paper.left, top - 5.4, paper.left + paper.room, top - 5.4, INK, 0.4)

        return Block(5.6, draw, with_next=True)

    def _bench_row(self, week: BenchWeek) -> Block:
        paper, sunday = self.paper, shift(week.monday, _SIX_DAYS)
        comes: list[str] = []
        stays: list[str] = []
        leaves: list[str] = []
        for one in self.work.benches.by_bench.get(week.bench.id, ()):
            if one.first > sunday or one.last < week.monday:
                continue
            if one.first >= week.monday:
                comes.append(self._comes(one))
            if one.last <= sunday:
                leaves.append(self._leaves(one))
            elif one.first < week.monday:
                stays.append(self._name(one))
        trays = say_count("{count} tray", "{count} trays", week.trays)
        if self.work.entered:
            trays = say("{count} of {room}", count=week.trays, room=week.capacity)
            if week.free_trays < 0:
                trays = say("{trays}: {more} too many", trays=trays, more=-week.free_trays)
        texts = (
            days_in_short(week.monday, sunday),
            trays,
            *(capital("; ".join(dict.fromkeys(words))) for words in (comes, stays, leaves)),
        )
        edges = _bench_edges(paper)
        cells = [
            fonts.wrap(words, right - left - _PAD, SIZE, _bench_style(column))
            for column, (words, (left, right)) in enumerate(zip(texts, edges, strict=True))
        ]
        height = max(_LEAST_ROW, max(map(len, cells)) * fonts.line_height(SIZE) + 1.4)

        def draw(pen: Pen, top: float) -> None:
            with pen.row(week.bench.id):
                for column, (lines, (left, _)) in enumerate(zip(cells, edges, strict=True)):
                    with pen.cell():
                        pen.lines(left, top - 0.9, lines, SIZE, _bench_style(column))
            pen.line(paper.left, top - height, paper.left + paper.room, top - height, FAINT, 0.15)

        return Block(height, draw)

    def _name(self, one: Standing) -> str:
        return self.work.crop_of(one.planting)

    def _comes(self, one: Standing) -> str:
        trays = filled_words(one.container, one.number, self.plan.garden.site.units)
        return say(
            "{crop}, {trays}, {day}",
            crop=self._name(one),
            trays=trays,
            day=day_words(one.first, self.plan.year),
        )

    def _leaves(self, one: Standing) -> str:
        return say("{crop}, {day}", crop=self._name(one), day=day_words(shift(one.last, 1), self.plan.year))


def join_done(how: str, done: str) -> str:
    """How it is done, and when it was, where it was."""
    return say("{how}; {done}", how=how, done=done) if how and done else how or done


def _month_of(monday: dt.date, plan: Plan) -> tuple[int, int]:
    """Year and month in which most of a week lies, within the growing year."""
    middle = min(max(shift(monday, 3), plan.span.first), plan.span.last)
    return middle.year, middle.month


def _month_words(month: tuple[int, int]) -> str:
    return say("{month} {year}", month=month_words(month[1]), year=month[0])


def _edges(left: float, room: float, columns: Sequence[float]) -> list[tuple[float, float]]:
    """Left and right edge of each column, the last up to the margin. [mm]"""
    edges, x = [], left
    for wide in (*columns, room - sum(columns)):
        edges.append((x, x + wide))
        x += wide
    return edges


def _bench_edges(paper: Paper) -> list[tuple[float, float]]:
    return _edges(paper.left, paper.room, _BENCH_COLUMNS)


def _bench_style(column: int) -> fonts.Style:
    return "bold" if column == 1 else "regular"
