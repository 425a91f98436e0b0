"""The water that plantings need in a growing year, week by week and in each recorded year."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.crops.crop_water import CropRow, HeldWater, WaterFigures, water_figures
from planner.season.water.balance import Ground, need_by_day, water_balance
from planner.season.water.crop_coefficients import (
    FULL_COVER,
    TABLE_WIND,
    brightest_day,
    for_climate,
    ground_covered,
    of_thin_stand,
    shade_at_noon,
    under_organic_mulch,
    upper_limit,
)
from planner.season.water.radiation import least_humidity, vapour_from_dew_point
from planner.season.water.recorded_years import WaterWeather
from planner.season.water.stages import StageDays, course

Numbers = NDArray[np.float64]

#: Days of bare ground before a planting, over which its soil comes to the moisture of the time (practice). [days]
LEAD = 30
#: The same under a roof, where crop follows crop and the one before left its ground moist (practice). [days]
_LEAD_UNDER_GLASS = 7
#: What bare ground loses is mixed as it is dug and raked for sowing or planting, so deep (practice). [m]
SPADE = 0.30
#: Nothing grows, and nothing is watered, while the mean of the day in a usual year is colder (practice). [deg C]
COLDEST_GROWTH = 5.0
#: Over so many days the mean of the day in a usual year is smoothed. [days]
_USUAL_DAYS = 21
#: Nobody leaves a bed that wants water for longer: a week's need is given within the week (practice). [days]
LONGEST_INTERVAL = 7
#: Plantings that are worked out together: what fits the memory that is near the processor.
_TOGETHER = 128
#: In a dry year less is needed in so many years of ten.
DRY_YEAR = 0.8


class PlantingInWater(NamedTuple):
    """All that the water of a planting depends on.

    Attributes
    ----------
    weather : WaterWeather
    row : CropRow
    stages : StageDays
    cover : float
        Share of its ground that the leaves of grown plants would cover; above 1 where they overlap or hang over.
    height : float
        Of the grown plants. [m]
    soil : HeldWater
    root_depth : float
        That a grown plant roots to in this bed. [m]
    glass : bool
        It stands in a glasshouse or tunnel, without rain.
    dry_spells : tuple of (int, int)
        First and last day of each time under a low tunnel or cloche, counted from the first day of the growing year.
    film : float
        Share of the ground that the holes of a film leave open, 0 to 1; 1 without film.
    mulch : float
        Share of the ground under straw, bark or the like.
    drip : bool
        Watered by drip lines, which wet less of the ground.
    rain_share : float
        Of the rain, what reaches the bed: less at the foot of a wall and under a tree.
    container : bool
        Its soil is that of a container, over which plants may hang.
    """

    weather: WaterWeather
    row: CropRow
    stages: StageDays
    cover: float
    height: float
    soil: HeldWater
    root_depth: float
    glass: bool = False
    dry_spells: tuple[tuple[int, int], ...] = ()
    film: float = 1.0
    mulch: float = 0.0
    drip: bool = False
    rain_share: float = 1.0
    container: bool = False


@dataclass(frozen=True, eq=False)
class PlantingWater:
    """Water of a planting in a growing year.

    Attributes
    ----------
    weeks : tuple of date
        Monday of each week of the growing year.
    need : ndarray, shape (weeks, years)
        Watering that keeps the crop from thirst. [mm/week]
    taken : ndarray, shape (weeks, years)
        Evapotranspiration of the crop so watered. [mm/week]
    readily : ndarray, shape (weeks,)
        Water that the crop draws from the soil without harm, in the mean; 0 where it does not stand there. [mm]
    daily : ndarray, shape (weeks,)
        What the crop takes on a day of the week that has no rain, in the mean of the years. [mm/day]
    peak : float
        Greatest evapotranspiration of a day that one year in two has. [mm/day]
    """

    weeks: tuple[dt.date, ...]
    need: Numbers
    taken: Numbers
    readily: Numbers
    daily: Numbers
    peak: float

    def __post_init__(self) -> None:
        for values in (self.need, self.taken, self.readily, self.daily):
            values.flags.writeable = False

    @property
    def median(self) -> Numbers:
        """Need of each week that half of the years have. [mm/week]"""
        found: Numbers = np.median(self.need, axis=1)
        return found

    @property
    def dry(self) -> Numbers:
        """Need of each week in a dry year: eight years of ten need less. [mm/week]"""
        return dry_year(self.need)

    @property
    def interval(self) -> Numbers:
        """Days between waterings by soil and root, 1 to 7; 0 in weeks in which it does not grow there. [days]"""
        days = self.readily / np.maximum(self.daily, 1e-9)
        found: Numbers = np.where(self.daily > 0.05, np.clip(days, 1.0, LONGEST_INTERVAL), 0.0)
        return found


def dry_year(need: Numbers, axis: int = -1) -> Numbers:
    """The need that eight years of ten do not reach, over the axis of the years."""
    found: Numbers = np.quantile(need, DRY_YEAR, axis=axis)
    return found


def mondays(first: dt.date, days: int) -> tuple[dt.date, ...]:
    """Monday of each week that has a day of a span, in order.

    Parameters
    ----------
    first : date
    days : int

    Examples
    --------
    >>> [str(day) for day in mondays(dt.date(2026, 1, 1), 6)]
    ['2025-12-29', '2026-01-05']
    """
    monday = first - dt.timedelta(days=first.weekday())
    count = ((first - monday).days + days - 1) // 7 + 1
    return tuple(monday + dt.timedelta(days=7 * week) for week in range(count))


def planting_waters(asked: Sequence[PlantingInWater]) -> list[PlantingWater]:
    """The water of many plantings, those of the same weather together.

    Parameters
    ----------
    asked : sequence of PlantingInWater

    Returns
    -------
    list of PlantingWater
        In the order asked.
    """
    found: list[PlantingWater | None] = [None] * len(asked)
    by_weather: dict[int, list[int]] = {}
    for place, one in enumerate(asked):
        by_weather.setdefault(id(one.weather), []).append(place)
    for places in by_weather.values():
        turns = -(-len(places) // _TOGETHER)
        for turn in range(turns):
            part = places[turn::turns]
            for place, water in zip(part, _together([asked[one] for one in part]), strict=True):
                found[place] = water
    return [one for one in found if one is not None]


def _together(asked: Sequence[PlantingInWater]) -> list[PlantingWater]:
    weather = asked[0].weather
    ground = ground_of(asked)
    balance = water_balance(ground, weather.reference, weather.rain)
    need = need_by_day(balance, ground.growing)
    weeks = mondays(weather.first, weather.days)
    starts = np.maximum([(week - weather.first).days for week in weeks], 0)
    by_week = np.add.reduceat(need, starts, axis=0)
    growing = ground.growing[:, :, None]
    drawn = np.where(growing, balance.evapotranspiration, 0.0)
    taken = np.add.reduceat(drawn, starts, axis=0)
    standing = np.add.reduceat(ground.growing.astype(np.float64), starts, axis=0)
    of_days = np.maximum(standing, 1.0)
    readily = np.add.reduceat(np.where(growing, balance.readily, 0.0).mean(axis=2), starts, axis=0) / of_days
    dry_day = growing & (weather.rain < 1.0)[:, None, :]
    sums = np.add.reduceat(np.where(dry_day, drawn, 0.0).sum(axis=2), starts, axis=0)
    counts = np.add.reduceat(dry_day.sum(axis=2).astype(np.float64), starts, axis=0)
    mean = taken.mean(axis=2) / of_days
    daily = np.where(counts > 0, sums / np.maximum(counts, 1.0), mean)
    peak = np.median(drawn.max(axis=0), axis=1)
    return [
        PlantingWater(
            weeks=weeks,
            need=by_week[:, place].copy(),
            taken=taken[:, place].copy(),
            readily=readily[:, place].copy(),
            daily=daily[:, place].copy(),
            peak=float(peak[place]),
        )
        for place in range(len(asked))
    ]


def ground_of(asked: Sequence[PlantingInWater]) -> Ground:
    """Plantings of one weather as arrays for the balance.

    Parameters
    ----------
    asked : sequence of PlantingInWater
    """
    weather, figures = asked[0].weather, water_figures()
    days = weather.days
    columns = [_column(one, figures, days) for one in asked]
    soils = [one.soil for one in asked]
    number = figures.number
    return Ground(
        basal=np.stack([one.basal for one in columns], axis=1),
        limit=np.stack([one.limit for one in columns], axis=1),
        covered=np.stack([one.covered for one in columns], axis=1),
        available=np.stack([one.available for one in columns], axis=1),
        growing=np.stack([one.growing for one in columns], axis=1),
        demand=np.stack([one.demand for one in columns], axis=1),
        rain_share=np.stack([one.rain_share for one in columns], axis=1),
        depletion=np.array([one.row.row.depletion for one in asked]),
        evaporable=np.array([one.evaporable for one in soils]),
        readily_evaporable=np.array([one.readily_evaporable for one in soils]),
        wetted=np.array([number("wetted_by_drip" if one.drip else "wetted_by_hand") for one in asked]),
        evaporating=np.array([float(under_organic_mulch(one.mulch, number("mulch_cut"))) for one in asked]),
        openings=np.array([one.film for one in asked]),
        watered=np.ones(len(asked), dtype=bool),
        refilled=np.stack([one.refilled for one in columns], axis=1),
    )


class _Column(NamedTuple):
    """One planting by day."""

    basal: Numbers
    limit: Numbers
    covered: Numbers
    available: Numbers
    growing: NDArray[np.bool_]
    demand: Numbers
    rain_share: Numbers
    refilled: NDArray[np.bool_]


def season_of_growth(weather: WaterWeather) -> NDArray[np.bool_]:
    """Days on which plants grow: those whose mean temperature in a usual year is 5 deg C or more (practice).

    On the others they stand dormant, or in frozen ground: they draw nothing, and nobody waters them.

    Parameters
    ----------
    weather : WaterWeather

    Returns
    -------
    ndarray of bool, shape (days,)
    """
    mean = (weather.low + weather.high) / 2
    reach = min(_USUAL_DAYS // 2, len(mean))
    # The end of the year adjoins its beginning.
    round_the_year = np.concatenate([mean[len(mean) - reach :], mean, mean[:reach]])
    width = 2 * reach + 1
    smooth = np.convolve(round_the_year, np.ones(width) / width, mode="valid")
    found: NDArray[np.bool_] = smooth >= COLDEST_GROWTH
    return found


def _column(one: PlantingInWater, figures: WaterFigures, days: int) -> _Column:
    stages, weather, number = one.stages, one.weather, figures.number
    at = np.arange(days)
    standing = (at >= stages.first) & (at <= stages.last)
    growing = standing & season_of_growth(weather)
    lead = _LEAD_UNDER_GLASS if one.glass else LEAD
    counts = (at >= stages.first - lead) & (at <= stages.last)
    humidity = _humidity(weather, stages)
    basal = _basal(one, number, humidity, days)
    share = _grown_share(basal, one)
    height = np.maximum(one.height * share, 0.05)
    limit = np.where(standing, upper_limit(basal, TABLE_WIND, humidity, height), 1.2)
    covered = np.where(
        standing, np.minimum(ground_covered(basal, limit, height), max(min(one.cover, 0.99), 0.01)), 0.0
    )
    basal = np.where(growing, basal, 0.0)
    start = min(number("root_start"), one.root_depth)
    # Roots go down with the crop and stay there (FAO 56, annex 8).
    depth = np.where(
        standing,
        start + (one.root_depth - start) * np.maximum.accumulate(np.where(standing, share, 0.0)),
        start,
    )
    available = 1000 * one.soil.available * depth
    demand = np.where(counts, number("glass_evapotranspiration") if one.glass else 1.0, 0.0)
    hanging = min(max(one.cover, 1.0), number("pot_most")) if one.container else 1.0
    # Digging mixes the dry top with the moist ground beneath it; the roots of young plants have their part of a spade's depth.
    demand = np.where(at < stages.first, demand * min(start / SPADE, 1.0), demand)
    demand = demand * np.where(standing, 1 + (hanging - 1) * share, 1.0)
    rain_share = np.full(days, 0.0 if one.glass else one.rain_share)
    if one.film < 1.0:
        rain_share = np.where(standing, rain_share * number("film_rain"), rain_share)
    for first, last in one.dry_spells:
        under = (at >= first) & (at <= last)
        rain_share = np.where(under, 0.0, rain_share)
        demand = np.where(
            under & standing & ~np.bool_(one.glass), demand * number("glass_evapotranspiration"), demand
        )
    refilled = np.zeros(days, dtype=bool)
    if one.glass and growing.any():
        # No rain fills this ground again: what its plants have drawn is given at the latest as they are done.
        refilled[np.flatnonzero(growing)[-1]] = True
    return _Column(basal, limit, covered, available, growing, demand, rain_share, refilled)


def _humidity(weather: WaterWeather, stages: StageDays) -> float:
    """Least relative humidity of the days of middle and late stage, dew at the lowest temperature (equation 64). [per cent]"""
    first, last = (int(np.clip(day, 0, weather.days - 1)) for day in (stages.full, stages.end))
    part = slice(first, max(last, first) + 1)
    found = least_humidity(vapour_from_dew_point(weather.low[part]), weather.high[part])
    return float(np.mean(found))


def _basal(one: PlantingInWater, number: Callable[[str], float], humidity: float, days: int) -> Numbers:
    """The basal coefficient of each day (equations 66, 70 and 98), less over film."""
    row = one.row.row
    initial, middle, end = row.basal
    height = max(one.height, 0.1)
    middle, end = (float(for_climate(value, TABLE_WIND, humidity, height)) for value in (middle, end))
    if one.film < 1.0:
        initial = min(initial, number("film_initial"))
        middle, end = number("film_basal") * middle, number("film_basal") * end
    if one.cover < FULL_COVER:
        shade = shade_at_noon(one.cover, one.weather.latitude, brightest_day(one.weather.latitude), -1.0)
        thin = float(of_thin_stand(middle, one.cover, shade, height))
        end = max(end * thin / middle, 0.0) if middle > 0 else end
        middle = thin
        initial = min(initial, middle)
    return course(one.stages, days, (initial, middle, end))


def _grown_share(basal: Numbers, one: PlantingInWater) -> Numbers:
    """How far the crop has come from its start to full cover, 0 to 1; it does not shrink again within its season."""
    stages = one.stages
    if stages.yearly:
        return np.ones(len(basal))
    at = np.arange(len(basal), dtype=np.float64)
    share: Numbers = np.clip((at - stages.covers) / max(stages.full - stages.covers, 1.0), 0.0, 1.0)
    return share
