"""The report of the odds of plantings over the recorded years."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field

from planner.garden import Planting
from planner.listings.learned import crop_name
from planner.listings.reports.base import GardenReport, GrowingYear, OfCrop, Record
from planner.plan import Plan
from planner.plan.lived import kept_years
from planner.season.lived.assumed import assumed_words
from planner.season.lived.lived_years import RestsOn, WhyLeftOut
from planner.season.lived.odds import DaySpread, NumberSpread, Odds

Days = Annotated[float, AfterValidator(lambda value: round(value, 1)), Field(ge=0, description="Tenths.")]


class DaySpreadRecord(Record):
    """Days by which something has happened in a share of the years in which it does, in the calendar of the plan."""

    by_10: dt.date = Field(description="In 10 % of them.")
    by_25: dt.date
    by_50: dt.date
    by_75: dt.date
    by_90: dt.date


class HarvestDaysRecord(Record):
    """Days of picking that a share of the years does not exceed; 0 in those in which nothing is picked."""

    days_10: Days = Field(description="In 10 % of them.")
    days_25: Days
    days_50: Days
    days_75: Days
    days_90: Days


class UncountedYearRecord(Record):
    """A recorded year that does not count, and why."""

    year: int
    reason: WhyLeftOut


class OddsRecord(OfCrop):
    """What becomes of a planting in the recorded years."""

    planting_id: str
    bed: str = Field(description="Its name.")
    bed_id: str
    rests_on: RestsOn = Field(
        description="Of its first picking: heat, or the same days after its start in each year, or the calendar; nothing is picked."
    )
    counted_years: int = Field(description="Recorded years that count.")
    picked_years: int = Field(description="In which it is picked; or stands to its end, where nothing is.")
    small_years: int = Field(description="Of those, in which it stays small.")
    frost_years: int = Field(description="In which frost takes it, or its blossom, before.")
    bolted_years: int = Field(description="In which it runs to seed before.")
    unripe_years: int = Field(description="In which its year ends before it is ripe.")
    cleared_years: int = Field(description="In which it is cleared, as planned, before it is ripe.")
    emergence_days: DaySpreadRecord | None = Field(
        description="On which it comes up; null where it comes up indoors."
    )
    flower_days: DaySpreadRecord | None
    first_picking_days: DaySpreadRecord | None
    last_picking_days: DaySpreadRecord | None
    free_ground_days: DaySpreadRecord | None = Field(description="On which its ground falls free.")
    harvest_length: HarvestDaysRecord | None
    left_out: tuple[UncountedYearRecord, ...]


class OddsReport(GardenReport):
    """The odds of the plantings of a growing year, the weakest first."""

    report: Literal["odds"] = "odds"
    recorded_at: str = Field(description="Name of the weather station; may be empty.")
    recorded_from: int = Field(description="First year of its record.")
    recorded_until: int = Field(description="Last year of it.")
    assumed: str = Field(description="What is assumed of those years, as shown; empty where nothing.")
    plantings: tuple[OddsRecord, ...]


#: Columns of a table of odds.
ODDS_COLUMNS = (
    "planting_id", "bed", "bed_id", "crop", "crop_name", "variety", "rests_on", "counted_years", "picked_years", "small_years", "frost_years",
    "bolted_years", "unripe_years", "cleared_years", "first_picking_10", "first_picking_25", "first_picking_50", "first_picking_75",
    "first_picking_90", "last_picking_50", "free_ground_50", "harvest_days_50",
)  # fmt: skip


def odds_report(plan: Plan, found: Sequence[tuple[Planting, Odds]]) -> OddsReport:
    """Report the odds of plantings, in their order."""
    kept = kept_years(plan)
    first, last = kept.span or (0, 0)
    return OddsReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        recorded_at=kept.station,
        recorded_from=first,
        recorded_until=last,
        assumed=assumed_words(plan.assumed, plan.garden.site.units),
        plantings=tuple(odds_record(plan, planting, odds) for planting, odds in found),
    )


def odds_record(plan: Plan, planting: Planting, odds: Odds) -> OddsRecord:
    """The odds of one planting."""
    bed = plan.bed_of(planting)
    return OddsRecord(
        crop=planting.crop,
        crop_name=crop_name(plan, planting.crop),
        variety=planting.variety,
        planting_id=planting.id,
        bed=bed.name,
        bed_id=bed.id,
        rests_on=odds.rests_on,
        counted_years=odds.years,
        picked_years=odds.picked,
        small_years=odds.small,
        frost_years=odds.frost,
        bolted_years=odds.seed,
        unripe_years=odds.unripe,
        cleared_years=odds.cleared,
        emergence_days=_days(odds.emergence),
        flower_days=_days(odds.flower),
        first_picking_days=_days(odds.first),
        last_picking_days=_days(odds.last),
        free_ground_days=_days(odds.free),
        harvest_length=_numbers(odds.harvest_days),
        left_out=tuple(UncountedYearRecord(year=one.year, reason=one.why) for one in odds.left_out),
    )


def _days(spread: DaySpread | None) -> DaySpreadRecord | None:
    if spread is None:
        return None
    return DaySpreadRecord(**dict(zip(DaySpreadRecord.model_fields, spread, strict=True)))


def _numbers(spread: NumberSpread | None) -> HarvestDaysRecord | None:
    if spread is None:
        return None
    return HarvestDaysRecord(**dict(zip(HarvestDaysRecord.model_fields, spread, strict=True)))


def odds_rows(plan: Plan, found: Sequence[tuple[Planting, Odds]]) -> list[dict[str, Any]]:
    """The same as a table."""
    rows = []
    for planting, odds in found:
        row = odds_record(plan, planting, odds).table_row()
        first = odds.first or (None,) * 5
        for share, day in zip((10, 25, 50, 75, 90), first, strict=True):
            row[f"first_picking_{share}"] = day
        row["last_picking_50"] = odds.last.middle if odds.last is not None else None
        row["free_ground_50"] = odds.free.middle if odds.free is not None else None
        row["harvest_days_50"] = round(odds.harvest_days.middle, 1) if odds.harvest_days is not None else None
        rows.append({column: row[column] for column in ODDS_COLUMNS})
    return rows
