"""The pages of one bed's sheet: heads, drawings, entries, remarks, lines to write on."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from functools import cached_property

from planner.checks import Finding
from planner.garden import Bed
from planner.listings.phrases import Measure, season, soil_words
from planner.listings.structure_words import light_let_through
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.bed_drawing import BedDrawing
from planner.sheets.bed_entries import entry_blocks
from planner.sheets.bed_frame import BedFrame
from planner.sheets.bed_remarks import (
    caution_blocks,
    dressing_blocks,
    finding_blocks,
    how_dated,
    how_measured,
    note_blocks,
    note_lines,
)
from planner.sheets.drawing_groups import drawing_groups
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.page_chrome import Foot, Paper, draw_page, north_arrow
from planner.sheets.pen import INK, PENCIL, Pen
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.text_blocks import paragraph
from planner.words import capital, say

#: Width for the scale and the north arrow beside the bed's name. [mm]
_ARROW_ROOM = 52.0
#: Size of the bed's name, of the line below it, and of the bed's measures. [points]
_NAME_SIZE, _UNDER_SIZE, _MEASURE_SIZE = 18.0, 9.5, 8.0


@dataclass(frozen=True)
class BedPages:
    """The pages of one bed.

    Attributes
    ----------
    plan : Plan
    bed : Bed
    paper : Paper
    today : date
        Day of printing.
    findings : tuple of Finding
        Of the whole plan; those of the bed are printed.
    """

    plan: Plan
    bed: Bed
    paper: Paper
    today: dt.date
    findings: tuple[Finding, ...] = ()

    @cached_property
    def measure(self) -> Measure:
        """The garden's way of printing lengths."""
        return Measure(self.plan.garden.site.units)

    @cached_property
    def frame(self) -> BedFrame:
        """The bed's frame."""
        return BedFrame(self.bed)

    @cached_property
    def foot(self) -> Foot:
        """Foot of every page."""
        words = f"{self.plan.garden.site.name} · {self.bed.name} · {self._season}"
        return Foot.of(self.paper, words, self.today)

    @cached_property
    def drawing(self) -> BedDrawing:
        """The bed's drawings."""
        groups = drawing_groups(self.plan, self.plan.in_bed(self.bed))
        room = self._room - self._head.height
        return BedDrawing(self.plan, self.bed, self.frame, self.paper, groups, room)

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, their heads included."""
        further = self._further_head
        pages = paginate(self._blocks(), self._room - self._head.height, self._room - further.height)
        found = [[self._head, *pages[0]], *([further, *page] for page in pages[1:])]
        left = self._room - sum(block.height for block in found[-1])
        found[-1] += note_lines(self.bed, self.paper, left)
        return found

    def draw(self, pen: Pen, number: int) -> None:
        """Draw one page.

        Parameters
        ----------
        pen : Pen
        number : int
            Counted from 0.
        """
        draw_page(pen, self.paper, self.pages, number, self.foot)

    @property
    def _season(self) -> str:
        return f"growing year {season(self.plan.garden.site, self.plan.year)}"

    @property
    def _room(self) -> float:
        """Height between the top margin and the foot. [mm]"""
        return self.paper.height - self.paper.top - self.paper.bottom - self.foot.height

    # -- heads ------------------------------------------------------------------------------

    @cached_property
    def _head(self) -> Block:
        """Head of the first page: the bed, its measures, scale and north."""
        paper, site = self.paper, self.plan.garden.site
        room = paper.room - _ARROW_ROOM
        size = fonts.fitted_size(self.bed.name, room, _NAME_SIZE, "bold", least=13.0)
        title = fonts.wrap(self.bed.name, room, size, "bold")
        under = fonts.wrap(f"{site.name} · {self._season}", room, _UNDER_SIZE)
        measures = fonts.wrap(self._bed_words(), room, _MEASURE_SIZE)
        height = (
            len(title) * fonts.line_height(size)
            + len(under) * fonts.line_height(_UNDER_SIZE)
            + len(measures) * fonts.line_height(_MEASURE_SIZE)
        )
        height = max(height, 19.0) + 3.5

        def draw(pen: Pen, top: float) -> None:
            below = pen.lines(paper.left, top, title, size, "bold")
            below = pen.lines(paper.left, below, under, _UNDER_SIZE)
            pen.lines(paper.left, below, measures, _MEASURE_SIZE, rgb=PENCIL)
            right = paper.left + paper.room
            north_arrow(pen, right - 10.0, top - 9.5, self.frame.north(site))
            end = right - 22.0
            pen.lines(end, top - 3.0, self._scale_lines(), 9.0, "bold", align="right")
            pen.line(paper.left, top - height + 1.5, right, top - height + 1.5, INK, 0.35)

        return Block(height, draw)

    def _scale_lines(self) -> list[str]:
        words = self.drawing.scale_words
        return words.replace(" (", "\n(").splitlines()

    @cached_property
    def _further_head(self) -> Block:
        """Head of further pages: one line."""
        paper = self.paper
        words = f"{self.bed.name} · {self.plan.garden.site.name} · {self._season}"
        lines = fonts.wrap(words, paper.room, 9.0, "bold")
        height = len(lines) * fonts.line_height(9.0) + 4.5

        def draw(pen: Pen, top: float) -> None:
            pen.lines(paper.left, top, lines, 9.0, "bold")
            pen.line(paper.left, top - height + 2.5, paper.left + paper.room, top - height + 2.5, INK, 0.35)

        return Block(height, draw)

    def _bed_words(self) -> str:
        """Kind, size, area, height and depth of the bed."""
        length, bed = self.measure.length, self.bed
        size = f"{length(self.frame.length)} × {length(self.frame.width)}"
        if bed.outline.shape == "circle":
            size = f"round, {length(2 * bed.outline.radius)} across"
        elif bed.outline.shape == "polygon":
            size += " over all"
        kind = {"open": "open bed", "raised": "raised bed"}.get(bed.kind, bed.kind)
        words = [kind, size, self.measure.area(self.plan.area(bed))]
        if bed.height > 0:
            words.append(f"{length(bed.height)} high")
        words += soil_words(self.plan.garden.soil_of(bed), length)
        for structure in self.plan.structures_over(bed):
            light = light_let_through(self.plan.catalogue, structure, self.plan.garden.site.southern)
            words.append(
                say("in the {structure} ({light})", structure=structure.name or structure.kind, light=light)
            )
        return capital(" · ".join(words))

    # -- body -------------------------------------------------------------------------------

    def _blocks(self) -> list[Block]:
        """Everything between the heads and the lines to write on."""
        blocks = self.drawing.blocks()
        entries = [
            PrintedPlanting(self.plan, self.frame, labelled)
            for group in self.drawing.groups
            for labelled in group
        ]
        if entries:
            words = how_measured(
                self.frame,
                self.plan.garden.site,
                {tape.direction for entry in entries for tape in entry.tapes},
            )
            words += how_dated(self.plan, [step.at for entry in entries for step in entry.steps if step.at])
            blocks += [*paragraph(self.paper, words, style="italic", size=7.5), gap(2.5)]
        else:
            blocks += [*paragraph(self.paper, "Nothing is planted here in this growing year."), gap(3.0)]
        for entry in entries:
            blocks += entry_blocks(entry, self.paper)
        blocks += dressing_blocks(self.plan, self.bed, self.paper)
        blocks += finding_blocks(self.bed, self.findings, self.paper)
        blocks += caution_blocks(self.plan, self.bed, self.paper)
        return blocks + note_blocks(self.bed, self.paper)
