"""The harvest of one growing year, of crops that stay for years."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import D, day, plan_of
from making import planting

DAY = dt.timedelta(days=1)


@pytest.mark.parametrize(
    ("first", "bears"),
    [(D(2025, 6, 20), False), (D(2025, 6, 21), True), (D(2025, 8, 20), True), (D(2025, 10, 1), False)],
)
def test_strawberries_set_in_late_summer_bear_the_year_after(catalogue, first, bears):
    one = planting(crop="strawberry", start="crowns", year=2025, first=first)
    plan = plan_of(one, shelf=catalogue)
    assert (plan.after(plan.garden, 2026).dates(one).first_harvest is not None) == bears
    assert plan.after(plan.garden, 2027).dates(one).first_harvest is not None


def test_a_perennial_is_too_young_until_a_month_before_its_days_are_over(catalogue):
    days = catalogue.crops["rhubarb"].number("days_to_maturity")
    harvest = plan_of(planting(crop="rhubarb", start="standing", first=D(2015, 3, 1)), shelf=catalogue)
    ripe = day(harvest.dates(harvest.garden.plantings[0]).first_harvest)
    assert ripe is not None
    for early, bears in ((30, True), (31, False)):
        one = planting(crop="rhubarb", start="crowns", first=ripe - (days - early) * DAY)
        assert (plan_of(one, shelf=catalogue).dates(one).first_harvest is not None) == bears
