"""Notes from outside: a preview note by note first, the garden with them afterwards.

Nothing is taken twice: a record that is made of a note has the note's id.  Nothing is overwritten: where the garden knows
otherwise, or what a note is about is no more, the note is a conflict and stays where it is.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from planner.garden import Garden, Planting
from planner.garden.edits import EditError
from planner.garden.edits.common import put
from planner.garden.edits.ticks import REPEATED, of_another_year, refuse_wrong_order
from planner.garden.garden import MOST_RECORDS
from planner.garden.pocket_notes import garden_key
from planner.garden.records import STAGES, EndedRecord, RecordBase, WorkRecord
from planner.importing.notes_file import Note, NotesFile
from planner.words import full_day_words, say

NoteStatus = Literal["new", "there", "removed", "conflict", "broken"]


@dataclass(frozen=True)
class NoteRow:
    """What becomes of one note.

    Attributes
    ----------
    file : int
        Which of the files it is in, from 0.
    number : int
        Its place in that file, from 1.
    status : {"new", "there", "removed", "conflict", "broken"}
        It would be added; the garden has it already; its record was removed since it was taken; the garden knows otherwise;
        it cannot be read.
    why : str
        Of a conflict or a broken note, a sentence without its full stop.
    day : date or None
        None of a broken one.
    record : RecordBase or None
        None of a broken one, and of a dressing that was spread.
    dressing : str
        Id of that dressing; empty of all else.
    """

    file: int
    number: int
    status: NoteStatus
    why: str = ""
    day: dt.date | None = None
    record: RecordBase | None = None
    dressing: str = ""


@dataclass(frozen=True)
class NotesPreview:
    """What taking notes would do.

    Attributes
    ----------
    rows : tuple of NoteRow
        In the order of files and notes.
    other_gardens : tuple of (int, str)
        Number of each file that was written for another garden, and that garden's name: another one, or this one before
        it was given another name or place.
    """

    rows: tuple[NoteRow, ...]
    other_gardens: tuple[tuple[int, str], ...] = ()

    def of_status(self, status: NoteStatus) -> tuple[NoteRow, ...]:
        """Rows of a status."""
        return tuple(row for row in self.rows if row.status == status)

    def without(self, rows: Iterable[NoteRow]) -> NotesPreview:
        """The preview with some notes left out."""
        gone = {(row.file, row.number) for row in rows}
        return replace(self, rows=tuple(row for row in self.rows if (row.file, row.number) not in gone))

    @property
    def new(self) -> tuple[NoteRow, ...]:
        """Notes that would be added."""
        return self.of_status("new")


def preview(garden: Garden, files: Iterable[NotesFile], *, again: bool = False) -> NotesPreview:
    """Say of every note what would become of it, without changing anything.

    Parameters
    ----------
    garden : Garden
    files : iterable of NotesFile
        A note is also held against those before it, in the same file and in the files before.
    again : bool
        Notes whose records were removed since they were taken are new once more.
    """
    files = tuple(files)
    key = garden_key(garden.site)
    other = tuple((index, one.garden) for index, one in enumerate(files) if one.garden_key != key)
    judge = _Judge(garden, again=again)
    return NotesPreview(
        tuple(row for index, one in enumerate(files) for row in _rows(judge, index, one)), other
    )


def take(garden: Garden, found: NotesPreview) -> Garden:
    """The garden with all notes that a preview calls new: one edit.

    Parameters
    ----------
    garden : Garden
        That of the preview.
    found : NotesPreview

    Returns
    -------
    Garden
        The very same garden where none is new.
    """
    if not found.new:
        return garden
    records = tuple(row.record for row in found.new if row.record is not None)
    spread = {row.dressing: row.day for row in found.new if row.dressing}
    dressings = tuple(one.with_(done=spread[one.id]) if one.id in spread else one for one in garden.dressings)
    back = {one.id for one in records}
    return put(
        garden,
        records=(*garden.records, *records),
        dressings=dressings,
        removed_notes=tuple(key for key in garden.removed_notes if key not in back),
    )


def _rows(judge: _Judge, index: int, file: NotesFile) -> Iterator[NoteRow]:
    broken = [NoteRow(index, one.number, "broken", one.fault) for one in file.broken]
    judged = []
    for note in file.notes:
        status, why = judge.of(note)
        judged.append(NoteRow(index, note.number, status, why, note.day, note.record, note.dressing))
    yield from sorted((*broken, *judged), key=lambda row: row.number)


class _Judge:
    """Judges notes one after another; those that are new count for the ones that follow."""

    def __init__(self, garden: Garden, *, again: bool) -> None:
        self._garden = garden
        self._ids = set(garden.ids())
        self._records: dict[str, RecordBase] = dict(garden.records_by_id)
        self._removed = frozenset[str]() if again else frozenset(garden.removed_notes)
        self._spread = {one.id: one.done for one in garden.dressings}
        self._of_planting: dict[str, list[RecordBase]] = {}
        for record in garden.records:
            if record.planting is not None:
                self._of_planting.setdefault(record.planting, []).append(record)

    def of(self, note: Note) -> tuple[NoteStatus, str]:
        """Status of a note, and why."""
        if note.record is None:
            return self._dressing(note)
        return self._record(note, note.record)

    def _dressing(self, note: Note) -> tuple[NoteStatus, str]:
        if note.dressing not in self._spread:
            return "conflict", say("what was spread is no longer planned")
        done = self._spread[note.dressing]
        if done is None:
            self._spread[note.dressing] = note.day
            return "new", ""
        return ("there", "") if done == note.day else ("conflict", _done_otherwise(done))

    def _record(self, note: Note, record: RecordBase) -> tuple[NoteStatus, str]:
        known = self._records.get(note.key)
        if known is not None and known == record:
            return "there", ""
        if known is not None:
            return "conflict", say("it was taken before, and one of the two was changed since")
        if note.key in self._ids:
            return "conflict", say("its id belongs to something else in the garden")
        if record.bed is not None and record.bed not in self._garden.beds_by_id:
            return "conflict", say("its bed is no longer in the garden")
        if len(self._records) >= MOST_RECORDS:
            return "conflict", say("the garden holds as many records as it can")
        if record.planting is not None:
            planting = self._garden.plantings_by_id.get(record.planting)
            if planting is None:
                return "conflict", say("its planting is no longer in the garden")
            if note.crop and note.crop != planting.crop:
                return "conflict", say(
                    "its planting was {before} on the page and is {now} in the garden",
                    before=note.crop,
                    now=planting.crop,
                )
            if note.year is not None and note.year != planting.year:
                return "conflict", say(
                    "its planting was of {before} on the page and is of {now} in the garden",
                    before=note.year,
                    now=planting.year,
                )
            status, why = self._on_planting(record, planting)
            if status != "new":
                return status, why
        if note.key in self._removed:
            return "removed", ""
        if record.planting is not None:
            self._of_planting.setdefault(record.planting, []).append(record)
        self._ids.add(note.key)
        self._records[note.key] = record
        return "new", ""

    def _on_planting(self, record: RecordBase, planting: Planting) -> tuple[NoteStatus, str]:
        there = self._of_planting.get(planting.id, [])
        for other in there:
            if not _tells_the_same(record, other):
                continue
            if record.with_(id="-") == other.with_(id="-"):
                return "there", ""
            if record.day != other.day:
                return "conflict", _done_otherwise(other.day)
            if isinstance(record, EndedRecord) and isinstance(other, EndedRecord) and record.why != other.why:
                return "conflict", say("the garden gives another reason for its end")
            if record.words.strip():
                day = full_day_words(other.day)
                return "conflict", say("the garden has it on {day} already, without these words", day=day)
            return "there", ""
        if record.tells_dates:
            try:
                refuse_wrong_order(_garden_of(self._garden, planting, there), [record])
            except EditError as fault:
                return "conflict", fault.what
        return "new", ""


def _done_otherwise(day: dt.date) -> str:
    return say("the garden has it on {day}", day=full_day_words(day))


def _tells_the_same(record: RecordBase, other: RecordBase) -> bool:
    """Whether two records of a planting tell of one thing that happens once in a year, or of what is done again of one day."""
    if isinstance(record, WorkRecord) and isinstance(other, WorkRecord):
        return (
            record.task is not None
            and (record.task, record.cover) == (other.task, other.cover)
            and (
                record.day == other.day
                if record.task in REPEATED
                else not of_another_year(other.day, record.task, record.day)
            )
        )
    if record.kind != other.kind:
        return False
    if isinstance(record, EndedRecord):
        return True
    return record.kind in STAGES and not of_another_year(other.day, "pick", record.day)


def _garden_of(garden: Garden, planting: Planting, records: Iterable[RecordBase]) -> Garden:
    """A garden of one planting and its records, to hold the order of its work against."""
    lonely = planting.with_(replaces=None, repeats=None)
    without_lots = (one.with_(lot=None) if hasattr(one, "lot") else one for one in records)
    bed = garden.beds_by_id[planting.bed]
    return Garden(site=garden.site, beds=(bed,), plantings=(lonely,), records=tuple(without_lots))
