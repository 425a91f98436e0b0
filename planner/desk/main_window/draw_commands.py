"""Commands that add something to the garden: tools to draw with, beds by their size, series of a planting."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.model.thing_words import name_of
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden.edits import BedRange, add_bed_range
from planner.ground.extents import corner_below
from planner.words import day_words, say, say_count

if TYPE_CHECKING:
    from planner.desk.main_window.series_dialog import SeriesDialog


class DrawCommands:
    """Adding to the garden.

    Parameters
    ----------
    window : QWidget
        Parent of the dialogs.
    document : Document
    view : SheetView
    say : callable
        Shows a line in the status bar.
    """

    def __init__(
        self, window: QWidget, document: Document, view: SheetView, say: Callable[[str], None]
    ) -> None:
        self._window, self._document, self._view, self._say = window, document, view, say

    def take_tool(self, tool: str) -> None:
        """Draw with another tool on the sheet."""
        self._view.take_tool(tool)

    # -- beds -------------------------------------------------------------------------------

    def new_beds(self) -> None:
        """Open the dialog for a bed, or a range of beds, by their size."""
        from planner.desk.main_window.bed_dialog import BedDialog

        dialog = BedDialog(self._window, self._document.garden.site.units)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self.add_beds(dialog.beds()))
        dialog.open()

    def add_beds(self, beds: BedRange) -> None:
        """Add a bed or a range of beds below all that is there, and show them."""
        left, top = corner_below(self._document.garden, self._document.year, beds.path_up)
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, new = add_bed_range(garden, beds, left, top)
            made.extend(new)
            return garden

        if self._document.edit(say_count("Add {count} bed", "Add {count} beds", beds.number), change):
            self._document.select(made)
            self._view.show_all()
            self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    # -- series -----------------------------------------------------------------------------

    def new_series(self) -> None:
        """Open the dialog for a series of the selected planting."""
        from planner.desk.main_window.series_dialog import SeriesDialog
        from planner.season.succession import usual_harvest

        keys = self._document.selected_plantings
        if len(keys) != 1:
            return
        plan = self._document.plan
        first, last = usual_harvest(plan, keys[0])
        dialog = SeriesDialog(self._window, name_of(plan, keys), plan, first, last)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.accepted.connect(lambda: self.add_series(dialog, keys[0]))
        dialog.open()

    def add_series(self, dialog: SeriesDialog, key: str) -> None:
        """Make the series a dialog describes from a planting, as one step; say what was left out and why."""
        try:
            series = dialog.make(self._document.plan, key)
        except BedwrightError as error:
            self._say(str(error))
            return
        made = len(series.members) - 1
        name = name_of(self._document.plan, (key,))
        self._document.commit(say("Make a series of {planting}", planting=name), series.garden)
        self._document.select(series.members)
        left = [f"{day_words(out.start)}: {out.why}" for out in series.left_out]
        words = (
            say_count("{count} more made", "{count} more made", made) if made else say("none could be added")
        )
        self._say("; ".join([words, *left, *series.notes]))
