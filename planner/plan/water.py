"""Water of a plan: what each planting and each bed needs, week by week, in the recorded years."""

from __future__ import annotations

import datetime as dt
import math
import operator
from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.crops.cover_effects import GLASS_WORDS
from planner.crops.crop_water import CropRow, HeldWater, water_figures
from planner.garden import Bed, Climate, Planting, Site, Structure
from planner.garden.soil import Soil, Texture
from planner.garden.weather_years import WeatherYears
from planner.ground.rain_shadow import WALLS, rain_share
from planner.ground.shapes import outline_area
from planner.lazy import lazy_property
from planner.plan.cache import batch_fact, fact
from planner.plan.plan import Plan
from planner.season.planting_dates import Dates
from planner.season.spans import Span
from planner.season.temperatures import USUAL_LATITUDE
from planner.season.water.planting_water import (
    PlantingInWater,
    PlantingWater,
    dry_year,
    mondays,
    planting_waters,
)
from planner.season.water.recorded_years import WaterWeather, of_means, water_weather
from planner.season.water.soil_water import available_water, share_without_harm
from planner.season.water.stages import StageDays, stage_days

Numbers = NDArray[np.float64]

#: Texture of a bed of which none is known, and of a container (estimate).
USUAL_TEXTURE: Texture = "loam"
CONTAINER_TEXTURE: Texture = "peat"
#: Depth of a container that gives none. [m]
CONTAINER_DEPTH = 0.30
#: What lies on the ground and keeps its water; compost and manure are soil to it.
_LOOSE = ("straw", "bark", "wood chip", "leaf mould", "grass clippings")
#: Covers that keep the rain off.
_RAINPROOF = ("low tunnel", "cloche")


class WaterWeatherInputs(NamedTuple):
    """Of a growing year."""

    kept: WeatherYears
    site: Site
    climate: Climate
    first: dt.date
    days: int


@fact("water weather")
def weather_of_growing_year(inputs: WaterWeatherInputs) -> WaterWeather | None:
    """Reference evapotranspiration and rain of the recorded years."""
    return water_weather(inputs.kept, inputs.site, inputs.climate, inputs.first, inputs.days)


class RainInputs(NamedTuple):
    """Of a bed, and of what may keep the rain off it."""

    bed: Bed
    structures: tuple[Structure, ...]


@fact("rain share", equal=operator.eq)
def rain_of_bed(inputs: RainInputs) -> float:
    """Share of the rain that a bed has."""
    return rain_share(inputs.bed, inputs.structures)


class StageInputs(NamedTuple):
    """Of a planting in a growing year."""

    row: CropRow
    dates: Dates
    span: Span
    first: dt.date
    last: dt.date
    cover: float


@fact("water stages", equal=operator.eq)
def stages_of_planting(inputs: StageInputs) -> StageDays | None:
    """The stages of a planting."""
    return stage_days(
        inputs.row.row, inputs.dates, inputs.span, Span(inputs.first, inputs.last), inputs.cover
    )


@batch_fact("planting water")
def water_of_plantings(asked: Sequence[PlantingInWater]) -> list[PlantingWater]:
    """Water of many plantings."""
    return planting_waters(asked)


@dataclass(frozen=True, eq=False)
class WateredPlanting:
    """A planting with its water.

    Attributes
    ----------
    planting : Planting
    area : float
        Of its ground, shared where another planting stands on it at the same time. [m2]
    inputs : PlantingInWater
    water : PlantingWater
    """

    planting: Planting
    area: float
    inputs: PlantingInWater
    water: PlantingWater

    @property
    def litres(self) -> Numbers:
        """Watering of each week and recorded year, shape (weeks, years). [l]"""
        return self.water.need * self.area

    @property
    def estimated(self) -> bool:
        """Whether its crop has the figures of a kin, or its soil is not one that the tables print."""
        return self.inputs.row.kin or self.inputs.soil.estimated


@dataclass(frozen=True, eq=False)
class BedWater:
    """A bed with its water.

    Attributes
    ----------
    bed : Bed
    area : float
        [m2]
    plantings : tuple of WateredPlanting
    rain_share : float
        Of the rain of open ground.
    texture_assumed : bool
        Nothing is known of its soil: loam, or potting mix in a container, is taken.
    """

    bed: Bed
    area: float
    plantings: tuple[WateredPlanting, ...]
    rain_share: float
    texture_assumed: bool

    @lazy_property
    def litres(self) -> Numbers:
        """Watering of each week and recorded year, shape (weeks, years). [l]"""
        total: Numbers = np.sum([one.litres for one in self.plantings], axis=0)
        return total

    @lazy_property
    def millimetres(self) -> Numbers:
        """The same over the ground of its plantings that stand in the week, shape (weeks, years). [mm]"""
        standing = np.sum([(one.water.daily > 0)[:, None] * one.area for one in self.plantings], axis=0)
        found: Numbers = self.litres / np.maximum(standing, 1e-9)
        return found

    @lazy_property
    def median(self) -> Numbers:
        """Litres of each week in the median year."""
        found: Numbers = np.median(self.litres, axis=1)
        return found

    @lazy_property
    def dry(self) -> Numbers:
        """Litres of each week that eight years of ten stay under."""
        return dry_year(self.litres)

    @lazy_property
    def interval(self) -> Numbers:
        """Whole days between waterings in each week, 1 to 7: those of its thirstiest planting; 0 in weeks in which nothing grows."""
        days = np.stack([one.water.interval for one in self.plantings])
        least = np.where(days > 0, days, np.inf).min(axis=0)
        found: Numbers = np.where(np.isfinite(least), np.round(least), 0.0)
        return found


@dataclass(frozen=True, eq=False)
class GardenWater:
    """The water of a garden in a growing year.

    Attributes
    ----------
    weather : WaterWeather
    weeks : tuple of date
        Monday of each week.
    beds : tuple of BedWater
        Those with plantings, in the garden's order.
    """

    weather: WaterWeather
    weeks: tuple[dt.date, ...]
    beds: tuple[BedWater, ...]

    @lazy_property
    def litres(self) -> Numbers:
        """Watering of the garden in each week and recorded year, shape (weeks, years). [l]"""
        if not self.beds:
            return np.zeros((len(self.weeks), self.weather.reference.shape[1]))
        total: Numbers = np.sum([one.litres for one in self.beds], axis=0)
        return total

    @lazy_property
    def drought(self) -> int:
        """Place among the recorded years of the one that needs as much as a dry year: eight years of ten need less."""
        sums = self.litres.sum(axis=0)
        return int(np.abs(sums - dry_year(sums)).argmin())

    def week_of(self, day: dt.date) -> int | None:
        """Place of a day's week; None outside of the growing year."""
        place = (day - self.weeks[0]).days // 7
        return place if 0 <= place < len(self.weeks) else None

    def bed(self, key: str) -> BedWater | None:
        """The water of a bed by its id; None where nothing grows in it."""
        return next((one for one in self.beds if one.bed.id == key), None)


def weather_for_water(plan: Plan) -> WaterWeather | None:
    """Evapotranspiration and rain of a plan's growing year in the recorded years; None where nothing of its climate is known."""
    garden = plan.garden
    inputs = WaterWeatherInputs(garden.weather, garden.site, garden.climate, plan.span.first, plan.span.days)
    return plan.cached(weather_of_growing_year, plan.year, inputs)


def garden_water(plan: Plan) -> GardenWater | None:
    """What the beds of a plan need, week by week; None where nothing is known of the climate.

    Parameters
    ----------
    plan : Plan
    """
    weather = weather_for_water(plan)
    if weather is None:
        return None
    structures = tuple(
        one for one in plan.garden.structures if one.in_use(plan.year) and one.kind in (*WALLS, "tree")
    )
    asked: list[tuple[Planting, float, PlantingInWater]] = []
    for bed in plan.beds:
        there = [one for one in plan.in_bed(bed) if not plan.placed(one).plot.is_empty]
        shares = _shared_ground(plan, there)
        for planting in there:
            inputs = _inputs(plan, bed, planting, weather, structures)
            if inputs is not None:
                asked.append((planting, shares[planting.id], inputs))
    waters = plan.cached_many(water_of_plantings, [(one.id, inputs) for one, _, inputs in asked])
    by_bed: dict[str, list[WateredPlanting]] = {}
    for (planting, area, inputs), water in zip(asked, waters, strict=True):
        by_bed.setdefault(planting.bed, []).append(WateredPlanting(planting, area, inputs, water))
    beds = tuple(
        BedWater(
            bed,
            outline_area(bed.outline),
            tuple(by_bed[bed.id]),
            _rain(plan, bed, structures),
            soil_texture(plan.garden.soil_of(bed), bed)[1],
        )
        for bed in plan.beds
        if bed.id in by_bed
    )
    return GardenWater(weather, mondays(weather.first, weather.days), beds)


def soil_texture(soil: Soil, bed: Bed) -> tuple[Texture, bool]:
    """Texture that a bed's water is worked out with, and whether it is assumed.

    Parameters
    ----------
    soil : Soil
    bed : Bed
    """
    if soil.texture is not None:
        return soil.texture, False
    return (CONTAINER_TEXTURE if bed.kind == "container" else USUAL_TEXTURE), True


def _shared_ground(plan: Plan, there: list[Planting]) -> dict[str, float]:
    """Area of each planting of a bed; ground that several take at the same time is shared among them. [m2]"""
    spans = {one.id: plan.span_of(one) for one in there}
    found = {}
    for planting in there:
        plot = plan.placed(planting).plot
        area = float(plot.area)
        others = [one for one in there if one is not planting and spans[one.id].meets(spans[planting.id])]
        doubled = sum(float(plan.placed(one).plot.intersection(plot).area) for one in others)
        found[planting.id] = area * area / (area + doubled) if area > 0 else 0.0
    return found


def _rain(plan: Plan, bed: Bed, structures: tuple[Structure, ...]) -> float:
    return plan.cached(rain_of_bed, bed.id, RainInputs(bed, structures))


def _inputs(
    plan: Plan, bed: Bed, planting: Planting, weather: WaterWeather, structures: tuple[Structure, ...]
) -> PlantingInWater | None:
    figures, dates, span = plan.figures_of(planting), plan.dates(planting), plan.span_of(planting)
    placed = plan.placed(planting)
    if placed.area <= 0:
        return None
    table = water_figures()
    row = table.of(figures.crop)
    spread = figures.number("spread") or figures.number("in_row_spacing") or 0.3
    cover = placed.plants * math.pi / 4 * spread**2 / placed.area
    cover = round(min(max(cover, 0.01), 4.0), 3)
    inputs = StageInputs(row, dates, span, plan.span.first, plan.span.last, cover)
    stages = plan.cached(stages_of_planting, (planting.id, plan.year), inputs)
    if stages is None:
        return None
    soil = plan.garden.soil_of(bed)
    held: HeldWater = table.soils[soil_texture(soil, bed)[0]].held
    shelter = plan.shelter_of(bed)
    film = 1.0
    if any(cover_.kind == "film" for cover_ in planting.covers):
        hole = math.pi / 4 * table.number("film_hole") ** 2 * table.number("film_hole_factor")
        film = round(min(max(placed.plants * hole / placed.area, 0.02), 1.0), 3)
    return PlantingInWater(
        weather=weather,
        row=row,
        stages=stages,
        cover=cover,
        height=float(figures.number("height") or row.row.height),
        soil=held,
        root_depth=_root_depth(row, soil, bed),
        glass=any(kind in GLASS_WORDS for kind in shelter),
        dry_spells=_dry_spells(plan, dates),
        film=film,
        mulch=_mulch(plan, planting, span),
        drip=bed.drip_lines,
        rain_share=_rain(plan, bed, structures),
        container=bed.kind == "container",
    )


def _dry_spells(plan: Plan, dates: Dates) -> tuple[tuple[int, int], ...]:
    """Times under covers that keep the rain off, counted from the first day of the growing year."""
    first = plan.span.first
    found = []
    for one in dates.covers:
        if one.kind in _RAINPROOF:
            end = one.off.day if one.off is not None else plan.span.last
            found.append(((one.on.day - first).days, (end - first).days))
    return tuple(found)


def _mulch(plan: Plan, planting: Planting, span: Span) -> float:
    """Share of a planting's ground under loose mulch: all of it from the day it is spread."""
    for one in plan.garden.dressings_of(planting.bed):
        day = one.done or one.day
        lies = plan.span.first <= day <= min(span.last, plan.span.last)
        if one.kind in _LOOSE and one.planting in (None, planting.id) and lies:
            return 1.0
    return 0.0


# -- how soon a planting wants water --------------------------------------------------------------

#: Over so many days at the thirstiest time the need is averaged. [days]
_THIRSTY_DAYS = 21


class UsualReferenceInputs(NamedTuple):
    """The climate of a garden, and the growing year."""

    climate: Climate
    latitude: float | None
    southern: bool
    first: dt.date
    days: int


@fact("usual reference evapotranspiration")
def usual_reference(inputs: UsualReferenceInputs) -> Numbers | None:
    """Reference evapotranspiration of each day of the growing year by the monthly means, over some weeks each. [mm/day]"""
    latitude = inputs.latitude
    if latitude is None:
        latitude = -USUAL_LATITUDE if inputs.southern else USUAL_LATITUDE
    usual = of_means(inputs.climate, latitude, inputs.first, inputs.days)
    if usual is None:
        return None
    daily = usual.reference[:, 0]
    smooth: Numbers = np.convolve(daily, np.ones(_THIRSTY_DAYS) / _THIRSTY_DAYS, mode="same")
    smooth.flags.writeable = False
    return smooth


class ThirstInputs(NamedTuple):
    """What says how soon a planting wants water."""

    row: CropRow
    soil: HeldWater
    root_depth: float
    reference: Numbers
    first: int
    last: int
    share: float


@fact("thirst")
def thirst_of_planting(inputs: ThirstInputs) -> float:
    """Days that the soil lasts a grown planting at its thirstiest time, without rain."""
    row, soil, depth, reference, first, last, share = inputs
    taken = row.row.kc[1] * share * float(reference[first : last + 1].max())
    readily = share_without_harm(row.row.depletion, taken) * available_water(soil.available, depth)
    return float(readily) / max(taken, 1e-6)


def days_of_water(plan: Plan, planting: Planting) -> float | None:
    """Days that the soil lasts a grown planting at its thirstiest time, without rain; None where that is not known.

    It takes the monthly means and no balance, so that it can be asked of every planting at each edit.

    Parameters
    ----------
    plan : Plan
    planting : Planting
    """
    garden, bed, year = plan.garden, plan.bed_of(planting), plan.span
    usual = UsualReferenceInputs(
        garden.climate, garden.site.latitude, garden.site.southern, year.first, year.days
    )
    reference = plan.cached(usual_reference, plan.year, usual)
    span = plan.span_of(planting)
    if reference is None or not span.meets(year):
        return None
    first, last = max((span.first - year.first).days, 0), min((span.last - year.first).days, year.days - 1)
    table = water_figures()
    row = table.of(plan.figures_of(planting).crop)
    soil = garden.soil_of(bed)
    held = table.soils[soil_texture(soil, bed)[0]].held
    glass = any(kind in GLASS_WORDS for kind in plan.shelter_of(bed))
    share = table.number("glass_evapotranspiration") if glass else 1.0
    inputs = ThirstInputs(row, held, _root_depth(row, soil, bed), reference, first, last, share)
    return plan.cached(thirst_of_planting, planting.id, inputs)


def _root_depth(row: CropRow, soil: Soil, bed: Bed) -> float:
    """Depth that a crop roots to in a bed: the table's lesser one, no deeper than its soil. [m]"""
    roots = row.row.roots[0]
    if bed.kind == "container":
        return min(roots, bed.depth or bed.height or CONTAINER_DEPTH)
    if soil.depth is not None:
        return min(roots, soil.depth + (bed.height if bed.kind == "raised" else 0.0))
    return roots
