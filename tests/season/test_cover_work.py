"""Work on covers: each cover has its own records, closed ones are opened on warm days, guards of young plants come off."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from making import bed, garden, planting, ticked

from planner.amounts.tasks import planting_tasks
from planner.garden import Climate, Garden, Site, edits
from planner.garden.edits import EditError
from planner.plan import Plan
from planner.season.covers import VENT_COOL, WARM_DAY

#: Mean daily minimum and maximum by month of a cool northern place. [deg C]
LOW = (0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6)
HIGH = (6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7)


def made(*covers: dict[str, Any], crop: str = "carrot", **fields: Any) -> Garden:
    first = fields.pop("first", "2026-03-20")
    return garden(
        bed(name="North"),
        planting(crop=crop, covers=covers, first=first, last="2026-10-01"),
        site=Site(latitude=54.0),
        climate=Climate(
            last_frost={"risk_50": "05-06"},
            first_frost={"risk_50": "10-17"},
            monthly_minimum=LOW,
            monthly_maximum=HIGH,
        ),
        **fields,
    )


def work(of: Garden, kind: str):
    plan = Plan(of, 2026)
    return [task for task in planting_tasks(plan, plan.garden.plantings[0]) if task.kind == kind]


FLEECE = {"kind": "fleece", "first": "2026-03-20", "last": "2026-05-01"}
NET = {"kind": "netting", "first": "2026-06-01"}


def test_a_tick_is_of_one_cover_only():
    start = made(FLEECE, NET)
    fleece, net = work(start, "cover on")
    assert (fleece.cover, net.cover) == ("fleece", "netting")
    done = edits.tick(start, net.subject, net.kind, dt.date(2026, 6, 4), net.cover)
    assert [(task.date, task.done) for task in work(done, "cover on")] == [
        (dt.date(2026, 3, 20), None),
        (dt.date(2026, 6, 4), dt.date(2026, 6, 4)),
    ]
    assert edits.untick(done, net.subject, net.kind, net.date, net.cover) == start


def test_a_record_without_a_cover_is_of_all_as_in_older_files():
    older = made(FLEECE, records=(ticked("p1", "cover on", dt.date(2026, 3, 25)),))
    (task,) = work(older, "cover on")
    assert task.done == dt.date(2026, 3, 25)
    assert work(edits.untick(older, "p1", "cover on", task.done, task.cover), "cover on")[0].done is None


def test_work_without_covers_takes_no_cover():
    with pytest.raises(EditError, match="'pick' is no work on fleece"):
        edits.tick(made(FLEECE), "p1", "pick", dt.date(2026, 7, 1), "fleece")


def test_a_tunnel_is_opened_from_the_first_warm_days_until_it_is_lifted():
    (task,) = work(made({"kind": "low tunnel", "last": "2026-06-10"}), "vent")
    # In March and April the mean maximum rises from 9.1 to 11.8 C: 11.6 C, which leaves 4 C to 15.6 C, is reached in April.
    assert dt.date(2026, 4, 5) <= task.date <= dt.date(2026, 4, 20)
    assert pytest.approx(11.6) == VENT_COOL - WARM_DAY
    assert task.until == dt.date(2026, 6, 9)
    assert task.source == "wgt_bosak"
    assert task.text == "Open the low tunnel over carrot in North on warm days, and close it for the night."


def test_it_is_ticked_off_as_other_work():
    start = made({"kind": "cloche", "last": "2026-06-10"})
    (task,) = work(start, "vent")
    done = edits.tick(start, task.subject, task.kind, dt.date(2026, 4, 18), task.cover)
    assert work(done, "vent")[0].done == dt.date(2026, 4, 18)


def test_what_lets_air_through_and_what_lies_in_the_cold_is_not_opened():
    assert work(made(FLEECE, NET), "vent") == []
    assert work(made({"kind": "low tunnel", "last": "2026-03-30"}), "vent") == []


def test_film_comes_off_too():
    (down,), (up,) = (work(made({"kind": "film"}), kind) for kind in ("film down", "film up"))
    assert down.date <= dt.date(2026, 3, 20) < up.date


@pytest.mark.parametrize(
    ("kind", "off"), [("brushwood", 28), ("slug ring", 28), ("collar", None), ("vole basket", None)]
)
def test_guards_of_young_plants_come_off_after_four_weeks_others_with_clearing(kind, off):
    start = made({"kind": kind})
    (on_task,), (off_task,) = (work(start, each) for each in ("cover on", "cover off"))
    assert "carrot in North" in on_task.text
    days = (off_task.date - on_task.date).days
    assert days == off if off is not None else off_task.date >= dt.date(2026, 9, 30)
