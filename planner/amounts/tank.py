"""The volume of a butt or tank that would last: filled from roofs, or holding so many days of need.

Of a tank that roofs fill, the least volume that never runs dry follows from the sums of need and inflow (the sequent peak
algorithm, Thomas and Fiering 1962, as hydrology texts give it); a tank of any volume is simulated week by week.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.crops.crop_water import water_figures
from planner.ground.shapes import outline_area
from planner.plan import Plan
from planner.plan.water import GardenWater
from planner.season.water.planting_water import DRY_YEAR, dry_year

Numbers = NDArray[np.float64]

#: Structures whose roofs can fill a tank.
_ROOFED = ("shed", "glasshouse")
#: Sizes of butts and tanks that are tried where the roofs never gather enough (practice). [l]
_SIZES = (200, 300, 500, 1_000, 2_000, 3_000, 5_000, 10_000, 20_000)
#: A larger tank is not worth while when this one meets so much of what any could.
_WORTH = 0.9
#: Without roofs a tank is to hold the need of so many weeks at the driest time of a dry year (practice).
WEEKS_TO_HOLD = 2


class Tank(NamedTuple):
    """A tank for a garden's watering.

    Attributes
    ----------
    roof : float
        Roof that fills it; 0 where none is drawn. [m2]
    volume : float
        With which it does not run dry in eight years of ten; of roofs that gather too little, the size beyond which a larger
        one catches hardly more. [l]
    enough : bool
        Whether the roofs gather enough in eight years of ten.
    met : float
        Share of a year's need that it meets, in the median year.
    weeks : int
        Weeks of need it holds where no roof fills it; 0 where one does.
    yearly : float
        Water that the roofs gather in the median year. [l]
    """

    roof: float
    volume: float
    enough: bool
    met: float
    weeks: int
    yearly: float


def roof_area(plan: Plan) -> float:
    """Area of the roofs of sheds and glasshouses of a growing year, seen from above. [m2]"""
    return math.fsum(
        outline_area(one.outline)
        for one in plan.garden.structures
        if one.kind in _ROOFED and one.in_use(plan.year)
    )


def inflow(water: GardenWater, roof: float) -> Numbers:
    """What roofs give in each week and recorded year, shape (weeks, years). [l]"""
    weather = water.weather
    starts = np.maximum([(week - weather.first).days for week in water.weeks], 0)
    rain = np.add.reduceat(weather.rain, starts, axis=0)
    found: Numbers = rain * roof * water_figures().number("roof_runoff")
    return found


def least_volume(need: Numbers, gathered: Numbers) -> Numbers:
    """Volume of a tank, full at the start, that never runs dry, of each year (sequent peak).

    Parameters
    ----------
    need, gathered : ndarray, shape (weeks, years)
        [l]
    """
    lacking = np.zeros(need.shape[1])
    most = np.zeros(need.shape[1])
    for week in range(need.shape[0]):
        lacking = np.maximum(lacking + need[week] - gathered[week], 0.0)
        most = np.maximum(most, lacking)
    return most


def share_met(need: Numbers, gathered: Numbers, volume: float, *, full: bool = True) -> Numbers:
    """Share of each year's need that a tank meets.

    Parameters
    ----------
    need, gathered : ndarray, shape (weeks, years)
        [l]
    volume : float
        [l]
    full : bool
        It is full at the start of the growing year, else empty.
    """
    held = np.full(need.shape[1], volume if full else 0.0)
    given = np.zeros(need.shape[1])
    for week in range(need.shape[0]):
        there = held + gathered[week]
        used = np.minimum(need[week], there)
        given += used
        held = np.minimum(there - used, volume)
    total = need.sum(axis=0)
    found: Numbers = np.where(total > 0, given / np.maximum(total, 1e-9), 1.0)
    return found


def tank_of(plan: Plan, water: GardenWater, volume: float | None = None) -> Tank:
    """The tank that a garden's watering wants.

    Parameters
    ----------
    plan : Plan
    water : GardenWater
    volume : float, optional
        What a tank of this volume would meet. [l]
    """
    roof = roof_area(plan) if water.weather.rain_known else 0.0
    need = water.litres
    if roof <= 0:
        both = need[:-1] + need[1:] if len(need) > 1 else need
        wanted = float(dry_year(both.max(axis=0)))
        asked = volume if volume is not None else wanted
        sums = np.median(need.sum(axis=0))
        return Tank(0.0, asked, False, float(min(asked / sums, 1.0)) if sums > 0 else 1.0, WEEKS_TO_HOLD, 0.0)
    gathered = inflow(water, roof)
    enough = float(np.mean(gathered.sum(axis=0) >= need.sum(axis=0))) >= DRY_YEAR
    if volume is not None:
        asked = volume
    elif enough:
        asked = float(dry_year(least_volume(need, gathered)))
    else:
        most = float(np.median(share_met(need, gathered, 1e9, full=False)))
        asked = next(
            (
                float(size)
                for size in _SIZES
                if np.median(share_met(need, gathered, size, full=False)) >= _WORTH * most
            ),
            float(_SIZES[-1]),
        )
    met = float(np.median(share_met(need, gathered, asked, full=enough)))
    return Tank(roof, asked, enough, met, 0, float(np.median(gathered.sum(axis=0))))
