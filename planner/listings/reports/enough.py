"""The report of how much to plant."""

from __future__ import annotations

import datetime as dt
from typing import Literal

from pydantic import Field

from planner.amounts.enough_for import Enough
from planner.listings.reports.base import GardenReport, GrowingYear, Record, SquareMetres
from planner.listings.reports.harvest import WholeGrams
from planner.plan import Plan


class SpotRecord(Record):
    """A free stretch of a bed for it."""

    bed: str = Field(description="Its name.")
    bed_id: str
    start_m: float = Field(description="Along the bed, thousandths. [m]")
    end_m: float = Field(description="Along the bed, thousandths. [m]")
    plants: int
    area_m2: SquareMetres
    harvest_g: WholeGrams


class EnoughReport(GardenReport):
    """How much of a crop to plant so that some people have enough until a day; of the beds in ``room`` where they hold all of it."""

    report: Literal["enough"] = "enough"
    crop: str = Field(description="Its key, as in the garden file.")
    crop_name: str
    persons: float
    until: dt.date = Field(description="The day asked for.")
    weekly_g: WholeGrams = Field(description="Eaten by all in a week. [g]")
    source: str = Field(description="Of that: key of a publication, or own.")
    first_harvest: dt.date
    keeps_until: dt.date = Field(
        description="The last day worked out: that asked for, or the last on which it is good."
    )
    harvest_g: WholeGrams = Field(description="Eaten until then. [g]")
    purpose: str = Field(description="What it is grown for, a word of the garden file.")
    on_plot: dt.date | None = Field(description="The day it takes its plot.")
    start: str = Field(description="How it starts, a word of the garden file.")
    row_m: float | None = Field(description="Tenths. [m]")
    plants: int | None
    area_m2: SquareMetres | None
    seeds: int | None = Field(
        description="0 of what is grown from sets, tubers or plants; null where it is not known."
    )
    seed_g: float | None = Field(description="Weight of the seed, tenths; null where it is not known. [g]")
    room: tuple[SpotRecord, ...]


def enough_report(plan: Plan, found: Enough) -> EnoughReport:
    """Report how much to plant."""
    takes, on = found.takes, found.dates.on_plot
    return EnoughReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        crop=found.crop.key,
        crop_name=found.crop.name,
        persons=found.persons,
        until=found.until,
        weekly_g=found.appetite.weekly or 0,
        source=found.appetite.source,
        first_harvest=found.picking.first,
        keeps_until=found.last,
        harvest_g=found.eaten,
        purpose=found.purpose,
        seed_g=round(takes.seed_grams, 1) if takes.seed_grams is not None else None,
        on_plot=on.day if on is not None else None,
        start=found.dates.start,
        row_m=round(takes.metres, 1) if takes.metres is not None else None,
        plants=takes.plants,
        area_m2=takes.area,
        seeds=takes.seeds,
        room=tuple(
            SpotRecord(
                bed=spot.bed.name,
                bed_id=spot.bed.id,
                start_m=round(getattr(spot.planting.plot, "start", 0.0), 3),
                end_m=round(getattr(spot.planting.plot, "end", 0.0), 3),
                plants=spot.plants,
                area_m2=spot.area,
                harvest_g=spot.grams,
            )
            for spot in found.spots
        ),
    )
