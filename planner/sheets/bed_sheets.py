"""Bed sheets: a PDF with one sheet for each bed and growing year."""

from __future__ import annotations

import datetime as dt
import io
import os
import sys
from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from typing import Any, BinaryIO, Literal
from weakref import WeakKeyDictionary

from planner.checks import Finding, check_all
from planner.errors import BedwrightError
from planner.garden import Bed
from planner.garden.named_beds import beds_called
from planner.listings.phrases import season
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.bed_pages import BedPages, season_words
from planner.sheets.output import SheetError, new_canvas, write_pdf
from planner.sheets.page_chrome import Paper, paper_named
from planner.sheets.pen import Pen
from planner.sheets.sheet_sources import SheetSources, draw_source_pages
from planner.sheets.sheet_year import SheetYear
from planner.words import join_list, say

#: Whether sources are printed.
Sources = Literal["with", "without", "alone"]

#: Beds named in the complaint about an unknown one.
_MOST_NAMED = 12


def write_bed_sheets(
    plan: Plan,
    target: BinaryIO | str | os.PathLike[str],
    beds: Iterable[str | Bed] | None = None,
    paper: str = "a4",
    today: dt.date | None = None,
    progress: Callable[[int, int], None] | None = None,
    *,
    tint: bool = False,
    sources: Sources = "with",
) -> None:
    """Write the sheets of some beds as one PDF; beds in which nothing stands in the growing year are left out.

    The same plan, beds, paper and day give the same bytes.  A path is written whole or not at all:
    into a temporary file beside it, which then takes its place.

    Parameters
    ----------
    plan : Plan
    target : path or binary stream
    beds : iterable of str or Bed, optional
        Beds, or their ids or names; all beds in use by default, in the document's order.
    paper : {"a4", "a3", "letter"}
    today : date, optional
        Day of printing, on every page; the present day by default.
    progress : callable, optional
        Called as ``progress(done, all)`` after each bed; may raise to stop the work, and nothing is
        written then.
    tint : bool
        Tint and hatch plots by family; black on white without.
    sources : {"with", "without", "alone"}
        Whether the sources are printed at the end, or nothing but them: sheets may be made bed by bed.

    Raises
    ------
    SheetError
        For an unknown bed, a garden without beds, beds without a planting, or a path that cannot be written.
    UnknownPaperError
        For an unknown paper.
    """
    sheet = paper_named(paper)
    chosen = _chosen_beds(plan, beds)
    planted = [bed for bed in chosen if plan.in_bed(bed)]
    if not planted:
        raise _nothing_planted(plan, chosen if beds is not None else ())
    year = SheetYear(plan)
    write_pdf(target, _pdf(year, planted, sheet, today or dt.date.today(), progress, tint, sources))


def _nothing_planted(plan: Plan, beds: Sequence[Bed]) -> SheetError:
    """The complaint that nothing stands in some beds, or in any where none are named."""
    year = season(plan.garden.site, plan.year)
    if beds:
        names = join_list(bed.name for bed in beds[:_MOST_NAMED])
        what = say("nothing is planted in {beds} in {year}", beds=names, year=year)
    else:
        what = say("nothing is planted in {year}", year=year)
    years = join_list(map(str, plan.garden.years()))
    mend = say("Years with plantings: {years}", years=years) if years else say("Plant something first")
    return SheetError(what, plan.garden.site.name, mend)


def _chosen_beds(plan: Plan, chosen: Iterable[str | Bed] | None) -> tuple[Bed, ...]:
    """The beds that are meant, each once; all in use where none are named."""
    if chosen is None:
        if not plan.beds:
            raise SheetError(
                say("no bed is in use in {year}", year=plan.year),
                plan.garden.site.name,
                say("Draw a bed first"),
            )
        return plan.beds
    found: dict[str, Bed] = {}
    unknown = []
    for given in chosen:
        if isinstance(given, str):
            beds = beds_called(plan.garden.beds, given)
        else:
            beds = [bed for bed in plan.garden.beds if bed.id == given.id]
        if not beds:
            unknown.append(given if isinstance(given, str) else given.id)
        found.update({bed.id: bed for bed in beds})
    if unknown:
        some = ", ".join(f"'{bed.name}'" for bed in plan.garden.beds[:_MOST_NAMED])
        listed = " and ".join(f"'{name}'" for name in unknown)
        raise SheetError(
            say("no bed {listed}", listed=listed),
            plan.garden.site.name,
            say("Its beds are {some}", some=some) if some else "",
        )
    if not found:
        raise SheetError(
            say("no bed was named"), fix=say("Name one bed at least, or leave the names out for all")
        )
    return tuple(found.values())


def _pdf(
    year: SheetYear,
    beds: Sequence[Bed],
    paper: Paper,
    today: dt.date,
    progress: Callable[[int, int], None] | None,
    tint: bool,
    sources: Sources,
) -> bytes:
    stream, plan = io.BytesIO(), year.plan
    name, days = plan.garden.site.name, season(plan.garden.site, plan.year)
    title = say("{garden}: bed sheets {year}", garden=name, year=days)
    on_last = len(beds) == 1 and sources == "with"
    with new_canvas(stream, paper, title) as canvas:
        pen = Pen(canvas)
        findings = _findings(plan) if sources != "alone" else ()
        for done, bed in enumerate(beds if sources != "alone" else (), 1):
            canvas.bookmark(bed.name)
            try:
                _draw_bed(canvas, pen, BedPages(year, bed, paper, today, findings, tint, on_last))
            except BedwrightError:
                raise
            except Exception as fault:
                sys.excepthook(type(fault), fault, fault.__traceback__)
                _draw_failed(pen, paper, bed, fault)
                canvas.showPage()
            if progress is not None:
                progress(done, len(beds))
        if sources == "alone" or (sources == "with" and not on_last):
            found = SheetSources(plan)
            for bed in beds:
                found.add_bed(bed)
            draw_source_pages(canvas, pen, found, paper, f"{name} · {season_words(plan)}", today)
    return stream.getvalue()


#: Findings of plans that are still in use: the sheets of a large garden may be made bed by bed, and each looks at all of
#: them.  Without what works out their fixes, which would hold on to their plan.
_KNOWN: WeakKeyDictionary[Plan, tuple[Finding, ...]] = WeakKeyDictionary()


def _nothing(*_: object) -> tuple[()]:
    return ()


def _findings(plan: Plan) -> tuple[Finding, ...]:
    """All findings of a plan, which never changes."""
    found = _KNOWN.get(plan)
    if found is None:
        found = _KNOWN[plan] = tuple(
            replace(one, candidates=_nothing, find_fixes=_nothing) for one in check_all(plan)
        )
    return found


def _draw_bed(canvas: Any, pen: Pen, pages: BedPages) -> None:
    for number in range(len(pages.pages)):
        try:
            pages.draw(pen, number)
        finally:
            canvas.showPage()  # half a page too: what stops it is said on the next


def _draw_failed(pen: Pen, paper: Paper, bed: Bed, fault: Exception) -> None:
    """A page in place of a sheet that a fault of the program keeps from being made: the others are printed."""
    name = type(fault).__name__
    text = say(
        "The sheet of {bed} could not be made ({fault}); the other sheets hold.", bed=bed.name, fault=name
    )
    lines = fonts.wrap(text, paper.room, 14.0, "bold")
    with pen.tagged("P"):
        pen.lines(paper.left, paper.height - paper.top, lines, 14.0, "bold")
