"""The drawing of a bed at its true scale."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from planner.garden import Bed
from planner.garden.units import FOOT
from planner.ground.shapes import polygons_of
from planner.listings.phrases import Measure, capital
from planner.plan import Plan
from planner.sheets.bed_frame import BedFrame
from planner.sheets.drawing_groups import LabelledPlanting
from planner.sheets.flow import Block, gap
from planner.sheets.inkbox import Ink, family_ink, mixed
from planner.sheets.page_chrome import Paper, dimension, tick_step, upright_dimension
from planner.sheets.pen import FAINT, GROUND, INK, PENCIL, WHITE, Pen
from planner.sheets.scale import Division, Part, divide, scale_words
from planner.sheets.tags import TAG_HEIGHT, TAG_SIZE, Tag, Tagged, place_tags

#: Room left of a drawing for its upright dimension, and right of it. [mm]
LEFT_ROOM, RIGHT_ROOM = 11.0, 5.0
#: Most height of a drawing. [mm]
MOST_HEIGHT = 122.0
_TAG_ROW, _TAPE_ROW, _DIMENSION_ROW, _TITLE_ROW = 6.0, 6.5, 5.5, 5.5
#: What a drawing needs in height besides the bed. [mm]
AROUND = _TITLE_ROW + _TAG_ROW + _TAPE_ROW + 2 * _DIMENSION_ROW + 4.0
_MOST_MARK = 3.2
_MOST_CHAIN = 16

_TICKS = {
    "metric": (0.05, 0.1, 0.25, 0.5, 1.0, 5.0, 10.0, 50.0),
    "feet_inches": tuple(FOOT * n for n in (1 / 6, 0.25, 0.5, 1, 5, 10, 50, 100)),
}
_LABELS = {
    "metric": (0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0),
    "feet_inches": tuple(FOOT * n for n in (0.5, 1, 2, 5, 10, 20, 50, 100, 200)),
}


@dataclass(frozen=True)
class Drawn:
    """A planting as it is drawn: in the frame, with its ink and mark."""

    entry: LabelledPlanting
    label: str
    form: str
    ink: Ink
    plot: shapely.Geometry
    stations: np.ndarray
    rows: np.ndarray
    spacing: float


def drawn_planting(plan: Plan, frame: BedFrame, entry: LabelledPlanting) -> Drawn:
    """Bring a planting into the frame."""
    facts, placed = plan.figures_of(entry.planting), plan.placed(entry.planting)
    crop, layout = facts.crop, placed.layout
    spacing = [s for s in (layout.in_row_spacing, layout.row_spacing) if s]
    if not spacing:
        apart = (placed.area / layout.count) ** 0.5 if layout.count else 0.3
        spacing = [min(apart, facts.number("in_row_spacing") or apart)]
    held = [row for row in layout.rows if row.count]
    ends = frame.points([end for row in held for end in (row.start, row.end)])
    return Drawn(
        entry=entry,
        label=capital(crop.name if crop else entry.planting.crop),
        form=crop.growth_form if crop else "bush",
        ink=family_ink(crop.family if crop else ""),
        plot=frame.shape(placed.plot),
        stations=frame.points(layout.points),
        rows=ends.reshape(-1, 2, 2),
        spacing=min(spacing),
    )


@dataclass(frozen=True)
class BedDrawing:
    """A bed's drawings on a paper: one for each layer of plantings and part of the bed."""

    plan: Plan
    bed: Bed
    frame: BedFrame
    paper: Paper
    layers: tuple[tuple[LabelledPlanting, ...], ...]
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

    @cached_property
    def obstacles(self) -> shapely.Geometry:
        """Ground in the bed that is kept free, in the frame."""
        return shapely.intersection(self.frame.shape(self.plan.obstacles(self.bed)), self.frame.outline)

    def blocks(self) -> list[Block]:
        """The drawings, each a block with a gap below."""
        found = []
        for number, layer in enumerate(self.layers, 1):
            drawn = [drawn_planting(self.plan, self.frame, entry) for entry in layer]
            for k, part in enumerate(self.division.parts, 1):
                found += [self._block(drawn, part, self._title(layer, number, part, k)), gap(2.5)]
        return found

    def _title(self, layer: Sequence[LabelledPlanting], number: int, part: Part, k: int) -> str:
        words = []
        if len(self.layers) > 1:
            letters = ", ".join(entry.letter for entry in layer)
            words.append(f"Drawing {number} of {len(self.layers)}: {letters}")
        if len(self.division.parts) > 1:
            tape = self.measure.length
            words.append(
                f"Part {k} of {len(self.division.parts)}: {tape(part.start)} to {tape(part.end)} along the bed"
            )
            joins = " and ".join(tape(at) for at in (part.left, part.right) if at is not None)
            words.append(f"cut and join at {joins}")
        return " · ".join(words)

    def _block(self, drawn: Sequence[Drawn], part: Part, title: str) -> Block:
        return Strip(self, tuple(drawn), part, title).block()


@dataclass(frozen=True)
class Strip:
    """One drawing: a part of the bed with one layer of plantings."""

    drawing: BedDrawing
    drawn: tuple[Drawn, ...]
    part: Part
    title: str

    @cached_property
    def scale(self) -> float:
        """Millimetres on paper for a metre of ground."""
        return 1000.0 / self.drawing.division.scale

    @property
    def _left(self) -> float:
        return self.drawing.paper.left + LEFT_ROOM

    def x(self, along: float) -> float:
        """Page millimetres of a distance along the bed."""
        return self._left + (along - self.part.start) * self.scale

    @cached_property
    def window(self) -> shapely.Polygon:
        """The part of the frame that is drawn."""
        return shapely.box(self.part.start, -1.0, self.part.end, self.drawing.frame.width + 1.0)

    @cached_property
    def tags(self) -> tuple[Tag, ...]:
        """Letters above the drawing, in as many levels as they need."""
        paper = self.drawing.paper
        return place_tags(
            [
                Tagged(d.entry.letter, d.label, d.ink.line_rgb, shapely.intersection(d.plot, self.window))
                for d in self.drawn
            ],
            self.x,
            self.scale,
            (paper.left, paper.left + paper.room),
        )

    @cached_property
    def _breaks(self) -> list[float]:
        """Where plots begin and end along the part, joins and ends included."""
        low, high = self._measured
        found = {round(low, 4), round(high, 4)}
        for drawn in self.drawn:
            if not drawn.plot.is_empty:
                left, _, right, _ = shapely.bounds(drawn.plot)
                found |= {round(float(v), 4) for v in (left, right) if low < v < high}
        merged: list[float] = []
        for value in sorted(found):
            if not merged or value - merged[-1] > 0.005:
                merged.append(value)
        return merged if 2 < len(merged) <= _MOST_CHAIN else []

    @property
    def _measured(self) -> tuple[float, float]:
        part = self.part
        left = part.left if part.left is not None else part.start
        right = part.right if part.right is not None else part.end
        return left, right

    def block(self) -> Block:
        """The drawing as a block."""
        levels = max((tag.level for tag in self.tags), default=-1) + 1
        head = (_TITLE_ROW if self.title else 0.0) + max(levels, 0) * _TAG_ROW + 1.5
        below = _TAPE_ROW + _DIMENSION_ROW * (2 if self._breaks else 1)
        height = head + self.drawing.frame.width * self.scale + below

        def draw(pen: Pen, top: float) -> None:
            self._draw(pen, top, top - head - self.drawing.frame.width * self.scale)

        return Block(height, draw)

    # -- drawing ----------------------------------------------------------------------------

    def _draw(self, pen: Pen, top: float, base: float) -> None:
        if self.title:
            pen.text(self.drawing.paper.left, top - 3.4, self.title, 8.5, "bold")
        seen = self._page(shapely.intersection(self.drawing.frame.outline, self.window), base)
        pen.shape(seen, fill=GROUND)
        if not self.drawing.frame.is_rectangle:
            self._base_line(pen, base)
        self._grounds(pen, base)
        self._obstacles(pen, base)
        self._outline(pen, base)
        for drawn in self.drawn:
            self._plants(pen, drawn, base)
        self._joins(pen, base)
        self._tape(pen, base)
        self._dimensions(pen, base)
        self._tags(pen, base)

    def _page(self, geometry: shapely.Geometry, base: float) -> shapely.Geometry:
        corner = np.array([self.part.start, 0.0])
        at = np.array([self._left, base])
        return shapely.transform(geometry, lambda points: (points - corner) * self.scale + at)

    def _page_points(self, points: np.ndarray, base: float) -> np.ndarray:
        moved: np.ndarray = (points - [self.part.start, 0.0]) * self.scale + [self._left, base]
        return moved

    def _grounds(self, pen: Pen, base: float) -> None:
        """Tint, hatch and outline of each plot; shared ground carries those of the first."""
        taken = shapely.Polygon()
        for drawn in self.drawn:
            seen = shapely.intersection(drawn.plot, self.window)
            if seen.is_empty:
                continue
            ground = polygons_of(shapely.difference(seen, taken))
            page, ink = self._page(ground, base), drawn.ink
            pen.shape(page, fill=ink.tint_rgb)
            pen.hatch(page, ink.hatch, ink.tint_rgb, ink.line_rgb)
            pen.shape(self._page(seen, base), rgb=ink.line_rgb, weight=0.3)
            taken = shapely.union(taken, seen)

    def _plants(self, pen: Pen, drawn: Drawn, base: float) -> None:
        seen = polygons_of(shapely.intersection(drawn.plot, self.window))
        if seen.is_empty:
            return
        ink = drawn.ink
        radius = min(_MOST_MARK, (0.45 if len(drawn.rows) else 0.34) * drawn.spacing * self.scale)
        with pen.clipped(self._page(seen, base)):
            for (x0, y0), (x1, y1) in (self._page_points(row, base) for row in drawn.rows):
                pen.line(x0, y0, x1, y1, mixed(ink.line_rgb, ink.tint_rgb, 0.55), 0.12)
        around = shapely.buffer(seen, radius / self.scale, join_style="mitre") if len(drawn.rows) else seen
        with pen.clipped(self._page(around, base)):
            x = drawn.stations[:, 0]
            points = drawn.stations[(x >= self.part.start - 1e-6) & (x <= self.part.end + 1e-6)]
            pen.marks(self._page_points(points, base), drawn.form, max(radius, 0.2), ink.line_rgb)

    def _obstacles(self, pen: Pen, base: float) -> None:
        seen = shapely.intersection(self.drawing.obstacles, self.window)
        if seen.is_empty:
            return
        page = self._page(seen, base)
        pen.shape(page, fill=FAINT)
        pen.hatch(page, "net", FAINT, INK)
        pen.shape(page, rgb=INK, weight=0.25)

    def _outline(self, pen: Pen, base: float) -> None:
        """The bed's outline, left open where the bed goes on in another part."""
        left = self.part.start if self.part.left is not None else self.part.start - 1.0
        right = self.part.end if self.part.right is not None else self.part.end + 1.0
        shown = shapely.box(left, -1.0, right, self.drawing.frame.width + 1.0)
        with pen.clipped(self._page(shown, base)):
            pen.shape(self._page(self.drawing.frame.outline, base), rgb=INK, weight=0.45)

    def _base_line(self, pen: Pen, base: float) -> None:
        """The box's lower side and beginning, from which a bed of another shape is measured."""
        high = base + self.drawing.frame.width * self.scale
        pen.line(self._left, base, self.x(self.part.end), base, PENCIL, 0.15, (1.2, 0.8))
        if self.part.left is None:
            pen.line(self._left, base, self._left, high, PENCIL, 0.15, (1.2, 0.8))

    def _joins(self, pen: Pen, base: float) -> None:
        """Where to cut, and how far the neighbour's ground goes on."""
        high = base + self.drawing.frame.width * self.scale
        for at, edge in ((self.part.left, self.part.start), (self.part.right, self.part.end)):
            if at is None:
                continue
            x = self.x(at)
            pen.line(x, base - 1.0, x, high + 1.4, INK, 0.25, (2.4, 0.8, 0.4, 0.8))
            for end, back in ((high + 1.4, 1.3), (base - 1.0, -1.3)):
                arrow = shapely.Polygon([(x, end - back), (x - 0.9, end), (x + 0.9, end)])
                pen.shape(arrow, fill=INK)
            pen.line(self.x(edge), base, self.x(edge), high, PENCIL, 0.12, (0.8, 0.8))

    def _tape(self, pen: Pen, base: float) -> None:
        """Ticks and numbers along the lower edge, counted from the bed's beginning."""
        units = self.drawing.measure.units
        scale = self.drawing.division.scale
        small = tick_step(_TICKS[units], scale, 1.6)
        large = tick_step([s for s in _LABELS[units] if _whole(s / small)], scale, 11.0)
        y = base - 1.2
        pen.line(self.x(self.part.start), y, self.x(self.part.end), y, PENCIL, 0.13)
        first, last = self.part.start - 1e-9, self.part.end + 1e-9
        for k in range(round(last / small) + 1):
            at = k * small
            if not first <= at <= last:
                continue
            labelled = _whole(at / large)
            pen.line(self.x(at), y, self.x(at), y - (1.5 if labelled else 0.8), PENCIL, 0.13)
            if labelled:
                words = self._tape_words(at, large)
                pen.text(self.x(at), y - 4.0, words, 6.5, rgb=PENCIL, align="middle")

    def _tape_words(self, at: float, step: float) -> str:
        if at < 1e-9:
            return "0"
        if self.drawing.measure.units == "metric":
            return f"{at:.1f} m" if step < 1.0 - 1e-9 else f"{at:.0f} m"
        return self.drawing.measure.length(at)

    def _dimensions(self, pen: Pen, base: float) -> None:
        frame, measure = self.drawing.frame, self.drawing.measure
        y = base - _TAPE_ROW - 3.6
        breaks = self._breaks
        for a, b in itertools.pairwise(breaks):
            dimension(pen, self.x(a), self.x(b), y, measure.length(b - a))
        if breaks:
            y -= _DIMENSION_ROW
        low, high = self._measured
        words = measure.length(high - low)
        if len(self.drawing.division.parts) > 1:
            words += f" of {measure.length(frame.length)}"
        dimension(pen, self.x(low), self.x(high), y, words)
        x = self.drawing.paper.left + 5.0
        upright_dimension(pen, base, base + frame.width * self.scale, x, measure.length(frame.width))

    def _tags(self, pen: Pen, base: float) -> None:
        high = base + self.drawing.frame.width * self.scale
        rise = 1.5
        for tag in self.tags:
            foot = high + rise + tag.level * _TAG_ROW + 0.6
            end = base + tag.target * self.scale
            pen.line(tag.x, foot, tag.foot, end, WHITE, 0.7)
            pen.line(tag.x, foot, tag.foot, end, INK, 0.15)
            pen.disc(tag.foot, end, 0.55, fill=INK, rgb=None)
        for tag in self.tags:
            foot = high + rise + tag.level * _TAG_ROW + 0.6
            pen.box(tag.x - tag.wide / 2, foot, tag.wide, TAG_HEIGHT, fill=WHITE, rgb=tag.rgb, weight=0.3)
            pen.text(tag.x, foot + 1.35, tag.text, TAG_SIZE, "bold", align="middle")


def _whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6
