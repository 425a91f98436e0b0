"""The reports of the harvest of a year and of what is in store."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Sequence
from typing import Annotated, Literal

from pydantic import Field

from planner.amounts.closing import Closing, closings
from planner.amounts.harvest import Harvest, keeping_source
from planner.amounts.harvest_years import harvest_years
from planner.amounts.larder import LotCourse
from planner.amounts.store_places import conditions
from planner.amounts.store_years import StoreYears, store_years
from planner.amounts.supply_year import CropYear, Gap, crop_years, level_on
from planner.checks.unfit_ground import unfit_ground
from planner.listings.reports.base import (
    Celsius,
    GardenReport,
    GrowingYear,
    OfCrop,
    Record,
    Share,
    SquareMetres,
)
from planner.listings.store import is_shown, kept_words, short_life_words, shown_months
from planner.plan import Plan
from planner.season.lived.assumed import assumed_words

WholeGrams = Annotated[int, Field(ge=0, description="Whole. [g]")]


class WeekRecord(Record):
    """What is picked in a week."""

    week: dt.date = Field(description="Its Monday.")
    harvest_g: WholeGrams


class HarvestRecord(OfCrop):
    """What one planting yields; null is what is not known, and ``missing`` says why."""

    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str
    purpose: str = Field(description="A word of the garden file.")
    first: dt.date | None = Field(description="First day of picking.")
    last: dt.date | None = Field(description="Last day of picking.")
    shape: str = Field(description="How it comes: once, even or peaked; empty where it is not known.")
    shape_source: str = Field(description="Key of the source of that; empty where it is not known.")
    yield_g: WholeGrams | None = Field(description="In all, also in other growing years. [g]")
    yield_least_g: WholeGrams | None
    yield_most_g: WholeGrams | None
    harvest_g: WholeGrams = Field(description="In the growing year: the sum of its weeks. [g]")
    lost_g: WholeGrams = Field(description="Of the yield, what would come after frost or clearing. [g]")
    pieces: int | None = Field(description="Of the yield, where it is counted in heads or pieces.")
    source: str = Field(description="Key of the source of the yield.")
    provenance: str = Field(description="How the figure came about; empty where there is none.")
    weeks: tuple[WeekRecord, ...]
    missing: tuple[str, ...]


class GlutRecord(Record):
    """Weeks in which more is picked than is eaten before it spoils."""

    first: dt.date
    last: dt.date
    spoilt_g: WholeGrams


class ClosingRecord(Record):
    """A planting that closes a gap."""

    crop: str = Field(description="Its key, as in the garden file.")
    start: str = Field(description="How it starts, a word of the garden file; empty for its usual way.")
    sow: dt.date | None
    on_plot: dt.date = Field(description="The day it takes its plot.")
    first_harvest: dt.date
    row_m: float | None = Field(description="Tenths. [m]")
    plants: int | None
    area_m2: SquareMetres | None
    seeds: int | None
    harvest_g: WholeGrams
    in_gap_g: WholeGrams = Field(description="What of it is there in the gap and lacks in it. [g]")
    beds: tuple[str, ...] = Field(description="Names of beds in which there is room.")


class GapRecord(Record):
    """Weeks in which less is there than is eaten."""

    first: dt.date
    last: dt.date
    lacking_g: WholeGrams
    closing: ClosingRecord | None = Field(
        description="Null where nothing that is begun in the year closes it."
    )


class EatenRecord(Record):
    """A crop, or crops that are eaten in each other's place, against what the household eats."""

    crops: tuple[str, ...] = Field(description="Keys, as in the garden file.")
    crop_name: str
    person_year_g: WholeGrams | None = Field(description="One person's in a year. [g]")
    weeks_eaten: int = Field(description="Weeks over which that is spread.")
    weekly_g: WholeGrams | None = Field(description="The household's in one of these weeks. [g]")
    source: str = Field(description="Key of a publication; own; or empty.")
    harvest_g: WholeGrams
    eaten_g: WholeGrams | None = Field(description="In the growing year. [g]")
    too_much: tuple[GlutRecord, ...]
    too_little: tuple[GapRecord, ...]


class WeekSpreadRecord(Record):
    """What is picked in a week over the recorded years: a tenth of them have less than low, a tenth more than high."""

    week: dt.date = Field(description="Its Monday.")
    low_g: WholeGrams
    middle_g: WholeGrams
    high_g: WholeGrams


class HarvestYearsRecord(Record):
    """What would have been picked in the recorded years of weather, all plantings of each year together."""

    years: int = Field(description="Recorded years that count.")
    assumed: str = Field(description="What is assumed of those years, as shown; empty where nothing.")
    low_g: WholeGrams = Field(description="In the growing year: a tenth of the years have less. [g]")
    middle_g: WholeGrams
    high_g: WholeGrams = Field(description="A tenth of the years have more. [g]")
    worst_year: int = Field(description="The recorded year with the least.")
    worst_g: WholeGrams
    weeks: tuple[WeekSpreadRecord, ...] = Field(description="Those in which something may be picked.")


class HarvestReport(GardenReport):
    """What is harvested in a growing year, by planting and week, and against what a household eats."""

    report: Literal["harvest"] = "harvest"
    persons: float = Field(description="0 where it is not given.")
    plantings: tuple[HarvestRecord, ...]
    eaten: tuple[EatenRecord, ...]
    over_years: HarvestYearsRecord | None = Field(description="Null where the garden keeps none.")


class PlaceRecord(Record):
    """A place in which harvest is kept."""

    place: str = Field(description="Its name.")
    kind: str
    temperature_c: Celsius
    humidity: Share


class LevelRecord(Record):
    """What is in store on a day."""

    date: dt.date
    stored_g: WholeGrams


class StoredRecord(OfCrop):
    """A lot in store, or waiting in the ground."""

    bed: str = Field(description="Its name.")
    planting_id: str
    place: str = Field(description="Where it is kept, as shown.")
    harvest_g: WholeGrams
    first: dt.date = Field(description="First day on which it is there.")
    keeps_until: dt.date
    source: str = Field(description="Key of the source of how long it keeps.")
    provenance: str = Field(description="How that figure came about; empty where there is none.")
    weekly_g: WholeGrams = Field(
        description="What the household eats in a week of it and of all that is eaten in its place. [g]"
    )
    gone: dt.date | None = Field(description="The day on which it runs out; null where some of it spoils.")
    spoilt_g: WholeGrams
    keeps_less: str = Field(description="Why it keeps for less than its figure says; else empty.")
    levels: tuple[LevelRecord, ...] = Field(
        description="On the first day of each month, from the growing year on."
    )


class WorstStoreRecord(Record):
    """The store of a crop in the worst of the recorded years of weather, where that is less or ends sooner than planned."""

    crops: tuple[str, ...] = Field(description="Keys, as in the garden file.")
    crop_name: str
    years: int = Field(description="Recorded years that count.")
    assumed: str = Field(description="What is assumed of those years, as shown; empty where nothing.")
    planned_g: WholeGrams = Field(description="What goes into store by the plan. [g]")
    low_g: WholeGrams = Field(description="A tenth of the years have less. [g]")
    middle_g: WholeGrams
    high_g: WholeGrams = Field(description="A tenth of the years have more. [g]")
    worst_year: int = Field(description="The recorded year with the least.")
    worst_g: WholeGrams
    worst_gone: dt.date | None = Field(
        description="The day on which it runs out or spoils in that year; null for none."
    )
    planned_gone: dt.date | None = Field(description="The same by the plan.")


class StoreReport(GardenReport):
    """What is in store of a growing year's harvest and of the year before."""

    report: Literal["store"] = "store"
    persons: float = Field(description="0 where it is not given.")
    places: tuple[PlaceRecord, ...]
    stores: tuple[StoredRecord, ...]
    worst: tuple[WorstStoreRecord, ...] = Field(description="Empty where the garden keeps no recorded years.")


#: Columns of the table of the harvest: a row a planting and week.
HARVEST_COLUMNS = (
    "week", "bed", "bed_id", "planting_id", "crop", "crop_name", "variety", "purpose", "harvest_g", "source", "missing",
)  # fmt: skip
#: Columns of the table of the store: a row a lot and month.
STORE_COLUMNS = (
    "date", "crop", "crop_name", "variety", "bed", "planting_id", "place", "stored_g", "keeps_until", "gone", "spoilt_g",
)  # fmt: skip


def harvest_report(plan: Plan) -> HarvestReport:
    """Report the harvest of the plan's growing year."""
    years = crop_years(plan)
    return HarvestReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        persons=plan.garden.household.persons,
        plantings=tuple(_harvest_record(plan, one) for year in years for one in year.harvests),
        eaten=tuple(_eaten_record(plan, year) for year in years if year.harvests),
        over_years=_years_record(plan, [one for year in years for one in year.harvests]),
    )


def _years_record(plan: Plan, found: Sequence[Harvest]) -> HarvestYearsRecord | None:
    years = harvest_years(plan, found)
    if years is None:
        return None
    low, middle, high = years.total
    worst, least = years.worst
    weeks = (
        WeekSpreadRecord(week=day, low_g=round(spread[0]), middle_g=round(spread[1]), high_g=round(spread[2]))
        for day in years.mondays
        if (spread := years.of_week(day))[2] >= 1
    )
    return HarvestYearsRecord(
        years=len(years.years),
        assumed=assumed_words(plan.assumed, plan.garden.site.units),
        low_g=round(low),
        middle_g=round(middle),
        high_g=round(high),
        worst_year=worst,
        worst_g=round(least),
        weeks=tuple(weeks),
    )


def harvest_rows(plan: Plan) -> list[dict[str, object]]:
    """The harvest as rows for a table, one a planting and week; one without a week for what is not known."""
    rows: list[dict[str, object]] = []
    for record in harvest_report(plan).plantings:
        plain = record.table_row()
        weeks: list[WeekRecord | None] = [*record.weeks]
        for week in weeks or [None]:
            own = {"week": week.week if week else None, "harvest_g": week.harvest_g if week else None}
            rows.append({**{name: plain[name] for name in HARVEST_COLUMNS if name not in own}, **own})
    return rows


def _harvest_record(plan: Plan, one: Harvest) -> HarvestRecord:
    amount, picking = one.amount, one.picking
    return HarvestRecord(
        bed=one.bed.name,
        bed_id=one.bed.id,
        planting_id=one.planting.id,
        crop=one.planting.crop,
        crop_name=one.crop,
        variety=one.variety,
        purpose=one.planting.purpose,
        first=picking.first if picking is not None else None,
        last=picking.last if picking is not None else None,
        shape=picking.shape if picking is not None else "",
        shape_source=picking.source if picking is not None else "",
        yield_g=amount.grams,
        yield_least_g=amount.low,
        yield_most_g=amount.high,
        harvest_g=one.within(plan.span),
        lost_g=one.lost,
        pieces=amount.pieces,
        source=amount.source,
        provenance=amount.provenance,
        weeks=tuple(WeekRecord(week=week, harvest_g=grams) for week, grams in one.weeks(plan.span).items()),
        missing=(one.missing,) if one.missing else (),
    )


def _eaten_record(plan: Plan, year: CropYear) -> EatenRecord:
    eats = year.appetite
    return EatenRecord(
        crops=tuple(dict.fromkeys(one.planting.crop for one in year.harvests)),
        crop_name=year.name,
        person_year_g=round(eats.yearly * 1000) if eats.yearly is not None else None,
        weeks_eaten=eats.weeks,
        weekly_g=eats.weekly,
        source=eats.source,
        harvest_g=sum(one.within(plan.span) for one in year.harvests),
        eaten_g=sum(week.eaten for week in year.weeks) if year.course is not None else None,
        too_much=tuple(_too_much(plan, year)),
        too_little=tuple(
            _gap_record(gap, closing) for gap, closing in closings(plan, year, unfit_ground(plan))
        ),
    )


def _too_much(plan: Plan, year: CropYear) -> Iterable[GlutRecord]:
    for glut in year.gluts:
        yield GlutRecord(first=glut.first, last=glut.last, spoilt_g=glut.grams)
    for one in year.waiting:
        if one.spoilt and one.lot.first >= plan.span.first:
            yield GlutRecord(first=one.lot.first, last=one.lot.last, spoilt_g=one.spoilt)


def _gap_record(gap: Gap, closing: Closing | None) -> GapRecord:
    record = _closing_record(closing) if closing is not None else None
    return GapRecord(first=gap.first, last=gap.last, lacking_g=gap.grams, closing=record)


def _closing_record(closing: Closing) -> ClosingRecord:
    dates, takes = closing.dates, closing.needed
    assert dates.on_plot is not None
    assert dates.first_harvest is not None
    return ClosingRecord(
        crop=closing.crop.key,
        start=closing.start,
        sow=dates.sow.day if dates.sow is not None else None,
        on_plot=dates.on_plot.day,
        first_harvest=closing.first or dates.first_harvest.day,
        row_m=round(takes.metres, 1) if takes.metres is not None else None,
        plants=takes.plants,
        area_m2=takes.area,
        seeds=takes.seeds,
        harvest_g=takes.grams,
        in_gap_g=closing.within,
        beds=tuple(dict.fromkeys(spot.bed.name for spot in closing.spots)),
    )


def store_report(plan: Plan) -> StoreReport:
    """Report what is in store of the plan's growing year."""
    years = crop_years(plan)
    kept = [(year, one, course) for year in years for one, course in year.stored if is_shown(plan, course)]
    months = shown_months(plan, [course for _, _, course in kept])
    places = []
    for place in plan.garden.store_places:
        temperature, humidity = conditions(place)
        places.append(
            PlaceRecord(place=place.name, kind=place.kind, temperature_c=temperature, humidity=humidity)
        )
    return StoreReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        persons=plan.garden.household.persons,
        places=tuple(places),
        stores=tuple(_stored_record(plan, *one, months) for one in kept),
        worst=tuple(_worst_record(plan, one) for one in store_years(plan, years) if one.is_worse),
    )


def _worst_record(plan: Plan, one: StoreYears) -> WorstStoreRecord:
    low, middle, high = one.spread
    return WorstStoreRecord(
        crops=tuple(dict.fromkeys(each.planting.crop for each in one.crop.harvests)),
        crop_name=one.crop.name,
        years=len(one.years),
        assumed=assumed_words(plan.assumed, plan.garden.site.units),
        planned_g=one.planned,
        low_g=round(low),
        middle_g=round(middle),
        high_g=round(high),
        worst_year=one.worst,
        worst_g=one.least,
        worst_gone=one.runs_out,
        planned_gone=one.planned_out,
    )


def _stored_record(
    plan: Plan, year: CropYear, one: Harvest, course: LotCourse, months: Iterable[dt.date]
) -> StoredRecord:
    levels = ((month, level_on(course, month)) for month in months)
    source, provenance = keeping_source(plan, one.planting)
    return StoredRecord(
        crop=one.planting.crop,
        crop_name=one.crop,
        variety=one.variety,
        bed=one.bed.name,
        planting_id=one.planting.id,
        place=kept_words(plan, one, course),
        harvest_g=course.lot.grams,
        first=course.lot.first,
        keeps_until=course.lot.last,
        source=source,
        provenance=provenance,
        weekly_g=year.appetite.weekly or 0,
        gone=course.gone,
        spoilt_g=course.spoilt,
        keeps_less=short_life_words(one),
        levels=tuple(LevelRecord(date=month, stored_g=grams) for month, grams in levels),
    )


def store_rows(plan: Plan) -> list[dict[str, object]]:
    """What is in store as rows for a table, one a lot and month."""
    rows: list[dict[str, object]] = []
    for record in store_report(plan).stores:
        plain = record.table_row()
        for level in record.levels:
            own = {"date": level.date, "stored_g": level.stored_g}
            rows.append({**{name: plain[name] for name in STORE_COLUMNS if name not in own}, **own})
    return rows
