"""The report of quantities: each planting begun in the year, totals by variety, and seed against what is on hand."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Literal

from pydantic import Field

from planner.amounts import Amount, needs, totals
from planner.listings.reports.base import (
    GardenReport,
    Grams,
    GrowingYear,
    OfCrop,
    Record,
    Share,
    SquareMetres,
)
from planner.plan import Plan


class AmountRecord(Record):
    """What one planting needs; null is what is not known, and ``missing`` says why."""

    bed: str = Field(description="Its name.")
    bed_id: str
    planting_id: str
    year: int = Field(description="Of the planting.")
    crop: str = Field(description="Its key, as in the garden file.")
    crop_name: str = Field(description="As shown, in the garden's English.")
    variety: str = Field(description="Empty where none is named.")
    start: str = Field(description="How it starts, a word of the garden file.")
    sowing: str = Field(description="How it is sown in place, a word of the garden file; else empty.")
    plants: int
    rows: int
    seeds_per_plant: int | None = Field(description="Null where seed is not sown plant by plant.")
    thinned_from: int | None = Field(description="Seeds in a drill that is thinned; else null.")
    seeds: int | None = Field(description="Seeds to sow.")
    seed_g: Grams | None
    plants_to_raise: int = Field(description="Seeds to sow for plants that are raised, losses included.")
    sets_and_plants_needed: int = Field(description="Plants, sets, tubers, cloves or crowns.")
    germination: Share | None
    area_m2: SquareMetres
    missing: tuple[str, ...] = Field(description="What could not be worked out, a sentence each.")
    problem: str = Field(description="What is wrong with the layout, a sentence; else empty.")


class TotalRecord(Record):
    """The quantities of all plantings of one variety."""

    crop_name: str
    variety: str
    plantings: int
    plants: int
    area_m2: SquareMetres
    seeds: int | None
    seed_g: Grams | None
    plants_to_raise: int
    sets_and_plants_needed: int


class NeedRecord(OfCrop):
    """Seed of one variety: needed, on hand, short."""

    seeds_needed: int | None = Field(description="From the latest count of its lots on.")
    seeds_on_hand: int | None
    seeds_ordered: int
    seeds_short: int | None
    seed_short_g: Grams | None
    lots_unusable: int = Field(description="Lots that are too old or dead.")
    missing: tuple[str, ...]


class AmountsReport(GardenReport):
    """Plants, rows and seed of what begins in a growing year."""

    report: Literal["amounts"] = "amounts"
    plantings: tuple[AmountRecord, ...]
    totals: tuple[TotalRecord, ...]
    seed: tuple[NeedRecord, ...]


#: Columns of the table of quantities.
AMOUNT_COLUMNS = tuple(AmountRecord.model_fields)


def amount_record(part: Amount) -> AmountRecord:
    """What one planting needs."""
    return AmountRecord(
        bed=part.bed.name,
        bed_id=part.bed.id,
        planting_id=part.planting.id,
        year=part.planting.year,
        crop=part.planting.crop,
        crop_name=part.crop,
        variety=part.variety,
        start=part.start,
        sowing=part.sowing,
        plants=part.plants,
        rows=part.rows,
        seeds_per_plant=part.seeds_per_station,
        thinned_from=part.thinned_from,
        seeds=part.seeds,
        seed_g=part.seed_grams,
        plants_to_raise=part.raise_,
        sets_and_plants_needed=part.acquire,
        germination=part.germination,
        area_m2=part.area,
        missing=part.missing,
        problem=part.problem,
    )


def amount_rows(parts: Iterable[Amount]) -> list[dict[str, object]]:
    """Quantities as rows for a table, one a planting, with the columns :data:`AMOUNT_COLUMNS`."""
    return [amount_record(part).table_row() for part in parts]


def amounts_report(plan: Plan, parts: Sequence[Amount]) -> AmountsReport:
    """Report quantities.

    Parameters
    ----------
    plan : Plan
    parts : sequence of Amount
        Of the plantings begun in its growing year, bed by bed.
    """
    return AmountsReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        plantings=tuple(map(amount_record, parts)),
        totals=tuple(
            TotalRecord(
                crop_name=total.crop,
                variety=total.variety,
                plantings=total.plantings,
                plants=total.plants,
                area_m2=total.area,
                seeds=total.seeds,
                seed_g=total.seed_grams,
                plants_to_raise=total.raise_,
                sets_and_plants_needed=total.acquire,
            )
            for total in totals(parts)
        ),
        seed=tuple(
            NeedRecord(
                crop=need.crop,
                crop_name=need.name,
                variety=need.variety,
                seeds_needed=need.seeds,
                seeds_on_hand=need.on_hand,
                seeds_ordered=need.ordered,
                seeds_short=need.short,
                seed_short_g=need.short_grams,
                lots_unusable=need.unusable,
                missing=need.missing,
            )
            for need in needs(plan, parts)
        ),
    )
