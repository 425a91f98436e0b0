"""A structure as a form."""

from __future__ import annotations

from typing import Any, get_args

from PySide6.QtWidgets import QWidget

from planner.desk.forms import fields
from planner.desk.forms.form import Form
from planner.desk.forms.lock_row import LockRow
from planner.desk.forms.outline_sizes import OutlineSizes
from planner.desk.model.document import Document
from planner.garden import Structure, edits
from planner.garden.beds import StructureKind
from planner.garden.edits.common import EditError, checked
from planner.listings.structure_words import (
    OWN,
    light_lines,
    light_of_kind,
    material_choice,
    material_choices,
    shares_held_back,
    shares_words,
)
from planner.words import capital, key_words, later, say

#: Name of the step that changes what a structure lets through.
_LIGHT = later("Change the light of a structure")
#: What some kinds are for.
_PURPOSES: dict[StructureKind, str] = {
    "arch": later("{structure}, a span over a path"),
    "path": later("{structure}, to walk on"),
    "lawn": later("{structure}, open ground"),
}
#: Kinds whose posts or anchors are driven into the ground.
_DRIVEN = ("arch", "fence", "tunnel", "glasshouse")


class StructureForm(Form):
    """Kind, name, size, height and light of a structure."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.section("")
        self.name = fields.text_field(say("Name of the structure"), may_be_empty=True)
        self.row(say("Name"), self.name)
        self.name.typed.connect(lambda text: self._edit(say("Rename a structure"), name=text or ""))
        self.kind = fields.ChoiceField(
            say("Kind of structure"), [(kind, key_words(kind)) for kind in get_args(StructureKind)]
        )
        self.row(say("Kind"), self.kind)
        # A material belongs to its kind.
        self.kind.chosen.connect(lambda kind: self._edit(say("Change a structure"), kind=kind, material=""))
        self._make_outline()
        self._make_height()
        self._make_light()
        self.care = self.words()
        self.notes = fields.NotesField(say("Notes on the structure"))
        self.widget(self.notes)
        self.notes.typed.connect(lambda text: self._edit(say("Note on a structure"), notes=text))
        self.finish()

    # -- fields -----------------------------------------------------------------------------

    def _make_outline(self) -> None:
        self.section(say("Shape"))
        self.sizes = OutlineSizes(self, self._resize)
        self.length, self.wide, self.radius = self.sizes.length, self.sizes.width, self.sizes.radius
        self.turn = fields.number_field(say("Turn"), after="°")
        self.row(say("Turn"), self.turn)
        self.turn.typed.connect(lambda value: self._resize(turn=value))
        self.lock = LockRow(self, self._lock)

    def _make_height(self) -> None:
        self.section(say("Height"))
        self.high, _ = self._length_row(say("Height"), say("Height"), "height")
        self.clear, self._clear_label = self._length_row(
            say("Clear height"), say("Clear height"), "clear_height"
        )
        self.stem, self._stem_label = self._length_row(say("Clear stem"), say("Clear stem"), "stem")
        self.clearance, _ = self._length_row(say("Free around it"), say("Kept free around it"), "clearance")

    def _make_light(self) -> None:
        self.section(say("Light"))
        self._offered = ""  # the kind whose materials are offered
        self.material = fields.ChoiceField(say("What the structure is made of"), ())
        self.row(say("Made of"), self.material)
        self.material.chosen.connect(self._choose_material)
        self.through = fields.share_field(say("Share of the direct sun let through"), shares_words)
        self.row(say("Sun let through"), self.through)
        self.through.typed.connect(lambda share: self._edit(say(_LIGHT), opacity=(round(1 - share, 6),)))
        self.light = self.words()

    def _length_row(self, words: str, name: str, field: str) -> tuple[fields.TypedField, QWidget]:
        """A row for a length: its field, and its label."""
        made = fields.length_field(name, lambda: self.units)
        label = self.row(words, made)
        made.typed.connect(lambda value: self._edit(say("Change a structure"), **{field: value}))
        return made, label

    # -- edits ------------------------------------------------------------------------------

    @property
    def structure(self) -> Structure | None:
        """The structure shown."""
        return self.document.garden.structures_by_id.get(self.key)

    def _lock(self, locked: bool) -> None:
        self._edit(say("Lock a structure") if locked else say("Unlock a structure"), locked=locked)

    def _edit(self, text: str, **changes: Any) -> None:
        self.edit(text, edits.change_structure, **changes)

    def _choose_material(self, choice: str) -> None:
        structure = self.structure
        if structure is None:
            return
        if choice != OWN:
            self._edit(say(_LIGHT), material=choice, opacity=())
        elif not structure.opacity:
            self._edit(say(_LIGHT), opacity=self._held_back(structure))

    def _held_back(self, structure: Structure) -> tuple[float, ...]:
        """Share of the direct sun that the structure holds back: one, or twelve from January on."""
        light = light_of_kind(self.document.catalogue, structure)
        return shares_held_back(light, structure, self.document.garden.site.southern)

    def _resize(self, **changes: Any) -> None:
        structure = self.structure
        if structure is None:
            return
        try:
            outline = checked(
                lambda: structure.outline.with_(**changes), structure.name or key_words(structure.kind)
            )
        except EditError as error:
            self.refuse(str(error))
            return
        self._edit(say("Resize a structure"), outline=outline)

    # -- showing ----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the structure as it is now."""
        structure = self.structure
        if structure is None:
            return
        arch, tree = structure.kind == "arch", structure.kind == "tree"
        kind = key_words(structure.kind)
        self.heading.setText(structure.name or capital(kind))
        if structure.kind in _PURPOSES:
            self.under.setText(say(_PURPOSES[structure.kind], structure=kind))
        elif structure.stood_on:
            self.under.setText(say("{structure}, to stand on in a bed", structure=kind))
        else:
            self.under.setText(say("{structure}, fixed", structure=kind))
        self.name.show_value(structure.name or None, kind)
        self.kind.show_value(structure.kind)
        self.sizes.show(structure.outline, span_is_length=arch)
        self.turn.show_value(structure.outline.turn)
        self.lock.show([structure])
        self.high.show_value(structure.height)
        for widget in (self.clear, self._clear_label):
            widget.setVisible(arch)
        self.clear.show_value(structure.clear_height)
        for widget in (self.stem, self._stem_label):
            widget.setVisible(tree)
        self.stem.show_value(structure.stem)
        self.clearance.show_value(structure.clearance)
        self._show_light(structure)
        self.care.setVisible(structure.kind in _DRIVEN)
        self.care.setText(
            say(
                "Have buried services located before driving posts or anchors, and follow local building rules."
            )
        )
        self.notes.show_value(structure.notes)

    def _show_light(self, structure: Structure) -> None:
        catalogue = self.document.catalogue
        light = light_of_kind(catalogue, structure)
        if structure.kind != self._offered:
            self._offered = structure.kind
            self.material.offer(material_choices(light))
        self.material.show_value(material_choice(light, structure))
        self.through.show_value(self._held_back(structure))
        southern = self.document.garden.site.southern
        self.light.setText("\n".join(light_lines(catalogue, structure, southern)))
