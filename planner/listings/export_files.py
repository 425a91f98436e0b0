"""Writing exports: never over a file that is no export of the same kind."""

from __future__ import annotations

import os
import stat
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path, PureWindowsPath

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
        How its content begins, whatever the case, quotation marks and signs between cells: by this an older export is
        told from any other file.
    """

    suffix: str
    begins: str

    def holds(self, head: bytes) -> bool:
        """Whether content that begins so is of this kind; nothing at all is of every kind."""
        text = head.decode("utf-8", "replace").lstrip("\ufeff\"'").lstrip()
        plain = text.translate(_ONE_WAY_OF_CELLS).casefold()
        return not head.strip() or plain.startswith(self.begins.casefold())


#: Tables may have been saved again by a spreadsheet, with other signs between and around their cells.
_ONE_WAY_OF_CELLS = str.maketrans({'"': None, ";": ",", "\t": ","})

PDF = ExportKind(".pdf", "%PDF-")
CALENDAR = ExportKind(".ics", "BEGIN:VCALENDAR")
SVG = ExportKind(".svg", "<?xml")
PNG = ExportKind(".png", "\ufffdPNG")  # its first byte is no letter of UTF-8
#: The page that goes outside; any other page of HTML begins otherwise.
POCKET_PAGE = ExportKind(".html", "<!doctype html><!-- Bedwright pocket page -->")
GEOJSON = ExportKind(".geojson", "{type: FeatureCollection")
#: As our library begins its archives; a workbook that a spreadsheet saved begins otherwise and may hold somebody's work.
WORKBOOK = ExportKind(".xlsx", "PK\x03\x04\x14\x00\x00\x00\x08\x00\x00\x00!\x00")


#: What is said of a name that ends otherwise, by the right ending.
_ENDINGS = {
    ".pdf": later("A PDF has a name that ends with .pdf"),
    ".ics": later("A calendar file has a name that ends with .ics"),
    ".svg": later("An SVG has a name that ends with .svg"),
    ".png": later("A PNG has a name that ends with .png"),
    ".geojson": later("A GeoJSON has a name that ends with .geojson"),
    ".html": later("A page has a name that ends with .html"),
    ".csv": later("A table has a name that ends with .csv"),
    ".xlsx": later("A workbook has a name that ends with .xlsx"),
}


def table_kind(columns: Sequence[str]) -> ExportKind:
    """The kind of a CSV table with some headings: one that begins with the same two is an older one."""
    return ExportKind(".csv", ",".join(columns[:2]))


def export_target(target: str | os.PathLike[str], kind: ExportKind) -> Path:
    """The file that an export is written to: what it names, or what a link of this name leads to.

    Parameters
    ----------
    target : path
    kind : ExportKind

    Raises
    ------
    ExportError
        Where a name ends otherwise than exports of the kind do, or something is there that is no older export: another
        file, a folder, a pipe, a device.
    """
    name = os.fspath(target)
    try:
        path = Path(os.path.realpath(name))
        there = _look_at(path)
    except (OSError, ValueError) as error:  # ValueError: a null in the name
        raise _cannot_write(error, name) from None
    if there is not None and not stat.S_ISREG(there.st_mode):
        raise _no_file(there.st_mode, name)
    if os.name == "nt" and PureWindowsPath(path).is_reserved():
        raise _no_file(stat.S_IFCHR, name)
    for one in (Path(name), path):
        if one.suffix.casefold() != kind.suffix:
            raise ExportError(
                say(_ENDINGS[kind.suffix]),
                name,
                say("Name it {name}", name=one.stem + kind.suffix)
                if one == Path(name)
                else say("It is a link to {name}; name another file", name=str(path)),
            )
    if there is not None:
        try:
            with path.open("rb") as old:
                head = old.read(HEAD)
        except OSError as error:
            raise _cannot_write(error, name) from None
        if not kind.holds(head):
            raise ExportError(
                say("there is a file of another kind, which is not overwritten"),
                name,
                say("Name another file"),
            )
        if not os.access(path, os.W_OK):
            raise ExportError(
                say("is write-protected"), name, say("Allow writing to it, or name another file")
            )
    return path


def _look_at(path: Path) -> os.stat_result | None:
    """What is at a place whose links were followed; None for nothing.

    Raises
    ------
    OSError
        Where links lead round in a circle, or its folder cannot be read.
    """
    try:
        return path.stat()
    except FileNotFoundError:
        return None


def _no_file(mode: int, name: str) -> ExportError:
    if stat.S_ISDIR(mode):
        return ExportError(say("is a folder"), name, say("Name a file in it"))
    if stat.S_ISFIFO(mode) or stat.S_ISSOCK(mode):
        what = say("is a pipe, and exports are written to files")
    else:
        what = say("is a device, and exports are written to files")
    return ExportError(what, name, say("Name another file"))


def _cannot_write(error: OSError | ValueError, name: str) -> ExportError:
    why = getattr(error, "strerror", None) or str(error)
    return ExportError(say("cannot be written: {why}", why=why), name, say("Name another file or folder"))


def write_export(content: str | bytes, target: str | os.PathLike[str], kind: ExportKind) -> None:
    """Write an export whole or not at all; a link stays a link.

    Parameters
    ----------
    content : str or bytes
        Text is written in UTF-8.
    target : path
    kind : ExportKind

    Raises
    ------
    ExportError
        See :func:`export_target`.
    OSError
        Where it cannot be written.
    """
    path = export_target(target, kind)
    write_whole(path, content.encode("utf-8") if isinstance(content, str) else content)
