"""Journals of unsaved work, beside the garden file or, while there is none, in a folder of their own.

A journal is a garden file like any other, so that even without the program nothing is lost.
"""

from __future__ import annotations

import contextlib
import os
import re
import time
from dataclasses import dataclass
from pathlib import Path

from planner.garden import Garden
from planner.storage.document import FileError
from planner.storage.files import load, save

#: Ending of a journal's name.
UNSAVED = ".unsaved"


@dataclass(frozen=True)
class UnsavedWork:
    """A journal of unsaved work that was found.

    Attributes
    ----------
    journal : Path
    written : float
        When it was written. [seconds since 1970]
    """

    journal: Path
    written: float

    @property
    def when(self) -> str:
        """Local date and time, to the minute."""
        return time.strftime("%d %b %Y, %H:%M", time.localtime(self.written))


def beside(file: Path) -> Path:
    """Return the journal of a garden file."""
    return file.with_name(f".{file.name}{UNSAVED}")


def untitled(folder: Path) -> Path:
    """Return the journal of a garden without a file, of this process."""
    return folder / f"untitled-{os.getpid()}{UNSAVED}"


def write(garden: Garden, journal: Path) -> bool:
    """Write unsaved work into its journal.

    Parameters
    ----------
    garden : Garden
    journal : Path
        Its folder is made where it is missing.

    Returns
    -------
    bool
        Whether that was possible; a full disk must not stop the work.
    """
    try:
        journal.parent.mkdir(parents=True, exist_ok=True)
        save(garden, journal)
    except (FileError, OSError):
        return False
    return True


def discard(journal: Path) -> None:
    """Remove a journal: the work was saved, or is not wanted."""
    with contextlib.suppress(OSError):
        journal.unlink()


def unsaved_beside(file: Path) -> UnsavedWork | None:
    """Return the unsaved work on a garden file that is newer than the file; None without any."""
    journal = beside(file)
    try:
        written = journal.stat().st_mtime
    except OSError:
        return None
    with contextlib.suppress(OSError):
        if file.stat().st_mtime > written:
            return None
    return UnsavedWork(journal, written)


def unsaved_untitled(folder: Path) -> list[UnsavedWork]:
    """Return the unsaved work without a file of processes that have ended, the newest first."""
    found = []
    for journal in folder.glob(f"untitled-*{UNSAVED}"):
        match = re.fullmatch(r"untitled-(\d+)", journal.name.removesuffix(UNSAVED))
        if match is None or _alive(int(match[1])):
            continue
        with contextlib.suppress(OSError):
            found.append(UnsavedWork(journal, journal.stat().st_mtime))
    return sorted(found, key=lambda work: -work.written)


def recover(unsaved: UnsavedWork) -> Garden:
    """Read the unsaved garden.

    Raises
    ------
    FileError
        When the journal cannot be read; it is left where it is.
    """
    return load(unsaved.journal)


def _alive(process: int) -> bool:
    if os.name != "posix":
        return process == os.getpid()
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True
