"""A bed as a form."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QCheckBox

from planner.amounts import amounts
from planner.crops.cover_effects import GLASS_WORDS
from planner.desk.forms import fields
from planner.desk.forms.dressing_rows import DressingRows
from planner.desk.forms.form import Form
from planner.desk.forms.lock_row import LockRow
from planner.desk.forms.outline_sizes import OutlineSizes
from planner.desk.forms.soil_rows import SoilRows
from planner.desk.forms.sun_bars import SunBars
from planner.desk.forms.wrapped import WrappedButton
from planner.desk.model.document import Document
from planner.desk.model.phrases import plantings_words, plants_words
from planner.desk.model.thing_words import planting_words
from planner.garden import Bed, Soil, edits
from planner.garden.edits.common import EditError, checked
from planner.garden.units import show_area, show_distance
from planner.ground import shapes
from planner.listings.record_words import dated_record, lesson_lines
from planner.plan.recorded import lessons_in_plan, records_of_bed
from planner.plan.walking import walk_from
from planner.words import later, say

#: So many records of a bed are shown.
LAST_RECORDS = 6
_KINDS = {
    "open": later("open ground"),
    "raised": later("raised bed"),
    "container": later("container"),
    "under glass": later("under glass"),
}


def bed_kinds() -> list[tuple[str, str]]:
    """Kinds of beds, with words."""
    return [(key, say(_KINDS[key])) for key in _KINDS]


class BedForm(Form):
    """Name, size, place and kind of a bed, and what grows in it."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self._head, self._ways_of = "", ""
        self._ways: list[str] = []
        self._ways_later = QTimer(self)
        self._ways_later.setSingleShot(True)
        self._ways_later.setInterval(0)
        self._ways_later.timeout.connect(self._show_ways)
        self.section("")
        self.name = fields.text_field(say("Name of the bed"))
        self.row(say("Name"), self.name)
        self.name.typed.connect(lambda text: self.edit(say("Rename a bed"), edits.change_bed, name=text))
        self._make_outline()
        self._make_ground()
        self.soil = SoilRows(self, lambda soil: self._change(soil=soil))
        self.dressings = DressingRows(self, self._one)
        self.section(say("Light"))
        self.sun = SunBars(document)
        self.widget(self.sun)
        self.section(say("Notes"))
        self.notes = fields.NotesField(say("Notes on the bed"))
        self.widget(self.notes)
        self.notes.typed.connect(lambda text: self.edit(say("Note on a bed"), edits.change_bed, notes=text))
        self.plantings = self.words()
        self._records_head = self.section(say("What happened here"))
        self.records = self.words()
        self.sheet_button = WrappedButton(say("Bed sheet as PDF…"))
        self.widget(self.sheet_button)
        self.finish()

    # -- fields -----------------------------------------------------------------------------

    def _make_outline(self) -> None:
        self.section(say("Shape"))
        self.sizes = OutlineSizes(self, self._resize)
        self.length, self.wide, self.radius = self.sizes.length, self.sizes.width, self.sizes.radius
        self.across = fields.length_field(say("Centre, across"), lambda: self.units)
        self.up = fields.length_field(say("Centre, up"), lambda: self.units)
        self.row(say("Centre x, y"), self.across, self.up)
        self.turn = fields.number_field(say("Turn"), after="°")
        self.row(say("Turn"), self.turn)
        self.across.typed.connect(lambda value: self._move(x=value))
        self.up.typed.connect(lambda value: self._move(y=value))
        self.turn.typed.connect(self._turn)
        self.lock = LockRow(self, self._lock)

    def _make_ground(self) -> None:
        self.section(say("Ground"))
        self.kind = fields.ChoiceField(say("Kind of bed"), bed_kinds())
        self.row(say("Kind"), self.kind)
        self.kind.chosen.connect(lambda kind: self._change(kind=kind))
        self.high = fields.length_field(say("Height above the ground"), lambda: self.units)
        self._height_label = self.row(say("Height"), self.high)
        self.high.typed.connect(lambda value: self._change(height=value))
        self.deep = fields.length_field(say("Depth of soil"), lambda: self.units, may_be_empty=True)
        self._depth_label = self.row(say("Soil depth"), self.deep)
        self.deep.typed.connect(lambda value: self._change(depth=value))
        self.kept_above = fields.temperature_field(
            say("Kept above, by heating"), lambda: self.units, may_be_empty=True
        )
        self._kept_label = self.row(say("Kept above"), self.kept_above)
        self.kept_above.typed.connect(lambda value: self._change(kept_above=value))
        self.drip = QCheckBox(say("Drip lines along the rows"))
        self.drip.clicked.connect(lambda: self._change(drip_lines=self.drip.isChecked()))
        self.widget(self.drip)
        self.first = fields.whole_field(say("First year in use"), may_be_empty=True)
        self.last = fields.whole_field(say("Last year in use"), may_be_empty=True)
        self.row(say("In use"), self.first, self.last)
        self.first.typed.connect(lambda value: self._change(first_year=value))
        self.last.typed.connect(lambda value: self._change(last_year=value))

    # -- edits ------------------------------------------------------------------------------

    @property
    def bed(self) -> Bed | None:
        """The bed shown."""
        return self.document.garden.beds_by_id.get(self.key)

    def _one(self) -> tuple[Bed, ...]:
        return (self.bed,) if self.bed is not None else ()

    def _lock(self, locked: bool) -> None:
        words = say("Lock a bed") if locked else say("Unlock a bed")
        self.edit(words, edits.change_bed, locked=locked)

    def _change(self, **changes: Any) -> None:
        self.edit(say("Change a bed"), edits.change_bed, **changes)

    def _resize(self, **changes: Any) -> None:
        bed = self.bed
        if bed is None:
            return
        try:
            outline = checked(lambda: bed.outline.with_(**changes), bed.name)
        except EditError as error:
            self.refuse(str(error))
            return
        self.edit(say("Resize a bed"), edits.resize_bed, outline=outline)

    def _move(self, x: float | None = None, y: float | None = None) -> None:
        bed = self.bed
        if bed is not None:
            cx, cy = bed.outline.center
            dx = 0.0 if x is None else x - cx
            dy = 0.0 if y is None else y - cy
            words = say("Move {things}", things=bed.name)
            self.edit(words, lambda garden, key: edits.move_things(garden, [key], dx, dy))

    def _turn(self, degrees: float) -> None:
        bed = self.bed
        if bed is not None:
            by = degrees - bed.outline.turn
            words = say("Turn {things}", things=bed.name)
            self.edit(words, lambda garden, key: edits.turn_things(garden, [key], by))

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the bed as it is now."""
        bed = self.bed
        if bed is None:
            return
        plan = self.document.plan
        self.heading.setText(bed.name)
        area, free = show_area(plan.area(bed), self.units), show_area(plan.free(bed).area, self.units)
        self._head = say("{area}, of it {free} free all year", area=area, free=free)
        if self._ways_of != bed.id:
            self._ways, self._ways_of = [], bed.id
        if self.document.garden is self.document.stable:  # ways take too long for each step of a gesture
            self._ways_later.start()
        self.under.setText("\n".join([self._head, *self._ways]))
        self.name.show_value(bed.name)
        self._show_outline(bed)
        self._show_ground(bed)
        self.dressings.show()
        self.sun.show_thing(bed.id)
        self.notes.show_value(bed.notes)
        self.plantings.setText("\n".join(self._planting_lines(bed)))
        self._show_records(bed)

    def _show_ways(self) -> None:
        """Add the ways, which take a turn of the event loop of their own."""
        bed = self.bed
        if bed is not None and self.document.garden is self.document.stable:
            self._ways = self._way_words(bed)
            self.under.setText("\n".join([self._head, *self._ways]))

    def _way_words(self, bed: Bed) -> list[str]:
        """How far one walks to it from the gate and from the tap, where they are drawn."""
        plan = self.document.plan
        gate, tap = (walk_from(plan, kind).get(bed.id) for kind in ("gate", "tap"))
        words = []
        if gate is not None:
            words.append(say("{distance} on foot from the gate", distance=show_distance(gate, self.units)))
        if tap is not None:
            words.append(say("{distance} on foot from the tap", distance=show_distance(tap, self.units)))
        return words

    def _show_records(self, bed: Bed) -> None:
        """Its lessons, and what happened here last."""
        plan = self.document.plan
        lines = lesson_lines(lessons_in_plan(plan, bed=bed.id))
        lessons = {one.id for one in lessons_in_plan(plan, bed=bed.id)}
        happened = [one for one in records_of_bed(plan, bed.id) if one.id not in lessons]
        lines += [dated_record(plan, one) for one in happened[:LAST_RECORDS]]
        self.records.setText("\n".join(lines))
        for widget in (self._records_head, self.records):
            widget.setVisible(bool(lines))

    def _show_outline(self, bed: Bed) -> None:
        self.sizes.show(bed.outline)
        self.across.show_value(bed.outline.center[0])
        self.up.show_value(bed.outline.center[1])
        self.turn.show_value(bed.outline.turn)
        self.lock.show([bed])

    def _show_ground(self, bed: Bed) -> None:
        self.kind.show_value(bed.kind)
        tall = bed.kind in ("raised", "container") or bed.height > 0
        for widget in (self.high, self._height_label):
            widget.setVisible(tall)
        self.high.show_value(bed.height)
        for widget in (self.deep, self._depth_label):
            widget.setVisible(bed.kind == "container")
        self.deep.show_value(bed.depth)
        glass = any(kind in GLASS_WORDS for kind in self.document.plan.shelter_of(bed))
        for widget in (self.kept_above, self._kept_label):
            widget.setVisible(glass or bed.kept_above is not None)
        self.kept_above.show_value(bed.kept_above, say("not heated"))
        self.drip.setChecked(bed.drip_lines)
        wider = Soil() if bed.kind == "container" else self.document.garden.site.soil
        self.soil.show(bed.soil, wider, with_depth=bed.kind != "container")
        self.first.show_value(bed.first_year, say("first year"))
        self.last.show_value(bed.last_year, say("last year"))

    def _planting_lines(self, bed: Bed) -> list[str]:
        """How many plantings and plants the bed has this year, and each planting."""
        plan = self.document.plan
        lines = [f"• {planting_words(plan, p)}" for p in plan.in_bed(bed)]
        plants = sum(part.plants for part in amounts(plan, plan.in_bed(bed)))
        head = (
            say(
                "In {year}: {plantings}, {plants}",
                year=plan.year,
                plantings=plantings_words(len(lines)),
                plants=plants_words(plants),
            )
            if lines
            else say("Nothing stands here in {year}.", year=plan.year)
        )
        if bed.outline.shape == "polygon":
            corners = len(shapes.ring_points(shapes.own_polygon(bed.outline)))
            head = say("A polygon of {count} corners. {sentence}", count=corners, sentence=head)
        return [head, *lines]
