"""The journal of one window: its unsaved work, beside the garden file or in the program's own folder.

A journal is a garden file like any other, so that even without the program nothing is lost; a head in it says of
which file it is, from which version of it the work began, and which window wrote it.
"""

from __future__ import annotations

import contextlib
import os
import platform
import time
from pathlib import Path
from typing import Any

from planner.atomic_write import write_whole
from planner.garden import Garden
from planner.garden.model import Model
from planner.storage.document import GardenWriter
from planner.storage.window_lock import WindowLock

#: Ending of a journal's name.
UNSAVED = ".unsaved"


class JournalHead(Model):
    """What a journal is about.

    Attributes
    ----------
    of : str
        Path of the garden file; empty for a garden without one.
    base : str
        Digest of the file's content from which the work began; empty for a garden without a file.
    window, host : str
        Which window wrote it, and on which computer.
    written : float
        When. [seconds since 1970]
    """

    of: str = ""
    base: str = ""
    window: str = ""
    host: str = ""
    written: float = 0.0


class Journal:
    """Writes the unsaved work of one window.

    Parameters
    ----------
    folder : Path
        The program's own folder, for gardens without a file, and for those beside which nothing can be written.

    Attributes
    ----------
    written : Path or None
        The journal as it was written last.
    trouble : str
        Why the last one could not be written beside the garden, or not at all; empty where it could.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._lock = WindowLock(folder)
        self._writer = GardenWriter()
        self.written: Path | None = None
        self.trouble = ""

    @property
    def window(self) -> str:
        """Token of the window."""
        return self._lock.token

    def write(self, garden: Garden, file: Path | None = None, base: str = "") -> bool:
        """Write unsaved work; False where that is possible nowhere, which must not stop the work.

        Parameters
        ----------
        garden : Garden
        file : Path, optional
            The garden's file.
        base : str
            Digest of the file's content from which the work began.
        """
        head = JournalHead(
            of=str(absolute(file)) if file is not None else "",
            base=base,
            window=self.window,
            host=platform.node(),
            written=time.time(),
        )
        content = self._content(garden, head)
        self.trouble = ""
        for path in self._places(file):
            try:
                path.parent.mkdir(parents=True, exist_ok=True) if path.parent == self.folder else None
                write_whole(path, content)
            except (OSError, ValueError) as error:
                self.trouble = getattr(error, "strerror", None) or str(error)
                continue
            if self.written is not None and self.written != path:
                _remove(self.written)
            self.written = path
            return True
        return False

    def _content(self, garden: Garden, head: JournalHead) -> bytes:
        fields: dict[str, Any] = head.model_dump(exclude_defaults=True)
        return self._writer.dump(garden, {"unsaved": fields}).encode("utf-8")

    @property
    def beside_file(self) -> bool:
        """Whether the last journal lies beside its garden."""
        return self.written is not None and self.written.parent != self.folder

    def _places(self, file: Path | None) -> tuple[Path, ...]:
        """Where to write it, the best first."""
        own = self.folder / f"{self.window}{UNSAVED}"
        return (own,) if file is None else (beside(file, self.window), own)

    def discard(self) -> None:
        """Remove the journal of this window: its work was saved, or is given up by hand."""
        if self.written is not None:
            _remove(self.written)
            self.written = None

    def close(self) -> None:
        """The window has ended; what it has written stays."""
        self._lock.release()


def beside(file: Path, window: str) -> Path:
    """Path of a window's journal beside a garden file."""
    return file.with_name(f".{file.name}.{window}{UNSAVED}")


def absolute(file: Path) -> Path:
    """A file's place as a journal names it: links are followed."""
    return Path(os.path.realpath(file))


def _remove(journal: Path) -> None:
    with contextlib.suppress(OSError):
        journal.unlink()
