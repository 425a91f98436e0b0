"""When a planting runs to seed: long days, heat, cold felt by young plants, a winter."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from calendar_cases import read_places
from dated_plantings import CLIMATE, FROSTS_ALONE, D, dates, ripe_in
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.garden import Climate, Site
from planner.season.bolting import (
    CHILLED_TO_BOLT,
    FULLY_LONG,
    GROWN,
    LEAST_TO_BOLT,
    TO_BOLT_OF_NEED,
)
from planner.season.planting_dates import Bolting
from planner.season.temperatures import by_day, day_of_year_index
from planner.season.thermal_time import Response, degree_days
from planner.season.usual_weather import FULL_DAY, weather_of
from planner.season.windows import CHILL
from planner.sun import day_lengths

DAY = dt.timedelta(days=1)
SITE = Site(latitude=50)
#: A year of northern Europe. [deg C]
NORTH = CLIMATE.with_(
    zone="7b",
    monthly_minimum=(-2, -2, 0, 4, 8, 11, 13, 13, 10, 6, 2, -1),
    monthly_maximum=(4, 5, 9, 14, 19, 22, 24, 24, 20, 14, 8, 5),
)
COOL = {
    "base_temperature": 4,
    "best_temperature": 20,
    "ceiling_temperature": 35,
    "hardiness": "frost-tolerant",
}


def bolts(first: dt.date, climate: Climate = NORTH, start: str = "sown", **figures) -> Bolting | None:
    fields = {
        "days_to_maturity": 60,
        "heat_to_harvest": 500,
        "harvest_days": 30,
        "sow_from": -4,
        **COOL,
        **figures,
    }
    leaves = crop("one", **fields).model_copy(update={"growth_form": "rosette"})
    found = dates("one", climate, catalogue_of(leaves), site=SITE, start=start, first=first)
    return found.bolts


def mean_on(day: dt.date) -> float:
    at = day_of_year_index(day)
    return float(by_day(NORTH.monthly_minimum)[at] + by_day(NORTH.monthly_maximum)[at]) / 2


def hours_on(day: dt.date) -> float:
    return float(day_lengths(50.0)[day_of_year_index(day)])


def test_a_crop_of_which_nothing_is_said_runs_to_no_seed():
    assert bolts(D(2026, 4, 1)) is None


def gone_by_hand(first: dt.date, hours: float | None = None, heat: float | None = None) -> dt.date:
    """When it has had its warmth in long days or heat, day by day: over 4 and cut off at 20, by the sine of the day."""
    total, day = 0.0, first
    while total < max(LEAST_TO_BOLT, TO_BOLT_OF_NEED * 500):
        at = day_of_year_index(day)
        low, high = by_day(NORTH.monthly_minimum)[at], by_day(NORTH.monthly_maximum)[at]
        felt = 0.0 if hours is None else min(max((hours_on(day) - hours) / FULLY_LONG, 0.0), 1.0)
        if heat is not None and mean_on(day) > heat:
            felt = 1.0
        curve = (low + high) / 2 - (high - low) / 2 * np.cos(2 * np.pi * (np.arange(24) + 0.5) / 24)
        total += felt * float((np.clip(curve, 4, 20) - 4).mean())
        day += DAY
    return day


def test_plants_of_midsummer_run_to_seed_as_they_grow_when_they_have_had_their_warmth_in_long_days():
    """Each day by how far it is over 14 hours, in full from 16 on; plants that are set out feel them from then on."""
    first = D(2026, 6, 1)
    found = bolts(first, start="bought", bolts_at_day_length=14, set_out_from=-8)
    assert (found.cause, found.begins) == ("long days", first)
    assert abs(found.gone - gone_by_hand(first, hours=14)) <= DAY


@pytest.mark.parametrize("first", [D(2026, 3, 1), D(2026, 4, 1)])
def test_plants_of_spring_make_leaves_first_and_run_to_seed_in_the_long_days_that_follow(first):
    one = crop("one", days_to_maturity=60, heat_to_harvest=500, sow_from=-4, **COOL)
    ripe = dates("one", NORTH, catalogue_of(one), site=SITE, start="bought", first=first).first_harvest.day
    found = bolts(first, start="bought", bolts_at_day_length=14, set_out_from=-8)
    assert found.cause == "long days"
    assert hours_on(found.begins) >= 14
    assert ripe <= found.gone <= ripe + 40 * DAY


def test_seed_feels_them_from_when_it_comes_up():
    sown, bought = (
        bolts(D(2026, 6, 1), start=start, bolts_at_day_length=14, set_out_from=-8)
        for start in ("sown", "bought")
    )
    assert 5 * DAY <= sown.gone - bought.gone <= 15 * DAY


def test_the_last_long_days_of_summer_do_not_that_year():
    """What is set out when they end has not had its warmth in them before the next spring."""
    found = bolts(D(2026, 8, 10), start="bought", bolts_at_day_length=14, set_out_from=-8)
    assert found is None or found.gone > D(2027, 4, 1)


def test_the_longer_the_day_it_asks_for_the_later():
    days = [bolts(D(2026, 3, 1), bolts_at_day_length=hours).gone for hours in (12, 13, 14, 15)]
    assert days == sorted(days)
    assert bolts(D(2026, 3, 1), bolts_at_day_length=17) is None, "no day is so long there"


def test_heat_does_where_the_mean_is_over_its_figure():
    found = bolts(D(2026, 5, 1), start="bought", bolts_above=17, set_out_from=-8)
    assert found.cause == "heat"
    assert mean_on(found.begins) > 17 >= mean_on(found.begins - DAY)
    assert found.begins < found.gone <= found.begins + 40 * DAY
    assert bolts(D(2026, 5, 1), bolts_above=25) is None


def test_set_out_into_heat_it_runs_to_seed_when_it_has_had_its_warmth_in_it():
    """By hand, day by day; a slow crop that is not picked before."""
    first = D(2026, 7, 1)
    found = bolts(first, start="bought", bolts_above=17, set_out_from=-8)
    assert (found.cause, found.begins) == ("heat", first)
    assert abs(found.gone - gone_by_hand(first, heat=17)) <= DAY


def test_cold_of_spring_sends_young_plants_to_seed_that_feel_it_soon():
    """14 days below 10 degrees: set out in March it has them, set out in June it has not."""
    quick = {"chill_to_bolt": 14, "set_out_from": -8}
    cold = bolts(D(2026, 3, 10), start="bought", **quick)
    assert mean_on(D(2026, 3, 10) + 14 * DAY) < CHILL
    assert (cold.cause, cold.begins) == ("cold", D(2026, 3, 24))
    mild = bolts(D(2026, 6, 10), start="bought", **quick)
    assert mild.cause == "winter", "the cold that it meets is that of the winter after"
    assert mild.begins.year == 2027
    slow = bolts(D(2026, 3, 10), start="bought", chill_to_bolt=42, set_out_from=-8)
    assert slow is None or slow.cause != "cold", "cabbages bear weeks of it"


def test_days_of_cold_are_counted_until_it_is_mild():
    """With days until the mean is ten: just as many as it has send it to seed, more do not."""
    on = D(2026, 3, 20)
    has = next(i for i in range(120) if mean_on(on + i * DAY) >= CHILL)
    assert has > 21
    for days, told in ((14, True), (21, True)):
        found = bolts(on, start="bought", chill_to_bolt=days, set_out_from=-8)
        assert (found is not None and found.cause == "cold") == told
    late = next(on + i * DAY for i in range(120) if mean_on(on + i * DAY) >= CHILL) - 10 * DAY
    assert bolts(late, start="bought", chill_to_bolt=14, set_out_from=-8).cause == "winter", (
        "ten days are too few"
    )


def test_a_winter_sends_to_seed_what_it_met_grown():
    """500 degree-days: a planting of August has them by Christmas, one of late October has not three quarters of them."""
    slow = {"chill_to_bolt": 42, "hardiness": "very hardy", "harvest_ends": "stands"}
    grown, small = bolts(D(2026, 8, 1), **slow), bolts(D(2026, 10, 20), **slow)
    assert grown.cause == "winter"
    assert grown.begins.year == 2027
    assert hours_on(grown.begins) >= FULL_DAY > hours_on(grown.begins - 2 * DAY)  # 2027 has no 29 February
    assert small is None
    assert GROWN == 0.75


def test_three_quarters_of_its_warmth_by_the_longest_night_is_enough_to_notice_the_winter():
    """Summed by day from the weather: 375 of 500 degree-days, in the light that short days leave."""
    slow = {"chill_to_bolt": 42, "hardiness": "very hardy", "harvest_ends": "stands"}
    weather = weather_of(NORTH, 50.0, southern=False)
    daily = degree_days(weather.low, weather.high, Response(4, 20, 35)) * weather.light
    night = day_of_year_index(D(2026, 12, 21))
    for first in (D(2026, 8, 20) + 5 * i * DAY for i in range(12)):
        had = daily[day_of_year_index(first) : night].sum()
        if abs(had - 375) > 10:
            found = bolts(first, **slow)
            assert (found is not None and found.begins < D(2027, 6, 1)) == (had > 375), first


def test_chilled_flowers_come_soon():
    assert CHILLED_TO_BOLT == 150
    slow = {"chill_to_bolt": 42, "hardiness": "very hardy", "harvest_ends": "stands"}
    found = bolts(D(2026, 8, 1), **slow)
    assert D(2027, 4, 1) < found.gone < D(2027, 6, 1)


def test_roots_are_spoilt_by_their_sprouts_before_their_flowers():
    root = crop("one", days_to_maturity=60, heat_to_harvest=500, chill_to_bolt=63, harvest_ends="stands", harvest_days=30, sow_from=-4, **{**COOL, "hardiness": "very hardy"})  # fmt: skip
    assert root.growth_form == "root"
    leaves = root.model_copy(update={"growth_form": "rosette"})
    told = [
        dates("one", NORTH, catalogue_of(one), site=SITE, start="sown", first=D(2026, 7, 20)).bolts
        for one in (root, leaves)
    ]
    assert told[0] is None
    assert told[1] is not None


def test_without_a_winter_nothing_is_chilled():
    assert bolts(D(2026, 8, 1), CLIMATE, chill_to_bolt=42, hardiness="very hardy") is None


def test_what_stays_for_years_and_what_has_no_harvest_is_not_told():
    assert (
        dates("rhubarb", NORTH, load_catalogue(), site=SITE, start="standing", first=D(2020, 3, 1)).bolts
        is None
    )
    never = crop("one", hardiness="tender", bolts_at_day_length=12, sow_from=0, **ripe_in(900))
    assert dates("one", FROSTS_ALONE, catalogue_of(never), first=D(2026, 6, 1)).bolts is None


# -- of the catalogue -----------------------------------------------------------------------------


@pytest.mark.parametrize("place", ["Kent", "Hamburg", "Ames IA"])
def test_spinach_of_spring_runs_to_seed_in_early_summer_and_that_of_late_summer_not_that_year(place):
    site, climate = read_places()[place]
    spring, autumn = (
        dates("spinach", climate, load_catalogue(), site=site, start="sown", first=first).bolts
        for first in (D(2026, 3, 25), D(2026, 8, 20))
    )
    assert spring is not None
    assert D(2026, 4, 5) <= spring.begins <= spring.gone <= D(2026, 7, 5)
    assert autumn is None or autumn.gone >= D(2027, 1, 1)


def test_beginning_and_end_are_in_order_for_every_crop():
    told = 0
    for place in ("Kent", "Athens GA", "Christchurch NZ"):
        site, climate = read_places()[place]
        for key, one in load_catalogue().crops.items():
            for month in (1, 3, 5, 8, 10):
                found = dates(
                    key, climate, load_catalogue(), site=site, start=one.usual_start, first=D(2026, month, 15)
                ).bolts
                if found is not None:
                    told += 1
                    assert D(2026, month, 15) <= found.begins <= found.gone, (place, key, month)
                    assert found.source, (place, key)
    assert told > 50
