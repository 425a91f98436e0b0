"""The pages of one bed's sheet: heads, drawings, entries, remarks, lines to write on."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import dataclass
from functools import cached_property

from planner.checks import Finding
from planner.garden import Bed
from planner.garden.units import show_length
from planner.ground.bed_frame import BedFrame
from planner.listings.phrases import season, soil_words
from planner.listings.record_words import lesson_lines
from planner.listings.structure_words import light_let_through
from planner.listings.water import bed_water_lines
from planner.plan import Plan
from planner.plan.recorded import lessons_in_plan
from planner.sheets import fonts
from planner.sheets.bed_drawing import BedDrawing, Section
from planner.sheets.bed_entries import entry_blocks
from planner.sheets.bed_remarks import (
    bed_findings,
    caution_blocks,
    how_dated,
    how_measured,
    listed_blocks,
    note_blocks,
)
from planner.sheets.cautions import bed_cautions
from planner.sheets.flow import Block, Page, gap, paginate
from planner.sheets.harvest_record import record_blocks
from planner.sheets.page_chrome import Foot, Paper, draw_page, north_arrow
from planner.sheets.pen import INK, Pen
from planner.sheets.printed_planting import PrintedPlanting
from planner.sheets.row_table import Sides, is_irregular, table_head
from planner.sheets.row_tapes import tape_blocks
from planner.sheets.sheet_sources import SheetSources
from planner.sheets.sheet_year import SheetYear
from planner.sheets.spread_remarks import bed_spread_lines
from planner.sheets.tape import RowDirection
from planner.sheets.tape_measure import TapeMeasure
from planner.sheets.text_blocks import paragraph, ticked_paragraph
from planner.words import capital, key_words, say

#: Width for the scale and the north arrow beside the bed's name. [mm]
_ARROW_ROOM = 52.0
#: Size of the bed's name, of the line below it, and of the bed's measures. [points]
_NAME_SIZE, _UNDER_SIZE, _MEASURE_SIZE = 18.0, 9.0, 8.0
#: Size of the sentences on how it is measured. [points]
_HOW_SIZE = 8.0


@dataclass(frozen=True)
class BedPages:
    """The pages of one bed in which something stands in the growing year.

    Attributes
    ----------
    year : SheetYear
    bed : Bed
    paper : Paper
    today : date
        Day of printing.
    findings : tuple of Finding
        Of the whole plan; those of the bed are printed.
    tint : bool
        Whether plots are tinted and hatched by family.
    with_sources : bool
        Whether the sources of the bed are printed at the end.
    """

    year: SheetYear
    bed: Bed
    paper: Paper
    today: dt.date
    findings: tuple[Finding, ...] = ()
    tint: bool = False
    with_sources: bool = False

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.year.plan

    @cached_property
    def measure(self) -> TapeMeasure:
        """The garden's way of printing lengths."""
        return TapeMeasure(self.plan.garden.site.units)

    @cached_property
    def sides(self) -> Sides:
        """Sides of the bed by the compass."""
        return Sides.of(self.frame, self.plan.garden.site)

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
    def entries(self) -> list[PrintedPlanting]:
        """Its plantings, in the order of their letters."""
        return [
            PrintedPlanting(self.year, self.frame, labelled)
            for group in self.year.groups(self.bed)
            for labelled in group
        ]

    @cached_property
    def drawing(self) -> BedDrawing:
        """The bed's drawings."""
        return BedDrawing(
            self.year,
            self.bed,
            self.frame,
            self.paper,
            self.year.groups(self.bed),
            self._room - self._head_height,
            self._remarks,
            sum(block.height for block in self._table),
            sum(block.height for block in self._tapes),
            self.tint,
        )

    @cached_property
    def pages(self) -> list[Page]:
        """Blocks of each page, their heads included."""
        further = self._further_head
        below = list(self.drawing.texts_below)
        above = below[:1] if len(below) == len(self._remarks) else []  # how it is measured
        blocks = self.drawing.blocks()
        for section in above:
            blocks += section(self.paper)
        blocks += self._table
        for section in below[len(above) :]:
            blocks += section(self.paper)
        blocks += self._tapes
        if self.with_sources:
            sources = SheetSources(self.plan)
            sources.add_bed(self.bed)
            blocks += sources.blocks(self.paper)
        pages = paginate(blocks, self._room - self._head.height, self._room - further.height)
        found = [[self._head, *pages[0]], *([further, *page] for page in pages[1:])]
        record = record_blocks(self.paper, self._room - sum(block.height for block in found[-1]))
        if record:
            found[-1] += record
        else:  # on the back of a sheet that is full
            room = self._room - further.height
            found.append([further, *record_blocks(self.paper, room, whole_page=True)])
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
        return season_words(self.plan)

    @property
    def _room(self) -> float:
        """Height between the top margin and the foot. [mm]"""
        return self.paper.height - self.paper.top - self.paper.bottom - self.foot.height

    # -- heads ------------------------------------------------------------------------------

    @cached_property
    def _head_texts(self) -> tuple[float, tuple[tuple[str, ...], ...]]:
        """Size of the bed's name, and the lines: name, garden and season, measures."""
        paper, site = self.paper, self.plan.garden.site
        room = paper.room - _ARROW_ROOM
        size = fonts.fitted_size(self.bed.name, room, _NAME_SIZE, "bold", least=13.0)
        return size, (
            fonts.wrap(self.bed.name, room, size, "bold"),
            fonts.wrap(f"{site.name} · {self._season}", room, _UNDER_SIZE),
            fonts.wrap(self._bed_words(), room, _MEASURE_SIZE),
        )

    @cached_property
    def _head_height(self) -> float:
        size, texts = self._head_texts
        sizes = (size, _UNDER_SIZE, _MEASURE_SIZE)
        height = sum(len(lines) * fonts.line_height(at) for lines, at in zip(texts, sizes, strict=True))
        return max(height, 19.0) + 2.5

    @cached_property
    def _head(self) -> Block:
        """Head of the first page: the bed, its measures, scale and north."""
        paper, site, height = self.paper, self.plan.garden.site, self._head_height
        size, (title, under, measures) = self._head_texts
        scale = self.drawing.scale_words.replace(" (", "\n(").splitlines()

        def draw(pen: Pen, top: float) -> None:
            with pen.tagged("H1"):
                below = pen.lines(paper.left, top, title, size, "bold")
            with pen.tagged("P"):
                below = pen.lines(paper.left, below, under, _UNDER_SIZE)
            with pen.tagged("P"):
                pen.lines(paper.left, below, measures, _MEASURE_SIZE)
            right = paper.left + paper.room
            north_arrow(pen, right - 10.0, top - 9.5, self.frame.north(site))
            with pen.tagged("P"):
                pen.lines(right - 22.0, top - 3.0, scale, 9.0, "bold", align="right")
            pen.line(paper.left, top - height + 1.0, right, top - height + 1.0, INK, 0.35)

        return Block(height, draw)

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
        units, bed = self.plan.garden.site.units, self.bed

        def length(metres: float) -> str:
            return show_length(metres, units).replace(" ", "\u00a0")

        size = f"{length(self.frame.length)} × {length(self.frame.width)}"
        if bed.outline.shape == "circle":
            size = say("round, {length} across", length=length(2 * bed.outline.radius))
        elif bed.outline.shape == "polygon":
            size = say("{size} over all", size=size)
        words = [_kind_words(bed.kind), size, self.measure.area(self.plan.area(bed))]
        if bed.height > 0:
            words.append(say("{height} high", height=length(bed.height)))
        words += soil_words(self.plan.garden.soil_of(bed), length)
        for structure in self.plan.structures_over(bed):
            light = light_let_through(self.plan.catalogue, structure, self.plan.garden.site.southern)
            words.append(
                say(
                    "in the {structure} ({light})",
                    structure=structure.name or key_words(structure.kind),
                    light=light,
                )
            )
        return capital(" · ".join(words))

    # -- body -------------------------------------------------------------------------------

    @cached_property
    def _direction(self) -> RowDirection:
        """How most rows run."""
        found: Counter[RowDirection] = Counter(
            one.tapes[0].direction for one in self.entries if one.tapes and not is_irregular(one)
        )
        return found.most_common(1)[0][0] if found else "along"

    @cached_property
    def _table(self) -> list[Block]:
        """The table, an entry for each planting."""
        head = table_head(self.paper, self.sides, self._direction, self.measure)
        blocks = [head]
        for one in self.entries:
            blocks += entry_blocks(one, self.paper, self.sides, self._direction, head)
        return blocks

    @cached_property
    def _remarks(self) -> list[Section]:
        """What is said besides, each set on a paper: how it is measured, what is spread, notes, water, findings, cautions."""
        entries = self.entries
        shared = any(
            step is not None and step.plants > 1
            for one in entries
            for tape in one.tapes
            for step in [self.measure.marks(tape).step]
        )
        directions = {tape.direction for one in entries for tape in one.tapes}
        measured = how_measured(self.frame, self.sides, directions, self.measure, shared=shared)
        dated = how_dated(self.plan, [step.at for one in entries for step in one.steps if step.at])
        how = say("{measured} {dated}", measured=measured, dated=dated) if dated else measured
        spread = bed_spread_lines(self.year.spreads.get(self.bed.id, ()), self.measure, self.plan)
        found = bed_findings(self.bed, self.findings)
        cautions = bed_cautions(self.plan, self.bed)
        pinned = dict.fromkeys(
            lesson
            for crop in ("", *(one.planting.crop for one in entries))
            for lesson in lessons_in_plan(self.plan, crop, self.bed.id)
        )
        lessons = lesson_lines(pinned)
        water = bed_water_lines(self.plan, self.bed)

        def set_how(paper: Paper) -> list[Block]:
            return [*paragraph(paper, how, style="italic", size=_HOW_SIZE, together=True), gap(2.0)]

        def set_spread(paper: Paper) -> list[Block]:
            if not spread:
                return []
            lines = [block for one in spread for block in ticked_paragraph(paper, one.text, ticked=one.done)]
            return [*lines, gap(2.0)]

        def set_notes(paper: Paper) -> list[Block]:
            return note_blocks(self.bed, paper, lessons)

        def set_findings(paper: Paper) -> list[Block]:
            return listed_blocks(paper, say("Findings"), found)

        def set_water(paper: Paper) -> list[Block]:
            return listed_blocks(paper, say("Water"), water)

        def set_cautions(paper: Paper) -> list[Block]:
            return caution_blocks(cautions, paper)

        return [set_how, set_spread, set_notes, set_water, set_findings, set_cautions]

    @cached_property
    def _tapes(self) -> list[Block]:
        """Tapes of irregular rows."""
        return [
            block
            for one in self.entries
            if is_irregular(one)
            for block in tape_blocks(one, self.paper, self.sides)
        ]


def season_words(plan: Plan) -> str:
    """The growing year: ``growing year 2026/27``."""
    return say("growing year {year}", year=season(plan.garden.site, plan.year))


def _kind_words(kind: str) -> str:
    """What a kind of bed is called."""
    if kind == "open":
        return say("open bed")
    return say("raised bed") if kind == "raised" else key_words(kind)
