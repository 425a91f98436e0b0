"""Garden files on the disk: read within limits, written whole or not at all."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from planner.atomic_write import write_whole
from planner.garden import Garden
from planner.plain_file import NoPlainFileError, open_plain
from planner.storage.document import dump, parse
from planner.storage.file_error import FileError
from planner.storage.file_state import FileState, GardenFile, refuse_changed
from planner.words import number_words, say

#: Largest file that is read. [bytes]
LARGEST = 64 * 1024 * 1024


def load(path: str | os.PathLike[str]) -> Garden:
    """Read the garden of a file; see :func:`read`."""
    return read(path).garden


def read(path: str | os.PathLike[str]) -> GardenFile:
    """Read a garden file, and what its file held.

    Parameters
    ----------
    path : path

    Raises
    ------
    FileError
        Missing, unreadable, too large, damaged, of a newer program, or not a garden.
    """
    file, data = Path(path), read_content(path)
    return GardenFile(file, parse(data, str(file)), FileState.of(data), content=data)


def read_content(path: str | os.PathLike[str]) -> bytes:
    """Read what a garden file holds, within the limit.

    Parameters
    ----------
    path : path

    Raises
    ------
    FileError
        Missing, unreadable or too large.
    """
    file = Path(path)
    try:
        if file.is_dir():
            raise FileError(say("is a folder, not a garden file"), str(file), say("Name a file in it"))
        with open_plain(file) as stream:  # never more than the limit, whatever the size says
            data = stream.read(LARGEST + 1)
    except FileNotFoundError:
        raise FileError(
            say("there is no such file"), str(file), say("Check the name and the folder")
        ) from None
    except NoPlainFileError as error:
        raise FileError(
            say("cannot be read: {why}", why=error.strerror),
            str(file),
            say("Write what it gives to a file, and name that"),
        ) from None
    except PermissionError:
        raise FileError(
            say("cannot be read: it is not yours to read"), str(file), say("Check its permissions")
        ) from None
    except (OSError, ValueError) as error:  # ValueError: a name with a null in it
        why = getattr(error, "strerror", None) or error
        raise FileError(
            say("cannot be read: {why}", why=why), str(file), say("Check the name and the folder")
        ) from None
    if len(data) > LARGEST:
        raise FileError(
            say("is larger than {number} MB, the most that is read", number=number_words(LARGEST / 2**20, 0)),
            str(file),
            say("Check that it is a garden file"),
        )
    return data


def save(garden: Garden, path: str | os.PathLike[str], known: GardenFile | None = None) -> GardenFile:
    """Write a garden file so that at every moment either the old or the new one is there.

    A temporary file in the same folder is written, flushed and synced, then put in the place of
    the old one, and the folder is synced.  A link stays a link, and the old file's permissions stay.

    Parameters
    ----------
    garden : Garden
    path : path
    known : GardenFile, optional
        What the file held when it was last read or written here; a file that holds something else now is not replaced.
        None replaces whatever is there.

    Returns
    -------
    GardenFile
        What the file holds now.

    Raises
    ------
    FileError
        When it cannot be written, or was changed meanwhile; the old file is untouched.
    """
    file = Path(path)
    try:
        target = Path(os.path.realpath(file)) if file.is_symlink() else file
        names = _refuse_odd(target, str(file))
        content = dump(garden).encode("utf-8")
        if known is None:
            write_whole(target, content)
        else:  # compared last, so that a slow disk leaves another program no time between
            write_whole(target, content, lambda: refuse_changed(target, known.state, str(file)))
    except FileNotFoundError:
        raise FileError(
            say("its folder is not there"), str(file), say("Make the folder, or name another one")
        ) from None
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or error
        raise FileError(
            say("could not be saved: {why}", why=why), str(file), say("Save it under another name or place")
        ) from None
    return GardenFile(file, garden, FileState.of(content), names > 1, content)


def _refuse_odd(target: Path, name: str) -> int:
    """Refuse to replace what is no file, or is protected; return how many names the file has."""
    try:
        old = target.stat()
    except FileNotFoundError:
        return 0
    if stat.S_ISDIR(old.st_mode):
        raise FileError("is a folder", name, say("Name a file in it"))
    if not stat.S_ISREG(old.st_mode):
        raise FileError(say("is not a plain file"), name, say("Name another one"))
    if not os.access(target, os.W_OK):
        raise FileError(
            say("is write-protected"), name, say("Allow writing to it, or save under another name")
        )
    return old.st_nlink
