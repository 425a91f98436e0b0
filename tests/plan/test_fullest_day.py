"""The day on which most of the ground is planted."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting, rectangle

from planner import resources, storage
from planner.garden import Site, Stretch
from planner.plan import Plan
from planner.plan.fullest_day import fullest_day
from planner.season.spans import usual_year

D = dt.date


def days(first: dt.date, last: dt.date, key: str = "p1", of: str = "b1", **fields):
    return planting(key, bed=of, first=first, last=last, **fields)


def test_without_plantings_it_is_the_middle_of_summer():
    assert fullest_day(Plan(garden(bed()), 2026)) == D(2026, 7, 15)
    assert fullest_day(Plan(garden(bed(), site=Site(latitude=-40)), 2026)) == D(2027, 1, 15)


def test_of_days_that_are_as_full_it_is_the_nearest_to_summer():
    made = garden(bed(), days(D(2026, 3, 1), D(2026, 5, 20)))
    assert fullest_day(Plan(made, 2026)) == D(2026, 5, 20)
    made = garden(bed(), days(D(2026, 9, 1), D(2026, 11, 20)))
    assert fullest_day(Plan(made, 2026)) == D(2026, 9, 1)


def test_the_greatest_area_counts_not_the_number_of_plantings():
    small = [
        days(D(2026, 7, 1), D(2026, 8, 1), f"p{i}", plot=Stretch(start=i / 4, end=(i + 1) / 4))
        for i in range(1, 5)
    ]
    made = garden(
        bed(),
        bed("b2", rectangle(10, 2, center=(0, 5))),
        *small,
        days(D(2026, 4, 1), D(2026, 5, 1), "p9", "b2"),
    )
    assert fullest_day(Plan(made, 2026)) == D(2026, 5, 1)


def test_what_stays_over_the_ends_of_the_year_counts_within_it():
    made = garden(bed(), days(D(2025, 9, 1), D(2026, 4, 10)), days(D(2026, 10, 1), D(2027, 4, 1), "p2"))
    assert fullest_day(Plan(made, 2026)) == D(2026, 10, 1)


@pytest.mark.parametrize("name", sorted(path.stem for path in resources.sample_folder().glob("*.bedwright")))
def test_no_day_of_a_sample_is_clearly_fuller(name):
    made = storage.load(resources.sample_folder() / f"{name}.bedwright")
    plan = Plan(made, usual_year(made, D(2026, 1, 1)))

    def area(day: dt.date) -> float:
        return sum(
            plan.placed(p).area for p in plan.plantings if plan.span_of(p).holds(day) and not p.shares_ground
        )

    best = fullest_day(plan)
    assert plan.span.holds(best)
    every = [plan.span.first + dt.timedelta(days=n) for n in range(0, plan.span.days, 5)]
    assert area(best) >= 0.97 * max(area(day) for day in every)
