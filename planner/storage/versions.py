"""Earlier versions of a garden file: what it held at its last saves, kept in the program's own folder."""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.atomic_write import write_whole
from planner.garden import Garden
from planner.storage.document import parse
from planner.storage.files import read_content
from planner.storage.journal import absolute

#: The newest versions are all kept.
NEWEST = 10
#: Of older ones the last of each day is kept, for so many days.
DAYS = 31
#: Most that the versions of one garden take; the newest is kept whatever it takes. [bytes]
MOST_BYTES = 50 * 2**20

_SUFFIX = ".bedwright"
_STAMP = "%Y%m%dT%H%M%S%f"
_NAME = re.compile(rf"(\d{{8}}T\d{{12}})-([0-9a-f]{{64}}){re.escape(_SUFFIX)}")


@dataclass(frozen=True)
class Version:
    """What a garden file held once.

    Attributes
    ----------
    path : Path
        The copy.
    saved : datetime
        When the file was saved so, in UTC.
    digest : str
        SHA-256 of the content, in hexadecimal digits.
    size : int
        [bytes]
    """

    path: Path
    saved: dt.datetime
    digest: str
    size: int

    def read(self) -> Garden:
        """Read the garden.

        Raises
        ------
        FileError
            Where the copy cannot be read.
        """
        return parse(read_content(self.path), str(self.path))


class Versions:
    """The earlier versions of one garden file.

    Parameters
    ----------
    file : Path
    folder : Path
        The program's own folder.
    """

    def __init__(self, file: Path, folder: Path) -> None:
        place = str(absolute(file))
        mark = hashlib.sha256(place.encode("utf-8", "surrogateescape")).hexdigest()[:16]
        self.folder = folder / "versions" / mark

    def all(self) -> tuple[Version, ...]:
        """All versions that are there, the newest first."""
        found = []
        with contextlib.suppress(OSError):
            for path in self.folder.iterdir():
                if match := _NAME.fullmatch(path.name):
                    saved = dt.datetime.strptime(match[1], _STAMP).replace(tzinfo=dt.UTC)
                    found.append(Version(path, saved, match[2], path.stat().st_size))
        return tuple(sorted(found, key=lambda version: version.saved, reverse=True))

    def with_digest(self, digest: str) -> Version | None:
        """The newest version with some content; None where it is not there."""
        return next((version for version in self.all() if version.digest == digest), None)

    def keep(self, content: bytes, saved: dt.datetime) -> bool:
        """Keep what the file holds, and remove what is too old or too much; False where that is not possible.

        What the newest version holds already is not kept twice.  A full disk must not stop a save.

        Parameters
        ----------
        content : bytes
        saved : datetime
            When the file was saved so, in UTC.
        """
        digest = hashlib.sha256(content).hexdigest()
        there = self.all()
        if there and there[0].digest == digest:
            return True
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            write_whole(self.folder / f"{saved.strftime(_STAMP)}-{digest}{_SUFFIX}", content)
        except OSError:
            return False
        there = self.all()
        wanted = set(to_keep(there, saved))
        for version in there:
            if version not in wanted:
                with contextlib.suppress(OSError):
                    version.path.unlink()
        return True


def to_keep(versions: Sequence[Version], now: dt.datetime) -> tuple[Version, ...]:
    """Choose which versions stay: the :data:`NEWEST`, and the last of each of the last :data:`DAYS` days.

    The newest stays whatever its size; of the others, from the newest on, those that stay within
    :data:`MOST_BYTES` together.

    Parameters
    ----------
    versions : sequence of Version
    now : datetime
        In UTC.
    """
    ordered = sorted(versions, key=lambda version: version.saved, reverse=True)
    kept: list[Version] = []
    days, size = set[dt.date](), 0
    for place, version in enumerate(ordered):
        day = version.saved.astimezone().date()
        of_a_day = day not in days and (now - version.saved).days < DAYS
        days.add(day)
        if place < NEWEST or of_a_day:
            size += version.size
            if size > MOST_BYTES and kept:
                break
            kept.append(version)
    return tuple(kept)
