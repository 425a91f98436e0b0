"""Writes unsaved work to a journal within a second, so that it can be recovered after a crash."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from pathlib import Path

from PySide6.QtCore import QObject, QStandardPaths, QTimer, Signal

from planner.desk.model.background_jobs import Cancelled, JobQueue
from planner.desk.model.document import Document
from planner.storage.journal import Journal
from planner.words import say

#: Longest wait from a change until the journal of it is begun; further changes do not put it off. [ms]
DELAY = 500


def folder() -> Path:
    """The program's own folder: BEDWRIGHT_STATE, else the system's place for it."""
    given = os.environ.get("BEDWRIGHT_STATE")
    if given:
        return Path(given)
    place = QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation)
    return Path(place) / "unsaved"


class Recovery(QObject):
    """Writes the journal of one document as it changes, and discards it when the document is saved.

    Parameters
    ----------
    document : Document
    base : callable
        Digest of the content of the document's file as it was read or written last; empty without a file.

    Signals
    -------
    elsewhere : str
        The journal cannot be written beside the garden, or nowhere at all; one line says why.  Once for a
        garden.
    """

    elsewhere = Signal(str)

    def __init__(self, document: Document, base: Callable[[], str] = str) -> None:
        super().__init__(document)
        self.document = document
        self.journal = Journal(folder())
        self._base = base
        self._jobs = JobQueue(self)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(DELAY)
        self._timer.timeout.connect(self._write_beside)
        self._told = False
        document.undo_stack.indexChanged.connect(self._note_change)
        document.renamed.connect(self._follow)
        document.opened.connect(self._follow_opened)

    def _note_change(self, _index: int) -> None:
        # Not started anew while it runs: steady work would put the journal off for ever.
        if not self._timer.isActive():
            self._timer.start()

    def _write_beside(self) -> None:
        """Write the journal in a thread: a large garden takes some tenths of a second."""
        if not self.document.changed:
            return
        garden, file, base = self.document.stable, self.document.path, self._base()

        def work(_cancelled: Cancelled) -> Iterator[tuple[bool, Path | None]]:
            yield self.journal.write(garden, file, base), file

        self._jobs.start(work, self._note_written, "journal")

    def write(self) -> bool:
        """Write the journal now, where there is unsaved work; False where that is not possible."""
        if not self.document.changed:
            return True
        self._wait()
        file = self.document.path
        written = self.journal.write(self.document.stable, file, self._base())
        self._note_written((written, file))
        return written

    def _note_written(self, result: tuple[bool, Path | None]) -> None:
        written, file = result
        if not self.document.changed:  # saved while the journal was being written
            self.journal.discard()
        if self._told or (written and (file is None or self.journal.beside_file)):
            return
        self._told = True
        why = self.journal.trouble
        if written:
            self.elsewhere.emit(
                say(
                    "Unsaved work cannot be kept beside the garden ({why}); it is kept in {folder}.",
                    why=why,
                    folder=str(self.journal.folder),
                )
            )
        else:
            self.elsewhere.emit(
                say(
                    "Unsaved work can be kept nowhere ({why}): save often, or make room on the disk.", why=why
                )
            )

    def _follow(self) -> None:
        if not self.document.changed:
            self.forget()

    def _follow_opened(self) -> None:
        self._told = False

    @property
    def written(self) -> Path | None:
        """The journal written last."""
        return self.journal.written

    def _wait(self) -> None:
        """Wait for the thread: two may not write the same journal."""
        self._timer.stop()
        self._jobs.stop()

    def forget(self) -> None:
        """Everything is saved, or is given up by hand: take the journal away."""
        self._wait()
        self.journal.discard()

    def close(self) -> None:
        """The window has ended."""
        self.forget()
        self.journal.close()
