"""The drawings of a bed at their true scale: one for each group of plantings and part of the bed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely

from planner.garden import Bed, Structure
from planner.ground.shapes import plan_polygon, polygons_of, shape_to_own
from planner.listings.phrases import Measure
from planner.plan import Plan
from planner.sheets.bed_frame import BedFrame
from planner.sheets.drawing_groups import LabelledPlanting
from planner.sheets.family_inks import family_ink
from planner.sheets.flow import Block, gap
from planner.sheets.page_chrome import Paper
from planner.sheets.part_drawing import DrawnBed, DrawnPlanting, PartDrawing
from planner.sheets.part_layout import AROUND, LEFT_ROOM, RIGHT_ROOM
from planner.sheets.scale import Division, Part, divide, scale_words
from planner.words import capital

#: Most height of a bed in a drawing. [mm]
MOST_HEIGHT = 122.0
#: Gap below a drawing. [mm]
_GAP = 2.5
#: Distance between plants where neither planting nor crop has a spacing. [m]
_UNKNOWN_SPACING = 0.3


@dataclass(frozen=True)
class BedDrawing:
    """The drawings of a bed on a paper.

    Attributes
    ----------
    plan : Plan
    bed : Bed
    frame : BedFrame
    paper : Paper
    groups : tuple of tuple of LabelledPlanting
        Plantings that are drawn together.
    page_room : float
        Height for drawings on the first page. [mm]
    """

    plan: Plan
    bed: Bed
    frame: BedFrame
    paper: Paper
    groups: tuple[tuple[LabelledPlanting, ...], ...]
    page_room: float

    @cached_property
    def measure(self) -> Measure:
        """The garden's way of printing lengths."""
        return Measure(self.plan.garden.site.units)

    @cached_property
    def division(self) -> Division:
        """Scale and parts."""
        room = (self.paper.room - LEFT_ROOM - RIGHT_ROOM, MOST_HEIGHT)
        return divide(self.frame.length, self.frame.width, room, self.page_room, AROUND, self.measure.units)

    @property
    def scale_words(self) -> str:
        """The scale as printed."""
        return f"Scale {scale_words(self.division.scale, self.measure.units)}"

    def blocks(self) -> list[Block]:
        """The drawings, each a block with a gap below."""
        obstacles = shapely.intersection(self.frame.shape(self.plan.obstacles(self.bed)), self.frame.outline)
        stood_on = tuple(
            (one.name or one.kind, ground)
            for one in self.plan.garden.structures
            if one.stood_on and one.in_use(self.plan.year)
            for ground in [self._in_bed(one)]
            if not ground.is_empty
        )
        drawn_bed = DrawnBed(self.frame, self.paper, self.measure, self.division, obstacles, stood_on)
        blocks = []
        for number, group in enumerate(self.groups, 1):
            drawn = tuple(drawn_planting(self.plan, self.frame, labelled) for labelled in group)
            for k, part in enumerate(self.division.parts, 1):
                drawing = PartDrawing(drawn_bed, drawn, part, self._title(group, number, part, k))
                blocks += [drawing.block(), gap(_GAP)]
        return blocks

    def _in_bed(self, structure: Structure) -> shapely.Geometry:
        """Ground of a structure within the bed, in the frame. [m]"""
        own = shape_to_own(self.bed.outline, plan_polygon(structure.outline))
        return polygons_of(shapely.intersection(self.frame.shape(own), self.frame.outline))

    def _title(self, group: Sequence[LabelledPlanting], number: int, part: Part, k: int) -> str:
        """Which of several drawings and parts it is; empty for a single one."""
        words = []
        if len(self.groups) > 1:
            letters = ", ".join(labelled.letter for labelled in group)
            words.append(f"Drawing {number} of {len(self.groups)}: {letters}")
        if len(self.division.parts) > 1:
            length = self.measure.length
            words.append(
                f"Part {k} of {len(self.division.parts)}: "
                f"{length(part.start)} to {length(part.end)} along the bed"
            )
            joins = " and ".join(length(at) for at in (part.left, part.right) if at is not None)
            words.append(f"cut and join at {joins}")
        return " · ".join(words)


def drawn_planting(plan: Plan, frame: BedFrame, labelled: LabelledPlanting) -> DrawnPlanting:
    """Bring a planting into the frame, with its ink and mark.

    Parameters
    ----------
    plan : Plan
    frame : BedFrame
        Frame of the planting's bed.
    labelled : LabelledPlanting
    """
    planting = labelled.planting
    figures, placed = plan.figures_of(planting), plan.placed(planting)
    crop, layout = figures.crop, placed.layout
    spacings = [spacing for spacing in (layout.in_row_spacing, layout.row_spacing) if spacing]
    if not spacings:
        apart = (placed.area / layout.count) ** 0.5 if layout.count else _UNKNOWN_SPACING
        spacings = [min(apart, figures.number("in_row_spacing") or apart)]
    planted = [row for row in layout.rows if row.count]
    ends = frame.points([end for row in planted for end in (row.start, row.end)])
    return DrawnPlanting(
        letter=labelled.letter,
        name=capital(crop.name if crop else planting.crop),
        growth_form=crop.growth_form if crop else "bush",
        ink=family_ink(crop.family if crop else ""),
        plot=frame.shape(placed.plot),
        stations=frame.points(layout.points),
        rows=ends.reshape(-1, 2, 2),
        spacing=min(spacings),
    )
