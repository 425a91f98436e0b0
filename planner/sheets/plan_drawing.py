"""A plan drawn to scale into a frame of a page, for PDF, SVG and PNG alike."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from planner.ground.ribs import Line
from planner.sheets.drawing_pen import DrawingPen
from planner.sheets.family_inks import Rgb, mixed
from planner.sheets.pen import FAINT, GROUND, INK, PENCIL, WHITE
from planner.sheets.plan_labels import PlanNames, PlotToName
from planner.sheets.plan_picture import (
    PicturedBed,
    PicturedCover,
    PicturedPlot,
    PicturedStructure,
    PicturedSupport,
    PlanPicture,
)
from planner.sheets.scale import on_paper
from planner.words import say

#: Plants of a smaller radius on paper are not drawn; their hatch shows where they grow. [mm]
LEAST_PLANT = 0.2
#: Most radius of a plant's mark. [mm]
_MOST_MARK = 3.2
#: Least weight of a line about some ground, and its share of the ground's lesser extent. [mm, 0 to 1]
_LEAST_WEIGHT, _WEIGHT_SHARE = 0.06, 0.08
#: Thickness of a support as drawn, and least length of a cover that is. [m, mm]
_SUPPORT, _LEAST_COVER = 0.03, 4.0
#: From the edge of what is covered to the line about it. [mm]
_COVER_OUT = 0.7
#: More plants than this are not drawn one by one.
MOST_PLANTS = 60_000
#: Ink of shadows, and how dark they are: without any opacity and for a full one. [0 to 1]
_SHADE, _SHADE_LEAST, _SHADE_MORE = (0.08, 0.09, 0.16), 0.08, 0.22
#: Grounds of structures: glass, what grows, what is stood on, the rest.
_GLASS, _GREEN = (0.86, 0.91, 0.93), (0.72, 0.78, 0.70)


@dataclass(frozen=True)
class PlanDrawing:
    """A picture at its place on a page.

    Attributes
    ----------
    picture : PlanPicture
    scale : int
        One to so many.
    frame : tuple of float
        Left, low, right and high of the frame, in whose middle the picture lies. [mm]
    numbered : mapping of str to int
        Names that have their number from a drawing before this one.
    enlarged : float
        How many times as large as on a page names and marks may be.
    """

    picture: PlanPicture
    scale: int
    frame: tuple[float, float, float, float]
    numbered: Mapping[str, int] = field(default_factory=dict)
    enlarged: float = 1.0

    @property
    def millimetres(self) -> float:
        """Paper for a metre of ground. [mm]"""
        return on_paper(1.0, self.scale)

    def page_points(self, points: NDArray[np.float64]) -> NDArray[np.float64]:
        """Bring points (n, 2) from the plan to the page. [mm]"""
        left, low, right, high = self.picture.bounds
        middle = np.array([(left + right) / 2, (low + high) / 2])
        of_frame = np.array([(self.frame[0] + self.frame[2]) / 2, (self.frame[1] + self.frame[3]) / 2])
        placed: NDArray[np.float64] = (points - middle) * self.millimetres + of_frame
        return placed

    def page(self, geometry: shapely.Geometry) -> shapely.Geometry:
        """Bring a geometry from the plan to the page. [mm]"""
        return shapely.transform(geometry, self.page_points)

    @cached_property
    def names(self) -> PlanNames:
        """All names in their places."""
        names = PlanNames(shapely.box(*self.frame), numbers=dict(self.numbered), enlarged=self.enlarged)
        beds = [(bed.name, self.page(bed.ground)) for bed in self.picture.beds if bed.chosen]
        others = [self.page(bed.ground) for bed in self.picture.beds if not bed.chosen]
        plots = [
            PlotToName(bed.name, plot.names, ground, plot.turn, plot.ink.tint_rgb, plot.ink.line_rgb)
            for bed in self.picture.beds
            for plot in bed.plots
            for ground in [self.page(plot.ground)]
            if not ground.is_empty
        ]
        structures = [(one, self.page(one.ground)) for one in self.picture.structures]
        edges = [shapely.boundary(ground) if one.layer else ground for one, ground in structures]
        names.name_beds(beds, shapely.union_all([plot.ground for plot in plots]), [*edges, *others])
        names.name_plots(plots)
        names.name_structures(
            [
                (
                    _structure_names(one),
                    shapely.union_all([ground, *self._marked(one)]),
                    mixed(ink, WHITE, opacity),
                )
                for one, ground in structures
                for ink, opacity in [_fill(one.kind)]
            ],
            [
                *(ground for _, ground in beds),
                *others,
                *(mark for one in self.picture.structures for mark in self._marked(one)),
            ],
        )
        return names

    def _marked(self, one: PicturedStructure) -> list[shapely.Geometry]:
        """What the marks of a structure take on paper, which no name covers; nothing without marks. [mm]"""
        lines = list(self._ends(one.marks))
        return [shapely.convex_hull(shapely.MultiLineString(lines))] if lines else []

    def draw(self, pen: DrawingPen) -> None:
        """Draw it, clipped to its frame."""
        with pen.clipped(shapely.box(*self.frame)):
            if self.picture.outline is not None:
                with pen.group("garden"):
                    pen.shape(self.page(self.picture.outline), rgb=PENCIL, weight=0.25, dash=(3.0, 1.2))
            with pen.group("glass"):
                self._structures(pen, -1)
            with pen.group("beds"):
                for bed in self.picture.beds:
                    self._bed(pen, bed)
            with pen.group("supports"):
                for support in self.picture.supports:
                    self._support(pen, support)
            with pen.group("covers"):
                for cover in self.picture.covers:
                    self._cover(pen, cover)
            with pen.group("structures"):
                self._structures(pen, 0)
            with pen.group("crowns"):
                self._structures(pen, 1)
            with pen.group("shadows"):
                for opacity, ground in self.picture.shadows:
                    shade = _SHADE_LEAST + _SHADE_MORE * opacity
                    pen.shape(self.page(ground), fill=_SHADE, opacity=shade)
            with pen.group("names"):
                self._names(pen)

    def _bed(self, pen: DrawingPen, bed: PicturedBed) -> None:
        ground = self.page(bed.ground)
        pen.shape(ground, fill=GROUND if bed.chosen else WHITE)
        for plot in bed.plots:
            page = self.page(plot.ground)
            pen.shape(page, fill=plot.ink.tint_rgb)
            pen.hatch(page, plot.ink.hatch, plot.ink.tint_rgb, plot.ink.line_rgb)
            pen.shape(page, rgb=plot.ink.line_rgb, weight=_weight(page, 0.25))
        for plot in bed.plots:
            self._plants(pen, plot)
        if bed.chosen:
            pen.shape(ground, rgb=INK, weight=_weight(ground, 0.45))
        else:
            pen.shape(ground, rgb=PENCIL, weight=_weight(ground, 0.15))

    def _support(self, pen: DrawingPen, support: PicturedSupport) -> None:
        """A thick line along a support; what stands by itself is drawn as its feet."""
        weight = min(0.6, max(0.15, _SUPPORT * self.millimetres))
        if not support.lines:
            pen.shape(self.page(support.feet), fill=INK if support.kind == "stake" else None, rgb=INK)
        for line in support.lines:
            ends = self.page_points(shapely.get_coordinates(line)).tolist()
            for (x0, y0), (x1, y1) in itertools.pairwise(ends):
                pen.line(x0, y0, x1, y1, INK, weight)

    def _cover(self, pen: DrawingPen, cover: PicturedCover) -> None:
        """A dashed line about what is covered, dotted of film, and a line for each hoop, where there is room for them."""
        ground = self.page(cover.ground)
        left, low, right, high = (float(value) for value in shapely.bounds(ground))
        if max(right - left, high - low) < _LEAST_COVER:
            return
        dash = (0.3, 0.7) if cover.kind == "film" else (1.8, 0.8)
        ring = shapely.buffer(ground, _COVER_OUT, join_style="mitre")  # beside the line of its bed
        pen.shape(ring, rgb=INK, weight=_weight(ground, 0.35), dash=dash)
        for hoop in cover.hoops:
            (x0, y0), (x1, y1) = self.page_points(np.array(hoop)).tolist()
            pen.line(x0, y0, x1, y1, INK, _weight(ground, 0.2), (0.9, 0.6))

    @cached_property
    def plants_drawn(self) -> bool:
        """Whether plants are drawn one by one."""
        return sum(len(plot.stations) for bed in self.picture.beds for plot in bed.plots) <= MOST_PLANTS

    def _plants(self, pen: DrawingPen, plot: PicturedPlot) -> None:
        radius = min(plot.radius * self.millimetres, _MOST_MARK * self.enlarged)
        if self.plants_drawn and radius >= LEAST_PLANT:
            pen.marks(self.page_points(plot.stations), plot.growth_form, radius, plot.ink.line_rgb)

    def _structures(self, pen: DrawingPen, layer: int) -> None:
        for one in self.picture.structures:
            if one.layer == layer:
                self._structure(pen, one)

    def _structure(self, pen: DrawingPen, one: PicturedStructure) -> None:
        ground = self.page(one.ground)
        fill, opacity = _fill(one.kind)
        pen.shape(ground, fill=fill, opacity=opacity)
        dash = (1.4, 0.8) if one.layer == 1 else ()
        quiet = one.kind in ("lawn", "path")
        pen.shape(ground, rgb=PENCIL if quiet else INK, weight=0.15 if quiet else 0.25, dash=dash)
        for (x0, y0), (x1, y1) in self._ends(one.ribs):
            pen.line(x0, y0, x1, y1, PENCIL, 0.15)
        for (x0, y0), (x1, y1) in self._ends(one.marks):
            pen.line(x0, y0, x1, y1, INK, 0.3)
        pen.shape(self.page(one.feet), fill=INK)

    def _ends(self, lines: Sequence[Line]) -> Iterator[list[list[float]]]:
        """Ends of lines on the plan, on the page."""
        for line in lines:
            yield self.page_points(np.array(line)).tolist()

    def _names(self, pen: DrawingPen) -> None:
        for name in self.names.placed:
            if name.ground is not None:
                pen.shape(name.box, fill=name.ground)
            pen.text(*name.at, name.text, name.size, name.style, name.rgb, "middle", name.turn)


def _structure_names(one: PicturedStructure) -> tuple[str, ...]:
    """Names of a structure, the fullest first: a gate or a tap is named at any rate."""
    kind = {"tap": say("tap"), "gate": say("gate")}.get(one.kind)
    return tuple(dict.fromkeys((one.name, kind))) if kind is not None else (one.name,)


def _weight(ground: shapely.Geometry, most: float) -> float:
    """Weight of the line about some ground on paper: less where the ground is small. [mm]"""
    left, low, right, high = (float(value) for value in shapely.bounds(ground))
    return min(most, max(_LEAST_WEIGHT, _WEIGHT_SHARE * min(right - left, high - low)))


def _fill(kind: str) -> tuple[Rgb, float]:
    """Ink and opacity of a structure's ground."""
    if kind in ("tunnel", "glasshouse", "arch"):
        return _GLASS, 0.5
    if kind in ("tree", "hedge"):
        return _GREEN, 0.5
    if kind == "gate":
        return WHITE, 1.0  # the opening in its fence
    if kind == "lawn":
        return WHITE, 0.0  # the paper, with tufts
    return FAINT, 0.5 if kind in ("board", "path") else 1.0
