"""Blocks of text: paragraphs, boxes to tick, headings, lines to write on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from planner.sheets import fonts
from planner.sheets.flow import Block
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import FAINT, INK, PENCIL, Pen

#: Size of the sheet's plain text. [points]
SIZE = 8.0
#: Room for the label of a fact. [mm]
LABEL_ROOM = 25.0
_BOX_COLUMNS = 7
_DAY_SIZE = 7.0


def held(block: Block) -> Block:
    """The same block, kept on one page with the next."""
    return replace(block, with_next=True)


@dataclass(frozen=True)
class TickBox:
    """A box to tick.

    Attributes
    ----------
    word : str
        What is ticked off.
    day : str
        The day planned, or on which it was done; may be empty.
    ticked : bool
        Whether it was done already.
    """

    word: str
    day: str = ""
    ticked: bool = False


def tick_boxes(paper: Paper, boxes: Sequence[TickBox]) -> Block:
    """Boxes in columns, each with its word, below it the day planned and a line for the real one.

    Where one row does not hold them the rows are filled evenly.
    """
    wide, high, side = paper.room / _BOX_COLUMNS, 8.6, 2.8
    rows = -(-len(boxes) // _BOX_COLUMNS)
    columns = -(-len(boxes) // max(rows, 1))
    inset = side + 1.4

    def draw(pen: Pen, top: float) -> None:
        for number, box in enumerate(boxes):
            row, column = divmod(number, columns)
            left, base = paper.left + wide * column, top - high * row - 3.6
            pen.box(left, base, side, side, weight=0.2)
            if box.ticked:
                tick(pen, left, base, side)
            size = fonts.fitted_size(box.word, wide - inset - 1.0, SIZE)
            pen.text(left + inset, base + 0.5, box.word, size)
            under = base - 3.6
            pen.text(left + inset, under, box.day, _DAY_SIZE, rgb=INK if box.ticked else PENCIL)
            if not box.ticked:
                begin = left + inset + (fonts.width(box.day, _DAY_SIZE) + 1.2 if box.day else 0.0)
                pen.line(begin, under - 0.4, left + wide - 3.0, under - 0.4, FAINT, 0.15)

    return Block(high * rows, draw)


def tick(pen: Pen, left: float, base: float, side: float) -> None:
    """The tick in a box."""
    pen.line(left + 0.18 * side, base + 0.5 * side, left + 0.42 * side, base + 0.2 * side, INK, 0.35)
    pen.line(left + 0.42 * side, base + 0.2 * side, left + 0.85 * side, base + 0.85 * side, INK, 0.35)


def paragraph(
    paper: Paper,
    text: str,
    *,
    label: str = "",
    indent: bool = False,
    style: fonts.Style = "regular",
    size: float = SIZE,
    together: bool = False,
) -> list[Block]:
    """Text of any length, a block a line so that it may run over pages.

    Parameters
    ----------
    label : str
        Printed before the first line; indents the text.
    indent : bool
        Indent the text as with a label.
    together : bool
        Keep all lines on one page, for short texts; else only the first two.
    """
    inset = LABEL_ROOM if label or indent else 0.0
    lines = fonts.wrap(text, paper.room - inset, size, style)
    found = []
    for number, line in enumerate(lines):
        block = _text_line(paper, line, label if number == 0 else "", inset, style, size)
        stays = number < len(lines) - 1 and (together or number == 0)
        found.append(held(block) if stays else block)
    return found


def _text_line(paper: Paper, line: str, label: str, indent: float, style: fonts.Style, size: float) -> Block:
    def draw(pen: Pen, top: float) -> None:
        if label:
            pen.lines(paper.left, top, [label], size, rgb=PENCIL)
        pen.lines(paper.left + indent, top, [line], size, style)

    return Block(fonts.line_height(size), draw)


def heading(paper: Paper, text: str) -> Block:
    """A heading under a rule, kept with what follows."""

    def draw(pen: Pen, top: float) -> None:
        pen.line(paper.left, top, paper.left + paper.room, top, INK, 0.3)
        pen.lines(paper.left, top - 1.2, [text], 9.0, "bold")

    return Block(fonts.line_height(9.0) + 1.8, draw, with_next=True)


def note_line(paper: Paper, height: float) -> Block:
    """A line to write on."""

    def draw(pen: Pen, top: float) -> None:
        pen.line(paper.left, top - height, paper.left + paper.room, top - height, FAINT, 0.15)

    return Block(height, draw)
