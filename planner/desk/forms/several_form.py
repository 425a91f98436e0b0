"""Several things at once as a form: what they are, the measures that they share, what is spread on the beds among them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel, QWidget

from planner.desk.forms import fields
from planner.desk.forms.bed_form import bed_kinds
from planner.desk.forms.dressing_rows import DressingRows
from planner.desk.forms.form import Form
from planner.desk.forms.lock_row import LockRow
from planner.desk.forms.shared_values import show_typed
from planner.desk.model.document import Document
from planner.desk.model.phrases import beds_words, plantings_words, structures_words
from planner.desk.model.thing_words import name_of
from planner.garden import Bed, Garden, Structure, edits
from planner.garden.units import show_area
from planner.words import say, say_count

Thing = Bed | Structure


class SeveralForm(Form):
    """Several things at once: what is changed here is changed for all beds and structures among them.

    A field in which they differ says so, and changes nothing until something is typed into it.
    """

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.lines = QLabel()
        self.lines.setTextFormat(Qt.TextFormat.PlainText)
        self.lines.setWordWrap(True)
        self.widget(self.lines)
        self._make_shared()
        self.dressings = DressingRows(self, self._beds)
        self.finish()

    def _make_shared(self) -> None:
        self._head = self.section(say("All of them"))
        self.length = fields.length_field(say("Length of all"), lambda: self.units)
        self.wide = fields.length_field(say("Width of all"), lambda: self.units)
        self.radius = fields.length_field(say("Radius of all"), lambda: self.units)
        self.turn = fields.number_field(say("Turn of all"), after="°")
        self.high = fields.length_field(say("Height of all"), lambda: self.units)
        self.kind = fields.ChoiceField(say("Kind of all beds"), bed_kinds())
        self.first = fields.whole_field(say("First year in use of all"), may_be_empty=True)
        self.last = fields.whole_field(say("Last year in use of all"), may_be_empty=True)
        self._labels_of: dict[QWidget, QWidget] = {}
        for words, field in (
            (say("Length"), self.length),
            (say("Width"), self.wide),
            (say("Radius"), self.radius),
            (say("Turn"), self.turn),
            (say("Height"), self.high),
            (say("Kind"), self.kind),
        ):
            self._labels_of[field] = self.row(words, field)
        self._years_label = self.row(say("In use"), self.first, self.last)
        self.length.typed.connect(lambda value: self._resize(value, longer=True))
        self.wide.typed.connect(lambda value: self._resize(value, longer=False))
        self.radius.typed.connect(self._resize_circles)
        self.turn.typed.connect(self._turn_all)
        self.high.typed.connect(lambda value: self._change_all(say("Change the height"), height=value))
        self.kind.chosen.connect(lambda word: self._change_all(say("Change the kind of bed"), kind=word))
        self.first.typed.connect(
            lambda year: self._change_all(say("Change the first year in use"), first_year=year)
        )
        self.last.typed.connect(
            lambda year: self._change_all(say("Change the last year in use"), last_year=year)
        )
        self.lock = LockRow(self, self._lock)

    def _beds(self) -> tuple[Bed, ...]:
        """The beds that are selected."""
        beds = self.document.garden.beds_by_id
        return tuple(beds[key] for key in self.document.selected_beds if key in beds)

    @property
    def things(self) -> tuple[Thing, ...]:
        """The beds and structures among what is shown: the key holds the ids."""
        garden = self.document.garden
        found = (garden.beds_by_id.get(key) or garden.structures_by_id.get(key) for key in self.key.split())
        return tuple(thing for thing in found if thing is not None)

    # -- edits ------------------------------------------------------------------------------

    def _change_each(self, words: str, change: Callable[[Garden, Thing], Garden]) -> None:
        """Change every bed and structure, as one step, or none where one of them refuses it."""
        things = self.things

        def change_all(garden: Garden, _key: str) -> Garden:
            for thing in things:
                garden = change(garden, thing)
            return garden

        self.edit(words, change_all)

    def _change_all(self, words: str, **changes: Any) -> None:
        def change(garden: Garden, thing: Thing) -> Garden:
            if isinstance(thing, Bed):
                return edits.change_bed(garden, thing.id, **changes)
            return edits.change_structure(garden, thing.id, **changes)

        self._change_each(words, change)

    def _resize(self, value: float, *, longer: bool) -> None:
        """Give all rectangles another length or width; the length is the longer side, but of an arch its span."""

        def change(garden: Garden, thing: Thing) -> Garden:
            if thing.outline.shape != "rectangle":
                return garden
            name = _own_side(thing, longer=longer)
            outline = edits.checked(lambda: thing.outline.with_(**{name: value}), thing.name or thing.id)
            return edits.resize_bed(garden, thing.id, outline)

        self._change_each(say("Change the length") if longer else say("Change the width"), change)

    def _resize_circles(self, value: float) -> None:
        def change(garden: Garden, thing: Thing) -> Garden:
            if thing.outline.shape != "circle":
                return garden
            outline = edits.checked(lambda: thing.outline.with_(radius=value), thing.name or thing.id)
            return edits.resize_bed(garden, thing.id, outline)

        self._change_each(say("Change the radius"), change)

    def _turn_all(self, degrees: float) -> None:
        self._change_each(
            say("Turn {things}", things=name_of(self.document.plan, self.key.split())),
            lambda garden, thing: edits.turn_things(garden, [thing.id], degrees - thing.outline.turn),
        )

    def _lock(self, locked: bool) -> None:
        ids = [thing.id for thing in self.things]
        name = name_of(self.document.plan, ids)
        words = say("Lock {things}", things=name) if locked else say("Unlock {things}", things=name)
        self.edit(words, lambda garden, _key: edits.lock_things(garden, ids, locked))

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Count what is selected, and show what it has in common."""
        garden, plan = self.document.garden, self.document.plan
        beds = [garden.beds_by_id[k] for k in self.document.selected_beds]
        plantings = [garden.plantings_by_id[k] for k in self.document.selected_plantings]
        plants = sum(plan.placed(p).plants for bed in beds for p in plan.in_bed(bed))
        plants += sum(plan.placed(p).plants for p in plantings if p.bed not in self.document.selected_beds)
        area = sum(plan.area(bed) for bed in beds)
        self.heading.setText(
            say_count("{count} thing selected", "{count} things selected", len(self.document.selection))
        )
        self.under.setText(say("Move, turn, copy, align or delete them together."))
        rest = len(self.document.selection) - len(beds) - len(plantings)
        words = [
            f"{beds_words(len(beds))}, {show_area(area, self.units)}" if beds else "",
            plantings_words(len(plantings)) if plantings else "",
            structures_words(rest) if rest else "",
            say_count(
                "{count} plant in them in {year}", "{count} plants in them in {year}", plants, year=plan.year
            )
            if beds or plantings
            else "",
        ]
        self.lines.setText("\n".join(word for word in words if word))
        self._show_shared()
        self.dressings.show()

    def _show_shared(self) -> None:
        things = self.things
        rectangles = [thing for thing in things if thing.outline.shape == "rectangle"]
        sizes = [
            [getattr(t.outline, _own_side(t, longer=longer)) for t in rectangles] for longer in (True, False)
        ]
        circles = [thing.outline.radius for thing in things if thing.outline.shape == "circle"]
        only_beds = bool(things) and all(isinstance(thing, Bed) for thing in things)
        tall = [
            t for t in things if isinstance(t, Structure) or t.kind in ("raised", "container") or t.height
        ]
        self._show(self.length, sizes[0])
        self._show(self.wide, sizes[1])
        self._show(self.radius, circles)
        self._show(self.turn, [thing.outline.turn for thing in things])
        self._show(self.high, [thing.height for thing in things] if len(tall) == len(things) else [])
        for widget in (self.kind, self._labels_of[self.kind]):
            widget.setVisible(only_beds)
        self.kind.show_common([thing.kind for thing in things if isinstance(thing, Bed)])
        for widget in (self._head, self._years_label, self.first, self.last, self.lock.box):
            widget.setVisible(bool(things))
        show_typed(self.first, [thing.first_year for thing in things], say("first year"))
        show_typed(self.last, [thing.last_year for thing in things], say("last year"))
        self.lock.show(things)

    def _show(self, field: fields.TypedField, values: Sequence[object]) -> None:
        """Show what all have in common; a field that none has is hidden."""
        for widget in (field, self._labels_of[field]):
            widget.setVisible(bool(values))
        if values:
            show_typed(field, values)


def _own_side(thing: Thing, *, longer: bool) -> str:
    """The outline's own name of its longer or shorter side; an arch has its span as its length."""
    outline = thing.outline
    is_arch = isinstance(thing, Structure) and thing.kind == "arch"
    swapped = outline.shape == "rectangle" and outline.width > outline.length and not is_arch
    return "length" if longer != swapped else "width"
