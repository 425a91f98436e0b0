"""From the desk to paper and files."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QUrl
from PySide6.QtGui import QDesktopServices

from planner.desk.model.document import Document
from planner.errors import BedwrightError

if TYPE_CHECKING:
    from planner.desk.main_window.files import Files, Prompts
    from planner.desk.main_window.window import Window

PAPERS = ("a4", "letter")


def paper_of(document: Document) -> str:
    """Letter where the garden counts in feet, else A4."""
    return "letter" if document.garden.site.units == "feet_inches" else "a4"


def bed_sheets(
    window: Window, document: Document, asking: Prompts, files: Files, beds: list[str] | None
) -> bool:
    """Write bed sheets (of all beds, or of some by id) to a PDF the person names."""
    from planner.sheets.bed_sheets import write_bed_sheets

    if not document.plan.beds:
        window._say("There is no bed yet to make a sheet of")
        return False
    target = _target(asking, window, files, ".pdf", "PDF (*.pdf)", "Bed sheets as PDF")
    if target is None:
        return False
    chosen = None if beds is None else [document.garden.beds_by_id[key] for key in beds]
    if not _written(
        window,
        asking,
        target,
        lambda: write_bed_sheets(
            document.plan, target, beds=chosen, paper=paper_of(document), today=dt.date.today()
        ),
        f"Bed sheets written to {target}",
    ):
        return False
    _show(asking, target)
    return True


def _target(
    asking: Prompts, window: Window, files: Files, suffix: str, kinds: str, title: str
) -> Path | None:
    """The file the person names, with its ending; None for none."""
    path = asking.save_path(window, files.suggestion(suffix), kinds, title)
    if not path:
        return None
    return Path(path) if Path(path).suffix else Path(path).with_suffix(suffix)


def unwritable(path: Path | str, error: OSError) -> str:
    """What to say of a file that cannot be written."""
    return f"{path} cannot be written: {error.strerror}. Choose another name or folder."


def _written(window: Window, asking: Prompts, target: Path, write: Callable[[], object], said: str) -> bool:
    """Write a file; tell why it could not be, or say that it was."""
    try:
        write()
    except BedwrightError as error:
        asking.tell(window, str(error))
        return False
    except OSError as error:
        asking.tell(window, unwritable(target, error))
        return False
    window._say(said)
    return True


def _show(asking: Prompts, target: Path) -> None:
    """Open a file that was written, where that is wished."""
    if asking.may_show:
        QDesktopServices.openUrl(QUrl.fromLocalFile(str(target)))


def week_sheets(window: Window, document: Document, asking: Prompts, files: Files) -> bool:
    """Write the growing year's work week by week to a PDF the person names."""
    from planner.sheets.week_sheets import write_week_sheets

    target = _target(asking, window, files, ".pdf", "PDF (*.pdf)", "Week sheets as PDF")
    if target is None:
        return False
    if not _written(
        window,
        asking,
        target,
        lambda: write_week_sheets(document.plan, target, paper=paper_of(document), today=dt.date.today()),
        f"Week sheets written to {target}",
    ):
        return False
    _show(asking, target)
    return True


def calendar_file(window: Window, document: Document, asking: Prompts, files: Files) -> bool:
    """Write the growing year's work as an iCalendar file the person names."""
    from planner.amounts.tasks import tasks
    from planner.listings.calendar import calendar

    target = _target(asking, window, files, ".ics", "Calendar (*.ics)", "Work as calendar file")
    if target is None:
        return False
    return _written(
        window,
        asking,
        target,
        lambda: target.write_bytes(calendar(document.garden, tasks(document.plan))),
        f"Calendar written to {target}; importing it again updates what is there",
    )


def amounts_table(window: Window, document: Document, asking: Prompts, files: Files) -> bool:
    """Write the amounts as CSV to a file the person names."""
    from planner.amounts import amounts
    from planner.listings.amounts import AMOUNT_COLUMNS, amount_rows
    from planner.listings.tables import csv_text

    target = _target(asking, window, files, ".csv", "Table (*.csv)", "Amounts as table")
    if target is None:
        return False
    table = csv_text(amount_rows(amounts(document.plan)), AMOUNT_COLUMNS)
    return _written(
        window,
        asking,
        target,
        lambda: target.write_text(table, "utf-8", newline=""),
        f"Amounts written to {target}",
    )


def print_sheets(window: Window, document: Document, asking: Prompts) -> bool:
    """Print the bed sheets at their true scale."""
    import io

    import pypdfium2
    from PySide6.QtCore import QRectF
    from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter

    from planner.sheets.bed_sheets import write_bed_sheets

    if not document.plan.beds:
        window._say("There is no bed yet to print a sheet of")
        return False
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setFullPage(True)
    paper = paper_of(document)
    printer.setPageSize(
        QPageSize(QPageSize.PageSizeId.Letter if paper == "letter" else QPageSize.PageSizeId.A4)
    )
    if QPrintDialog(printer, window).exec() != QPrintDialog.DialogCode.Accepted:
        return False
    buffer = io.BytesIO()
    try:
        write_bed_sheets(document.plan, buffer, paper=paper, today=dt.date.today())
    except BedwrightError as error:
        window._say(str(error))
        return False
    pages = pypdfium2.PdfDocument(buffer.getvalue())
    dots = min(printer.resolution(), 300)
    painter = QPainter()
    for number, page in enumerate(pages):
        width, height = page.get_size()
        upright = height >= width
        way = QPageLayout.Orientation.Portrait if upright else QPageLayout.Orientation.Landscape
        printer.setPageOrientation(way)
        if number == 0:
            if not painter.begin(printer):
                window._say(
                    "The printer does not take the sheets; choose another one, or write them as a PDF"
                )
                return False
        else:
            printer.newPage()
        bitmap = page.render(scale=dots / 72)
        array = bitmap.to_numpy()
        image = QImage(
            array.data, array.shape[1], array.shape[0], array.strides[0], QImage.Format.Format_BGR888
        )
        points = printer.resolution() / 72
        painter.drawImage(QRectF(0, 0, width * points, height * points), image)
    painter.end()
    window._say(f"{len(pages)} pages sent to the printer; print at 100 %")
    return True
