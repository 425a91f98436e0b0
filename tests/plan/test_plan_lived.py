"""Odds of plantings as facts of a plan: an edit works out what it touched, and nothing of another garden comes in."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from station_years import BRUSSELS, CHAMPION, station_years

from planner import resources
from planner.garden import WeatherYears
from planner.garden import edits as e
from planner.plan import Plan
from planner.plan import lived as lived_facts
from planner.season.lived.lived_years import FATES
from planner.storage import load


@pytest.fixture
def plan() -> Plan:
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    return Plan(garden.with_(weather=station_years(BRUSSELS.name)), 2026)


def all_odds(plan: Plan) -> list[object]:
    return [plan.odds(planting) for planting in plan.garden.plantings]


@pytest.fixture
def worked(monkeypatch):
    """Ids of plantings that are lived through."""
    found: list[str] = []
    live = lived_facts.live

    def spy(inputs, dates, weather):
        found.append(inputs.planting.id)
        return live(inputs, dates, weather)

    monkeypatch.setattr(lived_facts, "live", spy)
    return found


def test_an_edit_lives_through_what_it_touched_only(plan, worked):
    all_odds(plan)
    assert len(worked) == len(plan.garden.plantings)
    worked.clear()
    all_odds(plan)
    assert worked == []
    planting = next(one for one in plan.plantings if one.first is not None and one.year == 2026)
    moved = e.change_planting(plan.garden, planting.id, first=planting.first + dt.timedelta(days=2))
    after = plan.after(moved)
    all_odds(after)
    assert worked == [planting.id]
    worked.clear()
    renamed = after.after(moved.with_(site=moved.site.with_(name="Elsewhere")))
    all_odds(renamed)
    assert worked == []


def test_a_followed_plan_says_what_a_fresh_one_says(plan):
    all_odds(plan)
    garden = plan.garden
    for planting in garden.plantings[5:60:6]:
        if planting.first is not None:
            garden = e.change_planting(garden, planting.id, first=planting.first - dt.timedelta(days=3))
            plan = plan.after(garden)
    garden = garden.with_(weather=station_years(CHAMPION.name))
    plan = plan.after(garden)
    assert all_odds(plan) == all_odds(Plan(garden, 2026))


def test_without_years_there_are_no_odds(plan):
    without = plan.after(plan.garden.with_(weather=WeatherYears()))
    assert all(odds is None for odds in all_odds(without))


def test_without_maxima_there_are_none(plan):
    kept = plan.garden.weather
    minima = kept.with_(years=tuple(year.with_(high="") for year in kept.years))
    assert all(odds is None for odds in all_odds(plan.after(plan.garden.with_(weather=minima))))


def test_arrays_of_a_fact_cannot_be_written(plan):
    lived = plan.lived(plan.plantings[20])
    assert lived is not None
    for values in (lived.years, lived.fate, lived.first, lived.free):
        with pytest.raises(ValueError, match="read-only"):
            values[0] = 0


def test_fates_add_up_and_days_are_in_order(plan):
    for planting in plan.garden.plantings:
        lived, odds = plan.lived(planting), plan.odds(planting)
        if lived is None or odds is None:
            continue
        assert (
            odds.picked + odds.frost + odds.seed + odds.unripe + odds.cleared
            == odds.years
            == len(lived.years)
        )
        assert len(lived.years) + len(lived.left_out) == 30
        assert set(np.unique(lived.fate)) <= set(range(len(FATES)))
        known = ~np.isnan(lived.first)
        assert not known[~lived.picked].any()
        assert (lived.start[known] <= lived.first[known]).all() or lived.rests_on == "calendar"
        ends = known & ~np.isnan(lived.last)
        assert (lived.first[ends] <= lived.last[ends]).all()
        if lived.rests_on != "calendar":
            free = ends & ~np.isnan(lived.free)
            assert (lived.last[free] <= lived.free[free]).all()
            frosted = lived.fate == FATES.index("frost")
            assert not np.isnan(lived.frost[frosted]).any()
