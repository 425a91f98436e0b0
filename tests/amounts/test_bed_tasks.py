"""What is spread on beds as work: its words, its tick, and what it stands for."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from making import bed, garden, planting, rectangle

from planner.amounts.tasks import planting_tasks, tasks
from planner.amounts.work import work_between
from planner.garden import Climate, Dressing, FrostDates, Site, edits
from planner.garden.edits import EditError
from planner.listings.calendar import calendar
from planner.listings.reports.tasks import tasks_report
from planner.listings.tasks import task_words
from planner.plan import Plan
from planner.sheets.cautions import work_cautions

CLIMATE = Climate(last_frost=FrostDates(risk_50="05-06"), first_frost=FrostDates(risk_50="10-17"))
MARCH = dt.date(2026, 3, 10)


def plan_of(*things: object, dressings: tuple[dict[str, Any], ...] = (), **site: Any) -> Plan:
    spread = tuple(
        Dressing.model_validate(
            {"id": f"d{n}", "bed": "b1", "kind": "compost", "day": MARCH, "depth": 0.05, **fields}
        )
        for n, fields in enumerate(dressings, 1)
    )
    return Plan(garden(*things, site=Site(latitude=52.0, **site), climate=CLIMATE, dressings=spread), 2026)


def spreading(plan: Plan):
    return [task for task in tasks(plan) if task.kind == "spread"]


def test_a_dressing_is_work_on_its_bed_with_its_amount():
    plan = plan_of(bed(name="North"), dressings=({},))
    (task,) = spreading(plan)
    # 4.8 m x 1.2 m x 5 cm = 288 l, in barrows of 85 l.
    assert task.text == "Spread compost in North, 5 cm deep, 288 l (about 3 barrows)."
    assert (task.date, task.planting, task.bed, task.dressing) == (MARCH, "", "b1", "d1")
    assert task_words(task) == ("Spread compost", "5 cm deep, 288 l (about 3 barrows)")


def test_lime_is_spread_by_mass_and_told_with_its_caution():
    plan = plan_of(bed(name="North"), dressings=({"kind": "lime", "rate": 200.0, "depth": None},))
    (task,) = spreading(plan)
    assert task.text == "Spread lime in North, 200 g/m², 1.2 kg."
    assert [caution.key for caution in work_cautions(plan, [task])] == ["lime_dust"]


def test_manure_is_told_with_the_cautions_of_manure():
    plan = plan_of(bed(), dressings=({"kind": "manure"},))
    assert "fresh_manure" in [caution.key for caution in work_cautions(plan, spreading(plan))]


def test_about_a_planting_the_crop_is_named_and_its_garden_is_in_feet():
    plan = plan_of(
        bed(name="North"),
        planting("p1"),
        dressings=({"kind": "straw", "planting": "p1", "depth": 0.0508},),
        units="feet_inches",
    )
    (task,) = spreading(plan)
    assert task.text.startswith("Spread straw about carrot in North, 2 in deep, 10.3 cu ft (")
    assert task.planting == "p1"


def test_it_is_ticked_off_and_taken_back_by_its_own_id():
    plan = plan_of(bed(), dressings=({},))
    (task,) = spreading(plan)
    day = dt.date(2026, 3, 20)
    done = edits.tick(plan.garden, task.subject, task.kind, day, task.cover)
    (after,) = spreading(plan.after(done))
    assert (after.done, after.date, after.origin, after.key) == (day, day, "done", task.key)
    assert edits.untick(done, task.subject, task.kind, day, task.cover) == plan.garden
    with pytest.raises(EditError, match="'pick' is no work on a dressing"):
        edits.tick(plan.garden, "d1", "pick", day)
    with pytest.raises(EditError, match="'spread' is no work on a planting"):
        edits.tick(plan_of(bed(), planting()).garden, "p1", "spread", day)


def test_each_is_listed_once_however_many_years_are_asked():
    plan = plan_of(bed(), dressings=({}, {"day": "2026-12-31"}, {"day": "2027-01-01"}, {"day": "2025-01-01"}))
    found = work_between(plan, dt.date(2025, 1, 1), dt.date(2027, 12, 31))
    assert [task.dressing for task in found] == ["d4", "d1", "d2", "d3"]
    assert [task.dressing for task in work_between(plan, MARCH, MARCH)] == ["d1"]
    assert work_between(plan, MARCH, MARCH, beds={"b2"}) == ()
    assert work_between(plan, MARCH, MARCH, tended_by={"Ann"}) == ()


def test_it_is_in_the_calendar_and_the_report():
    plan = plan_of(bed(name="North"), dressings=({"notes": "well rotted"},))
    found = tasks(plan)
    assert b"SUMMARY:Spread compost in North\\, 5 cm deep" in calendar(plan, found)
    (record,) = tasks_report(plan, found, MARCH, MARCH).tasks
    assert (record.dressing_id, record.planting_id, record.work, record.why) == (
        "d1",
        "",
        "spread",
        "well rotted",
    )


def kinds(plan: Plan) -> set[str]:
    return {task.kind for task in planting_tasks(plan, plan.garden.plantings[0])}


def mulch_day(plan: Plan) -> dt.date:
    found = planting_tasks(plan, plan.garden.plantings[0])
    return next(task.date for task in found if task.kind == "mulch")


def test_a_dressing_of_about_its_day_is_the_mulch_that_a_crop_wants():
    strawberry = planting("p1", crop="strawberry", year=2025, first="2025-08-10")
    bare = plan_of(bed(), strawberry)
    day = mulch_day(bare)
    near, far = day + dt.timedelta(days=20), day + dt.timedelta(days=40)
    assert "mulch" not in kinds(plan_of(bed(), strawberry, dressings=({"kind": "straw", "day": near},)))
    assert "mulch" in kinds(plan_of(bed(), strawberry, dressings=({"kind": "straw", "day": far},)))
    lime = {"kind": "lime", "day": day, "depth": None, "rate": 100.0}
    assert "mulch" in kinds(plan_of(bed(), strawberry, dressings=(lime,)))
    other = plan_of(
        bed(), bed("b2", rectangle(center=(0, 5))), strawberry, dressings=({"day": day, "bed": "b2"},)
    )
    assert "mulch" in kinds(other)


def test_tubers_under_film_or_a_deep_mulch_are_not_earthed_up():
    potato = {"crop": "potato", "first": "2026-04-15"}
    assert "earth up" in kinds(plan_of(bed(), planting("p1", **potato)))
    film = planting("p1", **potato, covers=({"kind": "film"},))
    assert "earth up" not in kinds(plan_of(bed(), film))
    deep = {"kind": "straw", "planting": "p1", "depth": 0.2, "day": "2026-05-20"}
    assert "earth up" not in kinds(plan_of(bed(), planting("p1", **potato), dressings=(deep,)))
    thin = {**deep, "depth": 0.08}
    assert "earth up" in kinds(plan_of(bed(), planting("p1", **potato), dressings=(thin,)))
