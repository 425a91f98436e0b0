"""Labels of beds, plantings and structures over the sheet."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from operator import is_
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPainterPath, QTransform

from planner.desk.canvas import labels, transform
from planner.desk.canvas.bed_item import BedItem
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.labels import KINDS, Label, LabelGroup, LabelKind, LabelPlaces
from planner.desk.canvas.painted_planting import PaintedPlanting
from planner.desk.canvas.planting_labels import NamedPlot, NamePlace, Written, places_in_bed, shorter_names
from planner.desk.model.phrases import with_variety
from planner.desk.model.thing_words import planting_words, size_words
from planner.desk.theme import plant_symbols
from planner.desk.theme.palette import Look, letters
from planner.garden import Bed, Structure
from planner.garden.units import show_length
from planner.listings.structure_words import light_let_through
from planner.plan import Plan
from planner.sheets.family_inks import family_ink
from planner.words import capital, key_words, say

#: Zoom below which sizes, structures, and then the numbers of plantings beside the name of their bed, are no
#: longer written. [pixels per metre]
SIZES_FROM, STRUCTURES_FROM, NUMBERS_FROM = 38.0, 20.0, 11.0
#: Beds smaller than this get no label. [pixels]
LEAST_BED = 26.0

#: Breadth of the stripe in the ink of its family beside the name of a planting. [pixels]
STRIPE = 3.0
#: Words may stand out of their room by the tips of letters.
_ALIGN = Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextDontClip
#: What stands between the name of a bed and the numbers beside it.
BESIDE_NAME = "  ·  "
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
        self._numbers: tuple[str, ...] = ()

    @property
    def numbered(self) -> tuple[str, ...]:
        """Ids of the plantings that have a number in the place of a name, the first of them number 1."""
        self._follow()
        return self._numbers

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
            drafts, same = self._drafts, False
            if drafts is None or not drafts.words_hold_for(camera):
                drafts = self._drafts = _Drafts(camera)
            elif drafts.zoom != camera.pixels_per_metre:
                drafts.zoom_to(camera)
            else:
                same = True
            groups, self._numbers = _numbered(drafts.groups())
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
    if label.is_upright(rect):
        painter.save()
        painter.translate(place.center())
        painter.rotate(-90)
        level = QRectF(-place.height() / 2, -place.width() / 2, place.height(), place.width())
        _write(painter, label, level, look, on_bed=rect in label.inside)
        painter.restore()
    else:
        _write(painter, label, place, look, on_bed=rect in label.inside)


def _write(painter: QPainter, label: Label, place: QRectF, look: Look, *, on_bed: bool) -> None:
    """Write a label that lies level."""
    if label.kind == "planting":
        ink = family_ink(label.family, dark=look.dark)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRoundedRect(place, 3, 3)
        painter.setPen(look.ink)
        if label.number:
            painter.drawText(place, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, label.text)
            return
        stripe = QRectF(place.left(), place.top() + 2, STRIPE, place.height() - 4)
        painter.fillRect(stripe, plant_symbols.colour(ink.line_rgb))
        painter.drawText(place.adjusted(STRIPE + 3, 0, 0, 0), _ALIGN, label.text)
        return
    if on_bed:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(look.chip)
        painter.drawRect(place.adjusted(-1, 0, 2, 0))
    painter.setPen(look.pencil if label.kind == "size" else look.ink)
    painter.drawText(place, _ALIGN, label.text)


def _font(kind: LabelKind) -> QFont:
    return letters(10 if kind == "bed" else 9, bold=kind in ("bed", "numbers"), italic=kind == "structure")


def _numbered(groups: Sequence[LabelGroup]) -> tuple[list[LabelGroup], tuple[str, ...]]:
    """The groups with a number for each planting that has no name, and their ids in the order of the numbers."""
    keys: list[str] = []
    found = []
    for group in groups:
        if not group.unnamed:
            found.append(group)
            continue
        numbers = {key: len(keys) + place for place, key in enumerate(group.unnamed, start=1)}
        keys += group.unnamed
        beside = [numbers[key] for key in group.unnamed if key not in {one.key for one in group.labels}]
        found.append(
            replace(group, labels=tuple(_with_number(label, numbers, beside) for label in group.labels))
        )
    return found, tuple(keys)


def _with_number(label: Label, numbers: dict[str, int], beside: list[int]) -> Label:
    """A label with the number of its planting, or the name of a bed with the numbers that found no place on it."""
    if label.kind == "numbers":
        return replace(label, text=f"{label.text}{_ranges(beside)}")
    if label.kind == "planting" and label.number and label.key in numbers:
        return replace(label, text=str(numbers[label.key]), number=numbers[label.key])
    return label


def _ranges(numbers: list[int]) -> str:
    """Numbers in order, each run by its ends: ``3–5, 8``."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


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
        self._words: dict[str, tuple[object, tuple[Written, ...]]] = {}
        self._digits = 1

    def zoom_to(self, camera: Camera) -> None:
        """Draft them anew for another zoom; what may be written stays."""
        self.zoom, self._of_beds = camera.pixels_per_metre, {}

    def words_hold_for(self, camera: Camera) -> bool:
        """Whether what may be written of plantings that are drawn the same may be kept for what a camera shows now."""
        before, self.plan = self.plan, camera.document.plan
        return before.garden.site is self.plan.garden.site and before.catalogue is self.plan.catalogue

    def groups(self) -> list[LabelGroup]:
        """The labels of the beds, each with its plantings, then those of the structures."""
        sheet = self.camera.sheet
        beds = [self._of_bed(bed, item) for bed in self.plan.beds if (item := sheet.beds.get(bed.id))]
        # The room that numbers take follows from how many there are; more room makes no fewer.
        digits = len(str(sum(len(group.unnamed) for group in beds)))
        if digits != self._digits:
            self._digits, self._of_beds = digits, {}
            beds = [self._of_bed(bed, item) for bed in self.plan.beds if (item := sheet.beds.get(bed.id))]
        structures = [
            LabelGroup(tuple(self._structure(item.structure, self.pixels(item.shape().boundingRect()))))
            for item in sheet.structures.values()
            if item.structure is not None and self.zoom >= STRUCTURES_FROM
        ]
        return [*beds, *structures]

    def _of_bed(self, bed: Bed, item: BedItem) -> LabelGroup:
        """The labels of a bed and its plantings."""
        kept = self._of_beds.get(bed.id)
        if kept is not None and kept.made_for[0] is bed and kept.painted is item.painted:
            return kept.group
        made_for = (bed, *(each.plot for each in item.painted))
        inks = [each.ink for each in item.painted]
        if (
            kept is not None
            and [each.ink for each in kept.painted] == inks
            and list(map(id, kept.made_for)) == list(map(id, made_for))
        ):
            return kept.group
        rect = self.pixels(item.shape().boundingRect())
        found = LabelGroup((), rect)
        if max(rect.width(), rect.height()) >= LEAST_BED:
            plantings, unnamed = self._plantings(bed, item, rect)
            left_over = len(unnamed) - sum(1 for one in plantings if one.number)
            over = ", ".join(["0" * self._digits] * left_over)
            name = self._numbers_beside(bed, rect, over) if over else (self._bed_name(bed, rect),)
            found = LabelGroup((*plantings, *name, *self._bed_size(bed, rect)), rect, unnamed)
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
        return QSizeF(
            metrics.horizontalAdvance(text) + pad,
            metrics.capHeight() + metrics.descent() + (1 if kind == "bed" else 3),
        )

    def _bed_name(self, bed: Bed, rect: QRectF) -> Label:
        """The name of a bed beside it, level or along a side; on it only where no other place is left."""
        extent = self._extent(bed.name, "bed", 2)
        wide = extent.width() > rect.width() + 40
        beside: tuple[QRectF, ...] = () if wide else (labels.above(rect, extent, 1),)
        if self.zoom >= NUMBERS_FROM:
            beside += labels.along(rect, extent.transposed())
            beside += () if wide else labels.around(rect, extent)
            beside += labels.along(rect, extent.transposed(), -1)
        on_it = labels.corners(rect, extent)
        return Label(bed.id, bed.name, "bed", beside, on_it, high=extent.height())

    def _numbers_beside(self, bed: Bed, rect: QRectF, over: str) -> Iterator[Label]:
        """The name of a bed with the numbers that find no place on it; the numbers alone where that is too long."""
        for text, shown in ((f"{bed.name}{BESIDE_NAME}{over}", f"{bed.name}{BESIDE_NAME}"), (over, "")):
            extent = self._extent(text, "numbers", 2)
            beside = (
                labels.above(rect, extent, 1),
                *labels.along(rect, extent.transposed()),
                *labels.around(rect, extent),
            )
            if not shown:
                beside += labels.farther(rect, extent)
            on_it = labels.corners(rect, extent)
            yield Label(bed.id, shown, "numbers", beside, on_it, high=extent.height())

    def _bed_size(self, bed: Bed, rect: QRectF) -> Iterator[Label]:
        if self.zoom < SIZES_FROM:
            return
        words = size_words(bed, self.units)
        extent = self._extent(words, "size")
        if extent.width() + self._extent(bed.name, "bed").width() + 12 <= rect.width():
            yield Label(bed.id, words, "size", (labels.above_right(rect, extent),))

    def _plantings(self, bed: Bed, item: BedItem, rect: QRectF) -> tuple[tuple[Label, ...], tuple[str, ...]]:
        """The names and numbers of plantings on their bed, and the ids of those that have no name."""
        metrics = self.metrics["planting"]
        room = metrics.horizontalAdvance("0" * self._digits) + 4, metrics.capHeight() + 4
        if min(rect.width(), rect.height()) < room[1]:  # of thousands of beds seen from afar, most
            return (), tuple(each.planting.id for each in item.painted) if self.zoom >= NUMBERS_FROM else ()
        plots = [self._plot(bed, each, rect) for each in item.painted]
        outline = None if _is_level(bed, item.shape()) else self._path(item.shape())
        families = {each.planting.id: each.ink for each in item.painted}
        places = {one.key: one for one in places_in_bed(rect, outline, plots, room)}
        found = tuple(self._label(one, families[one.key]) for one in places.values())
        if self.zoom < NUMBERS_FROM:
            return tuple(one for one in found if not one.number), ()
        return found, tuple(plot.key for plot in plots if plot.key not in places or not places[plot.key].text)

    def _label(self, place: NamePlace, family: str) -> Label:
        number = 0 if place.text else 1  # which one is told when all beds are known
        high = place.rect.width() if place.upright else place.rect.height()
        return Label(
            place.key,
            place.text,
            "planting",
            (),
            (place.rect,),
            family,
            high=high,
            settled=True,
            number=number,
        )

    def _plot(self, bed: Bed, painted: PaintedPlanting, rect: QRectF) -> NamedPlot:
        words = self._written(painted)
        if painted.planting.shares_ground and len(painted.points):
            area = self.pixels(_around(painted)) & rect
            return NamedPlot(painted.planting.id, area, None, area.width() * area.height(), words)
        area = self.pixels(painted.plot.boundingRect())
        if _is_level(bed, painted.plot):
            return NamedPlot(painted.planting.id, area, None, area.width() * area.height(), words)
        ground = self.plan.placed(painted.planting).area * self.zoom**2
        return NamedPlot(painted.planting.id, area, self._path(painted.plot), ground, words)

    def _written(self, painted: PaintedPlanting) -> tuple[Written, ...]:
        """What may be written for a planting."""
        planting = painted.planting
        kept = self._words.get(planting.id)
        if kept is not None and kept[0] is painted.plot:
            return kept[1]
        found = tuple(
            Written(text, extent.width(), extent.height())
            for text in _names(self.plan, painted)
            for extent in [self._extent(text, "planting", STRIPE + 6)]
        )
        self._words[planting.id] = (painted.plot, found)
        return found

    def _path(self, path: QPainterPath) -> QPainterPath:
        """A path of the scene at this zoom. [pixels]"""
        factor = self.zoom / transform.SCALE
        return QTransform.fromScale(factor, factor).map(path)

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


def _names(plan: Plan, painted: PaintedPlanting) -> tuple[str, ...]:
    """What may be written for a planting, the longest first."""
    planting = painted.planting
    crop = capital(plan.catalogue.name_of(planting.crop))
    name = with_variety(crop, planting.variety)
    count = f"{name} · {plan.placed(planting).plants}"
    return shorter_names(planting_words(plan, planting), name, crop, count)


def _is_level(bed: Bed, path: QPainterPath) -> bool:
    """Whether a path on a bed is a rectangle that lies level."""
    return bed.outline.turn % 90 == 0 and path.elementCount() == 5 and bed.outline.shape == "rectangle"


def _around(painted: PaintedPlanting) -> QRectF:
    """Extents of single plants and of the ground that they cover. [scene units]"""
    left, top = painted.points.min(axis=0)
    right, bottom = painted.points.max(axis=0)
    room = max(painted.mark / 2, 5.0)
    return QRectF(left - room, top - room, right - left + 2 * room, bottom - top + 2 * room)
