"""The garden map: the plan to scale, on a day, on several or as a poster, and what grows where over the year, by crop and by bed."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Sequence
from typing import BinaryIO

from planner.garden import Planting
from planner.garden.edits.year_notes import year_note
from planner.listings.nothing_to_draw import NothingToDrawError
from planner.listings.phrases import days_in_short
from planner.listings.record_words import lesson_lines
from planner.plan import Plan
from planner.plan.recorded import lessons_in_plan
from planner.sheets import fonts
from planner.sheets.flow import Block, gap, paginate
from planner.sheets.fonts import MM
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Foot, Paper, draw_pages, paper_named
from planner.sheets.pen import FAINT, INK, Pen
from planner.sheets.plan_page import plan_page
from planner.sheets.plan_strip import StripDay, strip_page
from planner.sheets.poster import Poster, PosterWish, make_poster
from planner.sheets.tagging_pen import ROW_HEAD
from planner.sheets.text_blocks import heading, note_and_lessons
from planner.words import capital, day_words, join_list, say

#: Width of the column of names, and space beside it. [mm]
_NAMES, _GAP = 52.0, 3.0
#: Size of text, and of headings. [points]
_SIZE, _HEADING = 9.0, 12.0

Entry = tuple[str, str]


def write_map_sheet(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    on: dt.date,
    paper: str = "a4",
    printed: dt.date | None = None,
    strip: Sequence[StripDay] = (),
    poster: PosterWish | None = None,
) -> None:
    """Write the garden map of a day as PDF: a page with the plan, then the index of the growing year.

    In the place of that page, the plan on several days side by side, or a poster over several pages, which has no index.

    The same plan, day and paper give the same bytes.  A path is written whole or not at all.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    on : date
        Of what is drawn.
    paper : {"a4", "a3", "letter"}
    printed : date, optional
        Day of printing; the present day by default.
    strip : sequence of StripDay, optional
        Days that are drawn side by side.
    poster : PosterWish, optional

    Raises
    ------
    PosterError
        Where a poster would have too many pages.
    SheetError
        Where there is nothing to draw, or a path cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    sheet, printed = paper_named(paper), printed or dt.date.today()
    name = plan.garden.site.name
    try:
        if poster is not None:
            _write_poster(target, make_poster(plan, on, poster, sheet, printed), name)
            return
        page = strip_page(plan, strip, paper) if strip else plan_page(plan, on, paper=paper)
    except NothingToDrawError as error:
        raise SheetError(error.what, error.where, error.fix) from None
    foot = Foot.of(sheet, say("{garden}, index of {year}", garden=name, year=plan.year), printed, check=False)
    room = sheet.height - sheet.top - sheet.bottom - foot.height
    blocks = [
        *_index(sheet, say("What grows where"), by_crop(plan)),
        gap(6.0),
        *_index(sheet, say("Bed by bed"), by_bed(plan)),
    ]
    notes = year_note_blocks(plan, sheet)
    pages = (
        paginate([*notes, *blocks] if by_crop(plan) else notes, room, room) if notes or by_crop(plan) else []
    )
    stream = io.BytesIO()
    title = page.title if strip else say("{garden}: map of {day}", garden=name, day=day_words(on))
    with new_canvas(stream, sheet, title) as canvas:
        pen = Pen(canvas)
        canvas.setPageSize((page.width * MM, page.height * MM))
        canvas.bookmark(say("Map"))
        with pen.tagged("Figure", alt=page.words):
            page.draw(pen)
        canvas.showPage()
        canvas.setPageSize((sheet.width * MM, sheet.height * MM))
        draw_pages(canvas, pen, sheet, pages, foot)
    write_pdf(target, stream.getvalue())


def year_note_blocks(plan: Plan, paper: Paper) -> list[Block]:
    """The notes on the growing year, and the lessons of the garden; nothing without them.

    Parameters
    ----------
    plan : Plan
    paper : Paper
    """
    blocks = note_and_lessons(paper, year_note(plan.garden, plan.year), lesson_lines(lessons_in_plan(plan)))
    if not blocks:
        return []
    return [heading(paper, say("Notes on {year}", year=plan.year)), *blocks, gap(6.0)]


def _write_poster(target: BinaryIO | str | os.PathLike[str], poster: Poster, name: str) -> None:
    stream = io.BytesIO()
    with new_canvas(stream, poster.paper, say("{garden}: poster", garden=name)) as canvas:
        pen = Pen(canvas)
        for number in range(poster.count):
            words = say("Page {letter}", letter=poster.letters[number])
            canvas.bookmark(words)
            shown = say("{page}. {plan}", page=words, plan=poster.page.words)
            with pen.tagged("Figure", alt=shown):
                poster.draw(pen, number)
            canvas.showPage()
    write_pdf(target, stream.getvalue())


def by_crop(plan: Plan) -> list[Entry]:
    """Each crop and variety of the growing year with its beds and days, in alphabetical order."""
    found: dict[str, list[str]] = {}
    for bed in plan.beds:
        for planting in plan.in_bed(bed):
            words = say("{bed}, {days}", bed=bed.name, days=_days(plan, planting))
            found.setdefault(_name(plan, planting), []).append(words)
    return [(name, join_list(found[name])) for name in sorted(found, key=str.casefold)]


def by_bed(plan: Plan) -> list[Entry]:
    """Each bed of the growing year with what grows in it and when, in the garden's order."""
    found = []
    for bed in plan.beds:
        plantings = sorted(plan.in_bed(bed), key=lambda one: plan.span_of(one).first)
        words = [say("{crop}, {days}", crop=_name(plan, one), days=_days(plan, one)) for one in plantings]
        found.append((bed.name, join_list(words) if words else say("nothing")))
    return found


def _name(plan: Plan, planting: Planting) -> str:
    name = capital(plan.catalogue.name_of(planting.crop))
    return say("{crop} ‘{variety}’", crop=name, variety=planting.variety) if planting.variety else name


def _days(plan: Plan, planting: Planting) -> str:
    """Days on its plot, within the growing year and a year about it."""
    span = plan.span_of(planting)
    far = dt.timedelta(days=366)
    if span.first < plan.span.first - far or span.last > plan.span.last + far:
        return say("for years")
    return days_in_short(span.first, span.last)


def _index(paper: Paper, title: str, entries: Sequence[Entry]) -> list[Block]:
    high = fonts.line_height(_HEADING) + 3.0

    def head(pen: Pen, top: float) -> None:
        pen.bookmark(title, top)
        with pen.tagged("H1"):
            pen.lines(paper.left, top, [title], _HEADING, "bold")
        pen.line(paper.left, top - high + 1.5, paper.left + paper.room, top - high + 1.5, INK, 0.35)

    return [Block(high, head, with_next=True), *(_entry(paper, one) for one in entries)]


def _entry(paper: Paper, entry: Entry) -> Block:
    names = fonts.wrap(entry[0], _NAMES, _SIZE, "bold")
    words = fonts.wrap(entry[1], paper.room - _NAMES - _GAP, _SIZE)
    height = max(len(names), len(words)) * fonts.line_height(_SIZE) + 1.2

    def draw(pen: Pen, top: float) -> None:
        with pen.row("index"):
            with pen.tagged("TH", attributes=ROW_HEAD):
                pen.lines(paper.left, top - 0.4, names, _SIZE, "bold")
            with pen.cell():
                pen.lines(paper.left + _NAMES + _GAP, top - 0.4, words, _SIZE)
        pen.line(paper.left, top - height, paper.left + paper.room, top - height, FAINT, 0.15)

    return Block(height, draw)
