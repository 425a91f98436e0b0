"""What happened in the garden, as lines."""

from __future__ import annotations

from collections.abc import Sequence

from planner.garden.records import RecordBase
from planner.listings.record_texts import RecordChoice, RecordTexts
from planner.listings.record_words import KIND_WORDS, record_place, record_sentence
from planner.listings.tables import aligned
from planner.plan import Plan
from planner.words import capital, full_day_words, say, say_count


def chosen_records(plan: Plan, choice: RecordChoice) -> tuple[RecordBase, ...]:
    """The records that are wanted, by day, those of a day in the order they were written down.

    Parameters
    ----------
    plan : Plan
        Of any year.
    choice : RecordChoice
    """
    return tuple(reversed(RecordTexts().found(plan, choice)))


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
