"""Opening and saving gardens from the window, without losing unsaved work."""

from __future__ import annotations

import contextlib
import datetime as dt
from pathlib import Path

from PySide6.QtCore import QLockFile, QObject, QSettings, Signal
from PySide6.QtWidgets import QWidget

from planner import resources, storage
from planner.desk.main_window.changed_file import settle_changed_file
from planner.desk.main_window.prompts import SUFFIX, Prompts
from planner.desk.main_window.unsaved_offers import UnsavedOffers
from planner.desk.model import recovery
from planner.desk.model.document import Document
from planner.desk.model.preferences import Preferences
from planner.errors import BedwrightError
from planner.storage.versions import Version, Versions
from planner.words import say

#: Files that are remembered as used last.
MOST_RECENT = 8
#: Files of which the growing year shown last is remembered.
MOST_YEARS = 60


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
    said : str
        A line for the status bar.
    """

    recent_changed = Signal()
    said = Signal(str)

    def __init__(self, window: QWidget, document: Document, settings: QSettings, prompts: Prompts) -> None:
        super().__init__(window)
        self.window, self.document = window, document
        self.settings, self.prompts = settings, prompts
        self.preferences = Preferences(settings, self)
        self.recovery = recovery.Recovery(document, self._base)
        self.recovery.elsewhere.connect(self.said)
        self._offers = UnsavedOffers(window, document, prompts, self.recovery)
        self._lock_file: QLockFile | None = None
        # The files that the garden shown was read from or written to, as they were then.
        self._known: tuple[storage.GardenFile, ...] = ()
        document.year_changed.connect(self._remember_year)

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

    def _years(self) -> list[tuple[str, int]]:
        """Growing years shown last by file, the file used last first."""
        value = self.settings.value("years", [])
        lines = [value] if isinstance(value, str) else value if isinstance(value, list) else []
        parts = [str(line).partition(" ") for line in lines]
        return [(path, int(year)) for year, _, path in parts if path and year.isdecimal() and len(year) < 5]

    def _remember_year(self) -> None:
        """Remember the growing year shown of a file: it is shown again when the file is opened."""
        path = self.document.path
        if path is not None:
            name = str(path.resolve())
            lines = [(name, self.document.year), *(line for line in self._years() if line[0] != name)]
            self.settings.setValue("years", [f"{year} {file}" for file, year in lines[:MOST_YEARS]])

    def forget_recent(self) -> None:
        """Forget the files used last."""
        self.settings.remove("recent")
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

    def new(self) -> bool:
        """Begin an empty garden, after a question about unsaved changes; False where the one shown stays."""
        if not self.may_leave():
            return False
        self.empty()
        return True

    def empty(self) -> None:
        """Put an empty garden in the place of the one shown, without a question."""
        self._known = ()
        self.document.open(self.preferences.new_garden())

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
        alone = self._lock(path)
        answer = "" if alone else self._ask_second_window(path)
        if answer == "stay":
            self._lock_again()
            return False
        self._known = (opened.without_content(),)
        if answer == "copy":
            self.document.open(opened.garden, None, say("{name} (copy)", name=path.stem))
            return True
        year = dict(self._years()).get(str(path.resolve()))
        self.document.open(opened.garden, path, path.stem)
        if year is not None and year > 0:
            self.document.show_year(year)
        self._remember(path)
        if answer == "look":
            self.document.only_shown = say(
                "{file} is open in another window and can only be looked at here: "
                "save it under another name to work on it.",
                file=path.name,
            )
            self.document.renamed.emit()
            return True
        self._keep_version(opened)
        self._offers.offer_of(opened.without_content())
        return True

    def offer_untitled(self) -> None:
        """Offer unsaved work that an earlier run has left and that has no file."""
        self._offers.offer_untitled()

    def versions(self) -> tuple[Version, ...]:
        """Earlier versions of the garden's file, the newest first; none without a file."""
        path = self.document.path
        return Versions(path, recovery.folder()).all() if path is not None else ()

    @staticmethod
    def _keep_version(file: storage.GardenFile) -> None:
        """Keep what a file held among its earlier versions; where that is not possible, the file is still saved."""
        with contextlib.suppress(BedwrightError, OSError):
            saved = dt.datetime.fromtimestamp(file.path.stat().st_mtime, dt.UTC)
            Versions(file.path, recovery.folder()).keep(file.content, saved)

    def _lock(self, path: Path) -> bool:
        """Lock the file while it is open here; False where another window has locked it."""
        if self._lock_file is not None:
            self._lock_file.unlock()
        self._lock_file = QLockFile(str(path.with_name(f".{path.name}.lock")))
        self._lock_file.setStaleLockTime(0)
        if not self._lock_file.tryLock(20):
            locked = self._lock_file.error() == QLockFile.LockError.LockFailedError
            self._lock_file = None
            return not locked
        return True

    def _lock_again(self) -> None:
        """Lock the file of the garden that stays open."""
        if self.document.path is not None and not self.document.only_shown:
            self._lock(self.document.path)

    def _ask_second_window(self, path: Path) -> str:
        lock = QLockFile(str(path.with_name(f".{path.name}.lock")))
        process, host, _ = lock.getLockInfo()
        text = (
            say(
                "{file} is open in another window (process {process} on {host}).",
                file=path.name,
                process=process,
                host=host,
            )
            if process
            else say("{file} is open in another window.", file=path.name)
        )
        return self.prompts.second_window(self.window, text)

    def close(self) -> None:
        """Unlock the file and discard the journal of unsaved work (the window closes)."""
        self.recovery.close()
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
        if self.document.path is None or self.document.only_shown:
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

    def suggestion(self, suffix: str, what: str = "") -> str:
        """A path to offer for a file of this garden; what it holds is told in its name.

        Parameters
        ----------
        suffix : str
        what : str, optional
            As ``week sheets``.
        """
        end = f" {what}" if what else ""
        if self.document.path is not None:
            path = self.document.path
            if self.document.only_shown and suffix == SUFFIX:
                path = path.with_stem(say("{name} (copy)", name=path.stem))
            return str(path.with_stem(f"{path.stem}{end}").with_suffix(suffix))
        name = "".join(sign for sign in self.document.title if sign not in '/\\:*?"<>|') or say("garden")
        return f"{name}{end}{suffix}"

    def _base(self) -> str:
        """Digest of what the garden's file held when it was read or written here last."""
        known = self.known(self.document.path) if self.document.path is not None else None
        return known.state.digest.hex() if known is not None else ""

    def known(self, path: Path) -> storage.GardenFile | None:
        """What a file held when this garden was last read from it or written to it; None for any other file."""
        return next((file for file in self._known if file.is_at(path)), None)

    def _write(self, path: Path) -> bool:
        known = self.known(path)
        if known is not None and self.document.only_shown:
            self.prompts.show_error(self.window, self.document.only_shown)
            return False
        try:
            written = storage.save(self.document.stable, path, known)
        except storage.ChangedOnDiskError as error:
            self.recovery.write()
            assert known is not None, "only a file that was known is compared"
            return self._settle_changed(path, known, error)
        except BedwrightError as error:
            self.recovery.write()
            self.prompts.show_error(
                self.window, say("{fault} Nothing is lost: the garden is still open.", fault=str(error))
            )
            return False
        self._known = (written.without_content(), *(file for file in self._known if file is not known))
        self._keep_version(written)
        if path != self.document.path or self.document.only_shown:
            self._lock(path)
        self.document.saved_as(path)
        self._remember(path)
        self.said.emit(self._saved_words(path, written))
        self._remember_year()
        return True

    @staticmethod
    def _saved_words(path: Path, written: storage.GardenFile) -> str:
        """What was saved, and where."""
        folder = str(path.resolve().parent)
        if written.other_names:
            return say(
                "Saved as {file} in {folder}. The file had a second name (a hard link), which still holds what was saved "
                "before.",
                file=path.name,
                folder=folder,
            )
        return say("Saved as {file} in {folder}.", file=path.name, folder=folder)

    def _settle_changed(self, path: Path, known: storage.GardenFile, error: BedwrightError) -> bool:
        """Another program has changed the file: ask, and save only where mine goes elsewhere."""
        try:
            theirs = storage.read(path)
        except BedwrightError as damaged:
            self.prompts.show_error(
                self.window,
                say("{fault} Nothing is lost: the garden is still open.", fault=f"{error} {damaged}"),
            )
            return False
        answer = settle_changed_file(self.window, self.prompts, self.document, known, theirs, self.said.emit)
        if answer == "both":
            return self.save_as()
        if answer in ("join", "theirs"):
            self._keep_version(theirs)
            self._known = (theirs.without_content(), *(file for file in self._known if file is not known))
            if answer == "theirs":
                self.document.saved_as(path)
        return answer == "theirs"
