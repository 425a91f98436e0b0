"""Temperature over the year: means of months are kept, and a year from frosts alone is one of its place."""

from __future__ import annotations

import datetime as dt
import itertools

import numpy as np
import pytest
from calendar_cases import read_places
from hypothesis import given
from hypothesis import strategies as st

from planner.garden import Climate, FrostDates
from planner.season.temperatures import (
    DAILY_RANGE,
    MINIMUM_AT_FROST,
    by_day,
    day_of_year_index,
    first_day,
    mean_on,
    year_of,
)

D = dt.date
MONTH_OF = np.array([(D(2000, 1, 1) + dt.timedelta(days=i)).month - 1 for i in range(366)])
months = st.lists(st.floats(-40, 45), min_size=12, max_size=12).map(tuple)
LOW = (0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6)
HIGH = (6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7)


@given(months)
def test_every_month_keeps_its_mean(monthly):
    daily = by_day(monthly)
    assert daily.shape == (366,)
    assert [daily[month == MONTH_OF].mean() for month in range(12)] == pytest.approx(list(monthly), abs=1e-9)


@given(st.floats(-30, 40))
def test_a_year_of_one_temperature_has_it_every_day(degrees):
    assert by_day((degrees,) * 12) == pytest.approx(degrees, abs=1e-9)


def test_days_follow_a_smooth_course_whose_means_are_known():
    """The months' means of a cosine over the year give the cosine back, to a tenth of a degree of twenty."""
    course = 10 - 10 * np.cos(2 * np.pi * (np.arange(366) - 20) / 366)
    monthly = tuple(float(course[month == MONTH_OF].mean()) for month in range(12))
    assert np.abs(by_day(monthly) - course).max() < 0.4
    assert np.abs(by_day(monthly) - course).mean() < 0.1


def test_the_year_joins_without_a_step():
    for monthly in (LOW, HIGH):
        daily = by_day(monthly)
        steps = np.abs(np.diff(np.append(daily, daily[0])))
        assert steps.max() < 0.2


def test_interpolating_plainly_between_the_middles_would_lose_the_warmest_month():
    """Why the means are kept: July of a continental place would be cooler by half a degree."""
    ames = read_places()["Ames IA"][1].monthly_maximum
    middles = np.cumsum([31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]) - 15.25
    plain = np.interp(np.arange(366) + 0.5, middles, ames, period=366)
    assert ames[6] - plain[MONTH_OF == 6].mean() > 0.2
    assert by_day(ames)[MONTH_OF == 6].mean() == pytest.approx(ames[6], abs=1e-9)


def test_a_date_has_the_same_place_in_every_year():
    assert day_of_year_index(D(2026, 3, 1)) == day_of_year_index(D(2028, 3, 1)) == 60
    assert day_of_year_index(D(2028, 2, 29)) == 59
    assert [day_of_year_index(D(2027, 1, 1)), day_of_year_index(D(2027, 12, 31))] == [0, 365]


def test_the_mean_of_a_day_lies_between_those_of_its_months():
    climate = Climate(monthly_minimum=LOW, monthly_maximum=HIGH)
    assert (
        14.75 <= mean_on(climate, D(2026, 7, 16)) < 15.25
    )  # the middle of the warmest month is warmer than its mean
    assert 10.25 < mean_on(climate, D(2026, 5, 31)) < 12.95
    assert mean_on(Climate(), D(2026, 7, 16)) is None


# -- where only the frosts are known --------------------------------------------------------------

FROSTS = {
    "last_frost": FrostDates(risk_10="05-20", risk_50="05-10", risk_90="05-01"),
    "first_frost": FrostDates(risk_10="09-28", risk_50="10-08", risk_90="10-18"),
}
SOUTH = {
    "last_frost": FrostDates(risk_10="11-20", risk_50="11-10", risk_90="11-01"),
    "first_frost": FrostDates(risk_10="03-28", risk_50="04-08", risk_90="04-18"),
}


def test_monthly_means_are_not_rough_and_frosts_alone_are():
    known = year_of(Climate(monthly_minimum=LOW, monthly_maximum=HIGH, **FROSTS), 56.0)
    rough = year_of(Climate(**FROSTS), 56.0)
    assert (known[2], rough[2]) == (False, True)
    assert known[0].mean() == pytest.approx(by_day(LOW).mean())
    assert (rough[1] - rough[0]) == pytest.approx(DAILY_RANGE)


def test_nothing_is_known_without_both_frosts():
    assert year_of(Climate(), 50.0) is None
    assert year_of(Climate(last_frost=FROSTS["last_frost"]), 50.0) is None


def test_a_rough_year_has_the_minimum_of_frost_days_on_its_frosts_in_the_mean():
    """The two frosts lie at different heights of a cosine; half the sum of both is that minimum."""
    low = year_of(Climate(**FROSTS), 56.0)[0]
    on_frosts = low[day_of_year_index(D(2000, 5, 10))] + low[day_of_year_index(D(2000, 10, 8))]
    assert on_frosts / 2 == pytest.approx(MINIMUM_AT_FROST, abs=1e-9)


def test_the_south_is_warmest_in_january_with_a_latitude_and_without():
    for latitude in (-43.5, None):
        low = year_of(Climate(**SOUTH), latitude)[0]
        assert 0 <= int(low.argmax()) <= 31
    for latitude in (43.5, None):
        assert 182 <= int(year_of(Climate(**FROSTS), latitude)[0].argmax()) <= 213


def test_years_are_wider_far_from_the_equator_and_in_colder_zones():
    ranges = [np.ptp(year_of(Climate(**FROSTS), latitude)[0]) for latitude in (30.0, 45.0, 60.0)]
    assert ranges == sorted(ranges)
    zones = [np.ptp(year_of(Climate(**FROSTS, zone=zone), 45.0)[0]) for zone in ("8a", "6a", "4a")]
    assert zones == sorted(zones)
    assert zones[0] < zones[-1] - 3


#: Mean error from spring to autumn that was measured at places whose means are known: too warm by the sea, too cold where
#: summers are hot. [deg C]
OFF = {"Kent": 1.0, "Hamburg": 2.2, "Christchurch NZ": 0.9, "Ames IA": -1.7, "Athens GA": -3.5}


@pytest.mark.parametrize("place", read_places())
def test_a_rough_year_is_as_near_the_measured_one_as_it_was_found(place):
    site, climate = read_places()[place]
    known = year_of(climate, site.latitude)
    rough = year_of(climate.with_(monthly_minimum=None, monthly_maximum=None), site.latitude)
    off = (rough[0] + rough[1]) / 2 - (known[0] + known[1]) / 2
    by_month = np.array([off[month == MONTH_OF].mean() for month in range(12)])
    season = by_month[[9, 10, 11, 0, 1, 2, 3]] if site.latitude < 0 else by_month[3:10]
    assert abs(season.mean()) <= abs(OFF[place]) + 0.5
    assert np.abs(by_month).max() <= abs(OFF[place]) + 2.0


# -- the first day --------------------------------------------------------------------------------


def test_the_first_day_is_found_around_the_turn_of_the_year():
    """Days are those of a leap year: across the end of February the day of another year may be one later."""
    wanted = np.zeros(366, dtype=bool)
    wanted[day_of_year_index(D(2000, 3, 10))] = True
    assert first_day(wanted, D(2026, 3, 10)) == D(2026, 3, 10)
    assert first_day(wanted, D(2026, 3, 1)) == D(2026, 3, 10)
    assert first_day(wanted, D(2028, 2, 1)) == D(2028, 3, 10)
    for after in (D(2026, 2, 1), D(2026, 3, 11), D(2025, 12, 31)):
        assert 0 <= (first_day(wanted, after) - D(after.year + (after.month > 2), 3, 10)).days <= 1
    assert first_day(np.zeros(366, dtype=bool), D(2026, 1, 1)) is None


def test_the_first_day_is_the_next_one_on_which_it_holds():
    random = np.random.default_rng(8)
    for month, day in itertools.product((1, 3, 7, 12), (1, 15, 28)):
        wanted = random.random(366) < 0.05
        after = D(2027, month, day)
        found, at = first_day(wanted, after), day_of_year_index(after)
        by_hand = next(days for days in range(366) if wanted[(at + days) % 366])
        assert found == after + dt.timedelta(days=by_hand)
