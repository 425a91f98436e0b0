"""Labels of beds, plantings and structures over the sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from operator import is_
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter

from planner.desk.canvas import labels, transform
from planner.desk.canvas.bed_item import BedItem
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.labels import KINDS, Label, LabelGroup, LabelKind, LabelPlaces
from planner.desk.canvas.painted_planting import PaintedPlanting
from planner.desk.model.thing_words import planting_words, size_words
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look, letters
from planner.garden import Bed, Structure
from planner.garden.units import show_length
from planner.listings.structure_words import light_let_through
from planner.sheets.family_inks import family_ink
from planner.words import key_words, say

#: Zoom below which sizes, and then plantings, are no longer written. [pixels per metre]
SIZES_FROM, PLANTINGS_FROM = 38.0, 20.0
#: Beds smaller than this get no label. [pixels]
LEAST_BED = 26.0

#: Side of the cells in which the places of labels are looked up. [m]
CELL_OF_GRID = 4.0


class LabelLayer:
    """Placed labels; placed again when the plan, what is painted or the zoom changes."""

    def __init__(self, camera: Camera) -> None:
        self._camera = camera
        self._key: tuple[object, ...] = ()
        self._painted: list[tuple[PaintedPlanting, ...]] = []
        self._places = LabelPlaces(())
        self._drafts: _Drafts | None = None
        self._offset = QPointF()

    def key_at(self, point: QPointF) -> str | None:
        """Id of the thing whose label is at a point of the viewport."""
        at = point - self._offset
        there = self._places.within(QRectF(at.x() - 1, at.y() - 1, 2, 2))
        return next((one.key for one, rect in there if one.kind != "size" and rect.contains(at)), None)

    def right_end(self) -> float:
        """Right end of all labels, in the viewport. [pixels]"""
        self._follow()
        return self._places.right_end + self._offset.x()

    def all_placed(self) -> list[tuple[Label, QRectF]]:
        """All labels that have a place, whether they are seen or not."""
        self._follow()
        return self._places.every()

    def _follow(self) -> None:
        """Bring the labels in step where the plan, what is painted or the zoom has changed."""
        camera = self._camera
        painted = [item.painted for item in camera.sheet.beds.values()]
        key = (camera.document.plan, camera.pixels_per_metre, len(painted))
        if key != self._key or not all(map(is_, painted, self._painted)):
            self._painted = painted
            self._key = key
            same = self._drafts is not None and self._drafts.hold_for(camera)
            if self._drafts is None or not same:
                self._drafts = _Drafts(camera)
            groups = self._drafts.groups()
            if not same or not self._places.follow(groups):
                self._places = LabelPlaces(groups, CELL_OF_GRID * camera.pixels_per_metre)
        self._offset = camera.viewportTransform().map(QPointF(0, 0))

    def paint(self, painter: QPainter) -> list[QRectF]:
        """Write the labels that can be seen.

        Parameters
        ----------
        painter : QPainter

        Returns
        -------
        list of QRectF
            Where they are. [pixels of the viewport]
        """
        self._follow()
        camera = self._camera
        seen = camera.area.translated(-self._offset).adjusted(-4, -4, 4, 4)
        places = []
        for label, rect in self._places.within(seen):
            places.append(rect.translated(self._offset))
            _paint(painter, label, rect, places[-1], camera.look.now)
        return places


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
    painted: tuple[PaintedPlanting, ...]
    group: LabelGroup


class _Drafts:
    """Labels with the places they may take at the camera's zoom, the most needed first.

    Those of a bed are kept while it is drawn the same.
    """

    def __init__(self, camera: Camera) -> None:
        self.camera = camera
        self.zoom = camera.pixels_per_metre
        self.plan = camera.document.plan
        self.units = self.plan.garden.site.units
        self.metrics = {kind: QFontMetricsF(_font(kind)) for kind in KINDS}
        self._of_beds: dict[str, _OfBed] = {}

    def hold_for(self, camera: Camera) -> bool:
        """Whether the labels of beds that are drawn the same may be kept for what a camera shows now."""
        before, self.plan = self.plan, camera.document.plan
        return (
            self.zoom == camera.pixels_per_metre
            and before.garden.site is self.plan.garden.site
            and before.catalogue is self.plan.catalogue
        )

    def groups(self) -> list[LabelGroup]:
        """The labels of the beds, each with its plantings, then those of the structures."""
        sheet = self.camera.sheet
        beds = [self._of_bed(bed, item) for bed in self.plan.beds if (item := sheet.beds.get(bed.id))]
        structures = [
            LabelGroup(tuple(self._structure(item.structure, self.pixels(item.shape().boundingRect()))))
            for item in sheet.structures.values()
            if item.structure is not None and self.zoom >= PLANTINGS_FROM
        ]
        return [*beds, *structures]

    def _of_bed(self, bed: Bed, item: BedItem) -> LabelGroup:
        """The labels of a bed and its plantings."""
        kept = self._of_beds.get(bed.id)
        if kept is not None and kept.made_for[0] is bed and kept.painted is item.painted:
            return kept.group
        made_for = (bed, *(each.plot for each in item.painted))
        if kept is not None and list(map(id, kept.made_for)) == list(map(id, made_for)):
            return kept.group
        rect = self.pixels(item.shape().boundingRect())
        found = LabelGroup((), rect)
        if max(rect.width(), rect.height()) >= LEAST_BED:
            plantings = self._plantings(item.painted) if self.zoom >= PLANTINGS_FROM else ()
            found = LabelGroup((self._bed_name(bed, rect), *plantings, *self._bed_size(bed, rect)), rect)
        self._of_beds[bed.id] = _OfBed(made_for, item.painted, found)
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
        text = structure.name or key_words(structure.kind)
        if structure.kind == "arch":
            height = show_length(structure.clear_height, self.units)
            text = say("{structure}, clear {height}", structure=text, height=height)
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
