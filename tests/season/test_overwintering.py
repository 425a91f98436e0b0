"""Crops that autumn catches small: when they grow on, and which ones."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, D, day
from dated_plantings import dates as dates_of
from making import catalogue_of, crop

from planner.garden import Climate, FrostDates
from planner.season.planting_dates import Dates

DAY = dt.timedelta(days=1)
#: The first autumn frost of the tests' climate.
FROST = D(2026, 10, 16)


def slow(hardiness: str = "frost-tolerant", days: int = 120, **figures):
    return crop("slow", hardiness=hardiness, days_to_maturity=days, harvest_days=20, **figures)


#: A climate with a short winter: its last frost is on 10 March, its first on 20 December.
MILD = Climate(
    last_frost=FrostDates(risk_10="03-20", risk_50="03-10", risk_90="03-01"),
    first_frost=FrostDates(risk_10="12-01", risk_50="12-20", risk_90="12-28"),
)


def dates(first: dt.date, last: dt.date | None = None, one=None, climate: Climate = CLIMATE) -> Dates:
    shelf = catalogue_of(one if one is not None else slow(sow_from=-3))
    return dates_of("slow", climate, shelf, start="sown", first=first, last=last)


def waits(found: Dates) -> bool:
    assert found.first_harvest is not None
    return "stands still over winter" in found.first_harvest.why


@pytest.mark.parametrize(
    ("last", "days"),
    [
        (None, 56),
        (FROST + 120 * DAY, 56),
        (FROST + 121 * DAY, 84),
        (D(2027, 7, 1), 84),
    ],
)
def test_a_start_this_long_before_the_frost_is_caught_small_and_longer_where_it_is_kept_over_winter(
    last, days
):
    assert waits(dates(FROST - days * DAY, last))
    assert not waits(dates(FROST - (days + 1) * DAY, last))


def test_it_grows_on_from_its_spring_window_by_the_days_it_has_left():
    found = dates(FROST - 56 * DAY)
    assert found.first_harvest is not None
    assert found.first_harvest.day == D(2027, 4, 10) + (120 - 56) * DAY
    kept = dates(FROST - 84 * DAY, D(2027, 7, 1))
    assert day(kept.first_harvest) == D(2027, 4, 10) + 40 * DAY, "a third of its days at least"


def test_without_a_spring_window_it_grows_on_four_weeks_before_the_last_frost():
    assert day(dates(FROST - 50 * DAY, one=slow()).first_harvest) == D(2027, 5, 1) + (-28 + 70) * DAY


@pytest.mark.parametrize(("hardiness", "bears"), [("frost-tolerant", 28), ("very hardy", 42)])
def test_what_ripens_soon_after_the_first_frosts_is_picked_then(hardiness, bears):
    """14 days are added for the short days of autumn."""
    for days, later in ((50 + bears - 14, False), (50 + bears - 13, True)):
        assert waits(dates(FROST - 50 * DAY, one=slow(hardiness, days, sow_from=-3))) == later


def test_at_the_end_of_a_winter_it_grows_at_once():
    late, early = dates(D(2027, 4, 3)), dates(D(2027, 3, 1))
    assert day(late.first_harvest) == D(2027, 4, 3) + 120 * DAY
    assert not waits(early)


@pytest.mark.parametrize(("first", "later"), [(D(2026, 2, 9), True), (D(2026, 2, 10), False)])
def test_a_winter_that_is_over_within_four_weeks_is_not_waited_for(first, later):
    assert waits(dates(first, climate=MILD)) == later


@pytest.mark.parametrize(("first", "later"), [(D(2026, 1, 26), True), (D(2026, 1, 27), False)])
def test_in_its_spring_window_it_grows_at_once(first, later):
    """The window opens six weeks before the last frost, on 27 January."""
    assert waits(dates(first, one=slow(sow_from=-6), climate=MILD)) == later


def test_started_in_winter_it_waits_for_its_spring():
    found = dates(D(2026, 11, 20))
    assert waits(found)
    assert day(found.first_harvest) == D(2027, 4, 10) + 120 * DAY


def test_a_tender_crop_does_not_live_through_a_winter():
    found = dates(FROST - 50 * DAY, one=slow("tender", 60, sow_from=-3))
    assert not waits(found)
    assert found.ripens is False
