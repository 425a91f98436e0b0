"""Watering of a week: what each bed is given by rule, less rain that was written down, and how often."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Collection, Iterable
from typing import NamedTuple

import numpy as np

from planner.amounts.drip import DripBed, drip_beds
from planner.garden import Bed
from planner.garden.records import MeasuredRecord, RecordBase
from planner.plan import Plan
from planner.plan.water import BedWater, GardenWater, garden_water
from planner.season.spans import growing_year
from planner.season.tasks import monday as monday_of

#: What rain is called where it is written down, in the languages of the typed lines.
RAIN_WORDS = ("rain", "rainfall", "rained", "regen", "niederschlag", "geregnet")
#: Units of rain, as millimetres.
_MILLIMETRES = {
    "mm": 1.0,
    "l/m2": 1.0,
    "l/m²": 1.0,
    "cm": 10.0,
    "in": 25.4,
    "inch": 25.4,
    "inches": 25.4,
    '"': 25.4,
    "": 1.0,
}
#: Less than this is not worth a can (practice). [mm/week]
LEAST_WATERING = 2.0
#: A gardener who writes rain down does so within this time (practice). [days]
_WRITES_DOWN = 21


class BedWatering(NamedTuple):
    """Watering of a bed in a week.

    Attributes
    ----------
    bed : Bed
    monday : date
    millimetres : float
        Over the ground of the plants that stand there. [mm]
    litres : float
        The same for the bed, less the rain that was written down. [l]
    dry_litres : float
        In a dry year: eight years of ten need less. [l]
    every : int
        Days between waterings by soil and roots, 1 to 7. [days]
    rain : float or None
        Rain written down that counts for the week; None where none is written down. [mm]
    hours : float or None
        That its drip lines run in the week; None without drip lines. [h]
    estimated : bool
        Crops without figures of their own, or a soil that is not known.
    """

    bed: Bed
    monday: dt.date
    millimetres: float
    litres: float
    dry_litres: float
    every: int
    rain: float | None
    hours: float | None
    estimated: bool


def rain_written_down(records: Iterable[RecordBase]) -> dict[dt.date, float]:
    """Rain that was measured and written down, by day. [mm]

    Parameters
    ----------
    records : iterable of RecordBase
        Those of the garden; a line such as ``rain 12 mm`` is one.
    """
    found: dict[dt.date, float] = {}
    for one in records:
        if not isinstance(one, MeasuredRecord) or one.measure.strip().lower() not in RAIN_WORDS:
            continue
        factor = _MILLIMETRES.get(one.unit.strip().lower())
        if factor is not None and one.value >= 0:
            found[one.day] = found.get(one.day, 0.0) + one.value * factor
    return found


def rain_of_week(rain: dict[dt.date, float], monday: dt.date) -> float | None:
    """Rain written down of the week before a Monday and of the week itself; None where the gardener writes none down. [mm]

    The rain of the days before is what the roots still draw on.

    Parameters
    ----------
    rain : dict of date to float
    monday : date
    """
    last = monday + dt.timedelta(days=6)
    if not any(0 <= (last - day).days < _WRITES_DOWN for day in rain):
        return None
    first = monday - dt.timedelta(days=7)
    # Of fourteen days of rain the half falls to this week.
    return math.fsum(amount for day, amount in rain.items() if first <= day <= last) / 2


def watering_of_week(
    plan: Plan, monday: dt.date, water: GardenWater | None = None, recorded: int | None = None
) -> tuple[BedWatering, ...]:
    """What each bed is given in a week, in the garden's order; empty where nothing is known of the climate.

    Where rain is written down, a bed is given what its crops take in the week less that rain; else what it needs in the median
    of the recorded years.

    Parameters
    ----------
    plan : Plan
    monday : date
    water : GardenWater, optional
        That of the plan.
    recorded : int, optional
        Place of a recorded year: then what was needed in that year is given, whatever rain is written down.
    """
    known = water if water is not None else garden_water(plan)
    week = known.week_of(monday) if known is not None else None
    if known is None or week is None:
        return ()
    rain = rain_of_week(rain_written_down(plan.garden.records), monday) if recorded is None else None
    drips = {one.bed.id: one for one in drip_beds(plan)}
    found = [_of_bed(one, week, monday, rain, drips.get(one.bed.id), recorded) for one in known.beds]
    return tuple(one for one in found if one is not None)


def _of_bed(
    one: BedWater, week: int, monday: dt.date, rain: float | None, drip: DripBed | None, recorded: int | None
) -> BedWatering | None:
    standing = [(part, part.area) for part in one.plantings if part.water.daily[week] > 0.05]
    area = math.fsum(size for _, size in standing)
    if area <= 0:
        return None
    if recorded is not None:
        litres = float(one.litres[week, recorded])
    elif rain is None:
        litres = float(one.median[week])
    else:
        litres = math.fsum(
            max(float(np.median(part.water.taken[week])) - rain * _rain_reaching(one, part.inputs.glass), 0.0)
            * size
            for part, size in standing
        )
    if litres < LEAST_WATERING * area:
        return None
    every = int(one.interval[week])
    hours = drip.hours(litres, week_of=monday) if drip is not None else None
    return BedWatering(
        bed=one.bed,
        monday=monday,
        millimetres=litres / area,
        litres=litres,
        dry_litres=float(one.dry[week]),
        every=every,
        rain=rain,
        hours=hours,
        estimated=one.texture_assumed or any(part.estimated for part, _ in standing),
    )


def _rain_reaching(one: BedWater, glass: bool) -> float:
    return 0.0 if glass else one.rain_share


def weeks_to_water(plan: Plan) -> tuple[tuple[dt.date, tuple[BedWatering, ...]], ...]:
    """Watering of each week of the growing year in which any bed is watered."""
    water = garden_water(plan)
    if water is None:
        return ()
    found = ((monday, watering_of_week(plan, monday, water)) for monday in water.weeks)
    return tuple((monday, beds) for monday, beds in found if beds)


def listed_waterings(
    plan: Plan, first: dt.date, last: dt.date, beds: Collection[str] | None = None
) -> dict[dt.date, tuple[BedWatering, ...]]:
    """Waterings that stand among the work of a span, by Monday.

    They are listed where daily weather is kept or rain is written down: by mean temperatures alone they are too rough for a
    list of work.

    Parameters
    ----------
    plan : Plan
    first, last : date
        The weeks of these days, and those between.
    beds : collection of str, optional
        Ids of beds; all by default.
    """
    garden = plan.garden
    if not garden.weather.years and not rain_written_down(garden.records):
        return {}
    found: dict[dt.date, tuple[BedWatering, ...]] = {}
    begin, end = monday_of(first), monday_of(last)
    for year in range(growing_year(garden.site, first), growing_year(garden.site, last) + 1):
        of_year = plan.after(garden, year)
        water = garden_water(of_year)
        wanted = [day for day in water.weeks if begin <= day <= end] if water is not None else []
        for monday in wanted:
            watered = watering_of_week(of_year, monday, water)
            chosen = tuple(one for one in watered if beds is None or one.bed.id in beds)
            if chosen:
                found.setdefault(monday, chosen)
    return dict(sorted(found.items()))


def beds_tended(
    plan: Plan, beds: Collection[str] | None, persons: Collection[str] | None
) -> Collection[str] | None:
    """Ids of the beds whose water is the work of some people: those in which they tend a planting; None for all.

    Parameters
    ----------
    plan : Plan
    beds : collection of str or None
        Ids of the beds asked for.
    persons : collection of str or None
        Who tends, as entered.
    """
    if persons is None:
        return beds
    tended = {one.bed for one in plan.garden.plantings if one.tended_by in persons}
    return tended if beds is None else tended & set(beds)
