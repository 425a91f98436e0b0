"""The report of hours of direct sun."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import Literal

from pydantic import Field

from planner.garden import Bed
from planner.light import hours_over, on_day, sample_days
from planner.listings.reports.base import GardenReport, GrowingYear, Hours, Record
from planner.plan import Plan
from planner.season.spans import Span

#: Days on which the hours of a span are worked out.
DAYS_OF_SPAN = 6


class _SunRecord(Record):
    """Hours of direct sun of a place."""

    bed: str = Field(description="Its name.")
    bed_id: str
    least_h: Hours = Field(description="In its darkest part.")
    mean_h: Hours
    most_h: Hours
    unshaded_h: Hours = Field(description="Without any shade.")


class BedSunRecord(_SunRecord):
    """Hours of direct sun of a bed on a day."""


class PlantingSunRecord(_SunRecord):
    """Hours of direct sun of a planting over the days of a span on which it is on its plot."""

    planting_id: str
    crop: str = Field(description="Its key, as in the garden file.")
    crop_name: str = Field(description="As shown, in the garden's English.")
    variety: str
    first: dt.date
    last: dt.date
    needed_h: Hours | None = Field(description="What the crop needs; null where it is not known.")


#: Columns of a table of hours of sun.
SUN_COLUMNS = tuple(PlantingSunRecord.model_fields)


class SunReport(GardenReport):
    """Hours of direct sun of beds on a day, and of plantings over a span."""

    report: Literal["sun"] = "sun"
    date: dt.date
    beds: tuple[BedSunRecord, ...]
    plantings: tuple[PlantingSunRecord, ...] = Field(description="Empty without a span.")


def bed_records(plan: Plan, beds: Iterable[Bed], day: dt.date) -> list[BedSunRecord]:
    """Least, mean and most hours of direct sun on a day, one record a bed.

    A bed's own plants do not shade it; everything else that casts a shadow on that day does.

    Parameters
    ----------
    plan : Plan
    beds : iterable of Bed
    day : date

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """
    chosen = list(beds)
    found = hours_over([plan.ground_of(bed) for bed in chosen], plan.place, on_day(day), plan.casters)
    return [
        BedSunRecord(
            bed=bed.name,
            bed_id=bed.id,
            least_h=found[bed.id].least,
            mean_h=found[bed.id].mean,
            most_h=found[bed.id].best,
            unshaded_h=found[bed.id].unshaded,
        )
        for bed in chosen
        if bed.id in found
    ]


def planting_records(
    plan: Plan, beds: Iterable[Bed], first: dt.date, last: dt.date
) -> list[PlantingSunRecord]:
    """The same for plantings, one record each, over the days of a span on which they are on their plots.

    Parameters
    ----------
    plan : Plan
    beds : iterable of Bed
        Beds whose plantings are listed.
    first, last : date
        First and last day of the span.

    Raises
    ------
    planner.light.PlaceError
        While the garden's latitude is not known.
    """
    records = []
    for bed in beds:
        for planting in plan.garden_in_bed(bed.id):
            span = plan.span_of(planting)
            begin, end = max(span.first, first), min(span.last, last)
            if begin > end:
                continue
            days = sample_days(Span(begin, end), DAYS_OF_SPAN)
            light = hours_over([plan.ground_of(planting)], plan.place, days, plan.casters).get(planting.id)
            if light is None:
                continue
            figures = plan.figures_of(planting)
            records.append(
                PlantingSunRecord(
                    bed=bed.name,
                    bed_id=bed.id,
                    planting_id=planting.id,
                    crop=planting.crop,
                    crop_name=figures.crop.name if figures.crop is not None else planting.crop,
                    variety=planting.variety,
                    first=begin,
                    last=end,
                    least_h=light.least,
                    mean_h=light.mean,
                    most_h=light.best,
                    unshaded_h=light.unshaded,
                    needed_h=figures.number("sun_hours"),
                )
            )
    return records


def sun_report(
    plan: Plan, day: dt.date, beds: Iterable[BedSunRecord], plantings: Iterable[PlantingSunRecord]
) -> SunReport:
    """Report hours of direct sun.

    Parameters
    ----------
    plan : Plan
    day : date
    beds, plantings : iterable of records
        From :func:`bed_records` and :func:`planting_records`.
    """
    return SunReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        date=day,
        beds=tuple(beds),
        plantings=tuple(plantings),
    )


def sun_rows(
    day: dt.date, beds: Iterable[BedSunRecord], plantings: Iterable[PlantingSunRecord]
) -> list[dict[str, object]]:
    """Hours of direct sun as rows for a table, with the columns :data:`SUN_COLUMNS`: beds on the day, then plantings."""
    empty = dict.fromkeys(SUN_COLUMNS)
    of_beds = [{**empty, **one.model_dump(), "first": day, "last": day} for one in beds]
    return [*of_beds, *(one.model_dump() for one in plantings)]
