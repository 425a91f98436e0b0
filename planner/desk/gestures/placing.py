"""Placing a crop: the real stations and their number, before it is let go."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

from PySide6.QtCore import QPointF, QRectF, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QPainter, QPen
from typing_extensions import override

from planner.crops import Crop
from planner.desk.canvas import transform
from planner.desk.gestures.base import Gesture, GestureView, Pointer
from planner.desk.gestures.drop_painting import paint_drop
from planner.desk.gestures.row_variety import RowDrop, paint_rows, row_drop_lines, rows_under, take_rows
from planner.desk.model.drop_preview import (
    DropPreview,
    causes_of,
    planted_fields,
    preview_drop,
    preview_lines,
)
from planner.desk.model.phrases import with_variety
from planner.desk.model.thing_words import size_words
from planner.garden import Bed, Garden, Planting, Rectangle, edits
from planner.ground import shapes
from planner.ground.dropping import Manner
from planner.ground.free import pieces
from planner.listings.record_words import lesson_lines
from planner.plan.dropping import FreeGrounds, find_drop, shaded_by
from planner.plan.new_bed import bed_for, free_place, in_the_way, make_planted_bed, planted_bed
from planner.plan.recorded import lessons_in_plan
from planner.words import day_words, say, say_count

#: A crop this near to a bed is held over it. [m]
BED_REACH = 0.15
#: Height of the name above a bed. [pixels]
NAME_ABOVE = 16
#: What a drop would cause is worked out when the pointer has rested so long. [ms]
RESTING = 150
#: Path that is left to what is there by a new bed whose place no pointer gives. [m]
NEW_BED_PATH = 0.5

_BEDS_BY_KEY = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}
_PIECES_BY_KEY = {Qt.Key.Key_Tab: 1, Qt.Key.Key_Backtab: -1}


def manner_of(modifiers: Qt.KeyboardModifier) -> Manner:
    """The piece of ground that the modifier keys choose."""
    if modifiers & Qt.KeyboardModifier.AltModifier:
        return "single"
    if modifiers & Qt.KeyboardModifier.ControlModifier:
        return "whole"
    if modifiers & Qt.KeyboardModifier.ShiftModifier:
        return "stretch"
    return "free"


def _day_note(day: dt.date | None) -> str:
    """What is added where the day shown went to a planting that could not be seen; empty where it stayed."""
    return "" if day is None else say("; the day shown is {day}, when it grows there", day=day_words(day))


class PlaceCrop(Gesture):
    """Holds a crop over the beds; a click, a drop or Enter plants it.

    With the keyboard the arrows go from bed to bed and Tab from one free piece to the next.
    """

    lasting = True
    #: Whether bare ground is offered as a new bed.
    may_draw_bed = True
    cursor = Qt.CursorShape.CrossCursor
    keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_B)

    def __init__(self, view: GestureView, crop: Crop, variety: str = "") -> None:
        super().__init__(view)
        self.hint = say(
            "Free ground; Shift a stretch, Ctrl the whole bed, Alt one plant. "
            "Arrows and Enter work too; Escape ends"
        )
        self.crop, self.variety = crop, variety
        self.preview: DropPreview | None = None
        self.rows: RowDrop | None = None
        self._grounds: FreeGrounds | None = None
        self._key: tuple[object, ...] = ()
        self._at = QPointF(-1000, -1000)
        self._resting = QTimer()
        self._resting.setSingleShot(True)
        self._resting.setInterval(RESTING)
        self._resting.timeout.connect(self.work_out_consequences)
        self._bed_index = -1
        self._piece = 0

    # -- the preview ------------------------------------------------------------------------

    def over(self, at: Pointer) -> bool:
        """Follow the pointer; returns whether the crop may be let go here."""
        self._at = at.view
        self.rows = rows_under(self.view, self.crop, self.variety, at)
        if self.rows is not None:
            self._show(None)
            return True
        key = self.view.sheet.bed_at(at.scene, BED_REACH * transform.SCALE)
        if key is None:
            if not self.may_draw_bed:
                self._show(None)
                return False
            return self._over_bare_ground(at)
        bed = self.document.garden.beds_by_id[key]
        ((x, y),) = shapes.to_own(bed.outline, [at.plan])
        self.hold_over(bed, (float(x), float(y)), manner_of(at.modifiers))
        return self.preview is not None and self.preview.may_land

    def _over_bare_ground(self, at: Pointer) -> bool:
        """Offer a bed of the crop's size here."""
        free = at.held(Qt.KeyboardModifier.AltModifier)
        place = at.plan if free else (self.view.snap(*at.plan).x, self.view.snap(*at.plan).y)
        self.offer_bed(bed_for(self.document.plan, self.crop, place, 0.0))
        return self.preview is not None and self.preview.may_land

    def offer_bed(self, outline: Rectangle) -> None:
        """Preview a new bed with the crop over all of it."""
        plan = self.document.plan
        key = (plan, outline)
        if key == self._key:
            return
        self._resting.stop()
        why = in_the_way(plan, outline)
        tried, bed, planting = planted_bed(plan, self.crop, self.variety, outline)
        preview = (
            DropPreview(bed, None, None, why) if why else DropPreview(bed, planting, tried.trial(planting))
        )
        self._show(preview)
        self._key = key

    @property
    def offers_bed(self) -> bool:
        """Whether the crop would land in a bed that is not there yet."""
        return self.preview is not None and self.preview.bed.id not in self.document.garden.beds_by_id

    def hold_over(self, bed: Bed, at: tuple[float, float], manner: Manner) -> None:
        """Preview what the crop would become here.

        Parameters
        ----------
        bed : Bed
        at : tuple of float
            In the bed's coordinates. [m]
        manner : {"free", "stretch", "whole", "single"}
        """
        self.rows = None
        plan = self.document.plan
        if self._grounds is None or not self._grounds.serves(plan, bed, self.crop, self.variety):
            self._grounds = FreeGrounds(plan, bed, self.crop, self.variety)
        found = find_drop(plan, bed, self.crop, self.variety, at, manner, self.view.fine_step, self._grounds)
        if found is None:
            self._show(None)
            return
        key = (bed, plan, found)
        if key == self._key:
            return
        preview = preview_drop(plan, bed, self.crop, self.variety, found)
        self._show(preview)
        if preview.placed is not None:
            self._key = key
            if preview.placed.plants:
                self._resting.start()

    def _show(self, preview: DropPreview | None) -> None:
        if preview is None or not preview.may_land:
            self._key = ()
        self.preview = preview
        self.repaint()

    def work_out_consequences(self) -> None:
        """Add what the checks would say of the drop, and which plantings would lose sun to it."""
        preview, plan = self.preview, self.document.plan
        if preview is None or preview.planting is None or preview.placed is None:
            return
        day = self.document.moment.date()
        self.preview = replace(
            preview,
            causes=causes_of(plan, preview.planting),
            lessons=tuple(lesson_lines(lessons_in_plan(plan, preview.planting.crop, preview.bed.id))),
            shaded=shaded_by(plan, preview.planting, preview.placed, day),
        )
        self.repaint()

    @override
    def cancel(self) -> None:
        self._resting.stop()
        super().cancel()

    # -- by pointer -------------------------------------------------------------------------

    @override
    def move(self, at: Pointer) -> None:
        self.over(at)

    @override
    def press(self, at: Pointer) -> None:
        self.over(at)

    @override
    def finish(self, at: Pointer) -> bool:
        self.over(at)
        more = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.AltModifier
        return self.plant() and not at.held(more)

    def plant(self) -> bool:
        """Plant what is previewed; returns whether it was planted."""
        self._resting.stop()
        if self.rows is not None:
            return self._take_rows(self.rows)
        preview = self.preview
        if preview is None:
            self.view.say(say("Hold {crop} over a bed to plant it", crop=self.crop.name))
            return False
        if preview.planting is None or preview.placed is None:
            self.view.say(say("{why}; choose another bed, or hold Ctrl for the whole bed", why=preview.why))
            return False
        if preview.placed.problem and not preview.placed.plants:
            self.view.say(preview.placed.problem)
            return False
        if self.offers_bed:
            return self._plant_bed(preview, preview.planting)
        made: list[str] = []
        wanted = preview.planting

        def change(garden: Garden) -> Garden:
            garden, new = edits.plant(garden, wanted.bed, wanted.crop, wanted.year, **planted_fields(wanted))
            made.extend(new)
            return garden

        count, bed = preview.placed.plants, preview.bed.name
        done = self.document.edit(
            say("Plant {count} {crop} in {bed}", count=count, crop=self.crop.name, bed=bed), change
        )
        if done:
            day = self.document.show_growing(made)
            if made:
                self.document.select(made)
            said = say(
                "Planted {count} {crop} in {bed}{note}",
                count=count,
                crop=self.crop.name,
                bed=bed,
                note=_day_note(day),
            )
            lessons = lesson_lines(lessons_in_plan(self.document.plan, wanted.crop, wanted.bed))
            self.view.say(said if not lessons else f"{said} · {' · '.join(lessons)}")
        self._key = ()
        return done

    def _plant_bed(self, preview: DropPreview, planting: Planting) -> bool:
        """Make the bed with its planting, as one step."""
        outline = preview.bed.outline
        made: list[str] = []
        count = preview.placed.plants if preview.placed is not None else 0

        def change(garden: Garden) -> Garden:
            garden, bed, new = make_planted_bed(garden, outline, planting)
            made.extend((bed, new))
            return garden

        step = say("Plant {count} {crop} in a new bed", count=count, crop=self.crop.name)
        done = self.document.edit(step, change)
        self._key = ()
        if done:
            day = self.document.show_growing(made[1:])
            self.document.select(made[1:])
            name = self.document.garden.beds_by_id[made[0]].name
            size = size_words(preview.bed, self.document.garden.site.units)
            self.view.say(
                say("{step}: {bed}, {size}{note}", step=step, bed=name, size=size, note=_day_note(day))
            )
        return done

    def _take_rows(self, drop: RowDrop) -> bool:
        """Let the variety take rows of a planting of its crop."""
        self.rows = None
        name = with_variety(self.crop.name, self.variety)
        step = say_count(
            "Give {count} row to {variety}", "Give {count} rows to {variety}", len(drop.rows), variety=name
        )
        made = take_rows(self.document, self.variety, drop, step)
        if not made:
            return False
        plantings = self.document.garden.plantings_by_id
        new = [key for key in made if plantings[key].variety == self.variety]
        self.document.select(new)
        self.view.say(say_count("{step}: {count} plant", "{step}: {count} plants", drop.plants, step=step))
        return True

    # -- by keyboard ------------------------------------------------------------------------

    def begin_at(self, bed_id: str | None) -> None:
        """Hold the crop over a bed, or over the first one."""
        beds = self.document.plan.beds
        if not beds:
            self._offer_bed_by_key()
            return
        ids = [bed.id for bed in beds]
        self._bed_index = ids.index(bed_id) if bed_id in ids else 0
        self._piece = 0
        self._over_piece(Qt.KeyboardModifier.NoModifier)

    def _offer_bed_by_key(self) -> None:
        """Offer a new bed below all that is there."""
        if not self.may_draw_bed:
            self.view.say(say("Draw a bed first"))
            return
        plan = self.document.plan
        outline = bed_for(plan, self.crop, (0.0, 0.0), 0.0)
        middle = free_place(plan, outline, NEW_BED_PATH)
        self.offer_bed(outline.with_(center=middle))
        self.view.show_place(middle)
        self._at = self.view.to_view(middle)
        self._tell_lines()

    def _tell_lines(self) -> None:
        words = "; ".join(self.lines())
        self.view.say(words)

    def _over_piece(self, modifiers: Qt.KeyboardModifier) -> None:
        bed = self.document.plan.beds[self._bed_index]
        found = [piece for _, free in self.document.plan.free_from(bed) for piece in pieces(free)]
        piece = found[self._piece % len(found)] if found else shapes.bed_polygon(bed)
        middle = piece.representative_point()
        self.hold_over(bed, (middle.x, middle.y), manner_of(modifiers))
        x, y = shapes.to_plan(bed.outline, [(middle.x, middle.y)])[0]
        self.view.show_place((float(x), float(y)))
        self._at = self.view.to_view((float(x), float(y)))
        self.view.say(f"{bed.name}: {'; '.join(self.lines())}")

    @override
    def key(self, event: QKeyEvent) -> bool:
        beds = self.document.plan.beds
        key = Qt.Key(event.key())
        if key not in self.keys and key not in _BEDS_BY_KEY and key not in _PIECES_BY_KEY:
            return False
        if key == Qt.Key.Key_B or (not beds and not self.offers_bed):
            self._offer_bed_by_key()
        elif not beds and key not in self.keys:
            self._tell_lines()
        elif key in _BEDS_BY_KEY:
            self._bed_index = (max(self._bed_index, 0) + _BEDS_BY_KEY[key]) % len(beds)
            self._piece = 0
            self._over_piece(Qt.KeyboardModifier.NoModifier)
        elif key in _PIECES_BY_KEY:
            self._piece += _PIECES_BY_KEY[key]
            self._over_piece(Qt.KeyboardModifier.NoModifier)
        elif self._bed_index < 0 and self.preview is None and beds:
            self.begin_at(None)
        else:
            if event.modifiers() & Qt.KeyboardModifier.ControlModifier and not self.offers_bed:
                self._over_piece(Qt.KeyboardModifier.ControlModifier)
            if self.plant():
                self.view.end_gesture()
        return True

    # -- painting ---------------------------------------------------------------------------

    def lines(self) -> list[str]:
        """What is written beside the pointer."""
        if self.rows is not None:
            return row_drop_lines(self.crop, self.variety, self.rows)
        units = self.document.garden.site.units
        lines = preview_lines(self.preview, self.crop, units)
        if self.preview is not None and self.offers_bed and self.preview.may_land:
            lines.append(say("in a new bed of {size}", size=size_words(self.preview.bed, units)))
        return lines

    @override
    def paint(self, painter: QPainter) -> None:
        preview = self.preview
        if self.rows is not None:
            paint_rows(painter, self.view, self.rows)
        if preview is not None:
            if self.offers_bed:
                outline = self.view.view_path(shapes.plan_polygon(preview.bed.outline))
                painter.strokePath(outline, QPen(self.view.look.now.accent, 2.0))
            paint_drop(painter, self.view, preview)
        if preview is not None or self._at.x() >= 0:
            warn = preview is not None and preview.warns
            off = self._bed_in_view(preview.bed) if preview is not None else None
            self.paint_chip(painter, self._at + QPointF(18, 18), self.lines(), warn=warn, off=off)

    def _bed_in_view(self, bed: Bed) -> QRectF:
        """The bed with the name above it, in the viewport. [pixels]"""
        outline = self.view.view_path(shapes.plan_polygon(bed.outline)).boundingRect()
        return outline.adjusted(0, -NAME_ABOVE, 0, 0)
