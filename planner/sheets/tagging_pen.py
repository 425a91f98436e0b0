"""Saying what is what on a PDF page while it is drawn: bookmarks, headings, paragraphs, tables and pictures."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager, nullcontext
from typing import TYPE_CHECKING, Any, cast

from planner.sheets.fonts import MM

if TYPE_CHECKING:
    from planner.sheets.tagged import Role

#: Of a table's heads: of its column, of its row.
COLUMN_HEAD, ROW_HEAD = "/Scope/Column", "/Scope/Row"


class TaggingPen:
    """Says what is drawn on a canvas.

    Parameters
    ----------
    canvas : planner.sheets.sheet_canvas.SheetCanvas
    """

    def __init__(self, canvas: Any) -> None:
        self._canvas = canvas
        self._bookmarked: set[object] = set()

    def bookmark(self, words: str, top: float, level: int = 0, *, once: object = None) -> None:
        """Enter a place of this page among the bookmarks.

        Parameters
        ----------
        words : str
        top : float
            Height of the place above the page's bottom. [mm]
        level : int
            0 for those of the first rank.
        once : object, optional
            What is bookmarked where it may be drawn again, as a heading that is repeated on a further page.
        """
        if once is not None:
            if once in self._bookmarked:
                return
            self._bookmarked.add(once)
        self._canvas.bookmark(words, top * MM, level)

    def tagged(
        self, role: Role, key: object = None, *, alt: str = "", attributes: str = ""
    ) -> AbstractContextManager[object]:
        """Make what is drawn within a heading, a paragraph, a cell or a picture; the rest is passed over when read aloud.

        Parameters
        ----------
        role : str
        key : object, optional
            What is drawn next with the same role and key goes on with it, as the lines of a paragraph.
        alt : str
            What a picture shows, in words.
        attributes : str
            Of a cell, as PDF writes them: ``/Scope/Column``, ``/ColSpan 3``.
        """
        return cast(
            "AbstractContextManager[object]",
            self._canvas.structure.mark(self._canvas._code, role, key, alt, attributes),
        )

    def grouped(
        self, role: Role, key: object = None, *, attributes: str = ""
    ) -> AbstractContextManager[object]:
        """Make what is tagged within parts of an element without content of its own: a table, a row.

        Parameters
        ----------
        role : str
        key : object, optional
            What is drawn next with the same role and key goes on with it, on a further page too.
        attributes : str
            Of a cell, as PDF writes them.
        """
        return cast("AbstractContextManager[object]", self._canvas.structure.group(role, key, attributes))

    def heading_of_table(self, role: Role, key: object) -> AbstractContextManager[object]:
        """Draw the heading above the table of a key; repeated on a further page it is passed over."""
        if self._canvas.structure.goes_on(key):
            return nullcontext()
        return self.tagged(role)

    @contextmanager
    def heads(self, key: object) -> Iterator[None]:
        """Begin the table of a key with a row of heads; heads repeated on a further page are passed over."""
        with self._canvas.structure.table_head(key), self.grouped("TR"):
            yield

    @contextmanager
    def row(self, key: object) -> Iterator[None]:
        """Draw a row of the table of a key."""
        with self.grouped("Table", key), self.grouped("TR"):
            yield

    def head_cell(self) -> AbstractContextManager[object]:
        """Draw the head of a column."""
        return self.tagged("TH", attributes=COLUMN_HEAD)

    def cell(self, columns: int = 1) -> AbstractContextManager[object]:
        """Draw a cell, over so many columns."""
        return self.tagged("TD", attributes=f"/ColSpan {columns}" if columns > 1 else "")

    def empty_cell(self) -> None:
        """Leave a cell empty."""
        with self.grouped("TD"):
            pass
