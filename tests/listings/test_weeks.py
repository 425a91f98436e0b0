"""Work week by week."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.work import work_between
from planner.garden import Climate, FrostDates
from planner.listings.weeks import Week, going_on, weeks
from planner.plan import Plan
from planner.season.tasks import Task, monday

D = dt.date
CLIMATE = Climate(
    last_frost=FrostDates(risk_10="05-11", risk_50="05-01", risk_90="04-21"),
    first_frost=FrostDates(risk_10="10-06", risk_50="10-16", risk_90="10-26"),
)
FIGURES = {"in_row_spacing": 0.4, "row_spacing": 0.4, "germination": 0.8, "seeds_per_gram": 300}
CATALOGUE = catalogue_of(
    crop(
        "cabbage",
        starts={"value": ["raised"], "source": "practice"},
        weeks_to_raise=6,
        set_out_from=-1,
        days_to_maturity=80,
        harvest_days=30,
        maturity_from="setting out",
        **FIGURES,
    ),
    crop("carrot", sow_from=-3, days_to_maturity=70, harvest_days=10, **FIGURES),
)
CABBAGE = planting("p1", crop="cabbage", variety="Drum", covers=[{"kind": "netting"}])
CARROT = planting("p2", first=D(2026, 4, 10))


def plan_of(*plantings, name: str = "Long bed", **fields) -> Plan:
    return Plan(garden(bed(name=name), *plantings, climate=CLIMATE, **fields), 2026, CATALOGUE)


def test_a_week_says_what_begins_and_what_goes_on():
    found = work_between(plan_of(CABBAGE, CARROT))
    by_week = weeks(found, D(2026, 1, 1), D(2026, 12, 31))
    assert [w.monday for w in by_week] == sorted({monday(task.date) for task in found})
    assert sum(len(w.begins) for w in by_week) == len(found)
    one = next(w for w in by_week if w.monday == D(2026, 4, 20))
    assert one.title == "20 – 26 Apr 2026 · week 17"
    assert {task.kind for task in one.begins} == {"set out", "cover on"}
    assert [task.kind for task in one.goes_on] == ["harden off"]
    assert going_on(one) == "Going on: harden off cabbage Drum (to 23 Apr) in Long bed."


def test_the_first_week_says_what_goes_on_even_where_nothing_begins():
    plan = plan_of(CABBAGE)
    picked = plan.dates(CABBAGE).first_harvest
    assert picked is not None
    day = monday(picked.day) + dt.timedelta(days=7)
    found = work_between(plan, day, day + dt.timedelta(days=6))
    (one,) = weeks(found, day, day + dt.timedelta(days=6))
    assert (one.begins, [task.kind for task in one.goes_on]) == ((), ["pick"])
    assert weeks((), day, day) == ()


@pytest.mark.parametrize(
    ("first", "title"),
    [
        (D(2026, 12, 31), "28 Dec 2026 – 3 Jan 2027 · week 53"),
        (D(2026, 3, 31), "30 Mar – 5 Apr 2026 · week 14"),
        (D(2026, 1, 1), "29 Dec 2025 – 4 Jan 2026 · week 1"),
    ],
)
def test_titles_over_months_and_years(first, title):
    assert Week(monday(first), ()).title == title


def task(first: dt.date, last: dt.date | None = None, kind="pick") -> Task:
    """Picking leeks in a bed; 2 March 2026 is a Monday."""
    return Task(first, last or first, kind, "p1", "b1", "West", "leek", "", "Pick leek in West.")


def test_work_that_begins_on_a_monday_goes_on_from_the_week_after():
    long = task(D(2026, 3, 2), D(2026, 3, 10))
    first, second = weeks([long, task(D(2026, 3, 11))], D(2026, 3, 2), D(2026, 3, 15))
    assert (first.begins, first.goes_on) == ((long,), ())
    assert second.goes_on == (long,)


@pytest.mark.parametrize(("last", "ends"), [(D(2026, 3, 15), " (to 15 Mar)"), (D(2026, 3, 16), "")])
def test_work_that_ends_by_the_sunday_says_when(last, ends):
    week = Week(D(2026, 3, 9), (), (task(D(2026, 3, 2), last),))
    assert going_on(week) == f"Going on: pick leek{ends} in West."


def test_weeks_reach_from_that_of_the_first_day_to_that_of_the_last():
    tasks = [task(day) for day in (D(2026, 2, 27), D(2026, 3, 4), D(2026, 3, 18), D(2026, 3, 23))]
    found = weeks(tasks, D(2026, 3, 5), D(2026, 3, 16))
    assert [week.monday for week in found] == [D(2026, 3, 2), D(2026, 3, 16)]


def test_what_goes_on_is_named_by_kind_and_bed():
    tasks = (
        task(D(2026, 3, 2), D(2026, 4, 1)),
        task(D(2026, 3, 2), D(2026, 4, 1)),
        task(D(2026, 3, 2), D(2026, 4, 1), "lift and cure"),
    )
    assert going_on(Week(D(2026, 3, 9), (), tasks)) == "Going on: pick leek in West; lift leek in West."
