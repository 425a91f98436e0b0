"""What is to be written of beds, plantings and structures at a zoom, and the places it may take."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from PySide6.QtCore import QRectF, QSizeF
from PySide6.QtGui import QFont, QFontMetricsF, QPainterPath, QTransform

from planner.desk.canvas import labels, transform
from planner.desk.canvas.bed_item import BedItem
from planner.desk.canvas.camera import Camera
from planner.desk.canvas.label_numbers import BESIDE_NAME
from planner.desk.canvas.labels import KINDS, Label, LabelGroup, LabelKind, Numbered
from planner.desk.canvas.painted_planting import PaintedPlanting
from planner.desk.canvas.planting_labels import NamedPlot, NamePlace, Written, places_in_bed, shorter_names
from planner.desk.model.phrases import with_variety
from planner.desk.model.thing_words import planting_words, size_words
from planner.desk.theme.palette import letters
from planner.garden import Bed, Structure
from planner.garden.units import show_length
from planner.listings.structure_words import light_let_through
from planner.plan import Plan
from planner.words import capital, key_words, say

#: Zoom below which sizes and structures are no longer written, beds whose names may have no room are named in the key, and then beds
#: are too small for that. [pixels per metre]
SIZES_FROM, STRUCTURES_FROM, BED_NAMES_FROM, NUMBERS_FROM = 38.0, 20.0, 24.0, 6.0
#: Zoom below which the beds of a garden of more beds than this have no numbers. [pixels per metre]
NUMBERS_OF_MANY_FROM, MANY_BEDS = 11.0, 300
#: Beds smaller than this get no label, and where there are no numbers, no name. [pixels]
LEAST_BED, LEAST_NAMED = 12.0, 26.0
#: Breadth of the stripe in the ink of its family beside the name of a planting. [pixels]
STRIPE = 3.0


def label_font(kind: LabelKind) -> QFont:
    """The letters of a kind of label."""
    return letters(10 if kind == "bed" else 9, bold=kind in ("bed", "numbers"), italic=kind == "structure")


class _OfBed(NamedTuple):
    """The labels of a bed, and what they were made for."""

    made_for: tuple[object, ...]
    painted: tuple[PaintedPlanting, ...]
    group: LabelGroup


class Drafts:
    """Labels with the places they may take at the camera's zoom, the most needed first.

    Those of a bed are kept while it is drawn the same.
    """

    def __init__(self, camera: Camera) -> None:
        self.camera = camera
        self.zoom = camera.pixels_per_metre
        self.plan = camera.document.plan
        self.units = self.plan.garden.site.units
        self.metrics = {kind: QFontMetricsF(label_font(kind)) for kind in KINDS}
        self._of_beds: dict[str, _OfBed] = {}
        self._words: dict[str, tuple[object, tuple[Written, ...]]] = {}
        self._digits, self._settled = 1, (1, 1)

    def zoom_to(self, camera: Camera) -> None:
        """Draft them anew for another zoom; what may be written stays."""
        self.zoom, self._of_beds, self._settled = camera.pixels_per_metre, {}, (0, 0)

    def words_hold_for(self, camera: Camera) -> bool:
        """Whether what may be written of plantings that are drawn the same may be kept for what a camera shows now."""
        before, self.plan = self.plan, camera.document.plan
        return before.garden.site is self.plan.garden.site and before.catalogue is self.plan.catalogue

    def groups(self) -> list[LabelGroup]:
        """The labels of the beds, each with its plantings, then those of the structures."""
        sheet = self.camera.sheet
        beds = self._groups_of_beds()
        if (_digits_of(beds), self._digits) != self._settled:
            # The room that numbers take follows from how many there are; more room may make fewer.
            for digits in range(1, 10):
                if digits != self._digits:
                    self._digits, self._of_beds = digits, {}
                    beds = self._groups_of_beds()
                if _digits_of(beds) <= digits:
                    break
            self._settled = _digits_of(beds), self._digits
        structures = [
            LabelGroup(tuple(self._structure(item.structure, self.pixels(item.shape().boundingRect()))))
            for item in sheet.structures.values()
            if item.structure is not None and self.zoom >= STRUCTURES_FROM
        ]
        return [*beds, *structures]

    def _groups_of_beds(self) -> list[LabelGroup]:
        sheet = self.camera.sheet
        return [self._of_bed(bed, item) for bed in self.plan.beds if (item := sheet.beds.get(bed.id))]

    @property
    def _has_numbers(self) -> bool:
        """Whether numbers are written at this zoom."""
        return self.zoom >= (NUMBERS_FROM if len(self.plan.beds) <= MANY_BEDS else NUMBERS_OF_MANY_FROM)

    def _of_bed(self, bed: Bed, item: BedItem) -> LabelGroup:
        """The labels of a bed and its plantings."""
        kept = self._of_beds.get(bed.id)
        if kept is not None and (
            (kept.made_for[0] is bed and kept.painted is item.painted)
            or self.camera.document.unplaced.get(bed.id)
        ):
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
        numbers = self._has_numbers
        if max(rect.width(), rect.height()) >= (LEAST_BED if numbers else LEAST_NAMED):
            plantings = self._plantings(bed, item, rect) if numbers else ()
            if len(plantings) < len(item.painted) and self.zoom < BED_NAMES_FROM:
                # One number for the bed finds a place where one for each planting would leave it none.
                plantings = tuple(one for one in plantings if not one.number)
            named = {one.key for one in plantings}
            numbered = tuple(Numbered(one.key) for one in plantings if one.number)
            left_over = tuple(key for each in item.painted if (key := each.planting.id) not in named)
            if numbers and (left_over or (self.zoom < BED_NAMES_FROM and not numbered)):
                numbered = (Numbered(bed.id, left_over), *numbered)
                name = tuple(self._numbers_beside(bed, rect))
            else:
                name = (self._bed_name(bed, rect),)
                if numbered and self.zoom < BED_NAMES_FROM:
                    numbered = (Numbered(bed.id, heads=True), *numbered)
            about = (one for one in (*name, *self._bed_size(bed, rect)) if one.places)
            found = LabelGroup((*plantings, *about), rect, numbered)
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
        """The name of a bed beside it: level, else upright along a side; on it only where no other place is left."""
        extent = self._extent(bed.name, "bed", 2)
        on_it = labels.corners(rect, extent)
        beside = _beside(rect, extent, about=self.zoom >= BED_NAMES_FROM)
        return Label(bed.id, bed.name, "bed", beside, on_it, high=extent.height())

    def _numbers_beside(self, bed: Bed, rect: QRectF) -> Iterator[Label]:
        """The name of a bed with its number; the number alone where that is too long."""
        digits = "0" * self._digits
        for text, shown in ((f"{bed.name}{BESIDE_NAME}{digits}", f"{bed.name}{BESIDE_NAME}"), (digits, "")):
            extent = self._extent(text, "numbers", 2)
            if not shown:
                metrics = self.metrics["numbers"]  # digits reach below no line
                chip = extent = QSizeF(metrics.horizontalAdvance(text) + 4, metrics.capHeight() + 2)
                if rect.height() > 1.2 * rect.width() and rect.width() < chip.width():
                    chip = chip.transposed()
                over = labels.over_middle(rect, chip)
                beside = _beside(rect, extent, upright=False)
                if (
                    rect.height() > rect.width()
                ):  # what is under a row of upright beds belongs to the row below
                    beside = beside[:-1]
                yield Label(bed.id, shown, "numbers", beside, over=over, high=extent.height(), number=1)
            else:
                # Where the garden is small in the window, there is no room beside it.
                far = self.zoom < BED_NAMES_FROM
                on_it = labels.corners(rect, extent)
                beside = _beside(rect, extent, about=not far)
                yield Label(bed.id, shown, "numbers", beside, on_it, high=extent.height(), number=1)

    def _bed_size(self, bed: Bed, rect: QRectF) -> Iterator[Label]:
        if self.zoom < SIZES_FROM:
            return
        words = size_words(bed, self.units)
        extent = self._extent(words, "size")
        if extent.width() + self._extent(bed.name, "bed").width() + 12 <= rect.width():
            yield Label(bed.id, words, "size", (labels.above_right(rect, extent),))

    def _plantings(self, bed: Bed, item: BedItem, rect: QRectF) -> tuple[Label, ...]:
        """The names and numbers of plantings on their bed."""
        metrics = self.metrics["planting"]
        room = metrics.horizontalAdvance("0" * self._digits) + 4, metrics.capHeight() + 4
        if min(rect.width(), rect.height()) < room[1]:  # of thousands of beds seen from afar, most
            return ()
        plots = [self._plot(bed, each, rect) for each in item.painted]
        outline = None if _is_level(bed, item.shape()) else self._path(item.shape())
        families = {each.planting.id: each.ink for each in item.painted}
        places = places_in_bed(rect, outline, plots, room)
        return tuple(self._label(one, families[one.key]) for one in places)

    def _label(self, place: NamePlace, family: str) -> Label:
        number = 0 if place.text else 1  # which one is told when all beds are known
        high = place.rect.width() if place.upright else place.rect.height()
        return Label(
            place.key,
            place.text,
            "planting",
            inside=(place.rect,),
            family=family,
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


def _digits_of(groups: list[LabelGroup]) -> int:
    """Digits of the largest number of some beds."""
    return len(str(sum(not one.heads for group in groups for one in group.numbered)))


def _beside(rect: QRectF, extent: QSizeF, *, upright: bool = True, about: bool = True) -> tuple[QRectF, ...]:
    """Places for words beside a bed: those along its long side first, upright beside a level bed last.

    Words that are much longer than the side above which they would lie belong to no bed that one can tell.

    Parameters
    ----------
    rect : QRectF
        Extents of the bed. [pixels]
    extent : QSizeF
        Of the words. [pixels]
    upright : bool
        Whether they may read from below to above.
    about : bool
        Whether they may stand at an end, and leave the breadth of the bed.
    """
    wide = extent.width() > rect.width() + (40 if about else 0)
    above = () if wide else (labels.above(rect, extent, 1),)
    ends = () if wide or not about else labels.around(rect, extent)
    upright = upright and (about or extent.width() <= rect.height())
    left = labels.along(rect, extent.transposed()) if upright else ()
    right = labels.along(rect, extent.transposed(), -1) if upright else ()
    if rect.width() < rect.height():
        return above + left + ends + right
    return above + ends + (left + right if about else ())


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
