"""What taking notes would do, in lines."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Sequence

from planner.importing.notes import NoteRow, NotesPreview
from planner.listings.record_words import done_words, record_place, record_sentence
from planner.listings.records import what_words
from planner.plan import Plan
from planner.words import capital, full_day_words, join_list, say, say_count


def summary_words(found: NotesPreview) -> str:
    """How many notes are new, there already, removed since, in conflict and unreadable."""
    numbers = {
        status: len(found.of_status(status)) for status in ("new", "there", "removed", "conflict", "broken")
    }
    parts = [
        say_count("{count} new note", "{count} new notes", numbers["new"]),
        say_count("{count} there already", "{count} there already", numbers["there"])
        if numbers["there"]
        else "",
        say_count("{count} removed here since", "{count} removed here since", numbers["removed"])
        if numbers["removed"]
        else "",
        say_count("{count} in conflict", "{count} in conflict", numbers["conflict"])
        if numbers["conflict"]
        else "",
        say_count("{count} that cannot be read", "{count} that cannot be read", numbers["broken"])
        if numbers["broken"]
        else "",
    ]
    return join_list(part for part in parts if part)


def note_lines(plan: Plan, found: NotesPreview, names: Sequence[str]) -> Iterator[str]:
    """Lines about notes: all that are new, then those removed since, conflicts, and those that cannot be read.

    Parameters
    ----------
    plan : Plan
        Of any year, of the garden that the notes are held against.
    found : NotesPreview
    names : sequence of str
        Of the files, in their order.
    """
    for _, line in new_lines(plan, found):
        yield say("  {line}", line=line)
    yield from other_lines(plan, found, names)


def new_lines(plan: Plan, found: NotesPreview) -> list[tuple[NoteRow, str]]:
    """The notes that are new, by day, each with its line.

    Parameters
    ----------
    plan, found
        As of :func:`note_lines`.
    """
    return [
        (row, say("{day}, {what}", day=_day(row), what=row_words(plan, row)))
        for row in sorted(found.new, key=lambda row: row.day or dt.date.min)
    ]


def other_lines(plan: Plan, found: NotesPreview, names: Sequence[str]) -> Iterator[str]:
    """Lines about notes that are not taken: removed since, conflicts, and those that cannot be read.

    Parameters
    ----------
    plan, found, names
        As of :func:`note_lines`.
    """
    removed = found.of_status("removed")
    if removed:
        yield say("Left out, since they were taken before and their records were removed here:")
    for row in sorted(removed, key=lambda row: row.day or dt.date.min):
        yield say("  {day}, {what}", day=_day(row), what=row_words(plan, row))
    conflicts = found.of_status("conflict")
    if conflicts:
        yield say("Not taken, since the garden knows otherwise:")
    for row in conflicts:
        what = row_words(plan, row)
        yield say(
            "  {file}, note {number}, {day}, {what}: {why}.",
            file=names[row.file],
            number=row.number,
            day=_day(row),
            what=what,
            why=row.why,
        )
    broken = found.of_status("broken")
    if broken:
        yield say("Not taken, since it cannot be read:")
    for row in broken:
        yield say("  {file}, note {number}: {why}.", file=names[row.file], number=row.number, why=row.why)


def _day(row: NoteRow) -> str:
    return full_day_words(row.day) if row.day is not None else ""


def row_words(plan: Plan, row: NoteRow) -> str:
    """What a note tells, with its place.

    Parameters
    ----------
    plan : Plan
    row : NoteRow
        That can be read.
    """
    if row.record is None:
        spread = next((one for one in plan.garden.dressings if one.id == row.dressing), None)
        done = done_words("spread")
        if spread is None:
            return done
        bed = plan.garden.beds_by_id[spread.bed].name
        return say("{place}: {what}", place=bed, what=join_list([spread.kind, done]))
    record = row.record
    there = (record.planting is None or record.planting in plan.garden.plantings_by_id) and (
        record.bed is None or record.bed in plan.garden.beds_by_id
    )
    if not there:
        return " ".join(record_sentence(plan.garden, record).split())
    return say("{place}: {what}", place=capital(record_place(plan, record)), what=what_words(plan, record))
