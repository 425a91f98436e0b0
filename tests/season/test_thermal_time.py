"""Degree-days against the closed form of the sine, printed worked examples and the simple mean of the day."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.season.thermal_time import Response, degree_days, hourly, sums

#: A sum over 24 hours in place of the integral errs by no more than this share of the day's range.
OF_HOURS = 0.004
temperatures = st.floats(-20.0, 45.0)


def over(threshold: float, low: float, high: float) -> float:
    """Degree-days over a threshold under a sine from minimum to maximum and back, in closed form. [deg C days]

    Baskerville GL and Emin P 1969, Rapid estimation of heat accumulation from maximum and minimum temperatures,
    Ecology 50, 514-517: a second implementation, independent of the one it is held against.
    """
    mean, half = (high + low) / 2, (high - low) / 2
    if low >= threshold:
        return mean - threshold
    if high <= threshold:
        return 0.0
    crossing = math.asin((threshold - mean) / half)
    return ((mean - threshold) * (math.pi / 2 - crossing) + half * math.cos(crossing)) / math.pi


def closed_form(low: float, high: float, base: float, cut: float) -> float:
    """The same with a horizontal cut-off: what is over it counts as at it."""
    return over(base, low, high) - over(cut, low, high)


@given(st.tuples(temperatures, temperatures), st.floats(0.0, 12.0), st.floats(15.0, 32.0))
def test_hours_add_up_to_the_closed_form_of_baskerville_and_emin(day, base, cut):
    low, high = sorted(day)
    found = float(degree_days(low, high, Response(base, cut)))
    assert found == pytest.approx(closed_form(low, high, base, cut), abs=OF_HOURS * (high - low) + 1e-9)


@pytest.mark.parametrize(
    ("low", "high", "base", "cut"),
    [(2.0, 18.0, 10.0, 30.0), (-5.0, 9.0, 4.0, 20.0), (14.0, 36.0, 10.0, 30.0), (5.0, 38.0, 10.0, 30.0)],
)
def test_the_closed_form_is_the_integral_of_a_sine(low, high, base, cut):
    """The yardstick itself, against a hundred thousand steps of the day."""
    at = low + (high - low) * (1 + np.sin(np.linspace(0, 2 * np.pi, 100_000, endpoint=False))) / 2
    assert closed_form(low, high, base, cut) == pytest.approx(
        float((np.clip(at, base, cut) - base).mean()), abs=1e-4
    )


# -- the mean of minimum and maximum, as it is printed --------------------------------------------


def method_1(low: float, high: float, base: float) -> float:
    """McMaster GS and Wilhelm WW 1997, Agricultural and Forest Meteorology 87, 291-300: mean less base, at least 0."""
    return max((low + high) / 2 - base, 0.0)


def method_2(low: float, high: float, base: float, upper: float = math.inf) -> float:
    """The same paper: minimum and maximum below the base count as it, and those over the upper bound as that."""
    low, high = (min(max(each, base), upper) for each in (low, high))
    return (low + high) / 2 - base


@pytest.mark.parametrize(
    ("high", "low", "days"),
    [(70, 50, 10.0), (90, 86, 36.0), (90, 65, 25.5), (72, 46, 11.0), (63, 42, 6.5)],
)
def test_method_2_gives_the_printed_examples_and_the_sine_differs_by_its_shape_alone(high, low, days):
    """Iowa State Agronomy 541 lesson 2b and a Wisconsin extension column of 2018, over 50 and up to 86. [F days]

    Where the whole day lies within the bounds all methods agree.  Where the night falls below the base method 2 counts
    that night as a level half of the day at the base, and finds more than the sine of Baskerville and Emin.
    """
    assert method_2(low, high, 50, 86) == days
    found = float(degree_days(low, high, Response(50, 86)))
    assert found == pytest.approx(closed_form(low, high, 50, 86), abs=OF_HOURS * (high - low))
    within = low >= 50 and high <= 86
    assert (found == pytest.approx(days, abs=1e-6)) == (within or low >= 86)


def test_a_cold_night_costs_the_mean_of_the_day_what_the_sine_keeps():
    """A day of 46 to 72 F over 50: 9 by method 1, 11 by method 2; the sine lies between. [F days]

    By hand: it crosses 50 at asin(-9/13) = -0.7646, so that (9 (1.5708 + 0.7646) + 13 * 0.7216) / pi = 9.677.
    """
    one, two, sine = method_1(46, 72, 50), method_2(46, 72, 50), closed_form(46, 72, 50, 86)
    assert (one, two) == (9.0, 11.0)
    assert sine == pytest.approx(9.677, abs=0.001)
    assert float(degree_days(46, 72, Response(50, 86))) == pytest.approx(sine, abs=0.1)


def test_a_day_whose_mean_is_at_the_base_still_grows_the_crop():
    """2 to 18 degrees over 10: the mean counts nothing, the sine half the range by pi."""
    assert method_1(2, 18, 10) == 0
    assert float(degree_days(2, 18, Response(10, 30))) == pytest.approx(8 / math.pi, abs=0.05)


@given(st.tuples(temperatures, temperatures), st.floats(0.0, 12.0))
def test_without_bounds_in_reach_the_sine_is_the_mean_of_the_day(day, base):
    low, high = sorted(day)
    found = float(degree_days(low, high, Response(base)))
    assert found >= method_1(low, high, base) - 1e-9
    if low >= base:
        assert found == pytest.approx(method_1(low, high, base), abs=1e-9)


# -- the response ---------------------------------------------------------------------------------


def test_above_the_ceiling_development_stands_still_for_those_hours_only():
    """A day that is over its ceiling half the time keeps half of what the cut-off leaves it."""
    response = Response(10.0, 20.0, 30.0)
    assert float(degree_days(31.0, 39.0, response)) == 0.0
    assert float(degree_days(25.0, 35.0, response)) == pytest.approx(0.5 * 10.0)
    assert float(degree_days(25.0, 30.0, response)) == pytest.approx(10.0)


@given(st.tuples(temperatures, temperatures), st.floats(0.0, 5.0))
def test_warmer_days_never_give_less_below_the_ceiling(day, warmer):
    low, high = sorted(day)
    response = Response(5.0, 22.0)
    assert degree_days(low + warmer, high + warmer, response) >= degree_days(low, high, response) - 1e-12


@given(st.tuples(temperatures, temperatures))
def test_hours_lie_between_minimum_and_maximum_and_have_their_mean(day):
    low, high = sorted(day)
    at = hourly(low, high)
    assert at.shape == (12,)
    assert low - 1e-9 <= at.min() <= at.max() <= high + 1e-9
    assert (np.diff(at) >= 0).all()
    assert at.mean() == pytest.approx((low + high) / 2, abs=1e-9)


def test_many_years_are_worked_out_at_once():
    random = np.random.default_rng(4)
    low = random.normal(8, 5, (3, 366))
    high = low + random.uniform(2, 15, low.shape)
    response = Response(6.0, 24.0, 34.0)
    together = sums(degree_days(low, high, response))
    assert together.shape == (3, 367)
    assert (together[:, 0] == 0).all()
    for year in range(3):
        by_day = [float(degree_days(low[year, day], high[year, day], response)) for day in range(366)]
        assert together[year, -1] == pytest.approx(sum(by_day))
        assert np.diff(together[year]) == pytest.approx(by_day, abs=1e-9)
