"""Thirty recorded years that are all the usual one give the dates of the plan, and no spread."""

from __future__ import annotations

import datetime as dt
import functools

import numpy as np
import pytest
from season.lived.usual_years import usual_record

from planner import resources
from planner.garden import Planting
from planner.plan import Plan
from planner.season.date_inputs import context_of
from planner.season.lived.lived_plantings import live
from planner.season.lived.lived_years import Lived
from planner.season.lived.odds import odds_of
from planner.season.lived.recorded_weather import RecordedWeather
from planner.season.planting_dates import Dates
from planner.season.spans import usual_year
from planner.storage import load

SAMPLES = ("balcony_boxes", "hollow_lane", "red_mesa", "wattle_bank")
YEARS = 30
#: Plantings of each sample whose first picking, and whose last, are held against the plan.
FIRST = {"balcony_boxes": 7, "hollow_lane": 104, "red_mesa": 81, "wattle_bank": 57}
LAST = {"balcony_boxes": 7, "hollow_lane": 103, "red_mesa": 54, "wattle_bank": 57}


@functools.cache
def sample(name: str) -> tuple[Plan, RecordedWeather]:
    """A plan of a sample, and its usual weather thirty times."""
    garden = load(resources.sample_folder() / f"{name}.bedwright")
    plan = Plan(garden, usual_year(garden, dt.date(2026, 1, 1)))
    usual = context_of(plan.date_inputs(garden.plantings[0])).outside
    assert usual is not None
    assert garden.site.latitude is not None
    return plan, usual_record(usual, garden.site.latitude, garden.site.year_begins, YEARS)


def lived(name: str, planting: Planting) -> tuple[Dates, Lived | None]:
    plan, record = sample(name)
    dates = plan.dates(planting)
    return dates, live(plan.date_inputs(planting), dates, record)


def the_day(values: np.ndarray) -> dt.date | None:
    """The one day of all years."""
    assert len(values) == YEARS
    assert len(np.unique(values[~np.isnan(values)])) <= 1
    return None if np.isnan(values).any() else dt.date.fromordinal(int(values[0]))


def rests_on_other_rules(dates: Dates) -> tuple[str, str]:
    """Why a first and a last picking of the plan are not held against recorded weather; empty where they are.

    Records and days by hand; and usual frosts and cold, of which a year of monthly means has no nights.
    """
    first, last = dates.first_harvest, dates.last_harvest
    why_first = "" if first is not None and first.origin == "worked out" else "given"
    if last is None or last.origin == "by hand":
        return why_first, "given"
    usual = ("first autumn frost ends", "is usual from then on")
    return why_first, "frost" if any(words in last.why for words in usual) else why_first


def slack(plan: Plan, planting: Planting, dates: Dates, day: dt.date) -> int:
    """Days by which the two may differ: the usual year has a 29 February, which the plan counts in and the calendar does not.

    What stands over a February grows on it; what ends by the calendar after one may be a day off, and picking that is slow in winter
    two.  None otherwise.
    """
    began = dates.on_plot.day if dates.on_plot is not None else day
    if dates.stays_for_years:
        began = dt.date(day.year, 1, 1)
    leaps = [dt.date(year, 2, 28) for year in range(began.year, day.year + 1)]
    return 2 if any(began <= leap <= day for leap in leaps) else 0


@pytest.mark.parametrize("name", SAMPLES)
def test_first_picking_is_that_of_the_plan(name: str) -> None:
    held = 0
    for planting in sample(name)[0].garden.plantings:
        dates, found = lived(name, planting)
        if found is None or dates.first_harvest is None or rests_on_other_rules(dates)[0]:
            continue
        first = the_day(found.first)
        assert first is not None, planting.id
        off = abs((first - dates.first_harvest.day).days)
        assert off <= slack(sample(name)[0], planting, dates, dates.first_harvest.day), planting.id
        held += 1
    assert held == FIRST[name]


@pytest.mark.parametrize("name", SAMPLES)
def test_last_picking_is_that_of_the_plan(name: str) -> None:
    held = 0
    for planting in sample(name)[0].garden.plantings:
        dates, found = lived(name, planting)
        if found is None or dates.last_harvest is None or any(rests_on_other_rules(dates)):
            continue
        last = the_day(found.last)
        assert last is not None, planting.id
        off = abs((last - dates.last_harvest.day).days)
        assert off <= slack(sample(name)[0], planting, dates, dates.last_harvest.day), planting.id
        held += 1
    assert held == LAST[name]


@pytest.mark.parametrize("name", SAMPLES)
def test_odds_of_identical_years_are_all_or_none(name: str) -> None:
    for planting in sample(name)[0].garden.plantings:
        found = lived(name, planting)[1]
        if found is None:
            continue
        odds = odds_of(found)
        assert odds.years == YEARS
        assert sorted((odds.picked, odds.frost, odds.seed, odds.unripe, odds.cleared)) == [0, 0, 0, 0, YEARS]
        if odds.first is not None:
            assert len(set(odds.first)) == 1


def test_what_rests_on_other_rules_is_told() -> None:
    """The few that are not held: by hand, seen, or ended by a usual frost or cold."""
    left = dict.fromkeys(SAMPLES, 0)
    for name in SAMPLES:
        for planting in sample(name)[0].garden.plantings:
            dates, found = lived(name, planting)
            left[name] += found is not None and any(rests_on_other_rules(dates))
    assert left == {"balcony_boxes": 0, "hollow_lane": 23, "red_mesa": 30, "wattle_bank": 10}
