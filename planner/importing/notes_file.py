"""The file in which notes leave the pocket page, read note by note; a fault of one note does not lose the others."""

from __future__ import annotations

import datetime as dt
import json
import os
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from planner.errors import BedwrightError
from planner.garden.edits import EditError
from planner.garden.edits.common import checked
from planner.garden.pocket_notes import LONGEST_WORDS, NOTE_ID, NOTES_FORMAT, NOTES_VERSION
from planner.garden.records import RECORD_MODELS, RecordBase
from planner.plain_file import open_plain
from planner.storage.strict_json import StrictReader, first_forbidden
from planner.words import later, say

#: Largest file that is read, and most notes in it. [bytes, notes]
MOST_BYTES, MOST_NOTES = 2_000_000, 5_000
#: Fields of records that do not come from the page: files beside the garden, places on the plan, packets of seed.
_NOT_FROM_OUTSIDE = ("photographs", "place", "lot")
#: Longest description of a fault. [characters]
_LONGEST_FAULT = 200
_AGAIN = later("Save the notes on the phone again, and take that file")


class NotesError(BedwrightError):
    """A file that holds no notes of the pocket page."""


@dataclass(frozen=True)
class Note:
    """One note.

    Attributes
    ----------
    number : int
        Its place in the file, from 1.
    key : str
        Its id, made on the phone.
    day : date
    record : RecordBase or None
        The record that it makes; None of a dressing that was spread.
    dressing : str
        Id of the dressing that was spread; empty of all else.
    crop : str
        Key of the crop that its planting was of when the page was made; may be empty.
    year : int or None
        Growing year that its planting belonged to then.
    """

    number: int
    key: str
    day: dt.date
    record: RecordBase | None
    dressing: str = ""
    crop: str = ""
    year: int | None = None


@dataclass(frozen=True)
class BrokenNote:
    """A note that cannot be read, and why."""

    number: int
    fault: str


@dataclass(frozen=True)
class NotesFile:
    """What a file of notes holds.

    Attributes
    ----------
    garden, garden_key : str
        Name and key of the garden that the page was made of.
    notes : tuple of Note
    broken : tuple of BrokenNote
    """

    garden: str
    garden_key: str
    notes: tuple[Note, ...]
    broken: tuple[BrokenNote, ...]


def read_notes(data: bytes) -> NotesFile:
    """Read a file of notes.

    Parameters
    ----------
    data : bytes

    Raises
    ------
    NotesError
        Where it is none, is damaged, too large, or of a newer version.
    """
    content = _content(data)
    garden = content.get("garden")
    if not isinstance(garden, dict) or not all(isinstance(garden.get(part), str) for part in ("key", "name")):
        raise NotesError(say("does not say for which garden its notes are"), fix=say(_AGAIN))
    given = content.get("notes")
    if not isinstance(given, list):
        raise NotesError(say("holds no list of notes"), fix=say(_AGAIN))
    if len(given) > MOST_NOTES:
        raise NotesError(
            say("holds {count} notes; {most} is the most", count=len(given), most=MOST_NOTES),
            fix=say("Divide it"),
        )
    notes: list[Note] = []
    broken: list[BrokenNote] = []
    for number, one in enumerate(given, start=1):
        try:
            notes.append(_note(number, one))
        except EditError as fault:
            broken.append(BrokenNote(number, _short(fault.what)))
    return NotesFile(_short(" ".join(garden["name"].split())), garden["key"], tuple(notes), tuple(broken))


def load_notes(path: str | os.PathLike[str]) -> NotesFile:
    """Read a file of notes from its path.

    Parameters
    ----------
    path : path

    Raises
    ------
    NotesError
        Where it cannot be read, or holds no notes.
    """
    name = os.fspath(path)
    try:
        with open_plain(path) as file:
            return read_notes(file.read(MOST_BYTES + 1))
    except OSError as error:
        why = error.strerror or str(error)
        raise NotesError(say("cannot be read: {why}", why=why), name, say("Name another file")) from None
    except NotesError as error:
        raise NotesError(error.what, name, error.fix) from None


def _content(data: bytes) -> Mapping[str, Any]:
    """The table that is the file, of the right format and version."""
    if len(data) > MOST_BYTES:
        raise NotesError(
            say("is larger than {most} MB, the most that is read", most=MOST_BYTES // 1_000_000),
            fix=say(_AGAIN),
        )
    reader = StrictReader()
    try:
        content = reader.read(data.decode("utf-8-sig").strip())
    except UnicodeDecodeError:
        raise NotesError(say("is no text, or damaged"), fix=say(_AGAIN)) from None
    except json.JSONDecodeError as error:
        raise NotesError(say("is damaged in line {line}", line=error.lineno), fix=say(_AGAIN)) from None
    except RecursionError:
        raise NotesError(say("is nested too deeply"), fix=say(_AGAIN)) from None
    if reader.forbidden:
        raise NotesError(first_forbidden(content)[1], fix=say(_AGAIN))
    if not isinstance(content, dict) or content.get("format") != NOTES_FORMAT:
        raise NotesError(
            say("holds no notes of the pocket page"), fix=say("Choose the file that the page saved")
        )
    version = content.get("version")
    if type(version) is not int or version < 1:
        raise NotesError(say("does not say in which version its notes are"), fix=say(_AGAIN))
    if version > NOTES_VERSION:
        raise NotesError(
            say("is from a newer Bedwright"), fix=say("Take it with the Bedwright that made the page")
        )
    return content


def _note(number: int, given: object) -> Note:
    """One note.

    Raises
    ------
    EditError
        Says what is wrong with it.
    """
    if not isinstance(given, dict):
        raise EditError(say("is no note"))
    key = given.get("id")
    if not isinstance(key, str) or not NOTE_ID.fullmatch(key):
        raise EditError(say("has no id as the page makes them"))
    was = given.get("was", {})
    crop, year = (was.get("crop", ""), was.get("year")) if isinstance(was, dict) else (None, None)
    if not isinstance(crop, str) or (year is not None and type(year) is not int):
        raise EditError(say("what its planting was is unreadable"))
    fields = {name: value for name, value in given.items() if name != "was"}
    for name in _NOT_FROM_OUTSIDE:
        if name in fields:
            raise EditError(say("has a field '{field}', which no page writes", field=name))
    if "dressing" in fields:
        return _spread(number, key, fields)
    kind = fields.get("kind")
    model = RECORD_MODELS.get(kind) if isinstance(kind, str) else None
    if model is None:
        raise EditError(say("is of no kind that is known"))
    words = fields.get("words")
    if isinstance(words, str) and len(words) > LONGEST_WORDS:
        raise EditError(
            say("has {count} characters; {most} is the most", count=len(words), most=LONGEST_WORDS)
        )
    record = checked(lambda: model.model_validate_json(_json(fields), strict=True), "")
    return Note(number, key, record.day, record, crop=_short(crop), year=year)


def _spread(number: int, key: str, fields: Mapping[str, Any]) -> Note:
    """A dressing that was spread."""
    dressing, day = fields["dressing"], fields.get("day")
    if set(fields) - {"id", "kind", "task", "day", "dressing", "by"} or not isinstance(dressing, str):
        raise EditError(say("tells of what was spread in no way that is known"))
    if (fields.get("kind"), fields.get("task")) != ("done", "spread"):
        raise EditError(say("tells of what was spread in no way that is known"))
    try:
        return Note(number, key, dt.date.fromisoformat(str(day)), None, dressing)
    except ValueError:
        raise EditError(say("has no day")) from None


def _json(fields: Mapping[str, Any]) -> bytes:
    try:
        return json.dumps(fields, ensure_ascii=False).encode()
    except UnicodeEncodeError:
        raise EditError(say("holds half of a character")) from None
    except RecursionError:
        raise EditError(say("is nested too deeply")) from None


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST_FAULT else f"{text[:_LONGEST_FAULT]}…"
