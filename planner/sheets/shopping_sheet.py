"""The shopping list on paper: what to get, by which day and where, with boxes to tick, grouped by kind."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import groupby
from typing import BinaryIO

from planner.amounts.shopping import Shopping, shopping
from planner.amounts.shopping_items import Item
from planner.listings.materials import day_cell
from planner.listings.shopping import closing_lines
from planner.listings.shopping_words import (
    GROUP_WORDS,
    amount_words,
    item_words,
    note_words,
    pack_list,
    price_words,
    shops_words,
    sum_words,
    to_buy_words,
)
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_pages, paper_named
from planner.sheets.pen import FAINT, INK, PENCIL, Pen
from planner.sheets.text_blocks import paragraph
from planner.words import join_list, later, say

#: Size of all rows. [points]
_SIZE = 9.0
#: Widths of the columns for box, day, what, how much, packs and price; where to get it takes what is left. [mm]
_COLUMNS = (6.0, 21.5, 37.5, 30.0, 41.5, 15.5)
#: Headings of those from how much on; day and what need none.
_HEADS = (later("To buy"), later("Get"), later("Price"), later("Where"))
#: Which columns are set to the right, which bold, counted without the box.
_RIGHT, _BOLD = (2, 4), (0, 1)
#: Space between columns, least height of a row, side of its box. [mm]
_CELL_PAD, _LEAST_ROW, _BOX_SIDE = 2.0, 6.0, 3.2


def write_shopping_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    paper: str = "a4",
    today: dt.date | None = None,
) -> None:
    """Write the shopping list of a growing year as a PDF.

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
        Where nothing is to be bought or on its way, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    sheet = paper_named(paper)
    found = shopping(plan)
    if not found.to_buy and not found.awaited:
        raise SheetError(
            say("nothing is to be bought for {year}", year=plan.year),
            plan.garden.site.name,
            say("Ask for another year"),
        )
    pages = ShoppingSheet(plan, found, sheet, today or dt.date.today())
    stream = io.BytesIO()
    with new_canvas(stream, sheet, pages.title) as canvas:
        draw_pages(canvas, Pen(canvas), sheet, pages.pages, pages.foot)
    write_pdf(target, stream.getvalue())


@dataclass(frozen=True)
class ShoppingSheet:
    """The pages of a shopping list.

    Attributes
    ----------
    plan : Plan
    found : Shopping
    paper : Paper
    today : date
        Day of printing.
    """

    plan: Plan
    found: Shopping
    paper: Paper
    today: dt.date

    @property
    def title(self) -> str:
        """Of the document, and of every page."""
        return say("{garden}, to buy for {year}", garden=self.plan.garden.site.name, year=self.plan.year)

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        return Foot.of(self.paper, self.title, self.today, check=False)

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page."""
        room = self.paper.height - self.paper.top - self.paper.bottom - self.foot.height
        return paginate(list(self._blocks()), room, room)

    def _blocks(self) -> Iterator[Block]:
        lines = fonts.wrap(self.title, self.paper.room, 16.0, "bold")

        def draw(pen: Pen, top: float) -> None:
            with pen.tagged("H1"):
                pen.lines(self.paper.left, top, lines, 16.0, "bold")

        yield Block(len(lines) * fonts.line_height(16.0) + 1.0, draw)
        shown = [one for one in self.found.items if one.status != "on hand"]
        for group, items in groupby(shown, key=lambda one: one.group):
            head = self._head(say(GROUP_WORDS[group]))
            yield replace(head, with_next=True)
            by_day = sorted(items, key=lambda one: one.by or dt.date.min)
            for one in by_day:
                yield replace(self._row(one), repeat=head)
            yield gap(2.2)
        total = sum_words(self.found)
        if total:
            yield from paragraph(self.paper, total, style="bold", size=_SIZE + 1)
        for line in (*closing_lines(self.found)[bool(total) :], *self._estimates()):
            yield gap(0.6)
            yield from paragraph(self.paper, line, size=_SIZE)

    def _estimates(self) -> list[str]:
        """What is ordered in sizes that no one has looked up."""
        of = dict.fromkeys(item_words(self.plan, one) for one in self.found.to_buy if one.estimated)
        if not of:
            return []
        return [say("Sizes are an estimate for {materials}: ask what is sold", materials=join_list(of))]

    def _head(self, words: str) -> Block:
        """A group's heading and those of its columns."""
        paper = self.paper
        height = 5.6

        def draw(pen: Pen, top: float) -> None:
            base = top - 3.9
            pen.bookmark(words, top, once=words)
            with pen.heading_of_table("H2", words):
                pen.text(paper.left, base, words, 10.0, "bold")
            taken = paper.left + fonts.width(words, 10.0, "bold") + 3.0
            unnamed = len(self._edges) - len(_HEADS)
            with pen.heads(words):
                for _ in range(unnamed):
                    pen.empty_cell()
                for column, (left, right) in enumerate(self._edges[unnamed:], start=unnamed):
                    label = say(_HEADS[column - unnamed])
                    at = right - _CELL_PAD - fonts.width(label, 8.0) if column in _RIGHT else left
                    with pen.head_cell():
                        if at >= taken:
                            pen.text(at, base, label, 8.0, rgb=PENCIL)
            pen.line(paper.left, top - height + 0.4, paper.left + paper.room, top - height + 0.4, INK, 0.3)

        return Block(height, draw)

    @cached_property
    def _edges(self) -> list[tuple[float, float]]:
        """Left and right edge of each column behind the box. [mm]"""
        edges, left = [], self.paper.left + _COLUMNS[0]
        for wide in (*_COLUMNS[1:], self.paper.room - sum(_COLUMNS)):
            edges.append((left, left + wide))
            left += wide
        return edges

    def _cells(self, one: Item) -> Sequence[str]:
        """The cells of a line; of several packs a line each."""
        get = "\n".join(pack_list(self.plan, one))
        if one.status == "ordered":
            get = say("{amount} ordered", amount=amount_words(self.plan, one, one.ordered))
        to_buy = to_buy_words(self.plan, one) if one.to_buy != 0 else ""
        where, note = shops_words(one), note_words(self.plan, one)
        if note:
            where = say("{where} ({note})", where=where, note=note) if where else note
        return (
            say("by {day}", day=day_cell(one.by, self.plan)) if one.by is not None else "",
            item_words(self.plan, one),
            to_buy,
            get if get != to_buy else "",  # single ones are as many as are to be bought
            price_words(one.price, self.found.currency) if one.price is not None else "",
            where,
        )

    def _row(self, one: Item) -> Block:
        paper = self.paper
        wrapped = [
            fonts.wrap(cell, right - left - _CELL_PAD, _SIZE, _style(column))
            for column, (cell, (left, right)) in enumerate(zip(self._cells(one), self._edges, strict=True))
        ]
        height = max(_LEAST_ROW, max(map(len, wrapped)) * fonts.line_height(_SIZE) + 1.8)

        def draw(pen: Pen, top: float) -> None:
            pen.box(paper.left + 0.4, top - 4.5, _BOX_SIDE, _BOX_SIDE, weight=0.25)
            with pen.row(say(GROUP_WORDS[one.group])):
                for column, (lines, (left, right)) in enumerate(zip(wrapped, self._edges, strict=True)):
                    with pen.cell():
                        if column in _RIGHT:
                            edge = right - _CELL_PAD
                            pen.lines(edge, top - 1.0, lines, _SIZE, _style(column), align="right")
                        else:
                            pen.lines(left, top - 1.0, lines, _SIZE, _style(column))
            pen.line(paper.left, top - height, paper.left + paper.room, top - height, FAINT, 0.15)

        return Block(height, draw)


def _style(column: int) -> fonts.Style:
    return "bold" if column in _BOLD else "regular"
