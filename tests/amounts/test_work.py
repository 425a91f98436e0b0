"""Work over any span of days."""

from __future__ import annotations

import datetime as dt

import pytest
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.work import WorkError, work_between
from planner.garden import Climate, FrostDates
from planner.plan import Plan

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


def test_work_of_several_years_has_each_piece_once_and_every_years_harvest(catalogue):
    rhubarb = planting(crop="rhubarb", start="standing", year=2020, first=D(2020, 3, 1))
    winter = planting("p2", crop="garlic", start="cloves", first=D(2025, 10, 20), year=2025)
    plan = Plan(garden(bed(), bed("b2"), rhubarb, winter, climate=CLIMATE), 2026, catalogue)
    found = work_between(plan, D(2025, 1, 1), D(2027, 12, 31))
    picked = [task.date.year for task in found if task.kind == "pick"]
    assert picked == [2025, 2026, 2027]
    planted = [task for task in found if task.planting == "p2" and task.kind in ("set out", "lift and cure")]
    assert [(task.kind, task.date.year) for task in planted] == [("set out", 2025), ("lift and cure", 2026)]
    assert len({(task.key, task.date) for task in found}) == len(found)


def test_work_of_some_beds():
    plan = Plan(
        garden(bed("b1"), bed("b2"), CARROT, planting("p3", "b2", first=D(2026, 5, 1)), climate=CLIMATE),
        2026,
        CATALOGUE,
    )
    assert {task.bed for task in work_between(plan, beds={"b2"})} == {"b2"}
    assert {task.bed for task in work_between(plan)} == {"b1", "b2"}


def test_spans_that_cannot_be():
    plan = plan_of(CARROT)
    with pytest.raises(WorkError, match="the last day 2026-04-01 is before the first 2026-05-01"):
        work_between(plan, D(2026, 5, 1), D(2026, 4, 1))
    assert work_between(plan, D(2007, 1, 1), D(2026, 12, 31))
    with pytest.raises(WorkError, match="more than 20 growing years"):
        work_between(plan, D(2006, 12, 31), D(2026, 12, 31))
    with pytest.raises(WorkError, match="more than 20 growing years"):
        work_between(plan, D(1990, 1, 1), D(2026, 1, 1))


def test_work_of_a_few_days_is_that_of_these_days_only():
    plan = plan_of(CABBAGE, CARROT)
    first, last = D(2026, 4, 20), D(2026, 4, 26)
    found = work_between(plan, first, last)
    assert found
    assert all(task.date <= last and task.until >= first for task in found)
    assert set(found) < set(work_between(plan))
    assert set(work_between(plan, plan.span.last, plan.span.last)) == set()
