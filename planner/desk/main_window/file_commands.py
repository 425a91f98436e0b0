"""Commands of the File menu that open and save gardens."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QMenu

from planner import resources
from planner.desk.main_window.files import Files
from planner.desk.main_window.prompts import SUFFIX
from planner.desk.main_window.sheet_view import SheetView
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.storage.versions import Version
from planner.words import moment_words, say

if TYPE_CHECKING:
    from planner.desk.main_window.take_dialog import TakeDialog

#: Of more beds and structures that were brought in none is selected: their details would take long.
MOST_SELECTED = 200


class FileCommands:
    """Opening and saving; what was opened is shown whole.

    Parameters
    ----------
    files : Files
    view : SheetView
    say : callable
        Shows a line in the status bar.
    """

    def __init__(self, files: Files, view: SheetView, say: Callable[[str], None]) -> None:
        self._files, self._view, self._say = files, view, say

    def open(self) -> None:
        """Open a file that the person chooses."""
        self._files.open()

    def save(self) -> None:
        """Save the garden to its file, or to one that the person names."""
        self._files.save()

    def save_as(self) -> None:
        """Save the garden to a file that the person names."""
        self._files.save_as()

    def bring_in(self) -> None:
        """Bring beds, plantings and outlines from a file that the person chooses, after they were shown."""
        from planner.importing.taken_file import ENDINGS

        endings = " ".join(f"*{ending}" for group in ENDINGS.values() for ending in group)
        kinds = say("Tables, drawings and maps ({endings});;All files (*)", endings=endings)
        path = self._files.document.path
        chosen = self._files.prompts.open_path(
            self._files.window, str(path.parent) if path else "", kinds, say("Bring in beds and plantings")
        )
        if chosen:
            self.bring_in_path(chosen)

    def bring_in_path(self, path: str) -> TakeDialog:
        """Show what a file would bring."""
        from planner.desk.main_window.take_dialog import TakeDialog

        dialog = TakeDialog(self._files.window, self._files.document, self._view.look, path)
        dialog.accepted.connect(lambda: self._show_made(dialog.made))
        dialog.open()
        return dialog

    def _show_made(self, made: Sequence[str]) -> None:
        if len(made) <= MOST_SELECTED:
            self._files.document.select(made)
        self._view.show_all()

    def show_versions(self) -> None:
        """Show what the file held at its last saves; one of them can be taken back, as one step."""
        from planner.desk.main_window.versions_dialog import VersionsDialog

        versions, document = self._files.versions(), self._files.document
        if not versions:
            self._say(say("There are no earlier versions yet: each save keeps what the file held."))
            return
        dialog = VersionsDialog(self._files.window, document, versions, self._view.look, self._take_back)
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def _take_back(self, version: Version, garden: Garden) -> None:
        saved = version.saved.astimezone()
        when = moment_words(saved)
        if self._files.document.commit(say("Take back the version of {when}", when=when), garden):
            self._say(say("This is the version of {when}. Undo brings back what was here.", when=when))

    def take_notes(self) -> None:
        """Show what notes from the pocket page would bring; what is new is taken as one step."""
        from planner.desk.main_window.notes_dialog import NotesDialog
        from planner.importing.notes_file import load_notes

        files = self._files
        path = files.document.path
        paths = files.prompts.notes_paths(files.window, str(path.parent) if path is not None else "")
        if not paths:
            return
        try:
            notes = [load_notes(path) for path in paths]
        except BedwrightError as error:
            files.prompts.show_error(files.window, str(error))
            return
        dialog = NotesDialog(
            files.window, files.document, [Path(path).name for path in paths], notes, self._say
        )
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.open()

    def open_path(self, path: Path) -> bool:
        """Open a file, after a question about unsaved changes; False where it was not opened."""
        if not self._files.may_leave() or not self._files.open_path(path):
            return False
        self.show_opened()
        return True

    def open_sample(self, name: str) -> None:
        """Open a sample, after a question about unsaved changes."""
        if self._files.may_leave() and self._files.open_sample(name):
            self.show_opened()

    def show_opened(self) -> None:
        """Cut the sheet to the garden, and fit it into the window."""
        self._view.show_opened()

    @staticmethod
    def samples() -> list[str]:
        """Names of the samples."""
        return [path.stem for path in sorted(resources.sample_folder().glob(f"*{SUFFIX}"))]

    def fill_recent(self, menu: QMenu) -> None:
        """List the files used last in a menu."""
        menu.clear()
        for path in self._files.recent():
            action = menu.addAction(path.replace("&", "&&"))
            action.triggered.connect(partial(self._open_recent, path))
        menu.setEnabled(bool(self._files.recent()))

    def _open_recent(self, path: str, _checked: bool = False) -> None:
        self.open_path(Path(path))
