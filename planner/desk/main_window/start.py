"""The card with which the program begins, over the window: shown, answered, and put away."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtWidgets import QMainWindow
from typing_extensions import override

from planner import resources
from planner.desk.main_window.file_commands import FileCommands
from planner.desk.main_window.files import Files
from planner.desk.main_window.prompts import SUFFIX
from planner.desk.main_window.sheet_view import SheetView
from planner.desk.model.document import Document
from planner.desk.theme.palette import LookSwitch
from planner.garden import Garden
from planner.garden.edits import Beginning, begin_garden
from planner.season.spans import year_to_plan
from planner.words import say

if TYPE_CHECKING:
    from planner.desk.pages.start_page import StartPage

#: So many gardens used last are drawn on the card; the others are in the File menu.
MOST_SHOWN = 4


class Start(QObject):
    """Shows the card over a window, and does what is chosen on it.

    Attributes
    ----------
    page : StartPage or None
        The card while it is shown.
    """

    def __init__(
        self,
        window: QMainWindow,
        document: Document,
        view: SheetView,
        look: LookSwitch,
        files: Files,
        commands: FileCommands,
        tell: Callable[[str], None],
    ) -> None:
        super().__init__(window)
        self._window, self._document, self._view, self._look = window, document, view, look
        self._files, self._commands, self._tell = files, commands, tell
        self.page: StartPage | None = None

    def show(self) -> None:
        """Show the card; another one that is shown goes."""
        self.close()
        samples = sorted(resources.sample_folder().glob(f"*{SUFFIX}"))
        recent = [Path(path) for path in self._files.recent()[:MOST_SHOWN]]
        from planner.desk.pages.start_page import (
            StartPage,  # only where the program is started without a file
        )

        page = self.page = StartPage(self._window, self._look, samples, recent, self._files.preferences.units)
        page.begun.connect(self.begin)
        page.sample_wanted.connect(self._commands.open_sample)
        page.file_wanted.connect(self._commands.open_path)
        page.open_wanted.connect(self._commands.open)
        page.left.connect(self.leave)
        self._document.garden_changed.connect(self.close)  # also where unsaved work was taken up
        self._window.installEventFilter(self)
        self._fit()
        page.show_all()

    def begin_anew(self) -> None:
        """Show the card over an empty sheet, after a question about a garden with changes."""
        if self._files.new():
            self.show()

    def leave(self) -> None:
        """To the sheet as it is."""
        self.close()
        self._view.setFocus(Qt.FocusReason.OtherFocusReason)

    def close(self) -> None:
        """Put the card away."""
        page, self.page = self.page, None
        if page is not None:
            self._window.removeEventFilter(self)
            self._document.garden_changed.disconnect(self.close)
            page.stop()
            page.hide()
            page.deleteLater()

    def begin(self, answers: Beginning) -> None:
        """Begin a garden with the answers: one step, after a question about a garden with changes."""
        if self._document.garden != Garden():
            if not self._files.may_leave():
                return
            self._files.empty()
        made: list[str] = []

        def change(garden: Garden) -> Garden:
            garden, keys = begin_garden(garden, answers)
            made.extend(keys)
            return garden

        self._document.edit(say("Begin the garden"), change)
        self._document.show_year(year_to_plan(self._document.garden.site, dt.date.today()))
        self.leave()
        self._document.select(())
        self._view.show_all()
        if made:
            self._tell(
                say(
                    "Drag a crop from the list at the left onto a bed. Ctrl+Shift+P then writes the sheets for the beds."
                )
            )
        else:
            self._view.take_tool("rectangle")
            self._tell(
                say(
                    "Drag from one corner of the bed to the other. A crop from the list at the left then goes into it."
                )
            )

    # -- place ------------------------------------------------------------------------------

    def _fit(self) -> None:
        """Cover all of the window below its menus."""
        if self.page is not None:
            area = self._window.rect()
            menus = self._window.menuBar()
            area.setTop(menus.geometry().bottom() + 1 if menus.isVisible() else 0)
            self.page.setGeometry(area)

    @override
    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.LayoutRequest, QEvent.Type.Show):
            self._fit()
        return super().eventFilter(watched, event)
