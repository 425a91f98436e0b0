"""Opening a file to read it, and nothing that would wait for ever."""

from __future__ import annotations

import errno
import os
import stat
from io import BufferedReader
from pathlib import Path


class NoPlainFileError(OSError):
    """A pipe, a socket or a device where a file is meant."""


def open_plain(path: str | os.PathLike[str]) -> BufferedReader:
    """Open a file for reading bytes; a pipe, which might never end or never begin, is refused at once.

    Parameters
    ----------
    path : path
        Links are followed.

    Raises
    ------
    OSError
        Where there is none, it cannot be read, or it is no plain file.
    """
    if not hasattr(os, "O_NONBLOCK"):
        return Path(path).open("rb")
    handle = os.open(path, os.O_RDONLY | os.O_NONBLOCK | os.O_CLOEXEC)
    try:
        mode = os.fstat(handle).st_mode
        if stat.S_ISDIR(mode):
            raise IsADirectoryError(errno.EISDIR, "it is a folder", os.fspath(path))
        if not stat.S_ISREG(mode):
            what = "a pipe" if stat.S_ISFIFO(mode) else "a device"
            raise NoPlainFileError(errno.EINVAL, f"it is {what}, not a file", os.fspath(path))
        return os.fdopen(handle, "rb")
    except BaseException:
        os.close(handle)
        raise
