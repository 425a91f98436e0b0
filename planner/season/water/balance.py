"""The daily balance of water in the soil of many plantings through many years at once (FAO 56, equations 71 to 88).

A balance is a recursion in time, so there is one loop over the days; in it all plantings and all years are worked out
together as arrays.  Rain and watering fall early in the day, as in examples 35, 37 and 38 of the paper: they fill the
soil first, what is too much seeps away, and then the day's evapotranspiration is drawn.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]

#: Rain that wets the whole of the ground, so that evaporation goes on from all of it (FAO 56, chapter 7). [mm]
WETTING_RAIN = 3.0


@dataclass(frozen=True)
class Ground:
    """Plantings and their soil, by day.

    Arrays are of shape (days, plantings) where they say "by day", else (plantings,).

    Attributes
    ----------
    basal : ndarray
        Basal coefficient by day; 0 of bare ground.
    limit : ndarray
        Most of crop and wet ground together, by day (equation 72).
    covered : ndarray
        Share of the ground under leaves, by day.
    available : ndarray
        Water that can be drawn from the root zone, by day. [mm]
    growing : ndarray of bool
        Plants stand there and are watered, by day.
    demand : ndarray
        Share of the reference evapotranspiration that acts there, by day: 0 on days that do not count, less than 1 under glass,
        more than 1 of plants that hang over their container.
    rain_share : ndarray
        Share of the rain that reaches the soil, by day; the rest runs off.
    depletion : ndarray
        Share of the available water that is drawn without harm at 5 mm a day.
    evaporable, readily_evaporable : ndarray
        Water that evaporates from the topsoil in all, and at the full pace. [mm]
    wetted : ndarray
        Share of the ground that watering wets.
    evaporating : ndarray
        Share of the evaporation that mulch leaves.
    openings : ndarray
        Share of the ground that can evaporate: 1, or the holes of a film.
    watered : ndarray of bool
        Filled to field capacity whenever what is drawn without harm is gone.
    refilled : ndarray of bool, optional
        Filled to field capacity on that day, whatever is missing, by day: ground under a roof as its plants are done.
    """

    basal: Numbers
    limit: Numbers
    covered: Numbers
    available: Numbers
    growing: Flags
    demand: Numbers
    rain_share: Numbers
    depletion: Numbers
    evaporable: Numbers
    readily_evaporable: Numbers
    wetted: Numbers
    evaporating: Numbers
    openings: Numbers
    watered: Flags
    refilled: Flags | None = None

    @property
    def days(self) -> int:
        """How many days there are."""
        return int(self.basal.shape[0])

    @property
    def plantings(self) -> int:
        """How many plantings there are."""
        return int(self.basal.shape[1])


class Start(NamedTuple):
    """What is missing on the eve of the first day, shape (plantings, years). [mm]"""

    root_zone: Numbers
    topsoil: Numbers


class Balance(NamedTuple):
    """What became of the water, each of shape (days, plantings, years). [mm/day]

    Attributes
    ----------
    evapotranspiration : ndarray
        What crop and soil took.
    wanted : ndarray
        What they would have taken from moist soil.
    watering : ndarray
    percolation, runoff : ndarray
        What seeped below the roots, and what never reached the soil.
    depletion : ndarray
        What was missing in the root zone at the end of the day. [mm]
    readily : ndarray
        What can be drawn without harm. [mm]
    evaporation : ndarray
        The part of the evapotranspiration that came from the soil.
    """

    evapotranspiration: Numbers
    wanted: Numbers
    watering: Numbers
    percolation: Numbers
    runoff: Numbers
    depletion: Numbers
    readily: Numbers
    evaporation: Numbers


def water_balance(
    ground: Ground,
    reference: Numbers,
    rain: Numbers,
    *,
    given: Numbers | None = None,
    start: Start | None = None,
    fixed_share: bool = False,
) -> Balance:
    """Run the balance of all plantings through all years.

    Parameters
    ----------
    ground : Ground
    reference : ndarray, shape (days, years)
        Reference evapotranspiration. [mm/day]
    rain : ndarray, shape (days, years)
        [mm/day]
    given : ndarray, optional
        Watering beside that of the rule, broadcast to (days, plantings, years). [mm/day]
    start : Start, optional
        Moist soil by default.
    fixed_share : bool
        Take the table's share that is drawn without harm on every day, whatever the crop takes.

    Returns
    -------
    Balance
    """
    days, plantings, years = ground.days, ground.plantings, reference.shape[1]
    shape = (plantings, years)
    found = Balance(*(np.empty((days, *shape)) for _ in Balance._fields))
    missing = np.zeros(shape) if start is None else start.root_zone.astype(np.float64)
    dry = np.zeros(shape) if start is None else start.topsoil.astype(np.float64)
    evaporable, readily_evaporable = ground.evaporable[:, None], ground.readily_evaporable[:, None]
    falling = np.maximum(evaporable - readily_evaporable, 1e-9)
    by_watering, openings = ground.wetted[:, None], ground.openings[:, None]
    mulched, table = ground.evaporating[:, None], ground.depletion[:, None]
    wetted = np.ones(shape)
    rule = bool(ground.watered.any())
    for day in range(days):
        basal, limit = ground.basal[day, :, None], ground.limit[day, :, None]
        available = ground.available[day, :, None]
        power = ground.demand[day, :, None] * reference[day]
        # What can be drawn without harm (equation 83; its share by what the crop takes, table 22).
        transpiring = basal * power
        share = table if fixed_share else np.clip(table + 0.04 * (5 - transpiring), 0.1, 0.8)
        readily = share * available
        # Rain and watering fill the root zone; the rest seeps away (equations 85 and 88).
        reaching = ground.rain_share[day, :, None] * rain[day]
        after_rain = np.maximum(missing - reaching, 0.0)
        water = np.zeros(shape) if given is None else np.broadcast_to(given[day], shape).astype(np.float64)
        if rule:
            due = after_rain >= readily
            if ground.refilled is not None:
                due |= ground.refilled[day, :, None]
            due &= (ground.watered & ground.growing[day])[:, None]
            water = water + np.where(due, after_rain, 0.0)
        begun = np.maximum(after_rain - water, 0.0)
        # The topsoil (equations 71 to 77).
        wetted = np.where(water > 0, by_watering, np.where(reaching >= WETTING_RAIN, 1.0, wetted))
        top = np.maximum(dry - reaching - water / wetted, 0.0)
        exposed = np.maximum(np.minimum(1 - ground.covered[day, :, None], wetted) * openings, 0.01)
        wet = np.clip((evaporable - top) / falling, 0.0, 1.0)
        soil = np.minimum(wet * (limit - basal), exposed * limit) * mulched * power
        # Transpiration falls off as the root zone dries (equations 80 and 84).
        thirst = np.clip((available - begun) / np.maximum(available - readily, 1e-9), 0.0, 1.0)
        taken = np.minimum(thirst * transpiring + soil, np.maximum(available - begun, 0.0))
        found.evapotranspiration[day] = taken
        found.wanted[day] = transpiring + soil
        found.watering[day] = water
        found.percolation[day] = reaching + water - (missing - begun)
        found.runoff[day] = rain[day] - reaching
        found.readily[day] = readily
        found.evaporation[day] = np.minimum(soil, taken)
        missing = begun + taken
        found.depletion[day] = missing
        dry = np.minimum(top + soil / exposed, evaporable)
    return found


def need_by_day(balance: Balance, growing: Flags) -> Numbers:
    """Each watering laid back onto the days whose evapotranspiration it replaces.

    A rule that waters when the soil has dried gives nothing for some weeks and much in one; what a week needs is its part of the
    watering that follows it.

    Parameters
    ----------
    balance : Balance
    growing : ndarray of bool, shape (days, plantings)
        Days on which plants stand there.

    Returns
    -------
    ndarray, shape (days, plantings, years)
        The same sum for each planting and year as the watering. [mm/day]
    """
    days, plantings, years = balance.watering.shape
    watered = balance.watering.reshape(days, -1)
    drawn = (balance.evapotranspiration * growing[:, :, None]).reshape(days, -1)
    columns = watered.shape[1]
    turn = np.cumsum(watered > 0, axis=0)
    turns = int(turn.max(initial=0)) + 1
    place = turn * columns + np.arange(columns)
    by_turn = np.bincount(place.ravel(), drawn.ravel(), minlength=turns * columns)
    amounts = np.zeros((turns + 1) * columns)
    at = np.flatnonzero(watered.ravel() > 0)
    amounts[place.ravel()[at]] = watered.ravel()[at]
    ratio = amounts[columns:] / np.maximum(by_turn[: turns * columns], 1e-12)
    nothing_drawn = by_turn <= 1e-12
    ratio[nothing_drawn] = 0.0
    need = ratio[place] * drawn
    # A watering that follows a turn in which nothing was drawn (its first day) is needed on its own day.
    orphan = nothing_drawn.reshape(turns, columns)[np.maximum(turn - 1, 0), np.arange(columns)] & (
        watered > 0
    )
    need = need + np.where(orphan, watered, 0.0)
    found: Numbers = need.reshape(days, plantings, years)
    return found
