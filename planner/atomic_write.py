"""Replace a file atomically: at every moment either the old or the new one exists."""

from __future__ import annotations

import contextlib
import os
import stat
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

_PREFIX, _SUFFIX = ".bedwright-", ".part"
#: Age from which a temporary file is one that a killed program has left. [s]
LEFT_OVER = 3600.0


def write_whole(target: Path, content: bytes, before_replacing: Callable[[], None] | None = None) -> None:
    """Write a file whole or not at all.

    A temporary file in the same folder is written, flushed and synced, then renamed over the old one, and the
    folder is synced.  The old file's owner and permissions are copied to the new one.

    Parameters
    ----------
    target : Path
    content : bytes
    before_replacing : callable, optional
        Called when the new content is on disk and the old file is still there; an error it raises keeps the old
        file.

    Raises
    ------
    OSError
        If it cannot be written; the old file is unchanged, and the temporary file is removed.
    """
    temporary: str | None = None
    try:
        handle, temporary = tempfile.mkstemp(prefix=_PREFIX, suffix=_SUFFIX, dir=target.parent)
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        _copy_owner_and_mode(temporary, target)
        if before_replacing is not None:
            before_replacing()
        os.replace(temporary, target)
        temporary = None
    finally:
        if temporary is not None:
            with contextlib.suppress(OSError):
                os.unlink(temporary)
    _sync_folder(target.parent)
    _remove_left_overs(target.parent)


def _remove_left_overs(folder: Path) -> None:
    """Remove temporary files of writes that were killed; young ones may be of a write that is under way."""
    oldest = time.time() - LEFT_OVER
    with contextlib.suppress(OSError):
        for path in folder.glob(f"{_PREFIX}*{_SUFFIX}"):
            with contextlib.suppress(OSError):
                if path.stat().st_mtime < oldest:
                    path.unlink()


def _copy_owner_and_mode(temporary: str, target: Path) -> None:
    """Give the new file the old one's owner and permissions, if the file system has them."""
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
    """Sync the new name to disk; errors are ignored, because the content is synced already."""
    if os.name != "posix":
        return
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
