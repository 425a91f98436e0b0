"""The report of the water that beds need."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable
from typing import Annotated, Literal

import numpy as np
from pydantic import AfterValidator, Field

from planner.amounts.drip import DripZone, drip_zones
from planner.amounts.tank import Tank
from planner.listings.reports.base import GardenReport, GrowingYear, OfCrop, Record, Share, SquareMetres
from planner.plan import Plan
from planner.plan.water import BedWater, GardenWater, WateredPlanting

Litres = Annotated[
    float, AfterValidator(lambda value: round(value, 1) + 0.0), Field(ge=0, description="Tenths. [l]")
]
Millimetres = Annotated[
    float,
    AfterValidator(lambda value: round(value, 1) + 0.0),
    Field(ge=0, description="Tenths, over the ground of the plants."),
]
_Metres = Annotated[
    float, AfterValidator(lambda value: round(value, 2) + 0.0), Field(ge=0, description="[m]")
]


class BedWaterRecord(Record):
    """Water of a bed in a growing year."""

    bed: str = Field(description="Its name.")
    bed_id: str
    area_m2: SquareMetres
    need_l: Litres = Field(description="In the median year. [l]")
    need_dry_l: Litres = Field(description="In a dry year: eight of ten need less. [l]")
    most_l: Litres = Field(description="In the thirstiest week of a dry year. [l]")
    week: dt.date = Field(description="Monday of that week.")
    days_between: int = Field(description="Days between waterings in that week, by soil and roots, 1 to 7.")
    rain_share: Share = Field(description="Of the rain of open ground, what reaches it.")
    soil_assumed: bool = Field(
        description="Its texture is not known: loam, in a container potting mix, is taken."
    )


class PlantingWaterRecord(OfCrop):
    """Water of a planting in a growing year."""

    planting_id: str
    bed: str = Field(description="Its name.")
    bed_id: str
    area_m2: SquareMetres = Field(description="Of its ground, shared where others stand on it too.")
    need_l: Litres = Field(description="In the median year. [l]")
    need_dry_l: Litres = Field(description="In a dry year. [l]")
    provenance: str = Field(
        description="How the figures of its crop came about; estimate where they are those of its kin."
    )


class WeekWaterRecord(Record):
    """Water of a bed in a week."""

    bed: str = Field(description="Its name.")
    bed_id: str
    week: dt.date = Field(description="Its Monday.")
    need_mm: Millimetres = Field(description="In the median year.")
    need_l: Litres = Field(description="In the median year. [l]")
    need_dry_l: Litres = Field(description="In a dry year. [l]")
    days_between: int = Field(description="Days between waterings, by soil and roots, 1 to 7.")


#: Columns of a table of water.
WATER_COLUMNS = tuple(WeekWaterRecord.model_fields)


class TankRecord(Record):
    """A tank for the garden's watering."""

    roof_m2: SquareMetres = Field(
        description="Roofs of sheds and glasshouses that fill it; 0 where none is drawn."
    )
    tank_l: Litres = Field(description="Its volume. [l]")
    lasts: bool = Field(
        description="The roofs gather what is needed in eight years of ten, and with it the tank never runs dry."
    )
    met_share: Share = Field(description="Of a year's need, what it meets in the median year.")
    gathered_l: Litres = Field(description="By the roofs in the median year. [l]")


class DripZoneRecord(Record):
    """Beds whose drip lines run together."""

    bed_ids: tuple[str, ...]
    flow_l_per_h: float
    pipe_m: _Metres = Field(description="From the tap, from bed to bed; 0 where no tap is drawn. [m]")
    lines_m: _Metres = Field(description="Of all lines. [m]")
    emitters: int


class WaterReport(GardenReport):
    """Water that beds need, by the recorded years of weather."""

    report: Literal["water"] = "water"
    years_counted: int = Field(description="0 where the monthly means stand for all years: rough.")
    rain_known: bool = Field(description="False: the need is told before rain.")
    days_filled: int = Field(
        description="Missing days of the recorded years that were filled: by the mean of the day, and without rain."
    )
    beds: tuple[BedWaterRecord, ...]
    plantings: tuple[PlantingWaterRecord, ...]
    weeks: tuple[WeekWaterRecord, ...]
    tank: TankRecord
    zones: tuple[DripZoneRecord, ...]


def bed_record(one: BedWater, water: GardenWater) -> BedWaterRecord:
    """The year of a bed.

    Parameters
    ----------
    one : BedWater
    water : GardenWater
        That it is part of.
    """
    sums = one.litres.sum(axis=0)
    week = int(one.dry.argmax())
    return BedWaterRecord(
        bed=one.bed.name,
        bed_id=one.bed.id,
        area_m2=one.area,
        need_l=float(np.median(sums)),
        need_dry_l=float(np.quantile(sums, 0.8)),
        most_l=float(one.dry[week]),
        week=water.weeks[week],
        days_between=int(one.interval[week]),
        rain_share=one.rain_share,
        soil_assumed=one.texture_assumed,
    )


def week_records(water: GardenWater, beds: Iterable[BedWater]) -> list[WeekWaterRecord]:
    """The weeks of beds in which anything grows, bed by bed.

    Parameters
    ----------
    water : GardenWater
    beds : iterable of BedWater
        Those of it that are listed.
    """
    found = []
    for one in beds:
        depth = np.median(one.millimetres, axis=1)
        for week, monday in enumerate(water.weeks):
            if one.interval[week] > 0:
                found.append(
                    WeekWaterRecord(
                        bed=one.bed.name,
                        bed_id=one.bed.id,
                        week=monday,
                        need_mm=float(depth[week]),
                        need_l=float(one.median[week]),
                        need_dry_l=float(one.dry[week]),
                        days_between=int(one.interval[week]),
                    )
                )
    return found


def water_report(plan: Plan, water: GardenWater, beds: Iterable[BedWater], tank: Tank) -> WaterReport:
    """Report what beds need.

    Parameters
    ----------
    plan : Plan
    water : GardenWater
        Of that plan.
    beds : iterable of BedWater
        Those of it that are listed.
    tank : Tank
    """
    listed = list(beds)
    return WaterReport(
        garden=plan.garden.site.name,
        growing_year=GrowingYear.of(plan),
        years_counted=len(water.weather.years),
        rain_known=water.weather.rain_known,
        days_filled=water.weather.filled,
        beds=tuple(bed_record(one, water) for one in listed),
        plantings=tuple(_planting_record(plan, one, part) for one in listed for part in one.plantings),
        weeks=tuple(week_records(water, listed)),
        tank=TankRecord(
            roof_m2=tank.roof,
            tank_l=tank.volume,
            lasts=tank.enough,
            met_share=tank.met,
            gathered_l=tank.yearly,
        ),
        zones=tuple(_zone_record(one) for one in drip_zones(plan)),
    )


def _planting_record(plan: Plan, one: BedWater, part: WateredPlanting) -> PlantingWaterRecord:
    crop = plan.figures_of(part.planting).crop
    sums = part.litres.sum(axis=0)
    return PlantingWaterRecord(
        crop=part.planting.crop,
        crop_name=crop.name if crop is not None else part.planting.crop,
        variety=part.planting.variety,
        planting_id=part.planting.id,
        bed=one.bed.name,
        bed_id=one.bed.id,
        area_m2=part.area,
        need_l=float(np.median(sums)),
        need_dry_l=float(np.quantile(sums, 0.8)),
        provenance=part.inputs.row.provenance,
    )


def _zone_record(zone: DripZone) -> DripZoneRecord:
    return DripZoneRecord(
        bed_ids=tuple(one.bed.id for one in zone.beds),
        flow_l_per_h=round(zone.flow, 1),
        pipe_m=zone.supply,
        lines_m=sum(part.length for one in zone.beds for part in one.plantings),
        emitters=sum(part.emitters for one in zone.beds for part in one.plantings),
    )
