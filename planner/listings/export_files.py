"""Writing exports: never over a file that is no export of the same kind."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from planner.atomic_write import write_whole
from planner.errors import BedwrightError
from planner.words import later, say

#: How much of a file is read to tell what it is. [bytes]
HEAD = 4096


class ExportError(BedwrightError):
    """An export that is not written."""


@dataclass(frozen=True)
class ExportKind:
    """A kind of file that the program exports.

    Attributes
    ----------
    suffix : str
        Ending of its name, with the point.
    begins : str
        How its content begins, whatever the case: by this an older export is told from any other file.
    """

    suffix: str
    begins: str

    def holds(self, head: bytes) -> bool:
        """Whether content that begins so is of this kind; nothing at all is of every kind."""
        text = head.decode("utf-8", "replace").lstrip("\ufeff\"'").lstrip()
        return not head.strip() or text.casefold().startswith(self.begins.casefold())


PDF = ExportKind(".pdf", "%PDF-")
CALENDAR = ExportKind(".ics", "BEGIN:VCALENDAR")


#: What is said of a name that ends otherwise, by the right ending.
_ENDINGS = {
    ".pdf": later("A PDF has a name that ends with .pdf"),
    ".ics": later("A calendar file has a name that ends with .ics"),
    ".csv": later("A table has a name that ends with .csv"),
}


def table_kind(columns: Sequence[str]) -> ExportKind:
    """The kind of a CSV table with some headings: a table that begins with the same heading is an older one."""
    return ExportKind(".csv", columns[0])


def check_export_target(target: str | os.PathLike[str], kind: ExportKind) -> None:
    """Refuse a file that an export must not be written to.

    Parameters
    ----------
    target : path
    kind : ExportKind

    Raises
    ------
    ExportError
        Where the name ends otherwise than exports of the kind do, or a file is there that is none of them.
    OSError
        Where the file that is there cannot be read.
    """
    path = Path(target)
    if path.exists() and not path.is_file():  # a folder, a device: writing says what is wrong
        return
    if path.suffix.casefold() != kind.suffix:
        raise ExportError(
            say(_ENDINGS[kind.suffix]),
            os.fspath(target),
            say("Name it {name}", name=path.stem + kind.suffix),
        )
    if path.is_file():
        with path.open("rb") as there:
            head = there.read(HEAD)
        if not kind.holds(head):
            raise ExportError(
                say("there is a file of another kind, which is not overwritten"),
                os.fspath(target),
                say("Name another file"),
            )


def write_export(content: str | bytes, target: str | os.PathLike[str], kind: ExportKind) -> None:
    """Write an export whole or not at all.

    Parameters
    ----------
    content : str or bytes
        Text is written in UTF-8.
    target : path
    kind : ExportKind

    Raises
    ------
    ExportError
        See :func:`check_export_target`.
    OSError
        Where it cannot be written.
    """
    check_export_target(target, kind)
    path, data = Path(target), content.encode("utf-8") if isinstance(content, str) else content
    if path.exists() and not path.is_file():
        path.write_bytes(data)
    else:
        write_whole(path, data)
