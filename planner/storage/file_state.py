"""What a garden file held when it was last read or written, to notice that another program has changed it."""

from __future__ import annotations

import hashlib
import os
import time
from dataclasses import dataclass, field, replace
from pathlib import Path

from planner.garden import Garden
from planner.plain_file import open_plain
from planner.storage.file_error import FileError
from planner.words import say


class ChangedOnDiskError(FileError):
    """A file that another program has changed since it was read."""


@dataclass(frozen=True)
class FileState:
    """Content of a file, as far as it is needed to tell whether the file still holds it.

    The time of the last change is not part of it: a file that was only touched holds what it held, and a program that
    copies files may set the time back.

    Attributes
    ----------
    size : int
        [bytes]
    digest : bytes
        SHA-256 of the content.
    """

    size: int
    digest: bytes

    @classmethod
    def of(cls, content: bytes) -> FileState:
        """Return the state of a file with this content."""
        return cls(len(content), hashlib.sha256(content).digest())

    def holds(self, file: Path) -> bool:
        """Whether a file holds this content now.

        Raises
        ------
        OSError
            When the file is missing or cannot be read.
        """
        with open_plain(file) as stream:
            if os.fstat(stream.fileno()).st_size != self.size:
                return False
            return hashlib.file_digest(stream, "sha256").digest() == self.digest


@dataclass(frozen=True)
class GardenFile:
    """A garden file as it was last read or written.

    Attributes
    ----------
    path : Path
    garden : Garden
        The garden it held: what later edits of this program and of others both started from.
    state : FileState
    other_names : bool
        Whether the file that was replaced had further names (hard links), which still hold the former content.
    content : bytes
        What the file held; empty where that was let go.
    """

    path: Path
    garden: Garden
    state: FileState
    other_names: bool = False
    content: bytes = field(default=b"", repr=False, compare=False)

    def without_content(self) -> GardenFile:
        """The same without its content, which may be large."""
        return replace(self, content=b"")

    def is_at(self, path: Path) -> bool:
        """Whether a path, a link included, leads to this file."""
        if os.path.normcase(os.path.realpath(path)) == os.path.normcase(os.path.realpath(self.path)):
            return True
        try:
            return os.path.samefile(path, self.path)
        except OSError:
            return False


def refuse_changed(file: Path, state: FileState, name: str) -> None:
    """Refuse to replace a file that no longer holds what it held; a file that is gone may be written anew.

    Raises
    ------
    ChangedOnDiskError
        When it holds something else.
    OSError
        When it cannot be read.
    """
    try:
        if state.holds(file):
            return
        changed = file.stat().st_mtime
    except FileNotFoundError:
        return
    when = time.strftime("%d %b %Y, %H:%M", time.localtime(changed))
    raise ChangedOnDiskError(
        say(
            "was changed by another program since it was read here (on {when}), and is not replaced",
            when=when,
        ),
        name,
        say("Save yours under another name to keep both, or open the file again to go on with theirs"),
    )
