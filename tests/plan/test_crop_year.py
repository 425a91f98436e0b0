"""When a crop is sown, set out and picked in a garden, planted there or not."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner import resources, storage
from planner.garden import Climate, FrostDates, Site
from planner.plan import Plan
from planner.plan.crop_year import Stage, crop_year, frost_pair, last_day_to_start

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
WEEK = dt.timedelta(days=7)


def plan_of(one, climate=CLIMATE, site=None):
    return Plan(garden(climate=climate, site=site or Site()), 2026, catalogue_of(one))


def stages(one, **where):
    return crop_year(plan_of(one, **where), one)


def test_windows_lie_about_the_frosts():
    one = crop(sow_from=-4, sow_until=6, autumn_from=-3)
    last, first = D(2026, 5, 1), D(2026, 10, 16)
    assert stages(one) == (
        Stage("sow", last - 4 * WEEK, last + 6 * WEEK),
        Stage("autumn planting", first - 3 * WEEK, first - WEEK),
    )


def test_the_harvest_is_the_gardens_own():
    one = crop(hardiness="frost-tolerant", sow_from=-4, days_to_maturity=50, harvest_days=20)
    plan = plan_of(one)
    dates = plan.usual_dates(one, "")
    assert crop_year(plan, one)[-1] == Stage("harvest", dates.first_harvest.day, dates.last_harvest.day)


def test_without_frost_dates_an_example_is_shown_and_days_are_counted():
    one = crop(sow_from=0, days_to_maturity=60)
    assert stages(one, climate=Climate()) == (
        Stage("sow", D(2026, 5, 5), D(2026, 5, 19)),
        Stage("harvest", D(2026, 7, 4), D(2026, 7, 18)),
    )


@pytest.mark.parametrize(
    ("site", "last", "first"),
    [(Site(), D(2026, 5, 5), D(2026, 10, 10)), (Site(latitude=-41), D(2026, 9, 25), D(2027, 5, 10))],
)
def test_the_example_is_one_of_the_hemisphere(site, last, first):
    found = frost_pair(plan_of(crop(), climate=Climate(), site=site))
    assert (found.last, found.first, found.known) == (last, first, False)


def test_the_gardens_own_frosts_are_known():
    found = frost_pair(plan_of(crop()))
    assert (found.last, found.first, found.known) == (D(2026, 5, 1), D(2026, 10, 16), True)


def test_days_count_from_setting_out_where_the_crop_says_so():
    one = crop(
        starts={"value": ["raised"], "source": "practice"},
        set_out_from=2,
        sow_from=-2,
        days_to_maturity=70,
        harvest_days=10,
        maturity_from="setting out",
    )
    harvest = stages(one, climate=Climate())[-1]
    assert harvest == Stage(
        "harvest", D(2026, 5, 19) + 10 * WEEK, D(2026, 5, 19) + 10 * WEEK + dt.timedelta(days=10)
    )


def test_what_lives_for_years_and_what_cannot_be_begun_have_no_harvest():
    perennial = crop(sow_from=0, days_to_maturity=60).model_copy(update={"life_cycle": "perennial"})
    assert [stage.kind for stage in stages(perennial)] == ["sow"]
    assert stages(crop(days_to_maturity=60)) == ()


def test_what_ripens_only_if_raised_or_not_at_all_is_told_apart(catalogue):
    lane = storage.load(resources.sample_folder() / "hollow_lane.bedwright")
    plan = Plan(lane, 2026, catalogue)
    found = {
        key: crop_year(plan, catalogue.crops[key])[-1] for key in ("radish", "african_marigold", "melon")
    }
    assert {key: stage.kind for key, stage in found.items()} == {
        "radish": "harvest",
        "african_marigold": "harvest raised",
        "melon": "unripe",
    }
    assert found["melon"].first == found["melon"].last == plan.frosts().autumn


def test_a_window_that_only_frost_ends_lasts_as_long_as_the_crop_is_still_picked(catalogue):
    zinnia = catalogue.crops["zinnia"]
    place = garden(bed(), climate=CLIMATE)
    plan = Plan(place, 2026, catalogue)
    latest = last_day_to_start(plan, zinnia, "set_out_until")
    ripens = []
    for weeks in (0, 4):
        one = planting(crop="zinnia", start="raised", first=latest + weeks * WEEK)
        dates = Plan(garden(bed(), one, climate=CLIMATE), 2026, catalogue).dates(one)
        ripens.append(dates.ripens and (dates.last_harvest.day - dates.first_harvest.day).days >= 13)
    assert ripens == [True, False]
    (out,) = [stage for stage in crop_year(plan, zinnia) if stage.kind == "set out"]
    assert out.last == latest
    assert last_day_to_start(plan, zinnia, "set_out_from") is None
    assert last_day_to_start(plan, crop(sow_from=0, sow_until=8), "sow_until") is None
