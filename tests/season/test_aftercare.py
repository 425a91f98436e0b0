"""Aftercare: counted from the days of a planting or in months, for what it belongs to, each year or every few years."""

from __future__ import annotations

import datetime as dt

import pytest
from dated_plantings import CLIMATE, D, dates, day
from making import bed, catalogue_of, crop, garden, planting

from planner.amounts.tasks import planting_tasks, tasks
from planner.crops import load_catalogue
from planner.garden import Planting, Site, Support
from planner.garden import edits as e
from planner.listings.tasks import task_words
from planner.plan import Plan
from planner.season.planting_dates import CareDays, Dates


def a_crop(*care: dict, **figures):
    """A crop set out on 1 May, picked from 30 June for 41 days by hand."""
    given = {"starts": {"value": ["bought"], "source": "practice"}, "set_out_from": 0, "days_to_maturity": 60, "harvest_days": 41}  # fmt: skip
    one = crop("one", **(given | figures))
    return one.model_validate(
        one.model_dump() | {"aftercare": [{"source": "practice", **entry} for entry in care]}
    )


def of(one, southern: bool = False, **fields) -> Dates:
    pins = {"first_harvest": D(2026, 6, 30), "last_harvest": D(2026, 8, 9)}
    site = {"site": Site(latitude=-45.0)} if southern else {}
    return dates(
        "one", shelf=catalogue_of(one), **{"first": D(2026, 5, 1), "pinned_dates": pins, **site, **fields}
    )


def only(found: Dates) -> CareDays:
    (care,) = found.aftercare
    return care


@pytest.mark.parametrize(
    ("when", "due", "why"),
    [
        ({"after": "start", "days": -42}, D(2026, 3, 20), "42 days before planting"),
        ({"after": "start", "days": 1}, D(2026, 5, 2), "1 day after planting"),
        ({"after": "start"}, D(2026, 5, 1), "On the day of planting"),
        ({"after": "first harvest", "days": -21}, D(2026, 6, 9), "21 days before the first harvest"),
        ({"after": "last harvest", "days": -7}, D(2026, 8, 2), "7 days before the last harvest"),
        ({"after": "clearing"}, D(2026, 8, 9), "When its plot is cleared"),
        ({"month": 6}, D(2026, 6, 1), "Usual in June"),
        ({"month": 6, "to_month": 7}, D(2026, 6, 1), "Usual from June to July"),
    ],
)  # fmt: skip
def test_work_is_counted_from_the_days_of_its_planting(when, due, why):
    care = only(of(a_crop({"task": "mulch", **when})))
    assert (care.on.day, care.on.why, care.on.source, care.on.origin) == (due, why, "practice", "worked out")


@pytest.mark.parametrize(
    "when",
    [
        {"after": "last harvest", "days": 1},  # cleared by then
        {"after": "first frost", "days": -56},  # 21 August
        {"after": "first harvest", "days": -61},  # the day before it is planted
        {"after": "last frost", "days": -1},
        {"after": "flowering"},  # not known of it
        {"month": 9},
        {"after": "start", "days": 20, "every_days": 7, "until": "start", "until_days": 10},
    ],
)  # fmt: skip
def test_there_is_none_outside_of_the_planting_or_where_its_day_is_not_known(when):
    assert of(a_crop({"task": "mulch", **when})).aftercare == ()


def test_work_done_again_and_again_goes_on_until_its_end_or_the_clearing():
    again = {"task": "pinch out", "after": "start", "days": 21, "every_days": 7, "until": "last harvest"}
    care = only(of(a_crop(again | {"until_days": -14})))
    assert (care.on.day, care.until, care.every) == (D(2026, 5, 22), D(2026, 7, 26), 7)
    assert only(of(a_crop(again | {"until_days": 14}))).until == D(2026, 8, 9)


def test_months_are_half_a_year_later_south_of_the_equator():
    care = only(
        of(
            a_crop({"task": "prune", "month": 12, "to_month": 1}),
            southern=True,
            first=D(2026, 5, 1),
            pinned_dates={"first_harvest": D(2026, 9, 1), "last_harvest": D(2026, 9, 30)},
        )
    )
    assert (care.on.day, care.until, care.on.why) == (
        D(2026, 6, 1),
        D(2026, 7, 31),
        "Usual from June to July",
    )


def test_work_belongs_to_a_way_to_start_and_to_kinds_of_support():
    chit = a_crop({"task": "chit", "after": "start", "days": -42, "starts": ["tubers"]})
    assert (len(of(chit, start="tubers").aftercare), of(chit).aftercare) == (1, ())
    cordon = a_crop({"task": "pinch out", "after": "start", "days": 21, "supports": ["stake"]})
    assert of(cordon).aftercare == ()
    assert of(cordon, support=Support(kind="cage")).aftercare == ()
    assert only(of(cordon, support=Support(kind="stake"))).kind == "pinch out"


@pytest.mark.parametrize(("first", "chitted"), [(D(2026, 5, 1), True), (D(2026, 7, 10), False)])
def test_tubers_planted_in_summer_are_not_sprouted_first(catalogue, first, chitted):
    found = dates("potato", shelf=catalogue, start="tubers", first=first)
    assert (found.care_day("chit") is not None) == chitted


def test_a_green_manure_has_none():
    assert of(a_crop({"task": "mulch", "after": "start"}), purpose="green manure").aftercare == ()


def test_potatoes_are_earthed_up_twice_and_tomatoes_stopped_eight_weeks_before_the_frost(catalogue):
    potato = dates("potato", shelf=catalogue)
    first, again = potato.care_day("earth up"), potato.care_day("earth up again")
    assert first is not None
    assert again is not None
    assert 14 <= (again.day - first.day).days <= 21, "two to three weeks later"
    tomato = dates("tomato", shelf=catalogue, support=Support(kind="stake"))
    assert day(tomato.care_day("stop")) == D(2026, 10, 16) - dt.timedelta(days=56)
    assert {"tie in", "pinch out", "feed"} <= {care.kind for care in tomato.aftercare}
    bush = {care.kind for care in dates("tomato", shelf=catalogue, support=Support(kind="cage")).aftercare}
    assert bush == {"feed"}


# -- what stays for years -------------------------------------------------------------------------


def in_years(
    catalogue, one: Planting, kind: str, years=range(2020, 2034), document=None
) -> dict[int, dt.date]:
    """The day of a kind of work in each year in which it is due."""
    made = document or garden(bed(), one, climate=CLIMATE)
    found = {year: Plan(made, year, catalogue).dates(one).care_day(kind) for year in years}
    return {year: dated.day for year, dated in found.items() if dated is not None}


def planted(key: str, **fields) -> Planting:
    return planting(crop=key, **{"start": "crowns", "year": 2020, "first": D(2020, 4, 1), **fields})


def test_rhubarb_is_divided_every_five_years_and_strawberries_renewed_after_their_third_harvest(catalogue):
    assert list(in_years(catalogue, planted("rhubarb"), "divide")) == [2025, 2030]
    assert list(in_years(catalogue, planted("strawberry"), "renew")) == [2024, 2028, 2032]


def test_a_division_that_was_done_counts_for_the_next_one(catalogue):
    one = planted("rhubarb")
    made = e.tick(garden(bed(), one, climate=CLIMATE), "p1", "divide", D(2027, 3, 12))
    assert in_years(catalogue, one, "divide", document=made) == {
        2025: D(2025, 3, 1),
        2027: D(2027, 3, 12),
        2032: D(2032, 3, 1),
    }


def test_bushes_are_pruned_from_their_first_winter_on_and_those_found_grown_at_once(catalogue):
    assert min(in_years(catalogue, planted("red_currant", start="bought"), "prune")) == 2021
    assert (
        min(in_years(catalogue, planted("red_currant", start="standing", first=D(2020, 1, 1)), "prune"))
        == 2020
    )


@pytest.mark.parametrize(
    ("picked", "task"), [(D(2026, 7, 1), "fruited canes"), (D(2026, 8, 20), "all canes")]
)
def test_raspberries_of_summer_and_of_autumn_are_cut_in_their_own_way(catalogue, picked, task):
    one = planted("raspberry", pinned_dates={"first_harvest": picked})
    found = Plan(garden(bed(), one, climate=CLIMATE), 2026, catalogue).dates(one)
    (prune,) = [care for care in found.aftercare if care.kind == "prune"]
    assert prune.task == task
    assert found.last_harvest is not None
    if task == "fruited canes":
        assert prune.on.day > found.last_harvest.day
    else:
        assert (prune.on.day, prune.until) == (D(2026, 2, 1), D(2026, 3, 31))


def test_asparagus_is_cut_down_after_the_frost_of_each_year(catalogue):
    found = in_years(catalogue, planted("asparagus"), "cut back", range(2020, 2024))
    assert found == {year: D(year, 10, 16) + dt.timedelta(days=21) for year in range(2020, 2024)}


# -- in the list of work --------------------------------------------------------------------------


def staked(**fields) -> tuple[Plan, Planting]:
    one = planting(
        crop="tomato", first=D(2026, 5, 20), start="bought", support=Support(kind="stake"), **fields
    )
    return Plan(garden(bed(name="Long bed"), one, climate=CLIMATE), 2026, load_catalogue()), one


def test_it_is_listed_with_its_days_and_how_often_it_is_done():
    plan, one = staked()
    work = {task.kind: task for task in planting_tasks(plan, one)}
    shoots = work["pinch out"]
    assert shoots.text == "Pinch out the side shoots of tomato in Long bed, every 7 days."
    assert task_words(shoots)[0] == "Pinch out the side shoots of tomato, every 7 days"
    assert shoots.date < shoots.until
    assert (shoots.source, shoots.why) == ("tm_sideshoots", "21 days after planting")
    assert work["stop"].text == "Stop tomato in Long bed: pinch out the growing tips."
    assert list(work) == [task.kind for task in tasks(plan)]


def test_it_is_ticked_off_and_taken_back():
    plan, one = staked()
    after = plan.after(e.tick(plan.garden, "p1", "pinch out", D(2026, 6, 13)))
    shoots = next(task for task in planting_tasks(after, one) if task.kind == "pinch out")
    assert (shoots.until, shoots.done, shoots.origin) == (D(2026, 6, 13), D(2026, 6, 13), "done")
    assert shoots.date <= D(2026, 6, 13)  # it answers what was due until then
    assert "side shoots" in shoots.text
    back = after.after(e.untick(after.garden, "p1", "pinch out"))
    assert planting_tasks(back, one) == planting_tasks(plan, one)


@pytest.mark.parametrize("kind", ["mulch", "earth up"])
def test_a_record_of_work_that_its_crop_does_not_need_is_kept_in_the_list(catalogue, kind):
    """Files of before hold such records: every crop that stays was mulched."""
    one = planting(crop="lavender", start="standing", year=2024, first=D(2024, 3, 1))
    made = e.tick(garden(bed(), one, climate=CLIMATE), "p1", kind, D(2026, 4, 2))
    (task,) = [task for task in planting_tasks(Plan(made, 2026, catalogue), one) if task.kind == kind]
    assert (task.date, task.done, task.text) == (
        D(2026, 4, 2),
        D(2026, 4, 2),
        {"mulch": "Mulch lavender in b1.", "earth up": "Earth up lavender in b1."}[kind],
    )
    assert kind not in {task.kind for task in planting_tasks(Plan(made, 2025, catalogue), one)}


def test_chitting_lies_ahead_of_the_planting_and_is_in_the_list_of_that_time(catalogue):
    one = planting(crop="potato", start="tubers", first=D(2026, 4, 10))
    plan = Plan(garden(bed(), one, climate=CLIMATE), 2026, catalogue)
    assert {task.kind for task in tasks(plan, D(2026, 2, 20), D(2026, 3, 5))} == {"chit"}
    with pytest.raises(e.EditError, match="'chit' on 2026-04-20"):
        e.tick(e.tick(plan.garden, "p1", "set out", D(2026, 4, 10)), "p1", "chit", D(2026, 4, 20))


@pytest.mark.parametrize("early", [10, 30])
def test_an_early_picking_makes_no_work_ahead_of_it_overdue(early: int) -> None:
    """Runner beans are pinched out when they reach the top of their poles, as worked out, however soon the first pod is picked."""
    beans = planting(crop="runner_bean", start="sown", support=Support(kind="stake"))
    before = garden(bed(), beans, site=Site(latitude=56.0), climate=CLIMATE)
    plan = Plan(before, 2026)
    first = plan.dates(beans).first_harvest
    assert first is not None
    picked = {"kind": "first picking", "planting": "p1", "day": first.day - dt.timedelta(early)}
    after, _ = e.add_records(before, [picked])
    (care,), (same,) = plan.dates(beans).aftercare, Plan(after, 2026).dates(after.plantings[0]).aftercare
    assert care.task == "top of the poles"
    assert same == care
