"""Files written so that at every moment either the old or the new one is there."""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
from pathlib import Path


def write_whole(target: Path, content: bytes) -> None:
    """Write a file whole or not at all.

    A temporary file in the same folder is written, flushed and synced, then put in the place of
    the old one, and the folder is synced.  The old file's owner and permissions stay.

    Raises
    ------
    OSError
        When it cannot be written; the old file is untouched, and nothing is left beside it.
    """
    temporary: str | None = None
    try:
        handle, temporary = tempfile.mkstemp(prefix=".bedwright-", suffix=".part", dir=target.parent)
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        _like_before(temporary, target)
        os.replace(temporary, target)
        temporary = None
    finally:
        if temporary is not None:
            with contextlib.suppress(OSError):
                os.unlink(temporary)
    _sync_folder(target.parent)


def _like_before(temporary: str, target: Path) -> None:
    """Give the new file the old one's owner and permissions, as far as the disk knows such."""
    try:
        old: os.stat_result | None = target.stat()
    except OSError:
        old = None
    with contextlib.suppress(OSError):
        if (
            old is not None
            and hasattr(os, "chown")
            and (old.st_uid, old.st_gid) != (os.getuid(), os.getgid())
        ):
            os.chown(temporary, old.st_uid, old.st_gid)
    with contextlib.suppress(OSError):
        os.chmod(temporary, stat.S_IMODE(old.st_mode) if old is not None else 0o666 & ~_umask())


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _sync_folder(folder: Path) -> None:
    """Make the new name last; not every disk can, and the file itself is safe by now."""
    if os.name != "posix":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
