"""The drawings of a bed at their true scale: one for each group of plantings and part of the bed."""

from __future__ import annotations

import datetime as dt
import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import shapely

from planner.garden import Bed, Planting, Structure
from planner.ground.bed_frame import BedFrame
from planner.ground.shapes import plan_polygon, polygons_of, shape_to_own
from planner.plan import Plan
from planner.plan.drawing_groups import LabelledPlanting
from planner.season.spans import Span
from planner.sheets.drawn_things import DrawnCover, DrawnSupport, drawn_covers, drawn_supports
from planner.sheets.family_inks import family_ink
from planner.sheets.flow import Block, gap
from planner.sheets.harvest_record import least_record
from planner.sheets.page_chrome import Paper
from planner.sheets.part_drawing import MARGINS, DrawnBed, DrawnPlanting, PartDrawing, part_words
from planner.sheets.part_layout import ABOVE_BED, AROUND, TAPE_ROW, TITLE_ROW
from planner.sheets.pen import Pen
from planner.sheets.scale import SCALES, USEFUL, Division, Part, divide, on_paper, scale_words
from planner.sheets.sheet_year import SheetYear
from planner.sheets.standing_too import StandingToo, standing_too
from planner.sheets.tape_measure import TapeMeasure
from planner.words import capital, day_words, key_words, say

#: Sets a text on a paper, or in a column of one.
Section = Callable[[Paper], list[Block]]

#: Most height of a bed in a drawing. [mm]
MOST_HEIGHT = 122.0
#: Gap below a drawing, and between two beside each other. [mm]
_GAP, _BESIDE = 2.0, 3.0
#: Distance between plants where neither planting nor crop has a spacing. [m]
_UNKNOWN_SPACING = 0.3
#: Beds are drawn smaller than at a useful scale only where their rows lie so far apart on paper, and down to this
#: scale.  A drawing is at least so long. [mm]
_LEAST_APART, _SMALLEST, _LEAST_LENGTH = 1.9, 100, 48.0
#: Drawings are brought onto one page with the table down to this share of a useful scale.
_TOGETHER = 1.5
#: Height that a page loses where an entry does not fit on it any more. [mm]
_LOST = 15.0
#: Least width beside a drawing for text. [mm]
_LEAST_COLUMN = 62.0


@dataclass(frozen=True)
class BedDrawing:
    """The drawings of a bed on a paper.

    Attributes
    ----------
    year : SheetYear
    bed : Bed
    frame : BedFrame
    paper : Paper
    groups : tuple of tuple of LabelledPlanting
        Plantings that are drawn together.
    page : float
        Height of the first page. [mm]
    texts : sequence of Section
        What may stand beside a drawing, and else stands below the table, in its order.
    table, tapes : float
        Heights of the table, and of the tapes of irregular rows at the end. [mm]
    tint : bool
        Whether plots are tinted and hatched by family.
    """

    year: SheetYear
    bed: Bed
    frame: BedFrame
    paper: Paper
    groups: tuple[tuple[LabelledPlanting, ...], ...]
    page: float
    texts: Sequence[Section]
    table: float
    tapes: float
    tint: bool = False

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.year.plan

    @cached_property
    def measure(self) -> TapeMeasure:
        """The garden's way of printing lengths."""
        return TapeMeasure(self.plan.garden.site.units)

    @cached_property
    def _drawn(self) -> tuple[tuple[DrawnPlanting, ...], ...]:
        found = []
        for group in self.groups:
            alike = len({self._days(one.planting) for one in group}) == 1
            found.append(
                tuple(
                    drawn_planting(self.plan, self.frame, one, "" if alike else self._days(one.planting))
                    for one in group
                )
            )
        return tuple(found)

    @cached_property
    def _covers(self) -> list[tuple[DrawnCover, ...]]:
        return [drawn_covers(self.frame, self.plan, group, self.year.covers) for group in self.groups]

    @cached_property
    def _supports(self) -> list[tuple[DrawnSupport, ...]]:
        return [drawn_supports(self.frame, self.plan, self.bed, group) for group in self.groups]

    @cached_property
    def _standing_too(self) -> list[tuple[StandingToo, ...]]:
        """Of each drawing what stands there on its days, and is drawn in detail in another."""
        return [
            standing_too(
                self.plan,
                self.frame,
                group,
                [one for other in self.groups if other is not group for one in other],
                lambda span: days_on_plot(span, self.plan.span),
            )
            for group in self.groups
        ]

    @cached_property
    def _chosen(self) -> DrawnSheet:
        """Scale, parts, drawings in lines, and the texts beside them.

        The largest scale of those with which the sheet takes the fewest pages, and of these one that leaves room for the
        harvest record and puts drawings and table on the first page, if there is any.  Scales below the useful ones count only where rows can still be told apart.
        """
        units, room = self.measure.units, self.paper.room - MARGINS
        apart = min((one.apart for group in self._drawn for one in group), default=1.0)
        best: tuple[int, bool, bool] | None = None
        chosen = None
        for scale in SCALES[units]:
            wide, high = (on_paper(side, scale) for side in (self.frame.length, self.frame.width))
            small = scale > USEFUL[units] and on_paper(apart, scale) < _LEAST_APART
            if small or scale > _SMALLEST or (scale > SCALES[units][0] and wide < _LEAST_LENGTH):
                break
            if wide > room + 1e-9 or high > MOST_HEIGHT + 1e-9:
                continue
            least = self._least_height(scale)
            if least > self.page or (best is not None and self._rank(scale, least, 0.0) >= best):
                continue
            sheet = self._sheet(Division(scale, (Part(0.0, self.frame.length),)))
            if sheet.height > self.page:
                continue
            rank = self._rank(scale, sheet.height, sheet.below(self.paper))
            if best is None or rank < best:
                best, chosen = rank, sheet
        if chosen is not None:
            return chosen
        most = (room, MOST_HEIGHT)
        return self._sheet(divide(self.frame.length, self.frame.width, most, self.page, AROUND, units))

    def _rank(self, scale: int, drawings: float, texts: float) -> tuple[int, bool, bool]:
        """About how many pages a sheet takes, whether a single one has no room for the record, and whether its table does
        not stand with the drawings on the first.

        Parameters
        ----------
        scale : int
        drawings, texts : float
            Heights of the drawings, and of the texts below the table. [mm]
        """
        over = drawings + self.table + texts + self.tapes - self.page + 1.0
        pages = 1 if over <= 0 else 2 + int(over / (self.page - _LOST))
        together = drawings + self.table <= self.page and scale <= _TOGETHER * USEFUL[self.measure.units]
        return pages, pages == 1 and over + least_record(self.paper) > 0, not together

    def _least_height(self, scale: int) -> float:
        """Height that the drawings have at least, their labels and captions left out. [mm]"""
        columns, _ = self._columns(on_paper(self.frame.length, scale) + MARGINS, len(self.groups))
        each = TITLE_ROW + ABOVE_BED + on_paper(self.frame.width, scale) + TAPE_ROW + _GAP
        return -(-len(self.groups) // columns) * each

    def _columns(self, widest: float, drawings: int) -> tuple[int, float]:
        """How many drawings stand beside each other, and the width for each. [mm]"""
        columns = max(1, int((self.paper.room + _BESIDE) / (widest + _BESIDE) + 1e-9))
        columns = min(columns, drawings)
        width = (self.paper.room - (columns - 1) * _BESIDE) / columns
        if self.paper.room - columns * (widest + _BESIDE) >= _LEAST_COLUMN:
            width = max(widest, _LEAST_COLUMN)  # room for text beside them
        return columns, width

    def _sheet(self, division: Division) -> DrawnSheet:
        """The drawings of a division, with what finds room beside one of them."""
        lines = self._lines(division)
        for line in lines:
            end = max(one.end for one in line)
            free = self.paper.left + self.paper.room - end - _BESIDE
            if free < _LEAST_COLUMN or not self.texts:
                continue
            column = replace(self.paper, left=end + _BESIDE, right=self.paper.right)
            high = max(one.height for one in line)
            beside: list[Block] = []
            taken = 0
            for section in self.texts:
                blocks = section(column)
                if sum(block.height for block in (*beside, *blocks)) > high + 1e-6:
                    break
                beside += blocks
                taken += 1
            if taken:
                return DrawnSheet(division, lines, line, tuple(beside), tuple(self.texts[taken:]))
        return DrawnSheet(division, lines, (), (), tuple(self.texts))

    @property
    def division(self) -> Division:
        """Scale and parts."""
        return self._chosen.division

    @property
    def scale_words(self) -> str:
        """The scale as printed."""
        return say("Scale {scale}", scale=scale_words(self.division.scale, self.measure.units))

    @property
    def texts_below(self) -> tuple[Section, ...]:
        """The texts that found no room beside a drawing, in their order: the last of all there are."""
        return self._chosen.texts

    def blocks(self) -> list[Block]:
        """The drawings in lines, each a block with a gap below."""
        found = []
        for line in self._chosen.lines:
            beside = self._chosen.beside if line is self._chosen.beside_of else ()
            found += [_line_block(line, beside), gap(_GAP)]
        return found

    def _lines(self, division: Division) -> list[list[PartDrawing]]:
        """Drawings of a division, as many beside each other as find room."""
        bed = DrawnBed(
            self.frame, self.paper, self.measure, division, self._obstacles, self._stood_on, self.tint
        )
        widest = max(on_paper(part.length, division.scale) for part in division.parts) + MARGINS
        columns, width = self._columns(widest, len(self.groups) * len(division.parts))
        drawings: list[PartDrawing] = []
        for number, group in enumerate(self.groups):
            for k, part in enumerate(division.parts, 1):
                words = [self._holds(group), part_words(self.measure, part, k, len(division.parts))]
                left = self.paper.left + (len(drawings) % columns) * (width + _BESIDE)
                drawings.append(
                    PartDrawing(
                        bed,
                        self._drawn[number],
                        self._covers[number],
                        self._supports[number],
                        part,
                        " · ".join(word for word in words if word),
                        left,
                        width,
                        number == 0,
                        self._standing_too[number],
                    )
                )
        return [drawings[k : k + columns] for k in range(0, len(drawings), columns)]

    @cached_property
    def _obstacles(self) -> shapely.Geometry:
        return shapely.intersection(self.frame.shape(self.plan.obstacles(self.bed)), self.frame.outline)

    @cached_property
    def _stood_on(self) -> tuple[tuple[str, shapely.Geometry], ...]:
        return tuple(
            (one.name or key_words(one.kind), ground)
            for one in self.plan.garden.structures
            if one.stood_on and one.in_use(self.plan.year)
            for ground in [self._in_bed(one)]
            if not ground.is_empty
        )

    def _in_bed(self, structure: Structure) -> shapely.Geometry:
        """Ground of a structure within the bed, in the frame. [m]"""
        own = shape_to_own(self.bed.outline, plan_polygon(structure.outline))
        return polygons_of(shapely.intersection(self.frame.shape(own), self.frame.outline))

    def _days(self, planting: Planting) -> str:
        """When a planting is on its plot in the growing year."""
        return days_on_plot(self.plan.span_of(planting), self.plan.span)

    def _holds(self, group: Sequence[LabelledPlanting]) -> str:
        """From when to when a drawing holds."""
        spans = [self.plan.span_of(one.planting) for one in group]
        if not spans:
            return ""
        days = Span(min(one.first for one in spans), max(one.last for one in spans))
        return capital(days_on_plot(days, self.plan.span))


def days_on_plot(days: Span, year: Span) -> str:
    """From when to when something stands, as far as it lies in the growing year.

    Parameters
    ----------
    days : Span
    year : Span
        The growing year.
    """

    def words(day: dt.date) -> str:
        return day_words(day, year.first.year if year.first.year == year.last.year else None)

    first, last = days.first > year.first, days.last < year.last
    if first and last:
        return say("{first} to {last}", first=words(days.first), last=words(days.last))
    if first:
        return say("from {day} on", day=words(days.first))
    return say("until {day}", day=words(days.last)) if last else say("the whole year")


@dataclass(frozen=True)
class DrawnSheet:
    """The drawings at a scale.

    Attributes
    ----------
    division : Division
    lines : list of list of PartDrawing
        Drawings beside each other.
    beside_of : sequence of PartDrawing
        The line beside which there is text.
    beside : tuple of Block
    texts : tuple of Section
        What is left of the texts.
    """

    division: Division
    lines: list[list[PartDrawing]]
    beside_of: Sequence[PartDrawing]
    beside: tuple[Block, ...]
    texts: tuple[Section, ...]

    @cached_property
    def height(self) -> float:
        """Of the lines, with the gaps below them. [mm]"""
        return sum(max(one.height for one in line) + _GAP for line in self.lines)

    def below(self, paper: Paper) -> float:
        """Of the texts that are left. [mm]"""
        return sum(block.height for section in self.texts for block in section(paper))


def _line_block(line: Sequence[PartDrawing], beside: Sequence[Block]) -> Block:
    """Drawings beside each other, and text beside them."""

    def draw(pen: Pen, top: float) -> None:
        for one in line:
            one.draw(pen, top)
        at = top
        for block in beside:
            block.draw(pen, at)
            at -= block.height

    return Block(max(one.height for one in line), draw)


def drawn_planting(plan: Plan, frame: BedFrame, labelled: LabelledPlanting, days: str) -> DrawnPlanting:
    """Bring a planting into the frame, with its ink and mark.

    Parameters
    ----------
    plan : Plan
    frame : BedFrame
        Frame of the planting's bed.
    labelled : LabelledPlanting
    days : str
        When it is on its plot, to be printed with its name; may be empty.
    """
    planting = labelled.planting
    figures, placed = plan.figures_of(planting), plan.placed(planting)
    crop, layout = figures.crop, placed.layout
    spacings = [spacing for spacing in (layout.in_row_spacing, layout.row_spacing) if spacing]
    if not spacings:
        apart = (placed.area / layout.count) ** 0.5 if layout.count else _UNKNOWN_SPACING
        spacings = [min(apart, figures.number("in_row_spacing") or apart)]
    planted = [row for row in layout.rows if row.count]
    ends = frame.points(list(itertools.chain.from_iterable((row.start, row.end) for row in planted)))
    return DrawnPlanting(
        letter=labelled.letter,
        name=sort_name(plan, planting),
        days=days,
        growth_form=crop.growth_form if crop else "bush",
        ink=family_ink(crop.family if crop else ""),
        plot=frame.shape(placed.plot),
        stations=frame.points(layout.points),
        rows=ends.reshape(-1, 2, 2),
        spacing=min(spacings),
        # What is scattered has no rows that must be told apart.
        apart=math.inf if planting.arrangement.kind == "scatter" else layout.row_spacing or min(spacings),
    )


def sort_name(plan: Plan, planting: Planting) -> str:
    """Crop and variety: ``Carrot ‘Long Hallow’``."""
    crop = plan.figures_of(planting).crop
    name = capital(crop.name if crop else planting.crop)
    return say("{crop} ‘{variety}’", crop=name, variety=planting.variety) if planting.variety else name
