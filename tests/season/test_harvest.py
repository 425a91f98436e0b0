"""Harvests: days to maturity, short days, frost, winter, degree-days."""

from __future__ import annotations

import datetime as dt

from dated_plantings import ZONE_5, D, dates, day


def test_days_to_maturity_from_sowing_count_from_the_sowing():
    assert day(dates("early", start="raised").first_harvest) == D(2026, 3, 13) + dt.timedelta(days=60 - 10)


def test_bought_plants_are_set_out_and_have_the_weeks_indoors_behind_them():
    found = dates("early", start="bought")
    assert (day(found.set_out), found.sow) == (D(2026, 4, 24), None)
    assert day(found.first_harvest) == D(2026, 4, 24) + dt.timedelta(days=17), "a third at least is left"
    assert day(dates("raised", start="bought").first_harvest) == D(2026, 6, 13)


def test_sown_in_place_takes_the_time_young_plants_would_have_been_raised_longer():
    assert day(dates("raised", start="sown").first_harvest) == D(2026, 5, 1) + dt.timedelta(days=42 + 50)


def test_short_days_delay_what_is_started_after_midsummer():
    assert day(dates("hardy", first=D(2026, 8, 1)).first_harvest) == D(2026, 9, 30) + dt.timedelta(days=14)
    assert day(dates("hardy", first=D(2026, 6, 1)).first_harvest) == D(2026, 7, 31)
    assert day(dates("hardy", first=D(2026, 7, 20)).first_harvest) == D(2026, 9, 18), "before the equinox"


def test_frost_ends_the_harvest_of_a_tender_crop_only():
    bean = dates("bean", first=D(2026, 8, 5))
    assert bean.ripens is False, "60 days and 14 for short days end on 18 October"
    assert "would ripen on 18 Oct, after the first autumn frost (16 Oct)" in bean.doubts[-1]
    early = dates("bean", first=D(2026, 7, 20), pinned_dates={"first_harvest": D(2026, 10, 1)})
    assert day(early.last_harvest) == D(2026, 10, 15)
    assert day(dates("kale", first=D(2026, 7, 28)).last_harvest) == D(2026, 10, 29)
    glass = dates("bean", first=D(2026, 8, 5), bed_kind="under glass")
    assert (glass.ripens, day(glass.first_harvest)) == (True, D(2026, 10, 4))


def test_what_autumn_catches_small_grows_on_in_spring():
    found = dates("kale", first=D(2026, 10, 10))
    assert found.first_harvest is not None
    # six days before the frost, then from 10 April on
    assert found.first_harvest.day == D(2027, 4, 10) + dt.timedelta(days=54)
    assert "stands still over winter" in found.first_harvest.why


def test_by_heat_a_summer_sowing_is_quicker_and_the_usual_one_the_same():
    heat = ZONE_5.with_(by_heat=True)
    usual = dates("bean", heat)
    assert usual.sow is not None
    assert usual.first_harvest is not None
    assert (usual.first_harvest.day - usual.sow.day).days == 60
    summer = dates("bean", heat, first=D(2026, 6, 20))
    assert summer.first_harvest is not None
    assert (summer.first_harvest.day - D(2026, 6, 20)).days < 50
    assert "degree-days over 10.0 °C" in summer.first_harvest.why
    never = dates("bean", heat, first=D(2026, 9, 25))
    assert never.first_harvest is None or never.first_harvest.day > D(2027, 4, 1), "winter gives no heat"
    assert never.ripens is False


def test_a_second_block_of_corn_ripens_behind_the_first(catalogue):
    usual = dates("sweet_corn", ZONE_5, catalogue, start="sown")
    assert usual.sow is not None
    late = dates("sweet_corn", ZONE_5, catalogue, start="sown", first=usual.sow.day + dt.timedelta(weeks=4))
    assert late.ripens
    assert late.first_harvest is not None
    assert usual.first_harvest is not None
    assert (late.first_harvest.day - usual.first_harvest.day).days == 28
    assert late.doubts == ()
