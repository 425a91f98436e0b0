"""Commands that add something to the garden: tools to draw with, beds by their size, series of a planting."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from planner.desk.main_window.prompts import Prompts
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.model.thing_words import name_of
from planner.desk.panels.details import Details
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.garden.edits import BedRange, add_bed_range, change_underlay
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
    tell : callable
        Shows a line in the status bar.
    prompts : Prompts
    details : Details
        Gets the form of the underlay.
    """

    def __init__(
        self,
        window: QWidget,
        document: Document,
        view: SheetView,
        tell: Callable[[str], None],
        prompts: Prompts,
        details: Details,
    ) -> None:
        self._window, self._document, self._view, self._say = window, document, view, tell
        self._prompts, self._details = prompts, details

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

    # -- underlay ---------------------------------------------------------------------------

    def lay_under(self) -> None:
        """Choose a picture, drawing or page to lay under the plan."""
        from planner.storage.underlays import DOCUMENTS, DRAWINGS, PICTURES

        file = self._document.path
        if file is None:
            self._say(say("Save the garden first: the underlay is found from where its file is"))
            return
        ends = " ".join(f"*{end}" for end in (*PICTURES, *DRAWINGS, *DOCUMENTS))
        chosen = self._prompts.open_path(
            self._window,
            str(file.parent),
            say("Pictures ({ends})", ends=ends),
            say("Lay a picture under the plan"),
        )
        if chosen:
            self.lay_file_under(Path(chosen))

    def lay_file_under(self, path: Path) -> None:
        """Lay a file under the plan: over all that is seen, to be scaled then."""
        from planner.storage.underlays import refer_to_underlay

        file = self._document.path
        if file is None:
            return
        left, low, right, high = self._view.plan_bounds()
        try:
            fields = refer_to_underlay(file, path)
        except BedwrightError as error:
            self._say(str(error))
            return
        place = {
            "center": (round((left + right) / 2, 3), round((low + high) / 2, 3)),
            "width": round(min(max(0.8 * (right - left), 1.0), 1_000.0), 3),
            "page": 1,
            "turn": 0.0,
            "hidden": False,
            "locked": False,
        }
        words = say("Lay {file} under the plan", file=path.name)
        if self._document.edit(words, lambda garden: change_underlay(garden, **fields, **place)):
            self.show_underlay()
            self._say(say("Scale it: take “Scale by two points” in its details"))

    def show_underlay(self) -> None:
        """Show the underlay's details."""
        self._details.show_underlay(True)

    def hide_underlay(self) -> None:
        """Hide the underlay, or show it again."""
        underlay = self._document.garden.underlay
        if not underlay.is_there:
            self._say(say("There is no underlay yet"))
            return
        self._document.edit(
            say("Hide or show the underlay"),
            lambda garden: change_underlay(garden, hidden=not underlay.hidden),
        )

    # -- series -----------------------------------------------------------------------------

    def new_series(self) -> None:
        """Open the dialog for a series of the selected planting."""
        from planner.desk.main_window.series_dialog import SeriesDialog
        from planner.plan.lived_otherwise import begin_curve
        from planner.season.succession import usual_harvest

        keys = self._document.selected_plantings
        if len(keys) != 1:
            return
        plan = self._document.plan
        first, last = usual_harvest(plan, keys[0])
        begun = begin_curve(plan, plan.garden.plantings_by_id[keys[0]])
        dialog = SeriesDialog(self._window, name_of(plan, keys), plan, first, last, begun)
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
