"""Commands of the Edit menu: what is selected is deleted, copied, pasted, turned and lined up."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model import clipboard
from planner.desk.model.document import PLOT_EDGE, Document
from planner.desk.model.thing_words import name_of
from planner.garden import Garden, edits
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
            self._remove(say("Cut {things}", things=name_of(self._document.plan, self._document.selection)))

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
            self._remove(
                say("Delete {things}", things=name_of(self._document.plan, self._document.selection))
            )

    def _remove(self, words: str) -> None:
        ids = self._document.selection
        things = tuple(key for key in ids if key != PLOT_EDGE)

        def change(garden: Garden) -> Garden:
            if len(things) < len(ids):
                garden = edits.change_site(garden, outline=None)
            return edits.remove(garden, things)

        self._document.edit(words, change)

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
        ids = self._document.selected_things
        if ids:
            self._document.edit(
                say("Turn {things}", things=name_of(self._document.plan, ids)),
                lambda garden: extents.turn_together(garden, ids, degrees),
                merge=f"turn {' '.join(ids)}",
            )

    def align(self, side: Side) -> None:
        """Line the selected beds and structures up by one side."""
        ids = self._document.selected_things
        self._document.edit(
            say("Align {things}", things=name_of(self._document.plan, ids)),
            lambda garden: extents.align(garden, ids, side),
        )
