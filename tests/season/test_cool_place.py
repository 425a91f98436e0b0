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


def test_long_days_send_spinach_of_spring_to_seed(catalogue):
    spring = dates("spinach", COOL_SUMMER, catalogue, site=SITE, start="sown", first=D(2026, 4, 10))
    last = day(spring.last_harvest)
    assert last is not None
    assert D(2026, 6, 1) <= last <= D(2026, 7, 15)
    assert "to seed" in spring.last_harvest.why
