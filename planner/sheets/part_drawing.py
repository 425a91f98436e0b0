"""One drawing: a part of a bed, to scale, with a group of plantings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from planner.ground.bed_frame import BedFrame
from planner.ground.shapes import polygons_of
from planner.sheets import fonts
from planner.sheets.drawn_things import DrawnCover, DrawnSupport, cover_caption, support_caption
from planner.sheets.family_inks import Ink, mixed
from planner.sheets.page_chrome import Paper
from planner.sheets.part_layout import (
    ABOVE_BED,
    CAPTION_ROW,
    FIGURE_SIZE,
    LEFT_ROOM,
    RIGHT_ROOM,
    TAPE_ROW,
    TITLE_ROW,
    TITLE_SIZE,
)
from planner.sheets.part_measures import PartMeasures
from planner.sheets.pen import FAINT, GROUND, INK, PENCIL, WHITE, Pen
from planner.sheets.plot_labels import (
    LABEL_SIZE,
    LINE,
    MARK_ROOM,
    PAD,
    Label,
    PlotToLabel,
    Room,
    label_height,
    place_labels,
)
from planner.sheets.scale import Division, Part
from planner.sheets.standing_too import StandingToo, draw_standing, standing_caption
from planner.sheets.tape_measure import TapeMeasure
from planner.words import join_list, say

#: Most radius of a plant's mark. [mm]
_MOST_MARK = 3.2
#: Radius of a plant's mark as a share of the spacing: in rows, and of scattered or single plants.
_MARK_IN_ROWS, _MARK_ALONE = 0.45, 0.34
#: Least length and height of a board or path that is named in the drawing. [mm]
_NAME_ROOM, _NAME_HEIGHT = 9.0, 3.4
#: How far the drawn ground goes beyond the bed, so that its outline is not cut. [m]
_BEYOND = 1.0
#: How far the line of a cover lies outside the ground under it, and how far its hoops stand out. [mm]
_COVER_OUT, _HOOP_OUT = 0.7, 1.0
#: A support's ground that is wider is drawn as an outline. [mm]
_SOLID = 3.0


@dataclass(frozen=True)
class DrawnPlanting:
    """A planting as it is drawn, in the frame.

    Attributes
    ----------
    letter, name : str
        Letter of the plot on the sheet, and crop with its variety.
    days : str
        When it is on its plot, where the drawing's days do not say so.
    growth_form : str
        Chooses the mark of its plants.
    ink : Ink
    plot : shapely.Geometry
        [m]
    stations : numpy.ndarray
        Places of the plants (n, 2). [m]
    rows : numpy.ndarray
        Beginnings and ends of the rows (n, 2, 2); none for plants that are in no rows. [m]
    spacing, apart : float
        The least distance between plants, and that between rows. [m]
    """

    letter: str
    name: str
    days: str
    growth_form: str
    ink: Ink
    plot: shapely.Geometry
    stations: np.ndarray
    rows: np.ndarray
    spacing: float
    apart: float


@dataclass(frozen=True)
class DrawnBed:
    """What all drawings of a bed share.

    Attributes
    ----------
    frame : BedFrame
    paper : Paper
    measure : TapeMeasure
    division : Division
        Scale and parts.
    obstacles : shapely.Geometry
        Ground in the bed that is kept free, in the frame. [m]
    stood_on : tuple of (str, shapely.Geometry)
        Boards and paths among it: their names, and their ground in the frame. [m]
    tint : bool
        Whether plots are tinted and hatched by family.
    """

    frame: BedFrame
    paper: Paper
    measure: TapeMeasure
    division: Division
    obstacles: shapely.Geometry
    stood_on: tuple[tuple[str, shapely.Geometry], ...] = ()
    tint: bool = False

    @property
    def scale(self) -> float:
        """Paper for a metre of ground. [mm]"""
        return 1000.0 / self.division.scale


@dataclass(frozen=True)
class PartDrawing:
    """The drawing of a part of the bed with a group of plantings.

    Methods that draw are given the height ``base`` of the bed's lower edge above the page's bottom. [mm]

    Attributes
    ----------
    bed : DrawnBed
    plantings : tuple of DrawnPlanting
    covers : tuple of DrawnCover
    supports : tuple of DrawnSupport
    part : Part
    title : str
    left, width : float
        Where it is on the page, with its margins. [mm]
    whole : bool
        Whether the whole length has a dimension line.
    too : tuple of StandingToo
        What stands there besides, drawn in detail in another drawing.
    """

    bed: DrawnBed
    plantings: tuple[DrawnPlanting, ...]
    covers: tuple[DrawnCover, ...]
    supports: tuple[DrawnSupport, ...]
    part: Part
    title: str
    left: float
    width: float
    whole: bool = True
    too: tuple[StandingToo, ...] = ()

    def x(self, along: float) -> float:
        """Page millimetres of a distance along the bed in metres."""
        return self._left + (along - self.part.start) * self.bed.scale

    @property
    def end(self) -> float:
        """Its right edge on the page. [mm]"""
        return self.left + self.width

    @property
    def _left(self) -> float:
        return self.left + LEFT_ROOM

    @property
    def _bed_height(self) -> float:
        return self.bed.frame.width * self.bed.scale

    @cached_property
    def labels(self) -> tuple[Label, ...]:
        """Labels of the plots, in page millimetres from the drawing's left and the bed's lower edge."""
        seen = [shapely.intersection(planting.plot, self._window) for planting in self.plantings]
        all_stations = [self._page_points(planting.stations, 0.0) for planting in self.plantings]
        stations = np.concatenate(all_stations) if all_stations else np.empty((0, 2))
        radius = max((self._radius(planting) for planting in self.plantings), default=0.0)
        plots = [
            PlotToLabel(
                planting.letter,
                planting.name,
                self._page(ground, 0.0),
                stations,
                radius,
                planting.days,
                planting.growth_form,
            )
            for planting, ground in zip(self.plantings, seen, strict=True)
        ]
        return place_labels(plots, Room(self.left, self.left + self.width, self._bed_height))

    @cached_property
    def _level(self) -> float:
        """Height of a level of labels outside the bed. [mm]"""
        return max((label_height(label.plot) for label in self.labels), default=LINE) + 1.2

    def _levels(self, side: str) -> int:
        return max((label.level + 1 for label in self.labels if label.side == side), default=0)

    @cached_property
    def _title_lines(self) -> tuple[str, ...]:
        return fonts.wrap(self.title, self.width, TITLE_SIZE, "bold")

    @cached_property
    def _caption(self) -> tuple[str, ...]:
        """What the lines mean, and the names that found no room on their plots."""
        names = [f"{label.plot.letter}\u00a0{label.plot.name}" for label in self.labels if label.alone]
        covers = [cover for cover in self.covers if cover.ground.intersects(self._window)]
        supports = [one for one in self.supports if one.ground.intersects(self._window)]
        too = [one for one in self.too if one.ground.intersects(self._window)]
        sentences = [*cover_caption(covers), *support_caption(supports), *standing_caption(too)]
        if names:
            sentences = [join_list(names), *sentences]
        words = " · ".join(sentences)
        return fonts.wrap(words, self.width - LEFT_ROOM, FIGURE_SIZE)

    @cached_property
    def _head(self) -> float:
        """Height above the bed. [mm]"""
        return len(self._title_lines) * TITLE_ROW + self._levels("above") * self._level + ABOVE_BED

    @cached_property
    def height(self) -> float:
        """Of the whole drawing. [mm]"""
        below = TAPE_ROW + self._levels("below") * self._level + self._measures.height
        return self._head + self._bed_height + below + len(self._caption) * CAPTION_ROW

    @cached_property
    def _window(self) -> shapely.Polygon:
        """The part of the frame that is drawn. [m]"""
        return shapely.box(self.part.start, -_BEYOND, self.part.end, self.bed.frame.width + _BEYOND)

    def _seen(self, ground: shapely.Geometry) -> shapely.Geometry:
        """What this part shows of some ground."""
        return polygons_of(shapely.intersection(ground, self._window))

    @cached_property
    def _measures(self) -> PartMeasures:
        plots = tuple(planting.plot for planting in self.plantings)
        return PartMeasures(self.bed.frame, self.bed.measure, self.bed.division, self.part, plots, self.whole)

    def draw(self, pen: Pen, top: float) -> None:
        """Draw it below a height above the page's bottom. [mm]"""
        base = top - self._head - self._bed_height
        with pen.tagged("H2"):
            pen.lines(self.left, top, self._title_lines, TITLE_SIZE, "bold")
        with pen.tagged("Figure", alt=self._words):
            low = self._draw_bed(pen, base)
        with pen.tagged("P"):
            pen.lines(self._left, low - 0.3, self._caption, FIGURE_SIZE)

    @property
    def _words(self) -> str:
        """What it shows, for those who have it read aloud."""
        plots = [say("{letter} {crop}", letter=one.letter, crop=one.name) for one in self.plantings]
        if not plots:
            return say("Drawing of the bed to scale")
        return say("Drawing of the bed to scale: {plots}", plots=join_list(plots))

    def _draw_bed(self, pen: Pen, base: float) -> float:
        """Draw the bed on its base line, and return the height below which nothing is drawn. [mm]"""
        seen = self._page(shapely.intersection(self.bed.frame.outline, self._window), base)
        if self.bed.tint:
            pen.shape(seen, fill=GROUND)
        if not self.bed.frame.is_rectangle:
            self._draw_base_line(pen, base)
        draw_standing(pen, self.too, lambda ground: self._page(self._seen(ground), base))
        self._draw_plots(pen, base)
        self._draw_obstacles(pen, base)
        self._draw_outline(pen, base)
        for planting in self.plantings:
            self._draw_plants(pen, planting, base)
        self._draw_supports(pen, base)
        self._draw_covers(pen, base)
        self._draw_joins(pen, base)
        dimensions = base - TAPE_ROW - self._levels("below") * self._level
        self._measures.draw(pen, base, dimensions, self.x, self.left)
        self._draw_labels(pen, base)
        return dimensions - self._measures.height

    def _page(self, geometry: shapely.Geometry, base: float) -> shapely.Geometry:
        """A geometry of the frame on the page. [mm]"""
        return shapely.transform(geometry, lambda points: self._page_points(points, base))

    def _page_points(self, points: np.ndarray, base: float) -> np.ndarray:
        moved: np.ndarray = (points - [self.part.start, 0.0]) * self.bed.scale + [self._left, base]
        return moved

    def _radius(self, planting: DrawnPlanting) -> float:
        """Of a planting's marks. [mm]"""
        share = _MARK_IN_ROWS if len(planting.rows) > 0 else _MARK_ALONE
        return max(0.2, min(_MOST_MARK, share * planting.spacing * self.bed.scale))

    def _draw_plots(self, pen: Pen, base: float) -> None:
        """Outline of each plot, tint and hatch where wanted; ground of several carries those of the first."""
        tinted = shapely.Polygon()
        for planting in self.plantings:
            seen = shapely.intersection(planting.plot, self._window)
            if seen.is_empty:
                continue
            if self.bed.tint:
                ground = polygons_of(shapely.difference(seen, tinted))
                page, ink = self._page(ground, base), planting.ink
                pen.shape(page, fill=ink.tint_rgb)
                pen.hatch(page, ink.hatch, ink.tint_rgb, ink.line_rgb)
                tinted = shapely.union(tinted, seen)
            pen.shape(self._page(seen, base), rgb=self._line(planting), weight=0.3)

    def _line(self, planting: DrawnPlanting) -> tuple[float, float, float]:
        return planting.ink.line_rgb if self.bed.tint else INK

    def _draw_plants(self, pen: Pen, planting: DrawnPlanting, base: float) -> None:
        """Row lines, and a mark at each station."""
        seen = polygons_of(shapely.intersection(planting.plot, self._window))
        if seen.is_empty:
            return
        line, radius, in_rows = self._line(planting), self._radius(planting), len(planting.rows) > 0
        ground = planting.ink.tint_rgb if self.bed.tint else WHITE
        with pen.clipped(self._page(seen, base)):
            ends = self._page_points(planting.rows.reshape(-1, 2), base).reshape(-1, 4)
            if len(ends):
                pen.segments(ends.tolist(), mixed(line, ground, 0.55), 0.12)
        around = shapely.buffer(seen, radius / self.bed.scale, join_style="mitre") if in_rows else seen
        with pen.clipped(self._page(around, base)):
            x = planting.stations[:, 0]
            points = planting.stations[(x >= self.part.start - 1e-6) & (x <= self.part.end + 1e-6)]
            pen.marks(self._page_points(points, base), planting.growth_form, radius, line)

    def _draw_covers(self, pen: Pen, base: float) -> None:
        """A line around what is covered, dotted of film, with hoops across it."""
        for number, cover in enumerate(self.covers):
            seen = shapely.intersection(cover.ground, self._window)
            if seen.is_empty:
                continue
            out = _COVER_OUT + 0.9 * (number % 2)  # of two over the same plot each is seen
            left, low, right, high = (float(v) for v in self._page(seen, base).bounds)
            dash = (0.3, 0.9) if cover.kind == "film" else (2.2, 1.0)
            ring = shapely.box(left - out, low - out, right + out, high + out)
            pen.shape(ring, rgb=INK, weight=0.4, dash=dash)
            for at in cover.hoops:
                if self.part.start - 1e-6 <= at <= self.part.end + 1e-6:
                    x = self.x(at)
                    pen.line(x, low - out - _HOOP_OUT, x, high + out + _HOOP_OUT, INK, 0.3, (1.1, 0.7))

    def _draw_supports(self, pen: Pen, base: float) -> None:
        """What a support stands on, and a thick line along it."""
        for support in self.supports:
            ground = polygons_of(shapely.intersection(support.ground, self._window))
            if not ground.is_empty:
                page = self._page(ground, base)
                for piece in shapely.get_parts(page):
                    left, low, right, high = shapely.bounds(piece)
                    thin = min(right - left, high - low) <= _SOLID
                    pen.shape(piece, fill=INK if thin and not support.lines else None, rgb=INK, weight=0.35)
            for line in support.lines:
                seen = shapely.intersection(line, self._window)
                for piece in shapely.get_parts(self._page(seen, base)):
                    ends = shapely.get_coordinates(piece)
                    for (x0, y0), (x1, y1) in zip(ends[:-1].tolist(), ends[1:].tolist(), strict=True):
                        pen.line(x0, y0, x1, y1, INK, 0.7)

    def _draw_obstacles(self, pen: Pen, base: float) -> None:
        stood_on = shapely.union_all([ground for _, ground in self.bed.stood_on])
        seen = polygons_of(
            shapely.difference(shapely.intersection(self.bed.obstacles, self._window), stood_on)
        )
        if not seen.is_empty:
            page = self._page(seen, base)
            pen.shape(page, fill=FAINT)
            pen.hatch(page, "net", FAINT, INK)
            pen.shape(page, rgb=INK, weight=0.25)
        for name, ground in self.bed.stood_on:
            self._draw_stood_on(pen, name, self._page(shapely.intersection(ground, self._window), base))

    def _draw_stood_on(self, pen: Pen, name: str, page: shapely.Geometry) -> None:
        """A board or path: its outline and name on plain ground. [mm]"""
        if page.is_empty:
            return
        pen.shape(page, fill=FAINT)
        pen.shape(page, rgb=INK, weight=0.25)
        left, low, right, high = (float(value) for value in shapely.bounds(page))
        if right - left >= _NAME_ROOM and high - low >= _NAME_HEIGHT:
            pen.text(left + 1.0, (low + high) / 2 - 1.0, name, FIGURE_SIZE)

    def _draw_outline(self, pen: Pen, base: float) -> None:
        """The bed's outline, left open where the bed goes on in another part."""
        left = self.part.start if self.part.left is not None else self.part.start - _BEYOND
        right = self.part.end if self.part.right is not None else self.part.end + _BEYOND
        shown = shapely.box(left, -_BEYOND, right, self.bed.frame.width + _BEYOND)
        with pen.clipped(self._page(shown, base)):
            pen.shape(self._page(self.bed.frame.outline, base), rgb=INK, weight=0.45)

    def _draw_base_line(self, pen: Pen, base: float) -> None:
        """The box's lower side and beginning, from which a bed of another shape is measured."""
        upper = base + self._bed_height
        pen.line(self._left, base, self.x(self.part.end), base, PENCIL, 0.2, (1.2, 0.8))
        if self.part.left is None:
            pen.line(self._left, base, self._left, upper, PENCIL, 0.2, (1.2, 0.8))

    def _draw_joins(self, pen: Pen, base: float) -> None:
        """Where to cut, and how far the neighbouring part goes on."""
        upper = base + self._bed_height
        for at, edge in ((self.part.left, self.part.start), (self.part.right, self.part.end)):
            if at is None:
                continue
            x = self.x(at)
            pen.line(x, base - 1.0, x, upper + 1.4, INK, 0.25, (2.4, 0.8, 0.4, 0.8))
            for end, back in ((upper + 1.4, 1.3), (base - 1.0, -1.3)):
                arrow = shapely.Polygon([(x, end - back), (x - 0.9, end), (x + 0.9, end)])
                pen.shape(arrow, fill=INK)
            pen.line(self.x(edge), base, self.x(edge), upper, PENCIL, 0.12, (0.8, 0.8))

    def _draw_labels(self, pen: Pen, base: float) -> None:
        """All leaders first, so that no box is crossed by one."""
        lows = [self._label_low(label, base) for label in self.labels]
        for label, low in zip(self.labels, lows, strict=True):
            if label.side == "inside":
                continue
            start = low if label.side == "above" else low + label_height(label.plot)
            end = base + label.target
            pen.line(label.foot, start, label.foot, end, WHITE, 0.7)
            pen.line(label.foot, start, label.foot, end, INK, 0.2)
            pen.disc(label.foot, end, 0.6, fill=INK, rgb=None)
        for label, low in zip(self.labels, lows, strict=True):
            plot = label.plot
            tall = label_height(plot) if not label.alone else LINE + 0.6
            pen.box(label.left, low, label.width, tall, fill=WHITE, rgb=INK, weight=0.25)
            first = low + tall - LINE + 0.7
            if label.alone:
                pen.text(label.left + PAD, first, plot.letter, LABEL_SIZE, "bold")
                continue
            pen.one_mark(label.left + PAD + 1.5, first + 1.05, plot.growth_form, 1.45, INK)
            pen.text(label.left + PAD + MARK_ROOM, first, plot.text, LABEL_SIZE, "bold")
            if plot.days:
                pen.text(label.left + PAD, first - LINE, plot.days, LABEL_SIZE)

    def _label_low(self, label: Label, base: float) -> float:
        """Lower edge of a label's box on the page. [mm]"""
        if label.side == "inside":
            return base + label.low
        if label.side == "above":
            return base + self._bed_height + ABOVE_BED + label.level * self._level + 0.5
        return base - TAPE_ROW - (label.level + 1) * self._level + 0.5


def part_words(measure: TapeMeasure, part: Part, number: int, parts: int) -> str:
    """Which part of a bed a drawing shows, and where to join it; empty where there is one part."""
    if parts == 1:
        return ""
    joins = join_list(measure.length(at) for at in (part.left, part.right) if at is not None)
    return say(
        "Part {number} of {parts}: {start} to {end} along the bed · cut and join at {joins}",
        number=number,
        parts=parts,
        start=measure.length(part.start),
        end=measure.length(part.end),
        joins=joins,
    )


#: Height and width that a drawing needs besides the bed itself, beside its labels. [mm]
MARGINS = LEFT_ROOM + RIGHT_ROOM
