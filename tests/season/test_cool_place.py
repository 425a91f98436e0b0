"""A cool place by the sea at 56 degrees north: sorts under glass, and what the last long days do to leaves."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import COOL_SUMMER, D, dates, day

from planner.garden import Site

SITE = Site(latitude=56.0, longitude=-3.0)


@pytest.mark.parametrize("crop", ["tomato", "cucumber", "sweet_pepper"])
def test_early_sorts_are_grown_under_glass_before_and_after_the_last_frost_alike(catalogue, crop):
    """The last frost comes on 6 May in half of the years: two days either way are no other season."""
    before, after = (
        dates(crop, COOL_SUMMER, catalogue, site=SITE, start="raised", first=first, bed_kind="under glass")
        for first in (D(2026, 5, 5), D(2026, 5, 8))
    )
    assert before.first_harvest is not None
    assert after.first_harvest is not None
    assert "an early sort" in after.first_harvest.why
    assert dt.timedelta(0) <= after.first_harvest.day - before.first_harvest.day <= dt.timedelta(days=3)


def test_last_long_days_of_summer_do_not_send_spinach_to_seed(catalogue):
    """Spinach of August is the one that does not bolt; days of 14 hours end there on the 29th."""
    autumn = dates("spinach", COOL_SUMMER, catalogue, site=SITE, start="sown", first=D(2026, 8, 8))
    last = day(autumn.last_harvest)
    assert last is not None
    assert last >= D(2026, 10, 1)
    assert "to seed" not in autumn.last_harvest.why


def test_a_few_days_of_sowing_are_no_winter_of_waiting(catalogue):
    """Salad that is nearly grown when the dark weeks stop it is cut then, not in spring."""
    site = Site(latitude=44.0, longitude=-3.0)
    for first in (D(2026, 8, 28) + dt.timedelta(days=i) for i in range(8)):
        one = dates("corn_salad", COOL_SUMMER, catalogue, site=site, start="sown", first=first)
        cut = day(one.first_harvest)
        assert cut is not None
        assert cut < D(2026, 12, 1)


@pytest.mark.parametrize(
    ("latitude", "on"), [(56.0, D(2026, 5, 10)), (56.0, D(2026, 6, 20)), (50.0, D(2026, 6, 20))]
)
def test_sprouting_broccoli_is_cut_after_a_winter_whenever_it_is_set_out(catalogue, latitude, on):
    warm = COOL_SUMMER.model_copy(
        update={
            "monthly_minimum": tuple(t + 3 for t in COOL_SUMMER.monthly_minimum),
            "monthly_maximum": tuple(t + 3 for t in COOL_SUMMER.monthly_maximum),
        }
    )
    site = Site(latitude=latitude, longitude=-3.0)
    first = day(
        dates("sprouting_broccoli", warm, catalogue, site=site, start="raised", first=on).first_harvest
    )
    assert first is not None
    assert D(2027, 1, 20) <= first <= D(2027, 5, 1)


def test_long_days_send_spinach_of_spring_to_seed(catalogue):
    spring = dates("spinach", COOL_SUMMER, catalogue, site=SITE, start="sown", first=D(2026, 4, 10))
    last = day(spring.last_harvest)
    assert last is not None
    assert D(2026, 6, 1) <= last <= D(2026, 7, 15)
    assert "to seed" in spring.last_harvest.why
