"""A record to fill in by hand: blank lines for what was picked or done."""

from __future__ import annotations

from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import INK, PENCIL, Pen
from planner.sheets.text_blocks import heading
from planner.words import say

#: Height of a line to write on. [mm]
LINE = 7.5
#: Fewest and most lines below what else is on a page; where there is room for fewer there is no record on it.
LEAST_LINES, MOST_LINES = 3, 14
#: Space above its heading. [mm]
_ABOVE = 3.0
#: Widths of the columns for day, plot and amount; the remark takes what is left. [mm]
_COLUMNS = (26.0, 16.0, 40.0)


def record_blocks(paper: Paper, room: float, *, whole_page: bool = False) -> list[Block]:
    """Return a record that fills some room; none where the room is too little.

    Parameters
    ----------
    paper : Paper
    room : float
        Height that the page has left. [mm]
    whole_page : bool
        It has a page of its own, and as many lines as that has.
    """
    title = heading(paper, say("Harvest record"))
    space = gap(_ABOVE)
    head = _head(paper)
    number = int((room - title.height - space.height - head.height) / LINE + 1e-9)
    if number < LEAST_LINES:
        return []
    return [space, title, head, *[_line(paper)] * (number if whole_page else min(number, MOST_LINES))]


def least_record(paper: Paper) -> float:
    """Height of the shortest record. [mm]"""
    return _ABOVE + heading(paper, say("Harvest record")).height + _head(paper).height + LEAST_LINES * LINE


def _head(paper: Paper) -> Block:
    heads = (say("Day"), say("Plot"), say("Picked"), say("Done or seen"))

    def draw(pen: Pen, top: float) -> None:
        x = paper.left
        with pen.tagged("P"):
            for words, width in zip(heads, (*_COLUMNS, 0.0), strict=True):
                pen.text(x, top - 3.2, words, 8.0, "bold")
                x += width
        pen.line(paper.left, top - 4.4, paper.left + paper.room, top - 4.4, INK, 0.2)

    return Block(4.4, draw)


def _line(paper: Paper) -> Block:
    def draw(pen: Pen, top: float) -> None:
        low = top - LINE
        pen.line(paper.left, low, paper.left + paper.room, low, PENCIL, 0.15)
        x = paper.left
        for width in _COLUMNS:
            x += width
            pen.line(x - 2.0, top, x - 2.0, low, PENCIL, 0.1)

    return Block(LINE, draw)
