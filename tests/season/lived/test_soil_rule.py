"""Begun by the warmth of the soil: the plan's day in the usual year, and that of each recorded year."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from season.lived.usual_years import usual_record
from station_years import BRUSSELS, station_years

from planner import resources
from planner.garden import Garden, SoilRule
from planner.garden import edits as e
from planner.plan import Plan
from planner.plan.lived import weather_in
from planner.proposal.year_later import a_year_later
from planner.season.date_inputs import context_of
from planner.season.lived.lived_plantings import live
from planner.storage import load, save

RULE = SoilRule(warmth=12.0, days=3, after=dt.date(2026, 4, 5))


@pytest.fixture
def garden() -> Garden:
    """A sample with thirty years, in which the first beans of 2026 wait for warm soil."""
    found = load(resources.sample_folder() / "hollow_lane.bedwright")
    found = found.with_(weather=station_years(BRUSSELS.name))
    bean = next(one for one in found.plantings if one.crop == "dwarf_bean" and one.year == 2026)
    return e.change_planting(
        found, bean.id, soil_rule=RULE, first=None, last=None, start="sown", covers=(), pinned_dates={}
    )


def bean_of(garden: Garden):
    return next(one for one in garden.plantings if one.soil_rule is not None)


def test_each_year_begins_on_the_third_warm_day(garden):
    plan, bean = Plan(garden, 2026), bean_of(garden)
    lived, weather = plan.lived(bean), weather_in(plan)
    assert lived is not None
    assert weather is not None
    planned = plan.dates(bean).on_plot
    assert planned is not None
    begins = weather.years.places(planned.day, 2026)
    for year, start in zip(lived.years, lived.start, strict=True):
        at = begins[list(weather.years.years).index(year)] + int(start) - planned.day.toordinal()
        counted = weather.years.places(RULE.after, 2026)[list(weather.years.years).index(year)]
        warm = [weather.soil[day] >= RULE.warmth for day in range(counted, at + 1)]
        assert all(warm[-3:])
        assert len(warm) >= 3
        assert not any(all(warm[end - 3 : end]) for end in range(3, len(warm)))  # no sooner
    assert len(set(lived.start.tolist())) > 10


def test_usual_years_begin_on_the_day_of_the_plan(garden):
    plan, bean = Plan(garden, 2026), bean_of(garden)
    inputs, dates = plan.date_inputs(bean), plan.dates(bean)
    usual = context_of(inputs).outside
    assert usual is not None
    assert garden.site.latitude is not None
    lived = live(inputs, dates, usual_record(usual, garden.site.latitude, 1, 5))
    assert lived is not None
    assert dates.on_plot is not None
    assert "12 °C for 3 days" in dates.on_plot.why
    assert set(lived.start.tolist()) == {dates.on_plot.day.toordinal()}
    assert dates.first_harvest is not None
    assert set(lived.first.tolist()) == {dates.first_harvest.day.toordinal()}


def test_a_day_by_hand_comes_before_the_rule(garden):
    by_hand = e.change_planting(garden, bean_of(garden).id, first=dt.date(2026, 5, 20))
    plan, bean = Plan(by_hand, 2026), bean_of(by_hand)
    lived = plan.lived(bean)
    assert lived is not None
    assert set(lived.start.tolist()) == {dt.date(2026, 5, 20).toordinal()}


def test_soil_that_is_never_warm_is_told(garden):
    cold = e.change_planting(garden, bean_of(garden).id, soil_rule=RULE.with_(warmth=30.0))
    plan = Plan(cold, 2026)
    dates = plan.dates(bean_of(cold))
    assert dates.on_plot is None
    assert any("never has 30 °C" in one for one in dates.missing)
    assert plan.lived(bean_of(cold)) is None


def test_a_warmer_soil_is_waited_for_longer(garden):
    plan = Plan(garden, 2026)
    warmer = e.change_planting(garden, bean_of(garden).id, soil_rule=RULE.with_(warmth=14.0))
    later, sooner = plan.after(warmer).lived(bean_of(warmer)), plan.lived(bean_of(garden))
    assert later is not None
    assert sooner is not None
    assert np.median(later.start) > np.median(sooner.start)
    assert plan.after(warmer).dates(bean_of(warmer)).on_plot.day > plan.dates(bean_of(garden)).on_plot.day


def test_the_rule_is_kept_in_the_file_and_goes_along_a_year_later(garden, tmp_path):
    path = tmp_path / "soil.bedwright"
    save(garden, path)
    assert bean_of(load(path)).soil_rule == RULE
    assert a_year_later(bean_of(garden), "new").soil_rule == RULE.with_(after=dt.date(2027, 4, 5))
