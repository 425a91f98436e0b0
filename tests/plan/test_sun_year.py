"""Direct sun of one bed or planting over the growing year."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting, rectangle

from planner.garden import Site, Structure
from planner.light import PlaceError, hours_over, on_day
from planner.plan import Plan
from planner.plan.sun_year import sun_year

D = dt.date
SITE = Site(latitude=52.0, longitude=0.0)
WALL = Structure(
    id="s1", kind="wall", name="South wall", outline=rectangle(8.0, 0.3, center=(0.0, -1.2)), height=2.5
)
SHELF = catalogue_of(crop("carrot", in_row_spacing=0.1, row_spacing=0.25, height=0.3, spread=0.1))


def plan_of(*things, site=SITE):
    return Plan(garden(bed(), *things, site=site, structures=(WALL,)), 2026, SHELF)


def test_a_bed_has_a_day_in_each_month_of_the_growing_year():
    plan = plan_of()
    found = sun_year(plan, plan.beds[0], D(2026, 6, 21))
    assert found.key == "b1"
    assert [day for day, _ in found.months] == [D(2026, month, 15) for month in range(1, 13)]
    june = hours_over([plan.ground_of(plan.beds[0])], plan.place, on_day(D(2026, 6, 15)), plan.casters)["b1"]
    assert found.months[5][1] == june
    assert found.on_day.mean == pytest.approx(june.mean, abs=0.3)
    assert (found.over_span, found.sources) == (None, ())


def test_the_months_are_those_of_a_year_that_runs_over_the_new_year():
    plan = plan_of(site=Site(latitude=-41.0, longitude=0.0))
    days = [day for day, _ in sun_year(plan, plan.beds[0], D(2027, 1, 15)).months]
    assert (days[0], days[-1]) == (D(2026, 7, 15), D(2027, 6, 15))


def test_a_planting_has_the_months_of_its_span_and_what_shades_it():
    one = planting(first=D(2026, 4, 20), last=D(2026, 7, 10))
    plan = plan_of(one)
    found = sun_year(plan, one, D(2026, 6, 21))
    assert [day.month for day, _ in found.months] == [4, 5, 6, 7]
    assert [source.name for source in found.sources][:1] == ["South wall"]
    assert found.sources[0].hours > 0.1
    assert found.over_span.least <= found.over_span.mean <= found.over_span.unshaded


def test_a_planting_of_another_year_has_no_span_in_this_one():
    one = planting(first=D(2024, 4, 20), last=D(2024, 7, 10))
    plan = plan_of(one)
    found = sun_year(plan, one, D(2026, 6, 21))
    assert (found.months, found.over_span, found.sources) == ((), None, ())


def test_cancelled_work_gives_nothing():
    plan = plan_of()
    assert sun_year(plan, plan.beds[0], D(2026, 6, 21), cancelled=lambda: True) is None


def test_a_garden_without_a_latitude_is_refused():
    plan = plan_of(site=Site())
    with pytest.raises(PlaceError):
        sun_year(plan, plan.beds[0], D(2026, 6, 21))
