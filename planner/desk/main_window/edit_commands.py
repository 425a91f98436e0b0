"""Commands of the Edit menu: what is selected is deleted, copied, pasted, turned and lined up."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from PySide6.QtCore import Qt

from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model import clipboard
from planner.desk.model.document import PLOT_EDGE, Document
from planner.desk.model.thing_words import locked_words, name_of
from planner.garden import Garden, edits
from planner.garden.edits.ordering import Flip
from planner.ground import extents
from planner.plan.copies_beside import offset_beside
from planner.plan.pasting import Copied, copied, offset_to, paste
from planner.words import say, say_count

Side = Literal["left", "right", "top", "bottom"]
SIDES: tuple[Side, ...] = ("left", "right", "top", "bottom")


class EditCommands:
    """Edits of what is selected.

    Parameters
    ----------
    document : Document
    view : SheetView
        While a gesture runs on it, nothing is deleted or duplicated; pasting goes by its pointer.
    say : callable
        Shows a line in the status bar.
    """

    def __init__(self, document: Document, view: SheetView, say: Callable[[str], None]) -> None:
        self._document, self._view, self._say = document, view, say

    # -- the clipboard ----------------------------------------------------------------------

    def copy(self) -> None:
        """Put what is selected on the clipboard."""
        ids = tuple(key for key in self._document.selection if key != PLOT_EDGE)
        if ids:
            clipboard.put(self._document.garden, ids)
            self._say(say("Copied {things}", things=name_of(self._document.plan, ids)))

    def cut(self) -> None:
        """Put what is selected on the clipboard, and remove it."""
        if self._view.gesture is None:
            self.copy()
            self._remove(lambda things: say("Cut {things}", things=things))

    def paste_at_pointer(self) -> None:
        """Paste so that the middle comes under the pointer; plantings go into the bed there."""
        copy = self._read_clipboard()
        if copy is not None:
            self._paste(copy, offset_to(copy, self._view.pointer_place()), self._view.bed_under_pointer())

    def paste_in_place(self) -> None:
        """Paste beds and structures where they were copied from."""
        copy = self._read_clipboard()
        if copy is not None:
            self._paste(copy, (0.0, 0.0), None)

    def _read_clipboard(self) -> Copied | None:
        copy = clipboard.read()
        if copy is None:
            self._say(say("There is nothing of a garden on the clipboard"))
        return copy

    def _paste(self, copy: Copied, offset: tuple[float, float], bed: str | None) -> None:
        selected = self._document.selected_beds
        number = len(copy.ids)
        self._add_copies(
            say_count("Paste", "Paste {count} things", number),
            copy,
            offset,
            bed or (selected[0] if selected else None),
        )

    def duplicate(self) -> None:
        """Copy what is selected beside itself; plantings go onto the next free ground of their bed."""
        ids = self._document.selection
        if ids and self._view.gesture is None:
            offset = offset_beside(self._document.plan, ids, self._view.plan_bounds())
            copy = copied(self._document.garden, ids)
            words = say("Duplicate {things}", things=name_of(self._document.plan, ids))
            self._add_copies(words, copy, offset, None)

    def _add_copies(self, text: str, copy: Copied, offset: tuple[float, float], bed: str | None) -> None:
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, new = paste(garden, copy, offset, bed, self._document.year)
            made.extend(new)
            return garden

        if self._document.edit(text, change):
            self._document.show_growing(made)
            self._document.select(made)
            self._view.bring_into_view(made)

    # -- the selection ----------------------------------------------------------------------

    def delete(self) -> None:
        """Remove what is selected."""
        picked = self._view.picked
        if self._view.gesture is None and picked.indices:
            key, gone = picked.key, set(picked.indices)
            name = name_of(self._document.plan, (key,))
            self._document.edit(
                say("Remove single plants of {planting}", planting=name),
                lambda garden: edits.remove_places(garden, key, gone),
            )
            picked.pick(())
            left = picked.count
            self._say(say_count("{count} plant is left", "{count} plants are left", left))
        elif self._view.gesture is None and self._document.selection:
            self._remove(lambda things: say("Delete {things}", things=things))

    def _remove(self, words: Callable[[str], str]) -> None:
        ids = tuple(key for key in self._document.selection if not self._document.is_locked(key))
        if not ids:
            self._say(locked_words(self._document.plan, self._document.selection))
            return
        things = tuple(key for key in ids if key != PLOT_EDGE)

        def change(garden: Garden) -> Garden:
            if len(things) < len(ids):
                garden = edits.change_site(garden, outline=None)
            return edits.remove(garden, things)

        self._document.edit(words(name_of(self._document.plan, ids)), change)

    def select_all(self) -> None:
        """Select all beds and structures."""
        plan = self._document.plan
        self._document.select([*(bed.id for bed in plan.beds), *(s.id for s in plan.garden.structures)])

    def select_nothing(self) -> None:
        """Select nothing."""
        self._document.select(())

    # -- beds and structures ----------------------------------------------------------------

    def turn(self, degrees: float) -> None:
        """Turn the selected beds and structures anticlockwise, several of them about their middle."""
        self._order(
            lambda things: say("Turn {things}", things=things),
            lambda garden, ids: extents.turn_together(garden, ids, degrees),
            merge=f"turn {' '.join(self._document.movable_things)}",
        )

    def align(self, side: Side) -> None:
        """Line the selected beds and structures up by one side."""
        self._order(
            lambda things: say("Align {things}", things=things),
            lambda garden, ids: extents.align(garden, ids, side),
        )

    def mirror(self, flip: Flip) -> None:
        """Mirror the selected beds and structures about their middle."""
        self._order(
            lambda things: say("Mirror {things}", things=things),
            lambda garden, ids: extents.mirror(garden, ids, flip),
        )

    def space(self, direction: Literal["across", "up"]) -> None:
        """Make the ways between the selected beds and structures equally wide."""
        self._order(
            lambda things: say("Space {things} evenly", things=things),
            lambda garden, ids: extents.space_evenly(garden, ids, direction),
        )

    def match_size(self) -> None:
        """Give the selected beds and structures the size of the one that was selected first."""
        things = self._document.selected_things
        if things:
            self._order(
                lambda things: say("Match the size of {things}", things=things),
                lambda garden, ids: edits.match_size(garden, ids, things[0]),
            )

    def _order(
        self,
        words: Callable[[str], str],
        change: Callable[[Garden, tuple[str, ...]], Garden],
        merge: str = "",
    ) -> None:
        """Change those of the selected beds and structures that are not locked, as one step."""
        ids, plan = self._document.movable_things, self._document.plan
        if ids:
            text = words(name_of(plan, ids))
            self._document.edit(text, lambda garden: change(garden, ids), merge=merge)
        elif self._document.selected_things:
            self._say(locked_words(plan, self._document.selected_things))

    def toggle_lock(self) -> None:
        """Lock the selected beds and structures, or unlock them where all are locked."""
        ids, document = self._document.selected_things, self._document
        locked = not all(document.is_locked(key) for key in ids)
        name = name_of(document.plan, ids)
        words = say("Lock {things}", things=name) if locked else say("Unlock {things}", things=name)
        if document.edit(words, lambda garden: edits.lock_things(garden, ids, locked)):
            self._say(words)

    def make_array(self) -> None:
        """Open the dialog for copies along a line or an arc; the sheet shows them meanwhile."""
        from planner.desk.main_window.array_dialog import ArrayDialog

        document, ids = self._document, self._document.selected_things
        if not ids or self._view.gesture is not None:
            return
        extent = extents.extent_of(
            (document.garden.beds_by_id.get(key) or document.garden.structures_by_id[key]).outline
            for key in ids
        )
        assert extent is not None
        dialog = ArrayDialog(self._view.window(), document.garden.site.units, extent)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, new = dialog.make(garden, ids)
            made[:] = new
            return garden

        def finish() -> None:
            document.cancel_preview()
            if document.edit(say("Array of {things}", things=name_of(document.plan, ids)), change):
                document.select((*ids, *made))
                self._view.bring_into_view(made)

        dialog.changed.connect(lambda: document.preview(change))
        dialog.accepted.connect(finish)
        dialog.rejected.connect(document.cancel_preview)
        dialog.open()
        document.preview(change)
