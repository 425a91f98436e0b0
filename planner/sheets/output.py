"""Writing a PDF: the canvas, and a file that is written whole or not at all."""

from __future__ import annotations

import contextlib
import io
import os
from collections.abc import Iterator
from typing import TYPE_CHECKING, BinaryIO

from planner.errors import BedwrightError
from planner.listings.export_files import PDF, write_export
from planner.sheets.fonts import MM
from planner.sheets.page_chrome import Paper
from planner.sheets.pdf_metadata import describe
from planner.words import say

if TYPE_CHECKING:
    from planner.sheets.sheet_canvas import SheetCanvas


class SheetError(BedwrightError):
    """A sheet that cannot be made or written."""


@contextlib.contextmanager
def new_canvas(stream: io.BytesIO, paper: Paper, title: str) -> Iterator[SheetCanvas]:
    """Open a canvas of a paper's size on a stream, which holds the whole PDF afterwards.

    The same drawing gives the same bytes, but for the moment of :func:`planner.sheets.pdf_metadata.made_at`.

    Parameters
    ----------
    stream : io.BytesIO
    paper : Paper
    title : str
        Title of the document.
    """
    from planner.sheets.sheet_canvas import SheetCanvas

    canvas = SheetCanvas(stream, (paper.width * MM, paper.height * MM))
    describe(canvas, title)
    yield canvas
    canvas.save()


def write_pdf(target: BinaryIO | str | os.PathLike[str], data: bytes) -> None:
    """Write a PDF to a stream, or to a path whole or not at all.

    Parameters
    ----------
    target : path or binary stream
    data : bytes

    Raises
    ------
    SheetError
        For a path that cannot be written.
    ExportError
        For a path that is no PDF.
    """
    if isinstance(target, (str, os.PathLike)):
        try:
            write_export(data, target, PDF)
        except OSError as error:
            reason = (error.strerror or str(error)).lower()
            raise SheetError(
                say("the sheets cannot be written ({reason})", reason=reason),
                os.fspath(target),
                say("Choose a folder you may write to"),
            ) from error
    else:
        target.write(data)
