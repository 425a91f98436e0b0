"""What is gained from one way to grow a planting to another, in words."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import pytest

from planner import resources
from planner.garden.edits import change_weather
from planner.listings.other_days import gain_words
from planner.plan import Plan
from planner.season.lived.gains import first_gained, picking_gained, years_gained
from planner.season.lived.odds import Odds
from planner.season.weather_years import years_of
from planner.storage import load
from tests.invented_weather import invented


@pytest.fixture(scope="module")
def odds() -> Odds:
    """Those of the courgettes of a sample, of which frost takes some."""
    garden = load(resources.sample_folder() / "hollow_lane.bedwright")
    garden = change_weather(garden, years=years_of(invented("hollow_lane")), elevation=garden.site.elevation)
    plan = Plan(garden, 2026)
    found = plan.odds(next(one for one in plan.plantings if one.crop == "courgette"))
    assert found is not None
    assert found.first is not None
    assert found.harvest_days is not None
    return replace(found, years=30, picked=25, frost=5, seed=0)


def test_nothing_changes_nothing(odds: Odds) -> None:
    assert [years_gained(odds, odds, each) for each in ("lost", "frost", "seed", "picked")] == [""] * 4
    assert first_gained(odds, odds) == picking_gained(odds, odds) == ""
    assert gain_words(odds, odds) == "no difference"


def test_years_days_and_picking_are_told_in_both_directions(odds: Odds) -> None:
    assert odds.first is not None
    assert odds.harvest_days is not None
    better = replace(
        odds,
        picked=29,
        frost=1,
        first=odds.first._replace(middle=odds.first.middle + dt.timedelta(days=3)),
        harvest_days=odds.harvest_days._replace(middle=odds.harvest_days.middle + 1),
    )
    assert (
        gain_words(odds, better)
        == "lost in 1 of 30 years instead of 5, first picking 3 days later, picked for 1 day more"
    )
    assert (
        gain_words(better, odds)
        == "lost in 5 of 30 years instead of 1, first picking 3 days sooner, picked for 1 day less"
    )
    assert years_gained(odds, better, "frost") == "frost in 1 of 30 years instead of 5"
    assert years_gained(odds, better, "frost", (4, 0)) == "frost in 0 of 30 years instead of 4"
    assert years_gained(odds, better, "frost", (4, 4)) == ""
    assert years_gained(odds, better, "picked") == "picked in 29 of 30 years instead of 25"
    assert years_gained(odds, replace(odds, seed=2), "seed") == "run to seed in 2 of 30 years instead of 0"


def test_where_other_years_count_both_numbers_of_years_are_told(odds: Odds) -> None:
    fewer = replace(odds, years=29, picked=28)
    assert years_gained(odds, fewer, "lost") == "lost in 1 of 29 years instead of 5 of 30"
