"""Earlier steps are not asked for once a later one is written down; against the steps of a planting listed by hand."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, garden, planting

from planner.amounts.tasks import planting_tasks
from planner.amounts.work import work_between
from planner.garden import Garden
from planner.garden import edits as e
from planner.listings.tasks import tasks_lines
from planner.plan import Plan
from planner.proposal.turn import unfinished_work

D = dt.date
RAISED = ("sow", "prick out", "pot on", "harden off", "set out")


def _plot() -> Garden:
    return garden(
        bed(),
        planting("p1", crop="tomato", first=D(2026, 5, 25), start="raised"),
        planting("p2", crop="potato", first=D(2026, 4, 20), start="tubers"),
        planting("p3", crop="carrot", first=D(2026, 4, 10), start="sown"),
    )


def _states(document: Garden, key: str) -> dict[str, str]:
    plan = Plan(document, 2026)
    work = planting_tasks(plan, document.plantings_by_id[key])
    return {one.kind: "done" if one.done else "before" if one.done_before else "open" for one in work}


def test_before_anything_is_written_down_all_is_open() -> None:
    for key in ("p1", "p2", "p3"):
        assert set(_states(_plot(), key).values()) == {"open"}


@pytest.mark.parametrize("step", RAISED)
def test_a_step_closes_those_before_it_and_none_behind(step: str) -> None:
    due = {one.kind: one.date for one in planting_tasks(Plan(_plot(), 2026), _plot().plantings_by_id["p1"])}
    there = [kind for kind in RAISED if kind in due]
    assert len(there) >= 4
    if step not in there:
        pytest.skip("a tomato has no such step")
    found = _states(e.tick(_plot(), "p1", step, due[step]), "p1")
    at = there.index(step)
    assert [found[kind] for kind in there] == ["before"] * at + ["done"] + ["open"] * (len(there) - at - 1)


def test_no_record_is_made_up_and_a_day_may_still_be_written_down() -> None:
    document = e.tick(_plot(), "p1", "set out", D(2026, 5, 25))
    assert len(document.records) == 1
    later = e.tick(document, "p1", "sow", D(2026, 3, 20))
    found = _states(later, "p1")
    assert (found["sow"], found["harden off"], found["set out"]) == ("done", "before", "done")
    assert set(_states(e.untick(document, "p1", "set out"), "p1").values()) == {"open"}


@pytest.mark.parametrize(
    ("record", "key", "before", "still"),
    [
        ({"kind": "came up", "day": "2026-04-25", "planting": "p3"}, "p3", {"sow"}, {"pick", "clear"}),
        ({"kind": "first picking", "day": "2026-08-01", "planting": "p1"}, "p1", {"sow", "set out"}, {"clear"}),
        ({"kind": "flowering", "day": "2026-06-20", "planting": "p2"}, "p2", {"set out"}, {"clear"}),
        ({"kind": "ended", "day": "2026-06-10", "planting": "p1", "why": "failed"}, "p1", {"sow"}, set()),
        ({"kind": "seen", "day": "2026-04-10", "planting": "p1", "harm": "slugs"}, "p1", set(), {"sow", "set out"}),
        ({"kind": "done", "day": "2026-04-01", "planting": "p1", "task": "mulch"}, "p1", set(), {"sow", "set out"}),
    ],
)  # fmt: skip
def test_what_else_happened_tells_what_was_before(record, key, before, still) -> None:
    found = _states(e.add_records(_plot(), [record])[0], key)
    assert {kind for kind, state in found.items() if state == "before"} >= before
    assert all(found.get(kind, "open") == "open" for kind in still)


def test_lists_show_it_as_done_before_and_the_turn_does_not_ask_for_it() -> None:
    document = e.tick(_plot(), "p1", "set out", D(2026, 5, 25))
    plan = Plan(document, 2026)
    first, last = D(2026, 1, 1), D(2026, 12, 31)
    lines = tasks_lines(plan, work_between(plan, first, last), first, last)
    (sown,) = [line for line in lines if "Sow tomato" in line]
    assert sown.lstrip().startswith("[x]")
    assert sown.endswith("Done before.")
    assert not [one for one in unfinished_work(plan) if one.planting == "p1" and one.kind != "clear"]
