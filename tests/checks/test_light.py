"""Lack of light: both sides of each threshold, with needs set about the hours measured."""

from __future__ import annotations

import datetime as dt

from checks.faults import YEAR, day
from checks.shade import in_a_yard

from planner.checks import check_light
from planner.checks.frame.planting_view import planting_view
from planner.checks.light_measure import LEAST_DAYS, growing_days, measured
from planner.garden import Garden
from planner.light import SunHours
from planner.plan import Plan


def sun(garden: Garden) -> SunHours:
    """The light of the one planting."""
    plan = Plan(garden, YEAR)
    view = planting_view(plan, garden.plantings[0])
    days = growing_days(plan, view)
    assert days is not None
    return measured(plan, [(view, days)])["p1"]


def found(garden: Garden) -> list[tuple[str, str]]:
    return [(one.severity, one.text) for one in check_light(Plan(garden, YEAR))]


def test_half_an_hour_less_than_the_need_is_not_reported() -> None:
    hours = sun(in_a_yard(5.0)).hours
    assert hours < 3.9, "all needs stay below those of full sun, which are judged otherwise"
    assert found(in_a_yard(hours + 0.45)) == []
    ((severity, text),) = found(in_a_yard(hours + 0.55))
    assert severity == "note"
    assert f"has {hours:.1f} h of direct sun a day and needs" in text


def test_two_hours_less_than_the_need_make_it_suffer() -> None:
    hours = sun(in_a_yard(5.0)).hours
    assert [severity for severity, _ in found(in_a_yard(hours + 1.95))] == ["note"]
    assert [severity for severity, _ in found(in_a_yard(hours + 2.05))] == ["mind"]


def test_few_days_in_the_lighter_half_of_the_year_are_not_judged() -> None:
    def until(days: int) -> Garden:
        first = day(6, 1)
        return in_a_yard(9.0, first=first, last=first + dt.timedelta(days=days - 1))

    assert found(until(LEAST_DAYS - 1)) == []
    assert len(found(until(LEAST_DAYS))) == 1
    assert LEAST_DAYS == 21


def test_the_share_of_the_days_sun_is_judged_of_what_wants_full_sun() -> None:
    light = sun(in_a_yard(6.0, height=2.5))
    assert light.hours > 6.0
    assert light.weighed / light.unshaded < 0.5
    assert found(in_a_yard(5.9, height=2.5)) == []
    ((_, text),) = found(in_a_yard(6.0, height=2.5))
    assert "of the sun of an open place (it wants 50 % or more)" in text


def test_fruit_wants_a_greater_share_of_the_days_sun() -> None:
    def in_june(need: float) -> Garden:
        return in_a_yard(need, height=2.4, first=day(6, 1), last=day(7, 20))

    light = sun(in_june(8.0))
    assert light.hours > 8.5
    assert 0.5 < light.weighed / light.unshaded < 0.65
    assert found(in_june(7.9)) == []
    ((_, text),) = found(in_june(8.0))
    assert "(it wants 65 % or more)" in text


def test_the_darkest_weeks_are_judged_of_what_grows_for_two_months() -> None:
    def for_days(days: int) -> Garden:
        first = day(7, 20)
        return in_a_yard(6.0, height=1.7, first=first, last=first + dt.timedelta(days=days - 1))

    light = sun(for_days(59))
    assert light.weighed / light.unshaded > 0.5
    assert light.darkest(0.4) < 0.4
    assert found(for_days(59)) == []
    ((_, text),) = found(for_days(60))
    assert "in the darkest weeks 36 % of the sun of an open place" in text


def test_days_outside_the_lighter_half_of_the_year_do_not_count() -> None:
    plan = Plan(in_a_yard(6.0, first=day(2, 1), last=day(11, 1)), YEAR)
    days = growing_days(plan, planting_view(plan, plan.garden.plantings[0]))
    assert days is not None
    assert (days.first, days.last) == (day(3, 21), day(9, 22))
