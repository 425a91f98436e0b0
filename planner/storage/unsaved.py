"""Unsaved work that earlier windows left, found again and compared with what is saved."""

from __future__ import annotations

import contextlib
import json
import os
import platform
import re
import time
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from planner.errors import BedwrightError
from planner.garden import Garden
from planner.storage.document import parse
from planner.storage.files import read_content
from planner.storage.journal import UNSAVED, JournalHead, absolute
from planner.storage.window_lock import is_open

#: Ending of a journal that was thrown away by hand: it is kept a while, and not offered again.
THROWN_AWAY = ".thrown-away"
#: Of one garden the newest that were thrown away stay, whatever the clock says ...
NEWEST_THROWN_AWAY = 10
#: ... and all that were thrown away in so many days.
DAYS_THROWN_AWAY = 31
#: Most that those of one garden take; the newest stays whatever it takes. [bytes]
MOST_THROWN_AWAY = 50 * 2**20


@dataclass(frozen=True)
class UnsavedWork:
    """A journal that was found.

    Attributes
    ----------
    journal : Path
    head : JournalHead
        Empty in a journal of an older program.
    garden : Garden or None
        The work; None where the journal is damaged.
    fault : str
        What is wrong with a damaged journal, in one line.
    other_version : bool
        Whether the file has been changed since the work began.
    """

    journal: Path
    head: JournalHead
    garden: Garden | None
    fault: str = ""
    other_version: bool = False

    @property
    def written(self) -> float:
        """When it was written. [seconds since 1970]"""
        if self.head.written:
            return self.head.written
        try:
            return self.journal.stat().st_mtime
        except OSError:
            return 0.0


def unsaved_of(file: Path, saved: Garden, saved_digest: str, folder: Path) -> tuple[UnsavedWork, ...]:
    """Return the unsaved work on a garden file, the newest first.

    That of windows which are still open is left out, and so is what the file holds already; it is removed.
    Whatever the clock says, work that differs is offered.

    Parameters
    ----------
    file : Path
    saved : Garden
        What the file holds.
    saved_digest : str
        Digest of its content.
    folder : Path
        The program's own folder.
    """
    place = str(absolute(file))
    found = (
        *_read(_beside(file), folder),
        *(one for one in _read(_own(folder), folder) if one.head.of == place),
    )
    return _newest_first(_differing(found, saved, saved_digest))


def unsaved_untitled(folder: Path) -> tuple[UnsavedWork, ...]:
    """Return the unsaved work on gardens without a file, the newest first.

    Work on a file that is gone is among it.

    Parameters
    ----------
    folder : Path
        The program's own folder.
    """
    found = (one for one in _read(_own(folder), folder) if not one.head.of or not Path(one.head.of).exists())
    return _newest_first(found)


def throw_away(work: UnsavedWork, folder: Path) -> None:
    """Offer a journal no more; for some time it stays under another name.

    Parameters
    ----------
    work : UnsavedWork
    folder : Path
        The program's own folder.
    """
    target = work.journal.with_name(work.journal.name + THROWN_AWAY)
    with contextlib.suppress(OSError):
        work.journal.replace(target)
        os.utime(target)  # the time at which it was thrown away
    _remove_oldest(_thrown_away_like(work, folder), time.time())


def _thrown_away_like(work: UnsavedWork, folder: Path) -> list[Path]:
    """What was thrown away in the place of a journal: of the same garden file, or in the program's own folder."""
    if work.journal.parent == folder:
        name = re.compile(r".*" + re.escape(UNSAVED + THROWN_AWAY))
    else:
        of = re.escape(re.sub(r"(\.[0-9a-f]{8})?" + re.escape(UNSAVED) + "$", "", work.journal.name))
        name = re.compile(of + r"(\.[0-9a-f]{8})?" + re.escape(UNSAVED + THROWN_AWAY))
    with contextlib.suppress(OSError):
        return [path for path in work.journal.parent.iterdir() if name.fullmatch(path.name)]
    return []


def _remove_oldest(thrown_away: Iterable[Path], now: float) -> None:
    """Remove the oldest of what was thrown away, where it is too old or too much.

    Parameters
    ----------
    thrown_away : iterable of Path
    now : float
        [seconds since 1970]
    """
    found = []
    for path in thrown_away:
        with contextlib.suppress(OSError):
            state = path.stat()
            found.append((state.st_mtime, state.st_size, path))
    size = 0
    for place, (when, taken, path) in enumerate(sorted(found, reverse=True)):
        size += taken
        old = place >= NEWEST_THROWN_AWAY and now - when > DAYS_THROWN_AWAY * 86_400
        if old or (place and size > MOST_THROWN_AWAY):
            with contextlib.suppress(OSError):
                path.unlink()


def taken_up(work: UnsavedWork) -> None:
    """Remove a journal whose work is in another window's journal now."""
    if work.head.host in ("", platform.node()):
        with contextlib.suppress(OSError):
            work.journal.unlink()


def _beside(file: Path) -> list[Path]:
    """Journals beside a file: of any window, or of an older program, which knew no windows."""
    name = re.compile(re.escape(f".{file.name}") + r"(\.[0-9a-f]{8})?" + re.escape(UNSAVED))
    with contextlib.suppress(OSError):
        return sorted(path for path in file.parent.iterdir() if name.fullmatch(path.name))
    return []


def _own(folder: Path) -> list[Path]:
    with contextlib.suppress(OSError):
        return sorted(folder.glob(f"*{UNSAVED}"))
    return []


def _read(paths: Iterable[Path], folder: Path) -> Iterator[UnsavedWork]:
    """Read journals, but those of windows that are still open."""
    for path in paths:
        head = JournalHead()
        try:
            content = read_content(path)
            head = _head(content)
            if head.window and head.host == platform.node() and is_open(head.window, folder):
                continue
            yield UnsavedWork(path, head, parse(content, str(path)))
        except BedwrightError as error:
            if path.exists():
                yield UnsavedWork(path, head, None, str(error))


def _head(content: bytes) -> JournalHead:
    """The head of a journal; an empty one where it has none or is damaged."""
    try:
        return JournalHead.model_validate(json.loads(content).get("unsaved", {}))
    except (ValueError, AttributeError, RecursionError):  # a ValidationError is a ValueError
        return JournalHead()


def _differing(found: Iterable[UnsavedWork], saved: Garden, saved_digest: str) -> Iterator[UnsavedWork]:
    for work in found:
        if work.garden is not None and work.garden == saved:
            taken_up(work)
            continue
        other = bool(work.head.base) and work.head.base != saved_digest
        yield UnsavedWork(work.journal, work.head, work.garden, work.fault, other)


def _newest_first(found: Iterable[UnsavedWork]) -> tuple[UnsavedWork, ...]:
    return tuple(sorted(found, key=lambda work: -work.written))
