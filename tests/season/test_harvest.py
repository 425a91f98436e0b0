"""When a planting is harvested: warmth, reasons, ranges, what does not ripen.

In the climate of these tests every day gives 9 degree-days over 10: 540 are 60 days.
"""

from __future__ import annotations

import datetime as dt
import re

import pytest
from calendar_cases import read_places
from dated_plantings import (
    CLIMATE,
    FROSTS_ALONE,
    OVER_TEN,
    ZONE_5,
    D,
    context_at,
    dates,
    day,
    ripe_in,
    steady,
)
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.crops.cover_effects import effect
from planner.crops.growing_places import shipped_places
from planner.garden import Climate, FrostDates, Site
from planner.season import practice
from planner.season.development import AHEAD_OF_SOWN, BENCH, need_of
from planner.season.harvest import HALF_OF_YEARS
from planner.season.planting_dates import HeatSum
from planner.season.temperatures import by_day, day_of_year_index

DAY = dt.timedelta(days=1)
#: Six weeks on a bench of 18 degrees are 336 degree-days over 10; half of them count.
BROUGHT = AHEAD_OF_SOWN * 42 * (BENCH - 10)


def test_a_crop_is_ripe_when_it_has_had_its_warmth():
    assert day(dates("hardy", first=D(2026, 6, 1)).first_harvest) == D(2026, 7, 31)
    assert day(dates("hardy", first=D(2026, 8, 1)).first_harvest) == D(2026, 9, 30)
    cooler = steady(12.0, 22.0)  # 7 a day
    assert day(dates("hardy", cooler, first=D(2026, 6, 1)).first_harvest) == D(2026, 6, 1) + 78 * DAY


def test_raised_plants_whose_days_count_from_sowing_have_half_their_weeks_indoors_behind_them():
    found = dates("early", start="raised")
    assert BROUGHT == 168
    assert (day(found.first_harvest) - day(found.set_out)).days == 32  # (450 - 168) / 9
    bought = dates("early", start="bought")
    assert (day(bought.set_out), bought.sow) == (D(2026, 4, 24), None)
    assert day(bought.first_harvest) == D(2026, 4, 24) + 32 * DAY
    assert day(dates("raised", start="bought").first_harvest) == D(2026, 6, 13)


def test_sown_in_place_it_takes_the_longer_that_young_plants_would_have_been_ahead():
    assert (
        day(dates("raised", start="sown").first_harvest) == D(2026, 5, 1) + 69 * DAY
    )  # (450 + 168) / 9 = 68.7


def test_frost_ends_the_harvest_of_a_tender_crop_only():
    early = dates("bean", first=D(2026, 7, 20), pinned_dates={"first_harvest": D(2026, 10, 1)})
    assert day(early.last_harvest) == D(2026, 10, 15)
    assert day(dates("kale", first=D(2026, 8, 10)).last_harvest) == D(2026, 10, 28)
    glass = dates("bean", first=D(2026, 8, 5), bed_kind="under glass")
    assert glass.ripens


def test_what_ripens_a_little_after_the_frost_is_told_and_what_never_does_has_no_harvest():
    late = dates("bean", first=D(2026, 8, 20))  # 60 days: 19 October
    assert late.ripens is False
    assert "would ripen on 19 Oct, after the first autumn frost (16 Oct)" in late.doubts[-1]
    never = dates("bean", first=D(2026, 9, 20))
    assert (never.first_harvest, never.ripens) == (None, False)
    assert never.doubts[-1] == (
        "bean finds 234 of the 540 degree-days over 10 °C that it needs before the first autumn frost (16 Oct)"
    )


def test_what_does_not_find_its_warmth_in_two_years_says_so():
    found = dates("hardy", steady(2.0, 8.0), first=D(2026, 5, 1))
    assert (found.first_harvest, found.ripens) == (None, False)
    assert "does not find the 540 degree-days it needs in two years" in found.doubts[-1]


def test_a_harvest_given_by_hand_is_that_day_and_one_done_comes_before_it():
    found = dates("hardy", first=D(2026, 6, 1), pinned_dates={"first_harvest": D(2026, 7, 20)})
    assert (found.first_harvest.day, found.first_harvest.origin) == (D(2026, 7, 20), "by hand")


def test_a_last_harvest_given_before_the_first_that_is_worked_out_is_that_day():
    found = dates("hardy", first=D(2026, 6, 1), pinned_dates={"last_harvest": D(2026, 7, 1)})
    assert (day(found.first_harvest), day(found.last_harvest)) == (D(2026, 7, 31), D(2026, 7, 31))
    assert found.last_harvest.why == "The first harvest is later than the last one set by hand"


def test_of_seed_no_days_are_known():
    found = dates("hardy", first=D(2026, 6, 1), purpose="seed")
    assert found.first_harvest is None
    assert any("days to ripe seed are not known" in words for words in found.missing)


def test_without_temperatures_its_days_hold_as_printed():
    nothing = Climate(frost_free=True)
    assert day(dates("hardy", nothing, first=D(2026, 3, 1)).first_harvest) == D(2026, 4, 30)
    assert dates("hardy", nothing, first=D(2026, 3, 1)).first_harvest.why == "60 days after sowing"
    found = dates("early", nothing, start="raised", first=D(2026, 5, 1))
    assert (day(found.first_harvest) - day(found.sow)).days == 50
    assert found.first_harvest.why == "50 days after sowing"


# -- the reason and the range ---------------------------------------------------------------------


def test_the_reason_holds_the_numbers():
    found = dates("hardy", first=D(2026, 6, 1)).first_harvest
    assert found.why == "540 degree-days over 10 °C; 270 of them by 1 Jul"
    assert found.source == "estimate"


@pytest.mark.parametrize("key", ["tomato", "carrot", "lettuce", "potato", "sweet_corn"])
def test_the_numbers_of_the_reason_are_those_of_the_need_and_less_by_half_time(key):
    site, climate = read_places()["Ames IA"]
    one = load_catalogue().crops[key]
    found = dates(key, climate, load_catalogue(), site=site, first=D(2026, 5, 15)).first_harvest
    heat, base, had = re.match(r"(\d+) degree-days over ([\d.]+) °C(?:, an early sort|, a late sort)?; (\d+) of them by", found.why).groups()  # fmt: skip
    assert float(base) == one.number("base_temperature")
    assert 0 < int(had) < int(heat)
    sorts = [
        need_of(context_at(one, climate, site.latitude, start=one.usual_start), sort)
        for sort in ("", "early", "late")
    ]
    between = [round(need.heat) for need in sorts if need is not None]
    assert min(between) <= int(heat) <= max(between)


def test_a_garden_of_which_only_frosts_are_known_says_that_it_is_rough():
    assert (
        "roughly: no monthly means are known"
        in dates("hardy", FROSTS_ALONE, first=D(2026, 6, 1)).first_harvest.why
    )
    assert "roughly" not in dates("hardy", first=D(2026, 6, 1)).first_harvest.why


def test_the_range_is_that_of_years_a_degree_warmer_and_cooler():
    """10 and 8 degree-days a day in place of 9."""
    assert HALF_OF_YEARS == 1.0
    found = dates("hardy", first=D(2026, 6, 1)).first_harvest
    assert found.earliest == D(2026, 6, 1) + 54 * DAY
    assert found.latest == D(2026, 6, 1) + 68 * DAY  # 67.5


@pytest.mark.parametrize("place", read_places())
def test_the_range_of_days_is_in_order(place):
    site, climate = read_places()[place]
    south = site.latitude < 0
    for key, one in load_catalogue().crops.items():
        first = D(2026, 10, 20) if south else D(2026, 4, 20)
        found = dates(
            key, climate, load_catalogue(), site=site, start=one.usual_start, first=first, year=2026
        ).first_harvest
        if found is None or found.earliest is None:
            continue
        assert found.earliest <= found.day, key
        assert found.latest is None or found.day <= found.latest, key


# -- warmth found before the frost ----------------------------------------------------------------


def test_the_sum_that_is_found_runs_to_the_first_frost():
    found = dates("bean", first=D(2026, 6, 1))
    days = (D(2026, 10, 16) - D(2026, 6, 1)).days
    assert found.heat == HeatSum(pytest.approx(540), pytest.approx(9 * days), 10, D(2026, 10, 16))
    assert found.heat.enough


def test_frost_comes_later_under_glass_and_covers_add_their_warmth():
    """By as much as the glass holds off: three degrees of the mean minimum."""
    outside, glass, film = (
        dates("bean", ZONE_5, first=D(2026, 6, 20), **fields).heat
        for fields in ({}, {"bed_kind": "under glass"}, {"covers": ({"kind": "film"},)})
    )
    low = by_day(ZONE_5.monthly_minimum)
    fallen = low[day_of_year_index(outside.until)] - low[day_of_year_index(glass.until)]
    assert fallen == pytest.approx(effect("glasshouse").frost_gain, abs=0.3)
    assert outside.found < film.found < glass.found


def test_nearly_enough_is_enough():
    """Nine tenths: figures and monthly means are no more exact."""
    assert practice.HEAT_ENOUGH == 0.9
    until = D(2026, 10, 16)
    assert HeatSum(500, 450, 10, until).enough
    assert not HeatSum(500, 449, 10, until).enough


def test_of_what_may_be_an_early_sort_the_less_is_asked():
    sorts = crop("ear", hardiness="tender", sow_from=0, days_early=40, harvest_days=9, **ripe_in(60))
    found = dates("ear", shelf=catalogue_of(sorts), first=D(2026, 6, 1))
    assert found.heat.wanted == pytest.approx(360)
    assert found.first_harvest.why.startswith("540 degree-days")


def test_no_sum_is_told_where_temperatures_are_rough_or_the_harvest_is_that_of_the_next_year():
    assert dates("hardy", FROSTS_ALONE, first=D(2026, 6, 1)).heat is None
    assert dates("garlic", CLIMATE, load_catalogue(), start="cloves", timing="autumn").heat is None
    assert dates("rhubarb", CLIMATE, load_catalogue(), start="standing", first=D(2020, 3, 1)).heat is None


# -- winter ---------------------------------------------------------------------------------------

#: A year of northern Europe. [deg C]
NORTH = CLIMATE.with_(
    zone="7b",
    monthly_minimum=(-2, -2, 0, 4, 8, 11, 13, 13, 10, 6, 2, -1),
    monthly_maximum=(4, 5, 9, 14, 19, 22, 24, 24, 20, 14, 8, 5),
)
COOL = {"base_temperature": 4, "best_temperature": 20, "ceiling_temperature": 35, "hardiness": "very hardy"}


def stands(first: dt.date, ends: str = "stands", heat: float = 700):
    one = crop("kale", days_to_maturity=70, heat_to_harvest=heat, harvest_days=60, harvest_ends=ends, **COOL)
    return dates("kale", NORTH, catalogue_of(one), site=Site(latitude=50), start="sown", first=first)


def test_what_autumn_catches_small_grows_on_in_spring():
    late = stands(D(2026, 9, 20))
    assert D(2027, 3, 1) < late.first_harvest.day < D(2027, 7, 1)
    assert late.ripens


def test_who_starts_later_before_the_winter_is_later_after_it():
    days = [stands(D(2026, 8, 1) + 10 * i * DAY).first_harvest.day for i in range(9)]
    assert days == sorted(days)
    assert days[0].year == 2026
    assert days[-1].year == 2027


def test_what_is_nearly_grown_when_the_cold_stops_it_is_picked_from_then_on():
    """A tenth of its warmth may be missing of what stands; what is picked in weeks must be ripe."""
    found = {
        first: (stands(first), stands(first, "after weeks"))
        for first in (D(2026, 7, 20) + i * DAY for i in range(40))
    }
    sooner = [
        first for first, (stood, weeks) in found.items() if stood.first_harvest.day < weeks.first_harvest.day
    ]
    assert sooner, "some start between"
    assert all(stood.first_harvest.day <= weeks.first_harvest.day for stood, weeks in found.values())


# -- of the catalogue -----------------------------------------------------------------------------


def test_a_summer_sowing_is_quicker_than_one_of_spring():
    site, climate = read_places()["Ames IA"]
    took = []
    for first in (D(2026, 5, 12), D(2026, 6, 20)):
        found = dates("dwarf_bean", climate, load_catalogue(), site=site, start="sown", first=first)
        took.append((found.first_harvest.day - first).days)
    assert took[1] < took[0] - 2


def test_a_second_block_of_corn_catches_up_with_the_first(catalogue):
    """Four weeks at sowing are fewer at harvest, as every grower of corn in blocks finds."""
    site, climate = read_places()["Ames IA"]
    first, second = (
        dates("sweet_corn", climate, catalogue, site=site, start="sown", first=sown).first_harvest.day
        for sown in (D(2026, 5, 5), D(2026, 6, 2))
    )
    assert 10 * DAY < second - first < 24 * DAY


def test_a_crop_takes_its_printed_days_where_they_were_counted(catalogue):
    """The whole way through a plan, for crops of each family that are sown or set out in one window."""
    for key in ("carrot", "beetroot", "dwarf_bean", "tomato", "courgette", "cabbage", "lettuce"):
        one = catalogue.crops[key]
        place = shipped_places().measured_at(one.days_to_maturity.source)
        climate = Climate(
            monthly_minimum=place.monthly_minimum,
            monthly_maximum=place.monthly_maximum,
            last_frost=FrostDates(risk_50=place.last_frost),
            first_frost=FrostDates(risk_50=place.first_frost),
        )
        sown = one.maturity_from.value == "sowing"
        hint = place.warm_start if practice.tender(one) else place.cool_start
        field = "sow_from" if one.usual_start == "sown" else "set_out_from"
        first = dt.date.fromisoformat(f"2026-{hint or place.last_frost}")
        if not hint:
            first += (7 * one.number(field) + 21) * DAY
        found = dates(key, climate, catalogue, site=Site(latitude=place.latitude), start="sown" if sown else "raised", first=first)  # fmt: skip
        took = (found.first_harvest.day - first).days
        assert abs(took - one.number("days_to_maturity")) <= 1, key


def test_over_ten_degrees_is_what_these_tests_count():
    assert (
        OVER_TEN["base_temperature"],
        need_of(context_at(crop("one", **ripe_in(60)), start="sown")).heat,
    ) == (10, 540)
