"""Tapes of irregular rows: a table with the marks of every row of a planting, and places that stand alone."""

from __future__ import annotations

from collections.abc import Sequence

from planner.sheets import fonts
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import INK, PENCIL, Pen
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.row_table import HEAD_SIZE, PAD, Sides, places_words, tape_cells
from planner.sheets.tape import Tape, number_ranges
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.text_blocks import SIZE, kept_with_next, paragraph
from planner.words import say

#: Widths of the columns: row, where, plants, first, every, last; all marks take what is left. [mm]
_COLUMNS = (14.0, 32.0, 14.0, 15.0, 17.0, 15.0)
#: Marks of a row are all printed up to this number, then the first three and the last.
_LISTED = 9


def tape_blocks(printed: PrintedPlanting, paper: Paper, sides: Sides) -> list[Block]:
    """Return the tapes of a planting under their heading.

    Parameters
    ----------
    printed : PrintedPlanting
    paper : Paper
    sides : Sides
    """
    title = say("Tapes of plot {letter}, {crop}", letter=printed.letter, crop=printed.name)
    heading = [kept_with_next(block) for block in paragraph(paper, title, style="bold", size=10.0)]
    if not printed.tapes:
        where = sides.places(printed.measure)
        words = say("{from_where}: {places}", from_where=where, places="; ".join(places_words(printed)))
        return [*heading, *paragraph(paper, words), gap(3.0)]
    direction, measure = printed.tapes[0].direction, printed.measure
    says = say("{rows}; {tape}", rows=sides.rows(direction, measure), tape=sides.tape(direction, measure))
    about = [kept_with_next(block) for block in paragraph(paper, says, style="italic")]
    heads = (
        say("Row"), say("Where"), say("Plants"), say("First"), say("Every"), say("Last"), say("Marks"),
    )  # fmt: skip
    table = ("tapes", printed.planting.id)
    head = _line(paper, heads, table, is_head=True)
    lines = [_line(paper, _cells(measure, tape), table, repeat=head) for tape in printed.tapes]
    return [*heading, *about, kept_with_next(head), *lines, gap(4.0)]


def _cells(measure: TapeMeasure, tape: Tape) -> tuple[str, ...]:
    rows, first, step, last, plants = tape_cells(measure, tape)
    return (number_ranges(tape.rows), rows, plants, first, step, last, _marks(measure, tape))


def _marks(measure: TapeMeasure, tape: Tape) -> str:
    places = measure.marks(tape).places(tape.count)
    words = [measure.bare(place) for place in places]
    if len(words) <= _LISTED:
        return ", ".join(words)
    return say("{first} … {last}", first=", ".join(words[:3]), last=words[-1])


def _line(
    paper: Paper, cells: Sequence[str], table: object, *, is_head: bool = False, repeat: Block | None = None
) -> Block:
    """A line of the table, each cell wrapped in its column, over a rule."""
    widths = (*_COLUMNS, paper.room - sum(_COLUMNS))
    size = HEAD_SIZE if is_head else SIZE
    style: fonts.Style = "bold" if is_head else "regular"
    wrapped = [fonts.wrap(cell, width - PAD, size, style) for cell, width in zip(cells, widths, strict=True)]
    height = max(len(lines) for lines in wrapped) * fonts.line_height(size) + 0.9

    def draw(pen: Pen, top: float) -> None:
        x = paper.left
        with pen.heads(table) if is_head else pen.row(table):
            for lines, width in zip(wrapped, widths, strict=True):
                with pen.head_cell() if is_head else pen.cell():
                    pen.lines(x, top - 0.4, lines, size, style)
                x += width
        at = top - height
        pen.line(paper.left, at, x, at, INK if is_head else PENCIL, 0.15)

    return Block(height, draw, repeat=repeat)
