"""What happened in the garden, as lines."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from planner.garden.records import LessonRecord, RecordBase
from planner.listings.record_words import KIND_WORDS, record_place, record_sentence
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.season.spans import Span
from planner.words import capital, full_day_words, say, say_count


@dataclass(frozen=True)
class RecordChoice:
    """Which records are wanted; all where nothing is given.

    Attributes
    ----------
    beds : collection of str or None
        Ids; records of these beds and of the plantings in them.
    crops : collection of str or None
        Keys; records of their plantings, and lessons about them.
    kinds : collection of str or None
    days : Span or None
        First and last day.
    words : sequence of str
        All of them are in what the record tells, its place or who wrote it; capitals aside.
    """

    beds: Collection[str] | None = None
    crops: Collection[str] | None = None
    kinds: Collection[str] | None = None
    days: Span | None = None
    words: Sequence[str] = ()


def chosen_records(plan: Plan, choice: RecordChoice) -> tuple[RecordBase, ...]:
    """The records that are wanted, by day, those of a day in the order they were written down.

    Parameters
    ----------
    plan : Plan
        Of any year.
    choice : RecordChoice
    """
    found = (record for record in plan.garden.records if _is_chosen(plan, record, choice))
    return tuple(sorted(found, key=lambda record: record.day))


def bed_of_record(plan: Plan, record: RecordBase) -> str:
    """Id of the bed that a record is about; empty of the whole garden.

    Parameters
    ----------
    plan : Plan
    record : RecordBase
    """
    if record.planting is not None:
        return plan.garden.plantings_by_id[record.planting].bed
    return record.bed or ""


def crop_of_record(plan: Plan, record: RecordBase) -> str:
    """Key of the crop that a record is about; empty where it is about none.

    Parameters
    ----------
    plan : Plan
    record : RecordBase
    """
    if record.planting is not None:
        return plan.garden.plantings_by_id[record.planting].crop
    return record.crop if isinstance(record, LessonRecord) else ""


def _is_chosen(plan: Plan, record: RecordBase, choice: RecordChoice) -> bool:
    if choice.kinds is not None and record.kind not in choice.kinds:
        return False
    if choice.days is not None and not choice.days.holds(record.day):
        return False
    if choice.beds is not None and bed_of_record(plan, record) not in choice.beds:
        return False
    if choice.crops is not None and crop_of_record(plan, record) not in choice.crops:
        return False
    if not choice.words:
        return True
    parts = (
        record_sentence(plan.garden, record),
        record_place(plan, record),
        record.by,
        say(KIND_WORDS[record.kind]),
    )
    text = " ".join(parts).casefold()
    return all(word.casefold() in text for word in choice.words)


def records_lines(plan: Plan, records: Sequence[RecordBase], room: int | None = None) -> list[str]:
    """List records, a line each.

    Parameters
    ----------
    plan : Plan
        Of any year.
    records : sequence of RecordBase
        In the order in which they are listed.
    room : int, optional
        Width of tables; any by default. [columns]
    """
    name = plan.garden.site.name
    if not plan.garden.records:
        return [say("{garden}: nothing is written down yet.", garden=name)]
    if not records:
        return [
            say_count(
                "{garden}: {count} record, and it is none of those.",
                "{garden}: {count} records, and none of those.",
                len(plan.garden.records),
                garden=name,
            )
        ]
    heads = [say("Day"), say("Where"), say("What")]
    rows = [
        [full_day_words(one.day), capital(record_place(plan, one)), what_words(plan, one)] for one in records
    ]
    if any(one.by for one in records):
        heads.append(say("Written by"))
        rows = [[*row, one.by] for row, one in zip(rows, records, strict=True)]
    title = say_count("{garden}: {count} record", "{garden}: {count} records", len(records), garden=name)
    return [title, "", *aligned(heads, rows, room=room)]


def what_words(plan: Plan, record: RecordBase) -> str:
    """What a record tells, in one line; of a note and a lesson that it is one."""
    words = " ".join(record_sentence(plan.garden, record).split())
    if record.kind in ("note", "lesson"):
        kind = say(KIND_WORDS[record.kind])
        words = say("{kind}: {words}", kind=kind, words=words or _pictures(record))
    return capital(words)


def _pictures(record: RecordBase) -> str:
    number = len(record.photographs)
    return say_count("{count} photograph", "{count} photographs", number) if number else ""
