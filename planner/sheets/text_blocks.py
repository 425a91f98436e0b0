"""Blocks of text: paragraphs, boxes to tick, headings, lines to write on."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from planner.sheets import fonts
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import INK, Pen

#: Size of the sheet's plain text. [points]
SIZE = 9.0
#: Least width for the label before a text, and its space before the text. [mm]
LABEL_ROOM, _LABEL_GAP = 16.0, 1.5
#: Height of a line of boxes, side of a box, its room before the words, and the gap after them. [mm]
_BOX_HEIGHT, BOX_SIDE, _BOX_ROOM, _BOX_GAP = 4.5, 2.9, 4.2, 4.0
#: Labels beside each other begin at multiples of this. [mm]
_BESIDE = 7.0


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


def tick_boxes(paper: Paper, boxes: Sequence[TickBox], inset: float = 0.0) -> Block:
    """Set boxes one after another, each with its word and the day planned, in as many lines as they need.

    Parameters
    ----------
    paper : Paper
    boxes : sequence of TickBox
    inset : float
        From the left margin. [mm]
    labels : float
        Width for a label. [mm]
    """
    room = paper.room - inset
    places: list[tuple[int, float, TickBox]] = []
    row, x = 0, 0.0
    for box in boxes:
        width = _BOX_ROOM + fonts.width(_box_words(box), SIZE)
        if x and x + width > room:
            row, x = row + 1, 0.0
        places.append((row, x, box))
        x += width + _BOX_GAP

    def draw(pen: Pen, top: float) -> None:
        for line, at, box in places:
            left, base = paper.left + inset + at, top - _BOX_HEIGHT * line - 3.6
            pen.box(left, base, BOX_SIDE, BOX_SIDE, weight=0.25)
            if box.ticked:
                tick(pen, left, base, BOX_SIDE)
            size = fonts.fitted_size(_box_words(box), room - _BOX_ROOM, SIZE, least=8.0)
            with pen.tagged("P"):
                pen.text(left + _BOX_ROOM, base + 0.45, _box_words(box), size)

    return Block(_BOX_HEIGHT * (row + 1) if boxes else 0.0, draw)


def _box_words(box: TickBox) -> str:
    return f"{box.word} {box.day}" if box.day else box.word


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


def label_room(labels: Iterable[str]) -> float:
    """Width for labels before texts, so that the widest does not touch its text. [mm]

    Parameters
    ----------
    labels : iterable of str
    """
    widest = max((fonts.width(label, SIZE, "italic") for label in labels), default=0.0)
    return max(LABEL_ROOM, widest + _LABEL_GAP)


def paragraph(
    paper: Paper,
    text: str,
    *,
    label: str = "",
    labels: float = LABEL_ROOM,
    inset: float = 0.0,
    style: fonts.Style = "regular",
    size: float = SIZE,
    together: bool = False,
    mark: str = "",
) -> list[Block]:
    """Set text of any length, a block a line so that it may run over pages.

    Parameters
    ----------
    paper : Paper
    text : str
    label : str
        Printed before the first line; indents the text.
    labels : float
        By how much. [mm]
    inset : float
        From the left margin. [mm]
    style : {"regular", "bold", "italic"}
    size : float
        [points]
    together : bool
        Keep all lines on one page, for short texts; else only the first two.
    mark : str
        Sign at the left margin before the first line.
    """
    indent = inset + (labels if label else 0.0)
    lines = fonts.wrap(text, paper.room - indent, size, style)
    found, whole = [], object()
    for number, line in enumerate(lines):
        block = _text_line(paper, line, _before(label, mark, inset, number), indent, style, size, whole)
        stays = number < len(lines) - 1 and (together or number == 0)
        found.append(kept_with_next(block) if stays else block)
    return found


def note_and_lessons(paper: Paper, note: str, lessons: Sequence[str]) -> list[Block]:
    """Set a note, whose lines stay lines, and the lessons to remember below it, a little apart; nothing without any.

    Parameters
    ----------
    paper : Paper
    note : str
        May be empty.
    lessons : sequence of str
    """
    told = paragraph(paper, note.strip()) if note.strip() else []
    remembered = [block for lesson in lessons for block in paragraph(paper, lesson)]
    return [*told, gap(1.5), *remembered] if told and remembered else [*told, *remembered]


def ticked_paragraph(paper: Paper, text: str, *, ticked: bool = False) -> list[Block]:
    """Set a sentence behind a box to tick, all its lines on one page.

    Parameters
    ----------
    paper : Paper
    text : str
    ticked : bool
        Whether it is done already.
    """
    first, *others = paragraph(paper, text, inset=_BOX_ROOM, together=True)

    def draw(pen: Pen, top: float) -> None:
        base = top - 3.4
        pen.box(paper.left, base, BOX_SIDE, BOX_SIDE, weight=0.25)
        if ticked:
            tick(pen, paper.left, base, BOX_SIDE)
        first.draw(pen, top)

    return [replace(first, draw=draw), *others]


def _before(label: str, mark: str, inset: float, number: int) -> tuple[str, float]:
    """What stands before a line, and where."""
    if number:
        return "", 0.0
    return (label, inset) if label else (mark, 0.0)


def _text_line(
    paper: Paper,
    line: str,
    label: tuple[str, float],
    indent: float,
    style: fonts.Style,
    size: float,
    whole: object,
) -> Block:
    """A line of a paragraph, with what stands before it."""

    def draw(pen: Pen, top: float) -> None:
        with pen.tagged("P", whole):
            if label[0]:
                pen.lines(paper.left + label[1], top, [label[0]], size, "italic")
            pen.lines(paper.left + indent, top, [line], size, style)

    return Block(fonts.line_height(size), draw)


def labelled_texts(
    paper: Paper, pairs: Sequence[tuple[str, str]], inset: float = 0.0, labels: float = LABEL_ROOM
) -> list[Block]:
    """Set short texts behind their labels, as many beside each other as find room in a line.

    Parameters
    ----------
    paper : Paper
    pairs : sequence of (str, str)
        Labels and texts.
    inset : float
        From the left margin. [mm]
    labels : float
        Width for a label. [mm]
    """
    room = paper.room - inset
    left = list(pairs)
    blocks = []
    while left:
        label, text = left.pop(0)
        line, end = [(label, text, 0.0)], labels + fonts.width(text, SIZE)
        while end < room:
            begin = math.ceil((end + _BOX_GAP) / _BESIDE) * _BESIDE
            fitting = (
                k for k, (_, words) in enumerate(left) if begin + labels + fonts.width(words, SIZE) <= room
            )
            other = next(fitting, None)
            if other is None:
                break
            line.append((*left.pop(other), begin))
            end = begin + labels + fonts.width(line[-1][1], SIZE)
        blocks.append(_texts_beside(paper, line, inset, labels))
    return blocks


def _texts_beside(paper: Paper, line: Sequence[tuple[str, str, float]], inset: float, labels: float) -> Block:
    """Labels and texts in a line, each from its place on."""
    wrapped = [fonts.wrap(text, paper.room - inset - at - labels, SIZE) for _, text, at in line]

    def draw(pen: Pen, top: float) -> None:
        for (label, _, at), lines in zip(line, wrapped, strict=True):
            x = paper.left + inset + at
            with pen.tagged("P"):
                pen.lines(x, top, [label], SIZE, "italic")
                pen.lines(x + labels, top, lines, SIZE)

    return Block(max(map(len, wrapped)) * fonts.line_height(SIZE), draw)


def heading(paper: Paper, text: str) -> Block:
    """Set a heading under a rule, kept with what follows.

    Parameters
    ----------
    paper : Paper
    text : str
    """

    def draw(pen: Pen, top: float) -> None:
        pen.line(paper.left, top, paper.left + paper.room, top, INK, 0.3)
        with pen.tagged("H2"):
            pen.lines(paper.left, top - 1.2, [text], 10.0, "bold")

    return Block(fonts.line_height(10.0) + 1.8, draw, with_next=True)
