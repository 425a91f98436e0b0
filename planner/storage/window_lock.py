"""Locks that tell whether a window is still open, however it ended."""

from __future__ import annotations

import contextlib
import os
import secrets
from pathlib import Path
from typing import IO

_SUFFIX = ".window"


class WindowLock:
    """Held by one window from its start to its end.

    The system releases the lock when the process ends, even by a power cut, and it does not look at process numbers, which
    are given again.

    Attributes
    ----------
    token : str
        Names the window.
    held : bool
        Whether the lock could be taken; without it the window's journals are offered to others while it is open.
    """

    def __init__(self, folder: Path) -> None:
        self.token = secrets.token_hex(4)
        self._path = folder / f"{self.token}{_SUFFIX}"
        self._file: IO[bytes] | None = None
        with contextlib.suppress(OSError):
            folder.mkdir(parents=True, exist_ok=True)
            self._file = _locked(self._path)

    @property
    def held(self) -> bool:  # see the class
        return self._file is not None

    def release(self) -> None:
        """The window has ended."""
        if self._file is not None:
            self._file.close()
            self._file = None
            with contextlib.suppress(OSError):
                self._path.unlink()


def is_open(token: str, folder: Path) -> bool:
    """Whether the window of a token is still open.

    Parameters
    ----------
    token : str
    folder : Path
        Where windows of this computer have their locks.
    """
    path = folder / f"{token}{_SUFFIX}"
    if not path.exists():
        return False
    try:
        file = _locked(path)
    except OSError:
        return True  # held, or not to be told: then it is left alone
    file.close()
    with contextlib.suppress(OSError):
        path.unlink()
    return False


def _locked(path: Path) -> IO[bytes]:
    """Open a file and lock it, or raise OSError where another has locked it."""
    file = path.open("a+b")
    try:
        if os.name == "nt":
            import msvcrt

            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)  # type: ignore[attr-defined,unused-ignore]  # Windows only
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        file.close()
        raise
    return file
