"""The drawing of a bed at its true scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import shapely

from planner.garden import Bed
from planner.garden.units import FOOT
from planner.plan import Plan
from planner.sheets import fonts
from planner.sheets.flow import Block, gap
from planner.sheets.frame import BedFrame
from planner.sheets.furniture import Paper, dimension, tick_step, upright_dimension
from planner.sheets.inkbox import Ink, family_ink, mixed
from planner.sheets.layers import Lettered
from planner.sheets.pen import FAINT, GROUND, INK, PENCIL, WHITE, Pen
from planner.sheets.scale import Division, Part, divide, scale_words
from planner.sheets.words import Measure, capital

#: Room left of a drawing for its upright dimension, and right of it. [mm]
LEFT_ROOM, RIGHT_ROOM = 11.0, 5.0
#: Most height of a drawing. [mm]
MOST_HEIGHT = 118.0
_TAG_ROW, _TAPE_ROW, _DIMENSION_ROW, _TITLE_ROW = 6.0, 6.5, 5.5, 5.5
_TAG_SIZE, _TAG_HEIGHT = 7.0, 4.4
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

    entry: Lettered
    label: str
    form: str
    ink: Ink
    plot: shapely.Geometry
    stations: np.ndarray
    rows: np.ndarray
    spacing: float


@dataclass(frozen=True)
class Tag:
    """A letter above the drawing that points at its plot. [mm]"""

    drawn: Drawn
    text: str
    x: float
    level: int
    target: float

    @property
    def wide(self) -> float:
        """Width of its box."""
        return tag_width(self.text)


def tag_width(text: str) -> float:
    """Width of a tag's box. [mm]"""
    return max(_TAG_HEIGHT, fonts.width(text, _TAG_SIZE, "bold") + 2.4)


def drawn_planting(plan: Plan, frame: BedFrame, entry: Lettered) -> Drawn:
    """Bring a planting into the frame."""
    facts, placed = plan.known(entry.planting), plan.placed(entry.planting)
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
    layers: tuple[tuple[Lettered, ...], ...]
    page_room: float
    _cache: dict[str, object] = field(default_factory=dict, repr=False, compare=False)

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
        return self.frame.shape(self.plan.obstacles(self.bed))

    def blocks(self) -> list[Block]:
        """The drawings, each a block with a gap below."""
        found = []
        for number, layer in enumerate(self.layers, 1):
            drawn = [drawn_planting(self.plan, self.frame, entry) for entry in layer]
            for k, part in enumerate(self.division.parts, 1):
                found += [self._block(drawn, part, self._title(layer, number, part, k)), gap(2.5)]
        return found

    def _title(self, layer: Sequence[Lettered], number: int, part: Part, k: int) -> str:
        words = []
        if len(self.layers) > 1:
            letters = ", ".join(entry.letter for entry in layer)
            words.append(f"Drawing {number} of {len(self.layers)}: {letters}")
        if len(self.division.parts) > 1:
            tape = self.measure.length
            words.append(
                f"Part {k} of {len(self.division.parts)}: {tape(part.start)} to {tape(part.end)} along the bed"
            )
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
        return place_tags(self, [d for d in self.drawn if not d.plot.is_empty])

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
        if self.part.left is not None or self.part.right is not None:
            head += 3.0
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
        for drawn in self.drawn:
            self._plot(pen, drawn, base)
        self._obstacles(pen, base)
        self._outline(pen, base)
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

    def _plot(self, pen: Pen, drawn: Drawn, base: float) -> None:
        seen = shapely.intersection(drawn.plot, self.window)
        if seen.is_empty:
            return
        page = self._page(seen, base)
        ink = drawn.ink
        pen.shape(page, fill=ink.tint_rgb)
        pen.hatch(page, ink.hatch, ink.tint_rgb, ink.line_rgb)
        pen.shape(page, rgb=ink.line_rgb, weight=0.3)
        start, end = self.part.start - 1e-6, self.part.end + 1e-6
        radius = min(_MOST_MARK, 0.45 * drawn.spacing * self.scale)
        with pen.clipped(self._page(shapely.buffer(seen, radius / self.scale, join_style="mitre"), base)):
            for (x0, y0), (x1, y1) in (self._page_points(row, base) for row in drawn.rows):
                pen.line(x0, y0, x1, y1, mixed(ink.line_rgb, ink.tint_rgb, 0.55), 0.12)
            x = drawn.stations[:, 0]
            points = drawn.stations[(x >= start) & (x <= end)]
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
        with pen.clipped(self._page(self.window, base)):
            pen.shape(self._page(self.drawing.frame.outline, base), rgb=INK, weight=0.45)

    def _base_line(self, pen: Pen, base: float) -> None:
        """The box's lower side and beginning, from which a bed of another shape is measured."""
        high = base + self.drawing.frame.width * self.scale
        pen.line(self._left, base, self.x(self.part.end), base, PENCIL, 0.15, (1.2, 0.8))
        if self.part.left is None:
            pen.line(self._left, base, self._left, high, PENCIL, 0.15, (1.2, 0.8))

    def _joins(self, pen: Pen, base: float) -> None:
        high = base + self.drawing.frame.width * self.scale
        for at, edge, align in (
            (self.part.left, self.part.start, "left"),
            (self.part.right, self.part.end, "right"),
        ):
            if at is None:
                continue
            x = self.x(at)
            pen.line(x, base - 1.5, x, high + 2.0, INK, 0.25, (2.4, 0.8, 0.4, 0.8))
            pen.line(self.x(edge), base, self.x(edge), high, PENCIL, 0.12, (0.8, 0.8))
            words = f"cut and join at {self.drawing.measure.length(at)}"
            shift = 0.0 if align == "left" else fonts.width(words, 6.5, "italic")
            pen.text(x - shift, high + 2.5, words, 6.5, "italic", INK)

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
        for a, b in zip(breaks, breaks[1:], strict=False):
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
        rise = 1.5 + (3.0 if self.part.left is not None or self.part.right is not None else 0.0)
        for tag in self.tags:
            foot = high + rise + tag.level * _TAG_ROW + 0.6
            end = base + tag.target * self.scale
            pen.line(tag.x, foot, tag.x, end, WHITE, 0.7)
            pen.line(tag.x, foot, tag.x, end, INK, 0.15)
            pen.disc(tag.x, end, 0.55, fill=INK, rgb=None)
        for tag in self.tags:
            foot = high + rise + tag.level * _TAG_ROW + 0.6
            ink = tag.drawn.ink
            pen.box(
                tag.x - tag.wide / 2, foot, tag.wide, _TAG_HEIGHT, fill=WHITE, rgb=ink.line_rgb, weight=0.3
            )
            pen.text(tag.x, foot + 1.35, tag.text, _TAG_SIZE, "bold", align="middle")


def place_tags(strip: Strip, drawn: Sequence[Drawn]) -> tuple[Tag, ...]:
    """Places above a drawing for the letters of its plots.

    With the crop's name where there is room for it; no two boxes overlap, and no leader runs through
    a box.
    """
    placed: list[Tag] = []
    for item in drawn:
        seen = shapely.intersection(item.plot, strip.window)
        if seen.is_empty or seen.area < 1e-6:
            continue
        left, _, right, _ = (float(v) for v in shapely.bounds(seen))
        span = (right - left) * strip.scale
        tag = None
        for text in (f"{item.entry.letter} · {item.label}", item.entry.letter):
            if text != item.entry.letter and tag_width(text) > span:
                continue
            tag = _free_tag(strip, item, seen, text, (left, right), placed)
            if tag is not None and tag.level == 0:
                break
        if tag is not None:
            placed.append(tag)
    return tuple(placed)


def _free_tag(
    strip: Strip,
    item: Drawn,
    seen: shapely.Geometry,
    text: str,
    span: tuple[float, float],
    placed: Sequence[Tag],
) -> Tag | None:
    left, right = span
    wide = tag_width(text)
    lowest, highest = strip.drawing.paper.left, strip.drawing.paper.left + strip.drawing.paper.room
    for level in range(60):
        for share in (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9, 0.03, 0.97):
            along = left + share * (right - left)
            x = strip.x(along)
            if x - wide / 2 < lowest or x + wide / 2 > highest:
                continue
            if any(_collides(tag, x, wide, level) for tag in placed):
                continue
            return Tag(item, text, x, level, _target(seen, along, strip.scale))
    return None


def _collides(tag: Tag, x: float, wide: float, level: int) -> bool:
    apart = abs(tag.x - x)
    if tag.level == level:
        return apart < (tag.wide + wide) / 2 + 0.8
    lower_box = tag.wide if tag.level < level else wide  # the other's leader passes beside it
    return apart < lower_box / 2 + 0.6


def _target(seen: shapely.Geometry, along: float, scale: float) -> float:
    """Height in the frame at which a leader ends: a little inside the plot's upper side."""
    _, low, _, high = (float(v) for v in shapely.bounds(seen))
    cut = shapely.intersection(seen, shapely.LineString([(along, low - 1), (along, high + 1)]))
    if cut.is_empty:
        return high
    upper = max(shapely.get_parts(cut), key=lambda piece: shapely.bounds(piece)[3])
    _, bottom, _, top = (float(v) for v in shapely.bounds(upper))
    return top - min(1.3 / scale, (top - bottom) / 2)


def _whole(value: float) -> bool:
    return abs(value - round(value)) < 1e-6
