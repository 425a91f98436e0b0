"""The entry of a planting on its bed's sheet: its line in the table, boxes to tick, details, notes."""

from __future__ import annotations

from planner.listings.phrases import BY_HAND, day_in
from planner.sheets.entry_details import details
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.row_table import LETTER_ROOM, Sides, below_line, table_line
from planner.sheets.steps import Step
from planner.sheets.tape import RowDirection
from planner.sheets.text_blocks import (
    TickBox,
    kept_with_next,
    label_room,
    labelled_texts,
    paragraph,
    tick_boxes,
)
from planner.words import say

#: An entry no higher than this is kept on one page. [mm]
_TOGETHER = 85.0


def entry_blocks(
    printed: PrintedPlanting, paper: Paper, sides: Sides, direction: RowDirection, head: Block
) -> list[Block]:
    """Return everything that a bed's sheet says of a planting, and the gap below it.

    Parameters
    ----------
    printed : PrintedPlanting
    paper : Paper
    sides : Sides
    direction : str
        Of the rows that the head of the table is about.
    head : Block
        Of the table.
    """
    line = table_line(printed, paper, sides, direction, head)
    pairs = details(printed)
    labels = label_room([*(label for label, _ in pairs), say("Notes")])
    blocks = [
        tick_boxes(paper, [_box(printed, step) for step in printed.steps], LETTER_ROOM),
        *labelled_texts(paper, pairs, LETTER_ROOM, labels),
    ]
    notes = printed.planting.notes.strip()
    if notes:
        blocks += paragraph(
            paper, notes, label=say("Notes"), labels=labels, inset=LETTER_ROOM, style="italic"
        )
    blocks = [line, *(below_line(block, printed, sides) for block in blocks)]
    whole = sum(block.height for block in blocks) <= _TOGETHER
    kept = len(blocks) - 1 if whole else 1
    return [*map(kept_with_next, blocks[:kept]), *blocks[kept:], gap(1.0)]


def _box(printed: PrintedPlanting, step: Step) -> TickBox:
    if step.at is None and step.by is not None:
        return TickBox(step.words, say("by {day}", day=day_in(step.by, printed.plan.span)))
    if step.at is None:
        return TickBox(step.words, say("(day not known)"))
    words = day_in(step.at.day, printed.plan.span) + (BY_HAND if step.at.pinned else "")
    return TickBox(step.words, words, step.at.origin == "done")
