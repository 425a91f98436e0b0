"""A drawn plan, or another picture, as PDF, SVG or PNG.

The PDF is drawn by reportlab and the SVG by :mod:`planner.sheets.svg_pen`, with the same strokes.  The PNG is the PDF
painted by PDFium, which the program has anyway for its previews: what is printed and what is shown is one picture.
"""

from __future__ import annotations

import io
from typing import Protocol

from planner.errors import BedwrightError
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.fonts import MM
from planner.sheets.output import new_canvas
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import Pen
from planner.sheets.svg_pen import SvgPen
from planner.words import say

#: Widths that a PNG may have: 6,000 pixels take 350 MB while it is painted. [pixels]
LEAST_WIDTH, MOST_WIDTH = 200, 6000
#: Width of a PNG where none is given. [pixels]
USUAL_WIDTH = 2000


class PicturePage(Protocol):
    """A page that is drawn as one picture."""

    @property
    def width(self) -> float:
        """[mm]"""

    @property
    def height(self) -> float:
        """[mm]"""

    @property
    def title(self) -> str:
        """Its title."""

    @property
    def subtitle(self) -> str:
        """What stands under the title."""

    @property
    def words(self) -> str:
        """The picture in sentences."""

    def draw(self, pen: DrawingPen) -> None:
        """Draw it."""


class PictureSizeError(BedwrightError):
    """A width that a picture cannot have."""


def plan_pdf(page: PicturePage) -> bytes:
    """A page with a plan as PDF, in its true scale."""
    stream = io.BytesIO()
    with new_canvas(stream, Paper("", page.width, page.height), page.title) as canvas:
        canvas.bookmark(page.title)
        pen = Pen(canvas)
        with pen.tagged("Figure", alt=page.words):
            page.draw(pen)
        canvas.showPage()
    return stream.getvalue()


def plan_svg(page: PicturePage) -> str:
    """A page with a plan as SVG, in its true scale."""
    pen = SvgPen(page.width, page.height, page.title, page.subtitle)
    page.draw(pen)
    return pen.document()


def plan_png(page: PicturePage, width: int = USUAL_WIDTH) -> bytes:
    """A page with a plan as PNG.

    Parameters
    ----------
    page : PicturePage
    width : int
        [pixels]

    Raises
    ------
    PictureSizeError
        For a width below :data:`LEAST_WIDTH` or above :data:`MOST_WIDTH`.
    """
    if not LEAST_WIDTH <= width <= MOST_WIDTH:
        raise PictureSizeError(
            say("a picture cannot be {width} pixels wide", width=width),
            fix=say("Give a width from {least} to {most}", least=LEAST_WIDTH, most=MOST_WIDTH),
        )
    import pypdfium2
    from PIL.PngImagePlugin import PngInfo

    document = pypdfium2.PdfDocument(plan_pdf(page))
    try:
        points = page.width * MM
        painted = document[0].render(scale=(width - 0.01) / points, rev_byteorder=True).to_pil()
    finally:
        document.close()
    about = PngInfo()
    about.add_itxt("Title", page.title)
    about.add_itxt("Description", page.subtitle)
    stream = io.BytesIO()
    density = width / (page.width / 25.4)
    painted.convert("RGB").save(stream, "PNG", dpi=(density, density), pnginfo=about)
    return stream.getvalue()
