"""A structure as a form."""

from __future__ import annotations

from typing import Any

from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.model.document import Document
from planner.garden import Structure, edits
from planner.garden.edits.common import EditError, checked

_KINDS = tuple(
    (w, w) for w in ("wall", "fence", "hedge", "tree", "shed", "glasshouse", "tunnel", "arch", "other")
)


class StructureForm(Form):
    """Kind, name, size and height of a structure."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.section("")
        self.name = fields.text_field("Name of the structure", may_be_empty=True)
        self.row("Name", self.name)
        self.name.typed.connect(lambda text: self._edit("Rename a structure", name=text or ""))
        self.kind = fields.ChoiceField("Kind of structure", _KINDS)
        self.row("Kind", self.kind)
        self.kind.chosen.connect(lambda kind: self._edit("Change a structure", kind=kind))
        self.section("Outline")
        self.length = fields.length_field("Length", lambda: self.units)
        self.wide = fields.length_field("Width", lambda: self.units)
        self.radius = fields.length_field("Radius", lambda: self.units)
        self._size = tuple(
            (self.row(name.capitalize(), field), field, name)
            for name, field in (("length", self.length), ("width", self.wide), ("radius", self.radius))
        )
        for _, field, name in self._size:
            field.typed.connect(lambda value, name=name: self._outline(**{name: value}))
        self.turn = fields.number_field("Turn", after="°")
        self.row("Turn", self.turn)
        self.turn.typed.connect(lambda value: self._outline(turn=value))
        self.section("Height")
        self.high = fields.length_field("Height", lambda: self.units)
        self.row("Height", self.high)
        self.high.typed.connect(lambda value: self._edit("Change a structure", height=value))
        self.clear = fields.length_field("Clear height", lambda: self.units)
        self._clear_label = self.row("Clear height", self.clear)
        self.clear.typed.connect(lambda value: self._edit("Change a structure", clear_height=value))
        self.stem = fields.length_field("Clear stem", lambda: self.units)
        self._stem_label = self.row("Clear stem", self.stem)
        self.stem.typed.connect(lambda value: self._edit("Change a structure", stem=value))
        self.clearance = fields.length_field("Kept free around it", lambda: self.units)
        self.row("Kept free", self.clearance)
        self.clearance.typed.connect(lambda value: self._edit("Change a structure", clearance=value))
        self.care = self.words()
        self.notes = fields.NotesField("Notes on the structure")
        self.widget(self.notes)
        self.notes.typed.connect(lambda text: self._edit("Note on a structure", notes=text))
        self.finish()

    @property
    def structure(self) -> Structure | None:
        """The structure shown."""
        return self.document.garden.structures_by_id.get(self.key)

    def _edit(self, text: str, **changes: Any) -> None:
        self.edit(text, edits.change_structure, **changes)

    def _outline(self, **changes: Any) -> None:
        structure = self.structure
        if structure is None:
            return
        try:
            outline = checked(lambda: structure.outline.with_(**changes), structure.name or structure.kind)
        except EditError as error:
            self.refuse(str(error))
            return
        self._edit("Resize a structure", outline=outline)

    def refresh(self) -> None:
        """Show the structure as it is now."""
        structure = self.structure
        if structure is None:
            return
        self.heading.setText(structure.name or structure.kind.capitalize())
        self.under.setText(
            f"{structure.kind}, {'a span over a path' if structure.kind == 'arch' else 'fixed'}"
        )
        self.name.show_value(structure.name or None, structure.kind)
        self.kind.show_value(structure.kind)
        for label, field, name in self._size:
            value = getattr(structure.outline, name, None)
            label.setVisible(value is not None)
            field.setVisible(value is not None)
            field.show_value(value)
        self.turn.show_value(structure.outline.turn)
        self.high.show_value(structure.height)
        arch = structure.kind == "arch"
        self.clear.setVisible(arch)
        self._clear_label.setVisible(arch)
        self.clear.show_value(structure.clear_height)
        tree = structure.kind == "tree"
        self.stem.setVisible(tree)
        self._stem_label.setVisible(tree)
        self.stem.show_value(structure.stem)
        self.clearance.show_value(structure.clearance)
        driven = structure.kind in ("arch", "fence", "tunnel", "glasshouse")
        self.care.setVisible(driven)
        self.care.setText(
            "Have buried services located before driving posts or anchors, and follow local building rules."
        )
        self.notes.show_value(structure.notes)
