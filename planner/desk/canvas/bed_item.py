"""A bed on the sheet: one item that paints its ground and all stations of all its plantings."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.gestures.base import guarded
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look
from planner.garden import Bed, Planting
from planner.ground import shapes
from planner.plan import Plan

#: Ground kept around a bed's outline for pens and selection. [scene units]
MARGIN = 12.0
#: The smallest plant is drawn this wide. [scene units]
LEAST_PLANT = 1.2


@dataclass(frozen=True)
class PaintedPlanting:
    """A planting as it is painted: its plot and stations on the scene.

    Attributes
    ----------
    apart : float
        About how far a plant is from its neighbour. [scene units]
    full : float
        Diameter of the ground one plant covers when it is full grown. [scene units]
    canopy : float
        The same on the day shown.
    mark : float
        Diameter its mark may take on that day. [scene units]
    """

    planting: Planting
    form: str
    family: str
    plot: QPainterPath
    points: NDArray[np.float64]
    apart: float
    full: float
    canopy: float
    mark: float
    cover: str
    support: QPainterPath

    def grown(self, spread: float | None) -> PaintedPlanting:
        """The same with plants of this spread [m]; None for full-grown ones."""
        canopy = self.full if spread is None else max(spread * transform.SCALE, LEAST_PLANT)
        # Seed in the ground is a dot, so that a sown bed does not look bare.
        return replace(self, canopy=canopy, mark=min(self.apart, max(canopy, 0.25 * self.apart)))


def stand(plan: Plan, planting: Planting) -> PaintedPlanting:
    """Work out how a planting is painted."""
    bed, placed, figures = plan.bed_of(planting), plan.placed(planting), plan.figures_of(planting)
    layout = placed.layout
    apart = _nearest(layout.in_row_spacing, layout.row_spacing, placed.area, layout.count)
    spread = figures.number("spread") or apart
    return PaintedPlanting(
        planting=planting,
        form=figures.crop.growth_form if figures.crop else "bush",
        family=figures.crop.family if figures.crop else "",
        plot=transform.path(shapes.shape_to_plan(bed.outline, placed.plot)),
        points=transform.scene_points(shapes.to_plan(bed.outline, layout.points)),
        apart=apart * transform.SCALE,
        full=spread * transform.SCALE,
        canopy=spread * transform.SCALE,
        mark=min(apart, spread) * transform.SCALE,
        cover=planting.covers[0].kind if planting.covers else "",
        support=_support(plan, planting),
    )


def _support(plan: Plan, planting: Planting) -> QPainterPath:
    """What a planting climbs on, seen from above, on the scene."""
    stand = plan.built_support(planting)
    path = QPainterPath()
    if stand is None:
        return path
    outline = plan.bed_of(planting).outline
    for shape in (stand.over, stand.ground):
        path.addPath(transform.path(shapes.shape_to_plan(outline, shape)))
    return path


def _step(spread: float) -> float:
    """A spread in steps of some hundredths of itself, so that not every day paints every bed anew."""
    return round(spread, 2) if spread < 0.2 else round(spread / 0.03) * 0.03


def _nearest(in_row: float | None, between: float | None, area: float, count: int) -> float:
    """About how far a plant is from its neighbour. [m]"""
    distances = [d for d in (in_row, between) if d]
    if distances:
        return float(min(distances))
    return max(0.02, math.sqrt(area / count)) if count else 0.1


class BedItem(QGraphicsItem):
    """Paints a bed and everything that stands in it; asks the plan, computes nothing of its own."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self.look = look
        self.bed: Bed | None = None
        self.painted: tuple[PaintedPlanting, ...] = ()
        self._key: tuple[object, ...] = ()
        self._sizes: tuple[float | None, ...] = ()
        self._full: dict[str, tuple[object, PaintedPlanting]] = {}
        self._outline = QPainterPath()
        self._rect = QRectF()

    def show_plan(
        self, plan: Plan, bed: Bed, look: Look, plantings: tuple[Planting, ...], day: dt.date | None = None
    ) -> None:
        """Take over what the plan says of some plantings of the bed; does nothing where nothing changed.

        With a day the plants are drawn as large as they are on it, else full grown.
        """
        key = (bed, look, *(plan.placed(p) for p in plantings), *plantings)
        sizes = tuple(None if day is None else _step(plan.size(p, day).spread) for p in plantings)
        same = len(key) == len(self._key) and all(a is b for a, b in zip(key, self._key, strict=True))
        if same and sizes == self._sizes:
            return
        self.prepareGeometryChange()
        self._key, self._sizes, self.bed, self.look = key, sizes, bed, look
        self._outline = transform.path(shapes.plan_polygon(bed.outline))
        self.painted = tuple(
            self._full_grown(plan, planting).grown(size)
            for planting, size in zip(plantings, sizes, strict=True)
        )
        reach = max([MARGIN, *(s.canopy / 2 for s in self.painted)])
        self._rect = self._outline.boundingRect().adjusted(-reach, -reach, reach, reach)
        self.update()

    def _full_grown(self, plan: Plan, planting: Planting) -> PaintedPlanting:
        """A planting as it is painted full grown; kept while it stands as it does."""
        placed = plan.placed(planting)
        kept = self._full.get(planting.id)
        if kept is None or kept[0] is not placed or kept[1].planting is not planting:
            kept = self._full[planting.id] = (placed, stand(plan, planting))
        return kept[1]

    @override
    def boundingRect(self) -> QRectF:
        return self._rect

    @override
    def shape(self) -> QPainterPath:
        return self._outline

    @override
    @guarded
    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if self.bed is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter)
        painter.save()
        try:
            self._paint_stands(painter, option)
        finally:
            painter.restore()
        self._paint_outline(painter)

    def _paint_stands(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        before = painter.deviceTransform()
        painter.resetTransform()
        # What is left after the reset (a screen's scale factor, a cache's offset) is not applied twice.
        rest, _ = painter.deviceTransform().inverted()
        device = before * rest
        scale = math.hypot(device.m11(), device.m12())
        exposed = device.mapRect(option.exposedRect)
        ratio = painter.device().devicePixelRatioF() if painter.device() is not None else 1.0
        for each in self.painted:
            self._paint_stand(painter, each, device, scale, exposed, ratio)

    def _paint_ground(self, painter: QPainter) -> None:
        assert self.bed is not None
        look = self.look
        painter.fillPath(self._outline, look.soil_inside if self.bed.kind == "under glass" else look.soil)

    def _paint_outline(self, painter: QPainter) -> None:
        assert self.bed is not None
        pen = QPen(self.look.ink, 2.2 if self.bed.kind in ("raised", "container") else 1.4)
        pen.setCosmetic(True)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        painter.strokePath(self._outline, pen)

    def _paint_stand(
        self,
        painter: QPainter,
        each: PaintedPlanting,
        device: QTransform,
        scale: float,
        exposed: QRectF,
        ratio: float,
    ) -> None:
        plot = device.map(each.plot)
        dark = self.look.dark
        ink = plant_symbols.family_ink(each.family, dark=dark)
        pixels = each.apart * scale * ratio
        if pixels < plant_symbols.LEAST_STAMP:
            self._fill(painter, plot, plant_symbols.hatch_brush(each.family, dark, 0.55, 1.0))
        else:
            self._fill(painter, plot, plant_symbols.hatch_brush(each.family, dark, 0.16, 0.30))
            self._paint_plants(painter, each, device, scale, exposed, ratio)
        straight = self.bed is not None and self.bed.outline.turn % 90 == 0 and plot.elementCount() <= 5
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, not straight)
        painter.strokePath(plot, QPen(plant_symbols.colour(ink.line_rgb, 0.9), 1.0))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if not each.support.isEmpty() and pixels >= plant_symbols.LEAST_STAMP:
            painter.strokePath(device.map(each.support), QPen(self.look.ink, 1.0))
        if each.cover:
            self._paint_cover(painter, each.cover, plot)

    @staticmethod
    def _fill(painter: QPainter, plot: QPainterPath, brush: QBrush) -> None:
        """Fill a plot; without smoothing its edge, which the outline covers."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        painter.fillPath(plot, brush)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)

    def _paint_cover(self, painter: QPainter, kind: str, plot: QPainterPath) -> None:
        """A cover: its weave over the plot and a frame of long and short dashes about it."""
        look = self.look
        if kind in ("fleece", "netting"):
            painter.fillPath(plot, plant_symbols.weave(look.ink.rgba(), 5 if kind == "fleece" else 9))
        elif kind == "film":
            painter.fillPath(plot, plant_symbols.shade(look.ink.rgba(), 0.12))
        pen = QPen(look.ink, 1.1, Qt.PenStyle.DashDotLine)
        frame = plot.boundingRect()
        if frame.width() > 14 and frame.height() > 14:
            painter.strokePath(plot, QPen(look.soil, 3.0))
            painter.strokePath(plot, pen)

    def _paint_plants(
        self,
        painter: QPainter,
        each: PaintedPlanting,
        device: QTransform,
        scale: float,
        exposed: QRectF,
        ratio: float,
    ) -> None:
        points = each.points
        if not len(points):
            return
        x = points[:, 0] * device.m11() + points[:, 1] * device.m21() + device.dx()
        y = points[:, 0] * device.m12() + points[:, 1] * device.m22() + device.dy()
        reach = each.canopy * scale / 2 + 2
        seen = (
            (x > exposed.left() - reach)
            & (x < exposed.right() + reach)
            & (y > exposed.top() - reach)
            & (y < exposed.bottom() + reach)
        )
        places = np.column_stack([x[seen], y[seen]])
        canopy = max(each.canopy * scale * ratio, 2.0)
        for size, make in (
            (canopy, lambda px: plant_symbols.canopy_stamp(each.family, px, self.look.dark)),
            (
                max(each.mark * scale * ratio, 2.0),
                lambda px: plant_symbols.mark_stamp(each.form, each.family, px, self.look.dark),
            ),
        ):
            drawn = plant_symbols.banded(size)
            factor = size / drawn / ratio if size > plant_symbols.LARGEST_STAMP or ratio != 1.0 else 1.0
            plant_symbols.put_down(painter, make(drawn), places, factor)
