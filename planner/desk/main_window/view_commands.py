"""Commands of the View menu: zoom, grid, light, the day shown, and the look of the window."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QWidget

from planner.desk.main_window.docks import Docks
from planner.desk.main_window.files import Files
from planner.desk.main_window.page_tabs import PageTabs
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.colouring import Scale
from planner.desk.model.document import Document, usual_day
from planner.desk.model.preferences import Preferences
from planner.desk.panels.ribbon import Ribbon
from planner.desk.panels.year_player import system_wants_less_motion
from planner.desk.theme.palette import LookSwitch
from planner.words import say

if TYPE_CHECKING:
    from planner.desk.main_window.assume_dialog import AssumeDialog

#: How much a zoom command magnifies.
ZOOM_STEP = 1.25


class ViewCommands:
    """What is shown, and how.

    Parameters
    ----------
    document : Document
    view : SheetView
    ribbon : Ribbon
        Shows the hours of the day along with shadows.
    docks : Docks
    pages : PageTabs
    look : LookSwitch
    preferences : Preferences
        Remember the look, and what is switched on.
    files : Files
        Remembers the gardens used last.
    say : callable
        Shows a line in the status bar.
    """

    def __init__(
        self,
        document: Document,
        view: SheetView,
        ribbon: Ribbon,
        docks: Docks,
        pages: PageTabs,
        look: LookSwitch,
        preferences: Preferences,
        files: Files,
        say: Callable[[str], None],
    ) -> None:
        self._document, self._view, self._ribbon, self._docks = document, view, ribbon, docks
        self._pages = pages
        self._look, self._preferences, self._files, self._say = look, preferences, files, say
        self._assuming: AssumeDialog | None = None

    # -- zoom -------------------------------------------------------------------------------

    def zoom_in(self) -> None:
        """Show the middle of the sheet larger."""
        self._view.zoom_by(ZOOM_STEP)

    def zoom_out(self) -> None:
        """Show more of the sheet."""
        self._view.zoom_by(1 / ZOOM_STEP)

    def show_all(self) -> None:
        """Fit the whole garden into the window."""
        self._view.show_all()

    def show_selection(self) -> None:
        """Fit what is selected into the window."""
        self._view.show_selection()

    def zoom_at_pointer(self, on: bool) -> None:
        """Let the wheel zoom at the pointer, or at the middle of the sheet."""
        self._view.zoom_at_pointer = on
        self._preferences.switch("zoom at pointer", on)

    # -- what is drawn ----------------------------------------------------------------------

    def show_grid(self, shown: bool) -> None:
        """Show the grid, or hide it."""
        self._view.grid_shown = shown
        self._view.viewport().update()
        self._preferences.switch("grid", shown)

    def snap(self, on: bool) -> None:
        """Let what is dragged snap to grid and edges, or not."""
        self._view.snapping = on
        self._preferences.switch("snap", on)
        self._say(say("Snapping to grid and edges") if on else say("No snapping"))

    def show_shadow(self, shown: bool) -> None:
        """Show the shadows of the hour, and the hours of the day below the ribbon."""
        self._view.light.show(shadow=shown)
        self._pages.two_days.follow_light()
        self._ribbon.show_hours(shown)

    def show_light_map(self, shown: bool) -> None:
        """Show the map of direct sun, or hide it."""
        self._view.light.show(light_map=shown)
        self._pages.two_days.follow_light()

    def map_over_year(self, over: bool) -> None:
        """Let the map show the mean of the growing year, or the day."""
        self._view.light.show(span=over)
        self._pages.two_days.follow_light()

    def show_access(self, shown: bool) -> None:
        """Show what is out of reach and paths that are too narrow, or hide it."""
        self._view.access.show(shown)

    def colour_by(self, scale: Scale) -> None:
        """Colour the plantings on the sheet by family, stage, sun, rest, who tends them, or water."""
        self._view.sheet.colouring.choose(scale)

    def play_year(self) -> None:
        """Let the day shown run through the growing year, or stop it."""
        self._pages.show_sheet()
        self._pages.player.toggle()

    def less_motion(self, less: bool) -> None:
        """Let the year play by jumps of a week, and remember it."""
        still = less or system_wants_less_motion()
        self._pages.player.less_motion = still
        self._look.rest(still)
        self._preferences.switch("less motion", less)

    def two_days(self, shown: bool) -> None:
        """Show a second day beside the sheet, or close it."""
        self._pages.show_sheet()
        self._pages.two_days.show_second(shown)

    def assume(self) -> None:
        """Open the window of what is assumed of the recorded years."""
        from planner.desk.main_window.assume_dialog import AssumeDialog

        if self._assuming is None:
            self._assuming = AssumeDialog(self._pages.window(), self._document, self._choose_garden)
        self._assuming.begin()

    def _choose_garden(self) -> str:
        folder = str(self._document.path.parent) if self._document.path is not None else ""
        return self._files.prompts.open_path(
            self._pages.window(), folder, title=say("Years of another garden")
        )

    def show_whole_year(self, whole: bool) -> None:
        """Show everything of the growing year, or what grows on its usual day."""
        if whole:
            self._document.show_day(None)
        elif self._document.day is None:
            self._document.show_day(usual_day(self._document.plan))

    # -- the window -------------------------------------------------------------------------

    def choose_look(self, wish: str) -> None:
        """Take the ``light`` or ``dark`` look, that of high ``contrast``, or that of the ``system``, and remember it."""
        self._look.choose(wish)
        self._preferences.choose("look", wish)

    # -- settings ---------------------------------------------------------------------------

    def show_settings(self, parent: QWidget) -> None:
        """Show all settings; they can stay open beside the window."""
        from planner.desk.main_window.settings_dialog import SettingsDialog  # when it is first wanted

        dialog = parent.findChild(SettingsDialog)
        if dialog is None:
            dialog = SettingsDialog(parent, self._preferences, self.reset_layout, self._files.forget_recent)
        dialog.show()
        dialog.raise_()
        dialog.activateWindow()

    def choose_language(self, code: str) -> None:
        """Speak another language from the next start on, or that of the system where no code is given; remember it."""
        self._preferences.choose("language", code)
        self._say(say("The window speaks it from the next start on"))

    def reset_layout(self) -> None:
        """Bring the docks back to where they were at first."""
        self._docks.reset()
