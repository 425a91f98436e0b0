"""How plantings start: sown, raised, bought, from sets, forward and counted back."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import BEAN, CLIMATE, KALE, ZONE_5, D, dates, day
from making import catalogue_of, crop

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


def test_counting_back_allows_for_harvest_and_short_days():
    bean = dates("bean", timing="count back")
    assert day(bean.sow) == D(2026, 10, 16) - dt.timedelta(days=60 + 20 + 28)
    hardy = dates("hardy", timing="count back")
    assert day(hardy.sow) == D(2026, 10, 16) - dt.timedelta(days=60 + 20 + 14)
    assert hardy.sow is not None
    assert hardy.sow.source == "vce426334"
    raised = dates("raised", timing="count back")
    assert day(raised.set_out) == D(2026, 10, 16) - dt.timedelta(days=50 + 10 + 14)
    assert day(raised.sow) == D(2026, 10, 16) - dt.timedelta(days=50 + 10 + 14 + 42), "D + T + H + 14"


def test_cold_soil_is_pointed_out_and_named_an_estimate():
    cold = crop("cold", sow_from=-8, soil_least=12, days_to_maturity=60, harvest_days=9)
    found = dates("cold", ZONE_5, catalogue_of(cold))
    assert "judged by the mean air temperature; cold needs 12 °C to come up" in found.doubts[0]


def test_melons_are_raised_two_weeks_and_set_out_in_the_second_week_of_may_in_zone_5(catalogue):
    found = dates("melon", ZONE_5, catalogue)
    assert found.set_out is not None
    assert found.sow is not None
    assert D(2026, 5, 8) <= found.set_out.day <= D(2026, 5, 15)
    assert (found.set_out.day - found.sow.day).days == pytest.approx(14, abs=2)


def test_a_harvest_wanted_in_short_days_is_started_two_weeks_earlier():
    wanted = {"first_harvest": D(2026, 10, 1)}
    assert day(dates("hardy", pinned_dates=wanted).sow) == D(2026, 10, 1) - dt.timedelta(days=60 + 14)
    before = {"first_harvest": D(2026, 9, 21)}
    assert day(dates("hardy", pinned_dates=before).sow) == D(2026, 9, 21) - dt.timedelta(days=60)


def test_no_more_than_three_weeks_of_a_long_harvest_are_counted_back():
    for length, counted in ((10, 10), (21, 21), (60, 21)):
        one = crop("one", days_to_maturity=60, harvest_days=length)
        assert (D(2026, 10, 16) - latest_start(one, "sown", D(2026, 10, 16))).days == 60 + counted + 14


def test_tubers_come_up_after_four_weeks_where_no_temperatures_are_known(catalogue):
    found = dates("potato", shelf=catalogue, first=D(2026, 4, 1))
    assert day(found.emerge) == D(2026, 4, 29)
