"""reportlab's canvas as the sheets use it; imported when the first sheet is made, since reportlab takes long to load."""

from __future__ import annotations

import io
from typing import Any

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from planner.sheets import fonts
from planner.sheets.packed_pdf import packed_pdf

# Streams as bytes, not as text: a fifth smaller, and every PDF reader reads them.
rl_config.useA85 = 0
rl_config.pdfComments = 0
rl_config.pdfMultiLine = 0


class SheetCanvas(Canvas):  # type: ignore[misc] # reportlab has no types
    """A canvas whose PDF names no font that it does not carry, and packs what is small.

    Parameters
    ----------
    stream : io.BytesIO
        Holds the PDF after :meth:`save`.
    size : tuple of float
        Width and height of its pages. [points]
    """

    def __init__(self, stream: io.BytesIO, size: tuple[float, float]) -> None:
        # Where it begins with one of our fonts, reportlab does not begin pages with Helvetica.
        first = fonts.font_name("regular")
        super().__init__(stream, pagesize=size, invariant=1, pageCompression=1, initialFontName=first)
        self._stream = stream
        self._bookmarks = 0

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

    def save(self) -> None:
        """End the last page and write the PDF."""
        if self._code:
            self.showPage()
        self._stream.write(packed_pdf(self._doc, self))
