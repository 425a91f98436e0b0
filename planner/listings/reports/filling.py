"""The report of what could still go into free ground."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable

from pydantic import Field

from planner.garden import Bed
from planner.listings.reports.base import GardenReport, GrowingYear, OfCrop, Record
from planner.plan import Plan
from planner.proposal.filling import Filling


class FillingRecord(OfCrop):
    """A crop that could go in."""

    on_plot: dt.date = Field(description="First day on its ground.")
    last: dt.date = Field(description="When it is cleared.")
    first_harvest: dt.date | None
    plants: int
    length_m: float = Field(description="Of the bed. [m]")
    harvest_g: int | None = Field(description="Null where no yield is known. [g]")
    wish_id: str | None = Field(description="The wish that it would meet, or help to.")
    purpose: str


class FilledBedRecord(Record):
    """A bed and what could go into it, the best first."""

    bed: str = Field(description="Its name.")
    bed_id: str
    fillings: tuple[FillingRecord, ...]


class FillingReport(GardenReport):
    """What could still be planted from a day on."""

    report: str = "filling"
    date: dt.date
    beds: tuple[FilledBedRecord, ...]


def filling_report(
    plan: Plan, day: dt.date, found: Iterable[tuple[Bed, tuple[Filling, ...]]]
) -> FillingReport:
    """Make the report.

    Parameters
    ----------
    plan : Plan
    day : date
    found : iterable of (Bed, tuple of Filling)
    """
    return FillingReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        date=day,
        beds=tuple(
            FilledBedRecord(bed=bed.name, bed_id=bed.id, fillings=tuple(_record(one) for one in there))
            for bed, there in found
        ),
    )


def _record(one: Filling) -> FillingRecord:
    return FillingRecord(
        crop=one.crop.key,
        crop_name=one.crop.name,
        variety=one.planting.variety,
        on_plot=one.span.first,
        last=one.span.last,
        first_harvest=one.dates.first_harvest.day if one.dates.first_harvest is not None else None,
        plants=one.plants,
        length_m=round(one.length, 3),
        harvest_g=one.grams,
        wish_id=one.wish.id if one.wish is not None else None,
        purpose=one.planting.purpose,
    )
