"""Labels of beds, plantings and structures over the sheet."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from planner.desk.canvas import labels, transform
from planner.desk.canvas.bed_item import BedItem
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.labels import Label, LabelKind
from planner.desk.canvas.painted_planting import PaintedPlanting
from planner.desk.model.thing_words import planting_words, size_words
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look, letters
from planner.garden import Bed, Structure
from planner.garden.units import show_length
from planner.listings.structure_words import light_let_through
from planner.sheets.family_inks import family_ink

#: Zoom below which sizes, and then plantings, are no longer written. [pixels per metre]
SIZES_FROM, PLANTINGS_FROM = 38.0, 20.0
#: Beds smaller than this get no label. [pixels]
LEAST_BED = 26.0

_KINDS: tuple[LabelKind, ...] = ("bed", "size", "planting", "structure")


class LabelLayer:
    """Placed labels; placed again when the plan, what is painted or the zoom changes."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self._key: tuple[object, ...] = ()
        self._placed: list[tuple[Label, QRectF]] = []
        self._drafts: _Drafts | None = None
        self._offset = QPointF()

    def key_at(self, point: QPointF) -> str | None:
        """Id of the thing whose label is at a point of the viewport."""
        for label, rect in self._placed:
            if label.kind != "size" and rect.contains(point - self._offset):
                return label.key
        return None

    def right_end(self) -> float:
        """Right end of all labels, in the viewport. [pixels]"""
        self._place()
        return max((rect.right() for _, rect in self._placed), default=-math.inf) + self._offset.x()

    def _place(self) -> None:
        """Place the labels where the plan, what is painted or the zoom has changed."""
        camera = self._camera
        painted = tuple(s.planting.id for item in camera.sheet.beds.values() for s in item.painted)
        key = (camera.document.plan, painted, camera.pixels_per_metre)
        if key != self._key:
            self._key = key
            if self._drafts is None or not self._drafts.hold_for(camera):
                self._drafts = _Drafts(camera)
            drafts = self._drafts
            beds = [item.shape().boundingRect() for item in camera.sheet.beds.values()]
            self._placed = labels.place_labels(drafts.labels(), [drafts.pixels(rect) for rect in beds])
        self._offset = camera.viewportTransform().map(QPointF(0, 0))

    def paint(self, painter: QPainter) -> None:
        """Write the labels that can be seen."""
        self._place()
        camera = self._camera
        seen = camera.area.translated(-self._offset).adjusted(-4, -4, 4, 4)
        for label, rect in self._placed:
            if rect.intersects(seen):
                _paint(painter, label, rect, rect.translated(self._offset), camera.look.now)


def _paint(painter: QPainter, label: Label, rect: QRectF, place: QRectF, look: Look) -> None:
    painter.setFont(_font(label.kind))
    if label.kind == "planting":
        ink = family_ink(label.family, dark=look.dark)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRoundedRect(place, 3, 3)
        stripe = QRectF(place.left(), place.top() + 2, 3, place.height() - 4)
        painter.fillRect(stripe, plant_symbols.colour(ink.line_rgb))
        painter.setPen(look.ink)
        painter.drawText(place.adjusted(7, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, label.text)
        return
    if rect in label.inside:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRect(place.adjusted(-1, 0, 2, 0))
    painter.setPen(look.pencil if label.kind in ("size", "structure") else look.ink)
    painter.drawText(place, Qt.AlignmentFlag.AlignVCenter, label.text)


def _font(kind: LabelKind) -> QFont:
    return letters(10 if kind == "bed" else 9, bold=kind == "bed", italic=kind == "structure")


class _OfBed(NamedTuple):
    """The labels of a bed, and what they were made for."""

    made_for: tuple[object, ...]
    names: tuple[Label, ...] = ()
    plantings: tuple[Label, ...] = ()
    sizes: tuple[Label, ...] = ()


class _Drafts:
    """Labels with the places they may take at the camera's zoom, the most needed first.

    Those of a bed are kept while it is drawn the same.
    """

    def __init__(self, camera: Camera) -> None:
        self.camera = camera
        self.zoom = camera.pixels_per_metre
        self.plan = camera.document.plan
        self.units = self.plan.garden.site.units
        self.metrics = {kind: QFontMetricsF(_font(kind)) for kind in _KINDS}
        self._of_beds: dict[str, _OfBed] = {}

    def hold_for(self, camera: Camera) -> bool:
        """Whether the labels of beds that are drawn the same may be kept for what a camera shows now."""
        before, self.plan = self.plan, camera.document.plan
        return (
            self.zoom == camera.pixels_per_metre
            and before.garden.site is self.plan.garden.site
            and before.catalogue is self.plan.catalogue
        )

    def labels(self) -> list[Label]:
        """Labels of beds, then plantings, then sizes, then structures."""
        names: list[Label] = []
        sizes: list[Label] = []
        plantings: list[Label] = []
        for bed in self.plan.beds:
            item = self.camera.sheet.beds.get(bed.id)
            if item is None:
                continue
            kept = self._of_bed(bed, item)
            names += kept.names
            plantings += kept.plantings
            sizes += kept.sizes
        structures = [
            label
            for item in self.camera.sheet.structures.values()
            if item.structure is not None and self.zoom >= PLANTINGS_FROM
            for label in self._structure(item.structure, self.pixels(item.shape().boundingRect()))
        ]
        return [*names, *plantings, *sizes, *structures]

    def _of_bed(self, bed: Bed, item: BedItem) -> _OfBed:
        """The labels of a bed and its plantings."""
        kept, made_for = self._of_beds.get(bed.id), (bed, *(each.plot for each in item.painted))
        if kept is not None and list(map(id, kept.made_for)) == list(map(id, made_for)):
            return kept
        rect = self.pixels(item.shape().boundingRect())
        found = _OfBed(made_for)
        if max(rect.width(), rect.height()) >= LEAST_BED:
            plantings = tuple(self._plantings(item.painted)) if self.zoom >= PLANTINGS_FROM else ()
            found = _OfBed(
                made_for, (self._bed_name(bed, rect),), plantings, tuple(self._bed_size(bed, rect))
            )
        self._of_beds[bed.id] = found
        return found

    def pixels(self, rect: QRectF) -> QRectF:
        """A rectangle of the scene at this zoom. [pixels]"""
        factor = self.zoom / transform.SCALE
        return QRectF(
            rect.left() * factor, rect.top() * factor, rect.width() * factor, rect.height() * factor
        )

    def _extent(self, text: str, kind: LabelKind, pad: float = 0.0) -> QSizeF:
        metrics = self.metrics[kind]
        return QSizeF(metrics.horizontalAdvance(text) + pad, metrics.height() + 1)

    def _bed_name(self, bed: Bed, rect: QRectF) -> Label:
        extent = self._extent(bed.name, "bed")
        over = (labels.above(rect, extent),) if extent.width() <= rect.width() + 40 else ()
        return Label(bed.id, bed.name, "bed", over, labels.corner(rect, extent))

    def _bed_size(self, bed: Bed, rect: QRectF) -> Iterator[Label]:
        if self.zoom < SIZES_FROM:
            return
        words = size_words(bed, self.units)
        extent = self._extent(words, "size")
        if extent.width() + self._extent(bed.name, "bed").width() + 12 <= rect.width():
            yield Label(bed.id, words, "size", (labels.above_right(rect, extent),))

    def _plantings(self, painted: Iterable[PaintedPlanting]) -> Iterator[Label]:
        for each in painted:
            plot = each.plot.boundingRect()
            if each.planting.shares_ground and len(each.points):
                plot = _around(each.points)
            yield self._planting(each, self.pixels(plot))

    def _planting(self, painted: PaintedPlanting, plot: QRectF) -> Label:
        planting = painted.planting
        full = planting_words(self.plan, planting)
        name = full.split(" · ")[0]
        count = self.plan.placed(planting).plants
        for text in (full, f"{name} · {count}", name):
            extent = self._extent(text, "planting", 12)
            if extent.width() <= plot.width() + 2:
                under, inside = (labels.below(plot, extent),), labels.inside(plot, extent)
                return Label(planting.id, text, "planting", under, inside, painted.family)
        # Too narrow for any words along it: they are written beside it where there is room.
        extent = self._extent(full, "planting", 12)
        beside = (labels.beside(plot, extent),)
        return Label(planting.id, full, "planting", beside, (), painted.family)

    def _structure(self, structure: Structure, rect: QRectF) -> Iterator[Label]:
        """What a structure is, with the light it lets through where there is room for that."""
        text = structure.name or structure.kind
        if structure.kind == "arch":
            text += f", clear {show_length(structure.clear_height, self.units)}"
        light = light_let_through(self.plan.catalogue, structure, self.plan.garden.site.southern)
        if light:
            full = f"{text} · {light}"
            extent = self._extent(full, "structure")
            if extent.width() <= max(rect.width() + 60, 120):
                yield Label(
                    structure.id, full, "structure", (labels.below(rect, extent), labels.above(rect, extent))
                )
        extent = self._extent(text, "structure")
        around = (labels.beside(rect, extent), labels.below(rect, extent), labels.above(rect, extent))
        within = labels.inside(rect, extent) if structure.fills_outline else ()
        yield Label(structure.id, text, "structure", (*within, *around))


def _around(points: NDArray[np.float64]) -> QRectF:
    """Extents of single plants, with a little room. [scene units]"""
    left, top = points.min(axis=0)
    right, bottom = points.max(axis=0)
    return QRectF(left - 5, top - 5, right - left + 10, bottom - top + 10)
