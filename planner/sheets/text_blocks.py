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
#: Width for the label before a text. [mm]
LABEL_ROOM = 25.0
#: Boxes to tick in a row.
_BOX_COLUMNS = 7
#: Height for a box with its day, and side of the box itself. [mm]
_BOX_HEIGHT, _BOX_SIDE = 8.6, 2.8
#: Size of the day below a box. [points]
_DAY_SIZE = 7.0


def kept_with_next(block: Block) -> Block:
    """Return the same block, kept on one page with the next."""
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
    """Set boxes in columns, each with its word, and below it the day planned and a line for the real one.

    Where one row does not hold them the rows are filled evenly.

    Parameters
    ----------
    paper : Paper
    boxes : sequence of TickBox
    """
    width, height, side = paper.room / _BOX_COLUMNS, _BOX_HEIGHT, _BOX_SIDE
    rows = -(-len(boxes) // _BOX_COLUMNS)
    columns = -(-len(boxes) // max(rows, 1))
    inset = side + 1.4

    def draw(pen: Pen, top: float) -> None:
        for number, box in enumerate(boxes):
            row, column = divmod(number, columns)
            left, base = paper.left + width * column, top - height * row - 3.6
            pen.box(left, base, side, side, weight=0.2)
            if box.ticked:
                tick(pen, left, base, side)
            size = fonts.fitted_size(box.word, width - inset - 1.0, SIZE)
            pen.text(left + inset, base + 0.5, box.word, size)
            under = base - 3.6
            pen.text(left + inset, under, box.day, _DAY_SIZE, rgb=INK if box.ticked else PENCIL)
            if not box.ticked:
                begin = left + inset + (fonts.width(box.day, _DAY_SIZE) + 1.2 if box.day else 0.0)
                pen.line(begin, under - 0.4, left + width - 3.0, under - 0.4, FAINT, 0.15)

    return Block(height * rows, draw)


def tick(pen: Pen, left: float, base: float, side: float) -> None:
    """Draw the tick in a box.

    Parameters
    ----------
    pen : Pen
    left, base : float
        Lower left corner of the box. [mm]
    side : float
        Side of the box. [mm]
    """
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
    """Set text of any length, a block a line so that it may run over pages.

    Parameters
    ----------
    paper : Paper
    text : str
    label : str
        Printed before the first line; indents the text.
    indent : bool
        Indent the text as with a label.
    style : {"regular", "bold", "italic"}
    size : float
        [points]
    together : bool
        Keep all lines on one page, for short texts; else only the first two.
    """
    inset = LABEL_ROOM if label or indent else 0.0
    lines = fonts.wrap(text, paper.room - inset, size, style)
    found = []
    for number, line in enumerate(lines):
        block = _text_line(paper, line, label if number == 0 else "", inset, style, size)
        stays = number < len(lines) - 1 and (together or number == 0)
        found.append(kept_with_next(block) if stays else block)
    return found


def _text_line(paper: Paper, line: str, label: str, indent: float, style: fonts.Style, size: float) -> Block:
    def draw(pen: Pen, top: float) -> None:
        if label:
            pen.lines(paper.left, top, [label], size, rgb=PENCIL)
        pen.lines(paper.left + indent, top, [line], size, style)

    return Block(fonts.line_height(size), draw)


def labelled_text(paper: Paper, label: str, text: str) -> Block:
    """Set a short text behind its label, in one block.

    Parameters
    ----------
    paper : Paper
    label : str
    text : str
    """
    lines = fonts.wrap(text, paper.room - LABEL_ROOM, SIZE)

    def draw(pen: Pen, top: float) -> None:
        pen.lines(paper.left, top, [label], SIZE, rgb=PENCIL)
        pen.lines(paper.left + LABEL_ROOM, top, lines, SIZE)

    return Block(len(lines) * fonts.line_height(SIZE), draw)


def with_label(paper: Paper, label: str, block: Block, size: float) -> Block:
    """Return an indented line with a label before it.

    Parameters
    ----------
    paper : Paper
    label : str
    block : Block
        The line.
    size : float
        Size of the label. [points]
    """

    def draw(pen: Pen, top: float) -> None:
        pen.lines(paper.left, top, [label], size, rgb=PENCIL)
        block.draw(pen, top)

    return replace(block, draw=draw)


def heading(paper: Paper, text: str) -> Block:
    """Set a heading under a rule, kept with what follows.

    Parameters
    ----------
    paper : Paper
    text : str
    """

    def draw(pen: Pen, top: float) -> None:
        pen.line(paper.left, top, paper.left + paper.room, top, INK, 0.3)
        pen.lines(paper.left, top - 1.2, [text], 9.0, "bold")

    return Block(fonts.line_height(9.0) + 1.8, draw, with_next=True)


def note_line(paper: Paper, height: float) -> Block:
    """Set an empty line to write on.

    Parameters
    ----------
    paper : Paper
    height : float
        From the line above. [mm]
    """

    def draw(pen: Pen, top: float) -> None:
        pen.line(paper.left, top - height, paper.left + paper.room, top - height, FAINT, 0.15)

    return Block(height, draw)
