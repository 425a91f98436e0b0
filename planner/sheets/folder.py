"""A folder of everything: each kind of sheet, all tables, the calendar, the map, the plan and the pocket page, each a file of its own."""

from __future__ import annotations

import datetime as dt
import io
import os
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from planner.errors import BedwrightError
from planner.listings.all_tables import TABLES, columns_of, table_of
from planner.listings.export_files import (
    CALENDAR,
    GEOJSON,
    PDF,
    POCKET_PAGE,
    SVG,
    WORKBOOK,
    ExportError,
    ExportKind,
    export_target,
    table_kind,
    write_export,
)
from planner.listings.workbook import Table
from planner.plan import Plan
from planner.plan.fullest_day import fullest_day
from planner.sheets.kinds import SHEET_KINDS, SheetKind, SheetWish, write_sheets
from planner.sheets.output import SheetError
from planner.sheets.pocket_page import pocket_page
from planner.words import say

#: Name of the file of each kind of sheets.
_NAMES: dict[SheetKind, str] = {
    "bed": "bed-sheets.pdf",
    "week": "week-sheets.pdf",
    "year": "year.pdf",
    "raising": "raising.pdf",
    "map": "map.pdf",
    "walk": "walk.pdf",
    "water": "watering.pdf",
    "shopping": "shopping-list.pdf",
    "labels": "labels.pdf",
    "weather": "weather.pdf",
}
_STRIP, _WORKBOOK, _CALENDAR, _GROUND, _PLAN, _POCKET = (
    "map-four-days.pdf",
    "tables.xlsx",
    "work.ics",
    "ground.geojson",
    "plan.svg",
    "pocket.html",
)


@dataclass(frozen=True)
class FolderFile:
    """A file of the folder, as it turned out.

    Attributes
    ----------
    name : str
    why_not : str
        Why it is not written, in a sentence without its full stop; empty where it is.
    """

    name: str
    why_not: str = ""


@dataclass(frozen=True)
class FolderWish:
    """How the folder is wanted: a paper, bed sheets with tints or without, and the day of walk and map.

    The day is the present one where the growing year holds it, else the one with most planted, where not given.
    """

    paper: str = "a4"
    tint: bool = False
    day: dt.date | None = None


@dataclass(frozen=True)
class _Wanted:
    name: str
    kind: ExportKind
    make: Callable[[], str | bytes]


def write_folder(
    plan: Plan,
    folder: str | os.PathLike[str],
    wish: FolderWish,
    today: dt.date,
    progress: Callable[[int, int], None] | None = None,
) -> tuple[FolderFile, ...]:
    """Write everything into a folder, which is made where there is none.

    All is made before the first file is written.  No file is written over one of another kind.

    Parameters
    ----------
    plan : Plan
    folder : path
    wish : FolderWish
    today : date
        Day of printing.
    progress : callable, optional
        Called as ``progress(done, all)`` after each file is made; may raise to stop the work, and nothing is written then.

    Returns
    -------
    tuple of FolderFile
        Those that are written, and those of which there is nothing to write, in one order.

    Raises
    ------
    ExportError
        Where a file of another kind is in the way, or the folder is a file.
    OSError
        Where the folder cannot be made or written.
    """
    path = Path(folder)
    if path.exists() and not path.is_dir():
        raise ExportError(say("is a file and no folder"), os.fspath(folder), say("Name a folder"))
    made: list[tuple[_Wanted, str | bytes | None, str]] = []

    def within(_done: int, _all: int) -> None:
        """A step within a file: the work may stop there."""
        if progress is not None:
            progress(len(made), len(wanted))

    wanted = list(_wanted(plan, wish, today, within))
    if path.is_dir():
        for one in wanted:
            export_target(path / one.name, one.kind)
    for number, one in enumerate(wanted, 1):
        try:
            made.append((one, one.make(), ""))
        except BedwrightError as error:
            made.append((one, None, error.what))
        if progress is not None:
            progress(number, len(wanted))
    path.mkdir(exist_ok=True)
    for one, content, _ in made:
        if content is not None:
            write_export(content, path / one.name, one.kind)
    return tuple(FolderFile(one.name, why) for one, _, why in made)


def _wanted(
    plan: Plan, wish: FolderWish, today: dt.date, within: Callable[[int, int], None]
) -> Iterator[_Wanted]:
    day = wish.day or (today if plan.span.holds(today) else fullest_day(plan))
    for kind in SHEET_KINDS:
        sheets = SheetWish(kind, day=day, paper=wish.paper, tint=wish.tint)
        yield _Wanted(_NAMES[kind], PDF, _sheets(plan, sheets, today, within))
    strip = SheetWish("map", day=day, strip=True, paper=wish.paper)
    yield _Wanted(_STRIP, PDF, _sheets(plan, strip, today, within))
    found: dict[str, Table] = {}

    def table(name: str) -> Table:
        if name not in found:
            found[name] = table_of(plan, name, lambda: within(0, 0))
        return found[name]

    yield _Wanted(_WORKBOOK, WORKBOOK, lambda: _workbook([table(name) for name in TABLES]))
    for name in TABLES:
        yield _Wanted(f"{name}.csv", table_kind(columns_of(name)), _csv(table, name))
    yield _Wanted(_CALENDAR, CALENDAR, lambda: _calendar(plan))
    yield _Wanted(_GROUND, GEOJSON, lambda: _ground(plan))
    yield _Wanted(_PLAN, SVG, lambda: _plan(plan, day, wish.paper))
    yield _Wanted(_POCKET, POCKET_PAGE, lambda: _pocket(plan, today))


def _sheets(
    plan: Plan, wish: SheetWish, today: dt.date, within: Callable[[int, int], None]
) -> Callable[[], bytes]:
    def make() -> bytes:
        stream = io.BytesIO()
        write_sheets(plan, stream, wish, today, within)
        return stream.getvalue()

    return make


def _workbook(tables: list[Table]) -> bytes:
    from planner.listings.workbook import workbook_of

    return workbook_of(tables)


def _csv(table: Callable[[str], Table], name: str) -> Callable[[], str]:
    def make() -> str:
        from planner.listings.tables import csv_text

        found = table(name)
        return csv_text(found.rows, found.columns)

    return make


def _calendar(plan: Plan) -> bytes:
    from planner.amounts.work import work_between
    from planner.listings.calendar import calendar

    found = work_between(plan)
    if not found:
        raise SheetError(say("no work falls in {year}", year=plan.year))
    return calendar(plan, found)


def _ground(plan: Plan) -> str:
    from planner.listings.reports.ground_map import map_report, map_text

    return map_text(map_report(plan))


def _plan(plan: Plan, day: dt.date, paper: str) -> str:
    from planner.sheets.plan_files import plan_svg
    from planner.sheets.plan_page import plan_page

    return plan_svg(plan_page(plan, day, paper=paper))


def _pocket(plan: Plan, today: dt.date) -> str:
    if not plan.beds:
        raise SheetError(say("there is no bed in {year}", year=plan.year))
    return pocket_page(plan, today)
