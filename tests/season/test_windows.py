"""Windows in which crops are started."""

from __future__ import annotations

import pytest
from dated_plantings import CLIMATE, ZONE_5, D, dates, day, steady
from making import bed, catalogue_of, crop, garden, planting

from planner.crops import load_catalogue
from planner.crops.cover_effects import effect
from planner.plan import Plan
from planner.season.temperatures import by_day, day_of_year_index
from planner.season.usual_weather import SOIL_OVER_AIR
from planner.season.windows import LONGEST_WAIT, TENDER_RISK


@pytest.mark.parametrize(
    ("days", "spring", "autumn"),
    [(260, -3, True), (199, -3, False), (205, -6, False), (220, -6, True)],
)
def test_a_slow_crop_that_spring_would_not_ripen_is_started_in_autumn(days, spring, autumn):
    """Sown on 10 April it has 189 days until the frost; on 20 March 210."""
    one = crop("one", sow_from=spring, autumn_from=-2, days_to_maturity=days, harvest_days=9)
    assert day(dates("one", shelf=catalogue_of(one)).sow) == (
        D(2026, 10, 2) if autumn else D(2026, 5, 1) - (D(2026, 5, 1) - D(2026, 4, 10)) * (-spring / 3)
    )


@pytest.mark.parametrize("year", [2026, 2027])
@pytest.mark.parametrize("timing", [None, "autumn"])
def test_garlic_planted_in_the_autumn_before_its_year_is_in_its_window(year, timing):
    frosts = {
        "last_frost": {"risk_10": "05-10", "risk_50": "04-25", "risk_90": "04-10"},
        "first_frost": {"risk_10": "10-05", "risk_50": "10-20", "risk_90": "11-06"},
    }
    garlic = planting(crop="garlic", year=year, first="2026-11-10", timing=timing)
    made = garden(bed(), garlic, climate=frosts, site={"latitude": 52.2})
    assert Plan(made, 2027).dates(made.plantings[0]).doubts == ()


# -- the opening: frost and soil ------------------------------------------------------------------


def opening(climate=CLIMATE, start: str = "sown", **figures):
    one = crop(
        "one", **{"sow_from": 0, "set_out_from": 0, "days_to_maturity": 60, "harvest_days": 9, **figures}
    )
    return dates("one", climate, catalogue_of(one), start=start).on_plot


def test_what_frost_kills_waits_for_the_day_after_which_frost_comes_in_one_year_of_ten():
    assert TENDER_RISK == 10
    tender, hardy = opening(hardiness="tender"), opening(hardiness="frost-tolerant")
    assert (tender.day, hardy.day) == (D(2026, 5, 11), D(2026, 5, 1))
    assert tender.why == "Frost comes later than 11 May in one year of ten"
    assert opening(hardiness="tender", sow_from=3).day == D(2026, 5, 22), "its window opens later than that"
    assert opening(CLIMATE.with_(risk=10), hardiness="tender").day == D(2026, 5, 11)


def test_covers_and_glass_let_it_out_sooner_by_the_frost_that_they_hold_off():
    """By hand: the last frost comes to it when the mean minimum was lower by so many degrees."""
    shelf = catalogue_of(crop("one", hardiness="tender", set_out_from=0, days_to_maturity=60, harvest_days=9))
    plain = dates("one", ZONE_5, shelf, start="bought").set_out
    fleece = dates("one", ZONE_5, shelf, start="bought", covers=({"kind": "fleece"},)).set_out
    glass = dates("one", ZONE_5, shelf, start="bought", bed_kind="under glass").set_out
    low = by_day(ZONE_5.monthly_minimum)
    for found, kind in ((fleece, "fleece"), (glass, "glasshouse")):
        fallen = low[day_of_year_index(plain.day)] - low[day_of_year_index(found.day)]
        assert fallen == pytest.approx(effect(kind).frost_gain, abs=0.3)
    assert D(2026, 4, 1) < glass.day < fleece.day < plain.day


def soil(climate, day_) -> float:
    """Mean temperature of the soil by hand."""
    at = day_of_year_index(day_)
    return (
        float(by_day(climate.monthly_minimum)[at] + by_day(climate.monthly_maximum)[at]) / 2 + SOIL_OVER_AIR
    )


def test_everything_waits_for_soil_as_warm_as_handbooks_ask():
    found = opening(ZONE_5, hardiness="frost-tolerant", sow_from=-6, start_temperature=9)
    assert soil(ZONE_5, found.day) >= 9 > soil(ZONE_5, found.day - (D(2026, 1, 2) - D(2026, 1, 1)))
    assert found.why == "The soil has 9 °C from then on"


def test_seed_without_such_a_figure_waits_for_the_least_at_which_it_comes_up_and_plants_do_not():
    sown = opening(ZONE_5, hardiness="frost-tolerant", sow_from=-6, soil_least=9)
    assert sown.why == "The soil has 9 °C from then on"
    plants = opening(ZONE_5, "bought", hardiness="frost-tolerant", set_out_from=-6, soil_least=9)
    assert plants.day == D(2026, 3, 18)


def test_where_the_soil_is_warm_nothing_waits():
    assert opening(hardiness="frost-tolerant", sow_from=-6, start_temperature=9).day == D(2026, 3, 20)


def test_a_cool_place_is_not_waited_for_past_midsummer():
    """Soil of 15 degrees all year, and a crop that asks for 20: two weeks before the longest day at the latest."""
    cool = steady(9.0, 19.0)
    found = opening(cool, hardiness="tender", start_temperature=20)
    assert LONGEST_WAIT == 14
    assert found.day == D(2026, 6, 7)
    assert "The soil stays below 20 °C" in found.why
    late = opening(cool, hardiness="tender", sow_from=8, start_temperature=20)
    assert late.day == D(2026, 7, 10), "two weeks after a window that opens later"
    hardy = opening(cool, hardiness="frost-tolerant", start_temperature=20)
    assert hardy.day == D(2026, 5, 1), "what bears frost starts with its window"


def test_plants_that_few_cold_days_send_to_seed_are_set_out_when_days_are_mild():
    """Ten degrees in the mean; celery and celeriac in two weeks, cabbages in six."""
    quick = opening(ZONE_5, "bought", hardiness="frost-tolerant", set_out_from=-6, chill_to_bolt=14)
    slow = opening(ZONE_5, "bought", hardiness="frost-tolerant", set_out_from=-6, chill_to_bolt=42)
    assert slow.day == D(2026, 3, 18)
    assert soil(ZONE_5, quick.day) - SOIL_OVER_AIR >= 10
    assert quick.why == "14 days below 10 °C would send it to seed"


def test_cloves_start_in_their_autumn_window_unless_spring_is_wanted():
    catalogue = load_catalogue()
    usual = dates("garlic", shelf=catalogue, start="cloves")
    spring = dates("garlic", shelf=catalogue, start="cloves", timing="spring")
    assert usual.set_out.day >= D(2026, 10, 1)
    assert spring.set_out.day < D(2026, 6, 1)


def test_a_garden_without_frosts_says_that_a_day_must_be_given():
    one = crop("one", sow_from=0, days_to_maturity=60, harvest_days=9)
    bare = dates("one", CLIMATE.with_(last_frost=None, first_frost=None), catalogue_of(one))
    assert bare.sow is None
    assert any(
        "last spring frost is not given" in words or "no frost to count from" in words
        for words in bare.missing
    )


@pytest.mark.parametrize(
    ("until", "into"), [(9, 14), (1, 7), (-3, 0)], ids=["long window", "short window", "one day"]
)
def test_raised_plants_that_bear_frost_are_set_out_some_way_into_their_window(until, into):
    """A quarter of it, and two weeks at most; the window opens three weeks before the last frost of 1 May."""
    fields = {"set_out_from": -3, "set_out_until": until, "weeks_to_raise": 6, "days_to_maturity": 60}
    starts = {"value": ["raised", "bought", "sown"], "source": "practice"}
    hardy = crop("hardy", starts=starts, hardiness="frost-tolerant", sow_from=-3, **fields)
    tender = crop("tender", starts=starts, hardiness="tender", sow_from=-3, **fields)
    shelf = catalogue_of(hardy, tender)
    opens = D(2026, 4, 10)
    assert (day(dates("hardy", shelf=shelf).set_out) - opens).days == into
    assert day(dates("hardy", shelf=shelf, start="sown").sow) == opens
    assert day(dates("tender", shelf=shelf).set_out) == D(2026, 5, 11), (
        "frost in one year of ten, and no later"
    )


# -- the ground, corms, seed of onions, and what bears the year after -------------------------------


def test_nothing_is_put_into_frozen_ground():
    """Eight weeks before the last frost of zone 5 the soil is frozen; it is open when its mean has two degrees."""
    one = crop("one", sow_from=-8, days_to_maturity=60, harvest_days=10)
    found = dates("one", ZONE_5, catalogue_of(one))
    assert D(2026, 3, 5) < day(found.sow) <= D(2026, 3, 25)
    assert found.sow.why == "The ground is open from then on"
    assert day(dates("one", shelf=catalogue_of(one)).sow) == D(2026, 3, 6)  # where it never freezes


@pytest.mark.parametrize(("weeks", "begins"), [(-2, D(2026, 4, 17)), (0, D(2026, 5, 11))])
def test_corms_with_a_window_before_the_last_frost_wait_for_it_below_ground(weeks, begins):
    """What is printed before the last frost holds, tender or not; the rest waits for the frost of one year in ten."""
    one = crop("one", hardiness="tender", set_out_from=weeks, days_to_maturity=80, harvest_days=10)
    assert day(dates("one", shelf=catalogue_of(one), start="tubers").set_out) == begins


def test_onions_are_sown_so_much_before_sets_as_they_take_longer():
    starts = {"value": ["sets", "sown"], "source": "practice"}
    one = crop("one", starts=starts, autumn_from=-4, days_to_maturity=265, days_from_seed=300, harvest_days=9)
    sets, seed = (
        dates("one", shelf=catalogue_of(one), start=start, timing="autumn") for start in ("sets", "sown")
    )
    assert (day(sets.set_out) - day(seed.sow)).days == 35


@pytest.mark.parametrize(("days", "autumn"), [(299, True), (300, False)])
def test_what_takes_most_of_a_year_is_sown_in_spring_to_bear_the_year_after(days, autumn):
    one = crop("one", sow_from=0, autumn_from=-8, days_to_maturity=days, harvest_days=9)
    assert (day(dates("one", shelf=catalogue_of(one)).sow) > D(2026, 7, 1)) == autumn
