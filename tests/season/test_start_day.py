"""How plantings start: sown, raised, bought, from sets, forward and counted back.

In the climate of these tests every day gives 9 degree-days: 540 are 60 days.
"""

from __future__ import annotations

import datetime as dt

import pytest
from calendar_cases import read_places
from dated_plantings import BEAN, CLIMATE, FROSTS_ALONE, KALE, OVER_TEN, ZONE_5, D, dates, day
from making import catalogue_of, crop

from planner.crops import load_catalogue
from planner.season.counting_back import count_back, latest_start


def test_sown_in_place_counts_from_the_last_frost():
    found = dates("hardy")
    assert day(found.sow) == D(2026, 4, 10)
    assert day(found.first_harvest) == D(2026, 6, 9)
    assert day(found.last_harvest) == D(2026, 6, 28)
    assert day(found.clear) == D(2026, 6, 28)
    assert found.sow is not None
    assert found.sow.why == "3 weeks before the last spring frost (1 May, risk 50 %)"
    assert (found.sow.source, found.sow.origin) == ("estimate", "worked out")
    assert (found.prick_out, found.set_out, found.indoors) == (None, None, None)


@pytest.mark.parametrize(("risk", "sown"), [(10, D(2026, 4, 20)), (50, D(2026, 4, 10)), (90, D(2026, 3, 31))])
def test_the_risk_chosen_moves_the_dates(risk, sown):
    assert day(dates("hardy", CLIMATE.with_(risk=risk)).sow) == sown


def test_raised_plants_are_sown_so_many_weeks_before_they_are_set_out():
    found = dates("raised")
    assert day(found.set_out) == D(2026, 4, 24)
    assert day(found.sow) == D(2026, 3, 13)
    assert day(found.prick_out) == D(2026, 4, 2), "10 days to come up, 10 to prick out"
    assert day(found.harden_off) == D(2026, 4, 16)
    assert day(found.first_harvest) == D(2026, 6, 13)
    assert found.indoors == (D(2026, 3, 13), D(2026, 4, 23))
    assert [(s.name, s.first) for s in found.stages()] == [
        ("indoors", D(2026, 3, 13)),
        ("growing", D(2026, 4, 24)),
        ("picking", D(2026, 6, 13)),
    ]


@pytest.mark.parametrize(("crop", "start"), [("onion", "sets"), ("potato", "tubers"), ("shallot", "sets")])
def test_sets_and_tubers_are_planted_in_their_window(catalogue, crop, start):
    found = dates(crop, shelf=catalogue, start=start)
    assert found.sow is None
    assert found.set_out is not None
    assert D(2026, 3, 15) < found.set_out.day < D(2026, 5, 1)
    assert found.first_harvest is not None
    assert found.first_harvest.day > found.set_out.day


def test_a_planting_found_grown_has_no_starting_work():
    found = dates("kale", start="standing")
    assert (found.sow, found.set_out, found.thin) == (None, None, None)


def test_a_wanted_first_harvest_is_counted_backward():
    found = dates("raised", pinned_dates={"first_harvest": D(2026, 7, 1)})
    assert day(found.set_out) == D(2026, 7, 1) - dt.timedelta(days=50)
    assert day(found.sow) == D(2026, 7, 1) - dt.timedelta(days=92)
    assert found.first_harvest is not None
    assert found.first_harvest.pinned


def test_count_back_gives_the_worked_examples():
    """The published formula of VCE 426-334; example numbers worked by hand."""
    frost = D(2026, 10, 16)
    assert count_back(frost, 50, 0, 14, tender=True) == D(2026, 7, 16)
    assert count_back(frost, 60, 35, 14, tender=False) == D(2026, 6, 15)
    assert (frost - count_back(frost, 65, 0, 0, tender=False)).days == 79


def test_a_window_that_only_frost_ends_is_counted_back_for_the_crop():
    """The rule of Virginia Cooperative Extension 426-334, with the crop's own figures."""
    frost = D(2026, 10, 16)
    # 60 days, its 20 days of harvest, a fall factor of 14, and 14 more for a crop that frost kills
    assert (frost - latest_start(BEAN, "sown", frost)).days == 60 + 20 + 14 + 14
    assert (frost - latest_start(KALE, "sown", frost)).days == 60 + 20 + 14
    assert latest_start(crop("unknown"), "sown", frost) is None


def test_counting_back_ends_the_harvest_before_frost_comes_in_one_year_of_ten():
    """A tender crop is to be picked for its 20 days by 6 October, ten days before the frost of half of the years."""
    bean = dates("bean", timing="count back")
    assert day(bean.sow) == D(2026, 10, 6) - dt.timedelta(days=60 + 20)
    assert bean.sow.why == (
        "540 degree-days over 10 °C and 20 days of harvest before 6 Oct 2026, before which frost comes in one year of ten"
    )
    assert day(bean.first_harvest) == D(2026, 10, 6) - dt.timedelta(days=20)


def test_what_frost_does_not_kill_is_counted_back_from_the_cold_and_the_dark():
    """By hand: its pace is a fifth of its best until the light that short days leave to it is little."""
    hardy = dates("hardy", timing="count back")
    assert "when it is too cool and dark to grow" in hardy.sow.why
    assert day(hardy.sow) > day(dates("bean", timing="count back").sow)
    raised = dates("raised", timing="count back")
    assert (day(raised.set_out) - day(raised.sow)).days == 42, "six weeks indoors"
    assert "and 10 days of harvest before" in raised.set_out.why


def test_counting_back_without_temperatures_in_a_rough_year_is_not_far_from_the_published_rule():
    """Virginia Cooperative Extension 426-334 adds 14 days for the short days of autumn, and 14 more for a tender crop."""
    for key, more in (("bean", 28), ("hardy", 14)):
        found = dates(key, FROSTS_ALONE, timing="count back")
        by_rule = D(2026, 10, 16) - dt.timedelta(days=60 + 20 + more)
        assert abs((day(found.sow) - by_rule).days) <= 35


def test_a_crop_that_has_too_little_time_is_started_as_early_as_it_may():
    slow = crop(
        "slow",
        hardiness="tender",
        sow_from=0,
        days_to_maturity=150,
        heat_to_harvest=1400,
        harvest_days=20,
        **OVER_TEN,
    )
    found = dates("slow", shelf=catalogue_of(slow), timing="count back")
    assert day(found.sow) == D(2026, 5, 11)
    assert found.sow.why.startswith("As early as it may start: it has too little time before 6 Oct")


def test_counting_back_never_leaves_the_year_unsaid():
    """Onion sets with a first frost on 1 November once came out a year later."""
    mild = CLIMATE.with_(
        last_frost={"risk_10": "04-10", "risk_50": "03-25", "risk_90": "03-10"},
        first_frost={"risk_10": "10-20", "risk_50": "11-01", "risk_90": "11-12"},
    )
    for key, start in (
        ("onion", "sets"),
        ("carrot", "sown"),
        ("kale", "raised"),
        ("potato", "tubers"),
        ("leek", "raised"),
    ):
        found = dates(key, mild, load_catalogue(), start=start, timing="count back", year=2026)
        assert found.on_plot.day.year == 2026, key


def test_cold_soil_is_pointed_out_and_named_an_estimate():
    cold = crop("cold", sow_from=-8, soil_least=12, days_to_maturity=60, harvest_days=9)
    found = dates("cold", ZONE_5, catalogue_of(cold), first=D(2026, 3, 20))
    assert "judged by the mean air temperature; cold needs 12 °C to come up" in found.doubts[0]
    warm = dates("cold", ZONE_5, catalogue_of(cold), first=D(2026, 5, 10))
    assert warm.doubts == ()


def test_soil_that_is_warm_enough_by_handbooks_is_not_called_cold():
    """Peas are sown at 4 degrees: the least that either of its figures asks."""
    pea = crop("pea", sow_from=-8, soil_least=8, start_temperature=4, days_to_maturity=60, harvest_days=9)
    found = dates("pea", ZONE_5, catalogue_of(pea), first=D(2026, 4, 10))
    assert not any("The soil is about" in doubt for doubt in found.doubts)


def test_melons_are_raised_three_weeks_and_wait_for_warm_soil_in_zone_5(catalogue):
    """Frost alone would let them out on 10 May; Oklahoma State University asks for soil of 20 degrees, as its row is cited."""
    found = dates("melon", ZONE_5, catalogue)
    assert found.set_out is not None
    assert found.sow is not None
    assert catalogue.crops["melon"].number("start_temperature") == 20
    assert D(2026, 5, 10) < found.set_out.day <= D(2026, 6, 7)
    assert (found.set_out.day - found.sow.day).days == 21, "3 to 4 weeks (isu_transplant)"


def test_a_harvest_wanted_late_in_the_year_is_started_earlier_by_what_the_cool_costs(catalogue):
    """Lettuce of August and of November in Kent: the second has shorter and cooler days."""
    site, climate = read_places()["Kent"]
    took = []
    for wanted in (D(2026, 8, 10), D(2026, 11, 10)):
        found = dates(
            "lettuce", climate, catalogue, site=site, start="sown", pinned_dates={"first_harvest": wanted}
        )
        took.append((wanted - day(found.sow)).days)
    assert took[1] > took[0] + 14


def test_a_wanted_harvest_is_what_comes_out(catalogue):
    """Counting back and forward agree, for what is not taken for a late sort when it is sown at midsummer."""
    site, climate = read_places()["Hamburg"]
    for key in ("dwarf_bean", "kohlrabi", "courgette"):
        wanted = D(2026, 8, 20)
        back = dates(key, climate, catalogue, site=site, start="sown", pinned_dates={"first_harvest": wanted})
        forward = dates(key, climate, catalogue, site=site, start="sown", first=day(back.sow))
        assert abs((day(forward.first_harvest) - wanted).days) <= 1, key


def test_no_more_than_three_weeks_of_a_long_harvest_are_counted_back():
    for length, counted in ((10, 10), (21, 21), (60, 21)):
        one = crop("one", days_to_maturity=60, harvest_days=length)
        assert (D(2026, 10, 16) - latest_start(one, "sown", D(2026, 10, 16))).days == 60 + counted + 14


def test_tubers_come_up_after_four_weeks_where_no_temperatures_are_known(catalogue):
    nothing = FROSTS_ALONE.with_(last_frost=None)
    found = dates("potato", nothing, catalogue, first=D(2026, 4, 1))
    assert day(found.emerge) == D(2026, 4, 29)
