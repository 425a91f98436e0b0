"""The report of raising: what is filled for each planting, all trays and mix, and the benches week by week."""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from planner.amounts.bench import BenchWeek, BenchYear, bench_year, benches_wanted, capacity
from planner.amounts.raising import Raised, mix_to_have, raisings
from planner.amounts.trays_in_use import ContainerTotal, container_totals, mix_in_blocks
from planner.crops.containers import Container
from planner.garden.raising import Bench
from planner.listings.reports.base import GardenReport, GrowingYear, OfCrop, Record, SquareMetres
from planner.plan import Plan
from planner.season.raising import Fill


def _rounded(digits: int) -> AfterValidator:
    return AfterValidator(lambda value: round(value, digits) + 0.0)  # no -0.0


Litres = Annotated[float, _rounded(3), Field(ge=0, description="Thousandths. [l]")]
Metres = Annotated[float, _rounded(4), Field(ge=0, description="Tenths of millimetres. [m]")]


class ContainerRecord(Record):
    """What plants are raised in."""

    container: str = Field(description="cells, pots, blocks or seed tray.")
    per_tray: int = Field(description="Cells, pots, blocks or seedlings on the ground of a tray.")
    width_m: Metres
    source: str = Field(description="Key of the source of its volume.")
    recalled: bool = Field(description="The volume is from memory.")


class FillRecord(ContainerRecord):
    """Containers that are filled for a planting on a day."""

    work: str = Field(description="sow, prick out or pot on.")
    date: dt.date | None
    number: int = Field(description="Cells, pots, blocks or seedlings.")
    trays: int = Field(description="Whole trays, where it shares none with others.")
    left_over: int = Field(description="Places of these trays that stay empty.")
    mix_l: Litres


class StandingRecord(Record):
    """Days on a bench, both included."""

    bench: str = Field(description="Its name; empty in the open, or where the garden has none.")
    bench_kind: str = Field(description="The kind that is wanted: heated, cool or cold frame.")
    container: str
    first: dt.date
    last: dt.date
    area_m2: SquareMetres = Field(description="Its share of the trays that it stands in.")


class RaisedRecord(OfCrop):
    """What raising one planting takes."""

    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str
    plants: int
    seeds: int | None = Field(description="Seeds to sow.")
    way: str = Field(description="Way of raising, a word of the garden file.")
    way_entered: bool = Field(description="Else it is the crop's usual way.")
    size_source: str = Field(description="Key of the source of the size; empty where it was entered.")
    days_to_emerge: int | None
    days_to_emerge_known: bool = Field(description="Else they are an estimate.")
    days_growing: int | None = Field(description="From emergence to hardening off.")
    days_hardening: int | None
    nursery_area_m2: SquareMetres
    mix_l: Litres
    fills: tuple[FillRecord, ...]
    on_bench: tuple[StandingRecord, ...]
    missing: tuple[str, ...] = Field(description="What could not be worked out, a sentence each.")


class ContainerTotalRecord(ContainerRecord):
    """All that is filled of one container; plantings on one bench share trays."""

    number: int
    trays: int = Field(description="In use at one time at most.")
    day: dt.date | None = Field(description="The first day on which so many are in use.")
    mix_l: Litres


class BenchRecord(Record):
    """A bench of the garden."""

    bench: str = Field(description="Its name.")
    bench_id: str
    bench_kind: str
    length_m: Metres
    width_m: Metres
    area_m2: SquareMetres
    capacity: int = Field(description="Trays that it holds.")


class BenchWeekRecord(Record):
    """A bench on the fullest day of a week; without benches one that holds all of its kind."""

    week: dt.date = Field(description="Its Monday.")
    bench: str
    bench_kind: str
    trays: int
    capacity: int | None = Field(description="Trays that it holds; null where the garden has no benches.")
    taken_m2: SquareMetres
    free_m2: SquareMetres | None
    planting_ids: tuple[str, ...]


class RaisingReport(GardenReport):
    """What raising takes in a growing year, and what stands on the benches."""

    report: Literal["raising"] = "raising"
    plantings: tuple[RaisedRecord, ...]
    totals: tuple[ContainerTotalRecord, ...]
    mix_l: Litres
    loose_mix_l: Litres = Field(description="To have: some of it is lost to settling. [l]")
    benches: tuple[BenchRecord, ...]
    weeks: tuple[BenchWeekRecord, ...]


class FillRow(OfCrop):
    """A row of the table: what is filled for a planting on a day."""

    bed: str
    bed_id: str
    planting_id: str
    way: str
    work: str
    date: dt.date | None
    container: str
    per_tray: int
    width_m: Metres
    number: int
    trays: int
    left_over: int
    mix_l: Litres


#: Columns of the table of what is filled.
RAISING_COLUMNS = tuple(FillRow.model_fields)


def raising_report(plan: Plan) -> RaisingReport:
    """Report what raising takes.

    Parameters
    ----------
    plan : Plan
    """
    parts, entered = raisings(plan), bool(plan.garden.benches)
    year = bench_year(plan) if entered else benches_wanted(plan)
    totals = container_totals(plan, parts)
    mix = sum(total.litres for total in totals)
    return RaisingReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        plantings=tuple(_raised_record(plan, part, year, entered) for part in parts),
        totals=tuple(map(_total_record, totals)),
        mix_l=mix,
        loose_mix_l=mix_to_have(mix, mix_in_blocks(parts)),
        benches=tuple(map(_bench_record, plan.garden.benches)),
        weeks=tuple(_week_record(week, entered) for week in year.weeks()),
    )


def raising_rows(plan: Plan) -> list[dict[str, object]]:
    """What is filled as rows for a table, with the columns :data:`RAISING_COLUMNS`."""
    return [_fill_row(part, fill).table_row() for part in raisings(plan) for fill in part.fills]


def _fill_row(part: Raised, fill: Fill) -> FillRow:
    return FillRow(
        crop=part.planting.crop,
        crop_name=part.amount.crop,
        variety=part.amount.variety,
        bed=part.amount.bed.name,
        bed_id=part.amount.bed.id,
        planting_id=part.planting.id,
        way=part.way.way,
        work=fill.work,
        date=fill.day,
        container=fill.container.kind,
        per_tray=fill.container.per_tray,
        width_m=fill.container.width,
        number=fill.number,
        trays=fill.trays,
        left_over=fill.left_over,
        mix_l=fill.litres,
    )


def _of_container(container: Container) -> dict[str, object]:
    return {
        "container": container.kind,
        "per_tray": container.per_tray,
        "width_m": container.width,
        "source": container.source,
        "recalled": container.recalled,
    }


def fill_record(fill: Fill) -> FillRecord:
    """Containers that are filled, and for what work."""
    fields = {
        **_of_container(fill.container),
        "work": fill.work,
        "date": fill.day,
        "number": fill.number,
        "trays": fill.trays,
        "left_over": fill.left_over,
        "mix_l": fill.litres,
    }
    return FillRecord.model_validate(fields)


def _total_record(total: ContainerTotal) -> ContainerTotalRecord:
    fields = {
        **_of_container(total.container),
        "number": total.number,
        "trays": total.trays,
        "day": total.day,
        "mix_l": total.litres,
    }
    return ContainerTotalRecord.model_validate(fields)


def _raised_record(plan: Plan, part: Raised, year: BenchYear, entered: bool) -> RaisedRecord:
    names = {bench.id: bench.name for bench in plan.garden.benches} if entered else {}
    there = [one for one in year.placed if one.standing.planting == part.planting.id]
    return RaisedRecord(
        crop=part.planting.crop,
        crop_name=part.amount.crop,
        variety=part.amount.variety,
        bed=part.amount.bed.name,
        bed_id=part.amount.bed.id,
        planting_id=part.planting.id,
        plants=part.amount.plants,
        seeds=part.amount.seeds,
        way=part.way.way,
        way_entered=part.way.chosen,
        size_source=part.way.source,
        days_to_emerge=part.emerge_days,
        days_to_emerge_known=part.emerge_known,
        days_growing=part.grow_days,
        days_hardening=part.harden_days,
        nursery_area_m2=part.nursery_area,
        mix_l=part.litres,
        fills=tuple(map(fill_record, part.fills)),
        on_bench=tuple(
            StandingRecord(
                bench=names.get(one.bench, ""),
                bench_kind=one.standing.kind,
                container=one.standing.container.kind,
                first=one.standing.first,
                last=one.standing.last,
                area_m2=one.standing.share,
            )
            for one in there
        ),
        missing=part.missing,
    )


def _bench_record(bench: Bench) -> BenchRecord:
    return BenchRecord(
        bench=bench.name,
        bench_id=bench.id,
        bench_kind=bench.kind,
        length_m=bench.length,
        width_m=bench.width,
        area_m2=bench.area,
        capacity=capacity(bench),
    )


def _week_record(week: BenchWeek, entered: bool) -> BenchWeekRecord:
    return BenchWeekRecord(
        week=week.monday,
        bench=week.bench.name if entered else "",
        bench_kind=week.bench.kind,
        trays=week.trays,
        capacity=week.capacity if entered else None,
        taken_m2=week.taken,
        free_m2=week.free if entered else None,
        planting_ids=week.plantings,
    )
