"""A bed on the sheet: one item that paints its ground and all stations of all its plantings."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QPainter, QPainterPath, QPen, QPixmap, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget
from typing_extensions import override

from planner.desk.canvas import transform
from planner.desk.canvas.guarded import guarded_painting
from planner.desk.canvas.painted_planting import PaintedPlanting, painted_planting, quantised_spread
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look
from planner.garden import Bed, Planting
from planner.ground import shapes
from planner.ground.built_support import BuiltSupport
from planner.plan import Plan
from planner.sheets.family_inks import family_ink

#: Room around a bed's outline for pens and selection. [scene units]
MARGIN = 12.0
#: Covers of smaller plots get no frame. [pixels]
LEAST_FRAME = 14.0


@dataclass(frozen=True)
class _Device:
    """What a bed is painted on.

    Attributes
    ----------
    transform : QTransform
        From the scene to device coordinates.
    exposed : QRectF
        What is to be painted, in device coordinates.
    ratio : float
        Pixels of the device in a unit of its coordinates.
    """

    transform: QTransform
    exposed: QRectF
    ratio: float

    @property
    def scale(self) -> float:
        """Device coordinates in a scene unit."""
        return math.hypot(self.transform.m11(), self.transform.m12())

    def places(self, points: NDArray[np.float64], reach: float) -> NDArray[np.float64]:
        """Those points of the scene that are exposed, or within a reach of it, in device coordinates."""
        t, exposed = self.transform, self.exposed
        x = points[:, 0] * t.m11() + points[:, 1] * t.m21() + t.dx()
        y = points[:, 0] * t.m12() + points[:, 1] * t.m22() + t.dy()
        seen = (
            (x > exposed.left() - reach)
            & (x < exposed.right() + reach)
            & (y > exposed.top() - reach)
            & (y < exposed.bottom() + reach)
        )
        return np.column_stack([x[seen], y[seen]])


def _own_support(plan: Plan, planting: Planting) -> BuiltSupport | None:
    """The support of a planting that may climb an arch beside it, and has none of its own then; None of all others."""
    if planting.support is None or not plan.may_climb_arch(planting):
        return None
    return plan.built_support(planting)


def _family(plan: Plan, planting: Planting) -> str:
    crop = plan.figures_of(planting).crop
    return crop.family if crop is not None else ""


class BedItem(QGraphicsItem):
    """Paints a bed and everything that grows in it as the plan says; works out nothing of its own."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setCacheMode(QGraphicsItem.CacheMode.DeviceCoordinateCache)
        self.look = look
        self.bed: Bed | None = None
        self.painted: tuple[PaintedPlanting, ...] = ()
        self._key: tuple[object, ...] = ()
        self._sizes: tuple[float | None, ...] = ()
        self._inks: tuple[str, ...] = ()
        self._full_grown_cache: dict[str, tuple[tuple[object, ...], PaintedPlanting]] = {}
        self._outline = QPainterPath()
        self._rect = QRectF()

    def show_plan(
        self,
        plan: Plan,
        bed: Bed,
        look: Look,
        plantings: tuple[Planting, ...],
        day: dt.date | None = None,
        inks: Sequence[str] | None = None,
    ) -> None:
        """Show what the plan says of some plantings of the bed; does nothing where nothing changed.

        Parameters
        ----------
        plan : Plan
        bed : Bed
        look : Look
        plantings : tuple of Planting
        day : date, optional
            The plants are drawn as large as they are on it; without it full grown.
        inks : sequence of str, optional
            Keys of their inks (:func:`planner.sheets.family_inks.family_ink`); by default those of their families.
        """
        supports = (_own_support(plan, p) for p in plantings)
        key = (bed, look, *(plan.placed(p) for p in plantings), *supports, *plantings)
        sizes = tuple(None if day is None else quantised_spread(plan.size(p, day).spread) for p in plantings)
        same = len(key) == len(self._key) and all(a is b for a, b in zip(key, self._key, strict=True))
        inks = tuple(inks) if inks is not None else tuple(_family(plan, p) for p in plantings)
        if same and sizes == self._sizes and inks == self._inks:
            return
        self.prepareGeometryChange()
        self._key, self._sizes, self._inks, self.bed, self.look = key, sizes, inks, bed, look
        self._outline = transform.path(shapes.plan_polygon(bed.outline))
        self.painted = tuple(
            self._full_grown(plan, planting).grown(size, ink)
            for planting, size, ink in zip(plantings, sizes, inks, strict=True)
        )
        reach = max([MARGIN, *(s.canopy / 2 for s in self.painted)])
        self._rect = self._outline.boundingRect().adjusted(-reach, -reach, reach, reach)
        self.update()

    def _full_grown(self, plan: Plan, planting: Planting) -> PaintedPlanting:
        """A planting as it is painted full grown; cached while the plan places it the same, in the same bed."""
        key = (plan.bed_of(planting), plan.placed(planting), _own_support(plan, planting), planting)
        cached = self._full_grown_cache.get(planting.id)
        if cached is None or any(one is not other for one, other in zip(cached[0], key, strict=True)):
            cached = self._full_grown_cache[planting.id] = (key, painted_planting(plan, planting))
        return cached[1]

    @override
    def boundingRect(self) -> QRectF:
        return self._rect

    @override
    def shape(self) -> QPainterPath:
        return self._outline

    @override
    @guarded_painting
    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if self.bed is None:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter, self.bed)
        painter.save()
        try:
            self._paint_plantings(painter, self.bed, option)
        finally:
            painter.restore()
        self._paint_outline(painter, self.bed)

    def _paint_ground(self, painter: QPainter, bed: Bed) -> None:
        look = self.look
        painter.fillPath(self._outline, look.soil_inside if bed.kind == "under glass" else look.soil)

    def _paint_outline(self, painter: QPainter, bed: Bed) -> None:
        pen = QPen(self.look.ink, 2.2 if bed.kind in ("raised", "container") else 1.4)
        pen.setCosmetic(True)
        pen.setJoinStyle(Qt.PenJoinStyle.MiterJoin)
        painter.strokePath(self._outline, pen)

    def _paint_plantings(self, painter: QPainter, bed: Bed, option: QStyleOptionGraphicsItem) -> None:
        before = painter.deviceTransform()
        painter.resetTransform()
        # What is left after the reset (a screen's scale factor, a cache's offset) is not applied twice.
        rest, _ = painter.deviceTransform().inverted()
        to_device = before * rest
        ratio = painter.device().devicePixelRatioF() if painter.device() is not None else 1.0
        device = _Device(to_device, to_device.mapRect(option.exposedRect), ratio)
        for each in self.painted:
            self._paint_planting(painter, bed, each, device)

    def _paint_planting(self, painter: QPainter, bed: Bed, painted: PaintedPlanting, device: _Device) -> None:
        plot = device.transform.map(painted.plot)
        dark = self.look.dark
        pixels = painted.apart * device.scale * device.ratio
        if pixels < plant_symbols.LEAST_STAMP:
            _fill(painter, plot, plant_symbols.hatch_brush(painted.ink, dark, 0.55, 1.0))
        else:
            _fill(painter, plot, plant_symbols.hatch_brush(painted.ink, dark, 0.16, 0.30))
            self._paint_plants(painter, painted, device)
        straight = bed.outline.turn % 90 == 0 and plot.elementCount() <= 5
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, not straight)
        line = family_ink(painted.ink, dark=dark).line_rgb
        painter.strokePath(plot, QPen(plant_symbols.colour(line, 0.9), 1.0))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if not painted.support.isEmpty() and pixels >= plant_symbols.LEAST_STAMP:
            painter.strokePath(device.transform.map(painted.support), QPen(self.look.ink, 1.0))
        if painted.cover:
            self._paint_cover(painter, painted.cover, plot)

    def _paint_cover(self, painter: QPainter, kind: str, plot: QPainterPath) -> None:
        """A cover: its weave over the plot and a frame of long and short dashes about it."""
        look = self.look
        if kind in ("fleece", "netting"):
            painter.fillPath(plot, plant_symbols.weave(look.ink.rgba(), 5 if kind == "fleece" else 9))
        elif kind == "film":
            painter.fillPath(plot, plant_symbols.shade(look.ink.rgba(), 0.12))
        frame = plot.boundingRect()
        if frame.width() > LEAST_FRAME and frame.height() > LEAST_FRAME:
            painter.strokePath(plot, QPen(look.soil, 3.0))
            painter.strokePath(plot, QPen(look.ink, 1.1, Qt.PenStyle.DashDotLine))

    def _paint_plants(self, painter: QPainter, painted: PaintedPlanting, device: _Device) -> None:
        if not len(painted.points):
            return
        scale, ratio, dark = device.scale, device.ratio, self.look.dark
        places = device.places(painted.points, painted.canopy * scale / 2 + 2)

        def canopy(pixels: int) -> QPixmap:
            return plant_symbols.canopy_stamp(painted.ink, pixels, dark)

        def mark(pixels: int) -> QPixmap:
            return plant_symbols.mark_stamp(painted.form, painted.ink, pixels, dark)

        stamps: tuple[tuple[float, Callable[[int], QPixmap]], ...] = (
            (painted.canopy, canopy),
            (painted.mark, mark),
        )
        for diameter, make in stamps:
            size = max(diameter * scale * ratio, 2.0)
            drawn = plant_symbols.banded(size)
            factor = size / drawn / ratio if size > plant_symbols.LARGEST_STAMP or ratio != 1.0 else 1.0
            plant_symbols.put_down(painter, make(drawn), places, factor)


def _fill(painter: QPainter, plot: QPainterPath, brush: QBrush) -> None:
    """Fill a plot; without smoothing its edge, which the outline covers."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.fillPath(plot, brush)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
