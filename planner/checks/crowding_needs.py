"""The distance that plants of two plantings need on the days they share."""

from __future__ import annotations

import datetime as dt
from typing import NamedTuple

from planner.checks.frame.planting_view import PlantGrowth, PlantingView
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.spans import Span

#: Share of the need that two plantings may lack: plants lean to where there is room (practice).
LEAN = 0.25
#: Height ratio above which two plants of different families count as two storeys (practice).
STOREYS = 1.5
#: Share of their need that suffices for two storeys: one uses the light above, the other the ground below (practice).
UNDER = 0.6
#: Greatest spread of the lower storey, unless it runs along the ground (practice). [m]
SLIGHT = 0.6
#: Days from one day on which the need is worked out to the next. [days]
STEP = 7


class NeedInputs(NamedTuple):
    """Two plantings that share some days.

    Attributes
    ----------
    one, other : PlantGrowth
    mixed : bool
        Whether one is meant to grow between the plants of the other.
    first, last : date
        The shared days.
    """

    one: PlantGrowth
    other: PlantGrowth
    mixed: bool
    first: dt.date
    last: dt.date


class Need(NamedTuple):
    """Least distance between plants of two plantings on a day, leaning included. [m]"""

    day: dt.date
    distance: float


@fact("distance needed")
def needs_of_pair(inputs: NeedInputs) -> tuple[Need, ...]:
    """The distance two plantings need on their shared days, every :data:`STEP` days and on the last day."""
    one, other, mixed, first, last = inputs
    days = [first + dt.timedelta(days=n) for n in range(0, (last - first).days + 1, STEP)]
    if days[-1] != last:
        days.append(last)
    found = []
    for day in days:
        needed = (_width_needed(one, day, mixed) + _width_needed(other, day, mixed)) / 2
        if one.family != other.family and _in_storeys(one, other, day):
            needed *= UNDER
        found.append(Need(day, needed * (1 - LEAN)))
    return tuple(found)


def needs_of_plantings(plan: Plan, one: PlantingView, other: PlantingView, days: Span) -> tuple[Need, ...]:
    """The distance two plantings need on their shared days, from the cache of the plan.

    Parameters
    ----------
    plan : Plan
    one, other : PlantingView
    days : Span
        Shared by the two, within the growing year.
    """
    mixed = one.planting.shares_ground or other.planting.shares_ground
    inputs = NeedInputs(one.growth, other.growth, mixed, days.first, days.last)
    return plan.cached(needs_of_pair, (one.id, other.id), inputs)


def _width_needed(plant: PlantGrowth, day: dt.date, mixed: bool) -> float:
    """Width of ground one plant needs on a day, beside another planting or mixed with it. [m]"""
    spread = plant.size(day).spread
    if not mixed:
        return min(spread, plant.most_need)
    return spread if plant.own_spacing is None else min(plant.own_spacing, spread)


def _in_storeys(one: PlantGrowth, other: PlantGrowth, day: dt.date) -> bool:
    """Whether one plant grows upright above the other, which is slight or runs along the ground."""
    sizes = [(plant.size(day), plant) for plant in (one, other)]
    (low, beneath), (high, _) = sorted(sizes, key=lambda item: item[0].height)
    crop = beneath.figures.crop
    runs = crop is not None and crop.growth_form == "sprawler"
    upright = high.spread <= high.height
    return high.height >= STOREYS * low.height and upright and (runs or low.spread <= SLIGHT)
