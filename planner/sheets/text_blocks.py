"""Blocks of text: paragraphs, boxes to tick, headings, lines to write on."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from planner.sheets import fonts
from planner.sheets.flow import Block
from planner.sheets.furniture import Paper
from planner.sheets.pen import FAINT, INK, PENCIL, Pen

#: Size of the sheet's plain text. [points]
SIZE = 8.0
#: Room for the label of a fact. [mm]
LABEL_ROOM = 25.0


def held(block: Block) -> Block:
    """The same block, kept on one page with the next."""
    return replace(block, with_next=True)


def tick_boxes(paper: Paper, words: Sequence[str]) -> Block:
    """Boxes with a word and a short line for the day, in as many lines as they need."""
    rule, pad, box, high = 13.0, 3.0, 2.8, 5.4
    places: list[tuple[float, int, str]] = []
    x, line = 0.0, 0
    for word in words:
        wide = box + 1.4 + fonts.width(word, SIZE) + 1.0 + rule + pad
        if x and x + wide - pad > paper.room:
            x, line = 0.0, line + 1
        places.append((x, line, word))
        x += wide

    def draw(pen: Pen, top: float) -> None:
        for at, row, word in places:
            left, base = paper.left + at, top - high * row - 3.6
            pen.box(left, base, box, box, weight=0.2)
            pen.text(left + box + 1.4, base + 0.5, word, SIZE)
            begin = left + box + 2.4 + fonts.width(word, SIZE)
            pen.line(begin, base, begin + rule, base, FAINT, 0.15)

    return Block(high * (line + 1), draw)


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
