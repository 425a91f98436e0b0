"""Hours of direct sun as rows and as lines."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.garden import Site
from planner.listings.reports.sun import bed_records, planting_records
from planner.listings.sun import sun_lines
from planner.plan import Plan

D = dt.date
CATALOGUE = catalogue_of(crop("carrot", in_row_spacing=0.1, row_spacing=0.3, height=0.3, sun_hours=6))
GROWS = planting(first=D(2026, 5, 10), last=D(2026, 8, 20))
BEFORE = planting("p2", year=2025, first=D(2025, 5, 1), last=D(2025, 8, 1))


def plan_at(latitude: float) -> Plan:
    site = Site(latitude=latitude, longitude=0.0)
    return Plan(garden(bed(name="North"), GROWS, BEFORE, site=site), 2026, CATALOGUE)


@pytest.mark.parametrize(
    ("first", "last", "days"),
    [
        (D(2026, 6, 1), D(2026, 7, 31), ("2026-06-01", "2026-07-31")),
        (D(2026, 1, 1), D(2026, 12, 31), ("2026-05-10", "2026-08-20")),
        (D(2026, 8, 20), D(2026, 9, 30), ("2026-08-20", "2026-08-20")),
        (D(2026, 8, 21), D(2026, 9, 30), None),
        (D(2026, 4, 1), D(2026, 5, 9), None),
    ],
)
def test_rows_of_plantings_are_of_their_days_within_the_span(first, last, days):
    plan = plan_at(52.0)
    rows = planting_records(plan, plan.beds, first, last)
    assert [(row.first.isoformat(), row.last.isoformat()) for row in rows] == ([days] if days else [])
    assert all(row.planting_id == "p1" and row.needed_h == 6 for row in rows)


def test_an_open_bed_has_the_sun_of_the_whole_day():
    plan = plan_at(52.0)
    (row,) = bed_records(plan, plan.beds, D(2026, 6, 21))
    assert row.least_h == row.mean_h == row.most_h == row.unshaded_h
    assert 15.0 < row.mean_h < 17.0


def test_lines_have_a_table_each_for_beds_and_plantings():
    plan, day = plan_at(52.0), D(2026, 6, 21)
    of_plantings = planting_records(plan, plan.beds, D(2026, 6, 1), D(2026, 6, 30))
    lines = sun_lines(plan, day, bed_records(plan, plan.beds, day), of_plantings)
    assert lines[0].startswith("2026-06-21: sunrise 03:")
    assert [line.split()[0] for line in lines[2:]] == ["bed", "North", "planting", "North:"]
    assert lines[-1].endswith("needs 6")
    assert len(sun_lines(plan, day, [], [])) == 2


@pytest.mark.parametrize(
    ("day", "words"), [(D(2026, 6, 21), "does not set"), (D(2026, 12, 21), "does not rise")]
)
def test_polar_days_and_nights(day, words):
    assert words in sun_lines(plan_at(80.0), day, [], [])[0]
