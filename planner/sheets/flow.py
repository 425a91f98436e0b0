"""Blocks that flow over pages.

Everything on a sheet between its head and its foot is a block of a known height.  Blocks are put
on pages first and drawn afterwards, so "page 1 of 3" is known when page 1 is drawn.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from planner.sheets.pen import Pen

#: Draws a block with its top edge at a height above the page's bottom. [mm]
Draw = Callable[["Pen", float], None]


@dataclass(frozen=True)
class Block:
    """A piece of a page.

    Attributes
    ----------
    height : float
        [mm]
    draw : callable
        ``draw(pen, top)`` draws it below a height above the page's bottom. [mm]
    with_next : bool
        Whether it is on the same page as the next block.
    repeat : Block or None
        Drawn once more above this block where it begins a page (the head of a table).
    space : bool
        Whether it is empty space, left out at the top and foot of a page.
    """

    height: float
    draw: Draw
    with_next: bool = False
    repeat: Block | None = None
    space: bool = False


def gap(height: float) -> Block:
    """Make a block of empty space. [mm]"""
    return Block(height, lambda pen, top: None, space=True)


Page = list[Block]


def paginate(blocks: Sequence[Block], first_room: float, room: float) -> list[Page]:
    """Put blocks on pages, in order.

    Parameters
    ----------
    blocks : sequence of Block
        A block higher than a page gets a page of its own.
    first_room, room : float
        Height that the first and every further page has for blocks. [mm]

    Returns
    -------
    list of list of Block
        One page at least.
    """
    pages: list[Page] = [[]]
    used = 0.0
    for group in _groups(blocks, room):
        most = first_room if len(pages) == 1 else room
        needed = sum(block.height for block in group)
        fits_next_page = needed <= room + 1e-6 and most < room
        if (pages[-1] or fits_next_page) and used + needed > most + 1e-6:
            while pages[-1] and pages[-1][-1].space:
                pages[-1].pop()
            pages.append([])
            used = 0.0
            if group[0].space:
                group = group[1:]
            if group and group[0].repeat is not None:
                group = [group[0].repeat, *group]
        pages[-1] += group
        used += sum(block.height for block in group)
    if len(pages) > 1 and all(block.space for block in pages[-1]):
        pages.pop()
    return pages


def _groups(blocks: Sequence[Block], room: float) -> list[list[Block]]:
    """Blocks that are kept on one page; a group higher than a page is divided into its blocks."""
    groups: list[list[Block]] = []
    open_group = False
    for block in blocks:
        if open_group:
            groups[-1].append(block)
        else:
            groups.append([block])
        open_group = block.with_next
    parts: list[list[Block]] = []
    for group in groups:
        repeated = group[0].repeat.height if group[0].repeat is not None else 0.0
        fits = sum(block.height for block in group) + repeated <= room
        parts += [group] if fits else [[block] for block in group]
    return parts
