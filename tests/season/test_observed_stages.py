"""What was seen of a planting moves its dates; what its records do not speak of stays.

The harvest after a stage that was seen on another day is held against a plain sum of degree-days, day by day.
"""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest
from making import bed, garden, planting, ticked

from planner.checks import check_all
from planner.crops import load_catalogue
from planner.garden import Climate, FrostDates, Garden, Planting, Site
from planner.garden import edits as e
from planner.garden.edits import EditError
from planner.plan import Plan
from planner.season.date_inputs import context_of
from planner.season.development import need_of
from planner.season.temperatures import day_of_year_index

D = dt.date
CATALOGUE = load_catalogue()
CLIMATE = Climate(
    last_frost=FrostDates(risk_90="04-18", risk_50="05-06", risk_10="05-24"),
    first_frost=FrostDates(risk_10="09-27", risk_50="10-17", risk_90="11-06"),
    monthly_minimum=(0.4, 0.4, 1.5, 3.0, 5.6, 8.5, 10.4, 10.2, 8.3, 5.6, 2.7, 0.6),
    monthly_maximum=(6.5, 7.1, 9.1, 11.8, 14.9, 17.4, 19.1, 18.8, 16.2, 12.6, 9.0, 6.7),
)
NO_MEANS = CLIMATE.with_(monthly_minimum=None, monthly_maximum=None, last_frost=None, first_frost=None)


def made(*records: dict[str, Any], climate: Climate = CLIMATE, **fields: Any) -> Garden:
    base = garden(
        bed("b1", name="North"),
        planting("p1", **{"first": D(2026, 4, 20), **fields}),
        site=Site(latitude=54.0, longitude=-2.0),
        climate=climate,
    )
    return e.add_records(base, [{"planting": "p1", **one} for one in records])[0]


def dates_of(one: Garden) -> Any:
    plan = Plan(one, 2026, CATALOGUE)
    return plan.dates(one.plantings_by_id["p1"])


def heat_day_by_day(one: Garden, first: dt.date, until: dt.date) -> float:
    """Degree-days of its crop from one day to another, summed in a plain loop over the days."""
    plan = Plan(one, 2026, CATALOGUE)
    inputs = plan._date_inputs(plan._facts_of(one.plantings_by_id["p1"]))
    context = context_of(inputs)
    need = need_of(context)
    assert need is not None
    assert context.weather is not None
    summed = context.weather.sums(need.response, need.slows)
    found, day = 0.0, first
    while day < until:
        at = day_of_year_index(first) + (day - first).days
        found += float(summed[at + 1] - summed[at])
        day += dt.timedelta(1)
    return found


def test_seedlings_that_come_up_late_are_picked_after_the_same_heat():
    usual = dates_of(made())
    up = usual.emerge.day + dt.timedelta(9)
    later = dates_of(made({"kind": "came up", "day": up}))
    assert (later.emerge.day, later.emerge.origin) == (up, "done")
    assert later.first_harvest.day > usual.first_harvest.day
    wanted = heat_day_by_day(made(), usual.emerge.day, usual.first_harvest.day)
    found = heat_day_by_day(made(), up, later.first_harvest.day)
    before = heat_day_by_day(made(), up, later.first_harvest.day - dt.timedelta(1))
    a_day = wanted - heat_day_by_day(made(), usual.emerge.day, usual.first_harvest.day - dt.timedelta(1))
    assert (
        before <= wanted + 1e-6
    )  # the day before it was not yet warm enough, but for the part of a day of the usual one
    assert found >= wanted - a_day
    assert "9 days later than worked out" in later.first_harvest.why


def test_seedlings_that_come_up_soon_are_picked_sooner():
    usual = dates_of(made())
    sooner = dates_of(made({"kind": "came up", "day": usual.emerge.day - dt.timedelta(5)}))
    assert sooner.first_harvest.day < usual.first_harvest.day
    assert "5 days sooner" in sooner.first_harvest.why


def test_as_worked_out_changes_no_day():
    usual = dates_of(made())
    same = dates_of(made({"kind": "came up", "day": usual.emerge.day}))
    assert same.first_harvest.day == usual.first_harvest.day


def test_where_no_temperatures_are_known_the_harvest_moves_by_the_days():
    usual = dates_of(made(climate=NO_MEANS))
    up = usual.emerge.day + dt.timedelta(6)
    later = dates_of(made({"kind": "came up", "day": up}, climate=NO_MEANS))
    assert (later.first_harvest.day - usual.first_harvest.day).days == 6


def test_flowers_that_come_late_delay_what_is_picked_of_them():
    fields = {"crop": "courgette", "first": D(2026, 6, 5)}
    usual = dates_of(made(**fields))
    assert usual.flower is not None
    seen = usual.flower.day + dt.timedelta(8)
    later = dates_of(made({"kind": "flowering", "day": seen}, **fields))
    assert later.flower.day == seen
    assert later.first_harvest.day > usual.first_harvest.day


@pytest.mark.parametrize(
    ("record", "first"),
    [
        ({"kind": "first picking", "day": D(2026, 7, 1)}, D(2026, 7, 1)),
        ({"kind": "ripe", "day": D(2026, 7, 3)}, D(2026, 7, 3)),
        ({"kind": "picked", "day": D(2026, 7, 5), "amount": {"value": 300, "unit": "g"}}, D(2026, 7, 5)),
    ],
)
def test_picking_begins_with_what_was_recorded(record, first):
    found = dates_of(made(record)).first_harvest
    assert (found.day, found.origin) == (first, "done")


def test_a_first_picking_comes_before_ripe_and_before_amounts():
    records = (
        {"kind": "ripe", "day": D(2026, 6, 28)},
        {"kind": "picked", "day": D(2026, 7, 5), "amount": {"value": 300, "unit": "g"}},
        {"kind": "first picking", "day": D(2026, 7, 1)},
        {"kind": "last picking", "day": D(2026, 7, 20)},
    )
    found = dates_of(made(*records))
    assert (found.first_harvest.day, found.last_harvest.day) == (D(2026, 7, 1), D(2026, 7, 20))


def test_a_tick_of_picking_comes_before_all_of_them():
    one = made({"kind": "first picking", "day": D(2026, 7, 1)})
    one = one.with_(records=(*one.records, ticked("p1", "pick", D(2026, 7, 2))))
    assert dates_of(one).first_harvest.day == D(2026, 7, 2)


# -- outcomes -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("why", ["failed", "eaten", "frozen", "resown", "bolted"])
def test_what_was_lost_is_picked_no_more_and_blamed_for_nothing(why):
    lost = made({"kind": "ended", "day": D(2026, 5, 20), "why": why})
    found = dates_of(lost)
    assert found.clear.day == D(2026, 5, 20)
    assert found.first_harvest is None
    assert "lost on 20 May" in " ".join(found.missing)
    findings = check_all(Plan(lost, 2026, CATALOGUE), light=False)
    assert not [one for one in findings if one.check == "season"]


def test_what_was_picked_before_it_was_lost_was_picked():
    found = dates_of(
        made(
            {"kind": "first picking", "day": D(2026, 7, 1)},
            {"kind": "ended", "day": D(2026, 7, 9), "why": "eaten"},
        )
    )
    assert (found.first_harvest.day, found.last_harvest.day) == (D(2026, 7, 1), D(2026, 7, 9))


def test_ground_of_what_ended_is_free_for_what_follows():
    lost = made({"kind": "ended", "day": D(2026, 5, 20), "why": "failed"})
    plan = Plan(lost, 2026, CATALOGUE)
    assert plan.span_of(lost.plantings_by_id["p1"]).last == D(2026, 5, 20)


def test_sown_anew_knows_what_it_replaces():
    one, key = e.sow_anew(made(), "p1", D(2026, 5, 20))
    new = one.plantings_by_id[key]
    assert (new.replaces, new.first, new.plot, new.crop) == (
        "p1",
        D(2026, 5, 20),
        one.plantings_by_id["p1"].plot,
        "carrot",
    )
    assert one.outcome(one.plantings_by_id["p1"]).why == "resown"
    findings = check_all(Plan(one, 2026, CATALOGUE), light=False)
    assert not [found for found in findings if found.check in ("overlap", "rotation")]
    with pytest.raises(EditError, match="ended on 2026-05-20 already"):
        e.sow_anew(one, "p1", D(2026, 6, 1))
    assert e.remove(one, ["p1"]).plantings_by_id[key].replaces is None


@pytest.mark.parametrize("came_from", ["self-sown", "given"])
def test_nothing_is_needed_for_what_came_by_itself_or_was_given(came_from):
    from planner.amounts.plants import amount

    one = made(came_from=came_from)
    found = amount(Plan(one, 2026, CATALOGUE), one.plantings_by_id["p1"])
    assert (found.seeds, found.acquire, found.raise_) == (0, 0, 0)
    assert found.plants > 0


# -- records that speak of nothing ------------------------------------------------------------------------


@pytest.mark.parametrize(
    "record",
    [
        {"kind": "note", "words": "rained all day"},
        {"kind": "lesson", "words": "net it at once"},
        {"kind": "seen", "harm": "slugs", "share": 0.3},
        {"kind": "measured", "measure": "height", "value": 0.3, "unit": "m"},
        {"kind": "done", "words": "watered"},
    ],
    ids=lambda record: record["kind"],
)
def test_records_that_tell_no_day_change_no_date_and_no_fact(record):
    plain = made()
    plan = Plan(plain, 2026, CATALOGUE)
    before = plan.dates(plain.plantings_by_id["p1"])
    after, _ = e.add_records(plain, [{"planting": "p1", "day": D(2026, 5, 1), **record}])
    followed = plan.after(after)
    assert followed.dates(after.plantings_by_id["p1"]) is before


def test_one_plantings_record_moves_no_other():
    two = e.add_planting(made(), "b1", "pea", 2026, first=D(2026, 4, 1))[0]
    plan = Plan(two, 2026, CATALOGUE)
    before: dict[str, Any] = {one.id: plan.dates(one) for one in two.plantings}
    after, _ = e.add_records(two, [{"kind": "came up", "planting": "p1", "day": D(2026, 5, 30)}])
    follow = plan.after(after)
    moved = {one.id for one in after.plantings if follow.dates(one) != before[one.id]}
    assert moved == {"p1"}


def test_a_planting_that_stays_has_a_picking_for_each_year():
    rhubarb: dict[str, Any] = {"crop": "rhubarb", "start": "standing", "first": D(2022, 4, 1), "year": 2022}
    records = [
        {"kind": "picked", "day": day, "amount": {"value": 800, "unit": "g"}}
        for day in (D(2025, 5, 2), D(2025, 6, 1), D(2026, 4, 25), D(2026, 5, 20))
    ]
    one = made(*records, **rhubarb)
    for year, first in ((2025, D(2025, 5, 2)), (2026, D(2026, 4, 25))):
        assert Plan(one, year, CATALOGUE).dates(one.plantings_by_id["p1"]).first_harvest.day == first
    assert isinstance(one.plantings_by_id["p1"], Planting)


def test_picking_that_has_begun_goes_on_until_the_last_or_the_end():
    from planner.amounts.tasks import planting_tasks

    def pick(*records: dict[str, Any]) -> Any:
        one = made(*records)
        work = planting_tasks(Plan(one, 2026, CATALOGUE), one.plantings_by_id["p1"])
        return next(task for task in work if task.kind == "pick")

    first = {"kind": "first picking", "day": D(2026, 8, 1)}
    begun = pick(first)
    assert (begun.date, begun.done) == (D(2026, 8, 1), None)
    assert begun.until > begun.date
    assert pick(first, {"kind": "last picking", "day": D(2026, 8, 20)}).done == D(2026, 8, 1)


def test_nothing_more_is_done_on_what_is_gone():
    from planner.amounts.tasks import planting_tasks

    one = made({"kind": "ended", "day": D(2026, 5, 20), "why": "eaten"})
    work = planting_tasks(Plan(one, 2026, CATALOGUE), one.plantings_by_id["p1"])
    assert [task.kind for task in work if task.date > D(2026, 5, 20)] == []
    assert "clear" in {task.kind for task in work if task.done is not None}


def test_a_winter_root_that_came_up_late_is_picked_some_weeks_later_and_not_after_another_summer():
    """It is never later by more days than it came up later, and its picking still ends in the same spring."""
    fields = {"crop": "parsnip", "first": D(2026, 4, 15)}
    usual = dates_of(made(**fields))
    found = []
    for late in range(1, 60, 2):
        up = usual.emerge.day + dt.timedelta(late)
        found.append((late, dates_of(made({"kind": "came up", "day": up}, **fields))))
    firsts = [one.first_harvest.day for _, one in found]
    assert firsts == sorted(firsts)
    assert all((one.first_harvest.day - usual.first_harvest.day).days <= late for late, one in found)
    assert {one.last_harvest.day for _, one in found} == {usual.last_harvest.day}
    assert "as large as it is" in found[-1][1].first_harvest.why


def test_how_long_it_is_picked_goes_by_the_crop_and_not_by_when_it_came_up():
    fields = {"crop": "carrot", "first": D(2026, 4, 1)}
    usual = dates_of(made(**fields))
    sooner = dates_of(made({"kind": "came up", "day": usual.emerge.day - dt.timedelta(5)}, **fields))
    again = [made(**{**fields, "first": D(2026, 4, 1) - dt.timedelta(k)}) for k in range(20)]
    same = [dates_of(one) for one in again]
    match = next(one for one in same if one.first_harvest.day == sooner.first_harvest.day)
    assert sooner.last_harvest.day == match.last_harvest.day  # sown sooner, or up sooner: picked as long
