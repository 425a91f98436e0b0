"""A bed as a form."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QPushButton

from planner.amounts import amounts
from planner.desk.canvas.overlay import planting_words
from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.sun_bars import SunBars
from planner.desk.model.document import Document
from planner.desk.model.phrases import many
from planner.garden import Bed, edits
from planner.garden.edits.common import EditError, checked
from planner.garden.units import show_area
from planner.ground import shapes

_KINDS = (
    ("open", "open ground"),
    ("raised", "raised"),
    ("container", "container"),
    ("under glass", "under glass"),
)


class BedForm(Form):
    """Name, size, place and kind of a bed, and what stands in it."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.section("")
        self.name = fields.text_field("Name of the bed")
        self.row("Name", self.name)
        self.name.typed.connect(lambda text: self.edit("Rename a bed", edits.change_bed, name=text))
        self.section("Outline")
        self.length = fields.length_field("Length", lambda: self.units)
        self.wide = fields.length_field("Width", lambda: self.units)
        self.radius = fields.length_field("Radius", lambda: self.units)
        self._size_labels = (
            self.row("Length", self.length),
            self.row("Width", self.wide),
            self.row("Radius", self.radius),
        )
        self.across = fields.length_field("Centre, across", lambda: self.units)
        self.up = fields.length_field("Centre, up", lambda: self.units)
        self.row("Centre x, y", self.across, self.up)
        self.turn = fields.number_field("Turn", after="°")
        self.row("Turn", self.turn)
        self.length.typed.connect(lambda value: self._outline("Resize a bed", length=value))
        self.wide.typed.connect(lambda value: self._outline("Resize a bed", width=value))
        self.radius.typed.connect(lambda value: self._outline("Resize a bed", radius=value))
        self.across.typed.connect(lambda value: self._move(x=value))
        self.up.typed.connect(lambda value: self._move(y=value))
        self.turn.typed.connect(self._turn)
        self.section("Ground")
        self.kind = fields.ChoiceField("Kind of bed", _KINDS)
        self.row("Kind", self.kind)
        self.kind.chosen.connect(lambda kind: self.edit("Change a bed", edits.change_bed, kind=kind))
        self.high = fields.length_field("Height above the ground", lambda: self.units)
        self._height_label = self.row("Height", self.high)
        self.high.typed.connect(lambda value: self.edit("Change a bed", edits.change_bed, height=value))
        self.deep = fields.length_field("Depth of soil", lambda: self.units, may_be_empty=True)
        self._depth_label = self.row("Soil depth", self.deep)
        self.deep.typed.connect(lambda value: self.edit("Change a bed", edits.change_bed, depth=value))
        self.first = fields.whole_field("First year in use", may_be_empty=True)
        self.last = fields.whole_field("Last year in use", may_be_empty=True)
        self.row("In use", self.first, self.last)
        self.first.typed.connect(lambda value: self.edit("Change a bed", edits.change_bed, first_year=value))
        self.last.typed.connect(lambda value: self.edit("Change a bed", edits.change_bed, last_year=value))
        self.section("Light")
        self.sun = SunBars(document)
        self.widget(self.sun)
        self.section("Notes")
        self.notes = fields.NotesField("Notes on the bed")
        self.widget(self.notes)
        self.notes.typed.connect(lambda text: self.edit("Note on a bed", edits.change_bed, notes=text))
        self.standing_label = self.words()
        self.sheet_button = QPushButton("Bed sheet as PDF…")
        self.widget(self.sheet_button)
        self.finish()

    @property
    def bed(self) -> Bed | None:
        """The bed shown."""
        return self.document.garden.beds_by_id.get(self.key)

    def _outline(self, text: str, **changes: Any) -> None:
        bed = self.bed
        if bed is None:
            return
        try:
            outline = checked(lambda: bed.outline.with_(**changes), bed.name)
        except EditError as error:
            self.refuse(str(error))
            return
        self.edit(text, edits.resize_bed, outline=outline)

    def _move(self, x: float | None = None, y: float | None = None) -> None:
        bed = self.bed
        if bed is not None:
            cx, cy = bed.outline.center
            dx = 0.0 if x is None else x - cx
            dy = 0.0 if y is None else y - cy
            self.edit(f"Move {bed.name}", lambda garden, key: edits.move_things(garden, [key], dx, dy))

    def _turn(self, degrees: float) -> None:
        bed = self.bed
        if bed is not None:
            by = degrees - bed.outline.turn
            self.edit(f"Turn {bed.name}", lambda garden, key: edits.turn_things(garden, [key], by))

    def refresh(self) -> None:
        """Show the bed as it is now."""
        bed = self.bed
        if bed is None:
            return
        plan = self.document.plan
        self.heading.setText(bed.name)
        free = plan.free(bed).area
        self.under.setText(
            f"{show_area(plan.area(bed), self.units)}, of it {show_area(free, self.units)} free all year"
        )
        self.name.show_value(bed.name)
        outline = bed.outline
        for field, label, name in zip(
            (self.length, self.wide, self.radius),
            self._size_labels,
            ("length", "width", "radius"),
            strict=True,
        ):
            value = getattr(outline, name, None)
            field.setVisible(value is not None)
            label.setVisible(value is not None)
            field.show_value(value)
        self.across.show_value(outline.center[0])
        self.up.show_value(outline.center[1])
        self.turn.show_value(outline.turn)
        self.kind.show_value(bed.kind)
        tall = bed.kind in ("raised", "container") or bed.height > 0
        self.high.setVisible(tall)
        self._height_label.setVisible(tall)
        self.high.show_value(bed.height)
        self.deep.setVisible(bed.kind == "container")
        self._depth_label.setVisible(bed.kind == "container")
        self.deep.show_value(bed.depth)
        self.first.show_value(bed.first_year, "first year")
        self.last.show_value(bed.last_year, "last year")
        self.sun.show_thing(bed.id)
        self.notes.show_value(bed.notes)
        lines = [f"• {planting_words(self.document, p)}" for p in plan.in_bed(bed)]
        plants = sum(part.plants for part in amounts(plan, plan.in_bed(bed)))
        head = (
            f"In {plan.year}: {many(len(lines), 'planting')}, {many(plants, 'plant')}"
            if lines
            else f"Nothing stands here in {plan.year}."
        )
        corners = len(shapes.ring_points(shapes.own_polygon(outline))) if outline.shape == "polygon" else 0
        if corners:
            head = f"A polygon of {corners} corners. {head}"
        self.standing_label.setText("\n".join([head, *lines]))
