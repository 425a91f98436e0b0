"""The entry of a planting on its bed's sheet: head, details, rows, boxes to tick, notes."""

from __future__ import annotations

from planner.listings.phrases import BY_HAND, counted, day_in
from planner.sheets import fonts
from planner.sheets.entry_details import details
from planner.sheets.entry_rows import row_blocks
from planner.sheets.family_inks import family_ink
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.pen import INK, Pen
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.steps import Step
from planner.sheets.text_blocks import SIZE, TickBox, kept_with_next, labelled_text, paragraph, tick_boxes

#: An entry no higher than this is kept on one page, its notes apart. [mm]
_TOGETHER = 85.0
#: Size of the planting's name. [points]
_NAME_SIZE = 11.0
#: Least side of the box of its letter. [mm]
_LETTER_BOX = 6.0


def entry_blocks(printed: PrintedPlanting, paper: Paper) -> list[Block]:
    """Return everything that a bed's sheet says of a planting, and the gap below it.

    Parameters
    ----------
    printed : PrintedPlanting
    paper : Paper
    """
    blocks = [
        _head(printed, paper),
        gap(1.0),
        *(labelled_text(paper, label, text) for label, text in details(printed)),
    ]
    rows = row_blocks(printed, paper)
    beginning = len(blocks) + min(len(rows), 2)  # up to the table's head and its first line
    blocks += [*rows, gap(1.6), tick_boxes(paper, [_box(printed, step) for step in printed.steps])]
    whole = sum(block.height for block in blocks) <= _TOGETHER
    blocks = [
        *(kept_with_next(block) if whole or k < beginning else block for k, block in enumerate(blocks[:-1])),
        blocks[-1],
    ]
    if printed.planting.notes.strip():
        notes = paragraph(paper, printed.planting.notes, label="Notes", style="italic")
        blocks += [gap(0.8), *notes]
    return [*blocks, gap(4.5)]


def _head(printed: PrintedPlanting, paper: Paper) -> Block:
    """Letter, mark and name; the number of plants beside the name, or below a long one."""
    crop = printed.plan.figures_of(printed.planting).crop
    ink = family_ink(crop.family if crop else "")
    growth_form = crop.growth_form if crop else "bush"
    letter = printed.letter
    box = max(_LETTER_BOX, fonts.width(letter, _NAME_SIZE, "bold") + 2.5)
    indent = box + 9.0
    plants = _plants(printed)
    plants_width = fonts.width(plants, SIZE)
    room = paper.room - indent - 2.0
    beside = plants_width + 4.0 < room * 0.6
    lines = fonts.wrap(printed.name, room - (plants_width + 4.0 if beside else 0.0), _NAME_SIZE, "bold")
    under = () if beside or not plants else fonts.wrap(plants, room, SIZE)
    text_height = len(lines) * fonts.line_height(_NAME_SIZE) + len(under) * fonts.line_height(SIZE)

    def draw(pen: Pen, top: float) -> None:
        left = paper.left
        pen.line(left, top, left + paper.room, top, INK, 0.3)
        low = top - 1.5 - _LETTER_BOX
        pen.box(left, low, box, _LETTER_BOX, fill=ink.tint_rgb, rgb=ink.line_rgb, weight=0.3)
        pen.text(left + box / 2, top - 1.5 - 4.4, letter, _NAME_SIZE, "bold", align="middle")
        pen.one_mark(left + box + 4.4, top - 4.5, growth_form, 2.5, ink.line_rgb)
        below = pen.lines(left + indent, top - 2.0, lines, _NAME_SIZE, "bold")
        if beside:
            pen.lines(left + paper.room, top - 2.8, [plants], SIZE, align="right")
        else:
            pen.lines(left + indent, below, under, SIZE)

    return Block(2.0 + max(_LETTER_BOX, text_height), draw)


def _plants(printed: PrintedPlanting) -> str:
    rows = printed.amount.rows
    words = counted(printed.amount.plants, "plant")
    return f"{words} in {counted(rows, 'row')}" if rows else words


def _box(printed: PrintedPlanting, step: Step) -> TickBox:
    if step.at is None:
        return TickBox(step.word)
    words = day_in(step.at.day, printed.plan.span) + (BY_HAND if step.at.pinned else "")
    return TickBox(step.word, words, step.at.origin == "done")
