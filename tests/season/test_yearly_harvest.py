"""The harvest of one growing year, of crops that stay for years."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import COOL_SUMMER, FROSTS_ALONE, ZONE_5, D, day, plan_of
from making import planting

from planner.garden import Site
from planner.season import practice

DAY = dt.timedelta(days=1)


@pytest.mark.parametrize(
    ("first", "bears"),
    [(D(2025, 6, 20), False), (D(2025, 6, 21), True), (D(2025, 8, 20), True), (D(2025, 10, 1), False)],
)
def test_strawberries_set_in_late_summer_bear_the_year_after(catalogue, first, bears):
    one = planting(crop="strawberry", start="crowns", year=2025, first=first)
    plan = plan_of(one, shelf=catalogue)
    assert (plan.after(plan.garden, 2026).dates(one).first_harvest is not None) == bears
    assert plan.after(plan.garden, 2027).dates(one).first_harvest is not None


def test_a_bush_is_too_young_until_a_month_before_its_days_are_over(catalogue):
    """Its fruit is picked from the year in which there is some; rhubarb waits for its first full harvest."""
    days = catalogue.crops["raspberry"].number("days_to_maturity")
    harvest = plan_of(planting(crop="raspberry", start="standing", first=D(2015, 3, 1)), shelf=catalogue)
    ripe = day(harvest.dates(harvest.garden.plantings[0]).first_harvest)
    assert ripe is not None
    for early, bears in ((30, True), (31, False)):
        one = planting(crop="raspberry", start="crowns", first=ripe - (days - early) * DAY)
        assert (plan_of(one, shelf=catalogue).dates(one).first_harvest is not None) == bears


def picked_at_age(catalogue, key: str, start: str, age: int) -> bool:
    """Whether a plant set so many days before the harvest of 2026 is picked in that year."""
    grown = plan_of(planting(crop=key, start="standing", first=D(2015, 3, 1)), FROSTS_ALONE, catalogue)
    ripe = day(grown.dates(grown.garden.plantings[0]).first_harvest)
    assert ripe is not None
    one = planting(crop=key, start=start, first=ripe - age * DAY)
    return plan_of(one, FROSTS_ALONE, catalogue).dates(one).first_harvest is not None


def test_what_is_cut_for_its_stalks_is_left_alone_until_the_spring_in_which_it_is_grown(catalogue):
    """Rhubarb is cut fully from its second year on; the spring in which it is planted counts as one: 730 days less 90."""
    assert catalogue.crops["rhubarb"].number("years_to_crop") == 2
    assert practice.SPRING_COUNTS == 90
    assert picked_at_age(catalogue, "rhubarb", "crowns", 640)
    assert not picked_at_age(catalogue, "rhubarb", "crowns", 630)


def test_what_was_found_grown_bears_at_once(catalogue):
    assert picked_at_age(catalogue, "rhubarb", "standing", 60)


#: Days between which British growers begin to cut: herbs in spring, asparagus from about St George's day on (practice).
SPROUTING = {
    "chives": (D(2026, 3, 20), D(2026, 5, 10)),
    "rhubarb": (D(2026, 3, 20), D(2026, 5, 10)),
    "asparagus": (D(2026, 4, 20), D(2026, 5, 20)),
    "mint": (D(2026, 4, 10), D(2026, 5, 25)),
    "oregano": (D(2026, 4, 10), D(2026, 5, 25)),
}


def standing(catalogue, crop, climate):
    one = planting(crop=crop, start="standing", year=2021, first=D(2021, 4, 20))
    plan = plan_of(one, climate, catalogue, site=Site(latitude=56.0, longitude=0.0))
    return plan.after(plan.garden, 2026).dates(one)


@pytest.mark.parametrize("crop", SPROUTING)
def test_what_is_cut_as_it_grows_is_cut_again_when_it_has_sprouted(catalogue, crop):
    soonest, latest = SPROUTING[crop]
    first = day(standing(catalogue, crop, COOL_SUMMER).first_harvest)
    assert first is not None
    assert soonest <= first <= latest


@pytest.mark.parametrize("crop", ["chives", "welsh_onion", "garlic_chives"])
def test_what_is_planted_in_spring_grows_its_days_before_it_is_cut(catalogue, crop):
    """Not as soon as those that stand there sprout, though they do so some days after it is planted."""
    one = planting(crop=crop, start="bought", year=2026, first=D(2026, 4, 1))
    first = day(
        plan_of(one, COOL_SUMMER, catalogue, site=Site(latitude=56.0, longitude=0.0)).dates(one).first_harvest
    )
    assert first is not None
    assert first - D(2026, 4, 1) >= dt.timedelta(days=30)


@pytest.mark.parametrize("crop", ["chives", "asparagus", "sage"])
def test_it_sprouts_later_where_spring_is_later(catalogue, crop):
    late = COOL_SUMMER.model_copy(
        update={
            "monthly_minimum": tuple(t - 3 for t in COOL_SUMMER.monthly_minimum),
            "monthly_maximum": tuple(t - 3 for t in COOL_SUMMER.monthly_maximum),
        }
    )
    usual, later = (day(standing(catalogue, crop, one).first_harvest) for one in (COOL_SUMMER, late))
    assert usual is not None
    assert later is not None
    assert dt.timedelta(days=14) < later - usual < dt.timedelta(days=56)


@pytest.mark.parametrize("crop", ["chives", "sage", "thyme"])
def test_leaves_are_cut_until_the_cold_of_autumn(catalogue, crop):
    last = day(standing(catalogue, crop, COOL_SUMMER).last_harvest)
    assert last is not None
    assert D(2026, 9, 15) <= last <= D(2026, 11, 15)


def test_bulbs_that_stay_flower_later_after_a_colder_winter(catalogue):
    """Those of a zone 5 garden have no warmth from November to March; in the mild winter by the sea they go on."""
    mild, cold = (
        day(standing(catalogue, "narcissus", climate).first_harvest) for climate in (COOL_SUMMER, ZONE_5)
    )
    assert D(2026, 3, 1) <= mild < cold <= D(2026, 5, 25)


@pytest.mark.parametrize("crop", ["rosemary", "perennial_kale", "bay"])
def test_leaves_that_stay_on_in_winter_are_picked_then_too(catalogue, crop):
    found = standing(catalogue, crop, COOL_SUMMER.with_(zone="9a"))
    assert day(found.last_harvest) >= D(2026, 12, 1)


def test_but_not_beyond_the_cold_that_kills(catalogue):
    mild, cold = (
        standing(catalogue, "perennial_kale", COOL_SUMMER.with_(zone=zone)) for zone in ("9a", "5b")
    )
    assert "Colder than" not in mild.last_harvest.why
    assert day(cold.last_harvest) <= day(mild.last_harvest)


def test_fruit_that_is_picked_all_summer_waits_until_it_is_ripe(catalogue):
    """Alpine strawberries bear from June to October; they are not cut as they sprout, as sage is."""
    found = plan_of(
        planting(crop="alpine_strawberry", start="standing", first=D(2015, 3, 1)), FROSTS_ALONE, catalogue
    )
    dates = found.dates(found.garden.plantings[0])
    assert (day(dates.first_harvest).month, day(dates.last_harvest).month) == (6, 10)
