"""Growing years and the days a planting takes its plot."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.garden import Site
from planner.season.spans import Span, growing_year, high_summer, planting_span, usual_year, year_span

NORTH, SOUTH = Site(), Site(latitude=-41.0)
D = dt.date


@pytest.mark.parametrize(
    ("site", "year", "first", "last"),
    [
        (NORTH, 2026, D(2026, 1, 1), D(2026, 12, 31)),
        (SOUTH, 2026, D(2026, 7, 1), D(2027, 6, 30)),
        (Site(first_month=3), 2027, D(2027, 3, 1), D(2028, 2, 29)),
        (NORTH, 2400, D(2400, 1, 1), D(2400, 12, 31)),
    ],
)
def test_a_growing_year_is_named_after_the_year_it_begins_in(site, year, first, last):
    assert year_span(site, year) == Span(first, last)


@pytest.mark.parametrize(
    ("site", "day", "year"),
    [
        (NORTH, D(2026, 1, 1), 2026),
        (NORTH, D(2026, 12, 31), 2026),
        (SOUTH, D(2026, 1, 15), 2025),
        (SOUTH, D(2026, 6, 30), 2025),
        (SOUTH, D(2026, 7, 1), 2026),
        (Site(first_month=12), D(2026, 11, 30), 2025),
        (Site(first_month=12), D(2026, 12, 1), 2026),
        (Site(latitude=-41.0, first_month=1), D(2026, 3, 1), 2026),
    ],
)
def test_a_day_lies_in_the_growing_year_that_has_begun(site, day, year):
    assert growing_year(site, day) == year
    assert year_span(site, year).holds(day)
    assert usual_year(garden(site=site), day) == year  # nothing is planted: the current one


def test_the_usual_year_is_the_latest_with_plantings():
    planted = garden(bed(), planting(year=2024), planting("p2", year=2023), site=SOUTH)
    assert usual_year(planted, D(2026, 3, 1)) == 2024


@pytest.mark.parametrize(
    ("site", "day"),
    [
        (NORTH, D(2026, 7, 15)),
        (SOUTH, D(2027, 1, 15)),
        (Site(first_month=12), D(2027, 7, 15)),
        (Site(first_month=7), D(2026, 7, 15)),
        (Site(latitude=-41.0, first_month=1), D(2026, 1, 15)),
    ],
)
def test_high_summer_lies_in_its_growing_year(site, day):
    assert high_summer(site, 2026) == day
    assert year_span(site, 2026).holds(day)


@pytest.mark.parametrize(
    ("site", "days", "first", "last"),
    [
        (NORTH, (None, None), D(2026, 1, 1), D(2026, 12, 31)),
        (NORTH, (D(2026, 5, 1), None), D(2026, 5, 1), D(2026, 12, 31)),
        (NORTH, (None, D(2026, 8, 1)), D(2026, 1, 1), D(2026, 8, 1)),
        (NORTH, (D(2026, 10, 15), D(2027, 7, 20)), D(2026, 10, 15), D(2027, 7, 20)),
        (NORTH, (D(2027, 2, 1), None), D(2027, 2, 1), D(2027, 12, 31)),
        (NORTH, (None, D(2025, 11, 1)), D(2025, 11, 1), D(2025, 11, 1)),
        (SOUTH, (D(2026, 9, 1), None), D(2026, 9, 1), D(2027, 6, 30)),
    ],
)
def test_a_planting_takes_its_plot_on_the_days_given_else_all_year(site, days, first, last):
    assert planting_span(site, planting(first=days[0], last=days[1])) == Span(first, last)


def test_spans_meet_when_they_share_a_day():
    one = Span(D(2026, 3, 1), D(2026, 6, 30))
    assert one.meets(Span(D(2026, 6, 30), D(2026, 7, 1)))
    assert Span(D(2026, 6, 30), D(2026, 7, 1)).meets(one)
    assert not one.meets(Span(D(2026, 7, 1), D(2026, 7, 1)))
    assert one.meets(Span(D(2026, 4, 1), D(2026, 4, 1)))


def test_days_are_counted_with_both_ends():
    span = Span(D(2026, 2, 28), D(2026, 3, 1))
    assert span.days == 2
    assert span.holds(D(2026, 2, 28))
    assert span.holds(D(2026, 3, 1))
    assert not span.holds(D(2026, 3, 2))
