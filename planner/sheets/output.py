"""Writing a PDF: the canvas, and a file that is written whole or not at all."""

from __future__ import annotations

import contextlib
import io
import os
from collections.abc import Iterator
from typing import Any, BinaryIO

from planner.errors import BedwrightError
from planner.listings.export_files import PDF, write_export
from planner.sheets.fonts import MM
from planner.sheets.page_chrome import Paper


class SheetError(BedwrightError):
    """A sheet that cannot be made or written."""


@contextlib.contextmanager
def new_canvas(stream: io.BytesIO, paper: Paper, title: str) -> Iterator[Any]:
    """Open a canvas of a paper's size on a stream, which holds the whole PDF afterwards.

    The same drawing gives the same bytes.

    Parameters
    ----------
    stream : io.BytesIO
    paper : Paper
    title : str
        Title of the document.
    """
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(stream, pagesize=(paper.width * MM, paper.height * MM), invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setCreator("Bedwright")
    canvas.setAuthor("")
    with _binary_streams():
        yield canvas
        canvas.save()


@contextlib.contextmanager
def _binary_streams() -> Iterator[None]:
    """Let reportlab write streams as bytes, not as text: a fifth smaller, and every PDF reader reads them."""
    from reportlab import rl_config

    before = rl_config.useA85
    rl_config.useA85 = 0
    try:
        yield
    finally:
        rl_config.useA85 = before


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
                f"the sheets cannot be written ({reason})",
                os.fspath(target),
                "Choose a folder you may write to",
            ) from error
    else:
        target.write(data)
