"""reportlab's canvas as the sheets use it; imported when the first sheet is made, since reportlab takes long to load."""

from __future__ import annotations

import io
import zlib
from collections.abc import Sequence
from typing import Any

from reportlab import rl_config
from reportlab.pdfbase.pdfdoc import PDFStream
from reportlab.pdfgen.canvas import Canvas

from planner.sheets import fonts
from planner.sheets.family_inks import Rgb
from planner.sheets.fonts import MM
from planner.sheets.packed_pdf import packed_pdf
from planner.sheets.tagged import StructureTree

# Streams as bytes, not as text: a fifth smaller, and every PDF reader reads them.
rl_config.useA85 = 0
rl_config.pdfComments = 0
rl_config.pdfMultiLine = 0


class _Tight:
    """Packs a page as small as it gets, which takes a millisecond a page more and saves a fortieth of the file."""

    pdfname = "FlateDecode"

    @staticmethod
    def encode(content: bytes) -> bytes:
        """Pack a stream."""
        return zlib.compress(content, 9)


class SheetCanvas(Canvas):  # type: ignore[misc] # reportlab has no types
    """A canvas whose PDF names no font that it does not carry, and packs what is small.

    Parameters
    ----------
    stream : io.BytesIO
        Holds the PDF after :meth:`save`.
    size : tuple of float
        Width and height of its pages. [points]
    """

    STATE_ATTRIBUTES = (*Canvas.STATE_ATTRIBUTES, "_fill", "_stroke")

    def __init__(self, stream: io.BytesIO, size: tuple[float, float]) -> None:
        # Where it begins with one of our fonts, reportlab does not begin pages with Helvetica.
        first = fonts.font_name("regular")
        super().__init__(stream, pagesize=size, invariant=1, pageCompression=1, initialFontName=first)
        self._stream = stream
        self._bookmarks = 0
        self.structure = StructureTree()

    def init_graphics_state(self) -> None:
        """Begin a page or a form, of which nothing is known yet."""
        super().init_graphics_state()
        self._fill: Rgb | None = None
        self._stroke: tuple[Rgb, float, tuple[float, ...]] | None = None

    def set_fill(self, rgb: Rgb) -> None:
        """Set the ink of areas and text, where it is another."""
        if rgb != self._fill:
            self._fill = rgb
            red, green, blue = rgb
            self._code.append(f"{red:.3f} {green:.3f} {blue:.3f} rg")

    def set_stroke(self, rgb: Rgb, weight: float, dash: Sequence[float] = ()) -> None:
        """Set how lines are drawn, what of it is another.

        Parameters
        ----------
        rgb : tuple of float
        weight : float
            [mm]
        dash : sequence of float
            Dashes and gaps in turn; solid where empty. [mm]
        """
        wanted, known = (rgb, weight, tuple(dash)), self._stroke
        if wanted == known:
            return
        self._stroke = wanted
        if known is None or rgb != known[0]:
            red, green, blue = rgb
            self._code.append(f"{red:.3f} {green:.3f} {blue:.3f} RG")
        if known is None or weight != known[1]:
            self._code.append(f"{weight * MM:.4f} w")
        if known is None or wanted[2] != known[2]:
            self._code.append(f"[{' '.join(f'{part * MM:.3f}' for part in dash)}] 0 d")

    def bookmark(self, words: str, top: float | None = None, level: int = 0) -> None:
        """Enter a place of this page among the bookmarks.

        Parameters
        ----------
        words : str
        top : float, optional
            Height of the place above the page's bottom; the whole page by default. [points]
        level : int
            0 for those of the first rank.
        """
        self._bookmarks += 1
        key = f"b{self._bookmarks}"
        place: dict[str, Any] = {} if top is None else {"fit": "XYZ", "left": 0, "top": top}
        self.bookmarkPage(key, **place)
        self.addOutlineEntry(words, key, level)

    def showPage(self) -> None:  # noqa: N802
        """End the page."""
        self.structure.end_page(self._code)
        super().showPage()
        page = self._doc.Pages.pages[-1]
        page.Contents = PDFStream(content=page.stream.encode("latin-1"), filters=[_Tight()])

    def save(self) -> None:
        """End the last page and write the PDF."""
        if self._code:
            self.showPage()
        self.structure.write(self._doc)
        self._stream.write(packed_pdf(self._doc, self))
