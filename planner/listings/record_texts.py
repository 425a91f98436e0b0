"""Records as rows of a table: place, what happened, how much; and finding them by words."""

from __future__ import annotations

import datetime as dt
import time
from collections.abc import Collection, Sequence
from dataclasses import dataclass

from planner.garden.harm_words import HARM_WORDS, WHY_WORDS
from planner.garden.records import (
    CameUpRecord,
    EndedRecord,
    LessonRecord,
    MeasuredRecord,
    PickedRecord,
    RecordBase,
    SeenRecord,
    WorkRecord,
)
from planner.garden.site import UnitSystem
from planner.listings.record_words import (
    KIND_WORDS,
    PICKED_FOR_WORDS,
    amount_words,
    done_words,
    record_place,
)
from planner.plan import Plan
from planner.season.spans import Span
from planner.words import full_day_words, join_list, number_words, percent, say


def record_what(record: RecordBase) -> str:
    """What happened, without how much: ``sown``, ``a pest, perhaps aphids``, ``ended: ran to seed``."""
    match record:
        case WorkRecord():
            return done_words(record.task) if record.task is not None else say(KIND_WORDS["done"])
        case SeenRecord() if record.cause:
            return say("{harm}, perhaps {cause}", harm=say(HARM_WORDS[record.harm]), cause=record.cause)
        case SeenRecord():
            return say(HARM_WORDS[record.harm])
        case EndedRecord():
            return say("ended: {why}", why=say(WHY_WORDS[record.why]))
        case MeasuredRecord():
            return say("measured: {measure}", measure=record.measure)
        case PickedRecord() if record.picked_for != "kept":
            return say("picked, {where}", where=say(PICKED_FOR_WORDS[record.picked_for]))
        case _:
            return say(KIND_WORDS[record.kind])


def record_amount(record: RecordBase, units: UnitSystem) -> str:
    """How much: an amount, a share, a count or a measure; empty where the record has none.

    Parameters
    ----------
    record : RecordBase
    units : {"metric", "feet_inches"}
    """
    match record:
        case WorkRecord() | PickedRecord():
            parts = [record.cover or ""] if isinstance(record, WorkRecord) else []
            return join_list(
                part for part in (*parts, amount_words(record.amount, units) if record.amount else "") if part
            )
        case SeenRecord() if record.lost is not None:
            return say("{share} lost", share=percent(record.lost))
        case SeenRecord():
            return percent(record.share) if record.share is not None else ""
        case CameUpRecord() if record.count is not None and record.sown is not None:
            return say("{count} of {sown}", count=record.count, sown=record.sown)
        case CameUpRecord() if record.count is not None:
            return number_words(record.count, 0)
        case CameUpRecord():
            return percent(record.share) if record.share is not None else ""
        case MeasuredRecord():
            number = number_words(record.value, 3)
            whole = number.rstrip("0").rstrip(".") if "." in number else number
            return say("{number} {unit}", number=whole, unit=record.unit).strip()
        case _:
            return ""


#: So many texts are written between two looks at the clock.
_AT_ONCE = 50


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


class RecordTexts:
    """Records of a garden, the newest first, with the words by which they are found; what was written of one is kept."""

    def __init__(self) -> None:
        self._world: tuple[object, ...] = ()
        self._texts: dict[str, tuple[RecordBase, str]] = {}
        self._places: dict[tuple[str | None, str | None], str] = {}
        self._days: dict[dt.date, str] = {}
        self._records: object = None
        self._newest: tuple[RecordBase, ...] = ()
        self._lines: list[str] | None = None

    def follow(self, plan: Plan) -> None:
        """Forget what was written where names of beds, plantings or crops differ now, and what order there was."""
        garden = plan.garden
        world = (garden.beds, garden.plantings, garden.site, plan.catalogue)
        if len(world) != len(self._world) or any(a is not b for a, b in zip(world, self._world, strict=True)):
            self._world, self._texts, self._places, self._days, self._lines = world, {}, {}, {}, None
        if garden.records is not self._records:
            self._records, self._lines = garden.records, None
            newest = list(reversed(garden.records))  # of one day the one that was written last comes first
            newest.sort(key=lambda one: one.day, reverse=True)
            self._newest = tuple(newest)

    def place(self, plan: Plan, record: RecordBase) -> str:
        """Where a record belongs, in words."""
        if isinstance(record, LessonRecord):
            return record_place(plan, record)
        key = record.bed, record.planting
        if key not in self._places:
            self._places[key] = record_place(plan, record)
        return self._places[key]

    def text(self, plan: Plan, record: RecordBase) -> str:
        """All words of a record, in lower case."""
        kept = self._texts.get(record.id)
        if kept is not None and kept[0] is record:
            return kept[1]
        day = self._days.get(record.day)
        if day is None:
            day = self._days[record.day] = f"{full_day_words(record.day)}\n{record.day.isoformat()}"
        parts = (
            day,
            self.place(plan, record),
            record_what(record),
            record_amount(record, plan.garden.site.units),
            record.words,
            record.by,
            record.response if isinstance(record, SeenRecord) else "",
            say(KIND_WORDS[record.kind]),
        )
        text = "\n".join(parts).casefold()
        self._texts[record.id] = record, text
        return text

    def prepare(self, plan: Plan, seconds: float) -> bool:
        """Write texts for some time, so that a search finds them written; returns whether all are.

        Parameters
        ----------
        plan : Plan
        seconds : float
            [s]
        """
        self.follow(plan)
        end, written = time.perf_counter() + seconds, 0
        for record in self._newest:
            kept = self._texts.get(record.id)
            if kept is not None and kept[0] is record:
                continue
            self.text(plan, record)
            written += 1
            if written % _AT_ONCE == 0 and time.perf_counter() > end:
                return False
        return True

    def found(self, plan: Plan, choice: RecordChoice) -> list[RecordBase]:
        """The records of a garden that are wanted, the newest first.

        Parameters
        ----------
        plan : Plan
        choice : RecordChoice
        """
        self.follow(plan)
        records = list(self._newest)
        words = [word.casefold() for word in choice.words]
        if words:
            if self._lines is None:
                self._lines = [self.text(plan, one) for one in self._newest]
            first, *others = words
            both = zip(self._newest, self._lines, strict=True)
            found = [(one, line) for one, line in both if first in line]
            records = [one for one, line in found if all(word in line for word in others)]
        if (kinds := choice.kinds) is not None:
            records = [one for one in records if one.kind in kinds]
        if (beds := choice.beds) is not None:
            records = [one for one in records if bed_of_record(plan, one) in beds]
        if (crops := choice.crops) is not None:
            records = [one for one in records if crop_of_record(plan, one) in crops]
        if (days := choice.days) is not None:
            records = [one for one in records if days.holds(one.day)]
        return records
