"""Opening and saving from the desk: asks, remembers, and never loses."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QLockFile, QSettings, Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from planner import resources, storage
from planner.desk.model import recovery
from planner.desk.model.document import Document
from planner.errors import BedwrightError
from planner.garden import Garden
from planner.storage import journal

SUFFIX = ".bedwright"
FILTER = f"Gardens (*{SUFFIX});;All files (*)"
MOST_RECENT = 8


class Prompts:
    """Questions to the person; tests put another in its place."""

    #: Whether a written sheet is opened in the system's viewer.
    may_show = True

    def open_path(self, parent: QWidget, folder: str) -> str:
        """Which file to open; empty for none."""
        return QFileDialog.getOpenFileName(parent, "Open a garden", folder, FILTER)[0]

    def save_path(
        self, parent: QWidget, suggestion: str, kinds: str = FILTER, title: str = "Save the garden"
    ) -> str:
        """Where to save; empty for nowhere."""
        dialog = QFileDialog(parent, title, str(Path(suggestion).parent), kinds)
        dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
        # The dialog completes the name, so that it also asks before that file is replaced.
        dialog.setDefaultSuffix(Path(suggestion).suffix)
        dialog.selectFile(Path(suggestion).name)
        accepted = dialog.exec() == QFileDialog.DialogCode.Accepted
        chosen = dialog.selectedFiles()
        dialog.deleteLater()
        return chosen[0] if accepted and chosen else ""

    def keep_changes(self, parent: QWidget, name: str) -> str:
        """``save``, ``leave`` or ``stay`` before a changed garden is closed."""
        return _chosen(
            parent,
            f"{name} has changes that are not saved.",
            "Save them first?",
            {"save": "Save", "leave": "Leave without saving", "stay": "Stay"},
        )

    def recover(self, parent: QWidget, name: str, when: str) -> str:
        """``take`` unsaved work that was found, ``drop`` it, or decide ``later``."""
        return _chosen(
            parent,
            f"There is unsaved work on {name}, of {when}.",
            "Take it up again?",
            {"take": "Take it up", "drop": "Throw it away", "later": "Decide later"},
        )

    def tell(self, parent: QWidget, text: str) -> None:
        """Tell of something that went wrong."""
        box = QMessageBox(QMessageBox.Icon.Warning, "Bedwright", "", QMessageBox.StandardButton.Ok, parent)
        box.setTextFormat(Qt.TextFormat.PlainText)  # names in it may look like markup
        box.setText(text)
        box.exec()
        box.deleteLater()


def _chosen(parent: QWidget, text: str, question: str, answers: dict[str, str]) -> str:
    """Ask; the key of the answer given.

    ``answers`` are the labels of the buttons: what is proposed, what gives something up, and what
    leaves all as it is, which closing the box means too.
    """
    box = QMessageBox(parent)
    box.setIcon(QMessageBox.Icon.Question)
    box.setTextFormat(Qt.TextFormat.PlainText)  # names in it may look like markup
    box.setText(text)
    box.setInformativeText(question)
    roles = (
        QMessageBox.ButtonRole.AcceptRole,
        QMessageBox.ButtonRole.DestructiveRole,
        QMessageBox.ButtonRole.RejectRole,
    )
    buttons = {
        key: box.addButton(label, role) for (key, label), role in zip(answers.items(), roles, strict=True)
    }
    first, *_, last = answers
    box.setDefaultButton(buttons[first])
    box.exec()
    clicked = box.clickedButton()
    box.deleteLater()
    return next((key for key, button in buttons.items() if button is clicked), last)


class Files:
    """The files of one window."""

    def __init__(self, window: QWidget, document: Document, settings: QSettings, asking: Prompts) -> None:
        self.window, self.document = window, document
        self.settings, self.asking = settings, asking
        self.recovery = recovery.Recovery(document)
        self._held: QLockFile | None = None
        self.on_recent: Callable[[], None] = lambda: None

    # -- recent -----------------------------------------------------------------------------

    def recent(self) -> list[str]:
        """Files used last, the newest first."""
        value = self.settings.value("recent", [])
        paths = [value] if isinstance(value, str) else list(value or [])
        return [str(path) for path in paths][:MOST_RECENT]

    def _remember(self, path: Path) -> None:
        text = str(path.resolve())
        self.settings.setValue("recent", [text, *(p for p in self.recent() if p != text)][:MOST_RECENT])
        self.on_recent()

    # -- leaving ----------------------------------------------------------------------------

    def may_leave(self) -> bool:
        """Ask about unsaved changes; False to stay."""
        if not self.document.changed:
            return True
        answer = self.asking.keep_changes(self.window, self.document.title)
        if answer == "save":
            return self.save()
        return answer == "leave"

    # -- opening ----------------------------------------------------------------------------

    def new(self) -> None:
        """Begin an empty garden."""
        if self.may_leave():
            self.document.open(Garden())

    def open(self) -> None:
        """Ask for a file and open it."""
        folder = str(self.document.path.parent) if self.document.path else ""
        path = self.asking.open_path(self.window, folder)
        if path and self.may_leave():
            self.open_path(Path(path))

    def open_path(self, path: Path) -> bool:
        """Open a file; the garden at hand stays where it cannot be read."""
        try:
            garden = storage.load(path)
        except BedwrightError as error:
            self.asking.tell(self.window, str(error))
            return False
        self.document.open(garden, path, path.stem)
        self._remember(path)
        alone = self._lock(path)
        left = journal.left_beside(path)
        if left is not None and alone:
            self._offer(left, path.name)
        return True

    def offer_untitled(self) -> None:
        """Offer unsaved work without a file that an earlier run has left."""
        for left in journal.left_untitled(recovery.folder())[:1]:
            self._offer(left, "a garden without a file")

    def _offer(self, left: journal.Leftover, name: str) -> None:
        answer = self.asking.recover(self.window, name, left.when)
        if answer == "drop":
            journal.discard(left.journal)
        elif answer == "take":
            try:
                garden = journal.recover(left)
            except BedwrightError as error:
                self.asking.tell(self.window, str(error))
                return
            # A step of its own: undoing it shows what stands in the file.
            self.document.commit("Take up unsaved work", garden)
            self.recovery.write()
            if left.journal != self.recovery.written:
                journal.discard(left.journal)

    def _lock(self, path: Path) -> bool:
        """Hold the file while it is open here; say so, and return False, where another window does."""
        if self._held is not None:
            self._held.unlock()
        self._held = QLockFile(str(path.with_name(f".{path.name}.lock")))
        self._held.setStaleLockTime(0)
        if not self._held.tryLock(20):
            process, host, _ = self._held.getLockInfo()
            self._held = None
            if process:
                self.asking.tell(
                    self.window,
                    f"{path.name} is open in another window (process {process} on {host}). "
                    "What is saved last holds; save this one under another name to keep both.",
                )
                return False
        return True

    def close(self) -> None:
        """The window goes: nothing unsaved is left to keep."""
        self.recovery.forget()
        if self._held is not None:
            self._held.unlock()
            self._held = None

    def open_sample(self, name: str) -> bool:
        """Open a sample as a garden of its own, without a file."""
        path = resources.sample_folder() / f"{name}{SUFFIX}"
        try:
            garden = storage.load(path)
        except BedwrightError as error:
            self.asking.tell(self.window, str(error))
            return False
        self.document.open(garden, None, name)
        return True

    # -- saving -----------------------------------------------------------------------------

    def save(self) -> bool:
        """Save to the garden's file; asks for one where it has none."""
        if self.document.path is None:
            return self.save_as()
        return self._write(self.document.path)

    def save_as(self) -> bool:
        """Ask for a file and save to it."""
        path = self.asking.save_path(self.window, self.suggestion(SUFFIX))
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

    def _write(self, path: Path) -> bool:
        try:
            storage.save(self.document.stable, path)
        except BedwrightError as error:
            self.asking.tell(self.window, f"{error} Nothing is lost: the garden is still open.")
            return False
        if path != self.document.path:
            self._lock(path)
        self.document.saved_as(path)
        self._remember(path)
        return True
