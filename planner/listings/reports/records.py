"""The report of what happened in the garden."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Literal

from pydantic import Field

from planner.garden.records import (
    Amount,
    CameUpRecord,
    EndedRecord,
    MeasuredRecord,
    RecordBase,
    SeenRecord,
    WorkRecord,
)
from planner.listings.record_texts import bed_of_record, crop_of_record
from planner.listings.record_words import record_sentence
from planner.listings.reports.base import OfCrop, Report, Share
from planner.plan import Plan


class HappenedRecord(OfCrop):
    """What happened on a day; null is what was not written down, or does not apply."""

    date: dt.date
    record_id: str
    kind: str = Field(description="A word of the garden file.")
    bed: str = Field(description="Its name; empty of the whole garden.")
    bed_id: str
    planting_id: str
    text: str = Field(description="What it tells, with its words.")
    work: str = Field(description="Kind of the work that was done; empty of all else.")
    cover: str
    amount: float | None = Field(description="In the unit.")
    unit: str = Field(description="Of the amount, or of what was measured; empty without one.")
    picked_for: str
    harm: str
    share: Share | None = Field(description="That was harmed, or came up.")
    lost_share: Share | None = Field(description="Of what was there that day, that died or is gone.")
    seedlings: int | None = Field(description="Counted.")
    sown: int | None = Field(description="Seeds sown where they were counted.")
    measure: str = Field(description="What was measured.")
    measured: float | None
    ended_why: str
    look_again: dt.date | None
    words: str
    written_by: str
    photographs: tuple[str, ...] = Field(description="Their paths beside the garden file.")


#: Columns of a table of records.
RECORD_COLUMNS = tuple(HappenedRecord.model_fields)


class RecordsReport(Report):
    """What happened, by day."""

    report: Literal["records"] = "records"
    garden: str = Field(description="Its name.")
    records: tuple[HappenedRecord, ...]


def happened_record(plan: Plan, record: RecordBase) -> HappenedRecord:
    """A record as it is reported.

    Parameters
    ----------
    plan : Plan
        Of any year.
    record : RecordBase
    """
    garden = plan.garden
    bed, crop = bed_of_record(plan, record), crop_of_record(plan, record)
    planting = garden.plantings_by_id[record.planting] if record.planting is not None else None
    known = plan.catalogue.get(crop)
    amount: Amount | None = getattr(record, "amount", None)
    seen = record if isinstance(record, SeenRecord) else None
    came_up = record if isinstance(record, CameUpRecord) else None
    measured = record if isinstance(record, MeasuredRecord) else None
    work = record if isinstance(record, WorkRecord) else None
    return HappenedRecord(
        date=record.day,
        record_id=record.id,
        kind=record.kind,
        bed=garden.beds_by_id[bed].name if bed else "",
        bed_id=bed,
        planting_id=record.planting or "",
        crop=crop,
        crop_name=known.name if known is not None else crop,
        variety=planting.variety if planting is not None else "",
        text=record_sentence(garden, record),
        work=(work.task or "") if work is not None else "",
        cover=(work.cover or "") if work is not None else "",
        amount=amount.value if amount is not None else None,
        unit=amount.unit if amount is not None else measured.unit if measured is not None else "",
        picked_for=getattr(record, "picked_for", ""),
        harm=seen.harm if seen is not None else "",
        share=seen.share if seen is not None else came_up.share if came_up is not None else None,
        lost_share=seen.lost if seen is not None else None,
        seedlings=came_up.count if came_up is not None else None,
        sown=came_up.sown if came_up is not None else None,
        measure=measured.measure if measured is not None else "",
        measured=measured.value if measured is not None else None,
        ended_why=record.why if isinstance(record, EndedRecord) else "",
        look_again=seen.look_again if seen is not None else None,
        words=record.words,
        written_by=record.by,
        photographs=tuple(one.path for one in record.photographs),
    )


def records_report(plan: Plan, records: Sequence[RecordBase]) -> RecordsReport:
    """Report records.

    Parameters
    ----------
    plan : Plan
        Of any year.
    records : sequence of RecordBase
        In the order in which they are listed.
    """
    return RecordsReport(
        garden=plan.garden.site.name, records=tuple(happened_record(plan, one) for one in records)
    )
