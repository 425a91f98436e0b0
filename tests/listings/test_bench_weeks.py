"""A bench in a week, in words."""

from __future__ import annotations

import pytest

from planner import resources, storage
from planner.amounts.bench import bench_year, benches_wanted
from planner.garden import edits
from planner.listings.bench_weeks import week_words
from planner.plan import Plan


def plan_of(length: float) -> Plan:
    garden = storage.load(resources.sample_folder() / "hollow_lane.bedwright")
    return Plan(edits.put_bench(garden, garden.benches[0].id, length=length)[0], 2026)


def fullest(plan: Plan) -> str:
    year = bench_year(plan)
    weeks = [week for week in year.weeks() if week.bench.id == plan.garden.benches[0].id]
    return week_words(plan, year, max(weeks, key=lambda week: week.trays), entered=True)


# Nine trays of the trade stand on the bench in that week: 0.85 m x 1.8 m holds nine, 1.2 m six, 3 m sixteen.
@pytest.mark.parametrize(
    ("length", "room"),
    [
        (1.2, "3 trays too many."),
        (1.8, "No tray more has room."),
        (3.0, "Room for 7 trays more, 1.20 m² is free."),
    ],
)
def test_a_week_says_how_many_stand_there_what_is_free_and_what_they_are(length, room):
    words = fullest(plan_of(length))
    assert words.startswith("4 – 10 May: 9 trays, 1.35 m². ")
    assert room in words
    assert "Trays: runner bean 2.0, dwarf bean 1.6, " in words


def test_shares_of_trays_add_up_to_the_trays_of_each_day():
    year = bench_year(plan_of(2.0))
    for there in year.benches:
        for number, trays in enumerate(there.trays):
            day = there.first.fromordinal(there.first.toordinal() + number)
            assert sum(year.trays_on(there.bench.id, day).values()) == pytest.approx(trays)


def test_nothing_is_said_of_room_where_the_garden_has_no_bench():
    plan = plan_of(2.0)
    year = benches_wanted(plan)
    words = week_words(plan, year, year.weeks()[0], entered=False)
    assert "Trays: " in words
    assert "oom" not in words
