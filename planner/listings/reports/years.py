"""The report of years side by side."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Any, Literal

from pydantic import Field

from planner.listings.learned import crop_name
from planner.listings.reports.base import Grams, OfCrop, Record, Report
from planner.plan import Plan
from planner.plan.history import Stood


class AmountRecord(Record):
    """An amount in the unit in which it was written down."""

    amount: float
    unit: str


class StoodRecord(OfCrop):
    """A planting in one growing year; days are those that records tell, null where none does."""

    year: int = Field(description="Growing year.")
    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str
    first: dt.date = Field(
        description="First day on its plot in that year, planned where nothing is recorded."
    )
    last: dt.date = Field(description="Last day on its plot in that year, planned where nothing is recorded.")
    begun: dt.date | None = Field(description="Sown or set out.")
    came_up: dt.date | None
    first_picked: dt.date | None
    last_picked: dt.date | None
    ended: dt.date | None
    ended_why: str = Field(description="A word of the garden file; empty where nothing tells.")
    lost: bool
    picked_g: Grams
    picked_otherwise: tuple[AmountRecord, ...]
    seed_used: tuple[AmountRecord, ...]
    harmed_by: tuple[str, ...] = Field(description="Words of the garden file.")


class YearsReport(Report):
    """What stood in the years of a garden."""

    report: Literal["years"] = "years"
    garden: str = Field(description="Its name.")
    plantings: tuple[StoodRecord, ...]


def years_report(plan: Plan, found: Sequence[Stood]) -> YearsReport:
    """Report what stood in the years of a plan's garden."""
    return YearsReport(garden=plan.garden.site.name, plantings=tuple(_record(plan, one) for one in found))


def _record(plan: Plan, one: Stood) -> StoodRecord:
    return StoodRecord(
        crop=one.planting.crop,
        crop_name=crop_name(plan, one.planting.crop),
        variety=one.planting.variety,
        year=one.year,
        bed=one.bed.name,
        bed_id=one.bed.id,
        planting_id=one.planting.id,
        first=one.span.first,
        last=one.span.last,
        begun=one.begun,
        came_up=one.came_up,
        first_picked=one.first,
        last_picked=one.last,
        ended=one.ended,
        ended_why=one.why,
        lost=one.lost,
        picked_g=one.grams,
        picked_otherwise=tuple(AmountRecord(amount=value, unit=unit) for value, unit in one.other_amounts),
        seed_used=tuple(AmountRecord(amount=value, unit=unit) for value, unit in one.seed),
        harmed_by=one.harms,
    )


YEAR_COLUMNS = (
    "year", "bed", "bed_id", "crop", "crop_name", "variety", "planting_id", "first", "last", "begun", "came_up", "first_picked",
    "last_picked", "picked_g", "picked_otherwise", "seed_used", "ended", "ended_why", "lost", "harmed_by",
)  # fmt: skip


def year_rows(plan: Plan, found: Sequence[Stood]) -> list[dict[str, Any]]:
    """The same as a table; amounts with their units in one cell."""
    rows = []
    for one in found:
        row = _record(plan, one).table_row()
        for field in ("picked_otherwise", "seed_used"):
            row[field] = [f"{part['amount']:g} {part['unit']}" for part in row[field]]
        rows.append(row)
    return rows
