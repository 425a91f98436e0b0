"""Dated work: what there is, how much of it, in which week."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, D, ripe_in
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.tasks import planting_tasks, tasks
from planner.garden import Garden, Support
from planner.garden import edits as e
from planner.garden.planting import Work
from planner.plan import Plan
from planner.season.tasks import by_week, monday

RAISED = crop(
    "cabbage",
    starts={"value": ["raised"], "source": "practice"},
    weeks_to_raise=6,
    set_out_from=-1,
    **ripe_in(80),
    harvest_days=10,
    maturity_from="setting out",
    in_row_spacing=0.4,
    row_spacing=0.4,
    germination=0.8,
    seeds_per_gram=300,
)
CARROT = crop(
    "carrot",
    sow_from=-3,
    **ripe_in(70),
    harvest_days=10,
    in_row_spacing=0.075,
    row_spacing=0.3,
    sowing_spacing=0.015,
    germination=0.55,
    seeds_per_gram=800,
)
ONION = crop("onion", set_out_from=-4, harvest_days=14, **ripe_in(100), in_row_spacing=0.1, row_spacing=0.3)
SHELF = catalogue_of(RAISED, CARROT, ONION)


def plan_of(*plantings, **fields) -> Plan:
    return Plan(garden(bed(name="Long bed"), *plantings, climate=CLIMATE, **fields), 2026, SHELF)


def test_a_raised_crop_has_its_work_in_order():
    one = planting(
        crop="cabbage",
        covers=({"kind": "netting"},),
        support=Support(kind="stake"),
    )
    found = planting_tasks(plan_of(one), one)
    assert [(task.kind, task.date) for task in found] == [
        ("sow", D(2026, 3, 13)),
        ("prick out", D(2026, 4, 2)),
        ("harden off", D(2026, 4, 16)),
        ("set out", D(2026, 4, 24)),
        ("support up", D(2026, 4, 24)),
        ("cover on", D(2026, 4, 24)),
        ("pick", D(2026, 7, 13)),
        ("cover off", D(2026, 7, 22)),
        ("clear", D(2026, 7, 22)),
    ]
    sow, out = found[0], found[3]
    seed = f"{sow.seeds} seeds ({sow.grams:.2g} g)"
    assert sow.text == f"Sow cabbage indoors for Long bed, {seed}, in ⅜ of a seed tray, 1.9 l of mix."
    assert (
        found[1].text
        == "Prick out cabbage for Long bed, 36 plants, into 36 cells of a tray of 128, 0.83 l of mix."
    )
    assert sow.seeds is not None
    assert sow.seeds > 36
    assert (out.text, out.stations) == ("Set out cabbage in Long bed, 36 plants.", 36)
    assert found[2].until == D(2026, 4, 23)
    assert found[6].until == D(2026, 7, 22)
    assert all(task.why and task.bed == "b1" for task in found)


def test_a_drill_is_sown_and_thinned():
    one = planting(variety="Long")
    sow, thin, *_ = planting_tasks(plan_of(one), one)
    assert sow.text == "Sow carrot Long in Long bed, 256 plants, 1,280 seeds (1.6 g), in drills."
    assert (thin.kind, thin.text) == ("thin", "Thin carrot Long in Long bed to 256 plants.")


def test_onions_are_lifted_and_cured():
    one = planting(crop="onion", start="sets")
    kinds = {task.kind: task for task in planting_tasks(plan_of(one), one)}
    assert "pick" not in kinds
    assert kinds["lift and cure"].text == "Lift onion in Long bed and cure it for about 14 days."
    assert kinds["set out"].text == "Plant onion in Long bed, 192 sets."


def test_what_follows_on_the_same_ground_is_sown_next():
    first, second = planting("p1"), planting("p2", crop="onion", start="sets", first=D(2026, 8, 1))
    found = planting_tasks(plan_of(first, second), first)
    assert (found[-1].kind, found[-1].date) == ("sow the next", D(2026, 8, 1))
    assert found[-1].text == "Onion follows carrot in Long bed."
    assert all(task.kind != "sow the next" for task in planting_tasks(plan_of(first), first))


def test_work_that_is_ticked_off_has_its_real_day():
    one = planting()
    plan = plan_of(one)
    after = plan.after(e.tick(plan.garden, "p1", "sow", D(2026, 4, 17)))
    sow = planting_tasks(after, one)[0]
    assert (sow.date, sow.done, sow.origin) == (D(2026, 4, 17), D(2026, 4, 17), "done")
    pick = next(task for task in planting_tasks(after, one) if task.kind == "pick")
    assert pick.date == D(2026, 6, 26)
    assert sow.key == planting_tasks(plan, one)[0].key == "p1/sow"
    back = after.after(e.untick(after.garden, "p1", "sow"))
    assert planting_tasks(back, one) == planting_tasks(plan, one)


def test_tasks_of_a_year_come_by_date_and_by_week():
    plan = plan_of(planting("p1"), planting("p2", crop="cabbage"))
    found = tasks(plan)
    assert [task.date for task in found] == sorted(task.date for task in found)
    weeks = by_week(found)
    assert [week for week, _ in weeks] == sorted({monday(task.date) for task in found})
    assert all(week.weekday() == 0 for week, _ in weeks)
    assert sum(len(of_week) for _, of_week in weeks) == len(found)
    may = tasks(plan, D(2026, 4, 20), D(2026, 4, 26))
    assert {(task.kind, task.crop) for task in may} == {("set out", "cabbage"), ("harden off", "cabbage")}


def test_sowing_indoors_before_the_growing_year_is_its_work_then():
    early = planting(crop="cabbage", year=2026, first=D(2026, 1, 20))
    plan = plan_of(early)
    assert [task.kind for task in tasks(plan.after(plan.garden, 2025))] == ["sow", "prick out"]


def test_a_crop_that_does_not_ripen_is_not_picked():
    tender = crop("bean", hardiness="tender", sow_from=0, days_to_maturity=60, harvest_days=9)
    one = planting(crop="bean", first=D(2026, 9, 20))
    plan = Plan(garden(bed(), one, climate=CLIMATE), 2026, catalogue_of(tender))
    assert "pick" not in {task.kind for task in planting_tasks(plan, one)}


def test_a_garden_without_dates_has_no_work():
    assert tasks(Plan(garden(bed(), planting()), 2026, SHELF)) == ()
    assert tasks(Plan(Garden(), 2026, SHELF)) == ()


@pytest.mark.parametrize(
    ("ticks", "words"),
    [
        (
            [("sow", D(2026, 5, 1)), ("pick", D(2026, 4, 1))],
            "'pick' on 2026-04-01 is before 'sow' on 2026-05-01",
        ),
        (
            [("pick", D(2026, 4, 1)), ("sow", D(2026, 5, 1))],
            "'pick' on 2026-04-01 is before 'sow' on 2026-05-01",
        ),
        ([("dance", D(2026, 4, 1))], "task 'dance'"),
    ],
)
def test_ticks_that_cannot_be_are_refused(ticks, words):
    document = plan_of(planting()).garden
    *before, (kind, day) = ticks
    for one, date in before:
        document = e.tick(document, "p1", one, date)
    with pytest.raises(e.EditError) as caught:
        e.tick(document, "p1", kind, day)
    assert words in str(caught.value)
    with pytest.raises(e.EditError, match="no planting 'p9'"):
        e.tick(document, "p9", "sow", D(2026, 4, 1))


def test_a_second_tick_corrects_the_first_and_the_same_one_changes_nothing():
    document = e.tick(plan_of(planting()).garden, "p1", "sow", D(2026, 4, 1))
    assert e.tick(document, "p1", "sow", D(2026, 4, 1)) is document
    other = e.tick(document, "p1", "sow", D(2026, 4, 2))
    assert [record.day for record in other.records] == [D(2026, 4, 2)]
    assert e.untick(other, "p1", "pick") is other
    assert e.untick(other, "p1", "sow").records == ()


def test_records_go_with_their_planting():
    document = e.tick(plan_of(planting("p1"), planting("p2")).garden, "p1", "sow", D(2026, 4, 1))
    document = e.tick(document, "p2", "sow", D(2026, 4, 1))
    assert [record.planting for record in e.remove(document, ["p1"]).records] == ["p2"]
    assert e.remove(document, ["b1"]).records == ()


def test_every_kind_of_work_has_its_place():
    assert set(Work.__args__) >= {
        task.kind for task in tasks(plan_of(planting(), planting("p2", crop="cabbage")))
    }


def test_yearly_work_on_a_perennial_is_ticked_off_each_year(catalogue):
    one = planting(crop="rhubarb", start="standing", year=2020, first=D(2020, 3, 1))
    plan = Plan(garden(bed(), one, climate=CLIMATE), 2025, catalogue)
    document = e.tick(plan.garden, "p1", "pick", D(2025, 4, 9))
    document = e.tick(document, "p1", "pick", D(2026, 4, 20))
    document = e.tick(document, "p1", "pick", D(2026, 4, 22))
    assert [record.day for record in document.records] == [D(2025, 4, 9), D(2026, 4, 22)]

    def picked(year: int) -> tuple[dt.date, str]:
        first = Plan(document, year, catalogue).dates(one).first_harvest
        assert first is not None
        return first.day, first.origin

    assert picked(2025) == (D(2025, 4, 9), "done")
    assert picked(2026) == (D(2026, 4, 22), "done")
    assert picked(2027)[1] == "worked out"
    assert [r.day for r in e.untick(document, "p1", "pick", D(2026, 4, 22)).records] == [D(2025, 4, 9)]
