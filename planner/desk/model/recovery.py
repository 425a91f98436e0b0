"""Writes unsaved work to a journal within a second, so that it can be recovered after a crash."""

from __future__ import annotations

import os
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, QTimer

from planner.desk.model.document import Document
from planner.storage import journal

#: Wait after a change before the journal is written. [ms]
DELAY = 700


def folder() -> Path:
    """Folder for the journals of gardens without a file: BEDWRIGHT_STATE, else the system's place for it."""
    given = os.environ.get("BEDWRIGHT_STATE")
    if given:
        return Path(given)
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation)
    return Path(place) / "unsaved"


class Recovery(QObject):
    """Writes the journal of one document as it changes, and discards it when the document is saved."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.document = document
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(DELAY)
        self._timer.timeout.connect(self.write)
        self._written: Path | None = None
        document.undo_stack.indexChanged.connect(lambda _i: self._timer.start())
        document.renamed.connect(self._follow)

    def _journal(self) -> Path:
        path = self.document.path
        return journal.beside(path) if path is not None else journal.untitled(folder())

    def write(self) -> None:
        """Write the journal now, where there is unsaved work."""
        if not self.document.changed:
            return
        target = self._journal()
        if journal.write(self.document.stable, target):
            if self._written is not None and self._written != target:
                journal.discard(self._written)
            self._written = target

    def _follow(self) -> None:
        if not self.document.changed:
            self.forget()

    @property
    def written(self) -> Path | None:
        """The journal written last."""
        return self._written

    def forget(self) -> None:
        """Everything is saved, or is not wanted: take the journal away."""
        self._timer.stop()
        if self._written is not None:
            journal.discard(self._written)
            self._written = None
