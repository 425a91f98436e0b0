"""What goes into store in each recorded year, and how long it lasts in the worst of them."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from planner.amounts.eating import STORED
from planner.amounts.harvest import (
    FRESH_PLACE,
    Harvest,
    HarvestInputs,
    harvest_inputs,
    harvest_of_planting,
)
from planner.amounts.harvest_years import HIGH, LOW, MIDDLE, dates_in_years, lived_of_harvest
from planner.amounts.supply_year import CropYear, CropYearInputs, crop_year
from planner.plan import Plan
from planner.plan.cache import fact
from planner.season.lived.lived_years import Lived

#: A store that ends by fewer days sooner is as planned (practice). [days]
SOONER = 7


@dataclass(frozen=True)
class StoreYears:
    """The store of a crop, or of crops that are eaten in each other's place, over the recorded years.

    Attributes
    ----------
    crop : CropYear
        As planned.
    years : tuple of int
        Recorded growing years that count for all of its plantings.
    planned : int
        What goes into store by the plan. [g]
    spread : tuple of float
        10 %, middle and 90 % of what goes into store in a year. [g]
    worst : int
        The recorded year with the least; of several the one in which it keeps for the shortest time.
    least : int
        What goes into store in it. [g]
    runs_out, planned_out : date or None
        The day on which the store of the worst year, and that of the plan, runs out or spoils; None without any.
    """

    crop: CropYear
    years: tuple[int, ...]
    planned: int
    spread: tuple[float, float, float]
    worst: int
    least: int
    runs_out: dt.date | None
    planned_out: dt.date | None

    @property
    def is_worse(self) -> bool:
        """Whether the worst year leaves less than the plan, or not for so long."""
        sooner = self.runs_out is None or (
            self.planned_out is not None and (self.planned_out - self.runs_out).days >= SOONER
        )
        return self.least < self.planned or sooner


class StoredInputs(NamedTuple):
    """The harvest of a planting as planned depends on the first; the other is its life in the recorded years."""

    inputs: HarvestInputs
    lived: Lived


@fact("harvests of recorded years")
def harvests_of_years(inputs: StoredInputs) -> tuple[Harvest | None, ...]:
    """The harvest of a planting in each recorded year, with how long it keeps; None in a year without one."""
    return tuple(
        harvest_of_planting.work(inputs.inputs._replace(dates=dates)) if dates is not None else None
        for dates in dates_in_years(inputs.inputs.dates, inputs.lived)
    )


def store_years(plan: Plan, years: tuple[CropYear, ...]) -> tuple[StoreYears, ...]:
    """The store of each crop that is kept for months, over the recorded years; empty where none are recorded.

    Parameters
    ----------
    plan : Plan
    years : tuple of CropYear
        Of the plan.
    """
    found = (_store_of(plan, one) for one in years if one.course is not None and _stored(one.harvests))
    return tuple(one for one in found if one is not None)


def _store_of(plan: Plan, crop: CropYear) -> StoreYears | None:
    by_year: list[tuple[Harvest, dict[int, Harvest | None] | None]] = []
    common: set[int] | None = None
    for one in crop.harvests:
        lived = lived_of_harvest(plan, one) if one.picks else None
        if lived is None:
            by_year.append((one, None))
            continue
        inputs = StoredInputs(harvest_inputs(plan, one.planting), lived)
        in_years = plan.cached(harvests_of_years, (one.planting.id, plan.year), inputs)
        of_year = dict(zip(lived.years.tolist(), in_years, strict=True))
        by_year.append((one, of_year))
        common = set(of_year) if common is None else common & set(of_year)
    if not common:
        return None
    years = sorted(common)
    harvests = {
        year: tuple(
            there
            for one, of_year in by_year
            if (there := one if of_year is None else of_year[year]) is not None
        )
        for year in years
    }
    amounts = [_stored(harvests[year]) for year in years]
    at = min(range(len(years)), key=lambda number: (amounts[number], _good_until(harvests[years[number]])))
    low, middle, high = np.quantile(amounts, (LOW, MIDDLE, HIGH)).tolist()
    worst = _followed(plan, crop, harvests[years[at]])
    return StoreYears(
        crop,
        tuple(years),
        _stored(crop.harvests),
        (low, middle, high),
        years[at],
        amounts[at],
        _runs_out(worst),
        _runs_out(crop),
    )


def _stored(harvests: tuple[Harvest, ...]) -> int:
    """What of some harvests is kept for so long that it is a store. [g]"""
    return sum(
        lot.grams
        for one in harvests
        for lot in one.lots
        if lot.place != FRESH_PLACE and (lot.last - lot.first).days >= STORED
    )


def _good_until(harvests: tuple[Harvest, ...]) -> dt.date:
    return max(
        (lot.last for one in harvests for lot in one.lots if lot.place != FRESH_PLACE), default=dt.date.min
    )


def _followed(plan: Plan, crop: CropYear, harvests: tuple[Harvest, ...]) -> CropYear:
    """The year of a crop with other harvests, at the amount that is eaten by the plan."""
    inputs = CropYearInputs(
        crop.appetite,
        plan.garden.household.persons,
        harvests,
        crop.before,
        (plan.span.first, plan.span.last),
    )
    return crop_year.work(inputs)


def _runs_out(crop: CropYear) -> dt.date | None:
    """The last day on which something of this year's harvest is in store."""
    mine = {one.planting.id for one in crop.harvests}
    return max(
        (course.gone or course.lot.last for one, course in crop.stored if one.planting.id in mine),
        default=None,
    )
