"""The harvest of recorded years against a plain loop over plantings, years and days."""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import replace

import numpy as np
import pytest

from planner.amounts.harvest import harvests
from planner.amounts.harvest_years import HarvestYears, harvest_years, lived_of_harvest
from planner.amounts.picking import picking_of
from planner.garden import WeatherYears
from planner.plan import Plan
from planner.season.tasks import monday
from tests.recorded_gardens import recorded


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(recorded("hollow_lane"), 2026)


def plain_loop(plan: Plan) -> dict[int, dict[dt.date, int]]:
    """Grams by year and Monday, planting by planting, day by day."""
    found: dict[int, dict[dt.date, int]] = {}
    lists = []
    for one in harvests(plan):
        if not one.picks:
            continue
        lived = lived_of_harvest(plan, one)
        by_year: dict[int, list[tuple[dt.date, int]]] = {}
        if lived is not None:
            for number, year in enumerate(lived.years.tolist()):
                by_year[year] = []
                if math.isnan(lived.first[number]):
                    continue
                dates = plan.dates(one.planting)
                first = dt.date.fromordinal(int(lived.first[number]))
                last = (
                    first if math.isnan(lived.last[number]) else dt.date.fromordinal(int(lived.last[number]))
                )
                dates = replace(
                    dates,
                    first_harvest=replace(dates.first_harvest, day=first),
                    last_harvest=replace(dates.last_harvest, day=last) if dates.last_harvest else None,
                )
                picking = picking_of(one.planting, plan.figures_of(one.planting), dates)
                assert picking is not None
                by_year[year] = list(picking.picks_left(one.amount.grams or 0, plan.survival(one.planting)))
        lists.append((one, by_year if lived is not None else None))
    years = set.intersection(*(set(by_year) for _, by_year in lists if by_year is not None))
    for year in years:
        weeks = found.setdefault(year, {})
        for one, by_year in lists:
            for day, grams in one.picks if by_year is None else by_year[year]:
                if plan.span.holds(day):
                    weeks[monday(day)] = weeks.get(monday(day), 0) + grams
    return found


def test_harvest_by_week_of_each_year_is_that_of_a_plain_loop(plan: Plan) -> None:
    found = harvest_years(plan, harvests(plan))
    assert found is not None
    plain = plain_loop(plan)
    assert sorted(plain) == list(found.years)
    assert len(found.years) >= 25
    plantings = len(harvests(plan))
    for row, year in enumerate(found.years):
        for column, day in enumerate(found.mondays):
            assert found.grams[row, column] == pytest.approx(plain[year].get(day, 0), abs=plantings)


def test_quantiles_are_taken_over_the_sums_of_each_year(plan: Plan) -> None:
    found = harvest_years(plan, harvests(plan))
    assert found is not None
    plain = plain_loop(plan)
    for column, day in enumerate(found.mondays):
        sums = sorted(weeks.get(day, 0) for weeks in plain.values())
        for share in (0.1, 0.5, 0.9):
            at = share * (len(sums) - 1)
            below = int(at)
            above = min(below + 1, len(sums) - 1)
            wanted = sums[below] + (at - below) * (sums[above] - sums[below])
            assert found.quantile(share)[column] == pytest.approx(wanted, abs=len(harvests(plan)))


def test_quantiles_of_sums_are_not_sums_of_quantiles(plan: Plan) -> None:
    every = harvests(plan)
    together = harvest_years(plan, every)
    alone = [one for each in every if (one := harvest_years(plan, [each])) is not None]
    assert together is not None
    apart = sum(one.quantile(0.9) for one in alone)
    assert (apart - together.quantile(0.9)).max() > 100  # grams of a week


def test_spread_of_a_week_and_of_the_year_hold_what_is_between() -> None:
    mondays = (dt.date(2026, 7, 6), dt.date(2026, 7, 13))
    years = HarvestYears((2001, 2002, 2003), mondays, np.array([[0.0, 10.0], [4.0, 10.0], [8.0, 10.0]]))
    assert years.of_week(mondays[0]) == pytest.approx((0.8, 4.0, 7.2))
    assert years.total == pytest.approx((10.8, 14.0, 17.2))
    assert years.worst == (2001, 10.0)


def test_nothing_is_known_without_recorded_years(plan: Plan) -> None:
    bare = Plan(plan.garden.with_(weather=WeatherYears()), plan.year)
    assert harvest_years(bare, harvests(bare)) is None
