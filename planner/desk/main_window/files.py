"""Opening and saving gardens from the window, without losing unsaved work."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QLockFile, QObject, QSettings, Signal
from PySide6.QtWidgets import QWidget

from planner import resources, storage
from planner.desk.main_window.prompts import SUFFIX, Prompts
from planner.desk.model import recovery
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.storage import journal

#: Files that are remembered as used last.
MOST_RECENT = 8


class Files(QObject):
    """The files of one window.

    Parameters
    ----------
    window : QWidget
        Parent of the dialogs.
    document : Document
    settings : QSettings
        Remembers the files used last.
    prompts : Prompts

    Signals
    -------
    recent_changed
        Another file is the one used last.
    """

    recent_changed = Signal()

    def __init__(self, window: QWidget, document: Document, settings: QSettings, prompts: Prompts) -> None:
        super().__init__(window)
        self.window, self.document = window, document
        self.settings, self.prompts = settings, prompts
        self.recovery = recovery.Recovery(document)
        self._lock_file: QLockFile | None = None
        # The files that the garden shown was read from or written to, as they were then.
        self._known: tuple[storage.GardenFile, ...] = ()

    # -- recent -----------------------------------------------------------------------------

    def recent(self) -> list[str]:
        """Files used last, the newest first."""
        value = self.settings.value("recent", [])
        # Settings give back a list of one as the one.
        paths = [value] if isinstance(value, str) else value if isinstance(value, list) else []
        return [str(path) for path in paths][:MOST_RECENT]

    def _remember(self, path: Path) -> None:
        text = str(path.resolve())
        self.settings.setValue("recent", [text, *(p for p in self.recent() if p != text)][:MOST_RECENT])
        self.recent_changed.emit()

    # -- leaving ----------------------------------------------------------------------------

    def may_leave(self) -> bool:
        """Whether the garden may be left: it is unchanged, or the person saves it or gives it up."""
        if not self.document.changed:
            return True
        answer = self.prompts.keep_changes(self.window, self.document.title)
        if answer == "save":
            return self.save()
        return answer == "leave"

    # -- opening ----------------------------------------------------------------------------

    def new(self) -> None:
        """Begin an empty garden."""
        if self.may_leave():
            self._known = ()
            self.document.open(Garden())

    def open(self) -> None:
        """Open a file that the person chooses."""
        folder = str(self.document.path.parent) if self.document.path else ""
        path = self.prompts.open_path(self.window, folder)
        if path and self.may_leave():
            self.open_path(Path(path))

    def open_path(self, path: Path) -> bool:
        """Open a file; the garden shown stays where it cannot be read."""
        try:
            opened = storage.read(path)
        except BedwrightError as error:
            self.prompts.show_error(self.window, str(error))
            return False
        self._known = (opened,)
        self.document.open(opened.garden, path, path.stem)
        self._remember(path)
        alone = self._lock(path)
        left = journal.unsaved_beside(path)
        if left is not None and alone:
            self._offer(left, path.name)
        return True

    def offer_untitled(self) -> None:
        """Offer unsaved work that an earlier run has left and that has no file."""
        for left in journal.unsaved_untitled(recovery.folder())[:1]:
            self._offer(left, "a garden without a file")

    def _offer(self, left: journal.UnsavedWork, name: str) -> None:
        answer = self.prompts.recover(self.window, name, left.when)
        if answer == "drop":
            journal.discard(left.journal)
        elif answer == "take":
            try:
                garden = journal.recover(left)
            except BedwrightError as error:
                self.prompts.show_error(self.window, str(error))
                return
            # A step of its own: undoing it shows what the file holds.
            self.document.commit("Take up unsaved work", garden)
            self.recovery.write()
            if left.journal != self.recovery.written:
                journal.discard(left.journal)

    def _lock(self, path: Path) -> bool:
        """Lock the file while it is open here; where another window has locked it, show that and return False."""
        if self._lock_file is not None:
            self._lock_file.unlock()
        self._lock_file = QLockFile(str(path.with_name(f".{path.name}.lock")))
        self._lock_file.setStaleLockTime(0)
        if not self._lock_file.tryLock(20):
            process, host, _ = self._lock_file.getLockInfo()
            self._lock_file = None
            if process:
                self.prompts.show_error(
                    self.window,
                    f"{path.name} is open in another window (process {process} on {host}). "
                    "Once one has saved, the other is refused; save this one under another name to keep both.",
                )
                return False
        return True

    def close(self) -> None:
        """Unlock the file and discard the journal of unsaved work (the window closes)."""
        self.recovery.forget()
        if self._lock_file is not None:
            self._lock_file.unlock()
            self._lock_file = None

    def open_sample(self, name: str) -> bool:
        """Open a sample as a garden of its own, without a file."""
        path = resources.sample_folder() / f"{name}{SUFFIX}"
        try:
            garden = storage.load(path)
        except BedwrightError as error:
            self.prompts.show_error(self.window, str(error))
            return False
        self._known = ()
        self.document.open(garden, None, name)
        return True

    # -- saving -----------------------------------------------------------------------------

    def save(self) -> bool:
        """Save to the garden's file, or to one that the person names."""
        if self.document.path is None:
            return self.save_as()
        return self._write(self.document.path)

    def save_as(self) -> bool:
        """Save to a file that the person names."""
        path = self.prompts.save_path(self.window, self.suggestion(SUFFIX))
        if not path:
            return False
        target = Path(path)
        if not target.suffix:
            target = target.with_suffix(SUFFIX)
        return self._write(target)

    def suggestion(self, suffix: str) -> str:
        """A path to offer for a file of this garden."""
        if self.document.path is not None:
            return str(self.document.path.with_suffix(suffix))
        name = "".join(sign for sign in self.document.title if sign not in '/\\:*?"<>|') or "garden"
        return f"{name}{suffix}"

    def known(self, path: Path) -> storage.GardenFile | None:
        """What a file held when this garden was last read from it or written to it; None for any other file."""
        return next((file for file in self._known if file.is_at(path)), None)

    def _write(self, path: Path) -> bool:
        known = self.known(path)
        try:
            written = storage.save(self.document.stable, path, known)
        except BedwrightError as error:
            # A journal older than the file would not be offered after a crash.
            self.recovery.write()
            self.prompts.show_error(self.window, f"{error} Nothing is lost: the garden is still open.")
            return False
        self._known = (written, *(file for file in self._known if file is not known))
        if path != self.document.path:
            self._lock(path)
        self.document.saved_as(path)
        self._remember(path)
        return True
