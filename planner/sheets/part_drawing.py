"""One drawing: a part of a bed, to scale, with a group of plantings."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from planner.ground.shapes import polygons_of
from planner.listings.phrases import Measure
from planner.sheets.bed_frame import BedFrame
from planner.sheets.family_inks import Ink, mixed
from planner.sheets.flow import Block
from planner.sheets.page_chrome import Paper
from planner.sheets.part_layout import (
    ABOVE_BED,
    DIMENSION_ROW,
    LEFT_ROOM,
    TAG_ROW,
    TAPE_ROW,
    TITLE_ROW,
)
from planner.sheets.part_measures import PartMeasures
from planner.sheets.pen import FAINT, GROUND, INK, PENCIL, WHITE, Pen
from planner.sheets.scale import Division, Part
from planner.sheets.tags import TAG_HEIGHT, TAG_SIZE, Tag, TaggedPlot, TagRoom, place_tags

#: Most radius of a plant's mark. [mm]
_MOST_MARK = 3.2
#: Radius of a plant's mark as a share of the spacing: in rows, and of scattered or single plants.
_MARK_IN_ROWS, _MARK_ALONE = 0.45, 0.34
#: Least length and height of a board or path that is named in the drawing. [mm]
_NAME_ROOM, _NAME_HEIGHT = 9.0, 3.0
#: How far the drawn ground goes beyond the bed, so that its outline is not cut. [m]
_BEYOND = 1.0


@dataclass(frozen=True)
class DrawnPlanting:
    """A planting as it is drawn, in the frame.

    Attributes
    ----------
    letter, name : str
        Letter of the plot on the sheet, and name of the crop.
    growth_form : str
        Chooses the mark of its plants.
    ink : Ink
    plot : shapely.Geometry
        [m]
    stations : numpy.ndarray
        Places of the plants (n, 2). [m]
    rows : numpy.ndarray
        Beginnings and ends of the rows (n, 2, 2); none for plants that are in no rows. [m]
    spacing : float
        The least distance between plants. [m]
    """

    letter: str
    name: str
    growth_form: str
    ink: Ink
    plot: shapely.Geometry
    stations: np.ndarray
    rows: np.ndarray
    spacing: float


@dataclass(frozen=True)
class DrawnBed:
    """What all drawings of a bed share.

    Attributes
    ----------
    frame : BedFrame
    paper : Paper
    measure : Measure
        The garden's way of printing lengths.
    division : Division
        Scale and parts.
    obstacles : shapely.Geometry
        Ground in the bed that is kept free, in the frame. [m]
    stood_on : tuple of (str, shapely.Geometry)
        Boards and paths among it: their names, and their ground in the frame. [m]
    """

    frame: BedFrame
    paper: Paper
    measure: Measure
    division: Division
    obstacles: shapely.Geometry
    stood_on: tuple[tuple[str, shapely.Geometry], ...] = ()

    @property
    def scale(self) -> float:
        """Paper for a metre of ground. [mm]"""
        return 1000.0 / self.division.scale


@dataclass(frozen=True)
class PartDrawing:
    """The drawing of a part of the bed with a group of plantings.

    Methods that draw are given the height ``base`` of the bed's lower edge above the page's bottom. [mm]
    """

    bed: DrawnBed
    plantings: tuple[DrawnPlanting, ...]
    part: Part
    title: str

    def x(self, along: float) -> float:
        """Page millimetres of a distance along the bed in metres."""
        return self._left + (along - self.part.start) * self.bed.scale

    @cached_property
    def tags(self) -> tuple[Tag, ...]:
        """Letters above the drawing, in as many levels as they need."""
        paper = self.bed.paper
        return place_tags(
            [
                TaggedPlot(p.letter, p.name, p.ink.line_rgb, shapely.intersection(p.plot, self._window))
                for p in self.plantings
            ],
            TagRoom(self.x, self.bed.scale, paper.left, paper.left + paper.room),
        )

    def block(self) -> Block:
        """The drawing as a block."""
        levels = max((tag.level for tag in self.tags), default=-1) + 1
        head = (TITLE_ROW if self.title else 0.0) + max(levels, 0) * TAG_ROW + ABOVE_BED
        below = TAPE_ROW + DIMENSION_ROW * (2 if self._measures.breaks else 1)
        height = head + self.bed.frame.width * self.bed.scale + below

        def draw(pen: Pen, top: float) -> None:
            self._draw(pen, top, top - head - self.bed.frame.width * self.bed.scale)

        return Block(height, draw)

    @property
    def _left(self) -> float:
        return self.bed.paper.left + LEFT_ROOM

    @cached_property
    def _window(self) -> shapely.Polygon:
        """The part of the frame that is drawn. [m]"""
        return shapely.box(self.part.start, -_BEYOND, self.part.end, self.bed.frame.width + _BEYOND)

    @cached_property
    def _measures(self) -> PartMeasures:
        plots = tuple(planting.plot for planting in self.plantings)
        return PartMeasures(self.bed.frame, self.bed.measure, self.bed.division, self.part, plots)

    def _draw(self, pen: Pen, top: float, base: float) -> None:
        if self.title:
            pen.text(self.bed.paper.left, top - 3.4, self.title, 8.5, "bold")
        seen = self._page(shapely.intersection(self.bed.frame.outline, self._window), base)
        pen.shape(seen, fill=GROUND)
        if not self.bed.frame.is_rectangle:
            self._draw_base_line(pen, base)
        self._draw_plots(pen, base)
        self._draw_obstacles(pen, base)
        self._draw_outline(pen, base)
        for planting in self.plantings:
            self._draw_plants(pen, planting, base)
        self._draw_joins(pen, base)
        self._measures.draw(pen, base, self.x, self.bed.paper.left)
        self._draw_tags(pen, base)

    def _page(self, geometry: shapely.Geometry, base: float) -> shapely.Geometry:
        """A geometry of the frame on the page. [mm]"""
        return shapely.transform(geometry, lambda points: self._page_points(points, base))

    def _page_points(self, points: np.ndarray, base: float) -> np.ndarray:
        moved: np.ndarray = (points - [self.part.start, 0.0]) * self.bed.scale + [self._left, base]
        return moved

    def _draw_plots(self, pen: Pen, base: float) -> None:
        """Tint, hatch and outline of each plot; ground of several carries those of the first."""
        tinted = shapely.Polygon()
        for planting in self.plantings:
            seen = shapely.intersection(planting.plot, self._window)
            if seen.is_empty:
                continue
            ground = polygons_of(shapely.difference(seen, tinted))
            page, ink = self._page(ground, base), planting.ink
            pen.shape(page, fill=ink.tint_rgb)
            pen.hatch(page, ink.hatch, ink.tint_rgb, ink.line_rgb)
            pen.shape(self._page(seen, base), rgb=ink.line_rgb, weight=0.3)
            tinted = shapely.union(tinted, seen)

    def _draw_plants(self, pen: Pen, planting: DrawnPlanting, base: float) -> None:
        """Row lines, and a mark at each station."""
        seen = polygons_of(shapely.intersection(planting.plot, self._window))
        if seen.is_empty:
            return
        ink, in_rows = planting.ink, len(planting.rows) > 0
        share = _MARK_IN_ROWS if in_rows else _MARK_ALONE
        radius = min(_MOST_MARK, share * planting.spacing * self.bed.scale)
        with pen.clipped(self._page(seen, base)):
            for (x0, y0), (x1, y1) in (self._page_points(row, base) for row in planting.rows):
                pen.line(x0, y0, x1, y1, mixed(ink.line_rgb, ink.tint_rgb, 0.55), 0.12)
        around = shapely.buffer(seen, radius / self.bed.scale, join_style="mitre") if in_rows else seen
        with pen.clipped(self._page(around, base)):
            x = planting.stations[:, 0]
            points = planting.stations[(x >= self.part.start - 1e-6) & (x <= self.part.end + 1e-6)]
            pen.marks(self._page_points(points, base), planting.growth_form, max(radius, 0.2), ink.line_rgb)

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
            pen.text(left + 1.0, (low + high) / 2 - 0.8, name, 6.5)

    def _draw_outline(self, pen: Pen, base: float) -> None:
        """The bed's outline, left open where the bed goes on in another part."""
        left = self.part.start if self.part.left is not None else self.part.start - _BEYOND
        right = self.part.end if self.part.right is not None else self.part.end + _BEYOND
        shown = shapely.box(left, -_BEYOND, right, self.bed.frame.width + _BEYOND)
        with pen.clipped(self._page(shown, base)):
            pen.shape(self._page(self.bed.frame.outline, base), rgb=INK, weight=0.45)

    def _draw_base_line(self, pen: Pen, base: float) -> None:
        """The box's lower side and beginning, from which a bed of another shape is measured."""
        upper = base + self.bed.frame.width * self.bed.scale
        pen.line(self._left, base, self.x(self.part.end), base, PENCIL, 0.15, (1.2, 0.8))
        if self.part.left is None:
            pen.line(self._left, base, self._left, upper, PENCIL, 0.15, (1.2, 0.8))

    def _draw_joins(self, pen: Pen, base: float) -> None:
        """Where to cut, and how far the neighbouring part goes on."""
        upper = base + self.bed.frame.width * self.bed.scale
        for at, edge in ((self.part.left, self.part.start), (self.part.right, self.part.end)):
            if at is None:
                continue
            x = self.x(at)
            pen.line(x, base - 1.0, x, upper + 1.4, INK, 0.25, (2.4, 0.8, 0.4, 0.8))
            for end, back in ((upper + 1.4, 1.3), (base - 1.0, -1.3)):
                arrow = shapely.Polygon([(x, end - back), (x - 0.9, end), (x + 0.9, end)])
                pen.shape(arrow, fill=INK)
            pen.line(self.x(edge), base, self.x(edge), upper, PENCIL, 0.12, (0.8, 0.8))

    def _draw_tags(self, pen: Pen, base: float) -> None:
        """All leaders first, so that no box is crossed by one."""
        upper = base + self.bed.frame.width * self.bed.scale
        for tag in self.tags:
            foot = upper + ABOVE_BED + tag.level * TAG_ROW + 0.6
            end = base + tag.target * self.bed.scale
            pen.line(tag.x, foot, tag.foot, end, WHITE, 0.7)
            pen.line(tag.x, foot, tag.foot, end, INK, 0.15)
            pen.disc(tag.foot, end, 0.55, fill=INK, rgb=None)
        for tag in self.tags:
            foot = upper + ABOVE_BED + tag.level * TAG_ROW + 0.6
            pen.box(tag.x - tag.width / 2, foot, tag.width, TAG_HEIGHT, fill=WHITE, rgb=tag.rgb, weight=0.3)
            pen.text(tag.x, foot + 1.35, tag.text, TAG_SIZE, "bold", align="middle")
