"""Work that is done again: a tick answers what was due until its day, and it is due again after its interval."""

from __future__ import annotations

import datetime as dt

import pytest

from planner import resources
from planner.amounts.tasks import planting_tasks
from planner.amounts.work import work_between
from planner.garden import edits as e
from planner.plan import Plan
from planner.storage import load

D = dt.date


@pytest.fixture(scope="module")
def plan() -> Plan:
    return Plan(load(resources.sample_folder() / "hollow_lane.bedwright"), 2026)


def told(plan: Plan, key: str, kind: str) -> list[tuple[dt.date, dt.date, dt.date | None]]:
    planting = plan.garden.plantings_by_id[key]
    return [(one.date, one.until, one.done) for one in planting_tasks(plan, planting) if one.kind == kind]


def fed(plan: Plan) -> str:
    """The cucumber, which is fed every 14 days."""
    return next(
        task.planting
        for task in work_between(plan)
        if task.kind == "feed" and task.crop == "cucumber" and task.every == 14
    )


def test_what_is_fed_is_due_again_after_its_interval_and_until_its_end(plan):
    key = fed(plan)
    ((first, until, done),) = told(plan, key, "feed")
    assert done is None
    day = first + dt.timedelta(days=3)
    once = plan.after(e.tick(plan.garden, key, "feed", day, again=True))
    due = day + dt.timedelta(days=14)
    assert told(once, key, "feed") == [(first, day, day), (due, until, None)]
    twice = once.after(e.tick(once.garden, key, "feed", due, again=True))
    next_due = due + dt.timedelta(days=14)
    assert told(twice, key, "feed") == [(first, day, day), (due, due, due), (next_due, until, None)]
    keys = [one.key for one in planting_tasks(twice, twice.garden.plantings_by_id[key])]
    assert len(set(keys)) == len(keys)
    back = twice.after(e.untick(twice.garden, key, "feed", due, again=True))
    assert told(back, key, "feed") == told(once, key, "feed")
    last = plan.after(e.tick(plan.garden, key, "feed", until - dt.timedelta(days=3), again=True))
    assert [one[2] for one in told(last, key, "feed")] == [until - dt.timedelta(days=3)]


def test_what_is_picked_is_open_again_in_the_week_after(plan):
    tomato = next(one for one in plan.plantings if one.crop == "tomato")
    ((first, _until, _),) = told(plan, tomato.id, "pick")
    day = first + dt.timedelta(days=2)
    after = plan.after(e.tick(plan.garden, tomato.id, "pick", day, again=True))
    found = told(after, tomato.id, "pick")
    assert [one[2] for one in found] == [day, None]
    assert found[1][0] == day + dt.timedelta(days=7)
    over = {"kind": "last picking", "planting": tomato.id, "day": day + dt.timedelta(days=20)}
    ended = after.after(e.add_records(after.garden, [over])[0])
    assert all(one[2] is not None for one in told(ended, tomato.id, "pick"))


def test_a_tick_of_work_that_is_done_once_is_corrected_by_a_second_one(plan):
    key = fed(plan)
    garden = e.tick(e.tick(plan.garden, key, "set out", D(2026, 6, 1)), key, "set out", D(2026, 6, 3))
    assert [one.day for one in garden.records if one.planting == key and one.kind == "done"] == [
        D(2026, 6, 3)
    ]
