"""Degree-days against published worked examples, and temperatures from monthly means."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from planner.season.heat import (
    days_for,
    degree_days,
    emergence,
    emergence_outdoors,
    heat_between,
    mean_on,
)

from planner.crops import Series
from planner.garden import Climate

D = dt.date
LOW = (0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6)
HIGH = (6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7)
CLIMATE = Climate(monthly_minimum=LOW, monthly_maximum=HIGH)


@pytest.mark.parametrize(
    ("high", "low", "days"),
    [(70, 50, 10), (90, 86, 36), (90, 65, 25.5), (72, 46, 11), (63, 42, 6.5)],
)
def test_bounded_degree_days_give_the_printed_examples(high, low, days):
    """Iowa State Agronomy 541 lesson 2b; a Wisconsin extension column of 2018. [F days]"""
    assert float(degree_days(low, high, 50, 86, method=2)) == days


def test_method_one_gives_the_printed_simple_mean():
    """A farm adviser's page: (83 + 61) / 2 - 50 = 22 F days."""
    assert float(degree_days(61, 83, 50)) == 22


def test_three_days_add_up_as_printed():
    assert float(degree_days([65, 46, 42], [90, 72, 63], 50, 86, method=2).sum()) == 43


def test_the_methods_differ_where_the_minimum_lies_below_the_base():
    assert float(degree_days(46, 72, 50)) == 9
    assert float(degree_days(20, 40, 50)) == 0
    with pytest.raises(ValueError, match="method 3"):
        degree_days(1, 2, 0, method=3)


def test_the_middle_of_a_month_has_its_mean():
    assert mean_on(CLIMATE, D(2026, 7, 16)) == pytest.approx(14.75, abs=0.02)
    between = mean_on(CLIMATE, D(2026, 5, 31))
    assert between is not None
    assert 10.3 < between < 12.95
    assert mean_on(Climate(), D(2026, 7, 16)) is None


def test_heat_and_days_answer_each_other():
    heat = heat_between(CLIMATE, D(2026, 5, 6), 80, 4.4)
    assert heat is not None
    assert days_for(CLIMATE, D(2026, 5, 6), heat, 4.4) == 80
    by_hand = sum((mean_on(CLIMATE, D(2026, 5, 6) + dt.timedelta(days=i)) or 0) - 4.4 for i in range(80))
    assert heat == pytest.approx(by_hand)
    later = days_for(CLIMATE, D(2026, 8, 20), heat, 4.4)
    assert later is not None
    assert later > 100
    assert days_for(CLIMATE, D(2026, 5, 6), 1e6, 4.4) is None


def test_seed_comes_up_faster_in_warm_soil():
    table = Series(at=((5, 42), (10, 17), (15, 10), (20, 6)), source="x")
    assert emergence(table, 12.5) == pytest.approx(13.5)
    assert emergence(table, None) is None
    constant = Climate(monthly_minimum=(10.0,) * 12, monthly_maximum=(10.0,) * 12)
    assert emergence_outdoors(table, constant, D(2026, 4, 1)) == 17
    early, late = (emergence_outdoors(table, CLIMATE, D(2026, month, 1)) for month in (3, 6))
    assert early is not None
    assert late is not None
    assert late < early < np.inf


@pytest.mark.parametrize(("days", "found"), [(4.0, 4), (2.0, 2), (0.6, 1), (0.0, 1)])
def test_seed_that_comes_up_within_days_takes_a_day_at_least(days, found):
    warm = Climate(monthly_minimum=(20.0,) * 12, monthly_maximum=(20.0,) * 12)
    assert emergence_outdoors(Series(at=((20, days),), source="x"), warm, D(2026, 6, 1)) == found
