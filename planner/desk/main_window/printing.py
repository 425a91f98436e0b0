"""Printing sheets: the pages of the PDF as pictures, at their true scale."""

from __future__ import annotations

import datetime as dt
import io
from dataclasses import dataclass

import pypdfium2
from PySide6.QtCore import QRectF
from PySide6.QtGui import QImage, QPageLayout, QPageSize, QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QWidget

from planner.desk.main_window.long_work import LongWork, StoppedError
from planner.errors import BedwrightError
from planner.plan import Plan
from planner.sheets.kinds import SheetWish, write_sheets
from planner.sheets.label_formats import label_format
from planner.words import say, say_count

#: Finest resolution that pages are drawn in. [dots per inch]
FINEST = 300
#: Papers of a printer; A4 for any other name.
_SIZES = {"letter": QPageSize.PageSizeId.Letter, "a3": QPageSize.PageSizeId.A3}
#: Points of a PDF in an inch.
POINTS = 72


@dataclass(frozen=True)
class Printed:
    """Whether something was sent to the printer, and a line to say; empty for none."""

    printed: bool
    text: str = ""


def print_wished(parent: QWidget, plan: Plan, wish: SheetWish, long_work: LongWork) -> Printed:
    """Print sheets on a printer that the person chooses.

    Parameters
    ----------
    parent : QWidget
        Of the print dialog.
    plan : Plan
    wish : SheetWish
    long_work : LongWork
        Makes the sheets.
    """
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setFullPage(True)
    paper = label_format(wish.labels).paper if wish.kind == "labels" and wish.labels else wish.paper
    printer.setPageSize(QPageSize(_SIZES.get(paper, QPageSize.PageSizeId.A4)))
    if QPrintDialog(printer, parent).exec() != QPrintDialog.DialogCode.Accepted:
        return Printed(False)
    buffer = io.BytesIO()
    try:
        long_work.run(
            say("The sheets are made"),
            lambda progress: write_sheets(plan, buffer, wish, dt.date.today(), progress),
        )
    except StoppedError:
        return Printed(False, say("Stopped: nothing was printed"))
    except BedwrightError as error:
        return Printed(False, str(error))
    pages = pypdfium2.PdfDocument(buffer.getvalue())
    if not _print_pages(printer, pages):
        return Printed(
            False, say("The printer does not take the sheets; choose another one, or write them as a PDF")
        )
    return Printed(
        True,
        say_count(
            "{count} page sent to the printer; print at 100 %",
            "{count} pages sent to the printer; print at 100 %",
            len(pages),
        ),
    )


def _print_pages(printer: QPrinter, pages: pypdfium2.PdfDocument) -> bool:
    """Print all pages; False where the printer does not take them."""
    painter = QPainter()
    for number, page in enumerate(pages):
        width, height = page.get_size()
        upright = height >= width
        printer.setPageOrientation(
            QPageLayout.Orientation.Portrait if upright else QPageLayout.Orientation.Landscape
        )
        if number == 0:
            if not painter.begin(printer):
                return False
        else:
            printer.newPage()
        scale = printer.resolution() / POINTS
        painter.drawImage(QRectF(0, 0, width * scale, height * scale), _image(page, printer.resolution()))
    painter.end()
    return True


def _image(page: pypdfium2.PdfPage, resolution: int) -> QImage:
    array = page.render(scale=min(resolution, FINEST) / POINTS).to_numpy()
    image = QImage(array.data, array.shape[1], array.shape[0], array.strides[0], QImage.Format.Format_BGR888)
    return image.copy()  # the array is freed when this function returns
