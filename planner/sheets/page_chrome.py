"""What frames every page: paper, head, foot, north arrow, dimension lines, the line to check the printer."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from planner.errors import BedwrightError
from planner.listings.phrases import day
from planner.sheets import fonts
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.flow import Page
from planner.sheets.pen import INK, PENCIL, Pen
from planner.words import join_list, later, say

#: Length of the line to check the printer with. [mm]
CHECK_LINE_MM = 100.0
#: What is printed beside it.
CHECK_WORDS = later(
    "This line is 100 mm long when the sheet is right: print at 100\u00a0%, not fitted to the page."
)


class UnknownPaperError(BedwrightError):
    """A paper that the sheets are not made for."""


@dataclass(frozen=True)
class Paper:
    """A page and its margins. [mm]"""

    name: str
    width: float
    height: float
    left: float = 16.0
    right: float = 12.0
    top: float = 12.0
    bottom: float = 11.0

    @property
    def room(self) -> float:
        """Width between the margins. [mm]"""
        return self.width - self.left - self.right


PAPERS = {
    "a4": Paper("A4", 210.0, 297.0),
    "a3": Paper("A3", 297.0, 420.0),
    "letter": Paper("Letter", 215.9, 279.4),
}


def paper_named(name: str) -> Paper:
    """Return the paper of a name, whatever its case.

    Raises
    ------
    UnknownPaperError
        For any other name.
    """
    paper = PAPERS.get(name.strip().casefold())
    if paper is None:
        raise UnknownPaperError(
            say("unknown paper '{name}'", name=name),
            fix=say("Choose one of {names}", names=join_list(sorted(PAPERS))),
        )
    return paper


@dataclass(frozen=True)
class Foot:
    """The foot of pages.

    Attributes
    ----------
    paper : Paper
    lines : tuple of str
        Garden, bed and season.
    printed : date
        Day of printing.
    check : bool
        Whether it has the line to check the printer: where something is drawn to scale.
    """

    paper: Paper
    lines: tuple[str, ...]
    printed: dt.date
    check: bool = True

    #: Size of its text. [points]
    SIZE = 8.0
    #: Width for the number of the page and the day of printing. [mm]
    _RIGHT = 66.0
    #: Height for the line to check the printer. [mm]
    _CHECK = 8.5

    @classmethod
    def of(cls, paper: Paper, text: str, printed: dt.date, *, check: bool = True) -> Foot:
        """Make a foot whose text is wrapped as needed.

        Parameters
        ----------
        paper : Paper
        text : str
            Garden, bed and season.
        printed : date
        check : bool
        """
        return cls(paper, fonts.wrap(text, paper.room - cls._RIGHT, cls.SIZE), printed, check)

    @property
    def height(self) -> float:
        """From the bottom margin up, room above included. [mm]"""
        return (self._CHECK if self.check else 0.0) + len(self.lines) * fonts.line_height(self.SIZE) + 2.0

    def draw(self, pen: Pen, page: int, pages: int) -> None:
        """Draw it on a page.

        Parameters
        ----------
        pen : Pen
        page, pages : int
            Number of the page, from 1, and of all pages.
        """
        paper = self.paper
        top = paper.bottom + len(self.lines) * fonts.line_height(self.SIZE)
        pen.lines(paper.left, top, self.lines, self.SIZE)
        right = say("page {page} of {pages} · printed {day}", page=page, pages=pages, day=day(self.printed))
        pen.lines(paper.left + paper.room, top, [right], self.SIZE, align="right")
        if self.check:
            check_line(pen, paper.left, top + 3.2, paper.room)


def draw_page(pen: Pen, paper: Paper, pages: Sequence[Page], number: int, foot: Foot) -> None:
    """Draw one of some pages: its blocks from the top margin down, and its foot.

    Parameters
    ----------
    pen : Pen
    paper : Paper
    pages : sequence of list of Block
    number : int
        Which page, counted from 0.
    foot : Foot
    """
    top = paper.height - paper.top
    for block in pages[number]:
        block.draw(pen, top)
        top -= block.height
    foot.draw(pen, number + 1, len(pages))


def draw_pages(canvas: Any, pen: Pen, paper: Paper, pages: Sequence[Page], foot: Foot) -> None:
    """Draw some pages one after the other, each with its foot.

    Parameters
    ----------
    canvas : reportlab.pdfgen.canvas.Canvas
    pen : Pen
        Of the canvas.
    paper : Paper
    pages : sequence of list of Block
    foot : Foot
    """
    for number in range(len(pages)):
        draw_page(pen, paper, pages, number, foot)
        canvas.showPage()


def check_line(pen: Pen, x: float, y: float, room: float) -> None:
    """Draw a line of 100 mm and, beside it, what it is for.

    Parameters
    ----------
    pen : Pen
    x, y : float
        Beginning of the line. [mm]
    room : float
        Width for the line and the words. [mm]
    """
    end = x + CHECK_LINE_MM
    pen.line(x, y, end, y, INK, 0.25)
    for k in range(11):
        tall = 2.4 if k in (0, 10) else 1.5 if k == 5 else 0.9
        at = x + 10.0 * k
        pen.line(at, y, at, y + tall, INK, 0.2)
    words = fonts.wrap(say(CHECK_WORDS), room - CHECK_LINE_MM - 4.0, 8.0)
    pen.lines(end + 3.0, y + 4.0, words, 8.0)


def north_arrow(pen: DrawingPen, x: float, y: float, direction: float, reach: float = 6.5) -> None:
    """Draw an arrow to true north about a centre.

    Parameters
    ----------
    pen : Pen
    x, y : float
        Centre. [mm]
    direction : float
        Of north on the page. [degrees anticlockwise from right]
    reach : float
        Half the arrow's length. [mm]
    """
    angle = math.radians(direction)
    ux, uy = math.cos(angle), math.sin(angle)
    tip = (x + reach * ux, y + reach * uy)
    pen.line(x - reach * ux, y - reach * uy, *tip, INK, 0.3)
    for side in (1, -1):
        back = math.radians(direction + side * 155.0)
        pen.line(*tip, tip[0] + 2.6 * math.cos(back), tip[1] + 2.6 * math.sin(back), INK, 0.3)
    size = 9.0
    letter_x, letter_y = x + (reach + 2.6) * ux, y + (reach + 2.6) * uy
    pen.text(letter_x, letter_y - 0.36 * size * fonts.POINT, "N", size, "bold", align="middle")


def dimension(pen: Pen, start: float, end: float, y: float, text: str, size: float = 8.0) -> None:
    """Draw a level dimension line with slanted ticks, its text above it where it fits.

    Parameters
    ----------
    pen : Pen
    start, end : float
        Ends of the line. [mm]
    y : float
        Its height. [mm]
    text : str
    size : float
        Of the text. [points]
    """
    pen.line(start, y, end, y, PENCIL, 0.13)
    for at in (start, end):
        pen.line(at, y - 1.3, at, y + 1.3, PENCIL, 0.1)
        pen.line(at - 0.8, y - 0.8, at + 0.8, y + 0.8, PENCIL, 0.25)
    if text and fonts.width(text, size) <= end - start - 1.0:
        pen.text((start + end) / 2, y + 0.8, text, size, "italic", INK, "middle")


def upright_dimension(pen: Pen, low: float, high: float, x: float, text: str, size: float = 8.0) -> None:
    """Draw an upright dimension line, its text turned to be read from the right.

    Parameters
    ----------
    pen : Pen
    low, high : float
        Ends of the line. [mm]
    x : float
        Its distance from the left of the page. [mm]
    text : str
    size : float
        Of the text. [points]
    """
    pen.line(x, low, x, high, PENCIL, 0.13)
    for at in (low, high):
        pen.line(x - 1.3, at, x + 1.3, at, PENCIL, 0.1)
        pen.line(x - 0.8, at - 0.8, x + 0.8, at + 0.8, PENCIL, 0.25)
    pen.text(x - 0.8, (low + high) / 2, text, size, "italic", INK, "middle", turn=90.0)


def tick_step(steps: Sequence[float], scale: int, least_mm: float) -> float:
    """Choose the least step that is wide enough on paper; the last where none is. [m]

    Parameters
    ----------
    steps : sequence of float
        Rising. [m]
    scale : int
        One to so many.
    least_mm : float
        Least width on paper. [mm]
    """
    return next((step for step in steps if step * 1000 / scale >= least_mm), steps[-1])
