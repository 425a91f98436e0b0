"""Commands that write files and print: bed sheets, week sheets, the calendar and the amounts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QWidget

from planner.desk.main_window.files import Files
from planner.desk.main_window.long_work import LongWork, Progress, StoppedError
from planner.desk.main_window.prompts import Prompts
from planner.desk.model.document import Document
from planner.desk.model.own_plan import own_plan
from planner.desk.model.phrases import cannot_be_written
from planner.errors import BedwrightError
from planner.words import say, say_count

if TYPE_CHECKING:
    from planner.sheets.kinds import SheetKind, SheetWish


def paper_of(document: Document) -> str:
    """Letter where the garden counts in feet, else A4."""
    return "letter" if document.garden.site.units == "feet_inches" else "a4"


class Exports:
    """Writing the garden to paper and files.

    Parameters
    ----------
    window : QWidget
        Parent of the dialogs.
    document : Document
    prompts : Prompts
    files : Files
        Suggests the names of new files.
    say : callable
        Shows a line in the status bar.

    Attributes
    ----------
    made : callable
        Called when sheets were written or printed.
    """

    def __init__(
        self,
        window: QWidget,
        document: Document,
        prompts: Prompts,
        files: Files,
        say: Callable[[str], None],
    ) -> None:
        self._window, self._document = window, document
        self._prompts, self._files, self._say = prompts, files, say
        self._long_work = LongWork(window)
        self.made: Callable[[], object] = lambda: None

    # -- sheets -----------------------------------------------------------------------------

    def sheets(self, wish: SheetWish) -> bool:
        """Write sheets to a PDF that the person names."""
        from planner.sheets.kinds import title_of, write_sheets

        title, plan = title_of(wish.kind), self._document.plan
        target = self._ask_for_target(".pdf", say("PDF (*.pdf)"), say("{sheets} as PDF", sheets=title), title)
        if target is None:
            return False
        written = self._write(
            target,
            lambda progress: write_sheets(plan, target, wish, dt.date.today(), progress),
            say("{sheets} written to {file}", sheets=title, file=str(target)),
        )
        if written:
            self.made()
            self._show(target)
        return written

    def calibration(self, wish: SheetWish) -> bool:
        """Write a page that shows where labels will lie, to a PDF that the person names."""
        from planner.sheets.kinds import USUAL_LABELS
        from planner.sheets.label_formats import label_format
        from planner.sheets.label_sheets import write_calibration

        title = say("Calibration of labels")
        target = self._ask_for_target(".pdf", say("PDF (*.pdf)"), title, title)
        if target is None:
            return False
        form = label_format(wish.labels or USUAL_LABELS[wish.paper])
        done = say("{sheets} written to {file}", sheets=title, file=str(target))
        written = self._write(target, lambda _progress: write_calibration(target, form, wish.shift), done)
        if written:
            self._show(target)
        return written

    def _wish(self, kind: SheetKind, beds: Sequence[str] | None = None) -> SheetWish:
        from planner.sheets.kinds import SheetWish

        return SheetWish(kind, tuple(beds) if beds is not None else None, paper=paper_of(self._document))

    def bed_sheets(self, beds: Sequence[str] | None = None) -> bool:
        """Write bed sheets, of all beds or of some by id, to a PDF that the person names."""
        if not self._document.plan.beds:
            self._say(say("There is no bed yet to make a sheet of"))
            return False
        return self.sheets(self._wish("bed", beds))

    def sheets_of_selected_beds(self) -> bool:
        """Write sheets of the selected beds, and of those that the selected plantings are in."""
        document = self._document
        beds = list(document.selected_beds)
        beds += [document.garden.plantings_by_id[key].bed for key in document.selected_plantings]
        return self.bed_sheets(list(dict.fromkeys(beds)))

    def week_sheets(self) -> bool:
        """Write the growing year's work week by week to a PDF that the person names."""
        return self.sheets(self._wish("week"))

    def shopping_list(self) -> bool:
        """Write the growing year's shopping list to a PDF that the person names."""
        return self.sheets(self._wish("shopping"))

    def print_sheets(self, wish: SheetWish | None = None) -> bool:
        """Print sheets at their true scale; the bed sheets where none are named."""
        from planner.desk.main_window.printing import print_wished

        if not self._document.plan.beds:
            self._say(say("There is no bed yet to print a sheet of"))
            return False
        message = print_wished(self._window, self._document.plan, wish or self._wish("bed"), self._long_work)
        if message.text:
            self._say(message.text)
        if message.printed:
            self.made()
        return message.printed

    def everything(self) -> bool:
        """Write all sheets, tables, calendar, ground and plan into a folder that the person names."""
        from planner.sheets.folder import FolderFile, FolderWish, write_folder

        start = str(Path(self._files.suggestion(".pdf", "")).parent)
        folder = self._prompts.folder(self._window, start, say("Everything into a folder"))
        if not folder:
            return False
        wish = FolderWish(paper_of(self._document))
        # A plan of its own: what the window works out meanwhile is not for another thread.
        plan = own_plan(self._document.plan)
        files: list[FolderFile] = []
        written = self._write(
            Path(folder),
            lambda progress: files.extend(write_folder(plan, folder, wish, dt.date.today(), progress)),
            "",
        )
        if written:
            count = sum(not one.why_not for one in files)
            self._say(
                say_count(
                    "{count} file written to {folder}",
                    "{count} files written to {folder}",
                    count,
                    folder=folder,
                )
            )
            self._show(Path(folder))
        return written

    # -- tables -----------------------------------------------------------------------------

    def calendar_file(self) -> bool:
        """Write the growing year's work as an iCalendar file that the person names."""
        from planner.amounts.tasks import tasks
        from planner.listings.calendar import calendar
        from planner.listings.export_files import CALENDAR, write_export

        target = self._ask_for_target(".ics", say("Calendar (*.ics)"), say("Work as calendar file"))
        if target is None:
            return False
        document = self._document
        return self._write(
            target,
            lambda _progress: write_export(calendar(document.plan, tasks(document.plan)), target, CALENDAR),
            say("Calendar written to {file}; importing it again updates what is there", file=str(target)),
        )

    def amounts_table(self) -> bool:
        """Write the amounts as CSV to a file that the person names."""
        from planner.amounts import amounts
        from planner.listings.export_files import table_kind, write_export
        from planner.listings.reports.amounts import AMOUNT_COLUMNS, amount_rows
        from planner.listings.tables import csv_text

        target = self._ask_for_target(".csv", say("Table (*.csv)"), say("Quantities as table"))
        if target is None:
            return False
        table = csv_text(amount_rows(amounts(self._document.plan)), AMOUNT_COLUMNS)
        return self._write(
            target,
            lambda _progress: write_export(table, target, table_kind(AMOUNT_COLUMNS)),
            say("Quantities written to {file}", file=str(target)),
        )

    def shopping_table(self) -> bool:
        """Write the shopping list as a workbook or CSV to a file that the person names."""
        from planner.listings.export_files import WORKBOOK, table_kind, write_export
        from planner.listings.reports.shopping import SHOPPING_COLUMNS, shopping_rows
        from planner.listings.tables import csv_text
        from planner.listings.workbook import workbook_bytes

        kinds = say("Workbook (*.xlsx);;Table (*.csv)")
        target = self._ask_for_target(".xlsx", kinds, say("Shopping list as table"))
        if target is None:
            return False
        rows = shopping_rows(self._document.plan)
        if target.suffix.casefold() == ".csv":
            data: str | bytes = csv_text(rows, SHOPPING_COLUMNS)
            kind = table_kind(SHOPPING_COLUMNS)
        else:
            data, kind = workbook_bytes(rows, SHOPPING_COLUMNS, "shopping"), WORKBOOK
        return self._write(
            target,
            lambda _progress: write_export(data, target, kind),
            say("Shopping list written to {file}", file=str(target)),
        )

    def pocket_page(self) -> bool:
        """Write the page for a phone to a file that the person names."""
        from planner.sheets.pocket_page import write_pocket_page

        title, plan = say("Pocket page for a phone"), self._document.plan
        target = self._ask_for_target(".html", say("Page (*.html)"), title)
        if target is None:
            return False
        done = say("Written to {file}; send it to the phone and open it there in a browser", file=str(target))
        return self._write(target, lambda _progress: write_pocket_page(plan, target, dt.date.today()), done)

    def weather_picture(self) -> bool:
        """Write the weather of a year as one picture, to a PDF, SVG or PNG that the person names."""
        from planner.listings.export_files import PNG, SVG, write_export
        from planner.sheets.plan_files import plan_png, plan_svg
        from planner.sheets.weather_sheet import weather_picture, write_weather_sheet

        plan, paper = self._document.plan, paper_of(self._document)
        if not plan.garden.weather.years:
            self._say(say("No years of weather are kept: read the tables of a station on the page “Weather”"))
            return False
        title = say("Weather of a year")
        kinds = say("PDF (*.pdf);;Drawing (*.svg);;Picture (*.png)")
        target = self._ask_for_target(".pdf", kinds, title, title)
        if target is None:
            return False

        def write(_progress: Progress) -> None:
            suffix = target.suffix.casefold()
            if suffix == ".svg":
                write_export(plan_svg(weather_picture(plan, paper)), target, SVG)
            elif suffix == ".png":
                write_export(plan_png(weather_picture(plan, paper)), target, PNG)
            else:
                write_weather_sheet(plan, target, paper, dt.date.today())

        return self._write(target, write, say("{sheets} written to {file}", sheets=title, file=str(target)))

    def copy_without_weather(self) -> bool:
        """Save a copy of the garden without its years of weather, to a file that the person names."""
        from planner.garden.edits import change_weather
        from planner.storage import save

        garden = self._document.stable
        if not garden.weather.years:
            self._say(say("The garden keeps no years of weather: a copy is saved with “Save as…”"))
            return False
        title = say("Copy without its weather")
        target = self._ask_for_target(".bedwright", say("Gardens (*.bedwright)"), title, title)
        if target is None:
            return False
        return self._write(
            target,
            lambda _progress: save(change_weather(garden, years=()), target),
            say("Copy without its years of weather written to {file}", file=str(target)),
        )

    # -- writing ----------------------------------------------------------------------------

    def _ask_for_target(self, suffix: str, kinds: str, title: str, what: str = "") -> Path | None:
        """The file that the person names, with its suffix; None for none."""
        suggested = self._files.suggestion(suffix, what.casefold())
        path = self._prompts.save_path(self._window, suggested, kinds, title)
        if not path:
            return None
        return Path(path) if Path(path).suffix else Path(path).with_suffix(suffix)

    def _write(self, target: Path, write: Callable[[Progress], object], done: str) -> bool:
        """Write a file beside the window; say that it was written, or show why it could not be."""
        from planner.sheets.pdf_metadata import made_at, now

        moment = now()

        def work(progress: Progress) -> None:
            with made_at(moment):
                write(progress)

        try:
            self._long_work.run(say("{file} is written", file=target.name), work)
        except StoppedError:
            self._say(say("Stopped: nothing was written"))
            return False
        except BedwrightError as error:
            self._prompts.show_error(self._window, str(error))
            return False
        except OSError as error:
            self._prompts.show_error(self._window, cannot_be_written(target, error))
            return False
        self._say(done)
        return True

    def _show(self, target: Path) -> None:
        """Open a file that was written, where that is wished."""
        if self._prompts.may_show:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(target)))
